"""One choice of carrying lines over a whole box of doubts: every pull, gap, moment and drop as a straight function.

While the same lines carry, all of them run straight in loads and offsets, so one solution at the low ends and one for
each doubt say all. What is a batten's or a ladder truss's own stands in straight_pipes and straight_ladders.
"""

from abc import ABC, abstractmethod
from collections.abc import Sequence
from functools import cached_property
from typing import NamedTuple

from counterpoise.statics.box import Straight, highest

TRIFLE = 1.0e-13  # of the load, of the drops: a condition that fails by less may fail by rounding


class Sizes(NamedTuple):
    """What is much in the box, by which conditions are scaled."""

    weight: float  # of all that may hang [N]
    tall: float  # drops and trims [m]


class StraightSet(ABC):
    """One choice of carrying lines; what is asked for is worked out then."""

    def __init__(self, carrying: tuple[int, ...], lines: int, sizes: Sizes) -> None:
        self.carrying, self._lines, self._sizes = carrying, lines, sizes

    @abstractmethod
    def _pulls(self) -> Sequence[Sequence[float]]:
        """Pulls of the carrying lines: at the low ends, then what each doubt adds [N]."""

    @abstractmethod
    def _gaps(self) -> Sequence[Sequence[float]]:
        """Gaps of all lines, likewise [m]."""

    @cached_property
    def pulls(self) -> tuple[Straight, ...]:
        """Pull of every line [N]; may fall below zero where this choice is not the true one."""
        shares = self._pulls()
        found = [Straight(0.0, (0.0,) * (len(shares) - 1))] * self._lines
        for k, i in enumerate(self.carrying):
            found[i] = straight([pulls[k] for pulls in shares])
        return tuple(found)

    @cached_property
    def gaps(self) -> dict[int, Straight]:
        """Gap of every line that does not carry [m]."""
        slack = [i for i in range(self._lines) if i not in self.carrying]
        shares = self._gaps() if slack else ()
        return {i: straight([gaps[i] for gaps in shares]) for i in slack}

    @cached_property
    def conditions(self) -> list[Straight]:
        """Where this choice is the true one: no carrying line pushes, no slack line is stretched."""
        weight, tall = self._sizes
        found = [self.pulls[i].times(1.0 / weight) for i in self.carrying]
        return [*found, *(gap.times(1.0 / tall) for gap in self.gaps.values())]

    @cached_property
    def inside(self) -> tuple[float, ...] | None:
        """A point well inside the part of the box where this choice is the true one."""
        tops = [highest(condition, self.conditions).at for condition in self.conditions]
        found = [u for u in tops if u is not None]
        return tuple(sum(v) / len(found) for v in zip(*found, strict=True)) if found else None

    def is_clearly_empty(self) -> bool:
        """Whether one condition alone fails all over the box."""
        few = -TRIFLE * self._sizes.weight
        return any(self.pulls[i].most() < few for i in self.carrying) or any(
            condition.most() < -TRIFLE for condition in self.conditions
        )


def straight(values: Sequence[float]) -> Straight:
    """The function that has the first value at the low ends, and the others for each doubt at its high end besides."""
    return Straight(values[0], tuple(values[1:]))
