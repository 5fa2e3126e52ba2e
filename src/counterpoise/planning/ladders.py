"""The choices of all sets as ladders: so many of the heavier kinds, and on top any number of one lighter kind.

From rung to rung a set gets one more of the lighter kind. So a bound on the out of balance is a first rung, and a table
of all choices is written out only where it is asked for. It knows no stock and no prices.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, fields

import numpy as np

from counterpoise.planning.columns import Columns, Counts, Figures, Yes

SAME = 1e-9  # [of a force, or of a rung]: what differs by less is one


@dataclass(frozen=True, slots=True, kw_only=True)
class Ladders:
    """One row a ladder; those of a set are together.

    `foot` is how many of each kind without a rung and `left` what that leaves out of balance [N]; each rung is `by`
    more of `kind` and lifts that by `step` [N]; `most` is the last rung. `lightest` is the least that a brick of the
    foot weighs [N] where the foot without it is a choice of the set too, else infinite. `spare` is what does not count
    in the sum [N]. `owner` is the set of a row, `starts` the first row of each set.
    """

    foot: Counts
    left: Figures
    kind: Counts
    by: Counts
    step: Figures
    most: Counts
    lightest: Figures
    spare: Figures
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
                   lightest=lightest, spare=np.full(rows, spare), owner=none, starts=none[:1])  # fmt: skip

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

    @property
    def least_brick(self) -> float:
        """What the lightest brick weighs on any set [N]: what a set may spare is half of its lightest."""
        return 2.0 * float(self.spare.min())

    def floors(self) -> Figures:
        """The least out of balance of each set, with all the bricks that its ladders have [N]."""
        found: Figures = np.minimum.reduceat(self._nearest()[1], self.starts)
        return found

    def nearest(self) -> Columns:
        """The choices that leave a set no more than its least, and of two rungs as near the lower."""
        rungs, near = self._nearest()
        rows = np.flatnonzero(near <= self.floors()[self.owner] + SAME)
        return self._columns(rows, rungs[rows])

    def fewest(self, bound: float) -> Columns:
        """The choices that leave no more than the bound, without those that only take more than another of the set."""
        first, keep = self._within(bound)
        keep &= (first > 0) | (self.left - self.lightest < -bound - SAME)
        rows = np.flatnonzero(keep)
        return self._columns(rows, first[rows])

    def paid_by(self, prices: Figures) -> Callable[[float], float]:
        """What all sets pay at the least for choices within a bound."""
        feet, rung = self.foot @ prices, prices[self.kind] * self.by

        def paid(bound: float) -> float:
            first, keep = self._within(bound)
            return float(np.minimum.reduceat(np.where(keep, feet + first * rung, np.inf), self.starts).sum())

        return paid

    def corners(self, bound: float) -> Columns:
        """Within the bound, those that may be best at a price on each kind.

        Along a ladder what is beyond the spare falls, and is flat from the last rung or from the one below it. With a
        price on the rungs it is least at the first, or at one of those two.
        """
        first, keep = self._within(bound)
        rungs = np.stack([first, self.most - 1, self.most], axis=1)
        wanted = np.stack([keep, keep & (rungs[:, 1] > first), keep & (rungs[:, 2] > first)], axis=1)
        wanted &= self.left[:, None] + rungs * self.step[:, None] <= bound + SAME
        return self._columns(np.nonzero(wanted)[0], rungs[wanted])

    def every(self, bound: float, rows: Counts) -> Columns:
        """All the choices within the bound of some ladders."""
        first, keep = self._within(bound)
        rows = rows[keep[rows]]
        spread = self.most[rows] - first[rows] + 1
        at = np.repeat(rows, spread)
        rungs = first[at] + np.arange(len(at)) - np.repeat(np.cumsum(spread) - spread, spread)
        inside = self.left[at] + rungs * self.step[at] <= bound + SAME
        return self._columns(at[inside], rungs[inside])

    def spread(self, bound: float, rows: Counts) -> int:
        """How many choices `every` would have, or a few more."""
        first, keep = self._within(bound)
        rows = np.unique(rows)
        return int((self.most - first + 1)[rows[keep[rows]]].sum())

    def bounds_above(self, bound: float, reach: float) -> Figures:
        """The bounds above this one, no further than the reach, at which a set has one more choice."""
        first = np.ceil((-bound - self.left) / self.step - SAME)  # a rung too low lies below it, itself may be too high
        rungs = np.clip(np.stack([first - 1.0, first]), 0.0, self.most)
        values = np.abs(self.left + rungs * self.step)
        found: Figures = np.unique(np.round(values[(values > bound + SAME) & (values <= bound + reach)], 9))
        return found

    def _nearest(self) -> tuple[Counts, Figures]:
        """Of each ladder the rung that leaves the least, and how much that is."""
        below = np.clip(np.floor(-self.left / self.step), 0, self.most).astype(np.int64)
        above = np.minimum(below + 1, self.most)
        at_below, at_above = np.abs(self.left + below * self.step), np.abs(self.left + above * self.step)
        return np.where(at_above < at_below - SAME, above, below), np.minimum(at_below, at_above)

    def _within(self, bound: float) -> tuple[Counts, Yes]:
        """The first rung of each ladder that leaves no more than the bound, and if there is one."""
        first = np.maximum(0.0, np.ceil((-bound - self.left) / self.step - SAME))
        keep = (first <= self.most) & (self.left + first * self.step <= bound + SAME)
        return first.astype(np.int64), keep

    def _columns(self, rows: Counts, rungs: Counts) -> Columns:
        counts = self.foot[rows]
        counts[np.arange(len(rows)), self.kind[rows]] += rungs * self.by[rows]
        balance = self.left[rows] + rungs * self.step[rows]
        return Columns(counts, balance, np.maximum(0.0, np.abs(balance) - self.spare[rows]), rows, self.owner[rows])
