"""Best prices held to the same linear programme written out in full, for a general solver (scipy, HiGHS)."""

import numpy as np
import pytest
from scipy.optimize import linprog

from counterpoise.planning.stock.columns import Columns
from counterpoise.planning.stock.prices import Priced, best_prices


def _table(seed: int) -> tuple[Columns, np.ndarray, float]:
    """Choices of some sets with a cost each, one of which takes nothing; a stock; what the stock may be worth."""
    chance = np.random.default_rng(seed)
    sets, kinds = int(chance.integers(1, 12)), int(chance.integers(1, 6))
    sizes = chance.integers(1, 30, sets)
    counts = chance.integers(0, 12, (sizes.sum(), kinds))
    owner = np.repeat(np.arange(sets), sizes)
    cost = chance.uniform(0, 100, len(owner))
    first = np.flatnonzero(np.diff(owner, prepend=-1))
    counts[first], cost[first] = 0, 300.0
    stock = (counts.max(axis=0) * sets * chance.uniform(0.0, 0.6, kinds)).astype(np.int64)
    return Columns(counts, np.zeros(len(owner)), cost, np.arange(len(owner)), owner), stock, 1e6


def _by_linprog(columns: Columns, stock: np.ndarray) -> float:
    """The least cost of a mix of choices for each set that the stock allows."""
    mix = (columns.owner[None, :] == np.arange(len(columns.starts))[:, None]).astype(float)
    found = linprog(columns.cost, A_ub=columns.counts.T, b_ub=stock, A_eq=mix, b_eq=np.ones(len(mix)))
    assert found.status == 0
    return float(found.fun)


def _priced(seed: int) -> tuple[Columns, np.ndarray, Priced]:
    columns, stock, reach = _table(seed)
    return columns, stock, best_prices(columns, stock, np.ones(len(stock)), reach, enough=np.inf, close=1e-7)


@pytest.mark.parametrize("first", range(0, 60, 20))
def test_the_bound_is_the_least_cost_of_any_mix(first: int) -> None:
    for seed in range(first, first + 20):
        columns, stock, found = _priced(seed)
        assert found.bound == pytest.approx(_by_linprog(columns, stock), rel=1e-7, abs=1e-5), seed


def test_the_mix_is_within_the_stock_and_as_many_choices_as_sets() -> None:
    for seed in range(40):
        columns, stock, found = _priced(seed)
        assert found.mixed.shape == (len(columns.starts), len(stock))
        assert (found.mixed.sum(axis=0) <= stock + 1e-6).all(), seed


def test_the_bound_is_what_the_sets_pay_at_the_prices_less_what_the_stock_is_worth() -> None:
    for seed in range(40):
        columns, stock, found = _priced(seed)
        each = columns.cost + columns.counts @ found.prices
        paid = sum(each[columns.owner == one].min() for one in range(len(columns.starts)))
        assert found.bound == pytest.approx(paid - stock @ found.prices)
        assert (found.prices >= 0.0).all()
