"""Ladders held to every count of bricks written out one by one."""

from itertools import pairwise, product

import numpy as np
import pytest

from counterpoise.planning.stock.allocation import linear_demand
from counterpoise.planning.stock.at_prices import bounds_above
from counterpoise.planning.stock.corners import Corners
from counterpoise.planning.stock.ladders import Ladders

_STOCK = [6, 7, 9]


def _sets(seed: int) -> list[tuple[float, list[float]]]:
    chance = np.random.default_rng(seed)
    sizes = sorted(chance.uniform(4, 30, 3), reverse=True)
    sets = [(float(chance.uniform(0, 150)), [size if chance.random() < 0.7 else 0.0 for size in sizes])
            for _ in range(4)]  # fmt: skip
    return [(target, weights if any(weights) else list(sizes)) for target, weights in sets]


def _ladders(sets: list[tuple[float, list[float]]]) -> Ladders:
    return Ladders.joined([linear_demand("", *one, _STOCK).ladders for one in sets])


def _all_counts(target: float, weights: list[float], bound: float) -> list[tuple[tuple[int, ...], float]]:
    rooms = [range(most + 1 if weight else 1) for most, weight in zip(_STOCK, weights, strict=True)]
    tried = [(counts, float(np.dot(counts, weights) - target)) for counts in product(*rooms)]
    return [(counts, left) for counts, left in tried if abs(left) <= bound + 1e-9]


def _floors(ladders: Ladders) -> np.ndarray:
    """The least that each set can be out of balance by."""
    near = ladders.nearest()
    return np.abs(near.balance[near.starts])


@pytest.mark.parametrize("seed", range(12))
def test_the_floor_is_the_least_of_all_counts(seed: int) -> None:
    sets = _sets(seed)
    least = [min(abs(left) for _, left in _all_counts(*one, np.inf)) for one in sets]
    assert _floors(_ladders(sets)) == pytest.approx(least)


@pytest.mark.parametrize("seed", range(12))
def test_all_that_is_within_a_bound_has_a_choice_in_the_table_that_takes_no_more(seed: int) -> None:
    sets = _sets(seed)
    ladders = _ladders(sets)
    bound = float(_floors(ladders).max()) + 8.0
    table = ladders.fewest(bound)
    for at, one in enumerate(sets):
        rows = table.counts[table.owner == at]
        within = _all_counts(*one, bound)
        assert {tuple(row) for row in rows.tolist()} <= {counts for counts, _ in within}
        assert all((rows <= np.array(counts)).all(axis=1).any() for counts, _ in within)


@pytest.mark.parametrize("seed", range(12))
def test_no_count_is_cheaper_at_any_price_than_the_corners(seed: int) -> None:
    sets = _sets(seed)
    ladders = _ladders(sets)
    bound = float(_floors(ladders).max()) + 20.0
    corners = Corners.of(ladders.within(bound))
    table = corners.table(np.arange(len(corners.rungs[0])))
    for prices in np.random.default_rng(seed).uniform(0, 30, (20, 3)):
        paid = table.paid(prices)
        for at, (target, weights) in enumerate(sets):
            spare = min(each for each in weights if each) / 2
            least = min(max(0.0, abs(left) - spare) + float(np.dot(counts, prices))
                        for counts, left in _all_counts(target, weights, bound))  # fmt: skip
            assert paid[table.owner == at].min() == pytest.approx(least)


@pytest.mark.parametrize("seed", range(12))
def test_between_two_bounds_that_follow_each_other_no_set_gets_a_choice_more(seed: int) -> None:
    sets = _sets(seed)
    ladders = _ladders(sets)
    low = float(_floors(ladders).max())
    reach = float(ladders.step.min())
    told = [low, *bounds_above(ladders, low, reach), low + reach]
    for below, above in pairwise(told):
        nearly = below + (above - below) * 0.999
        assert ladders.fewest(nearly).counts.tolist() == ladders.fewest(below).counts.tolist()
