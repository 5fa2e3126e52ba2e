"""Where along a batten: from the centre line, or from either end, turned into metres from the stage-right end.

Stage right and stage left are those of a person on stage who faces the house. x is 0 at the stage-right end and grows
towards stage left, whatever way the text was put.
"""

import math
import re
from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from counterpoise.errors import Unreadable, within
from counterpoise.units.constants import METRES_PER_FOOT
from counterpoise.units.kinds import UNITS, Kind
from counterpoise.units.notation import shown, take_apart
from counterpoise.units.numerals import NumeralError, numeral
from counterpoise.units.printing import Style, length as print_length
from counterpoise.units.reading import Reading, figure, range_figures, reading_of

_HOW = "Write CL, 6' SL, 12 ft SR, or 3 ft from SR end."
_FROM_CENTRE = "Write it like 6' SL, CL or 12' SR."
_CENTRE = frozenset({"cl", "c/l", "centre", "center", "centre line", "center line", "centreline", "centerline"})
_ANCHOR = re.compile(
    r"""[ ]* (?: from [ ]+ (?:the[ ]+)? (?P<end>SL|SR|stage[ ]left|stage[ ]right) [ ]+ end
             | (?P<side>SL|SR|stage[ ]left|stage[ ]right)
               (?: [ ]+ of [ ]+ (?:the[ ]+)? (?:CL|cent(?:re|er)(?:[ ]?line)?) )? ) \Z""",
    re.VERBOSE | re.IGNORECASE | re.ASCII,
)
_SIDE_ALONE = re.compile(r"([0-9].*(?:'|\"|ft|in|m|cm|mm))[ ]*([LRlr])\Z")
_SLACK = Fraction(1, 10**9)  # [m]; halving and turning feet to metres must not push an end off the batten


@lru_cache(maxsize=4096)  # sets that are alike say the same few places a thousand times
def place(text: str, *, length: float) -> Reading:
    """Read where along a batten something is.

    Args:
        text: "CL", "6' SL" and "12 ft SR" (from the centre line), "3 ft from SR end", "3 ft from SL end", or a plain
            length, which counts from the stage-right end; with the usual "~", ".." and "@".
        length: of the batten [m], more than 0 and any that `read` gives.

    Returns:
        A length reading [m] from the stage-right end, between 0 and `length`.

    Raises:
        Unreadable: the text is not a place, or the place is off the batten.
        OutOfRange: the batten has no length.
    """
    least, most = (float(bound) for bound in UNITS[Kind.LENGTH].bounds)  # no length that can be read is out of range
    within("length of the batten", length, low=least, high=most, unit="m", mend="Give the batten its length first.")
    try:
        notation = take_apart(text, _HOW, "6..8 ft SL")
        figures = _along(text, notation.parts, Fraction(length))
    except NumeralError as bad:
        raise Unreadable(shown(text), bad.why, bad.mend) from None
    return reading_of(text, Kind.LENGTH, notation, tuple(_on_batten(text, x, length) for x in figures))


def from_centre(text: str) -> Reading:
    """Read a distance from a centre line, to stage left positive.

    Args:
        text: "CL", "6' SL", "12 ft SR", "2' SR..2' SL"; with the usual "~", ".." and "@".

    Returns:
        A length reading [m], 0 on the centre line, positive to stage left and negative to stage right.

    Raises:
        Unreadable: the text is not such a distance. A distance from an end, or from nowhere, is none.
    """
    try:
        notation = take_apart(text, _FROM_CENTRE, "6..8 ft SL")
        anchors = [_anchored(part)[1] for part in notation.parts]
        if any(anchor.endswith("end") for anchor in anchors) or (anchors and not anchors[-1]):
            raise Unreadable(shown(text), "is not a distance from the centre line", _FROM_CENTRE)
        figures = _along(text, notation.parts, Fraction(0))
    except NumeralError as bad:
        raise Unreadable(shown(text), bad.why, bad.mend) from None
    return reading_of(text, Kind.LENGTH, notation, figures)


def _along(text: str, parts: Sequence[str], batten: Fraction) -> tuple[Fraction, ...]:
    if len(parts) < 2:
        return tuple(_one(text, *_anchored(part), batten) for part in parts)
    (low, low_anchor), (high, high_anchor) = (_anchored(part) for part in parts)
    if low_anchor in ("", high_anchor) and high_anchor != "CL":
        # One anchor for both, as in "6..8 ft SR": read as lengths first, so that the unit is shared as well.
        first, second = _lengths(text, low, high)
        if first > second:
            raise Unreadable(
                shown(text), "is a range that runs backwards", "Write the lower end first, as in 6..8 ft SL."
            )
        ends = [_from_anchor(first, high_anchor, batten), _from_anchor(second, high_anchor, batten)]
    else:
        if "" in (low_anchor, high_anchor):
            raise Unreadable(
                shown(text), "is a range with an end that counts from nowhere", "Write it like 2' SR..4' SL."
            )
        ends = [_one(text, low, low_anchor, batten), _one(text, high, high_anchor, batten)]
    return tuple(sorted(ends))


def _anchored(part: str) -> tuple[str, str]:
    """Part the distance from what it counts from: "CL" (the line itself), "SL", "SR", "SL end", "SR end" or ""."""
    if part.lower() in _CENTRE:
        return "", "CL"
    found = _ANCHOR.search(part)
    if found is None:
        return part, ""
    side = "SL" if (found["end"] or found["side"]).lower() in ("sl", "stage left") else "SR"
    return part[: found.start()], f"{side} end" if found["end"] else side


def _one(text: str, distance: str, anchor: str, batten: Fraction) -> Fraction:
    if anchor == "CL":
        return batten / 2
    _require_number(text, distance)
    return _from_anchor(_with_unit(text, distance, anchor), anchor, batten)


def _lengths(text: str, low: str, high: str) -> tuple[Fraction, Fraction]:
    _require_number(text, low)
    _require_number(text, high)
    return range_figures(text, low, high, Kind.LENGTH)


def _require_number(text: str, distance: str) -> None:
    if not distance.startswith(("+", "-")) and numeral(distance) is None:
        raise Unreadable(shown(text), "cannot be read as a place on a batten", _how(distance))


def _how(part: str) -> str:
    """What to write for C, L and R alone: left and right are those of the stage, or those of the house."""
    if part.lower() == "c":
        return "Write CL."
    found = _SIDE_ALONE.match(part)
    if found is None:
        return _HOW
    side = {"l": ("SL", "left"), "r": ("SR", "right")}[found[2].lower()]
    return f"Write {found[1]} {side[0]} if stage {side[1]} is meant."


def _with_unit(text: str, distance: str, anchor: str) -> Fraction:
    number = numeral(distance)
    tail = {"": " from SR end", "SL end": " from SL end", "SR end": " from SR end"}.get(anchor, f" {anchor}")
    if number is not None and not number.rest and number.value != 0:
        raise Unreadable(
            shown(text), "is a place without a unit", f"Write {number.text} ft{tail} or {number.text} m{tail}."
        )
    try:
        return figure(text, distance, Kind.LENGTH)
    except Unreadable as bad:
        if bad.why == "cannot be read as a length":
            raise Unreadable(bad.text, "cannot be read as a place on a batten", _how(f"{distance}{anchor}")) from None
        if bad.why.endswith("it may be a range"):  # the mend knows the distance only, not what it counts from
            mend = bad.mend.removesuffix(".").replace(" or ", f"{tail} or ")
            raise Unreadable(bad.text, bad.why, f"{mend}{tail}.") from None
        raise


def _from_anchor(distance: Fraction, anchor: str, batten: Fraction) -> Fraction:
    match anchor:
        case "SL":
            return batten / 2 + distance
        case "SR":
            return batten / 2 - distance
        case "SL end":
            return batten - distance
        case _:
            return distance


def _on_batten(text: str, x: Fraction, length: float) -> Fraction:
    if not -_SLACK <= x <= Fraction(length) + _SLACK:
        long = f"{print_length(length, Style('us'))} ({print_length(length, Style('metric'))})"
        half = f"{math.floor(length / 2 / METRES_PER_FOOT * 10) / 10:g} ft"
        raise Unreadable(
            shown(text),
            f"is off the batten, which is {long} long",
            f"From the centre line it reaches {half} either way: move the place, or mend the length of the batten.",
        )
    return min(max(x, Fraction(0)), Fraction(length))
