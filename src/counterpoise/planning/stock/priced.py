"""The best choices of all sets under a shared stock, set by set, of those that good prices leave open.

A part way is dropped where even at the prices the rest can not bring it below what is wanted, or within the stock. Of
the ways that use the same of each kind only the cheapest is kept on.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from counterpoise.planning.stock.columns import Columns, Counts, Figures
from counterpoise.planning.stock.packed import Packing, each_once
from counterpoise.planning.stock.prices import Priced

NOISE = 1e-7
_TRIED_A_WAY = 40
_LEAST_TRIED = 50_000

_N = TypeVar("_N", np.int64, np.float64)


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
    rest = _from_here_on(np.minimum.reduceat(paid, columns.starts)[turn])
    needs = _from_here_on(np.minimum.reduceat(columns.counts, columns.starts, axis=0)[turn])
    path = np.cumsum(priced.mixed[turn], axis=0)
    most = float(prices @ stock) + below - NOISE
    lone = int((sizes == 1).sum())  # sets with no choice: they come first
    given = columns.starts[turn[:lone]]
    used, spent = columns.counts[given].sum(axis=0)[None, :], paid[given].sum(keepdims=True)
    if (used + needs[lone] > stock).any() or float(spent[0]) + rest[lone] > most:
        return None, True
    packing = Packing.for_up_to(stock + columns.counts.max(axis=0))
    each, limits, used = packing.packed(columns.counts), packing.limits(stock - needs), packing.packed(used)
    came: list[tuple[Counts, Counts]] = []
    is_sure = True
    for at, one in enumerate(turn[lone:], start=lone):
        own = slice(int(columns.starts[one]), int(columns.starts[one] + sizes[one]))
        few = max(1, max(_LEAST_TRIED, _TRIED_A_WAY * most_ways) // int(sizes[one]))
        if len(spent) > few:
            kept = _likely(packing.counts(used) - path[at - 1], spent, stock, few)
            used, spent, is_sure = used[:, kept], spent[kept], False
            came[-1] = (came[-1][0][kept], came[-1][1][kept])
        all_spent = (spent[:, None] + paid[own]).ravel()
        sums = (used[:, :, None] + each[:, None, own]).reshape(len(used), -1)
        keep = np.flatnonzero((all_spent + rest[at + 1] <= most) & packing.are_within(sums, limits[:, at + 1, None]))
        if not len(keep):
            return None, is_sure
        keep = keep[each_once(sums[:, keep], all_spent[keep])]
        used, spent = sums[:, keep], all_spent[keep]
        if len(keep) > most_ways:
            likely = _likely(packing.counts(used) - path[at], spent, stock, most_ways)
            keep, used, spent, is_sure = keep[likely], used[:, likely], spent[likely], False
        came.append((keep // sizes[one], own.start + keep % sizes[one]))
    worth = spent - packing.counts(used) @ prices  # what they pay, less what the bricks are worth
    if float(worth.min()) >= below - NOISE:
        return None, is_sure
    found = columns.starts.copy()
    found[turn[lone:]] = _traced(came, int(np.argmin(worth)))
    return found, is_sure


def _from_here_on(each: NDArray[_N]) -> NDArray[_N]:
    """What all from each on come to, and nothing after the last."""
    sums = np.cumsum(each[::-1], axis=0)[::-1]
    return np.concatenate([sums, np.zeros_like(sums[:1])])


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
