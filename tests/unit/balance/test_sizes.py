"""Two sizes of brick on one arbor: plates, height, mass, and the count of both that balances best."""

import itertools
from typing import Any

import pytest
from hypothesis import given
from hypothesis.strategies import integers, sampled_from

from counterpoise.balance import Stack, best_stack, extremes, friction, most_small_bricks, out_of_balance
from counterpoise.rigging import RiggedSet, plates_for, rig
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, documents, hung, rigged_set

KG = 0.45359237
INCH = FT / 12
SIZES = [
    {"brick": "full", "weight": "25 lb", "thickness": "2 in", "stock": {"bridge": "200"}},
    {"brick": "half", "weight": "12 lb", "thickness": "1 in", "spread": "0.5 lb", "stock": {"bridge": "200"}},
]


def _sized(weight: str = "100 lb", **changes: Any) -> RiggedSet:
    one: Map = a_set(small_brick="half", pipe_weight="2", **changes)
    found = rig(*documents(a_house(one, bricks=SIZES), [a_piece(weight=weight)], [hung()]))
    assert not found.missing
    return found.sets[0]


def _laid_by_hand(layers: list[float], every: float) -> int:
    """One layer after the other: a plate goes on before one that would pass the rule, and one on top."""
    plates, since = 0, 0.0
    for thick in layers:
        if since and since + thick > every + 1e-9:
            plates, since = plates + 1, 0.0
        since += thick
    return plates + bool(layers)


@given(integers(0, 60), integers(0, 5), integers(0, 60), integers(0, 9), sampled_from([0.75, 1.0, 1.5, 2.0, 7.0, 30.0]))
def test_plates_are_as_many_as_laying_one_layer_after_the_other(
    first: int, second: int, third: int, last: int, thick: float
) -> None:
    runs = [(first, thick), (second, thick / 2), (third, thick), (last, thick / 2)]
    layers = list(itertools.chain.from_iterable([size] * count for count, size in runs))
    assert plates_for([run for run in runs if run[0]], 24.0) == _laid_by_hand(layers, 24.0)


def test_small_bricks_lie_on_top_and_count_for_what_they_are() -> None:
    one = _sized(arbor={"plate weight": "4 lb", "plate thickness": "0.5 in"})
    stack = Stack(11, 3)  # 22 in and 3 in: a plate at 24 in, after the second small one, and one on top
    assert stack.plates(one) == 2
    assert stack.height(one) / INCH == pytest.approx(22 + 3 + 2 * 0.5)
    assert stack.mass(one) / KG == pytest.approx(11 * 25 + 3 * 12 + 2 * 4)
    assert stack.doubt(one) / KG == pytest.approx(3 * 0.5)


def test_bricks_side_by_side_halve_the_layers() -> None:
    one = _sized(arbor={"bricks in a layer": "2", "plate weight": "0 lb", "plate thickness": "0 in"})
    assert Stack(11, 3).height(one) / INCH == pytest.approx(6 * 2 + 2 * 1)  # six layers of full, two of small ones


def test_captive_plates_stay_on_whatever_lies_there() -> None:
    one = _sized(arbor={"captive plates": "4", "plate weight": "4 lb", "plate thickness": "0.5 in"})
    assert [Stack(count).plates(one) for count in (0, 2, 12, 60)] == [4, 4, 4, 5]  # 60 x 2 in: five times 24 in
    assert Stack(0).mass(one) / KG == pytest.approx(16)


@given(integers(20, 900))
def test_the_proposed_counts_are_the_best_of_all_of_them(pounds: int) -> None:
    one = _sized(f"{pounds} lb", arbor={"plate weight": "3 lb"})

    def largest(stack: Stack) -> float:
        return round(max(map(abs, extremes(one, stack))), 6)

    found = best_stack(one)
    every = [Stack(large, small) for large in range(2, 45) for small in range(most_small_bricks(one) + 1)]
    assert largest(found) == min(map(largest, every))
    assert found.count == min(stack.count for stack in every if largest(stack) == largest(found))


def test_a_small_brick_more_moves_the_balance_by_itself() -> None:
    one = _sized()
    more = out_of_balance(one, Stack(4, 1), 10 * FT).best - out_of_balance(one, Stack(4), 10 * FT).best
    assert more / LB == pytest.approx(12)


def test_friction_is_two_quarter_turns_of_what_the_batten_carries() -> None:
    """114.24 lb of pipe and 100 lb of border at 2 % a quarter turn, at loft and head block: 2 x 2 % x 214.24 lb."""
    one = rigged_set(a_set(), [a_piece()], [hung()])
    assert friction(one, 30 * FT, 0.02) / LB == pytest.approx(0.04 * 214.24)
