"""Bricks and plates on an arbor: their mass, their height, and the count that balances a set best."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterpoise.rigging import RiggedSet


@dataclass(frozen=True, slots=True, order=True)
class Stack:
    """Bricks on an arbor, pipe weight included. Plates follow from the house's rule."""

    bricks: int

    def plates(self, rigged: RiggedSet) -> int:
        """One on top, and one between wherever the next whole brick would leave more than the house's rule between.

        24 in is common practice. A brick thicker than the rule stands between two plates.
        """
        between = max(1, math.floor(rigged.plate_every / rigged.brick.thickness + 1e-9))
        return math.ceil(self.bricks / between)

    def mass(self, rigged: RiggedSet) -> float:
        """Bricks at their mean and plates [kg]."""
        return self.bricks * rigged.brick.mass + self.plates(rigged) * rigged.plate_mass

    def height(self, rigged: RiggedSet) -> float:
        """Top of the stack above its seat [m]."""
        return self.bricks * rigged.brick.thickness + self.plates(rigged) * rigged.plate_thickness


def fits(rigged: RiggedSet, stack: Stack) -> bool:
    """True where the stack is no higher than the arbor takes."""
    return stack.height(rigged) <= rigged.usable_height + 1e-9
