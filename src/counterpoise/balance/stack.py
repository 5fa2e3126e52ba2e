"""Bricks and plates on an arbor."""

from __future__ import annotations

from dataclasses import dataclass

from counterpoise.rigging import RiggedSet, plates_on, stack_doubt, stack_height, stack_mass

HEIGHT_PLAY = 1e-9  # [m]: what is higher by less fits


@dataclass(frozen=True, slots=True, order=True)
class Stack:
    """Bricks on an arbor and small ones on top of them, pipe weight included. Plates follow from the house's rule."""

    bricks: int
    small: int = 0

    @property
    def count(self) -> int:
        """How many bricks of either size."""
        return self.bricks + self.small

    @property
    def said(self) -> str:
        """The counts in words: "43", or "43 and 1 small"."""
        return f"{self.bricks} and {self.small} small" if self.small else f"{self.bricks}"

    def plates(self, rigged: RiggedSet) -> int:
        """As many as the house's rule asks for, and those that stay on."""
        return plates_on(rigged, self.bricks, self.small)

    def mass(self, rigged: RiggedSet) -> float:
        """Bricks at their mean and plates [kg]."""
        return stack_mass(rigged, self.bricks, self.small)

    def doubt(self, rigged: RiggedSet) -> float:
        """How far its bricks may be from their mean, all the same way [kg]."""
        return stack_doubt(rigged, self.bricks, self.small)

    def height(self, rigged: RiggedSet) -> float:
        """Top of the stack above its seat [m]."""
        return stack_height(rigged, self.bricks, self.small)


def pipe_weight(rigged: RiggedSet) -> Stack:
    """What balances the empty batten and stays on."""
    return Stack(rigged.pipe_bricks, rigged.small_pipe_bricks)


def stated_stack(rigged: RiggedSet) -> Stack | None:
    """What the hang states, None where it states nothing. Small ones of which it says nothing are the pipe weight's."""
    if rigged.stated_bricks is None:
        return None
    small = rigged.small_pipe_bricks if rigged.stated_small is None else rigged.stated_small
    return Stack(rigged.stated_bricks, small)


def added(rigged: RiggedSet, stack: Stack) -> dict[str, int]:
    """By kind, how many of a stack are beside pipe weight, on all arbors; below 0 where some of that is to come off."""
    own = pipe_weight(rigged)
    more = {rigged.brick.name: (stack.bricks - own.bricks) * rigged.abreast}
    if rigged.small is not None:
        more[rigged.small.name] = (stack.small - own.small) * rigged.abreast
    return more


def smallest_mass(rigged: RiggedSet) -> float:
    """Of the bricks it takes, the lightest [kg]."""
    return min(rigged.brick.mass, rigged.small.mass) if rigged.small else rigged.brick.mass


def fits(rigged: RiggedSet, stack: Stack) -> bool:
    """True where the stack is no higher than the arbor takes."""
    return stack.height(rigged) <= rigged.usable_height + HEIGHT_PLAY
