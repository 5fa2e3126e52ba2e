"""What happens if a set that is out of balance is let go: speed and energy at the stop, for a risk file.

Nobody stops it by hand. Static figures judge everything else here; this is the one that moves.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from counterpoise.balance import Stack, on_batten, slant
from counterpoise.rigging import RiggedPiece, RiggedSet
from counterpoise.units import STANDARD_GRAVITY

_PARTS = 64  # of each stretch between two changes
_HAIR = 1e-6  # [m]


def acceleration(batten: float, arbor: float, purchase: int) -> float:
    """How fast the batten gathers speed when nothing holds the set [m/s2], up positive: g (A/r - B)/(B + A/r2).

    Args:
        batten: all that the batten side carries, B [kg], above 0.
        arbor: all that the arbor side carries, A [kg], above 0.
        purchase: batten travel per arbor travel, r, 1 or 2.

    Without friction, rope stretch or the inertia of sheaves, all of which make it less. Source: Newton's second law for
    two bodies on one line (the machine of Atwood); docs/theory/steps.md.
    """
    return STANDARD_GRAVITY * (arbor / purchase - batten) / (batten + arbor / purchase**2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Strike:
    """A piece that strikes the deck: batten height [m] and speed [m/s] then, and the energy of all that moves [J]."""

    name: str
    height: float
    speed: float
    energy: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LetGo:
    """A set let go: out of balance there [N], then where and how it ends.

    `start`, `end` are batten heights [m], the end a stop unless `is_stopped` is False: then it comes to rest by itself
    and swings back. `acceleration` of the batten at the start [m/s2], up positive; `speed` at the end, of the batten
    [m/s]; `arbor_speed`; `energy` there [J]; `time` [s]; `moving` mass at the end and `moved` at the start, B + A/r2
    [kg]; `strikes` are the pieces that come down on the deck before that.
    """

    balance: float
    start: float
    end: float
    acceleration: float
    speed: float
    arbor_speed: float
    energy: float
    time: float
    moving: float
    moved: float
    is_stopped: bool
    strikes: tuple[Strike, ...] = ()

    @property
    def most_energy(self) -> float:
        """The most that is in all that moves at any of these moments [J]."""
        return max([self.energy, *(one.energy for one in self.strikes)])

    @property
    def is_arbor_heavy(self) -> bool:
        """True where the arbor falls and the batten rises."""
        return self.balance > 0.0


def let_go(
    rigged: RiggedSet, stack: Stack, start: float, pieces: Iterable[RiggedPiece] | None = None, friction: float = 0.0
) -> LetGo:
    """Let a set go at a batten height.

    Args:
        rigged: the set; all weights at their best figure.
        stack: what is on the arbor.
        start: batten height [m], within the travel.
        pieces: what hangs on it; all that the hang puts there by default.
        friction: what resists, as a share of what the batten carries, 0 or more.

    The energy is the sum of out of balance less friction over the way; v2 = 2 E/(B + A/r2). What comes on along the way
    is taken as picked up without loss, which gives the larger speed; what lands takes its own energy with it. Rope
    stretch, the inertia of sheaves and air are left out. Source: conservation of energy; docs/theory/steps.md.
    """
    going = _Going(rigged, stack, rigged.pieces if pieces is None else tuple(pieces), friction)
    first, mass = going.balance(start), going.moving(start)
    held = going.drag(start)
    if abs(first) <= max(held, 1e-9):
        return LetGo(balance=first, start=start, end=start, acceleration=0.0, speed=0.0, arbor_speed=0.0, energy=0.0,
                     time=0.0, moving=mass, moved=mass, is_stopped=False)  # fmt: skip
    gained = math.copysign(abs(first) - held, first) / mass
    height, energy, time, speed, is_stopped = start, 0.0, 0.0, 0.0, True
    strikes: list[Strike] = []
    for after in _way(rigged, start, going.hanging, up=first > 0.0):
        left = going.energy(height, after, energy)
        if left <= 0.0:
            height += (after - height) * (energy / (energy - left) if energy > left else 0.0)
            energy, speed, is_stopped = 0.0, 0.0, False
            break
        strikes += [Strike(name=name, height=after, speed=speed, energy=energy) for name in going.struck(height, after)]
        energy, new = left, math.sqrt(2.0 * left / going.moving(after))
        time += 2.0 * abs(after - height) / (speed + new)
        height, speed = after, new
    return LetGo(balance=first, start=start, end=height, acceleration=gained, speed=speed,
                 arbor_speed=speed / rigged.purchase, energy=energy, time=time, moving=going.moving(height),
                 moved=mass, is_stopped=is_stopped, strikes=tuple(strikes))  # fmt: skip


def worst_start(rigged: RiggedSet, stack: Stack, pieces: Iterable[RiggedPiece] | None = None) -> float:
    """The batten height [m] from which a set let go has most energy, of its ends and of where its pull changes."""
    hanging = rigged.pieces if pieces is None else tuple(pieces)
    changes = {at for one in hanging for at in one.changes if rigged.low < at < rigged.high}
    heights = sorted({rigged.low, rigged.high, *changes, *(at + _HAIR for at in changes)})
    return max(heights, key=lambda height: let_go(rigged, stack, height, hanging).most_energy)


@dataclass(frozen=True, slots=True)
class _Going:
    """A set on its way: what pulls, what resists and what moves at each height."""

    rigged: RiggedSet
    stack: Stack
    hanging: tuple[RiggedPiece, ...]
    friction: float

    def carried(self, height: float) -> float:
        """On the batten [kg]: what stands on the deck upright hangs on slack ties, and is not on it."""
        stands = sum(part.mass[1] * (most - least) for one in self.hanging for part in one.parts
                     for least, most in (part.share(height),))  # fmt: skip
        lines = len(self.rigged.lines) * self.rigged.line_mass * (self.rigged.loft - height)
        return on_batten(self.rigged, height, self.hanging)[1] - stands + lines

    def arbor(self, height: float) -> float:
        """On the arbor side [kg]."""
        lines = len(self.rigged.lines) * self.rigged.line_mass * (height - self.rigged.low)
        return self.rigged.arbor_mass + self.stack.mass(self.rigged) + lines

    def balance(self, height: float) -> float:
        """A/r - B [N]; of ropes that lean as they most likely pull."""
        pulled = self.carried(height) * slant(self.rigged, height)[0]
        return STANDARD_GRAVITY * (self.arbor(height) / self.rigged.purchase - pulled)

    def drag(self, height: float) -> float:
        """What friction resists [N]."""
        return STANDARD_GRAVITY * self.friction * self.carried(height)

    def moving(self, height: float) -> float:
        """B + A/r2 [kg]."""
        return self.carried(height) + self.arbor(height) / self.rigged.purchase**2

    def energy(self, start: float, end: float, had: float) -> float:
        """The energy after a short stretch within which the pull runs straight [J]; below 0 it does not get there."""
        inside = (end - start) * 1e-9
        at = start + inside, end - inside  # what jumps at a change is asked just off it
        work = sum(map(self.balance, at)) / 2.0 * (end - start)
        drag = sum(map(self.drag, at)) / 2.0 * abs(end - start)
        landed = max(0.0, self._of_pieces(start) - self._of_pieces(end)) if end < start else 0.0
        return had * (1.0 - landed / self.moving(start)) + work - drag

    def struck(self, start: float, end: float) -> Iterator[str]:
        """The pieces that come down on the deck all at once on a short stretch; cloth piles up bit by bit."""
        for one in self.hanging:
            falls = (part.share(start)[0] - part.share(end)[0] for part in one.parts if part.cloth is None)
            if any(fall > 0.0 for fall in falls):
                yield one.name

    def _of_pieces(self, height: float) -> float:
        return sum(part.mass[1] * part.share(height)[0] for one in self.hanging for part in one.parts)


def _way(rigged: RiggedSet, start: float, hanging: tuple[RiggedPiece, ...], *, up: bool) -> list[float]:
    """The heights passed, close enough that what comes on or lands between two of them is little, the last a stop."""
    end = rigged.high if up else rigged.low
    low, high = min(start, end), max(start, end)
    changes = {at for one in hanging for at in one.changes} | {at for one in rigged.cables for at in one.changes}
    inside = {at for at in changes if low < at < high}
    below = {at - _HAIR for at in changes if low < at - _HAIR < high}
    edges = sorted({low, high, *inside, *below}, reverse=not up)
    return [a + (b - a) * part / _PARTS for a, b in itertools.pairwise(edges) for part in range(1, _PARTS + 1)]
