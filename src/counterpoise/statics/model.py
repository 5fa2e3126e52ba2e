"""A batten, its lines and its loads as bare numbers, each checked once.

x runs along the batten from its stage-right end. Down is positive for loads and for deflection.
This module knows nothing of pipes, ropes, ratings or units other than SI.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from counterpoise.errors import within

CLOSEST = 5.0e-3  # two lines nearer than this are one: a rope is thicker, and nearer ones lose digits [m]
ROUNDING = 1.0e-9  # a place this little outside the batten is taken as its end [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Segment:
    """A stretch of batten of one bending stiffness."""

    start: float  # [m]
    end: float  # [m]
    stiffness: float  # EI [N m2]

    def __post_init__(self) -> None:
        within("segment start", self.start, low=0.0, high=math.inf, unit="m", mend="Measure from the stage-right end.")
        within(
            "segment end",
            self.end,
            low=math.nextafter(self.start, math.inf),
            high=1.0e6,
            unit="m",
            mend="A segment ends after it starts.",
        )
        within(
            "stiffness",
            self.stiffness,
            low=1.0e-9,
            high=1.0e15,
            unit="N m2",
            mend="Give E times I of the pipe; a batten without stiffness cannot be computed.",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Beam:
    """A batten: stiffness in steps along its length. The segments cover it end to end."""

    length: float  # [m]
    segments: tuple[Segment, ...]

    def __post_init__(self) -> None:
        within("length", self.length, low=0.01, high=1.0e6, unit="m", mend="Give the length of the batten.")
        mend = "The segments must follow each other from end to end of the batten, without gap or overlap."
        within("number of segments", len(self.segments), low=1, high=math.inf, mend=mend)
        reached = 0.0
        for segment in self.segments:
            low, high = reached - ROUNDING, reached + ROUNDING
            within("segment start", segment.start, low=low, high=high, unit="m", mend=mend)
            reached = segment.end
        low, high = self.length - ROUNDING, self.length + ROUNDING
        within("end of the last segment", reached, low=low, high=high, unit="m", mend=mend)


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A lift line: it pulls or it is slack, it never pushes.

    Under a pull T the batten hangs at offset + flexibility * T below level, where this line holds it.
    """

    x: float  # [m]
    flexibility: float = 0.0  # stretch per pull [m/N]; 0 is a rigid line
    offset: float = 0.0  # how much lower than level the unloaded line hangs [m]; positive is a longer line

    def __post_init__(self) -> None:
        within("line x", self.x, low=-ROUNDING, high=1.0e6, unit="m", mend="Measure from the stage-right end.")
        within(
            "flexibility", self.flexibility, low=0.0, high=1.0, unit="m/N", mend="Stretch per pull; 0 is a rigid line."
        )
        within("offset", self.offset, low=-1.0e3, high=1.0e3, unit="m", mend="How much lower than level the line is.")


@dataclass(frozen=True, slots=True, kw_only=True)
class PointLoad:
    """A weight at one place."""

    x: float  # [m]
    force: float  # down [N], 0 or more

    def __post_init__(self) -> None:
        within("load x", self.x, low=-1.0e6, high=1.0e6, unit="m", mend="Measure from the stage-right end.")
        within(
            "force", self.force, low=0.0, high=1.0e12, unit="N", mend="A load hangs down: give its weight, 0 or more."
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class SpreadLoad:
    """A weight spread evenly from start to end."""

    start: float  # [m]
    end: float  # [m]
    per_length: float  # down [N/m], 0 or more

    def __post_init__(self) -> None:
        within("load start", self.start, low=-1.0e6, high=1.0e6, unit="m", mend="Measure from the stage-right end.")
        within(
            "load end",
            self.end,
            low=math.nextafter(self.start, math.inf),
            high=1.0e6,
            unit="m",
            mend="A spread load ends after it starts; give a point load for a single place.",
        )
        within(
            "per_length",
            self.per_length,
            low=0.0,
            high=1.0e12,
            unit="N/m",
            mend="A load hangs down: give its weight per length, 0 or more.",
        )

    @property
    def force(self) -> float:
        """The whole weight [N]."""
        return self.per_length * (self.end - self.start)


Load = PointLoad | SpreadLoad


def set_at(moved: Sequence[Load], x: float) -> list[Load]:
    """The moved loads at their place when set at x."""
    placed: list[Load] = []
    for load in moved:
        if isinstance(load, PointLoad):
            placed.append(PointLoad(x=x + load.x, force=load.force))
        else:
            placed.append(SpreadLoad(start=x + load.start, end=x + load.end, per_length=load.per_length))
    return placed


def check_lines(beam: Beam, lines: Sequence[Line]) -> None:
    """Refuse lines that are too few, off the batten, out of order, or two at one place (all OutOfRange)."""
    within("number of lines", len(lines), low=2, high=math.inf, mend="A batten hangs on two lines or more.")
    for number, line in enumerate(lines, start=1):
        within(
            f"x of line {number}",
            line.x,
            low=-ROUNDING,
            high=beam.length + ROUNDING,
            unit="m",
            mend="Every line is made to the batten.",
        )
    for number in range(1, len(lines)):
        within(
            f"distance from line {number} to line {number + 1}",
            lines[number].x - lines[number - 1].x,
            low=CLOSEST,
            high=math.inf,
            unit="m",
            mend="Give the lines from stage right to stage left, no two at one place.",
        )


def check_loads(beam: Beam, loads: Sequence[Load]) -> None:
    """Refuse loads that hang off the batten (OutOfRange)."""
    low, high = -ROUNDING, beam.length + ROUNDING
    for load in loads:
        if isinstance(load, PointLoad):
            if not low <= load.x <= high:
                within("load x", load.x, low=0.0, high=beam.length, unit="m", mend="A load hangs on the batten.")
        elif not (low <= load.start and load.end <= high):
            mend = "A load hangs on the batten from its start to its end."
            within("load start", load.start, low=0.0, high=beam.length, unit="m", mend=mend)
            within("load end", load.end, low=0.0, high=beam.length, unit="m", mend=mend)


def check_weight(weight: float) -> None:
    """Refuse a batten that weighs nothing (OutOfRange)."""
    within("total load", weight, low=1.0e-9, high=1.0e12, unit="N", mend="A batten weighs something: give its weight.")
