"""Strength of a batten of several pipes: stress stretch by stretch, and what each splice carries.

Stiffness is the beam's; this is only what the moments do to the sections. Extremes are found where they are, between
stations too, not sampled.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from counterpoise.errors import within
from counterpoise.statics.hanging import Hanging
from counterpoise.statics.model import ROUNDING, Beam


@dataclass(frozen=True, slots=True, kw_only=True)
class StrengthSegment:
    """A stretch of batten of one section, by its design wall where the code says so."""

    start: float  # [m]
    end: float  # [m]
    elastic_modulus: float  # S [m3]
    area: float  # A [m2]; only axial force asks for it

    def __post_init__(self) -> None:
        mend = "A stretch ends after it starts."
        within("start of a stretch", self.start, low=0.0, high=1.0e6, unit="m", mend=mend)
        low = math.nextafter(self.start, math.inf)
        within("end of a stretch", self.end, low=low, high=1.0e6, unit="m", mend=mend)
        mend = "Give it from the section of the pipe."
        within("elastic modulus", self.elastic_modulus, low=1.0e-12, high=1.0e3, unit="m3", mend=mend)
        within("area", self.area, low=1.0e-9, high=1.0e3, unit="m2", mend=mend)


@dataclass(frozen=True, slots=True, kw_only=True)
class Splice:
    """A joint in a batten and the moment it may carry."""

    x: float  # [m]
    allowable_moment: float | None = None  # either way [N m]; None: not known, and then nothing is within

    def __post_init__(self) -> None:
        within("x of a splice", self.x, low=-ROUNDING, high=1.0e6, unit="m", mend="Measure from the stage-right end.")
        if self.allowable_moment is not None:
            mend = "Give the moment the splice may carry; leave it out where it is not known."
            within("allowable moment", self.allowable_moment, low=0.0, high=1.0e9, unit="N m", mend=mend)


@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """Sections along a batten, end to end, and its splices."""

    segments: tuple[StrengthSegment, ...]
    splices: tuple[Splice, ...] = ()

    def __post_init__(self) -> None:
        mend = "The stretches must follow each other from end to end of the batten, without gap or overlap."
        within("number of stretches", len(self.segments), low=1, high=math.inf, mend=mend)
        reached = 0.0
        for segment in self.segments:
            low, high = reached - ROUNDING, reached + ROUNDING
            within("start of a stretch", segment.start, low=low, high=high, unit="m", mend=mend)
            reached = segment.end


@dataclass(frozen=True, slots=True, kw_only=True)
class Axial:
    """Axial force along a batten: the same between two places, a step at each. Pull positive."""

    xs: tuple[float, ...]  # places, rising; nothing outside the first and the last [m]
    forces: tuple[float, ...]  # between neighbouring places [N]

    def at(self, x: float) -> float:
        """Axial force at x [N]; at a step, the one of the greater size."""
        beside = [n for n, a, b in zip(self.forces, self.xs, self.xs[1:], strict=False) if a <= x <= b]
        return max(beside, key=abs, default=0.0)

    @property
    def extremes(self) -> tuple[float, float]:
        """Least (the greatest push, if negative) and greatest axial force anywhere [N]."""
        return min(0.0, *self.forces), max(0.0, *self.forces)


@dataclass(frozen=True, slots=True, kw_only=True)
class SegmentStress:
    """Where a stretch is stressed most, at its outermost fibre."""

    start: float  # [m]
    end: float  # [m]
    stress: float  # |N|/A + |M|/S, the moment grown where that is asked for [Pa]
    moment: float  # there, with its sign, not grown [N m]
    axial: float  # there [N]
    at: float  # x [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class SpliceMoment:
    """What one splice carries."""

    x: float  # [m]
    moment: float  # with its sign [N m]
    axial: float  # [N]
    allowable_moment: float | None  # [N m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressed:
    """The whole length of a batten between the outermost places that press it, taken as one bar hinged at its ends."""

    start: float  # [m]
    end: float  # [m]
    push: float  # the greatest in it [N]
    buckles_at: float  # Euler's load of that length [N]

    @property
    def factor(self) -> float:
        """By what a push makes moments and sags grow at most, sec(pi/2 sqrt(N/N_E)); infinite from Euler's load on."""
        share = self.push / self.buckles_at
        return math.inf if share >= 1.0 else 1.0 / math.cos(0.5 * math.pi * math.sqrt(share))

    def factor_between(self, start: float, end: float) -> float:
        """The same for a stretch; 1 where no part of it is pressed."""
        return self.factor if start < self.end and end > self.start else 1.0


def pressed(axial: Axial, beam: Beam) -> Pressed | None:
    """What is pressed of a batten, None where nothing is.

    The push adds (sec u - 1) M to the moment at any one place at most, M the greatest anywhere: also where the moment
    without it is nothing.

    A bar hinged at both ends whose moment is nowhere more than M without the push has nowhere more than M sec u with
    it, u = pi/2 sqrt(N/N_E): that is the bar of the same M all along, and every push of a moment onto another place
    has one sign. Lines hold a batten up within that length, which makes it stiffer against bending in their plane: so
    the factor is on the strict side. From going up- or downstage nothing holds it, and that is not looked at here.
    Source: the beam-column under two equal couples, S. P. Timoshenko and J. M. Gere, Theory of Elastic Stability, 2nd
    ed., chapter 1; docs/theory/axial.md.
    """
    stretches = [(a, b, n) for n, a, b in zip(axial.forces, axial.xs, axial.xs[1:], strict=False) if n < 0.0]
    if not stretches:
        return None
    start, end = stretches[0][0], stretches[-1][1]
    stiffness = min([one.stiffness for one in beam.segments if one.start < end and one.end > start])
    push = max([-n for _, _, n in stretches])
    return Pressed(start=start, end=end, push=push, buckles_at=euler_loads([stiffness], [end - start])[0])


def segment_stresses(
    hanging: Hanging, strength: Strength, axial: Axial | None = None, amplified: Pressed | None = None
) -> tuple[SegmentStress, ...]:
    """The largest stress in each stretch.

    Args:
        hanging: the batten at rest.
        strength: its sections, over the same length.
        axial: axial force along it; None where there is none.
        amplified: where a push makes moments grow, and by what share of the greatest; None: they are as they hang. Its
            factor is finite.

    Returns:
        One SegmentStress for each stretch; at a place where two meet, both are judged.

    Raises:
        OutOfRange: the stretches do not end where the batten ends.
    """
    length = hanging._field.xs[-1]
    covers(strength, length)
    return tuple(_worst(hanging, segment, min(segment.end, length), axial, amplified) for segment in strength.segments)


def covers(strength: Strength, length: float) -> None:
    """Refuse stretches that do not end where the batten ends (OutOfRange)."""
    mend = "The stretches must cover the batten."
    last = strength.segments[-1].end
    within("end of the last stretch", last, low=length - ROUNDING, high=length + ROUNDING, unit="m", mend=mend)


def _worst(
    hanging: Hanging, segment: StrengthSegment, end: float, axial: Axial | None, amplified: Pressed | None
) -> SegmentStress:
    inside = [x for x in (axial.xs if axial else ()) if segment.start < x < end]
    most = abs(hanging.largest_moment[0]) if amplified else 0.0
    places = [segment.start, *inside, end]
    found = []
    for a, b in pairwise(places):
        moment, at = greatest_moment_between(hanging, a, b)
        force = _steady(axial, a, b)
        more = (amplified.factor_between(a, b) - 1.0) * most if amplified else 0.0
        stress = abs(force) / segment.area + (abs(moment) + more) / segment.elastic_modulus
        found.append(
            SegmentStress(start=segment.start, end=segment.end, stress=stress, moment=moment, axial=force, at=at)
        )
    return max(found, key=lambda one: one.stress)


def _steady(axial: Axial | None, a: float, b: float) -> float:
    """The axial force between two places with no step in between."""
    return axial.at(0.5 * (a + b)) if axial else 0.0


def splice_moments(hanging: Hanging, strength: Strength, axial: Axial | None = None) -> tuple[SpliceMoment, ...]:
    """What each splice carries. OutOfRange where a splice lies off the batten."""
    return tuple(
        SpliceMoment(
            x=splice.x,
            moment=hanging.moment(splice.x),
            axial=axial.at(splice.x) if axial else 0.0,
            allowable_moment=splice.allowable_moment,
        )
        for splice in strength.splices
    )


def greatest_moment_between(hanging: Hanging, start: float, end: float) -> tuple[float, float]:
    """Moment of the greatest size from start to end, with its sign [N m], and its x [m]. Exact, not sampled."""
    field = hanging._field
    best, at = hanging.moment(start), start
    first, _ = field.cell(start)
    for c in range(first, len(field.hs)):
        x = field.xs[c]
        if x > end:
            break
        places = [max(x, start), min(x + field.hs[c], end)]
        v, w = field.shears[c], field.ws[c]
        if w > 0.0 and places[0] < x + v / w < places[1]:  # the shear passes zero inside
            places.append(x + v / w)
        for place in places:
            t = place - x
            moment = field.moments[c] + t * (v - 0.5 * w * t)
            if abs(moment) > abs(best):
                best, at = moment, place
    return best, at


def greatest_shear(hanging: Hanging) -> tuple[float, float]:
    """Shear of the greatest size, with its sign [N], and its x [m]."""
    field = hanging._field
    best, at = 0.0, 0.0
    for x, h, v, w in zip(field.xs, field.hs, field.shears, field.ws, strict=False):
        for place, shear in ((x, v), (x + h, v - w * h)):
            if abs(shear) > abs(best):
                best, at = shear, place
    return best, at


def euler_loads(stiffnesses: Sequence[float], spans: Sequence[float]) -> tuple[float, ...]:
    """The load at which a straight bar hinged at both ends buckles: pi2 EI / l2 [N], for each span.

    Args:
        stiffnesses: least EI of each span [N m2].
        spans: its length between lines [m].

    A figure to hold a push against, not a limit: lines hold a batten up but not from going up- or downstage, so two
    spans may buckle as one; nothing here checks it.
    Source: Euler; any text on strength of materials.
    """
    found = []
    for stiffness, span in zip(stiffnesses, spans, strict=True):
        within("stiffness", stiffness, low=1.0e-9, high=1.0e15, unit="N m2", mend="Give E times I.")
        within("span", span, low=1.0e-3, high=1.0e6, unit="m", mend="Give the distance between two lines.")
        found.append(math.pi**2 * stiffness / span**2)
    return tuple(found)
