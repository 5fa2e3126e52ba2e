"""Room left is a promise: hung for real, that load is within the rows that room is looked at for."""

from __future__ import annotations

import pytest

from counterpoise.app.room import BY_COUNT, room_at, room_of
from counterpoise.checks import SetResult, Verdict
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, hung, judged
from tests.random_houses import drawn

OF_HANGING = ("batten", "sag", "trim chain", "shackle", "lift line", "loft block", "head block", "loft beam")


def _with(weight: str, extra: float = 0.0, at: float = 0.0) -> SetResult:
    """A piece of that weight 4 ft SL, and 99.9 % of a load [lb] so many feet stage left."""
    pieces, places = [a_piece(weight=weight, spread_over="13 ft")], [hung(centre="4' SL")]
    if extra:
        pieces.append(a_piece("lamp", f"{0.999 * extra:.6f} lb", picks=["CL"], height="1 ft"))
        places.append(hung("lamp", centre=f"{abs(at):.6f}' {'SL' if at > 0 else 'SR'}"))
    return judged(a_house(a_set()), pieces, places).sets[0]


# A load beside it in the next span relieves the sag of the span where room is asked for: with the piece at its heaviest
# alone, the room told there was past the sag with the piece as it most likely is.
@pytest.mark.parametrize("weight", ["200 lb", "~200 lb", "100..300 lb"])
def test_the_room_left_beside_a_weight_in_doubt_is_within_when_it_is_hung(weight: str) -> None:
    one = _with(weight)
    assert one.batten is not None
    curve = room_of(judged(a_house(a_set())).house, one)
    assert curve.points
    for x, force in list(curve.points)[3::10]:
        found = _with(weight, force / LB, x / FT - 21.0)
        bad: Map = {row.place: row.use for row in found.rows if row.link in OF_HANGING}
        assert all(row.verdict is Verdict.WITHIN for row in found.rows if row.link in OF_HANGING), (x / FT - 21.0, bad)


def test_with_too_much_in_doubt_to_look_at_every_end_room_left_is_unknown() -> None:
    pieces = [a_piece(f"p{n}", "~20 lb", spread_over="3 ft") for n in range(7)]  # 128 corners
    result = judged(a_house(a_set()), pieces, [hung(one["piece"]) for one in pieces])
    curve = room_of(result.house, result.sets[0])
    assert curve.is_unknown
    assert curve.points == ()


def _at(seed: int, force: float, x: float) -> SetResult | None:
    """Set 2 of a hang drawn by a seed with one more load of so many pounds hung so many feet stage left."""
    house, pieces, places, _ = drawn(seed, light=True)
    pieces.append(a_piece("more", f"{force:.5f} lb", picks=["CL"], height="1 ft"))
    places.append(hung("more", "2", f"{abs(x):.6f} ft {'SR' if x < 0 else 'SL'}"))
    return judged(house, pieces, places).set_called("2")


def _open(one: SetResult | None) -> set[str]:
    assert one is not None
    rows = {row.key for row in one.rows if row.verdict is not Verdict.WITHIN and row.link not in BY_COUNT}
    return rows if one.rows else {"it tips"}


# Posted capacities, arbors, stacks, stops, splices and head blocks with their hand lines, none of which looks at where
# a load hangs, or not as a line pull.
@pytest.mark.parametrize("seed", range(20))
def test_at_the_room_that_is_told_all_rows_but_those_of_the_count_are_within_and_past_it_one_is_not(seed: int) -> None:
    house, pieces, places, _ = drawn(seed, light=True)
    result = judged(house, pieces, places)
    one = result.set_called("2")
    assert one is not None
    assert one.batten is not None
    length = one.batten.beam.length
    for room in room_at(result.house, one, [0.02 * length, 0.27 * length, 0.5 * length]).at:
        x, most = room.x / FT - 21.0, room.force / LB
        if not 3.0 < most < 20_000.0:
            continue
        before = _open(one)  # a clamp whose own piece may be too heavy is so whatever else hangs
        assert _open(_at(seed, 0.999 * most - 0.2, x)) <= before, (x, most, room.link)
        past = [_open(_at(seed, share * most + 0.3, x)) - before for share in (1.003, 1.01, 1.02)]
        assert any(past), (x, most, room.link)


@pytest.mark.parametrize(("changes", "most", "link"), [
    # 100 lb hang: of 310 lb posted for what is hung 210 lb are left
    ({"posted": [{"load": "310 lb", "counts": "what is hung", "by": "a maker"}]}, 210.0, "posted capacity"),
    # 2 bricks at low trim hold 114.24 lb of batten and no more: 310 lb of stop less 100 lb
    ({"stops": {"top": "310 lb", "bottom": "1500 lb"}}, 210.0, "top stop"),
    # 8 bricks of 1 in fit; a ninth is asked for past 50 lb and half a brick
    ({"arbor": {"usable height": "8 in"}}, 62.5, "stack"),
    # 64.24 lb and 8 bricks of 25 lb are 264.24 lb
    ({"arbor": {"rating": "270 lb"}}, 62.5, "arbor"),
    # 114.24 + 100 lb, and what the hand line adds at half a brick: 62.5 + 12.5 at the change of the count
    ({"head_block": {"rating": "289 lb"}}, 62.5, "head block"),
])  # fmt: skip
def test_room_is_what_is_left_of_parts_that_look_at_how_much_hangs(changes: Map, most: float, link: str) -> None:
    result = judged(a_house(a_set(**changes)), [a_piece()], [hung()])
    (room,) = room_at(result.house, result.sets[0], [21.0 * FT]).at
    assert room.link == link
    assert room.force / LB == pytest.approx(most, abs=0.5)


def test_room_at_a_splice_is_what_is_left_there() -> None:
    """On two lines 20 ft apart a load P in the middle bends by P L/4, against w (L²/8 - a²/2) of 11 ft overhangs.

    May be there 20 % of 21,000 psi of the design section. Equilibrium; section modulus of a tube.
    """
    one = a_set(lines={"at": ["10' SR", "10' SL"], "stiffness": "100,000,000 lb"}, loft_block={"rating": "5000 lb"},
                batten={"splices": [{"at": "CL", "strength": "20 %"}]})  # fmt: skip
    result = judged(a_house(one, rules={"sag": "1/100"}), [], [])
    (room,) = room_at(result.house, result.sets[0], [21.0 * FT]).at
    inside = 1.9 - 2 * 0.135
    modulus = 3.14159265 / 32 * (1.9**4 - inside**4) / 1.9
    assert room.link == "splice"
    own = 2.72 * (20**2 / 8 - 11**2 / 2)
    assert room.force / LB == pytest.approx((0.2 * 21_000 * modulus / 12 - own) * 4 / 20, rel=0.01)


def test_of_a_set_out_of_service_there_is_none() -> None:
    result = judged(a_house(a_set(out_of_service="a rope is worn")), [], [])
    assert room_of(result.house, result.sets[0]).says == "none: out of service"


def _trimmed(trim: str, weight: str = "300 lb", extra: float = 0.0, at: float = 0.0) -> SetResult:
    """As `_with`, evenly spread, with every line that much off its trim either way."""
    pieces, places = [a_piece(weight=weight)], [hung()]
    if extra:
        pieces.append(a_piece("lamp", f"{0.999 * extra:.6f} lb", picks=["CL"], height="1 ft"))
        places.append(hung("lamp", centre=f"{abs(at):.6f}' {'SL' if at > 0 else 'SR'}"))
    return judged(a_house(a_set(), rules={"trim error": trim}), pieces, places).sets[0]


@pytest.mark.parametrize("trim", ["1/16 in", "1/8 in"])
def test_the_room_left_with_lines_off_their_trim_is_within_when_it_is_hung(trim: str) -> None:
    """Hung, the true extremes over all trims are sought; room left looks at their corners only."""
    one = _trimmed(trim)
    curve = room_of(judged(a_house(a_set(), rules={"trim error": trim})).house, one)
    assert curve.points
    assert max(force for _, force in curve.points) > 20 * LB
    for x, force in list(curve.points)[5::25]:
        found = _trimmed(trim, extra=force / LB, at=x / FT - 21.0)
        bad: Map = {row.place: row.use for row in found.rows if row.link in OF_HANGING}
        assert all(row.verdict is Verdict.WITHIN for row in found.rows if row.link in OF_HANGING), (x / FT - 21.0, bad)


def test_where_other_lines_carry_at_other_trims_room_left_is_unknown() -> None:
    """Half an inch either way leaves lines of a light batten slack: the least of all corners then proves nothing."""
    ends = a_set(lines={"at": ["21' SR", "10' SR", "CL", "10' SL", "21' SL"]})  # what a tip does would be unknown too
    result = judged(a_house(ends, rules={"trim error": "1/2 in"}), [a_piece(weight="20 lb")], [hung()])
    curve = room_of(result.house, result.sets[0])
    assert curve.is_unknown
    assert "which lines carry" in curve.says
