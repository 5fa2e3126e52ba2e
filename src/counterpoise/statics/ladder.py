"""A ladder truss as bare numbers, each checked once: two chords and rigidly jointed spacers, no diagonals.

x runs along the truss from its stage-right end; down is positive for loads and deflections. The axes of the chords lie
`depth` apart; every bar is taken from axis to axis.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from counterpoise.errors import within
from counterpoise.statics.model import CLOSEST, ROUNDING, Load, PointLoad, SpreadLoad
from counterpoise.statics.sections import Section


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A bar of one section and one material."""

    section: Section
    modulus: float  # E [Pa]

    def __post_init__(self) -> None:
        within(
            "modulus of elasticity",
            self.modulus,
            low=1.0e6,
            high=1.0e13,
            unit="Pa",
            mend="Give E of the material; steel has about 200 GPa, aluminium about 70 GPa.",
        )

    @property
    def bending(self) -> float:
        """EI [N m2]."""
        return self.modulus * self.section.second_moment

    @property
    def stretching(self) -> float:
        """EA [N]."""
        return self.modulus * self.section.area

    def stress(self, axial: float, moment: float) -> float:
        """Largest stress of a section under axial force and moment: |N|/A + |M|/S [Pa]."""
        return abs(axial) / self.section.area + abs(moment) / self.section.elastic_modulus


@dataclass(frozen=True, slots=True, kw_only=True)
class Ladder:
    """Two parallel chords over the whole length, tied by spacers at right angles and rigidly jointed to both."""

    length: float  # of both chords [m]
    depth: float  # from axis to axis of the chords [m]
    spacers: tuple[float, ...]  # x of each, two or more, rising [m]
    top: Bar
    bottom: Bar
    spacer: Bar

    def __post_init__(self) -> None:
        within("length", self.length, low=0.01, high=1.0e6, unit="m", mend="Give the length of the chords.")
        within("depth", self.depth, low=CLOSEST, high=1.0e3, unit="m", mend="Measure from axis to axis of the chords.")
        mend = "Two spacers or more tie the chords together; without them these are two battens."
        within("number of spacers", len(self.spacers), low=2, high=math.inf, mend=mend)
        mend = "Give the spacers from stage right to stage left, all on the chords, no two at one place."
        reached = -CLOSEST
        for number, x in enumerate(self.spacers, start=1):
            low, high = reached + CLOSEST, self.length + ROUNDING
            within(f"x of spacer {number}", x, low=low - ROUNDING, high=high, unit="m", mend=mend)
            reached = x


@dataclass(frozen=True, slots=True, kw_only=True)
class ChordLoads:
    """What hangs on a ladder truss, chord by chord, its own weight included."""

    bottom: tuple[Load, ...] = ()
    top: tuple[Load, ...] = ()

    @property
    def weight(self) -> float:
        """Of all loads [N]."""
        return sum([load.force for load in (*self.bottom, *self.top)])

    @property
    def first(self) -> float:
        """Moment of all loads about x = 0 [N m]."""
        return sum([load.force * centre_of(load) for load in (*self.bottom, *self.top)])


def centre_of(load: Load) -> float:
    """Centre of gravity of one load [m]."""
    return load.x if isinstance(load, PointLoad) else 0.5 * (load.start + load.end)


def own_weight(ladder: Ladder, *, top: float, bottom: float, spacer: float) -> ChordLoads:
    """The weight of a ladder truss as loads.

    Args:
        ladder: the truss.
        top, bottom: weight per length of each chord [N/m], 0 or more.
        spacer: weight of one spacer [N], 0 or more; half of it hangs on each chord.
    """
    halves = tuple(PointLoad(x=x, force=0.5 * spacer) for x in ladder.spacers)
    return ChordLoads(
        bottom=(SpreadLoad(start=0.0, end=ladder.length, per_length=bottom), *halves),
        top=(SpreadLoad(start=0.0, end=ladder.length, per_length=top), *halves),
    )


def check_places(ladder: Ladder, places: Sequence[float]) -> None:
    """Refuse lines that are too few, off the top chord, out of order, or two at one place (all OutOfRange)."""
    within("number of lines", len(places), low=2, high=math.inf, mend="A truss hangs on two lines or more.")
    reached = -math.inf
    for number, x in enumerate(places, start=1):
        low, high = max(-ROUNDING, reached + CLOSEST), ladder.length + ROUNDING
        if not low <= x <= high:  # the words are made only where they are needed
            mend = "Every line is made to the top chord, from stage right to stage left, no two at one place."
            within(f"x of line {number}", x, low=low, high=high, unit="m", mend=mend)
        reached = x


def check_chord_loads(ladder: Ladder, loads: ChordLoads) -> None:
    """Refuse loads that hang off the truss (OutOfRange)."""
    mend = "A load hangs on the truss from its start to its end."
    low, high = -ROUNDING, ladder.length + ROUNDING
    for load in (*loads.bottom, *loads.top):
        start, end = (load.x, load.x) if isinstance(load, PointLoad) else (load.start, load.end)
        if not (low <= start and end <= high):
            within("load start", start, low=low, high=high, unit="m", mend=mend)
            within("load end", end, low=low, high=high, unit="m", mend=mend)
