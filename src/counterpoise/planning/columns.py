"""The choices of all sets in one table: how many of each kind, what that leaves out of balance, and what it costs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Counts = NDArray[np.int64]
Figures = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Columns:
    """The choices of all sets, one under the other; those of a set are together and begin at `starts`."""

    counts: Counts
    balance: Figures
    cost: Figures
    starts: Counts
    owner: Counts

    @classmethod
    def of(cls, counts: Sequence[Counts], balance: Sequence[Figures], cost: Sequence[Figures]) -> Columns:
        """From the choices of each set."""
        sizes = [len(each) for each in counts]
        starts = np.concatenate([[0], np.cumsum(sizes)[:-1]]).astype(np.int64)
        return cls(np.concatenate(counts), np.concatenate(balance), np.concatenate(cost), starts,
                   np.repeat(np.arange(len(sizes)), sizes))  # fmt: skip

    def only(self, keep: NDArray[np.bool_]) -> Columns:
        """Some of them."""
        sizes = np.bincount(self.owner[keep], minlength=len(self.starts))
        return Columns(self.counts[keep], self.balance[keep], self.cost[keep],
                       np.concatenate([[0], np.cumsum(sizes)[:-1]]).astype(np.int64), self.owner[keep])  # fmt: skip

    @property
    def is_whole(self) -> bool:
        """True where every set has a choice."""
        return bool((np.diff(np.append(self.starts, len(self.counts))) > 0).all())

    def cheapest(self, prices: Figures, *, is_free: bool) -> tuple[Counts, float]:
        """The choice of each set at these prices, and what they pay in all; `is_free` leaves their cost out."""
        paid = self.counts @ prices if is_free else self.cost + self.counts @ prices
        least = np.minimum.reduceat(paid, self.starts)
        order = np.flatnonzero(paid == least[self.owner])
        chosen = order[np.flatnonzero(np.diff(self.owner[order], prepend=-1))]
        return chosen, float(least.sum())

    def locate(self, rows: Counts) -> Counts:
        """Where counts of another table, one row a set, stand in this one."""
        same = (self.counts == rows[self.owner]).all(axis=1)
        found = np.flatnonzero(same)
        return found[np.flatnonzero(np.diff(self.owner[found], prepend=-1))]
