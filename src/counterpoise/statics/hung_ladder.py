"""How a ladder truss hangs: the answer, and the questions it can be asked."""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from counterpoise.errors import within
from counterpoise.statics.field import Field
from counterpoise.statics.ladder import Ladder
from counterpoise.statics.model import ROUNDING


class MemberForces(NamedTuple):
    """One bar of a ladder truss: a stretch of chord between two spacers, a free end of a chord, or a spacer.

    Pull is positive. A chord's moment is positive where it sags; its shear is dM/dx. A spacer's moment is positive
    where its foot turns as the bottom chord's moment steps up there, start is the foot and end the head.
    """

    part: str  # "top", "bottom", "spacer"
    start: float  # x [m]
    end: float  # x [m]; as start for a spacer
    axial: float  # pull positive [N]
    shear_start: float  # [N]
    shear_end: float  # [N]
    moment_start: float  # [N m]
    moment_end: float  # [N m]
    moment_high: float  # greatest moment in the bar, exact, between ends and under loads too [N m]
    moment_low: float  # least moment in the bar [N m]
    stress: float  # |N|/A + |M|/S where |M| is greatest [Pa]

    @property
    def moment(self) -> float:
        """Moment of the greatest size, with its sign [N m]."""
        return self.moment_high if self.moment_high >= -self.moment_low else self.moment_low


class EndForces(NamedTuple):
    """The forces at the two ends of one bar of a ladder truss, as MemberForces says; nothing of what is between."""

    part: str  # "top", "bottom", "spacer"
    start: float  # x [m]
    end: float  # x [m]; as start for a spacer
    axial: float  # pull positive [N]
    shear_start: float  # [N]
    shear_end: float  # [N]
    moment_start: float  # [N m]
    moment_end: float  # [N m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Chord:
    """One chord of a truss at rest. Moments sag positive, deflections are down positive."""

    _field: Field = field(repr=False, compare=False)
    _axial: tuple[float, ...] = field(repr=False, compare=False)  # of each stretch [N]
    _stretches: tuple[int, ...] = field(repr=False, compare=False)  # stations where stretches start and end
    _ends: tuple[int, ...] = field(repr=False, compare=False)  # stations of the carrying lines

    def moment(self, x: float) -> float:
        """Bending moment at x [N m]; at a spacer, the value just stage left of it. OutOfRange off the chord."""
        return self._field.moment(self._on(x))

    def shear(self, x: float) -> float:
        """Shear at x [N], dM/dx; at a step, the value just stage left of it. OutOfRange off the chord."""
        return self._field.shear(self._on(x))

    def axial(self, x: float) -> float:
        """Axial force at x [N], pull positive; at a spacer, the value just stage left of it."""
        c, _ = self._field.cell(self._on(x))
        return next((n for n, end in zip(self._axial, self._stretches[1:], strict=True) if c < end), self._axial[-1])

    def deflection(self, x: float) -> float:
        """How far the chord hangs below where it would be on a level truss at x [m]."""
        return self._field.drop(self._on(x))

    @property
    def largest_sags(self) -> tuple[tuple[float, float, float, float], ...]:
        """For each span between carrying lines: its start, its end, its sag of the greatest size, and where [m].

        Sag is measured from the straight line between the chord's own places at the two lines, and keeps its sign.
        Exact, not sampled.
        """
        xs = self._field.xs
        return tuple(
            (xs[a], xs[b], *self._field.greatest_sag(a, b)) for a, b in zip(self._ends, self._ends[1:], strict=False)
        )

    @property
    def tip_drops(self) -> tuple[float, float]:
        """How far each end hangs below the chord's own place at the outer carrying line beside it [m]."""
        xs, drop = self._field.xs, self._field.drop
        first, last = xs[self._ends[0]], xs[self._ends[-1]]
        return drop(0.0) - drop(first), drop(xs[-1]) - drop(last)

    def stretches(self) -> Iterator[tuple[float, int, int]]:
        """Each stretch's axial force, and its first and last station."""
        yield from zip(self._axial, self._stretches, self._stretches[1:], strict=False)

    def extremes(self, a: int, b: int) -> tuple[float, float]:
        """Greatest and least moment from station a to station b."""
        f = self._field
        high, low = -math.inf, math.inf
        for c in range(a, b):
            m, v, w, h = f.moments[c], f.shears[c], f.ws[c], f.hs[c]
            end = m + h * (v - 0.5 * w * h)
            lower, upper = (m, end) if m < end else (end, m)
            if 0.0 < v < w * h:
                upper = m + 0.5 * v * v / w
            if upper > high:
                high = upper
            if lower < low:
                low = lower
        return high, low

    def ends_of(self, a: int, b: int) -> tuple[float, float, float, float, float, float]:
        """x, then shear, then moment, each at the start and at the end of the stretch from station a to station b."""
        f, c = self._field, b - 1
        v_end = f.shears[c] - f.ws[c] * f.hs[c]
        m_end = f.moments[c] + f.hs[c] * (f.shears[c] - 0.5 * f.ws[c] * f.hs[c])
        return f.xs[a], f.xs[b], f.shears[a], v_end, f.moments[a], m_end

    def _on(self, x: float) -> float:
        length = self._field.xs[-1]
        if not -ROUNDING <= x <= length + ROUNDING:
            within("x", x, low=0.0, high=length, unit="m", mend="Ask for a place on the truss.")
        return x


class SpacerForces(NamedTuple):
    """A spacer: what it pulls, and its moments, as MemberForces says."""

    x: float  # [m]
    axial: float  # [N]
    foot: float  # moment [N m]
    head: float  # moment [N m]


Whole = tuple[Chord, Chord, tuple[SpacerForces, ...]]


class LadderShape:
    """Both chords and the spacers, spread out and proven when they are first asked for."""

    __slots__ = ("_found", "_spread")

    def __init__(self, spread: Callable[[], Whole]) -> None:
        self._spread = spread
        self._found: Whole | None = None

    def found(self) -> Whole:
        """Top chord, bottom chord, spacers."""
        if self._found is None:
            self._found = self._spread()
        return self._found


@dataclass(frozen=True, slots=True, kw_only=True)
class HangingLadder:
    """A ladder truss at rest. Its pulls are proven on the way out, its shape when it is first asked for."""

    tensions: tuple[float, ...]  # pull of every line, 0 where slack [N]
    gaps: tuple[float, ...]  # slack of every line, 0 where it carries [m]
    carrying: tuple[int, ...]  # lines that carry, counted from 0
    weight: float  # of all loads [N]
    centre: float  # their centre of gravity [m]
    _shape: "LadderShape" = field(repr=False, compare=False)
    _ends: "Callable[[], tuple[EndForces, ...]]" = field(repr=False, compare=False)
    _ladder: Ladder = field(repr=False, compare=False)

    @property
    def top(self) -> Chord:
        """The top chord. Unproven where its shape does not bear out the pulls."""
        return self._shape.found()[0]

    @property
    def bottom(self) -> Chord:
        """The bottom chord. Unproven where its shape does not bear out the pulls."""
        return self._shape.found()[1]

    @property
    def spacers(self) -> tuple[SpacerForces, ...]:
        """The spacers from stage right to stage left. Unproven where the shape does not bear out the pulls."""
        return self._shape.found()[2]

    @property
    def end_forces(self) -> tuple[EndForces, ...]:
        """The forces at the ends of every bar, in the order of `members`; several times quicker than those.

        Worked out, and proven, each time they are asked for. Unproven where they do not bear out the pulls.
        """
        return self._ends()

    @property
    def members(self) -> tuple[MemberForces, ...]:
        """Every bar: the top chord from stage right to stage left, then the bottom chord, then the spacers."""
        return (*self._chord("top", self.top), *self._chord("bottom", self.bottom), *self._spacers())

    @property
    def largest_stress(self) -> tuple[float, MemberForces]:
        """The greatest |N|/A + |M|/S [Pa], and the bar it is in; the first among equals."""
        worst = max(self.members, key=lambda one: one.stress)
        return worst.stress, worst

    def _chord(self, part: str, chord: Chord) -> Iterator[MemberForces]:
        bar = self._ladder.top if part == "top" else self._ladder.bottom
        area, modulus = bar.section.area, bar.section.elastic_modulus
        for axial, a, b in chord.stretches():
            high, low = chord.extremes(a, b)
            stress = abs(axial) / area + max(high, -low) / modulus
            start, end, v, v_end, m, m_end = chord.ends_of(a, b)
            yield MemberForces(part, start, end, axial, v, v_end, m, m_end, high, low, stress)

    def _spacers(self) -> Iterator[MemberForces]:
        spacer = self._ladder.spacer
        area, modulus, depth = spacer.section.area, spacer.section.elastic_modulus, self._ladder.depth
        for x, axial, foot, head in self.spacers:
            shear = (head - foot) / depth
            high, low = (foot, head) if foot > head else (head, foot)
            stress = abs(axial) / area + max(high, -low) / modulus
            yield MemberForces("spacer", x, x, axial, shear, shear, foot, head, high, low, stress)
