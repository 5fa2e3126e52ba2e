"""What ladders ask for at the least, at prices, with what a set leaves beyond its spare: no choice can be cheaper.

Along a ladder what is beyond the spare falls, and is flat from the last rung or from the one below it. With a price on
the rungs it is least at the foot, or at one of those two.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from counterpoise.planning.stock.columns import Columns, Counts, Figures
from counterpoise.planning.stock.ladders import Ladders


@dataclass(frozen=True, slots=True)
class Corners:
    """The foot and the last two rungs of each ladder, and what they cost; one column a ladder."""

    ladders: Ladders
    feet: Figures
    rungs: Counts
    costs: Figures

    @classmethod
    def of(cls, ladders: Ladders) -> Corners:
        """Of ladders on which every rung is allowed."""
        rungs = np.stack([np.zeros_like(ladders.most), np.maximum(0, ladders.most - 1), ladders.most])
        costs = np.maximum(0.0, np.abs(ladders.left + rungs * ladders.step) - ladders.spare)
        return cls(ladders, ladders.foot.astype(np.float64), rungs, costs)

    def asked(self, prices: Figures) -> Figures:
        """What each ladder asks."""
        rung = prices[self.ladders.kind] * self.ladders.by
        found: Figures = self.feet @ prices + (self.costs + self.rungs * rung).min(axis=0)
        return found

    def table(self, rows: Counts) -> Columns:
        """The corners of some ladders, each once."""
        rungs = self.rungs[:, rows].T
        new = np.ones(rungs.shape, dtype=bool)
        new[:, 1:] = rungs[:, 1:] != rungs[:, :-1]
        return self.ladders.columns(rows[np.nonzero(new)[0]], rungs[new])
