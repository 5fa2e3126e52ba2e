"""How a batten whose lines lean hangs along its length, at one height: drift, lean of each line, axial force."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from counterpoise.statics import Axial, Pressed


@dataclass(frozen=True, slots=True, kw_only=True)
class Along:
    """Lengths [m], along the batten toward stage left positive."""

    height: float  # of the batten
    drop: float  # from the loft blocks down to it
    drift: float  # how far it stands from where its lines would all be as written
    widths: tuple[float, ...]  # how far each block stands from its line then
    lower: tuple[float, ...]  # how much lower each unloaded line reaches than a plumb one that was level at low trim
    blocks: tuple[tuple[float, float], ...]  # what each loft block carries per pull in its line, least and most
    axial: Axial
    pressed: Pressed | None  # None where nothing presses
    is_settled: bool  # False where no drift was found that its pulls keep

    def slope(self, i: int) -> float:
        """What the rope of a line (from 0) pulls per weight that hangs on it."""
        return math.hypot(1.0, self.widths[i] / self.drop)

    def sine(self, i: int) -> float:
        """Of how far the rope of a line (from 0) leans, without sign: what it pulls aside, per pull in it."""
        return abs(self.widths[i]) / math.hypot(self.widths[i], self.drop)

    @property
    def push(self) -> float:
        """The greatest axial force, pull or push, without sign [N]."""
        return max(map(abs, self.axial.extremes))

    @property
    def bent_more(self) -> float:
        """By what moments and sags grow where the batten is pressed, at most; infinite where it may buckle."""
        return 1.0 if self.pressed is None else self.pressed.factor
