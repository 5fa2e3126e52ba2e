"""Choices of all sets under a stock: the search and the mending held to every combination written out."""

from itertools import product

import numpy as np
import pytest

from counterpoise.planning.stock.branching import branched
from counterpoise.planning.stock.columns import Columns
from counterpoise.planning.stock.priced import searched
from counterpoise.planning.stock.prices import best_prices
from counterpoise.planning.stock.rounding import mended, rounded


def _table(seed: int) -> tuple[Columns, np.ndarray]:
    chance = np.random.default_rng(seed)
    sets, kinds = int(chance.integers(2, 5)), int(chance.integers(1, 4))
    sizes = chance.integers(1, 7, sets)
    counts = chance.integers(0, 6, (sizes.sum(), kinds))
    owner = np.repeat(np.arange(sets), sizes)
    stock = (counts.max(axis=0) * sets * chance.uniform(0.2, 0.7, kinds)).astype(np.int64)
    return Columns(counts, np.zeros(len(owner)), chance.uniform(0, 50, len(owner)), np.arange(len(owner)), owner), stock


def _least(columns: Columns, stock: np.ndarray) -> float:
    """The least cost of all combinations that the stock allows; infinite where it allows none."""
    of_sets = [np.flatnonzero(columns.owner == one) for one in range(len(columns.starts))]
    return min((float(columns.cost[list(rows)].sum()) for rows in product(*of_sets)
                if (columns.counts[list(rows)].sum(axis=0) <= stock).all()), default=np.inf)  # fmt: skip


def _is_an_answer(columns: Columns, stock: np.ndarray, found: np.ndarray, cost: float) -> bool:
    """A choice for each set that the stock allows, and what they cost."""
    assert columns.owner[found].tolist() == list(range(len(columns.starts)))
    assert (columns.counts[found].sum(axis=0) <= stock).all()
    assert float(columns.cost[found].sum()) == pytest.approx(cost)
    return True


@pytest.mark.parametrize("seed", range(60))
def test_the_search_finds_the_least_of_all_combinations_and_nothing_where_there_is_none(seed: int) -> None:
    columns, stock = _table(seed)
    priced = best_prices(columns, stock, np.ones(len(stock)), 1e4, enough=np.inf, close=1e-7)
    least = _least(columns, stock)
    for below in (1e4, least + 1.0, least):
        found, is_sure = searched(columns, stock, priced, below, 10_000)
        assert is_sure
        assert (found is not None) == (least < below)
        assert found is None or _is_an_answer(columns, stock, found, least)


@pytest.mark.parametrize("seed", range(60))
def test_branching_finds_the_least_of_all_combinations_or_proves_that_there_is_none(seed: int) -> None:
    columns, stock = _table(seed)
    priced = best_prices(columns, stock, np.ones(len(stock)), 1e4, enough=np.inf, close=1e-7)
    least = _least(columns, stock)
    for below in (1e4, least + 1.0, least - 0.5):
        found, bound = branched(columns, stock, priced, below, reach=1e5, close=1e-7, most=3_000)
        assert bound == pytest.approx(min(least, below))
        assert (found is not None) == (least < below)
        assert found is None or _is_an_answer(columns, stock, found, least)


@pytest.mark.parametrize("seed", range(60))
def test_branching_that_ends_early_tells_a_bound_that_holds(seed: int) -> None:
    columns, stock = _table(seed)
    priced = best_prices(columns, stock, np.ones(len(stock)), 1e4, enough=np.inf, close=1e-7)
    found, bound = branched(columns, stock, priced, 1e4, reach=1e5, close=1e-7, most=3)
    assert bound <= min(_least(columns, stock), 1e4) + 1e-6
    assert found is None or (columns.counts[found].sum(axis=0) <= stock).all()


@pytest.mark.parametrize("seed", range(60))
def test_where_few_ways_are_kept_what_is_found_is_allowed_and_nothing_is_called_sure_that_is_not(seed: int) -> None:
    columns, stock = _table(seed)
    priced = best_prices(columns, stock, np.ones(len(stock)), 1e4, enough=np.inf, close=1e-7)
    least = _least(columns, stock)
    found, is_sure = searched(columns, stock, priced, 1e4, 2)
    if found is not None:
        assert (columns.counts[found].sum(axis=0) <= stock).all()
    if is_sure:
        assert (found is None) == (least == np.inf)
        assert found is None or float(columns.cost[found].sum()) == pytest.approx(least)


@pytest.mark.parametrize("seed", range(60))
def test_mending_ends_within_the_stock_or_says_that_it_does_not(seed: int) -> None:
    columns, stock = _table(seed)
    priced = best_prices(columns, stock, np.ones(len(stock)), 1e4, enough=np.inf, close=1e-7)
    found = mended(columns, stock, rounded(columns, stock, priced.mixed), 0.0)
    if found is not None:
        assert columns.owner[found].tolist() == list(range(len(columns.starts)))
        assert (columns.counts[found].sum(axis=0) <= stock).all()
        assert float(columns.cost[found].sum()) >= _least(columns, stock) - 1e-9
