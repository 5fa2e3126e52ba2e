"""Text to number: a quantity as people write it, with how well it is known and who says so.

The text is kept as it was written, for a reader is shown their own words. Nothing is guessed: what can be meant in
two ways is refused, and the refusal says what to write. Only Unreadable is ever raised for a text.
"""

import re
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from counterpoise.errors import Unreadable
from counterpoise.units.kinds import UNITS, Kind, Units, tidy
from counterpoise.units.numerals import Numeral, NumeralError, numeral


class Form(Enum):
    """How a quantity was put: as a figure, as an estimate, as a range, or as not known."""

    EXACT = "exact"
    ESTIMATE = "estimate"
    RANGE = "range"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A quantity that was read. Figures are in the SI unit of its kind; all three are None when it is unknown."""

    text: str  # as written, all of it
    kind: Kind
    low: float | None
    best: float | None  # the middle of a range
    high: float | None
    form: Form
    source: str | None = None  # the name after "@"


@dataclass(frozen=True, slots=True, kw_only=True)
class Notation:
    """A text taken apart into what is said about the figure and the figure itself, still as text."""

    form: Form
    parts: tuple[str, ...]  # one text, two for a range, none for "unknown"
    source: str | None


LONGEST_TEXT = 40
_SOURCE = re.compile(r"[^\W\d_](?:[^\W\d]|[0-9.-])*\Z")
_PLAIN = str.maketrans({
    "′": "'", "’": "'", "‘": "'", "″": '"', "”": '"', "“": '"',
    "\u00a0": " ", "\u202f": " ", "\u2009": " ", "\t": " ",
    "\u2212": "-", "\u2010": "-", "\u2011": "-",
})  # fmt: skip
_TONS = frozenset({"t", "ton", "tons", "tonne", "tonnes"})
_NOT_NUMBERS = frozenset({"nan", "inf", "infinity"})


def read(text: str, kind: Kind, *, signed: bool = False) -> Reading:
    """Read a quantity as people write it.

    Args:
        text: as in "42 ft 6 in", "~180 lb", "180..220 lb @survey", "unknown"; at most 40 characters before the "@".
        kind: what the text stands for; it decides which units are known and what a pound means.
        signed: whether a minus or plus sign in front is allowed, as for an elevation.

    Returns:
        The reading, in the SI unit of the kind. An estimate has low = best = high: how far to widen it is a rule of
        the house.

    Raises:
        Unreadable: the text is not such a quantity, or may be meant in two ways.
    """
    try:
        notation = take_apart(text, f"Write it like {UNITS[kind].like}.", UNITS[kind].span)
        figures = _figures(text, notation.parts, kind, signed)
    except NumeralError as bad:
        raise Unreadable(text, bad.why, bad.mend) from None
    return reading_of(text, kind, notation, figures)


def reading_of(text: str, kind: Kind, notation: Notation, figures: tuple[Fraction, ...]) -> Reading:
    """A reading out of its figures, one for each part of its notation, lowest first."""
    if not figures:
        return Reading(text=text, kind=kind, low=None, best=None, high=None, form=notation.form, source=notation.source)
    low, high = figures[0], figures[-1]
    return Reading(
        text=text,
        kind=kind,
        low=float(low),
        best=float((low + high) / 2),
        high=float(high),
        form=notation.form,
        source=notation.source,
    )


def take_apart(text: str, mend: str, span: str) -> Notation:
    """Take the source, the estimate mark and the range dots off a text.

    Args:
        text: as written.
        mend: what to tell a reader who wrote nothing that can be read.
        span: an example of a range.

    Raises:
        Unreadable: the text is empty, too long, or its marks contradict each other.
    """
    body, at, name = text.translate(_PLAIN).strip().partition("@")
    body, name = body.rstrip(" "), name.strip(" ")
    if len(body) > LONGEST_TEXT or len(name) > LONGEST_TEXT:
        raise Unreadable(_short(text), f"is longer than {LONGEST_TEXT} characters", mend)
    if at and not _SOURCE.match(name):
        raise Unreadable(text, "has no name of a source after the @", "End it with a name, as in 24 lb @survey.")
    source = name or None
    if body.lower() == "unknown":
        return Notation(form=Form.UNKNOWN, parts=(), source=source)
    if not body:
        raise Unreadable(text, "says nothing", f"{mend} If it is not known, write unknown.")
    if body.strip("? ") == "":
        raise Unreadable(text, "does not say what is meant", "If it is not known, write unknown.")
    if body[0] == "~":
        if ".." in body:
            raise Unreadable(text, "is both an estimate and a range", f"Write the range alone, as in {span}.")
        return Notation(form=Form.ESTIMATE, parts=(body[1:].lstrip(" "),), source=source)
    return _range_or_exact(text, body, source, span)


def _range_or_exact(text: str, body: str, source: str | None, span: str) -> Notation:
    if "…" in body or "..." in body or body.count("..") > 1:
        raise Unreadable(text, "is not a range with two dots", f"Write a range like {span}.")
    low, dots, high = body.partition("..")
    if not dots:
        return Notation(form=Form.EXACT, parts=(body,), source=source)
    low, high = low.rstrip(" "), high.lstrip(" ")
    if not low or not high:
        raise Unreadable(text, "is a range with one end missing", f"Write both ends, as in {span}.")
    return Notation(form=Form.RANGE, parts=(low, high), source=source)


def _figures(text: str, parts: tuple[str, ...], kind: Kind, signed: bool) -> tuple[Fraction, ...]:
    if len(parts) < 2:
        return tuple(figure(text, part, kind, signed=signed) for part in parts)
    low, high = range_figures(text, parts[0], parts[1], kind, signed=signed)
    if low > high:
        raise Unreadable(
            text, "is a range that runs backwards", f"Write the lower end first, as in {UNITS[kind].span}."
        )
    return low, high


def range_figures(text: str, low: str, high: str, kind: Kind, *, signed: bool = False) -> tuple[Fraction, Fraction]:
    """Both ends of a range, as written first and second; a first end without a unit takes the unit of the second."""
    number = numeral(_without_sign(text, low, signed)[1])
    second = numeral(_without_sign(text, high, signed)[1])
    if number is not None and not number.rest and second is not None and UNITS[kind].factor(second.rest) is not None:
        low = f"{low} {second.rest}"  # only a unit that stands alone: "4..5' 2"" may mean 4 ft or 4 in
    return figure(text, low, kind, signed=signed), figure(text, high, kind, signed=signed)


def figure(text: str, part: str, kind: Kind, *, signed: bool = False) -> Fraction:
    """One figure in SI, exact.

    Args:
        text: the whole text, for the message.
        part: the figure within it, with its unit.
        kind: what it stands for.
        signed: whether a sign in front is allowed.

    Raises:
        Unreadable: the part is not such a figure.
        NumeralError: a number in it cannot be used.
    """
    units = UNITS[kind]
    sign, part = _without_sign(text, part, signed)
    first = numeral(part)
    if first is None:
        raise _no_number(text, part, kind, units)
    if kind is Kind.COUNT and not (first.is_whole and not first.rest):
        raise Unreadable(text, "is not a whole number", "Write a whole number with no unit, like 12.")
    if not first.rest:
        return sign * first.value * _bare(text, first, kind, units)
    factor = units.factor(first.rest)
    if factor is not None:
        return sign * first.value * factor
    both = _pair(text, first, units)
    if both is None:
        raise _no_unit(text, first, kind, units)
    return sign * both


def _without_sign(text: str, part: str, signed: bool) -> tuple[int, str]:
    if part[:1] not in ("-", "+"):
        return 1, part
    if not signed:
        raise Unreadable(text, f"has a {'minus' if part[0] == '-' else 'plus'} sign", "Write it without a sign.")
    return (-1 if part[0] == "-" else 1), part[1:].lstrip(" ")


def _bare(text: str, first: Numeral, kind: Kind, units: Units) -> int:
    if units.likely and first.value != 0:
        choice = " or ".join(f"{first.text} {unit}" for unit in units.likely)
        raise Unreadable(text, f"is a {kind.value} without a unit", f"Write {choice}.")
    return 1


def _pair(text: str, first: Numeral, units: Units) -> Fraction | None:
    """Feet and inches, or pounds and ounces; None if it is neither."""
    if units.pair is None:
        return None
    folded = first.rest.lower()
    big = next((name for name in units.pair.big if folded.startswith(name)), None)
    if big is None:
        return None
    after = first.rest[len(big) :].removeprefix(".").lstrip(" ").removeprefix("-").lstrip(" ")
    second = numeral(after)
    if second is None:
        return None
    if not second.rest:
        names = units.pair.names
        both = f"{first.text} {names[0]} {second.text} {names[1]}"
        raise Unreadable(text, f"has no unit after {second.text}", f"Write {both}.")
    if tidy(second.rest).lower() not in units.pair.small:
        return None
    if not first.is_whole or second.value >= units.pair.parts:
        big, small = units.pair.names
        why = f"is not a whole number of {big} with less than {units.pair.parts} {small} after it"
        raise Unreadable(text, why, f"Write it like {units.pair.like}.")
    in_small = first.value * units.pair.parts + second.value
    return in_small * units.factors[units.pair.small[0]]


def _no_number(text: str, part: str, kind: Kind, units: Units) -> Unreadable:
    if part.strip("+- ").lower() in _NOT_NUMBERS:
        return Unreadable(text, "is not a number", f"Write it like {units.like}. If it is not known, write unknown.")
    return Unreadable(text, f"cannot be read as a {kind.value}", f"Write it like {units.like}.")


def _no_unit(text: str, first: Numeral, kind: Kind, units: Units) -> Unreadable:
    unit = tidy(first.rest)
    folded = unit.lower()
    if folded in _TONS and kind in (Kind.MASS, Kind.FORCE):
        return Unreadable(
            text,
            "may mean three different weights",
            "A short ton is 2,000 lb, a long ton 2,240 lb, a tonne 1,000 kg: write lb or kg.",
        )
    if kind is Kind.MASS and unit in UNITS[Kind.FORCE].factors:
        return Unreadable(text, "is a force, and a weight is asked for here", f"Write it like {units.like}.")
    if kind is Kind.AREA_MASS and folded in ("oz", "ounce", "ounces"):
        return Unreadable(
            text, "does not say per what area", "Write oz/yd2. A running yard of cloth is not a square yard: weigh it."
        )
    if unit[:1] in ("-", "–"):
        return Unreadable(
            text, f"cannot be read as a {kind.value}", f"Write a range with two dots, as in {units.span}."
        )
    same = next((name for name in units.factors if name.lower() == folded), None)
    if same is not None:
        return Unreadable(text, "has a unit with the wrong capitals", f"Write {first.text} {same}.")
    return Unreadable(text, f"cannot be read as a {kind.value}", f"Write it like {units.like}.")


def _short(text: str) -> str:
    return text if len(text) <= LONGEST_TEXT else text[: LONGEST_TEXT - 1] + "…"
