"""The best choices of all sets under a shared stock, set by set, of those that good prices leave open.

A part way is dropped where even at the prices the rest can not bring it below what is wanted, or within the stock. Of
the ways that use the same of each kind only the cheapest is kept on.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from counterpoise.planning.columns import Columns, Counts, Figures
from counterpoise.planning.prices import Priced

NOISE = 1e-7
_TRIED_A_WAY = 40
_LEAST_TRIED = 50_000


def searched(
    columns: Columns, stock: Counts, priced: Priced, below: float, most_ways: int
) -> tuple[Counts | None, bool]:
    """The choices that cost least, of those below a cost, one row a set; or None. And whether all was seen.

    Args:
        columns: the choices; every set must have one.
        stock: bricks by kind.
        priced: by kind, and a mix of choices: the better they are, the fewer ways need be kept on.
        below: what it must cost less than.
        most_ways: ways that are kept on from set to set: beyond that, the likely ones.
    """
    prices = priced.prices
    paid = columns.paid(prices)
    sizes = np.diff(np.append(columns.starts, len(paid)))
    turn = np.argsort(sizes, kind="stable")
    least = np.minimum.reduceat(paid, columns.starts)[turn]
    rest = np.append(np.cumsum(least[::-1])[::-1], 0.0)
    fewest = np.minimum.reduceat(columns.counts, columns.starts, axis=0)[turn]
    needs = np.vstack([np.cumsum(fewest[::-1], axis=0)[::-1], np.zeros((1, len(stock)), dtype=np.int64)])
    path = np.cumsum(priced.mixed[turn], axis=0)
    most = float(prices @ stock) + below - NOISE
    lone = int((sizes == 1).sum())  # sets with no choice: they come first
    given = columns.starts[turn[:lone]]
    used, spent = columns.counts[given].sum(axis=0)[None, :], paid[given].sum(keepdims=True)
    came: list[tuple[Counts, Counts]] = []
    is_sure = True
    if (used + needs[lone] > stock).any() or float(spent[0]) + rest[lone] > most:
        return None, True
    for at, one in enumerate(turn[lone:], start=lone):
        first, size = int(columns.starts[one]), int(sizes[one])
        few = max(1, max(_LEAST_TRIED, _TRIED_A_WAY * most_ways) // size)
        if len(spent) > few:
            kept = _likely(used - path[at - 1], spent, stock, few)
            used, spent, is_sure = used[kept], spent[kept], False
            came[-1] = (came[-1][0][kept], came[-1][1][kept])
        all_spent = (spent[:, None] + paid[None, first : first + size]).ravel()
        keep = np.flatnonzero(all_spent + rest[at + 1] <= most)
        source, pick = keep // size, first + keep % size
        sums = used[source] + columns.counts[pick]
        fits = (sums + needs[at + 1] <= stock).all(axis=1)
        source, pick, sums, all_spent = source[fits], pick[fits], sums[fits], all_spent[keep][fits]
        if not len(sums):
            return None, is_sure
        order = _each_once(sums, all_spent)
        if len(order) > most_ways:
            order, is_sure = order[_likely(sums[order] - path[at], all_spent[order], stock, most_ways)], False
        used, spent = sums[order], all_spent[order]
        came.append((source[order], pick[order]))
    own = spent - used @ prices  # of what they pay, less what the bricks are worth
    if float(own.min()) >= below - NOISE:
        return None, is_sure
    found = columns.starts.copy()
    found[turn[lone:]] = _traced(came, int(np.argmin(own)))
    return found, is_sure


def _each_once(sums: Counts, spent: Figures) -> Counts:
    """The cheapest of those that use the same."""
    if len(sums) < 2:
        return np.arange(len(sums))
    order = np.lexsort((spent, *sums.T))
    new = np.ones(len(order), dtype=bool)
    new[1:] = (sums[order[1:]] != sums[order[:-1]]).any(axis=1)
    return order[new]


def _likely(off: Figures, spent: Figures, stock: Counts, most: int) -> Counts:
    """The ways that are likely to come to a good end: little spent, and of each kind as much used as in the mix."""
    uneven = np.abs(off) @ (1.0 / np.maximum(1.0, np.sqrt(stock)))
    rank = np.argsort(np.argsort(spent, kind="stable")) + 3 * np.argsort(np.argsort(uneven, kind="stable"))
    found: Counts = np.argsort(rank, kind="stable")[:most]
    return found


def _traced(came: Sequence[tuple[Counts, Counts]], last: int) -> Counts:
    found = []
    for source, pick in reversed(came):
        found.append(pick[last])
        last = int(source[last])
    return np.asarray(found[::-1], dtype=np.int64)
