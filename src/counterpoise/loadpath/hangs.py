"""A batten at rest, whatever it is made of: pulls, stress, sag. One face over the answers that statics give."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from counterpoise.loadpath.loads import Loads
from counterpoise.rigging import RiggedBatten
from counterpoise.statics import Beam, Hanging, Line, SpreadLoad, Tips, hang

NO_OVERHANG = 0.05  # [m]; what reaches no farther past its line has no tip to speak of

if TYPE_CHECKING:
    from counterpoise.loadpath.along import Along
    from counterpoise.rigging import Made
    from counterpoise.statics import Chord, ChordLoads, HangingLadder, Segment, SegmentStress


@dataclass(frozen=True, slots=True)
class Hangs:
    """How a batten hangs, and what it is made of."""

    answer: Hanging | HangingLadder
    made: Made
    along: Along | None = None  # None where all lines hang plumb

    @property
    def tensions(self) -> tuple[float, ...]:
        """The pull of each line just above the batten [N]."""
        if self.along is None:
            return self.answer.tensions
        return tuple(pull * self.along.slope(i) for i, pull in enumerate(self.answer.tensions))

    @property
    def verticals(self) -> tuple[float, ...]:
        """What hangs on each line, the vertical part of its pull [N]."""
        return self.answer.tensions

    @property
    def carrying(self) -> tuple[int, ...]:
        """The lines that carry, counted from 0."""
        return self.answer.carrying

    @property
    def stress(self) -> float:
        """Largest stress anywhere, by the walls that judge strength [Pa]; of a ladder bending and pull together.

        Of pipe with the axial force of lines that lean; of a ladder without it.
        """
        if not isinstance(self.answer, Hanging):
            return max(_bar_stress(one.part, one.axial, one.moment, one.stress, self.made)
                       for one in self.answer.members)  # fmt: skip
        if self.along is not None and self.made.stretches:
            return self.worst_stretch(amplified=False).stress
        stretches = self.made.stretches
        if len(stretches) == 1:
            return abs(self.answer.largest_moment[0]) / stretches[0].modulus
        from counterpoise.statics import greatest_moment_between

        return max(abs(greatest_moment_between(self.answer, one.start, one.end)[0]) / one.modulus for one in stretches)

    @property
    def stress_when_pressed(self) -> float:
        """The same with moments grown by what presses it, as far as that has a figure [Pa]."""
        is_pressed = self.along is not None and self.along.pressed is not None and isinstance(self.answer, Hanging)
        return self.worst_stretch(amplified=True).stress if is_pressed and self.made.stretches else self.stress

    def worst_stretch(self, *, amplified: bool) -> SegmentStress:
        """Where a pipe whose lines lean is stressed most; `amplified` with moments grown by what presses it."""
        from counterpoise.statics import Strength, StrengthSegment, segment_stresses

        assert isinstance(self.answer, Hanging)
        assert self.along is not None  # the caller looked
        parts = tuple(StrengthSegment(start=one.start, end=one.end, elastic_modulus=one.modulus, area=one.area)
                      for one in self.made.stretches)  # fmt: skip
        grown = self.along.pressed if amplified and math.isfinite(self.along.bent_more) else None
        found = segment_stresses(self.answer, Strength(segments=parts), self.along.axial, grown)
        return max(found, key=lambda one: one.stress)

    @property
    def largest_moment(self) -> float:
        """Bending moment of the greatest size, without sign [N m]; of a batten that is one beam."""
        assert isinstance(self.answer, Hanging)  # nobody asks it of a ladder, whose bars bend each for itself
        return abs(self.answer.largest_moment[0])

    @property
    def largest_shear(self) -> float:
        """Shear of the greatest size, without sign [N]; of a batten that is one beam."""
        from counterpoise.statics import greatest_shear

        assert isinstance(self.answer, Hanging)
        return abs(greatest_shear(self.answer)[0])

    def stress_at(self, x: float) -> float:
        """Stress at one place, by the wall that judges strength [Pa]; of pipe."""
        return self._stress_at(x, 0.0)

    def stress_at_when_pressed(self, x: float) -> float:
        """The same with the moment grown by what presses it there, as far as that has a figure [Pa]."""
        return self._stress_at(x, self.more_at(x))

    def more_at(self, x: float) -> float:
        """What a push adds to the moment at one place at most, as far as that has a figure [N m].

        A share of the greatest moment anywhere: where the batten does not bend without it, it bends with it.
        """
        pressed = self.along.pressed if self.along is not None else None
        if pressed is None or not math.isfinite(pressed.factor) or not pressed.start <= x <= pressed.end:
            return 0.0
        return (pressed.factor - 1.0) * self.largest_moment

    def _stress_at(self, x: float, more: float) -> float:
        assert isinstance(self.answer, Hanging)
        beside = [one for one in self.made.stretches if one.start - 1e-9 <= x <= one.end + 1e-9]
        bent = (abs(self.answer.moment(x)) + more) / min(one.modulus for one in beside)
        return bent if self.along is None else bent + abs(self.along.axial.at(x)) / min(one.area for one in beside)

    @property
    def largest_sags(self) -> tuple[tuple[float, float, float, float], ...]:
        """For each span between carrying lines: its start, its end, its sag of the greatest size, and where [m]."""
        return self._sagging.largest_sags

    def sag(self, x: float) -> float:
        """How far the batten hangs at x below the straight line between the carrying lines beside it [m]."""
        if isinstance(self.answer, Hanging):
            return self.answer.sag(x)
        chord, spans = self.answer.bottom, self.answer.bottom.largest_sags
        if not spans:
            return 0.0
        start, end = next(((a, b) for a, b, _, _ in spans if x <= b), spans[-1][:2])
        left, right = chord.deflection(start), chord.deflection(end)
        if not start <= x <= end:  # an overhang: against the level of its outer line
            return chord.deflection(x) - (left if x < start else right)
        return chord.deflection(x) - left - (right - left) * (x - start) / (end - start)

    @property
    def tips(self) -> tuple[tuple[float, float], ...]:
        """Of each end that reaches past the outermost carrying line: how far, and how far its tip is below that [m].

        A tip above it has a drop below 0. None where a single line carries.
        """
        return tuple((reach, drop) for _, reach, drop in self._overhangs())

    def _overhangs(self) -> Iterator[tuple[bool, float, float]]:
        """Of each end with a tip: whether it is that of stage right, how far it reaches, how far its tip is below."""
        spans, length = self.largest_sags, self.made.beam.length
        ends = ((True, spans[0][0], 0.0), (False, length - spans[-1][1], length)) if spans else ()
        yield from ((is_right, reach, self.sag(x)) for is_right, reach, x in ends if reach > NO_OVERHANG)

    @property
    def tips_when_stretched(self) -> tuple[tuple[float, float], ...]:
        """The same with what a pull along the batten may take off the lift that the span beside a tip gives it.

        A pull N straightens a span hinged at its ends by no more than to 1 / (1 + N/N_E), N_E its Euler load: so much
        it takes off the first term of its shape as a sum of sines, and less off the others. Source: as `pressed`.
        """
        along, answer = self.along, self.answer
        if along is None or not isinstance(answer, Hanging):
            return self.tips
        spans, found = self.largest_sags, []
        for is_right, reach, drop in self._overhangs():
            start, end, *_ = spans[0 if is_right else -1]
            chord = (answer.deflection(end) - answer.deflection(start)) / (end - start)
            turned = answer.slope(start) - chord if is_right else chord - answer.slope(end)
            stiff = min(one.stiffness for one in _segments(self.made, start, end))
            share = max(0.0, along.axial.at((start + end) / 2.0)) * (end - start) ** 2 / (math.pi**2 * stiff)
            found.append((reach, drop + max(0.0, turned) * reach * share / (1.0 + share)))
        return tuple(found)

    @property
    def _sagging(self) -> Hanging | Chord:
        return self.answer if isinstance(self.answer, Hanging) else self.answer.bottom


def _segments(made: Made, start: float, end: float) -> list[Segment]:
    """The segments of a batten of pipe from one place to another."""
    assert isinstance(made.beam, Beam)
    return [one for one in made.beam.segments if one.start < end and one.end > start]


def _bar_stress(part: str, axial: float, moment: float, stress: float, made: Made) -> float:
    """Of a chord by its design wall; of a spacer as it is."""
    if part == "spacer":
        return stress
    chord = made.stretches[0]
    return abs(axial) / chord.area + abs(moment) / chord.modulus


class Rope:
    """Hangs one batten under many loads and trims; what can be made ready once is."""

    def __init__(self, rigged: RiggedBatten) -> None:
        self._made = rigged.made
        self.hanger = None  # of a ladder, made ready
        if not isinstance(rigged.beam, Beam):
            from counterpoise.statics import Hanger

            self.hanger = Hanger(rigged.beam, [line.x for line in rigged.lines])

    def hang(self, lines: Sequence[Line], loads: Loads) -> Hangs | Tips:
        """The batten at rest. Raises Unproven where statics cannot prove its answer."""
        beam = self._made.beam
        if isinstance(beam, Beam):
            found: Hanging | HangingLadder | Tips = hang(beam, lines, loads.all)
        else:
            assert self.hanger is not None  # a ladder has its hanger
            found = self.hanger.hang(lines, chord_loads(loads))
        return found if isinstance(found, Tips) else Hangs(found, self._made)


def chord_loads(loads: Loads) -> ChordLoads:
    """The loads of a ladder: its own weight half on each chord, fittings at the top, all else at the bottom."""
    from counterpoise.statics import ChordLoads

    own = [one for one in loads.bare if isinstance(one, SpreadLoad)]
    fittings = [one for one in loads.bare if not isinstance(one, SpreadLoad)]
    halves = [SpreadLoad(start=one.start, end=one.end, per_length=one.per_length / 2.0) for one in own]
    return ChordLoads(top=(*halves, *fittings), bottom=(*halves, *loads.below))
