"""Bricks for many sets from one finite stock: first the largest out of balance least, then the sum of what is beyond.

Each set names its own choices (how many of each kind, and what that leaves out of balance). Where every set may have
the one it likes best the answer separates. Where the stock binds, prices on the kinds of brick split the problem into
one small choice for each set and prove how far any answer may be from the best; what they leave open is searched.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import Enum
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from counterpoise.planning.columns import Columns
from counterpoise.planning.priced import CLOSE, find_within, prices_of, search_least

_Table: TypeAlias = tuple[NDArray[np.int64], NDArray[np.float64]]
_CLOSE = 1e-5  # of the smallest `spare`: the largest is found to within this
_SAME = 1e-9  # [of a force]: two out of balances that differ by less are one


class Which(Enum):
    """Of counts that differ in the lightest brick only: the fewest; those that may be best at any price; or all."""

    FEWEST = "fewest"
    CORNERS = "corners"
    ALL = "all"


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """What one set may take.

    `choices` gives, for a bound, the counts that leave no more than the bound out of balance: by kind, one row each,
    and the out of balance of each row [N at the batten]. It is asked for `Which` of them. `spare` is what does not
    count in the sum: half its smallest brick [N]. `floor` is its least out of balance with all the bricks in the world.
    """

    label: str
    spare: float
    floor: float
    choices: Callable[[float, Which], _Table]


@dataclass(frozen=True, slots=True, kw_only=True)
class Allocation:
    """How many of each kind for each set, what that leaves out of balance [N], and how good it is.

    `largest` and `beyond` are what is made least, one after the other. No answer has a largest below `least_largest`;
    none whose largest is no more than this one has a sum below `least_beyond`. Where both are equal it is the best.
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

    Raises:
        ValueError: it takes no brick at all.
    """
    kinds = sorted((kind for kind, each in enumerate(weights) if each > 0.0), key=lambda kind: -weights[kind])
    if not kinds:
        raise ValueError(f"{label} takes no brick")
    most = [stock[kind] for kind in kinds]

    heavy = [weights[kind] for kind in kinds]

    def choices(bound: float, which: Which) -> _Table:
        return _linear(target, heavy, most, kinds, len(weights), bound, which)

    smallest = weights[kinds[-1]]
    return Demand(label=label, spare=smallest / 2, floor=_floor(choices, target, smallest), choices=choices)


def allocate(demands: Sequence[Demand], stock: Sequence[int]) -> Allocation:
    """Bricks for every set: the largest out of balance as small as can be, then the sum beyond `spare`.

    Args:
        demands: the sets; each must have a choice that takes nothing.
        stock: bricks by kind.

    The largest binds every set alike, so none takes the whole of a shortage. Where the search ends before it is
    proven that there is none better, the bounds say how far it may be.
    """
    have = np.asarray(stock, dtype=np.int64)
    free = _each_its_best(demands, have)
    if free is not None:
        return free
    low = max((one.floor for one in demands), default=0.0)
    proven, largest, found = _smallest_largest(demands, have, low)
    prices, least = prices_of(_columns(demands, largest, Which.CORNERS), have)
    columns = _columns(demands, largest, Which.ALL)
    chosen, beyond, least = search_least(columns, have, columns.locate(found), prices, least)
    return _answer(columns, chosen, beyond, proven, least)


def _answer(columns: Columns, chosen: NDArray[np.int64], beyond: float, proven: float, least: float) -> Allocation:
    balance = tuple(float(each) for each in columns.balance[chosen])
    largest = max(map(abs, balance), default=0.0)
    return Allocation(counts=tuple(tuple(int(each) for each in row) for row in columns.counts[chosen]), balance=balance,
                      largest=largest, beyond=beyond, least_largest=min(proven, largest),
                      least_beyond=min(least, beyond))  # fmt: skip


def _each_its_best(demands: Sequence[Demand], have: NDArray[np.int64]) -> Allocation | None:
    """What every set likes best, where the stock allows that; None where it binds."""
    counts, balance = [], []
    for one in demands:
        rows, left = one.choices(one.floor + _SAME, Which.ALL)
        if not len(rows):
            return None
        best = int(np.lexsort((*rows.T[::-1], rows.sum(axis=1), np.round(np.abs(left), 9)))[0])
        counts.append(rows[best])
        balance.append(float(left[best]))
    used = np.sum(counts, axis=0) if counts else np.zeros_like(have)
    if (used > have).any():
        return None
    largest = max(map(abs, balance), default=0.0)
    beyond = sum(max(0.0, abs(each) - one.spare) for each, one in zip(balance, demands, strict=True))
    return Allocation(counts=tuple(tuple(int(each) for each in row) for row in counts), balance=tuple(balance),
                      largest=largest, beyond=beyond, least_largest=largest, least_beyond=beyond)  # fmt: skip


def _smallest_largest(
    demands: Sequence[Demand], have: NDArray[np.int64], low: float
) -> tuple[float, float, NDArray[np.int64]]:
    """By halving: a largest below which there is none, the least one that was found, and the counts for it."""
    step = min(one.spare for one in demands)
    close = _CLOSE * step
    high, found, proven = low + _SAME, None, low
    while found is None:
        found, is_sure = find_within(_columns(demands, high, Which.FEWEST), have)
        if found is None:
            low, proven = high, high if is_sure else proven
            high, step = high + step, 2.0 * step
    while high - low > close:
        middle = (low + high) / 2
        tried, is_sure = find_within(_columns(demands, middle, Which.FEWEST), have)
        if tried is not None:
            high, found = middle, tried
        else:
            low, proven = middle, middle if is_sure else proven
    return (high if high - proven <= 2.0 * close else proven), high, found


def _columns(demands: Sequence[Demand], bound: float, which: Which) -> Columns:
    """The choices of every set within a bound."""
    tables = [one.choices(bound, which) for one in demands]
    beyond = [_beyond(one, left) for one, (_, left) in zip(demands, tables, strict=True)]
    return Columns.of([rows for rows, _ in tables], [left for _, left in tables], beyond)


def _beyond(one: Demand, left: NDArray[np.float64]) -> NDArray[np.float64]:
    found: NDArray[np.float64] = np.maximum(0.0, np.abs(left) - one.spare)
    return found


def _linear(
    target: float, weights: list[float], most: list[int], kinds: list[int], width: int, bound: float, which: Which
) -> _Table:  # fmt: skip
    """Counts of the heavier kinds in a grid, and of the lightest those that leave no more than the bound.

    Of the lightest the sum beyond half of one falls, is flat, and rises again. With a price on each it is therefore
    least at the fewest or at one of the two counts at which the flat begins: the corners.
    """
    room = [min(most[at], max(0, math.floor((target + bound) / each + _SAME))) for at, each in enumerate(weights)]
    grid = np.indices([each + 1 for each in room[:-1]]).reshape(len(room) - 1, -1).T if len(room) > 1 else None
    heavy = np.zeros((1, 0), dtype=np.int64) if grid is None else grid
    lacks = target - heavy @ np.asarray(weights[:-1]) if heavy.shape[1] else np.full(1, target)
    heavy, lacks = heavy[keep := lacks >= -bound - _SAME], lacks[keep]
    last = weights[-1]
    fewest = np.maximum(0, np.ceil((lacks - bound) / last - _SAME)).astype(np.int64)
    several = np.minimum(room[-1], np.floor((lacks + bound) / last + _SAME)).astype(np.int64)
    enough = np.maximum(0, np.ceil(lacks / last - 0.5 - _SAME)).astype(np.int64)  # where the flat begins
    several = np.minimum(several, np.maximum(fewest, enough))  # more would only weigh too much
    if which is Which.FEWEST:
        at, light = np.flatnonzero(several >= fewest), fewest[several >= fewest]
    elif which is Which.ALL:
        at, light = _every(fewest, several)
    else:
        pairs = np.unique(np.stack([fewest, np.maximum(fewest, several - 1), several]), axis=0)
        at, light = _each_once(pairs, fewest, several)
    rows = np.zeros((len(at), width), dtype=np.int64)
    rows[:, kinds[:-1]] = heavy[at]
    rows[:, kinds[-1]] = light
    return rows, light * last - lacks[at]


def _every(fewest: NDArray[np.int64], several: NDArray[np.int64]) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """All counts from the fewest to several, and of which row each is."""
    spread = np.maximum(0, several - fewest + 1)
    at = np.repeat(np.arange(len(fewest)), spread)
    return at, fewest[at] + np.arange(len(at)) - np.repeat(np.cumsum(spread) - spread, spread)


def _each_once(
    counts: NDArray[np.int64], fewest: NDArray[np.int64], several: NDArray[np.int64]
) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """The corners of each row, none twice and none where there is no count at all."""
    at = np.tile(np.arange(len(fewest)), len(counts))
    light = counts.ravel()
    found = np.unique(np.stack([at, light])[:, (several >= fewest)[at]], axis=1)
    return found[0], found[1]


def _floor(choices: Callable[[float, Which], _Table], target: float, smallest: float) -> float:
    bound = smallest / 2
    while True:
        left = choices(bound, Which.ALL)[1]
        if len(left):
            return float(np.abs(left).min())
        bound = min(2.0 * bound, abs(target)) if bound < abs(target) else 2.0 * bound
