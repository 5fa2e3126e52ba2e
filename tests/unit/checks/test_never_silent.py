"""What a row did not look at, and so could have passed in silence. Sums and levers by hand."""

from __future__ import annotations

import math

import pytest

from counterpoise.checks import Check, HouseResult, SetResult, Verdict, hung_on, judge_again
from tests.plain_house import LB, Map, a_house, a_piece, a_set, hung, judged

HEAVY_LOCK = {"lock hold": "10..200 lb"}
TRUSS: Map = {"truss": {"second moment": "1 in4", "allowed moment": "9,000 ft lb", "allowed shear": "5,000 lb"}}
LENGTH: Map = {"from": "5' SL", "to": "10' SL", "outside diameter": "1.900 in", "wall": "0.145 in",
               "weight": "2.72 lb/ft", "modulus": "29,000 ksi"}  # fmt: skip


def _row(found: SetResult, link: str) -> Check:
    row = found.row(link)
    assert row is not None
    return row


def _mend(result: HouseResult, code: str) -> str:
    return next(one.mend for one in result.findings if one.code == code)


# ------------------------------------------------------------------------------------- the hand line's share


# batten 114.24 lb and a piece of 100 lb; with no balance the lock may be asked for all that it may hold
def test_a_lock_known_within_a_range_counts_at_its_most_where_it_loads_the_head_block() -> None:
    house = a_house(a_set(pipe_weight="unknown"), rules=HEAVY_LOCK)
    row = _row(judged(house, [a_piece()], [hung()]).sets[0], "head block")
    assert row.value.high / LB == pytest.approx(214.24 + 200)


def test_with_neither_balance_nor_lock_known_the_head_block_is_never_within() -> None:
    house = a_house(a_set(pipe_weight="unknown"), rules={"lock hold": "unknown"})
    row = _row(judged(house, [a_piece()], [hung()]).sets[0], "head block")
    assert row.verdict is Verdict.UNKNOWN
    assert "hand line" in row.lacks


def test_with_lines_that_lean_the_hand_line_may_pull_what_the_lock_may_hold() -> None:
    """As the balance of such a set is not computed, what it comes to without the lean says nothing."""
    leaning = {"at": [{"at": "20' SR", "block at": "18' SR"}, "10' SR", "CL", "10' SL", "20' SL"]}
    row = _row(judged(a_house(a_set(lines=leaning)), [a_piece()], [hung()]).sets[0], "head block")
    assert (row.value.high - row.value.best) / LB == pytest.approx(50)


# ---------------------------------------------------------------------------------- several pipes, splices, shear


@pytest.mark.parametrize("made", [TRUSS, {"ladder": {"depth": "12 in", "every": "6 ft", "spacer diameter": "1 in",
                                                     "spacer wall": "0.1 in"}}])  # fmt: skip
def test_a_truss_or_a_ladder_of_several_pipes_is_not_hung_as_if_it_were_of_one(made: Map) -> None:
    found = judged(a_house(a_set(batten=made | {"lengths": [LENGTH]}))).sets[0]
    assert found.forces is None
    assert found.verdict is Verdict.UNKNOWN


def test_a_splice_of_a_truss_is_never_within() -> None:
    found = judged(a_house(a_set(batten=TRUSS | {"splices": [{"at": "4' SL", "strength": "10 %"}]}))).sets[0]
    assert _row(found, "splice").verdict is Verdict.UNKNOWN


# Half an inch either way on every line of a bare truss leaves some of them slack: corners are then no extremes.
def test_shear_is_not_within_where_lines_go_slack_between_the_corners() -> None:
    house = a_house(a_set(batten=TRUSS), rules={"trim error": "1/2 in"})
    rows = [row for row in judged(house).sets[0].rows if row.key.endswith("batten shear")]
    assert [row.verdict for row in rows] == [Verdict.UNKNOWN]
    assert "worst of" in rows[0].lacks


# -------------------------------------------------------------------------------------------------------- roll


# Pieces 12 in beside the pipe to either side, each 50 to 150 lb and 12 in below: four heavy ones on one side turn
# it by (600 - 200)/(600 + 200). Above eight in all the two sums are each taken at their worst: (750 - 250)/500.
@pytest.mark.parametrize(("each", "tangent"), [(4, (600 - 200) / (600 + 200)), (5, (750 - 250) / 500)])
def test_loads_in_doubt_on_both_sides_of_the_pipe_do_not_hide_each_other(each: int, tangent: float) -> None:
    names = [f"p{n}" for n in range(2 * each)]
    pieces = [a_piece(name, "50..150 lb", beside="12 in" if n % 2 else "-12 in", below="12 in", spread_over="2 ft")
              for n, name in enumerate(names)]  # fmt: skip
    house = a_house(rules={"roll": "20 deg"})
    row = _row(judged(house, pieces, [hung(name) for name in names]).sets[0], "roll")
    assert math.tan(row.value.high) == pytest.approx(tangent)
    assert row.value.low == row.value.best == pytest.approx(0.0)
    assert row.verdict is Verdict.UNKNOWN


# -------------------------------------------------------------------------------------------- clamps and bags


def test_a_rule_of_impact_takes_from_the_clamps_of_a_piece_too() -> None:
    house = a_house(rules={"impact": "25 %"})
    piece = a_piece(picks=["5' SR", "5' SL"], clamps={"rating": "55 lb"})  # 50 lb on each
    row = _row(judged(house, [piece], [hung()]).sets[0], "clamp")
    assert (row.limit or 0.0) / LB == pytest.approx(44)
    assert row.verdict is Verdict.OVER


# At 6 ft a drape of 30 ft hangs for a fifth: 114.24 + 20 lb, and bags of 150 lb would not let it come in so far.
def test_bags_are_held_against_what_hangs_at_the_lowest_trim() -> None:
    hemp: Map = {"rigged": "hemp", "purchase": None, "arbor": None, "pipe_weight": None, "stops": None,
                 "tension_block": None, "bags": {"weight": "150 lb", "pin": "300 lb", "hauls": "200 lb"}}  # fmt: skip
    drape = a_piece("drape", "100 lb", height="30 ft", comes="off the floor")
    result = judged(a_house(a_set(**hemp)), [drape], [hung("drape", show="6 ft")])
    row = _row(result.sets[0], "bags")
    assert (row.limit or 0.0) / LB == pytest.approx(134.24)
    assert row.verdict is Verdict.OVER
    assert _mend(result, "BAGS-OVER").startswith("Take bags off")
    assert _row(judged(a_house(a_set(**hemp)), [drape], [hung("drape")]).sets[0], "bags").verdict is Verdict.WITHIN


# ------------------------------------------------------------------------------------- what a mend may promise


def test_a_set_judged_again_waits_for_its_balance_as_it_does_in_the_whole_check() -> None:
    result = judged(a_house(a_set(pipe_weight="unknown")), [a_piece()], [hung()])
    again = judge_again(result, "9", hung_on(result, "9"))
    assert all(row.verdict is Verdict.WITHIN for row in again.rows)
    assert again.verdict is result.sets[0].verdict is Verdict.UNKNOWN


def test_no_weight_is_promised_for_steel_whose_other_sets_are_not_known() -> None:
    bay = {"bay": "A", "sets": ["9", "10"], "loft beam": "1,500 lb", "head beam": "200 lb", "impact": "included"}
    house = a_house(a_set(), a_set("10", batten={"wall": "unknown"}), steel=[bay])
    mend = _mend(judged(house, [a_piece()], [hung()]), "HEAD-BEAM-OVER")
    assert "may weigh" not in mend


def test_no_count_is_promised_for_a_set_whose_balance_is_not_computed() -> None:
    leaning = {"at": [{"at": "20' SR", "block at": "18' SR"}, "10' SR", "CL", "10' SL", "20' SL"]}
    result = judged(a_house(a_set(lines=leaning)), [a_piece()], [hung()], stated_bricks={"9": "12"})
    assert "keep it within the lock" not in _mend(result, "LOCK-OVER")


# 6 bricks balance it; with the arbor of 64.24 lb they are 214.24 lb, and at most 5 may be on
@pytest.mark.parametrize(("rating", "promised"), [("1,500 lb", True), ("160 lb", False)])
def test_no_count_is_promised_that_its_arbor_may_not_carry(rating: str, promised: bool) -> None:
    one = a_set(arbor={"rating": rating})
    mend = _mend(judged(a_house(one), [a_piece()], [hung()], stated_bricks={"9": "2"}), "LOCK-OVER")
    assert ("keep it within the lock" in mend) is promised


# 12 bricks and the arbor are 364.24 lb: with less than 250 lb hung the hand line pulls on the head block by all that is
# missing, so its row is never below 364.24 lb, however light the piece.
def test_no_weight_is_promised_that_makes_the_hand_line_pull_instead() -> None:
    block = {"rating": "350 lb", "rating of": "line pull"}
    result = judged(a_house(a_set(head_block=block)), [a_piece(weight="300 lb")], [hung()], stated_bricks={"9": "12"})
    mend = _mend(result, "HEAD-BLOCK-OVER")
    assert mend.startswith("With the count that then balances it, "), mend  # 114.24 lb of batten and 235 lb are 349.24
    assert "may weigh at most 235 lb" in mend


def test_a_weight_that_is_promised_for_a_head_block_is_within_when_it_is_hung() -> None:
    block = {"rating": "400 lb", "rating of": "line pull"}

    def head(weight: str) -> HouseResult:
        return judged(a_house(a_set(head_block=block)), [a_piece(weight=weight)], [hung()], stated_bricks={"9": "12"})

    assert "at most 285 lb" in _mend(head("300 lb"), "HEAD-BLOCK-OVER")  # 114.24 + 285.76 = 400
    assert _row(head("285 lb").sets[0], "head block").verdict is Verdict.WITHIN
