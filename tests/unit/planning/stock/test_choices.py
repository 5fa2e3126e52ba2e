"""What a set may take, on ladders, held to every stack that its arbor takes written out one by one.

Invented sets: plates that weigh something or nothing, arbors too low for what would balance, two bricks in a layer,
small bricks as thick as large ones, sets abreast, too little stock.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import product

import numpy as np
import pytest

from counterpoise.balance import Stack, best_stack, extremes, fits, pipe_weight, smallest_mass
from counterpoise.planning.stock.choices import best_that_fits, demands
from counterpoise.planning.stock.corners import Corners
from counterpoise.planning.stock.ladders import Ladders
from counterpoise.planning.stock.many_stacks import Arbors, masses_and_heights
from counterpoise.rigging import BrickKind, RiggedSet, stack_height, stack_mass
from counterpoise.units import STANDARD_GRAVITY
from tests.plain_house import LB, a_piece, hung, rigged_set

KG = 0.45359237
SEEDS = range(40)


@cache
def _plain(weight: int) -> RiggedSet:
    return rigged_set(pieces=[a_piece(weight=f"{weight} lb")], places=[hung()])


def _brick(name: str, pounds: float, thickness: float) -> BrickKind:
    return BrickKind(name=name, mass=pounds * KG, spread=0.0, thickness=thickness, stock={})


def _a_set(seed: int) -> RiggedSet:
    chance = np.random.default_rng(seed)
    large = _brick("large", 25.0, float(chance.choice([0.0254, 0.05])))
    small = _brick("small", float(chance.choice([12.5, 7.0, 5.0])), float(chance.choice([0.0254, 0.01])))
    has_small = chance.random() < 0.8
    return replace(
        _plain(int(chance.integers(20, 400))), brick=large, small=small if has_small else None,
        pipe_bricks=int(chance.integers(0, 4)), small_pipe_bricks=int(chance.integers(0, 3)) if has_small else 0,
        layer=int(chance.integers(1, 3)), captive_plates=int(chance.choice([0, 3])),
        plate_mass=float(chance.choice([0.0, 0.5, 6.0])), plate_thickness=0.004,
        plate_every=float(chance.choice([0.6, 0.12, 0.05])), usable_height=float(chance.choice([0.15, 0.5, 2.0])),
        arbors=("a", "b") if chance.random() < 0.3 else (), purchase=int(chance.integers(1, 3)),
    )  # fmt: skip


def _stock(seed: int) -> dict[str, int]:
    chance = np.random.default_rng(1000 + seed)
    return {"large": int(chance.integers(0, 40)), "other": 9, "small": int(chance.integers(0, 60))}


def _every_stack(one: RiggedSet, stock: dict[str, int]) -> list[tuple[np.ndarray, float]]:
    """Counts by kind of the stock, and what they leave out of balance [N], of all that the arbor takes, and of none."""
    own, pull = pipe_weight(one), STANDARD_GRAVITY / one.purchase
    bare = sum(extremes(one, own)) / 2
    found = []
    rungs = range(stock["small"] // one.abreast + 1) if one.small else range(1)
    for large, small in product(range(stock["large"] // one.abreast + 1), rungs):
        stack = Stack(own.bricks + large, own.small + small)
        if fits(one, stack) or not large + small:
            counts = np.array([large, 0, small]) * one.abreast
            found.append((counts, bare + pull * (stack.mass(one) - own.mass(one))))
    return found


def _floors(ladders: Ladders) -> np.ndarray:
    """The least that each set can be out of balance by."""
    near = ladders.nearest()
    return np.abs(near.balance[near.starts])


@pytest.mark.parametrize("seed", SEEDS)
def test_many_stacks_weigh_and_stand_as_each_of_them_does(seed: int) -> None:
    one, chance = _a_set(seed), np.random.default_rng(seed)
    bricks = one.pipe_bricks + chance.integers(0, 60, 50) * chance.integers(0, 2, 50)
    small = one.small_pipe_bricks + chance.integers(0, 90, 50) * chance.integers(0, 2, 50) * (one.small is not None)
    masses, heights = masses_and_heights(Arbors.of([one]).at(np.zeros(50, dtype=np.int64)), bricks, small)
    each = list(zip(bricks.tolist(), small.tolist(), strict=True))
    assert masses == pytest.approx([stack_mass(one, *stack) for stack in each], abs=1e-9)
    assert heights == pytest.approx([stack_height(one, *stack) for stack in each], abs=1e-9)


@pytest.mark.parametrize("seed", SEEDS)
def test_every_choice_is_a_stack_that_the_arbor_takes_and_leaves_what_it_says(seed: int) -> None:
    one, stock = _a_set(seed), _stock(seed)
    told = {tuple(counts): left for counts, left in _every_stack(one, stock)}
    ladders = demands([one], stock)[0].ladders
    table = ladders.every(np.arange(len(ladders.left)))
    assert len({tuple(counts) for counts in table.counts.tolist()}) == len(table.counts)
    for counts, left in zip(table.counts.tolist(), table.balance.tolist(), strict=True):
        assert left == pytest.approx(told[tuple(counts)], abs=1e-6)


@pytest.mark.parametrize("seed", SEEDS)
def test_within_any_bound_there_is_a_choice_that_takes_no_more_than_any_stack(seed: int) -> None:
    one, stock = _a_set(seed), _stock(seed)
    every = _every_stack(one, stock)
    ladders = demands([one], stock)[0].ladders
    least = min(abs(left) for _, left in every)
    assert float(_floors(ladders)[0]) == pytest.approx(least, abs=1e-6)
    for bound in (least, least + 3 * LB, least + 30 * LB, least + 200 * LB):
        table = ladders.fewest(bound)
        assert (np.abs(table.balance) <= bound + 1e-6).all()
        for counts, left in every:
            assert abs(left) > bound or (table.counts <= counts).all(axis=1).any()


@pytest.mark.parametrize("seed", SEEDS)
def test_no_stack_is_cheaper_at_any_price_than_the_choices(seed: int) -> None:
    one, stock = _a_set(seed), _stock(seed)
    every = _every_stack(one, stock)
    spare = smallest_mass(one) * STANDARD_GRAVITY / one.purchase / 2
    ladders = demands([one], stock)[0].ladders
    bound = float(_floors(ladders)[0]) + 60 * LB
    corners = Corners.of(ladders.within(bound))
    table = corners.table(np.arange(len(corners.rungs[0])))
    for prices in np.random.default_rng(seed).uniform(0, 150, (25, 3)):
        least = min(max(0.0, abs(left) - spare) + float(counts @ prices) for counts, left in every
                    if abs(left) <= bound)  # fmt: skip
        assert float(table.paid(prices).min()) == pytest.approx(least, abs=1e-5)


def test_a_count_that_is_given_is_the_only_choice() -> None:
    one = replace(_plain(100), pipe_bricks=2)
    found = demands([one], {"full": 1}, [Stack(9)])[0].ladders
    assert found.foot.tolist() == [[7]]
    assert found.most.tolist() == [0]


@pytest.mark.parametrize("seed", SEEDS)
def test_where_the_best_is_too_high_the_nearest_that_fits_is_wanted(seed: int) -> None:
    one = replace(_a_set(seed), arbors=())
    best = best_stack(one)
    found = best_that_fits(one, best)
    if fits(one, best):
        assert found == best
        return
    every = _every_stack(one, {"large": 60, "other": 0, "small": 90})
    least = min(abs(left) for _, left in every)
    counts = (found.bricks - one.pipe_bricks, 0, found.small - one.small_pipe_bricks)
    (left,) = [left for each, left in every if tuple(each.tolist()) == counts]
    assert abs(left) == pytest.approx(least, abs=1e-6)
