"""Room left on a ladder truss, and its answer to a moved load, held against hanging it afresh."""

import pytest

from counterpoise.statics import (
    ChordLoads,
    HangingLadder,
    LadderLimits,
    Line,
    PointLoad,
    Room,
    Row,
    Tips,
    hang_ladder,
    response_on_ladder,
    room_on_ladder,
)
from tests.ladders import Truss, random_ladder


def over(truss: Truss, limits: LadderLimits, x: float, force: float) -> set[object]:
    """Limits broken with a load at x on the bottom chord, by a fresh solution."""
    ladder, lines, loads = truss
    more = ChordLoads(bottom=(*loads.bottom, PointLoad(x=x, force=force)), top=loads.top)
    answer = hang_ladder(ladder, lines, more)
    if isinstance(answer, Tips):
        return {"tips"}
    broken: set[object] = {k for k, row in enumerate(limits.rows) if row.value(answer.tensions) > row.limit}
    allowed = {"top": limits.top_stress, "bottom": limits.bottom_stress, "spacer": limits.spacer_stress}
    for one in answer.members:
        limit = allowed[one.part]
        if limit is not None and one.stress > limit:
            broken.add({"top": "top chord", "bottom": "bottom chord"}.get(one.part, one.part))
    for chord in (answer.top, answer.bottom):
        for start, end, sag, _ in chord.largest_sags:
            if limits.sag_ratio is not None and abs(sag) > limits.sag_ratio * (end - start):
                broken.add("sag")
    return broken


def limits_for(answer: HangingLadder, lines: list[Line]) -> LadderLimits:
    """Limits a little above what stands."""
    parts = {p: max(one.stress for one in answer.members if one.part == p) for p in ("top", "bottom", "spacer")}
    sags = [
        abs(sag) / (end - start) for chord in (answer.top, answer.bottom) for start, end, sag, _ in chord.largest_sags
    ]
    rows = tuple(
        Row(coefficients=tuple(float(k == i) for k in range(len(lines))), limit=1.5 * max(answer.tensions))
        for i in range(len(lines))
    )
    return LadderLimits(
        rows=rows,
        top_stress=1.4 * parts["top"],
        bottom_stress=1.4 * parts["bottom"],
        spacer_stress=1.4 * parts["spacer"],
        sag_ratio=1.5 * max(sags),
    )


def test_just_below_the_room_all_is_within_and_just_above_the_named_limit_is_over() -> None:
    named: set[object] = set()
    seed = 0
    while seed < 40:
        truss = random_ladder(seed)
        seed += 1
        answer = hang_ladder(*truss)
        if isinstance(answer, Tips):
            continue
        limits = limits_for(answer, truss[1])
        xs = [truss[0].length * k / 6 for k in range(7)]
        for room in room_on_ladder(*truss, limits, xs, cap=2.0e4):
            if room.which is None:
                assert room.force == pytest.approx(2.0e4)
                continue
            below, above = room.force * (1 - 1e-6), room.force * (1 + 1e-6) + 1e-3
            assert over(truss, limits, room.x, below) == set(), (seed, room)
            assert room.which in over(truss, limits, room.x, above), (seed, room)
            named.add(room.which if isinstance(room.which, str) else "row")
    assert named >= {"row", "top chord", "bottom chord", "spacer", "sag", "tips"}


def test_a_truss_that_is_over_or_tips_has_no_room() -> None:
    truss = next(random_ladder(k) for k in range(50) if isinstance(hang_ladder(*random_ladder(k)), HangingLadder))
    rooms = room_on_ladder(*truss, LadderLimits(top_stress=1.0), [1.0])
    assert rooms == (Room(x=1.0, force=0.0, which="top chord"),)
    tipping = next(random_ladder(k) for k in range(50) if isinstance(hang_ladder(*random_ladder(k)), Tips))
    assert room_on_ladder(*tipping, LadderLimits(), [1.0]) == (Room(x=1.0, force=0.0, which="tips"),)


def test_a_load_moved_along_the_truss_is_answered_as_if_hung_there() -> None:
    ladder, lines, loads = truss = next(
        random_ladder(k) for k in range(50) if isinstance(hang_ladder(*random_ladder(k)), HangingLadder)
    )
    xs = [0.05, 0.3 * ladder.length, 0.6 * ladder.length]
    moved = ChordLoads(bottom=(PointLoad(x=0.0, force=60.0),), top=(PointLoad(x=0.1, force=30.0),))
    for x, answer in zip(xs, response_on_ladder(*truss, moved, xs), strict=True):
        more = ChordLoads(
            bottom=(*loads.bottom, PointLoad(x=x, force=60.0)), top=(*loads.top, PointLoad(x=x + 0.1, force=30.0))
        )
        assert answer == hang_ladder(ladder, lines, more)
