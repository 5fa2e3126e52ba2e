"""Bricks for many sets from one finite stock: first the largest out of balance least, then the sum of what is beyond.

Each set names its own choices (how many of each kind, and what that leaves out of balance). Where every set may have
the one it likes best the answer separates. Where the stock binds, prices on the kinds of brick split the problem into
one small choice for each set and prove how far any answer may be from the best; what they leave open is searched.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from counterpoise.planning.stock.at_prices import SAME
from counterpoise.planning.stock.columns import Columns, Counts, Figures
from counterpoise.planning.stock.ladders import Ladders
from counterpoise.planning.stock.least_beyond import CLOSE, least_beyond
from counterpoise.planning.stock.least_largest import least_largest
from counterpoise.planning.stock.scarce import scarce

_AT_FLOOR = 1e-7  # [N]


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """What one set may take.

    `ladders` are its choices; each must be in them that may be best for some stock. `weights` is what a brick of each
    kind weighs on it [N at the batten], 0 where it takes none.
    """

    label: str
    weights: tuple[float, ...]
    ladders: Ladders


@dataclass(frozen=True, slots=True, kw_only=True)
class Allocation:
    """How many of each kind for each set, what that leaves out of balance [N], and how good it is.

    `largest` and `beyond` are what is made least, one after the other; `largest` is of the sets that bricks could bring
    nearer to balance, 0 where there is none. No answer has a largest below `least_largest`; none whose largest is no
    more than this one has a sum below `least_beyond`. Where both are equal it is the best.
    """

    counts: tuple[tuple[int, ...], ...]
    balance: tuple[float, ...]
    largest: float
    beyond: float
    least_largest: float
    least_beyond: float

    @property
    def is_best(self) -> bool:
        """True where it is proven that there is no better one, to a millionth."""
        return (self.largest <= self.least_largest * (1.0 + CLOSE) + CLOSE
                and self.beyond <= self.least_beyond * (1.0 + CLOSE) + CLOSE)  # fmt: skip


def linear_demand(label: str, target: float, weights: Sequence[float], stock: Sequence[int]) -> Demand:
    """A set that lacks `target` [N at the batten] and takes bricks that weigh so much each [N]; 0 where it takes none.

    What is beyond half its smallest brick counts.

    Raises:
        ValueError: it takes no brick at all.
    """
    kinds = sorted((kind for kind, each in enumerate(weights) if each > 0.0), key=lambda kind: -weights[kind])
    if not kinds:
        raise ValueError(f"{label} takes no brick")
    *heavier, last = kinds
    rooms = [min(stock[kind], max(0, math.floor(target / weights[kind] + 0.5 + SAME))) for kind in heavier]
    feet, left, lightest = _feet(target, [weights[kind] for kind in heavier], rooms)
    foot = np.zeros((len(left), len(weights)), dtype=np.int64)
    for kind, counts in zip(heavier, feet, strict=True):
        foot[:, kind] = counts
    step = float(weights[last])
    # Up to where what is left is no more than half a rung: one more would only weigh too much.
    most = np.clip(np.ceil(-left / step - 0.5 - SAME), 0, stock[last]).astype(np.int64)
    ladders = Ladders.of_one(foot, left, kind=last, by=1, step=step, most=most, lightest=lightest, spare=step / 2)
    return Demand(label=label, weights=tuple(weights), ladders=ladders)


def _feet(target: float, heavy: Sequence[float], rooms: Sequence[int]) -> tuple[tuple[Counts, ...], Figures, Figures]:
    """Counts of the heavier kinds, what they leave out of balance, and what the lightest brick in them weighs.

    Where one is too heavy by more than half its lightest brick, the same without that brick is as good and takes less.
    """
    left, lightest = np.array([-target]), np.array([np.inf])
    for weight, room in zip(heavy, rooms, strict=True):
        counts = np.arange(room + 1)
        left = left[..., None] + counts * weight
        lightest = np.where(counts > 0, weight, lightest[..., None])
    keep = left <= lightest / 2 + SAME
    return np.nonzero(keep)[1:], left[keep], lightest[keep]


def allocate(demands: Sequence[Demand], stock: Sequence[int]) -> Allocation:
    """Bricks for every set: the largest out of balance as small as can be, then the sum beyond what each may spare.

    Args:
        demands: the sets; each must have a choice that takes nothing.
        stock: bricks by kind.

    The largest binds every set alike that could be nearer, so none takes the whole of a shortage. Where the search
    ends before it is proven that there is none better, the bounds say how far it may be.
    """
    if not demands:
        return Allocation(counts=(), balance=(), largest=0.0, beyond=0.0, least_largest=0.0, least_beyond=0.0)
    have = np.asarray(stock, dtype=np.int64)
    ladders = Ladders.joined([one.ladders for one in demands])
    best = _each_its_best(ladders)
    floors = np.abs(best.balance)
    if (best.counts.sum(axis=0) <= have).all():
        return _answer(best, floors, math.inf, math.inf)
    weights = np.array([one.weights for one in demands])
    lacks = -np.minimum.reduceat(ladders.left, ladders.starts)
    ladders = ladders.not_below(floors)
    proven, found = least_largest(ladders, have, scarce(lacks, weights, have))
    chosen, least = least_beyond(ladders.within(_largest(found, floors)), have, found, weights.max(axis=0))
    return _answer(chosen, floors, proven, least)


def _largest(found: Columns, floors: Figures) -> float:
    """Of the sets that could be nearer to balance; 0 where there is none."""
    off = np.abs(found.balance)
    return float(np.max(off, initial=0.0, where=off > floors + _AT_FLOOR))


def _each_its_best(ladders: Ladders) -> Columns:
    """What every set likes best: the least out of balance, with the fewest bricks."""
    near = ladders.nearest()
    order = np.lexsort((*near.counts.T[::-1], near.counts.sum(axis=1), np.round(np.abs(near.balance), 9), near.owner))
    return near.only(order[near.starts])


def _answer(chosen: Columns, floors: Figures, proven: float, least: float) -> Allocation:
    largest, beyond = _largest(chosen, floors), chosen.total
    return Allocation(counts=tuple(map(tuple, chosen.counts.tolist())), balance=tuple(chosen.balance.tolist()),
                      largest=largest, beyond=beyond, least_largest=min(proven, largest),
                      least_beyond=min(least, beyond))  # fmt: skip
