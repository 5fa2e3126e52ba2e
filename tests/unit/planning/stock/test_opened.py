"""What good prices leave open, and answers made better, held to every combination written out."""

from itertools import product

import numpy as np
import pytest

from counterpoise.planning.stock.allocation import linear_demand
from counterpoise.planning.stock.columns import Columns
from counterpoise.planning.stock.freeing import better
from counterpoise.planning.stock.ladders import Ladders
from counterpoise.planning.stock.opened import Sharing, opened, sharing

SEEDS = range(40)


def _a_case(seed: int) -> tuple[Sharing, Columns, list[tuple[float, np.ndarray]]]:
    """Three sets and a stock, the first answer that it allows, and every answer with its cost, the cheapest first."""
    chance = np.random.default_rng(seed)
    sizes = sorted(chance.choice([4, 7, 9, 11, 17, 25], 2, replace=False).tolist(), reverse=True)
    stock = chance.integers(1, 6, 2).tolist()
    sets = [linear_demand("", float(chance.uniform(0, 90)), [sizes[0] * (chance.random() < 0.7), sizes[1]], stock)
            for _ in range(3)]  # fmt: skip
    ladders = Ladders.joined([one.ladders for one in sets]).within(float(chance.uniform(85, 120)))
    table = ladders.every(np.arange(len(ladders.left)))
    of_sets = [np.flatnonzero(table.owner == one) for one in range(3)]
    every = [np.array(rows) for rows in product(*of_sets)
             if (table.counts[list(rows)].sum(axis=0) <= stock).all()]  # fmt: skip
    answers = sorted(((float(table.cost[rows].sum()), rows) for rows in every), key=lambda one: one[0])
    return sharing(ladders, np.array(stock), np.array(sizes, float)), table.only(every[0]), [
        (cost, table.counts[rows]) for cost, rows in answers]  # fmt: skip


@pytest.mark.parametrize("seed", SEEDS)
def test_no_answer_is_below_the_bound_and_all_that_is_as_near_as_the_best_is_open(seed: int) -> None:
    asked, _, answers = _a_case(seed)
    best = answers[0][0]
    assert asked.priced.bound <= best + 1e-6
    few, is_all = opened(asked, best - asked.priced.bound + 1e-6, None)
    assert is_all
    for cost, counts in answers:
        if cost <= best + 1e-9:
            assert len(few.locate(counts)) == len(counts)


@pytest.mark.parametrize("seed", SEEDS)
def test_an_answer_made_better_is_one_that_the_stock_allows_and_costs_no_more(seed: int) -> None:
    asked, start, answers = _a_case(seed)
    found = better(asked, start)
    assert found.owner.tolist() == [0, 1, 2]
    assert (found.counts.sum(axis=0) <= asked.stock).all()
    assert answers[0][0] - 1e-9 <= found.total <= start.total


def test_of_three_sets_all_are_freed_and_the_best_is_found() -> None:
    hit = 0
    for seed in SEEDS:
        asked, start, answers = _a_case(seed)
        hit += better(asked, start).total <= answers[0][0] + 1e-6
    assert hit == len(SEEDS)
