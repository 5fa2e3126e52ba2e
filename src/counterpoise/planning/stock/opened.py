"""Sets that share a stock, at the best prices, and the choices that these leave open."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from counterpoise.planning.stock.at_prices import SAME
from counterpoise.planning.stock.columns import Columns, Counts, Figures, Yes
from counterpoise.planning.stock.corners import Corners
from counterpoise.planning.stock.ladders import Ladders
from counterpoise.planning.stock.priced import NOISE
from counterpoise.planning.stock.prices import Priced, best_prices

SMALL = 1_000  # choices of all sets: so few are seen through at once
_MOST_LOOKED_AT = 20_000  # of more, ladders that are far off are left out before they are written out
_WINDOW = 3  # bricks of a kind
_FEW_CHOICES = 100
_TAKEN_IN = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Sharing:
    """What is asked: the ladders, the stock, and the best prices with what they leave.

    At these `cheapest` is what each set pays at the least, and `dearer` by how much each ladder asks more.
    """

    ladders: Ladders
    stock: Counts
    priced: Priced
    cheapest: Figures
    dearer: Figures


def sharing(ladders: Ladders, stock: Counts, prices: Figures) -> Sharing:
    """The best prices, sought with a few ladders; what asks less than these is taken in, and they are sought anew.

    Dearer ones are tried as long as the mix that they come with is not within the stock.
    """
    corners = Corners.of(ladders)
    rows = _plain(ladders)
    reach = 3.0 * float(prices @ np.maximum(1, stock))
    for _ in range(_TAKEN_IN):
        found = best_prices(corners.table(rows), stock, prices, reach, enough=np.inf, close=NOISE)
        asked = corners.asked(found.prices)
        cheapest = np.minimum.reduceat(asked, ladders.starts)
        prices = found.prices
        bound = float(cheapest.sum() - prices @ stock)
        if bound < found.bound - NOISE:
            order = np.flatnonzero(asked <= cheapest[ladders.owner])
            rows = np.union1d(rows, order[np.flatnonzero(np.diff(ladders.owner[order], prepend=-1))])
        elif (found.mixed.sum(axis=0) > stock + 1e-6).any():
            reach *= 30.0
        else:
            break
    return Sharing(ladders=ladders, stock=stock, priced=replace(found, bound=bound), cheapest=cheapest,
                    dearer=asked - cheapest[ladders.owner])  # fmt: skip


def _plain(ladders: Ladders) -> Counts:
    """The ladders whose foot has heavier bricks of one kind at most, and of each set those with the fewest kinds."""
    heavier = ladders.foot > 0
    heavier[np.arange(len(heavier)), ladders.kind] = False
    kinds = heavier.sum(axis=1)
    return np.flatnonzero(kinds <= np.maximum(1, np.minimum.reduceat(kinds, ladders.starts))[ladders.owner])


def opened(asked: Sharing, gap: float, around: Figures | None) -> tuple[Columns, bool]:
    """The choices that are dearer than the cheapest of their set by no more than the gap; and if these are all.

    Where they are many and some counts are given, one row a set, only those that are near; every set at least one.
    """
    ladders = asked.ladders
    rows = np.flatnonzero(asked.dearer <= gap)
    is_all = around is None or spread(asked, gap) <= _MOST_LOOKED_AT
    if around is not None and not is_all:
        off = np.abs(ladders.foot[rows] - around[ladders.owner[rows]])
        off[np.arange(len(rows)), ladders.kind[rows]] = 0.0
        rows = rows[_within(off, ladders.owner[rows])]
    every = ladders.every(rows)
    few = every.only(every.paid(asked.priced.prices) - asked.cheapest[every.owner] <= gap + SAME)
    if around is not None and len(few.owner) > SMALL:
        return few.only(_within(np.abs(few.as_figures - around[few.owner]), few.owner)), False
    return few, is_all


def spread(asked: Sharing, gap: float) -> int:
    """How many choices the ladders have of which some are dearer by no more than the gap."""
    return int((asked.ladders.most[asked.dearer <= gap] + 1).sum())


def _within(off: Figures, owner: Counts) -> Yes:
    """Those within the window, and of each set those nearest to it, or all where they are few."""
    far = off.max(axis=1)
    starts = np.flatnonzero(np.diff(owner, prepend=-1))
    nearest = np.minimum.reduceat(far, starts)
    several = np.diff(np.append(starts, len(owner))) > _FEW_CHOICES
    of = np.cumsum(np.diff(owner, prepend=-1) != 0) - 1
    kept: Yes = (far <= np.maximum(_WINDOW, nearest + 1.0)[of]) | ~several[of]
    return kept
