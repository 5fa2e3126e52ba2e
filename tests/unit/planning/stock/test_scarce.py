"""Which kinds are scarce, held to a linear programme of bricks that may be cut (scipy's, by HiGHS)."""

import numpy as np
import pytest
from scipy.optimize import linprog

from counterpoise.planning.stock.scarce import scarce

SIZES = np.array([25.0, 12.5, 5.0])


def _a_house(seed: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    chance = np.random.default_rng(seed)
    weights = SIZES * (chance.random((12, 3)) < chance.uniform(0.2, 0.9, 3))
    weights[~weights.any(axis=1), 0] = 25.0
    weights[chance.random(12) < 0.3] /= 2  # double purchase
    return chance.uniform(0, 400, 12), weights, chance.integers(0, 40, 3)


def _least_largest(lacks: np.ndarray, weights: np.ndarray, stock: np.ndarray) -> float:
    """The least z for which every set lacks no more than z, and the stock is kept."""
    sets, kinds = weights.shape
    rows, most = [], []
    for one in range(sets):
        row = np.zeros((sets, kinds))
        row[one] = -weights[one]
        rows.append(np.append(row, -1.0))
        most.append(-lacks[one])
    for kind in range(kinds):
        row = np.zeros((sets, kinds))
        row[:, kind] = 1.0
        rows.append(np.append(row, 0.0))
        most.append(stock[kind])
    cost = np.append(np.zeros(sets * kinds), 1.0)
    bounds = [(0.0, None if weight else 0.0) for weight in weights.ravel()] + [(None, None)]
    return float(linprog(cost, A_ub=np.array(rows), b_ub=most, bounds=bounds).fun)


def _level(lacks: np.ndarray, weights: np.ndarray, stock: np.ndarray, prices: np.ndarray) -> float:
    """Where what the sets pay for the cheapest way to it is what the stock is worth."""
    rate = np.where(weights > 0, prices / np.maximum(weights, 1e-9), np.inf).min(axis=1)
    low, high = -1e6, float(lacks.max())
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if rate @ np.maximum(0.0, lacks - middle) > prices @ stock else (low, middle)
    return high


@pytest.mark.parametrize("seed", range(40))
def test_at_the_prices_told_no_smaller_largest_can_be_paid_for(seed: int) -> None:
    lacks, weights, stock = _a_house(seed)
    prices = scarce(lacks, weights, stock)
    assert (prices >= 0).all()
    assert prices.any()
    assert _level(lacks, weights, stock, prices) == pytest.approx(_least_largest(lacks, weights, stock), abs=1e-6)
