"""Bricks and plates on an arbor: their mass, their height, and the count that balances a set best."""

from __future__ import annotations

from dataclasses import dataclass

from counterpoise.rigging import RiggedSet, plates_for


@dataclass(frozen=True, slots=True, order=True)
class Stack:
    """Bricks on an arbor, pipe weight included. Plates follow from the house's rule."""

    bricks: int

    def plates(self, rigged: RiggedSet) -> int:
        """As many as the house's rule asks for."""
        return plates_for(self.bricks, rigged.brick.thickness, rigged.plate_every)

    def mass(self, rigged: RiggedSet) -> float:
        """Bricks at their mean and plates [kg]."""
        return self.bricks * rigged.brick.mass + self.plates(rigged) * rigged.plate_mass

    def height(self, rigged: RiggedSet) -> float:
        """Top of the stack above its seat [m]."""
        return self.bricks * rigged.brick.thickness + self.plates(rigged) * rigged.plate_thickness


def fits(rigged: RiggedSet, stack: Stack) -> bool:
    """True where the stack is no higher than the arbor takes."""
    return stack.height(rigged) <= rigged.usable_height + 1e-9
