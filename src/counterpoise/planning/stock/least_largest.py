"""The least largest out of balance of all sets that a stock allows, and choices for it.

At prices on the kinds a bound that makes the sets pay more than the stock is worth can not be had. So the bound is
raised to the next one that may be had, better prices are sought there, and so on until none forbid it.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from counterpoise.planning.stock.at_prices import bounds_above
from counterpoise.planning.stock.branching import branched
from counterpoise.planning.stock.columns import Columns, Counts, Figures
from counterpoise.planning.stock.ladders import Ladders
from counterpoise.planning.stock.priced import NOISE, searched
from counterpoise.planning.stock.prices import Priced, best_prices
from counterpoise.planning.stock.rounding import mended, rounded

_TINY = 1e-9  # of what the stock is worth
_CLOSE = 1e-6  # of the lightest brick: the largest is found to within this
_FEW_WAYS, _MANY_WAYS = 60, 20_000
_THOROUGH = 3
_LEAST_PARTS, _PARTS_TIMES = 40, 500_000
_SMALL, _FEW_PARTS = 1_000, 100  # so few choices are branched on at once, in so many parts


def least_largest(ladders: Ladders, stock: Counts, prices: Figures) -> tuple[float, Columns]:
    """A bound below which no answer has its largest, and choices for the least largest that was found: one a set.

    Args:
        ladders: the sets; the stock must allow each its choice that takes least.
        stock: bricks by kind.
        prices: by kind, to try first.

    A set that can not get below its floor with all the bricks is no reason to leave others there: it asks for its floor
    as long as the bound is below that.
    """
    low = 0.0
    prices = _worth_one(prices, stock)
    while True:
        low = _allowed(ladders, stock, prices, low)
        columns = ladders.fewest(low)
        priced = best_prices(columns.without_cost(), stock, prices, 1.0, enough=_TINY, close=_TINY)
        if priced.bound <= 2 * _TINY:  # above, `_allowed` is sure to see it too
            break
        prices = priced.prices
    found, is_sure = _choices(columns, stock, prices, _FEW_WAYS, priced)
    if found is None and not is_sure:
        found, is_sure = _choices(columns, stock, prices, _MANY_WAYS, priced)
    return (low, found) if found is not None else _above(ladders, stock, prices, low, is_sure)


def _worth_one(prices: Figures, stock: Counts) -> Figures:
    scaled: Figures = prices / max(1e-12, float(prices @ np.maximum(1, stock)))
    return scaled


def _allowed(ladders: Ladders, stock: Counts, prices: Figures, low: float) -> float:
    """The least bound from `low` up that the prices allow: where the sets pay no more than the stock is worth."""
    asking, worth = ladders.at(prices), float(prices @ stock)
    over = asking.of_all(low) - worth
    if over <= _TINY:
        return low
    step, top = ladders.least_brick, float(np.abs(ladders.left).max())
    high = low + step
    under = asking.of_all(high) - worth
    while under > _TINY and high < top:  # the chord, and a tenth more
        further = high + step + 1.1 * (high - low) * under / max(_TINY, over - under)
        low, over, high = high, under, min(top, further)
        under = asking.of_all(high) - worth
    part = (1.0, 1.0)
    while high - low > step:  # the chord, with the end that stays put counted half (Illinois)
        middle = low + (high - low) * min(0.95, max(0.05, over * part[0] / (over * part[0] - under * part[1] + 1e-300)))
        value = asking.of_all(middle) - worth
        if value > _TINY:
            low, over, part = middle, value, (1.0, part[1] / 2)
        else:
            high, under, part = middle, value, (part[0] / 2, 1.0)
    asking = asking.between(low, high)
    bounds = bounds_above(asking, low, high - low)
    first, last = 0, len(bounds) - 1
    while first < last:
        middle_at = (first + last) // 2
        if asking.of_all(float(bounds[middle_at])) - worth > _TINY:
            first = middle_at + 1
        else:
            last = middle_at
    return float(bounds[first]) if len(bounds) else high


def _choices(
    columns: Columns, stock: Counts, prices: Figures, ways: int, priced: Priced | None = None
) -> tuple[Columns | None, bool]:
    """Of choices those that the stock allows, one a set, or None; and if that is proven."""
    free = columns.without_cost()
    if priced is None:
        priced = best_prices(free, stock, prices, 1.0, enough=_TINY, close=_TINY)
        if priced.bound > 2 * _TINY:
            return None, True
    chosen, dearer = free.cheapest(prices)
    slack = float((stock - free.counts[chosen].sum(axis=0)) @ prices)
    keep = np.flatnonzero(
        dearer <= max(0.0, slack) + 3 * _TINY
    )  # what is dearer than all the stock leaves over is in no answer
    few = free.only(keep)
    tried = mended(few, stock, rounded(few, stock, priced.mixed), 0.0)
    is_sure = True
    if tried is None:
        tried, is_sure = searched(few, stock, replace(priced, prices=prices), 2 * NOISE, ways)
    if tried is None and not is_sure and (ways == _MANY_WAYS or len(few.owner) <= _SMALL):
        most = max(_LEAST_PARTS, _PARTS_TIMES // len(few.owner)) if ways == _MANY_WAYS else _FEW_PARTS
        tried, least = branched(few, stock, priced, 2 * NOISE, reach=1.0, close=_TINY, most=most)
        is_sure = tried is None and least >= 2 * NOISE
    return (None if tried is None else columns.only(keep[tried])), is_sure


def _above(ladders: Ladders, stock: Counts, prices: Figures, low: float, is_sure: bool) -> tuple[float, Columns]:
    """As `least_largest`, where the least bound that prices allow has no answer (`is_sure`), or none was found."""
    step, proven = ladders.least_brick, low
    while True:
        bounds = np.append(np.append(low, bounds_above(ladders, low, step)), low + step)
        hit, found = _first_hit(ladders, stock, prices, bounds)
        if found is not None:
            break
        low += step
        is_sure = _choices(ladders.fewest(low), stock, prices, _FEW_WAYS)[1]
        proven = low if is_sure else proven
    sure, hit, found = _narrowed(ladders, stock, prices, bounds, 0 if is_sure else -1, hit, found)
    return float(bounds[sure + 1]) if sure >= 0 else proven, found


def _first_hit(ladders: Ladders, stock: Counts, prices: Figures, bounds: Figures) -> tuple[int, Columns | None]:
    """The place of a bound with an answer, looked for ever further from the first, and the answer."""
    at = 1
    while True:
        found, _ = _choices(ladders.fewest(float(bounds[at])), stock, prices, _FEW_WAYS)
        if found is not None or at == len(bounds) - 1:
            return at, found
        at = min(2 * at, len(bounds) - 1)


def _narrowed(
    ladders: Ladders, stock: Counts, prices: Figures, bounds: Figures, sure: int, hit: int, found: Columns
) -> tuple[int, int, Columns]:
    """By halving: the last bound of which it is sure that it has no answer, the first with one, and that."""
    fail, close = 0, _CLOSE * ladders.least_brick
    for _ in range(_THOROUGH):
        while hit - fail > 1 and bounds[hit] - bounds[max(0, fail)] > close:
            middle = (hit + fail) // 2
            tried, is_sure = _choices(ladders.fewest(float(bounds[middle])), stock, prices, _FEW_WAYS)
            if tried is not None:
                hit, found = middle, tried
            else:
                fail, sure = middle, middle if is_sure else sure
        if fail <= max(0, sure):
            break
        tried, is_sure = _choices(ladders.fewest(float(bounds[fail])), stock, prices, _MANY_WAYS)
        if tried is None:
            sure = fail if is_sure else sure
            break
        hit, found, fail = fail, tried, max(0, sure)
    return sure, hit, found
