"""The choices of all sets in one table: how many of each kind, what that leaves out of balance, and what it costs."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Counts = NDArray[np.int64]
Figures = NDArray[np.float64]
Yes = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Columns:
    """The choices of all sets, one under the other; those of a set (`owner`) are together and begin at `starts`.

    `ladder` is where a choice came from.
    """

    counts: Counts
    balance: Figures
    cost: Figures
    ladder: Counts
    owner: Counts
    starts: Counts = field(init=False)
    as_figures: Figures = field(init=False)  # the counts once more, as figures: these multiply faster

    def __post_init__(self) -> None:
        object.__setattr__(self, "starts", np.flatnonzero(np.diff(self.owner, prepend=-1)))
        object.__setattr__(self, "as_figures", self.counts.astype(np.float64))

    @property
    def total(self) -> float:
        """What they cost together."""
        return float(self.cost.sum())

    def only(self, keep: Yes | Counts) -> Columns:
        """Some of them."""
        return Columns(self.counts[keep], self.balance[keep], self.cost[keep], self.ladder[keep], self.owner[keep])

    def plus(self, more: Columns) -> Columns:
        """These and some more, which may be among them."""
        order = np.argsort(np.concatenate([self.owner, more.owner]), kind="stable")
        return Columns(np.concatenate([self.counts, more.counts])[order],
                       np.concatenate([self.balance, more.balance])[order],
                       np.concatenate([self.cost, more.cost])[order],
                       np.concatenate([self.ladder, more.ladder])[order],
                       np.concatenate([self.owner, more.owner])[order])  # fmt: skip

    def without_cost(self) -> Columns:
        """The same, and nothing costs anything."""
        return Columns(self.counts, self.balance, np.zeros(len(self.cost)), self.ladder, self.owner)

    def paid(self, prices: Figures) -> Figures:
        """What each choice costs with the bricks at these prices."""
        found: Figures = self.cost + self.as_figures @ prices
        return found

    def cheapest(self, prices: Figures) -> tuple[Counts, Figures]:
        """The choice of each set at these prices, and by how much each choice is dearer than that of its set."""
        paid = self.paid(prices)
        dearer = paid - np.minimum.reduceat(paid, self.starts)[self.owner]
        order = np.flatnonzero(dearer <= 0.0)
        return order[np.flatnonzero(np.diff(self.owner[order], prepend=-1))], dearer

    def locate(self, rows: Counts) -> Counts:
        """Where counts of another table, one row a set, stand in this one."""
        found = np.flatnonzero((self.counts == rows[self.owner]).all(axis=1))
        return found[np.flatnonzero(np.diff(self.owner[found], prepend=-1))]
