"""Whole choices by branching: where a mix lies between two counts of a kind it is split, and each side is priced anew.

Of all parts that are left the one with the lowest bound is split next (best first). What is no lower than the best
answer so far is left out; where nothing else is left that answer is the best. Any text on integer programming.
"""

from __future__ import annotations

from heapq import heappop, heappush
from itertools import count

import numpy as np

from counterpoise.planning.stock.columns import Columns, Counts, Figures, Yes
from counterpoise.planning.stock.prices import Priced, best_prices
from counterpoise.planning.stock.rounding import mended, rounded

_WHOLE = 1e-6
_CHANGES = 8


def branched(
    columns: Columns, stock: Counts, priced: Priced, below: float, *, reach: float, close: float, most: int
) -> tuple[Counts | None, float]:
    """The choices that cost least, of those below a cost, one row a set, or None; and what none costs less than.

    Args:
        columns: the choices; every set must have one.
        stock: bricks by kind.
        priced: prices, their bound and mix with all of the choices.
        below: what it must cost less than; where no choices do, the second figure is this.
        reach: what the stock may be worth at the prices.
        close: what differs by less is one.
        most: parts that are priced at the most.
    """
    best, total, turn = None, below, count()
    open_ = [(priced.bound, next(turn), np.arange(len(columns.owner)), priced)]
    while open_ and most > 0:
        bound, _, rows, at = heappop(open_)
        if bound >= total - close:
            return best, total
        part = columns.only(rows)
        for side in _sides(part, at.mixed):
            some = part.only(side)
            if len(some.starts) < len(part.starts):
                continue
            most -= 1
            again = best_prices(some, stock, at.prices, reach, enough=total, close=close)
            if again.bound >= total - close:
                continue
            found = mended(some, stock, rounded(some, stock, again.mixed), again.bound, _CHANGES)
            if found is not None and float(some.cost[found].sum()) < total - close:
                best, total = rows[side][found], float(some.cost[found].sum())
            heappush(open_, (again.bound, next(turn), rows[side], again))
    return best, min(total, open_[0][0]) if open_ else total


def _sides(part: Columns, mixed: Figures) -> tuple[Yes, ...]:
    """Those at or below a count of a kind of one set, and those above it; nothing where no set has another choice."""
    off = np.abs(mixed - np.round(mixed))
    one, kind = divmod(int(np.argmax(off)), off.shape[1])
    if off[one, kind] > _WHOLE:
        return _about(part, one, kind, float(mixed[one, kind]))
    ends = np.append(part.starts[1:], len(part.owner))
    for each in np.argsort(part.starts - ends, kind="stable").tolist():  # those with the most choices first
        counts = part.counts[part.starts[each] : ends[each]]
        spread = counts.max(axis=0) - counts.min(axis=0)
        if spread.any():
            kind = int(np.argmax(spread))
            return _about(part, int(each), int(kind), float(counts[:, kind].min() + counts[:, kind].max()) / 2 - _WHOLE)
    return ()


def _about(part: Columns, one: int, kind: int, value: float) -> tuple[Yes, Yes]:
    others, above = part.owner != one, part.counts[:, kind] > value
    return others | ~above, others | above
