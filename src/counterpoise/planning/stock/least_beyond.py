"""The least sum of what is beyond the spare of each set, with no set beyond a bound, that a stock allows.

The best prices say how low it can be and which choices can have a part in that. The start is changed for the better;
where that does not reach the bound, what can be in a better answer is searched.
"""

from __future__ import annotations

import numpy as np

from counterpoise.planning.stock.branching import branched
from counterpoise.planning.stock.columns import Columns, Counts, Figures
from counterpoise.planning.stock.freeing import FREEINGS, TIES, better, freed
from counterpoise.planning.stock.ladders import Ladders
from counterpoise.planning.stock.opened import SMALL, Sharing, opened, sharing, spread
from counterpoise.planning.stock.priced import NOISE, searched
from counterpoise.planning.stock.rounding import mended, rounded

CLOSE = 1e-6  # of a sum: an answer that near its bound is taken for the best
_MOST_BUILT, _MOST_CHOICES = 200_000, 30_000
_FEW_ON_LADDERS = 10_000  # choices of ladders: what is open of so few is seen through at once
_FEW_WAYS, _MANY_WAYS = (50, 400), (50, 2_000, 20_000)
_SEEN_THROUGH = 10_000  # choices: of more, many ways would not show all and take long
_TURNS, _CHANGES = 12, 5
_PARTS = (1 / 64, 1 / 16, 1 / 4)
_DEAREST, _LEAST_PARTS, _PARTS_TIMES = 90.0, 40, 1_000_000


def least_beyond(ladders: Ladders, stock: Counts, start: Columns, prices: Figures) -> tuple[Columns, float]:
    """Choices for the least sum that was found, one a set, and a bound that no answer is below.

    Args:
        ladders: the sets, with all that they may choose.
        stock: bricks by kind.
        start: choices that the stock allows, one a set.
        prices: by kind, to try first.
    """
    asked = sharing(ladders, stock, prices)
    best = _near(asked, start)
    if _is_close(best, asked.priced.bound):
        return best, asked.priced.bound
    best, proven = _widened(asked, best)
    return (best, proven) if _is_close(best, proven) else _branched(asked, best, proven)


def _is_close(best: Columns, bound: float) -> bool:
    return best.total - bound <= max(NOISE, CLOSE * best.total)


def _near(asked: Sharing, start: Columns) -> Columns:
    """Whole choices from the mix, or the start changed for the better; as good as the bound where that is found."""
    stock, bound = asked.stock, asked.priced.bound
    enough = bound + max(NOISE, CLOSE * bound)
    few, is_all = opened(asked, TIES, asked.priced.mixed)
    found = mended(few, stock, rounded(few, stock, asked.priced.mixed), enough, _CHANGES)
    of_mix = start if found is None else few.only(found)
    if of_mix.total <= enough:
        return of_mix
    around = (few if is_all else opened(asked, TIES, start.as_figures)[0]).plus(start)
    found = mended(around, stock, around.locate(start.counts), enough)
    best = start if found is None else around.only(found)
    is_small = is_all and len(few.owner) <= SMALL
    if best.total > enough and not is_small:
        best = freed(asked, around, best, enough + 2 * NOISE, FREEINGS) or best
    best = min(best, of_mix, key=lambda one: one.total)
    if best.total <= enough:
        return best
    if is_small and spread(asked, best.total - bound) <= _FEW_ON_LADDERS:
        return best
    for ways in _FEW_WAYS[is_small:]:
        found, is_sure = searched(few, stock, asked.priced, enough + 2 * NOISE, ways)
        if found is not None:
            return few.only(found)
        if is_sure:
            break
    return best


def _widened(asked: Sharing, best: Columns) -> tuple[Columns, float]:
    """All that may be better is searched where it is little; else a small gap above the bound, and wider ones after."""
    bound = proven = asked.priced.bound
    best = better(asked, best)
    is_little = spread(asked, best.total - bound) <= _MOST_CHOICES
    for part in (1.0, *_PARTS) if is_little else (*_PARTS, 1.0):
        if _is_close(best, proven):
            break
        for _ in range(_TURNS):
            gap = max(NOISE, part * (best.total - bound))
            found, is_sure = _searched(asked, gap, _MANY_WAYS if part == 1.0 else _MANY_WAYS[:2])
            if found is None:
                break
            best = found
            if is_sure or _is_close(best, proven):
                return best, best.total if is_sure else proven
        if found is None and is_sure:
            proven = max(proven, bound + gap)
    return best, proven


def _searched(asked: Sharing, gap: float, many_ways: tuple[int, ...]) -> tuple[Columns | None, bool]:
    """An answer whose cost is no further above the bound than the gap, or None; and whether it is the best, or none is.

    A few ways are tried first: an answer that they lead to makes the gap smaller.
    """
    few, is_all = opened(asked, gap, asked.priced.mixed if spread(asked, gap) > _MOST_BUILT else None)
    if len(few.owner) > _MOST_CHOICES:
        few, is_all = opened(asked, gap, asked.priced.mixed)
    for ways in many_ways[len(few.owner) <= SMALL :] if len(few.owner) <= _SEEN_THROUGH else many_ways[:2]:
        found, is_sure = searched(few, asked.stock, asked.priced, asked.priced.bound + gap, ways)
        if found is not None:
            better = mended(few, asked.stock, found, asked.priced.bound)
            return few.only(found if better is None else better), is_sure and is_all
        if is_sure:
            break
    return None, is_sure and is_all


def _branched(asked: Sharing, best: Columns, proven: float) -> tuple[Columns, float]:
    """What may be better is branched on, where it is little."""
    gap = best.total - asked.priced.bound
    if spread(asked, gap) > _MOST_BUILT:
        return best, proven
    few, _ = opened(asked, gap, None)
    worth = float(asked.priced.prices @ np.maximum(1, asked.stock))
    found, least = branched(few, asked.stock, asked.priced, best.total, reach=_DEAREST * worth, close=NOISE,
                            most=max(_LEAST_PARTS, _PARTS_TIMES // max(1, len(few.owner))))  # fmt: skip
    return best if found is None else few.only(found), max(proven, least)
