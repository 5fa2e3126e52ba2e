"""Twin sets: how they share one piece is not computed, so no set of the pair is ever within in silence."""

from __future__ import annotations

import pytest

from counterpoise.checks import Verdict
from counterpoise.rigging import BALANCE, PULLS
from tests.plain_house import LB, a_house, a_piece, a_set, hung, judged

PAIR = a_set("9"), a_set("10", twin_of="9"), a_set("11")


@pytest.mark.parametrize(("on", "other"), [("9", "10"), ("10", "9")])
def test_a_piece_on_one_of_a_pair_leaves_both_unknown_and_says_so(on: str, other: str) -> None:
    result = judged(a_house(*PAIR, steel=[]), [a_piece()], [hung(on=on)])
    for label in (on, other):
        found = result.set_called(label)
        assert found is not None
        assert found.verdict is Verdict.UNKNOWN
        assert any("shares what hangs with its twin" in one.says for one in found.findings)
    assert {one.label: one.waits for one in result.house.missing} == {on: BALANCE, other: PULLS}


def test_the_lines_of_the_set_it_is_written_for_are_judged_with_all_of_it() -> None:
    found = judged(a_house(*PAIR), [a_piece(weight="5,000 lb")], [hung(on="9")]).set_called("9")
    assert found is not None
    assert found.forces is not None
    assert sum(one.best for one in found.forces.tensions) / LB == pytest.approx(5_114.24)
    assert found.verdict is Verdict.OVER


def test_pieces_on_both_of_a_pair_leave_the_pulls_of_both_unknown() -> None:
    result = judged(a_house(*PAIR), [a_piece("a"), a_piece("b")], [hung("a", "9"), hung("b", "10")])
    assert {one.label: one.waits for one in result.house.missing} == {"9": PULLS, "10": PULLS}


def test_a_pair_without_a_piece_and_a_set_beside_it_are_judged_as_any() -> None:
    assert judged(a_house(*PAIR), [a_piece()], [hung(on="11")]).verdict is Verdict.WITHIN


def test_three_sets_that_are_tied_together_are_unknown_all_three() -> None:
    sets = a_set("9"), a_set("10", twin_of="9"), a_set("11", twin_of="10"), a_set("12")
    result = judged(a_house(*sets), [a_piece()], [hung(on="11")])
    assert {one.label for one in result.house.missing} == {"9", "10", "11"}


@pytest.mark.parametrize("rigging", ["hemp", "dead-hung"])
def test_a_twin_that_is_no_counterweight_set_is_unknown_too(rigging: str) -> None:
    bags = {"weight": "180 lb", "pin": "500 lb", "hauls": "100 lb"}
    sets = [a_set(label, rigged=rigging, purchase=None, bags=bags, twin_of=twin)
            for label, twin in (("9", None), ("10", "9"))]  # fmt: skip
    result = judged(a_house(*sets), [a_piece()], [hung()])
    assert {one.verdict for one in result.sets} == {Verdict.UNKNOWN}
    assert {one.label for one in result.house.missing} == {"9", "10"}
