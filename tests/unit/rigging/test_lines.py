"""Lines of a set that are not like the others: too long, seized, beside their block, on the other side of the stage."""

from __future__ import annotations

import math
from typing import Any

import pytest

from counterpoise.checks import Check, SetResult, Verdict
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, hung, judged, rigged, rigged_set

PLACES = ["20' SR", "10' SR", "CL", "10' SL", "20' SL"]
EA = 446_000 * LB  # [N]


def _with(number: int, **own: str | list[Map] | Map) -> Map:
    """A set of which one line has figures of its own."""
    at: list[Any] = list(PLACES)
    at[number - 1] = {"at": PLACES[number - 1]} | {name.replace("_", " "): value for name, value in own.items()}
    return a_set(lines={"at": at})


def _judged(one: Map, weight: str = "100 lb") -> SetResult:
    return judged(a_house(one), [a_piece(weight=weight)], [hung()]).sets[0]


def _pulls(one: Map, weight: str = "100 lb") -> list[float]:
    found = _judged(one, weight)
    assert found.forces is not None
    return [pull.best / LB for pull in found.forces.tensions]


def _row(one: Map, link: str, line: int) -> Check:
    row = _judged(one).row(link, line)
    assert row is not None
    return row


def test_a_line_that_is_too_long_carries_less_and_its_neighbours_more() -> None:
    level, longer, shorter = (_pulls(_with(3, trim_error=error)) for error in ("0 in", "1/4 in", "-1/4 in"))
    assert longer[2] < level[2] < shorter[2]
    assert longer[1] > level[1] > shorter[1]
    assert sum(longer) == pytest.approx(sum(level))


def test_a_trim_error_on_two_lines_only_tilts_the_batten_and_changes_no_pull() -> None:
    """Two lines are statically determinate: their shares follow from the lever alone."""
    at: list[Any] = ["20' SR", {"at": "20' SL", "trim error": "2 in"}]
    assert _pulls(a_set(lines={"at": at})) == pytest.approx(_pulls(a_set(lines={"at": ["20' SR", "20' SL"]})))


# Three level lines 20 ft apart, EI = 29,000 ksi x 0.310 in4; sinking of the middle one by d changes its pull by
# 6 EI d / l3 (Kassimali, eq. D.10) on rigid supports; the ropes here are so stiff that they are.
def test_the_middle_of_three_lines_loses_by_its_trim_what_a_textbook_says() -> None:
    def middle(error: str) -> float:
        at: list[Any] = ["20' SR", {"at": "CL", "trim error": error}, "20' SL"]
        return _pulls(a_set(lines={"at": at, "stiffness": "200,000,000 lb"}))[1]

    inertia = math.pi / 64 * (1.9**4 - 1.61**4)  # of 1.900 in with a wall of 0.145 in
    change = 6 * 29e6 * inertia * 0.25 / 240.0**3
    assert middle("0 in") - middle("1/4 in") == pytest.approx(change, rel=1e-3)


def test_a_range_of_trim_is_carried_through_to_both_its_ends() -> None:
    between = _judged(_with(3, trim_error="-1/4 in..1/4 in"))
    ends = [_pulls(_with(3, trim_error=error)) for error in ("-1/4 in", "1/4 in")]
    assert between.forces is not None
    for line, span in enumerate(between.forces.tensions):
        pulls = [one[line] for one in ends]
        assert (span.low / LB, span.high / LB) == pytest.approx((min(pulls), max(pulls)))


def test_a_range_of_trim_is_not_within_where_one_of_its_ends_is_over() -> None:
    """The rating lies between what the second line carries at both ends."""
    short = _pulls(_with(3, trim_error="1/2 in"))[1]
    level = _pulls(_with(3, trim_error="0 in"))[1]
    one = _with(3, trim_error="-1/2 in..1/2 in") | {
        "loft block": {"rating": f"{(short + level) / 2:.3f} lb", "rating of": "line pull"}}  # fmt: skip
    row = _row(one, "loft block", 2)
    assert row.verdict is Verdict.UNKNOWN


@pytest.mark.parametrize(("own", "what"), [
    ({"trim_error": "unknown"}, "trim error of line 2"),
    ({"length": "unknown"}, "length of line 2"),
    ({"stiffness": "unknown"}, "stiffness of line 2"),
    ({"block_at": "unknown"}, "where the loft block of line 2 stands"),
])  # fmt: skip
def test_an_own_figure_of_a_line_that_is_not_known_is_missing(own: dict[str, str], what: str) -> None:
    found = rigged(a_house(_with(2, **own)))
    assert [one.what for one in found.missing] == [what]


def test_a_line_of_its_own_length_and_rope_stretches_by_these() -> None:
    one = rigged_set(_with(2, length="120 ft", stiffness="223,000 lb"))
    assert one.lines[1].flexibility == pytest.approx(120 * FT / (EA / 2))


def test_a_row_of_the_catalogue_gives_a_line_its_strength_and_its_stiffness() -> None:
    """7x19 of 3/16 in: 4,200 lb by MIL-W-83420 (FAA AC 43.13-1B, table 7-3); EA = 100 D2 / 1.40e-5, makers' stretch."""
    one = _with(2, rope="3/16 in 7x19 galvanized")
    assert rigged_set(one).lines[1].flexibility == pytest.approx(
        rigged_set().lines[1].flexibility * 446_000 / (100 * 0.1875**2 / 1.40e-5), rel=2e-3)  # fmt: skip
    row = _row(one, "lift line", 2)
    assert row.limit is not None
    assert row.limit / LB == pytest.approx(4_200 * 0.80 / 8)


def test_a_seized_sheave_leaves_the_rope_between_batten_and_block_at_high_trim_where_it_is_stiffest() -> None:
    assert rigged_set(_with(2, seized="bearing gone")).lines[1].flexibility == pytest.approx((62 - 58) * FT / EA)


def test_a_dead_hung_batten_has_no_high_trim_to_ask_for_even_with_a_seized_sheave() -> None:
    one = _with(2, seized="painted in") | {"rigged": "dead-hung", "low trim": "20 ft"}
    del one["purchase"], one["high trim"]
    found = rigged(a_house(one))
    assert not found.missing
    assert [line.flexibility for line in found.battens[0].lines] == pytest.approx([(62 - 20) * FT / EA] * 5)


def test_a_block_beside_its_line_changes_the_run_to_the_head_block() -> None:
    """42 ft batten, head block 4 ft beyond its end: from 1 ft left of the middle 21 - 1 + 4 = 24 ft, and 58 ft hang."""
    one = rigged_set(_with(3, block_at="1 ft SL"))
    assert one.lines[2].flexibility == pytest.approx((58 + 24) * FT / EA)


# Two lines with half each, one block 3 ft to the side of its line: the batten drifts 1 1/2 ft, and both lean by that
# over 11.2 ft of drop, 15-112-113, so that each pulls 113/112 of what hangs on it. Leaving level for the head block, to
# stage left, a line that leans away from it loads its block by both its legs, T (15, -112) / 113 and T (1, 0).
def test_lines_that_lean_pull_more_than_what_hangs_on_them() -> None:
    one = a_set(lines={"at": [{"at": "10' SR", "block at": "13' SR"}, "10' SL"]}, high_trim="50.8 ft",
                loft_block={"rating": "500 lb", "rating of": "resultant"})  # fmt: skip
    hangs = (114.24 + 100) / 2
    pulls = 113 / 112 * hangs
    for line in (1, 2):
        assert _row(one, "trim chain", line).value.best / LB == pytest.approx(pulls)
        assert _row(one, "lift line", line).value.best / LB == pytest.approx(pulls)
        assert _row(one, "loft beam", line).value.best / LB == pytest.approx(hangs)  # the beam takes the vertical part
    assert _row(one, "loft block", 1).value.high / LB == pytest.approx(pulls * math.hypot(1 + 15 / 113, 112 / 113))


def test_a_line_that_leans_more_than_three_in_ten_leaves_pulls_and_balance_unknown() -> None:
    found = _judged(_with(3, block_at="3 ft SR"))
    assert found.verdict is Verdict.UNKNOWN
    assert {row.link for row in found.rows if "line 3 leans by more than 3 in 10" in row.lacks} >= {
        "lock", "tension block", "top stop", "batten", "sag", "trim chain", "loft block"}  # fmt: skip


def test_a_line_that_leans_too_far_is_told_once_and_with_the_trim_up_to_which_it_is_computed() -> None:
    """Runs 3 ft apart at 0.3 of the drop: 10 ft below blocks at 62 ft."""
    (found,) = _judged(_with(3, block_at="3 ft SR")).findings
    assert found.code == "LEANS"
    assert "a high trim of 52' 0\" or lower" in found.mend
    lower = _with(3, block_at="3 ft SR") | {"high trim": "52 ft"}
    assert not [one for one in _judged(lower).findings if one.code == "LEANS"]


def test_a_line_that_leans_by_less_is_computed() -> None:
    found = _judged(_with(3, block_at="10 in SR"))
    assert found.verdict is Verdict.WITHIN
    assert not any(row.lacks for row in found.rows)


@pytest.mark.parametrize("all_at", ["1 ft SL of it", "straight above"])
def test_lines_that_all_lean_alike_hang_plumb_under_their_blocks(all_at: str) -> None:
    off = 1 if all_at.startswith("1") else 0
    at = [{"at": f"{10 * i}' SL", "block at": f"{10 * i + off}' SL"} for i in range(3)]
    one = rigged_set(a_set(lines={"at": at}))
    assert one.runs == ()
    assert [block - line.x for block, line in zip(one.blocks, one.lines, strict=True)] == pytest.approx([off * FT] * 3)


# ------------------------------------------------------------------------------------------------ the other side


def _mirrored(place: str) -> str:
    return place.replace("SR", "xx").replace("SL", "SR").replace("xx", "SL")


@pytest.mark.parametrize("centre", ["CL", "7 ft SL", "7 ft SR"])
def test_a_rail_on_stage_right_mirrors_one_on_stage_left_exactly(centre: str) -> None:
    at: list[Any] = [
        {"at": "20' SR", "trim error": "1/8 in"},
        {"at": "8' SR", "block at": "8' 1\" SR"},
        "3' SL",
        "18' SL",
    ]
    other = [{name: _mirrored(said) for name, said in one.items()} if isinstance(one, dict) else _mirrored(one)
             for one in reversed(at)]  # fmt: skip
    found = []
    for places, side, where in ((at, "stage left", centre), (other, "stage right", _mirrored(centre))):
        house = a_house(a_set(lines={"at": places}), rails=[{"rail": "rail", "side": side}])
        one = judged(house, [a_piece(spread_over="20 ft")], [hung(centre=where)]).sets[0]
        assert one.forces is not None
        found.append([pull.best for pull in one.forces.tensions])
    assert found[0] == pytest.approx(found[1][::-1], rel=1e-9)
    assert found[0] != pytest.approx(found[0][::-1], rel=1e-3)  # and it is no mirror of itself


def test_with_rails_on_both_sides_a_set_must_say_which_is_its_own() -> None:
    rails = [{"rail": "left", "side": "stage left"}, {"rail": "right", "side": "stage right"}]
    assert [one.what for one in rigged(a_house(rails=rails)).missing] == [
        "the rail it is worked from, with rails on both sides"]  # fmt: skip
    left, right = (rigged(a_house(a_set(rail=rail), rails=rails)).sets[0].lines for rail in ("left", "right"))
    assert [line.flexibility for line in left] == pytest.approx([line.flexibility for line in reversed(right)])


# ---------------------------------------------------------------------------------------------- parts of one line


@pytest.mark.parametrize(("own", "link", "limit"), [
    ({"loft_block": {"rating": "300 lb", "rating of": "line pull"}}, "loft block", 300),
    ({"breaking_strength": "4,200 lb"}, "lift line", 4_200 * 0.8 / 8),
    ({"termination": "95 %"}, "lift line", 7_000 * 0.95 / 8),
    ({"trim_chain": "800 lb"}, "trim chain", 800),
    ({"shackle": "666 lb"}, "shackle", 666),
    ({"turnbuckle": "500 lb"}, "turnbuckle", 500),
])  # fmt: skip
def test_a_part_of_one_line_is_its_own_and_leaves_the_others(own: dict[str, Any], link: str, limit: float) -> None:
    one, row = _with(2, **own), _row(_with(2, **own), link, 2)
    assert row.limit is not None
    assert row.limit / LB == pytest.approx(limit)
    other, plain = _judged(one).row(link, 3), _judged(a_set()).row(link, 3)
    assert (other and other.limit) == (plain and plain.limit)


def test_an_own_part_of_a_line_that_is_unknown_is_never_within() -> None:
    owns: list[dict[str, Any]] = [{"loft_block": {"rating": "unknown"}}, {"loft_block": {}}]
    owns += [{word: "unknown"} for word in
             ("termination", "trim_chain", "shackle", "turnbuckle", "breaking_strength")]  # fmt: skip
    assert {_judged(_with(2, **own)).verdict for own in owns} == {Verdict.UNKNOWN}


# A block that turns a line by 30 degrees carries 2 sin 15 = 0.518 of its pull; one rated by line pull all of it.
@pytest.mark.parametrize(("of", "share"), [("resultant", 2 * math.sin(math.radians(15))), ("line pull", 1.0)])
def test_a_mule_block_carries_by_the_turn_of_its_line(of: str, share: float) -> None:
    mule = {"at": "12' SR", "turn": "30 deg", "rating": "400 lb", "rating of": of}
    one = _with(2, mule_blocks=[mule, mule | {"turn": "180 deg"}])
    row = next(row for row in _judged(one).rows if row.key == "9/mule block/2/1")
    assert row.value.best / LB == pytest.approx(share * _pulls(one)[1])
    assert row.limit is not None
    assert row.limit / LB == pytest.approx(400)
    doubled = next(row for row in _judged(one).rows if row.key == "9/mule block/2/2")
    assert doubled.value.best / LB == pytest.approx((2.0 if of == "resultant" else 1.0) * _pulls(one)[1])


@pytest.mark.parametrize(("change", "verdict"), [
    ({"turn": "unknown"}, Verdict.UNKNOWN), ({"rating": "unknown"}, Verdict.UNKNOWN), ({}, Verdict.WITHIN),
    ({"rating": "5 lb"}, Verdict.OVER), ({"rating": "5 lb", "turn": "unknown"}, Verdict.UNKNOWN),
])  # fmt: skip
def test_a_mule_block_is_judged_and_never_within_in_silence(change: dict[str, str], verdict: Verdict) -> None:
    mule = {"at": "12' SR", "turn": "30 deg", "rating": "400 lb", "rating of": "resultant"} | change
    assert _judged(_with(2, mule_blocks=[mule])).verdict is verdict


def test_of_what_a_mule_block_is_rated_is_unknown_both_readings_are_looked_at() -> None:
    """About 30 lb on the second line: resultant at 30 degrees 16 lb, line pull 31 lb."""
    for rating, verdict in (("50 lb", Verdict.WITHIN), ("25 lb", Verdict.UNKNOWN), ("10 lb", Verdict.OVER)):
        mule = {"at": "12' SR", "turn": "30 deg", "rating": rating}
        assert _judged(_with(2, mule_blocks=[mule]), "1 lb").verdict is verdict
