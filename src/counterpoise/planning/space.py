"""The space that pieces take up on stage, and whether two of them are in each other's way.

A piece is taken for a box: as thick as is written, as high as it is, as wide as it is spread along its batten; where it
hangs from picks, across the whole stage, as how far it reaches past them is not known. Bare battens, battens' own
thickness and swing are not looked at.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from counterpoise.rigging import RiggedPiece, RiggedSet

_TOUCHING = 1e-6  # [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Space:
    """What is taken up [m]: from `near` to `far` upstage, `low` to `high` above the stage, `right` to `left` of it.

    Along the batten places are counted from its middle, stage left positive.
    """

    near: float
    far: float
    low: float
    high: float
    right: float = -math.inf
    left: float = math.inf

    def fouls(self, other: Space) -> bool:
        """True where the two overlap by more than rounding; touching is not fouling."""
        sides = ((self.near, self.far, other.near, other.far), (self.low, self.high, other.low, other.high),
                 (self.right, self.left, other.right, other.left))  # fmt: skip
        return all(start < end_there - _TOUCHING and there < end - _TOUCHING for start, end, there, end_there in sides)


def taken_up(rigged: RiggedSet, pieces: Iterable[RiggedPiece], low: float, high: float) -> Iterator[Space]:
    """What pieces take up while the batten is anywhere between two heights [m]; those of unknown thickness nothing."""
    distance, middle = rigged.written.distance.best, (rigged.written.batten.length.best or 0.0) / 2.0
    for piece in pieces:
        thick = piece.written.thickness
        if distance is None or thick is None or thick.best is None:
            continue
        half, bottom = thick.best / 2.0, max(0.0, low - piece.height)
        right, left = piece.spread or (-math.inf, math.inf)
        yield Space(near=distance - half, far=distance + half, low=bottom, high=high, right=right - middle,
                    left=left - middle)  # fmt: skip


def is_looked_at(rigged: RiggedSet) -> bool:
    """True where the distance of the set and the thickness of all its pieces are known."""
    thick = [one.written.thickness for one in rigged.pieces]
    return rigged.written.distance.best is not None and all(one is not None and one.best is not None for one in thick)
