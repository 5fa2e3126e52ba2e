"""Twin sets that carry a piece together: each is judged with all of it, ratings never add, and the balance waits.

With free hand lines the bricks decide the shares; with one fouled or locked either set may take everything. Statics of
two supports of which one may go slack; common practice, no source.
"""

from __future__ import annotations

import pytest

from counterpoise.checks import Check, HouseResult, SetResult, Verdict
from counterpoise.rigging import BALANCE, PULLS
from tests.plain_house import LB, Map, a_house, a_piece, a_set, hung, judged

BATTEN = 114.24  # [lb]
PAIR = a_set("9"), a_set("10", twin_of="9"), a_set("11")


def _set(result: HouseResult, label: str) -> SetResult:
    found = result.set_called(label)
    assert found is not None
    return found


def _row(result: HouseResult, label: str, link: str) -> Check:
    row = _set(result, label).row(link)
    assert row is not None
    return row


def _pull(result: HouseResult, label: str) -> tuple[float, float]:
    forces = _set(result, label).forces
    assert forces is not None
    whole = forces.span([1.0] * 5)
    return whole.low / LB, whole.high / LB


@pytest.mark.parametrize("on", ["9", "10"])
def test_a_piece_on_one_of_a_pair_may_be_all_or_none_of_it_on_either(on: str) -> None:
    result = judged(a_house(*PAIR), [a_piece()], [hung(on=on)])
    for label in ("9", "10"):
        assert _pull(result, label) == pytest.approx((BATTEN, BATTEN + 100))
        assert _set(result, label).hung == ("border",)
    assert _pull(result, "11") == pytest.approx((BATTEN, BATTEN))


def test_neither_of_a_pair_is_within_and_each_says_what_its_balance_waits_for() -> None:
    result = judged(a_house(*PAIR, steel=[]), [a_piece()], [hung()])
    assert {one.label: one.waits for one in result.house.missing} == {"9": BALANCE, "10": BALANCE}
    for label in ("9", "10"):
        assert _set(result, label).verdict is Verdict.UNKNOWN
        said = [one.says for one in _set(result, label).findings if one.code == "MISSING"]
        assert "with one fouled or locked any of them may take all of it" in said[0]


def test_ratings_of_a_pair_do_not_add() -> None:
    """Loft blocks of 500 lb: 1,800 lb is over on each alone, though two times five blocks would carry it."""
    result = judged(a_house(*PAIR), [a_piece(weight="1,800 lb")], [hung()])
    for label in ("9", "10"):
        assert _row(result, label, "loft block").verdict is Verdict.OVER
    assert _set(result, "11").row("loft block") is not None


def test_a_row_says_how_much_of_a_shared_piece_it_counts_and_what_it_would_take_with_free_hand_lines() -> None:
    inputs = _row(judged(a_house(*PAIR), [a_piece()], [hung()]), "10", "loft block").inputs
    told = next(one.name for one in inputs if one.name.startswith("weight of border"))
    assert "as if nothing were on set 9" in told
    assert told.endswith("with free hand lines and bricks alike it takes 1/2")


def test_pieces_on_both_of_a_pair_are_all_of_them_on_each() -> None:
    result = judged(a_house(*PAIR), [a_piece("a"), a_piece("b", "60 lb")], [hung("a", "9"), hung("b", "10")])
    assert _pull(result, "9")[1] == _pull(result, "10")[1] == pytest.approx(BATTEN + 160)


def test_one_piece_written_on_both_of_a_pair_hangs_once() -> None:
    result = judged(a_house(*PAIR), [a_piece()], [hung(on="9"), hung(on="10")])
    assert _pull(result, "9")[1] == pytest.approx(BATTEN + 100)


# Three battens and 100 lb that hang on one of the pair, or on the other: 442.72 lb whichever it is.
@pytest.mark.parametrize("label", ["9", "10", "11"])
def test_the_steel_carries_a_shared_piece_once(label: str) -> None:
    result = judged(a_house(*PAIR), [a_piece()], [hung()])
    head = _row(result, label, "head beam")
    assert (head.value.best / LB, head.value.high / LB) == pytest.approx((3 * BATTEN + 100,) * 2)
    beams = [row.value.high for row in _set(result, label).rows if row.link == "loft beam"]
    assert sum(beams) / LB == pytest.approx(3 * BATTEN + 100)


def test_a_pair_without_a_piece_and_a_set_beside_it_are_judged_as_any() -> None:
    assert judged(a_house(*PAIR), [a_piece()], [hung(on="11")]).verdict is Verdict.WITHIN


def test_of_three_sets_that_are_tied_together_each_may_take_everything() -> None:
    sets = a_set("9"), a_set("10", twin_of="9"), a_set("11", twin_of="10"), a_set("12")
    result = judged(a_house(*sets), [a_piece()], [hung(on="11")])
    assert {one.label for one in result.house.missing} == {"9", "10", "11"}
    assert _pull(result, "9") == pytest.approx((BATTEN, BATTEN + 100))


@pytest.mark.parametrize("second", [
    {"rigged": "hemp", "purchase": None, "bags": {"weight": "180 lb", "pin": "500 lb", "hauls": "100 lb"}},
    {"batten": {"length": "44 ft"}}, {"batten": {"length": "unknown"}},
])  # fmt: skip
def test_a_pair_that_is_not_alike_leaves_the_pulls_of_both_unknown(second: Map) -> None:
    result = judged(a_house(a_set("9"), a_set("10", twin_of="9", **second)), [a_piece()], [hung()])
    assert {one.verdict for one in result.sets} == {Verdict.UNKNOWN}
    assert {one.label for one in result.house.missing if one.waits == PULLS} == {"9", "10"}
