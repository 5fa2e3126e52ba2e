"""What sets ask at the least, at one price for each kind of brick, to be no further out of balance than a bound."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Protocol

import numpy as np

from counterpoise.planning.stock.columns import Counts, Figures, Yes

SAME = 1e-9  # [N]: what differs by less is one


class Climbs(Protocol):
    """Ladders, as far as the rungs go: see `Ladders`."""

    @property
    def left(self) -> Figures:
        """What the foot leaves out of balance [N]."""

    @property
    def step(self) -> Figures:
        """What a rung lifts [N]."""

    @property
    def most(self) -> Counts:
        """The last rung."""

    @property
    def floor(self) -> Figures:
        """The least that the set can reach with all the bricks [N]: no bound asks for less."""


def first_within(ladders: Climbs, bound: float) -> tuple[Figures, Yes]:
    """The first rung of each ladder that leaves no more than the bound, and if there is one."""
    most = np.maximum(bound, ladders.floor)
    first = np.maximum(0.0, np.ceil((-most - ladders.left - SAME) / ladders.step))
    return first, (first <= ladders.most) & (ladders.left + first * ladders.step <= most + SAME)


def bounds_above(ladders: Climbs, bound: float, reach: float) -> Figures:
    """The bounds above this one, no further than the reach, at which a ladder has one more choice."""
    first = np.ceil((-bound - ladders.left - SAME) / ladders.step)  # one too low lies below, itself may be too high
    rungs = np.clip(np.stack([first - 1.0, first]), 0.0, ladders.most)
    values = np.abs(ladders.left + rungs * ladders.step)
    found = np.unique(values[(values > np.maximum(bound, ladders.floor) + SAME) & (values <= bound + reach)])
    last: Figures = found[np.diff(found, append=np.inf) > SAME]  # of those that are one
    return last


@dataclass(frozen=True, slots=True, kw_only=True)
class AtPrices:
    """Ladders at prices: what their `foot` costs and what a `rung`; the rest as in `Ladders`."""

    foot: Figures
    rung: Figures
    left: Figures
    step: Figures
    most: Counts
    floor: Figures
    owner: Counts
    starts: Counts

    def of_each(self, bound: float) -> Figures:
        """What each ladder asks for its first choice within a bound; infinite where it has none."""
        first, keep = first_within(self, bound)
        found: Figures = np.where(keep, self.foot + first * self.rung, np.inf)
        return found

    def of_all(self, bound: float) -> float:
        """What all sets pay at the least for choices within a bound."""
        return float(np.minimum.reduceat(self.of_each(bound), self.starts).sum())

    def between(self, low: float, high: float) -> AtPrices:
        """Those ladders only that may be the cheapest of their set for some bound between two."""
        least = np.minimum.reduceat(self.of_each(low), self.starts)
        rows = np.flatnonzero(self.of_each(high) <= least[self.owner])
        parts = {one.name: getattr(self, one.name)[rows] for one in fields(self) if one.name != "starts"}
        return AtPrices(**parts, starts=np.flatnonzero(np.diff(parts["owner"], prepend=-1)))
