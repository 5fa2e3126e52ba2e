"""The choices of all sets as ladders: so many of the heavier kinds, and on top any number of one lighter kind.

From rung to rung a set gets one more of the lighter kind. So a bound on the out of balance is a first rung, and a table
of all choices is written out only where it is asked for. It knows no stock and no prices.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace

import numpy as np

from counterpoise.planning.stock.at_prices import SAME, AtPrices, first_within
from counterpoise.planning.stock.columns import Columns, Counts, Figures, Yes


@dataclass(frozen=True, slots=True, kw_only=True)
class Ladders:
    """One row a ladder; those of a set are together.

    `foot` is how many of each kind without a rung and `left` what that leaves out of balance [N]; each rung is `by`
    more of `kind` and lifts that by `step` [N]; `most` is the last rung. `lightest` is the least that a brick of the
    foot weighs [N] where the foot without it is a choice of the set too, else infinite. `spare` is what does not count
    in the sum [N]. `floor` is the least that the set can reach with all the bricks [N]: bounds below it ask it for no
    more. `owner` is the set of a row, `starts` the first row of each set.
    """

    foot: Counts
    left: Figures
    kind: Counts
    by: Counts
    step: Figures
    most: Counts
    lightest: Figures
    spare: Figures
    floor: Figures
    owner: Counts
    starts: Counts

    @classmethod
    def of_one(
        cls, foot: Counts, left: Figures, *, kind: int, by: int, step: float, most: Counts, lightest: Figures,
        spare: float,
    ) -> Ladders:  # fmt: skip
        """Of one set that climbs by one kind."""
        rows = len(left)
        none = np.zeros(rows, dtype=np.int64)
        return cls(foot=foot, left=left, kind=none + kind, by=none + by, step=np.full(rows, step), most=most,
                   lightest=lightest, spare=np.full(rows, spare), floor=np.zeros(rows), owner=none,
                   starts=none[:1])  # fmt: skip

    @classmethod
    def fixed(cls, counts: Counts, left: Figures, spare: float) -> Ladders:
        """Of one set: choices that stand for themselves, with no rung above the foot."""
        none = np.zeros(len(counts), dtype=np.int64)
        return cls.of_one(counts, left, kind=0, by=0, step=1.0, most=none, lightest=np.full(len(counts), np.inf),
                          spare=spare)  # fmt: skip

    @classmethod
    def joined(cls, sets: Sequence[Ladders]) -> Ladders:
        """Those of many sets."""
        parts = {one.name: np.concatenate([getattr(each, one.name) for each in sets]) for one in fields(cls)}
        sizes = np.array([len(each.left) for each in sets])
        parts |= {"owner": np.repeat(np.arange(len(sets)), sizes), "starts": np.cumsum(sizes) - sizes}
        return cls(**parts)

    def split(self) -> list[Ladders]:
        """Those of each set alone."""
        ends = [*self.starts[1:].tolist(), len(self.left)]
        each = []
        for first, end in zip(self.starts.tolist(), ends, strict=True):
            parts = {one.name: getattr(self, one.name)[first:end] for one in fields(self) if one.name != "starts"}
            none = np.zeros(end - first, dtype=np.int64)
            each.append(Ladders(**parts | {"owner": none, "starts": none[:1]}))
        return each

    def not_below(self, floors: Figures) -> Ladders:
        """The same, where no bound asks a set for less than its floor."""
        return replace(self, floor=floors[self.owner])

    @property
    def least_brick(self) -> float:
        """What the lightest brick weighs on any set [N]: what a set may spare is half of its lightest."""
        return 2.0 * float(self.spare.min())

    def nearest(self) -> Columns:
        """The choices that leave a set no more than its least, and of two rungs as near the lower."""
        below = np.minimum(np.maximum(0, np.floor(-self.left / self.step)), self.most)
        above = np.minimum(below + 1, self.most)
        at_below, at_above = np.abs(self.left + below * self.step), np.abs(self.left + above * self.step)
        rungs, near = np.where(at_above < at_below - SAME, above, below), np.minimum(at_below, at_above)
        rows = np.flatnonzero(near <= np.minimum.reduceat(near, self.starts)[self.owner] + SAME)
        return self.columns(rows, rungs[rows].astype(np.int64))

    def fewest(self, bound: float) -> Columns:
        """The choices that leave no more than the bound, without those that only take more than another of the set."""
        first, keep = self._within(bound)
        keep &= (first > 0) | (self.left - self.lightest < -np.maximum(bound, self.floor) - SAME)
        rows = np.flatnonzero(keep)
        return self.columns(rows, first[rows])

    def at(self, prices: Figures) -> AtPrices:
        """What they ask at prices by kind."""
        return AtPrices(foot=self.foot @ prices, rung=prices[self.kind] * self.by, left=self.left, step=self.step,
                      most=self.most, floor=self.floor, owner=self.owner, starts=self.starts)  # fmt: skip

    def within(self, bound: float) -> Ladders:
        """Those with a choice that leaves no more than the bound, from the first such rung to the last."""
        first, keep = self._within(bound)
        rows = np.flatnonzero(keep)
        parts = {one.name: getattr(self, one.name)[rows] for one in fields(self) if one.name != "starts"}
        first, step, by = first[rows], parts["step"], parts["by"]
        left = parts["left"] + first * step
        parts["foot"][np.arange(len(rows)), parts["kind"]] += first * by
        above = np.floor((np.maximum(bound, parts["floor"]) + SAME - left) / step)
        most = np.minimum(parts["most"] - first, above.astype(np.int64))
        parts |= {"left": left, "most": most, "lightest": np.full(len(rows), np.inf)}
        return Ladders(**parts, starts=np.flatnonzero(np.diff(parts["owner"], prepend=-1)))

    def every(self, rows: Counts) -> Columns:
        """All the choices of some ladders."""
        spread = self.most[rows] + 1
        rungs = np.arange(spread.sum()) - np.repeat(np.cumsum(spread) - spread, spread)
        return self.columns(np.repeat(rows, spread), rungs)

    def columns(self, rows: Counts, rungs: Counts) -> Columns:
        """Some rungs of some ladders."""
        counts = self.foot[rows]
        counts[np.arange(len(rows)), self.kind[rows]] += rungs * self.by[rows]
        balance = self.left[rows] + rungs * self.step[rows]
        return Columns(counts, balance, np.maximum(0.0, np.abs(balance) - self.spare[rows]), rows, self.owner[rows])

    def _within(self, bound: float) -> tuple[Counts, Yes]:
        first, keep = first_within(self, bound)
        return first.astype(np.int64), keep
