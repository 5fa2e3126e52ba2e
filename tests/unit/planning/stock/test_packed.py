"""Counts in one number, or in several, held to the same counts kind by kind."""

import numpy as np
import pytest

from counterpoise.planning.stock.packed import Packing, each_once

MOSTS = [[0], [1], [5, 0, 900], [765, 329, 37], [2**30, 2**30, 7], [1000] * 9, [2**61 - 1], [2**40, 2**40, 2**40]]


@pytest.mark.parametrize("most", MOSTS)
def test_what_is_packed_comes_out_again_and_adds_kind_by_kind(most: list[int]) -> None:
    chance = np.random.default_rng(len(most))
    packing = Packing.for_up_to(np.array(most))
    rows = np.vstack([chance.integers(0, np.array(most) // 2 + 1, (50, len(most))), np.zeros_like(most)])
    packed = packing.packed(rows)
    assert (packing.counts(packed) == rows).all()
    assert (packing.counts(packed + packed[:, ::-1]) == rows + rows[::-1]).all()


@pytest.mark.parametrize("most", MOSTS)
def test_more_than_the_limit_of_any_kind_is_seen(most: list[int]) -> None:
    chance = np.random.default_rng(len(most))
    packing = Packing.for_up_to(np.array(most))
    rows = chance.integers(0, np.array(most) + 1, (300, len(most)))
    limit = rows[:20]
    for one in limit:
        near = one + chance.integers(-1, 2, (40, len(most)))
        tried = np.clip(np.vstack([rows, near, one, limit]), 0, most)
        within = packing.are_within(packing.packed(tried), packing.limits(one[None, :]))
        assert within.tolist() == (tried <= one).all(axis=1).tolist()


@pytest.mark.parametrize("kinds", [1, 3, 9])
def test_of_those_that_are_the_same_the_cheapest_is_kept_and_of_two_as_cheap_the_first(kinds: int) -> None:
    chance = np.random.default_rng(kinds)
    rows = chance.integers(0, 2 if kinds > 1 else 40, (2000, kinds)) * 900
    cost = chance.integers(0, 4, 2000).astype(float)
    packed = Packing.for_up_to(np.full(kinds, 1000)).packed(rows)
    for some in (1, 300, 2000):
        best: dict[tuple[int, ...], int] = {}
        for at, row in enumerate(map(tuple, rows[:some].tolist())):
            if row not in best or cost[at] < cost[best[row]]:
                best[row] = at
        assert sorted(each_once(packed[:, :some], cost[:some]).tolist()) == sorted(best.values())
