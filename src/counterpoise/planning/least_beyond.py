"""The least sum of what is beyond the spare of each set, with no set beyond a bound, that a stock allows.

The best prices say how low it can be and which choices can have a part in that. Whole choices are made from the mix
that the prices come with; where that does not reach the bound, what can be in a better answer is searched.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from counterpoise.planning.columns import Columns, Counts, Figures, Yes
from counterpoise.planning.ladders import SAME, Ladders
from counterpoise.planning.priced import NOISE, searched
from counterpoise.planning.prices import Priced, best_prices
from counterpoise.planning.rounding import mended, rounded

CLOSE = 1e-6  # of a sum: an answer that near its bound is taken for the best
_TIES = 1e-6  # [N]
_WINDOW = 3  # bricks of a kind
_MOST_BUILT, _MOST_CHOICES = 200_000, 30_000
_FEW_WAYS, _MANY_WAYS = (50, 400), (50, 2_000, 20_000)
_SEEN_THROUGH = 4_000  # choices: of more, many ways would not show all and take long
_FEW_CHOICES = 100
_TURNS, _REACHES = 12, 5
_PARTS = (1 / 64, 1 / 16, 1 / 4)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sharing:
    """What is asked: the ladders, the stock, the largest out of balance, and the best prices with what they leave."""

    ladders: Ladders
    stock: Counts
    largest: float
    priced: Priced
    corners: Columns
    dearer: Figures


def least_beyond(ladders: Ladders, stock: Counts, start: Columns, prices: Figures) -> tuple[Columns, float]:
    """Choices for the least sum that was found, one a set, and a bound that no answer is below.

    Args:
        ladders: the sets.
        stock: bricks by kind.
        start: choices that the stock allows, one a set; none may have more out of balance than the largest of these.
        prices: by kind, to try first.
    """
    largest = float(np.abs(start.balance).max())
    corners = ladders.corners(largest)
    priced = _prices(corners, stock, prices)
    asked = _Sharing(ladders=ladders, stock=stock, largest=largest, priced=priced, corners=corners,
                     dearer=corners.cheapest(priced.prices)[1])  # fmt: skip
    best = _near(asked, start)
    if _is_close(best, priced.bound):
        return best, priced.bound
    return _widened(asked, best)


def _prices(corners: Columns, stock: Counts, prices: Figures) -> Priced:
    """The best prices; dearer ones are tried as long as the mix that they come with is not within the stock."""
    reach = 3.0 * float(prices @ np.maximum(1, stock))
    for _ in range(_REACHES):
        found = best_prices(corners, stock, prices, reach, enough=np.inf, close=NOISE)
        if (found.mixed.sum(axis=0) <= stock + 1e-6).all():
            break
        prices, reach = found.prices, 30.0 * reach
    return found


def _is_close(best: Columns, bound: float) -> bool:
    cost = float(best.cost.sum())
    return cost - bound <= max(NOISE, CLOSE * cost)


def _near(asked: _Sharing, start: Columns) -> Columns:
    """The better of two answers: whole choices from the mix, and the start changed for the better.

    Where neither is as good as the bound one that is is searched among the choices that are as good at the prices.
    """
    stock, bound = asked.stock, asked.priced.bound
    enough = bound + max(NOISE, CLOSE * bound)
    around = _open(asked, _TIES, start.as_figures).plus(start)
    found = mended(around, stock, around.locate(start.counts), enough)
    answers = [start if found is None else around.only(found)]
    if _cost(answers[0]) <= enough:
        return answers[0]
    few = _open(asked, _TIES, asked.priced.mixed)
    found = mended(few, stock, rounded(few, stock, asked.priced.mixed), enough)
    if found is not None and _cost(few.only(found)) <= enough:
        return few.only(found)
    answers += [] if found is None else [few.only(found)]
    for ways in _FEW_WAYS:
        found, is_sure = searched(few, stock, asked.priced, enough + 2 * NOISE, ways)
        if found is not None:
            return few.only(found)
        if is_sure:
            break
    return min(answers, key=_cost)


def _cost(found: Columns) -> float:
    return float(found.cost.sum())


def _open(asked: _Sharing, gap: float, around: Figures | None) -> Columns:
    """The choices that are dearer than the cheapest of their set by no more than the gap.

    Those only that are near some counts, one row a set, where these are given; but every set at least one.
    """
    corners, ladders = asked.corners, asked.ladders
    rows = np.unique(corners.ladder[asked.dearer <= gap])
    if around is not None:
        off = np.abs(ladders.foot[rows] - around[ladders.owner[rows]])
        off[np.arange(len(rows)), ladders.kind[rows]] = 0.0
        rows = rows[_within(off, ladders.owner[rows])]
    all_of_them = ladders.every(asked.largest, rows)
    cheapest = np.minimum.reduceat(corners.paid(asked.priced.prices), corners.starts)
    few = all_of_them.only(all_of_them.paid(asked.priced.prices) - cheapest[all_of_them.owner] <= gap + SAME)
    if around is not None:
        few = few.only(_within(np.abs(few.as_figures - around[few.owner]), few.owner))
    return few


def _within(off: Figures, owner: Counts) -> Yes:
    """Those within the window, and of each set those nearest to it, or all where they are few."""
    far = off.max(axis=1)
    starts = np.flatnonzero(np.diff(owner, prepend=-1))
    nearest = np.minimum.reduceat(far, starts)
    several = np.diff(np.append(starts, len(owner))) > _FEW_CHOICES
    of = np.cumsum(np.diff(owner, prepend=-1) != 0) - 1
    kept: Yes = (far <= np.maximum(_WINDOW, nearest + 1.0)[of]) | ~several[of]
    return kept


def _widened(asked: _Sharing, best: Columns) -> tuple[Columns, float]:
    """All that may be better is searched where it is little; else a small gap above the bound, and wider ones after."""
    bound = proven = asked.priced.bound
    whole = float(best.cost.sum()) - bound
    few = asked.ladders.spread(asked.largest, asked.corners.ladder[asked.dearer <= whole]) <= _MOST_CHOICES
    for part in (1.0, *_PARTS) if few else (*_PARTS, 1.0):
        for _ in range(_TURNS):
            gap = max(NOISE, part * (float(best.cost.sum()) - bound))
            found, is_sure = _searched(asked, gap, _MANY_WAYS if part == 1.0 else _MANY_WAYS[:2])
            if found is None:
                break
            best = found
            if is_sure or _is_close(best, proven):
                return best, float(best.cost.sum()) if is_sure else proven
        if found is None and is_sure:
            proven = max(proven, bound + gap)
        if _is_close(best, proven):
            break
    return best, proven


def _searched(asked: _Sharing, gap: float, many_ways: tuple[int, ...]) -> tuple[Columns | None, bool]:
    """An answer whose cost is no further above the bound than the gap, or None; and whether it is the best, or none is.

    A few ways are tried first: an answer that they lead to makes the gap smaller.
    """
    many = asked.ladders.spread(asked.largest, asked.corners.ladder[asked.dearer <= gap]) > _MOST_BUILT
    few = _open(asked, gap, asked.priced.mixed if many else None)
    if len(few.owner) > _MOST_CHOICES:
        many, few = True, _open(asked, gap, asked.priced.mixed)
    for ways in many_ways if len(few.owner) <= _SEEN_THROUGH else many_ways[:2]:
        found, is_sure = searched(few, asked.stock, asked.priced, asked.priced.bound + gap, ways)
        if found is not None:
            better = mended(few, asked.stock, found, asked.priced.bound)
            return few.only(found if better is None else better), is_sure and not many
        if is_sure:
            break
    return None, is_sure and not many
