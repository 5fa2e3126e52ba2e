"""The stock of a house shared: what fits, what is wanted, whole rounds, and who gets nothing and why. Invented houses.

By hand: a batten of 114.24 lb is balanced by an arbor of 64.24 lb and 2 bricks of 25 lb; 100 lb ask for 4 more. Common
practice, no source, where nothing else is said.
"""

from collections.abc import Sequence
from typing import Any

import pytest

from counterpoise.balance import Stack, best_stack, fits
from counterpoise.planning.stock import StockPlan, share_stock
from counterpoise.rigging import RiggedHouse
from tests.plain_house import Map, a_house, a_piece, a_set, hung, rigged

LOW: Map = {"usable height": "5 in"}  # five bricks of 1 in


def _full(**stock: str) -> Map:
    return {"brick": "full", "weight": "25 lb", "thickness": "1 in", "stock": stock}


def _half(**stock: str) -> Map:
    return {"brick": "half", "weight": "12 lb", "thickness": "0.5 in", "stock": stock}


def _house(sets: list[Map], pounds: Sequence[float], bricks: list[Map], **hang: Any) -> RiggedHouse:
    pieces = [a_piece(f"piece {at}", weight=f"{weight} lb") for at, weight in enumerate(pounds) if weight]
    places = [hung(f"piece {at}", one["set"]) for at, (one, weight) in enumerate(zip(sets, pounds, strict=True))
              if weight]  # fmt: skip
    rules = {"plate every": "24 in"}
    return rigged(a_house(*sets, bricks=bricks, rules=rules), pieces, places, **hang)


def _stacks(found: StockPlan) -> dict[str, Stack]:
    return {one.label: one.stack for one in found.shares}


def test_where_there_is_enough_a_set_gets_the_stack_that_its_load_in_is_planned_for() -> None:
    """96 lb: 8 of 12 lb would leave nothing, but small ones are for the trim: 3 of 25 and 2 of 12, 3 lb too heavy."""
    house = _house([a_set("1", small_brick="half")], [96], [_full(bridge="50"), _half(bridge="50")])
    found = share_stock(house)
    assert _stacks(found)["1"] == best_stack(house.sets[0]) == Stack(5, 2)
    assert found.short == {}


def test_where_the_large_ones_run_out_small_ones_stand_in_beyond_the_trim() -> None:
    found = share_stock(_house([a_set("1", small_brick="half")], [96], [_full(bridge="0"), _half(bridge="50")]))
    assert _stacks(found)["1"] == Stack(2, 8)
    assert found.short == {"full": 3}
    assert found.shares[0].better is None  # what is wanted would leave 3 lb, this nothing


def test_what_no_arbor_takes_is_not_short() -> None:
    """300 lb ask for 12; pipe weight and three more are as high as this arbor takes."""
    found = share_stock(_house([a_set("1", arbor=LOW), a_set("2")], [300, 100], [_full(bridge="7")]))
    assert _stacks(found) == {"1": Stack(5), "2": Stack(6)}
    assert found.short == {}
    first = found.shares[0]
    assert (first.wanted, first.better, first.why) == (Stack(5), Stack(14), "arbor")
    assert found.shares[1].better is None


def test_an_arbor_that_is_full_is_no_reason_to_leave_the_others_far_off() -> None:
    """Five sets of 100 lb want 20, the sixth takes 3 of the 12 it wants: with 20 in all each goes one short at most."""
    sets = [*(a_set(str(at), distance=f"{at} ft") for at in range(3, 8)), a_set("9", distance="9 ft", arbor=LOW)]
    found = share_stock(_house(sets, [100] * 5 + [300], [_full(bridge="20")]))
    assert _stacks(found)["9"] == Stack(5)
    assert sorted(_stacks(found)[str(at)].bricks for at in range(3, 8)) == [5, 5, 5, 6, 6]
    assert found.allocation is not None
    assert found.allocation.is_best


def test_of_married_sets_each_gets_whole_rounds_from_one_place() -> None:
    """Two arbors take bricks by turns: of 3 at the bridge and 3 in the cellar two rounds are whole, not three."""
    sets = [a_set("1", married="yes"), a_set("2", twin_of="1", distance="5 ft", married="yes")]
    found = share_stock(_house(sets, [150, 0], [_full(bridge="3", cellar="3")]))
    assert sorted((one.place, one.count) for one in found.shares[0].taken) == [("bridge", 2), ("cellar", 2)]


def test_a_stated_count_of_a_set_that_carries_nothing_is_taken_from_the_stock() -> None:
    sets = [a_set("1"), a_set("2", distance="5 ft")]
    found = share_stock(_house(sets, [100, 0], [_full(bridge="8")], stated_bricks={"2": "6"}))
    assert _stacks(found)["2"] == Stack(6)
    assert found.left == {"full": {"bridge": 0}}


def test_sets_that_get_nothing_here_are_named_with_the_reason() -> None:
    short = a_piece("electric", weight="50 lb")
    sets = [a_set("1", out_of_service="rope worn"), a_set("2", distance="5 ft", pipe_weight="unknown")]
    found = share_stock(rigged(a_house(*sets), [short, a_piece()], [hung("electric", "1"), hung("border", "2")]))
    assert found.left_out == {"1": "out of service", "2": "its balance is not known"}
    assert found.shares == ()


def test_lines_that_lean_too_far_to_compute_the_balance_are_no_reason_to_guess_a_count() -> None:
    aside = {"at": ["20' SR", {"at": "10' SR", "block at": "60' SR"}, "CL", "10' SL", "20' SL"]}
    house = _house([a_set("1", lines=aside)], [100], [_full(bridge="50")])
    assert house.sets[0].steep
    assert share_stock(house).left_out == {"1": "line 2 leans too far to compute its balance"}


def test_of_a_stated_count_it_is_told_what_would_be_better_and_where_it_is_too_high() -> None:
    sets = [a_set("1"), a_set("2", arbor=LOW)]
    found = share_stock(_house(sets, [100, 100], [_full(bridge="40")], stated_bricks={"1": "9", "2": "6"}))
    first, second = found.shares
    assert (first.stack, first.better, first.why, first.fits) == (Stack(9), Stack(6), "stated", True)
    assert (second.stack, second.better, second.fits) == (Stack(6), None, False)


def test_a_set_that_the_stock_keeps_from_balance_is_told_so() -> None:
    (only,) = share_stock(_house([a_set("1")], [100], [_full(bridge="3")])).shares
    assert (only.stack, only.better, only.why) == (Stack(5), Stack(6), "stock")


@pytest.mark.parametrize("stock", [{}, {"bridge": "unknown"}])
def test_a_kind_of_which_nobody_wrote_how_many_there_are_is_named(stock: dict[str, str]) -> None:
    found = share_stock(_house([a_set("1")], [100], [_full(**stock)]))
    assert found.unknown == (("full", next(iter(stock), "")),)


def test_every_stack_that_is_shared_out_fits_its_arbor() -> None:
    house = _house([a_set("1", arbor=LOW, small_brick="half")], [300], [_full(bridge="9"), _half(bridge="9")])
    assert fits(house.sets[0], share_stock(house).shares[0].stack)
