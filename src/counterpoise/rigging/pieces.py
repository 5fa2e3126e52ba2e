"""A piece where it hangs, how its weight comes on as the batten rises, and cable that comes up with it."""

from __future__ import annotations

from collections.abc import Container, Mapping
from dataclasses import dataclass, replace

from counterpoise.documents import Hung, Known, Piece

NEARLY = 1e-9  # [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class RiggedPart:
    """A part of a piece whose weight comes on in one way.

    `mass` is low, best, high [kg]. `joins` is the batten height [m] from which it is on the batten at all, `clear`
    that from which it hangs free of the deck, or of what it lands on. Until then it stands: `tipped` is the share of
    its weight on the batten where it is tipped up from its foot, None where it stands upright and its ties may carry
    anything; `cloth` is its hanging length where it is cloth that leaves the deck bit by bit, None where it is rigid.
    """

    mass: tuple[float, float, float]
    joins: float
    clear: float
    tipped: float | None = None
    cloth: float | None = None

    def share(self, height: float) -> tuple[float, float]:
        """Least and most share of its weight on the batten at that height [m]."""
        if height < self.joins - NEARLY:
            return 0.0, 0.0
        if height >= self.clear - NEARLY:
            return 1.0, 1.0
        if self.cloth is not None:
            share = min(1.0, max(0.0, (height - self.clear + self.cloth) / self.cloth))
            return share, share
        return (self.tipped, self.tipped) if self.tipped is not None else (0.0, 1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class RiggedPiece:
    """A piece where it hangs: its parts; points (x, share) or an even spread (start, end) [m]; `height` its own [m]."""

    name: str
    parts: tuple[RiggedPart, ...]
    points: tuple[tuple[float, float], ...]
    spread: tuple[float, float] | None
    height: float
    looks: str
    trims: Mapping[str, float]
    written: Piece
    hung: Hung
    weight: Known  # as written, or as its takeoff comes to
    lights: tuple[tuple[float, float, float], ...] = ()  # each that can be hung by itself [kg]: low, best, high

    @property
    def mass(self) -> tuple[float, float, float]:
        """All of it: low, best, high [kg]."""
        low, best, high = (sum(part.mass[i] for part in self.parts) for i in range(3))
        return low, best, high

    @property
    def clear(self) -> float:
        """Batten height from which all of it hangs free [m]."""
        return max(part.clear for part in self.parts)

    @property
    def off_the_floor(self) -> bool:
        """True for cloth, which leaves the deck bit by bit."""
        return self.parts[0].cloth is not None

    @property
    def is_certain(self) -> bool:
        """True where its weight is one figure, not a range."""
        low, _, high = self.mass
        return low == high

    @property
    def changes(self) -> tuple[float, ...]:
        """Batten heights at which its pull on the batten changes its slope, or jumps [m]."""
        starts = (part.clear - part.cloth for part in self.parts if part.cloth is not None)
        return tuple(sorted({*starts, *(part.clear for part in self.parts),
                             *(part.joins for part in self.parts if part.joins > 0.0)}))  # fmt: skip

    def hanging(self, height: float) -> tuple[float, float, float]:
        """What of it is on the batten at that height [kg]: least with it light, most at best, most with it heavy."""
        light = best = heavy = 0.0
        for part in self.parts:
            least, most = part.share(height)
            light += part.mass[0] * least
            best += part.mass[1] * most
            heavy += part.mass[2] * most
        return light, best, heavy

    @property
    def units(self) -> Mapping[str, tuple[float, float, float]]:
        """What can be hung by itself: the rest, where there is any, and each light by its number."""
        rest = [whole - sum(light[i] for light in self.lights) for i, whole in enumerate(self.mass)]
        found = {f"light {number} of {self.name}": light for number, light in enumerate(self.lights, start=1)}
        if found and rest[1] > NEARLY:
            found = {f"rest of {self.name}": (max(0.0, rest[0]), rest[1], max(rest[1], rest[2])), **found}
        return found

    def with_units(self, names: Container[str]) -> RiggedPiece:
        """As much of it as these units are; where it hangs is as of the whole."""
        low, best, high = (sum(mass[i] for name, mass in self.units.items() if name in names) for i in range(3))
        return replace(self, parts=(replace(self.parts[0], mass=(low, best, high)),), lights=())

    def weighing(self, mass: float) -> RiggedPiece:
        """The same piece with one certain weight [kg], its parts in proportion."""
        whole = self.mass[1]
        parts = tuple(replace(part, mass=(mass * part.mass[1] / whole,) * 3) for part in self.parts)
        lights = tuple((mass * light[1] / whole,) * 3 for light in self.lights)
        return replace(self, parts=parts, lights=lights)

    def at_best(self) -> RiggedPiece:
        """The same piece, its weight taken as certain."""
        parts = tuple(replace(part, mass=(part.mass[1],) * 3) for part in self.parts)
        return replace(self, parts=parts, lights=tuple((light[1],) * 3 for light in self.lights))


@dataclass(frozen=True, slots=True, kw_only=True)
class RiggedCable:
    """Electric cable from the batten to a fixed box.

    Mass per length of all of it, low, best, high [kg/m]; length, height of the box, place along the batten [m].
    """

    name: str
    line_mass: tuple[float, float, float]
    length: float
    box: float
    x: float
    written: Known

    def on_batten(self, height: float) -> float:
        """Length of it that the batten carries at that height [m].

        A bight hangs free while |box - h| <= length <= box + h: the batten carries all from its own end to the lowest
        point, (h - box + length)/2. What is longer lies on the floor, and the batten carries h. What is shorter is
        taut: nothing is known, and `is_taut` says so. Source: equilibrium of a loop whose ends hang straight down.
        """
        if self.length > self.box + height:
            return height
        return min(self.length, max(0.0, (height - self.box + self.length) / 2.0))

    @property
    def changes(self) -> tuple[float, ...]:
        """Batten heights at which what the batten carries of it changes its slope [m]."""
        return self.box - self.length, self.length - self.box, self.box + self.length

    def is_taut(self, height: float) -> bool:
        """True where it is too short to reach from the batten to its box."""
        return self.length < abs(self.box - height)
