"""What is known only within limits: weights from light to heavy, lines trimmed within a tolerance, a tilted arbor.

Each doubt is one factor between two ends; loads and offsets follow it in proportion. This module knows nothing of
how likely any value is.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from counterpoise.errors import within
from counterpoise.statics.model import Line, Load, PointLoad, SpreadLoad

TRIM_TOLERANCE = 0.5 * 0.0254  # [m]
TRIM_TOLERANCE_SOURCE = (
    "1/2 in either way: from memory of common practice, no published source found. "
    "A batten trimmed by eye from the deck; measure your own."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """One thing not known exactly: a factor t from `low` to `high`; it hangs t times its loads.

    It also lengthens each line by t times that line's entry in `offsets`.
    """

    low: float
    high: float
    loads: tuple[Load, ...] = ()  # at t = 1; light and heavy together; of a ladder truss those on its bottom chord
    offsets: tuple[float, ...] = ()  # of every line at t = 1, down positive [m]; none for a weight
    top: tuple[Load, ...] = ()  # at t = 1; on the top chord of a ladder truss

    def __post_init__(self) -> None:
        bottom = 0.0 if self.loads or self.top else -1.0e6
        mend = "A weight is 0 or more; give the low end first."
        within("low end of a doubt", self.low, low=bottom, high=1.0e6, mend=mend)
        within("high end of a doubt", self.high, low=self.low, high=1.0e6, mend=mend)


def weighing(loads: Sequence[Load], low: float, high: float) -> Doubt:
    """Loads that are together `low` to `high` times as heavy as given: all picks of one piece, say."""
    return Doubt(low=low, high=high, loads=tuple(loads))


def trimmed(lines: Sequence[Line], tolerance: float | Sequence[float] = TRIM_TOLERANCE) -> tuple[Doubt, ...]:
    """Every line for itself up to `tolerance` [m] longer or shorter than its offset says; 0 leaves it as it is.

    Raises:
        OutOfRange: a tolerance below 0, or not one for each line.
    """
    each = [tolerance] * len(lines) if isinstance(tolerance, (int, float)) else list(tolerance)
    count = float(len(lines))
    within("number of trim tolerances", float(len(each)), low=count, high=count, mend="Give one for each line.")
    for one in each:
        within("trim tolerance", one, low=0.0, high=1.0e3, unit="m", mend="Give how far a line may be off either way.")
    return tuple(
        Doubt(low=-one, high=one, offsets=tuple(float(k == i) for k in range(len(lines))))
        for i, one in enumerate(each)
        if one > 0.0
    )


def tilted(places: Sequence[float], angle: float) -> Doubt:
    """An arbor that may tilt up to `angle` either way between its guides.

    Args:
        places: where each line is made to the arbor, across it from its middle [m], in the order of the lines. On a
            double-purchase set the lines move twice as far as the arbor: give 2 times the place.
        angle: most the guides' play lets it tilt [rad], 0 to 0.2; small angles.

    Returns:
        Doubt: at angle t the line at place p hangs t p lower (positive where the arbor end of that line is high).

    Raises:
        OutOfRange: the angle is not small.

    Source: a rigid arbor turns about its middle; docs/theory/ranges.md.
    """
    within("tilt", angle, low=0.0, high=0.2, unit="rad", mend="Play of the guides over the height between shoes.")
    return Doubt(low=-angle, high=angle, offsets=tuple(places))


def at_factors(
    lines: Sequence[Line], loads: Sequence[Load], doubts: Sequence[Doubt], factors: Sequence[float]
) -> tuple[list[Line], list[Load]]:
    """Lines and loads with every doubt at its factor, as hang takes them."""
    pairs = list(zip(doubts, factors, strict=True))
    hung = [*loads, *(scaled(load, t) for doubt, t in pairs for load in doubt.loads)]
    return trimmed_at(lines, doubts, factors), hung


def trimmed_at(lines: Sequence[Line], doubts: Sequence[Doubt], factors: Sequence[float]) -> list[Line]:
    """The lines with every doubt at its factor."""
    offsets = [line.offset for line in lines]
    for doubt, t in zip(doubts, factors, strict=True):
        for i, offset in enumerate(doubt.offsets):
            offsets[i] += t * offset
    return [replace(line, offset=offset) for line, offset in zip(lines, offsets, strict=True)]


def scaled(load: Load, factor: float) -> Load:
    """The same load `factor` times as heavy."""
    if isinstance(load, PointLoad):
        return PointLoad(x=load.x, force=factor * load.force)
    return SpreadLoad(start=load.start, end=load.end, per_length=factor * load.per_length)


def check_doubts(lines: Sequence[Line], doubts: Sequence[Doubt], *, chords: bool = False) -> None:
    """Refuse a doubt that does not name every line, or one about a chord that is not there (OutOfRange)."""
    count = float(len(lines))
    for doubt in doubts:
        if not chords:
            mend = "Only a ladder truss has a top chord."
            within("loads of a doubt on the top chord", float(len(doubt.top)), low=0.0, high=0.0, mend=mend)
        if doubt.offsets:
            within("offsets of a doubt", float(len(doubt.offsets)), low=count, high=count, mend="One for each line.")
            for offset in doubt.offsets:
                within("offset of a doubt", offset, low=-1.0e3, high=1.0e3, unit="m", mend="Give it in metres.")
        if not math.isfinite(doubt.high - doubt.low):
            within("width of a doubt", doubt.high - doubt.low, low=0.0, high=1.0e6, mend="Give two finite ends.")
