"""Laws that hold for every ladder truss on lines that only pull.

Sources: equilibrium, and the Maxwell-Betti theorem of reciprocal displacements (any text on structural analysis); the
mirror and scale laws follow from the equations being blind to direction and linear within one set of slack lines.
"""

from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis.strategies import floats, integers

from counterpoise.statics import (
    ChordLoads,
    HangingLadder,
    Ladder,
    Line,
    Load,
    PointLoad,
    SpreadLoad,
    Tips,
    hang_ladder,
)
from tests.ladders import Truss, random_ladder

seeds = integers(0, 10**9)
shares = floats(0.0, 1.0)


def at_rest(truss: Truss) -> HangingLadder:
    answer = hang_ladder(*truss)
    assume(isinstance(answer, HangingLadder))
    assert isinstance(answer, HangingLadder)
    return answer


@settings(max_examples=60)
@given(seeds)
def test_the_lines_carry_everything_about_its_centre_or_the_truss_tips(seed: int) -> None:
    ladder, lines, loads = random_ladder(seed)
    answer = hang_ladder(ladder, lines, loads)
    if isinstance(answer, Tips):
        assert not lines[0].x <= loads.first / loads.weight <= lines[-1].x
        return
    assert sum(answer.tensions) == pytest.approx(loads.weight, rel=1e-11)
    lever = sum(t * line.x for t, line in zip(answer.tensions, lines, strict=True))
    assert lever == pytest.approx(loads.first, abs=1e-10 * loads.weight * ladder.length)


@settings(max_examples=60)
@given(seeds)
def test_a_line_pulls_where_the_truss_stretches_it_and_only_there(seed: int) -> None:
    truss = random_ladder(seed)
    answer = at_rest(truss)
    size = max(abs(answer.top.deflection(truss[0].length * k / 20)) for k in range(21)) + 1e-6
    for line, pull, gap in zip(truss[1], answer.tensions, answer.gaps, strict=True):
        drop = answer.top.deflection(line.x)
        assert pull >= 0.0
        assert gap >= 0.0
        assert pull == 0.0 or gap == 0.0
        assert drop == pytest.approx(line.offset + line.flexibility * pull - gap, abs=1e-8 * size)


@settings(max_examples=60)
@given(seeds)
def test_the_chords_together_carry_the_moment_of_the_truss(seed: int) -> None:
    # A cut anywhere: M of top and bottom chord and the couple of push and pull balance loads and pulls on one side.
    truss = random_ladder(seed)
    ladder, lines, loads = truss
    answer = at_rest(truss)
    for k in range(1, 20):
        x = ladder.length * k / 20 + 1e-4
        moment = sum(t * (x - line.x) for t, line in zip(answer.tensions, lines, strict=True) if line.x < x)
        for load in (*loads.top, *loads.bottom):
            if isinstance(load, PointLoad):
                moment -= load.force * max(x - load.x, 0.0)
            elif load.start < x:
                end = min(load.end, x)
                moment -= load.per_length * (end - load.start) * (x - 0.5 * (load.start + end))
        inside = answer.top.moment(x) + answer.bottom.moment(x) + answer.bottom.axial(x) * ladder.depth
        assert inside == pytest.approx(moment, abs=1e-9 * answer.weight * ladder.length)


@settings(max_examples=60)
@given(seeds)
def test_the_mirror_image_hangs_as_the_mirror_image(seed: int) -> None:
    truss = random_ladder(seed)
    answer, mirrored = at_rest(truss), at_rest(mirror(*truss))
    assert mirrored.tensions[::-1] == pytest.approx(answer.tensions, abs=1e-9 * answer.weight)
    drop = max(abs(answer.bottom.deflection(truss[0].length * k / 9)) for k in range(10))
    for k in range(10):
        x = truss[0].length * k / 9
        there = mirrored.bottom.deflection(truss[0].length - x)
        assert there == pytest.approx(answer.bottom.deflection(x), abs=1e-8 * drop)


def mirror(ladder: Ladder, lines: list[Line], loads: ChordLoads) -> Truss:
    length = ladder.length

    def turned(load: Load) -> Load:
        if isinstance(load, PointLoad):
            return PointLoad(x=length - load.x, force=load.force)
        return SpreadLoad(start=max(length - load.end, 0.0), end=length - load.start, per_length=load.per_length)

    return (
        replace(ladder, spacers=tuple(length - x for x in reversed(ladder.spacers))),
        [replace(line, x=length - line.x) for line in reversed(lines)],
        ChordLoads(bottom=tuple(map(turned, loads.bottom)), top=tuple(map(turned, loads.top))),
    )


@settings(max_examples=60)
@given(seeds, shares, shares)
def test_two_places_are_reciprocal_while_the_same_lines_carry(seed: int, one: float, other: float) -> None:
    # Maxwell: what a small load on the bottom chord at A drops the top chord at B, it does the other way round.
    ladder, lines, loads = random_ladder(seed)
    base = at_rest((ladder, lines, loads))
    a, b, small = one * ladder.length, other * ladder.length, 1e-3 * base.weight
    at_a = at_rest((ladder, lines, replace(loads, bottom=(*loads.bottom, PointLoad(x=a, force=small)))))
    at_b = at_rest((ladder, lines, replace(loads, top=(*loads.top, PointLoad(x=b, force=small)))))
    assume(base.carrying == at_a.carrying == at_b.carrying)
    drop = at_a.top.deflection(b) - base.top.deflection(b)
    back = at_b.bottom.deflection(a) - base.bottom.deflection(a)
    size = max(abs(base.top.deflection(ladder.length * k / 9)) for k in range(10)) + 1e-6
    assert drop == pytest.approx(back, abs=1e-7 * size)


@settings(max_examples=60)
@given(seeds, floats(0.1, 10.0))
def test_twice_the_weight_and_twice_the_trim_is_twice_of_everything(seed: int, times: float) -> None:
    ladder, lines, loads = random_ladder(seed)

    def grown(load: Load) -> Load:
        if isinstance(load, PointLoad):
            return replace(load, force=times * load.force)
        return replace(load, per_length=times * load.per_length)

    more = ChordLoads(bottom=tuple(map(grown, loads.bottom)), top=tuple(map(grown, loads.top)))
    answer = at_rest((ladder, lines, loads))
    other = at_rest((ladder, [replace(line, offset=times * line.offset) for line in lines], more))
    assert other.tensions == pytest.approx([times * t for t in answer.tensions], abs=1e-9 * other.weight)
    for ours, theirs in zip(answer.members, other.members, strict=True):
        assert theirs.stress == pytest.approx(times * ours.stress, rel=1e-6, abs=1.0)


@settings(max_examples=60)
@given(seeds)
def test_the_forces_at_the_ends_of_every_bar_are_those_of_the_chords_spread_out(seed: int) -> None:
    # two ways: from the rings, and marched from end to end; each with a proof of its own
    truss = random_ladder(seed)
    answer = at_rest(truss)
    force, moment = 1e-11 * answer.weight, 1e-11 * answer.weight * truss[0].length
    for quick, full in zip(answer.end_forces, answer.members, strict=True):
        assert quick[:3] == full[:3]
        assert quick[3:6] == pytest.approx(full[3:6], abs=force)
        assert quick[6:8] == pytest.approx(full[6:8], abs=moment)
