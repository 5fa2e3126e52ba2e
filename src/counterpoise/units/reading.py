"""Text to number: a quantity as people write it, with how well it is known and who says so.

The text is kept as it was written, for a reader is shown their own words. Nothing is guessed: what can be meant in
two ways is refused, and the refusal says what to write. Only Unreadable is ever raised for a text.
"""

from dataclasses import dataclass
from fractions import Fraction

from counterpoise.errors import Unreadable
from counterpoise.units.figures import measure
from counterpoise.units.kinds import UNITS, Kind
from counterpoise.units.notation import Form, Notation, shown, take_apart
from counterpoise.units.numerals import NumeralError, numeral
from counterpoise.units.refusals import refusal


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
        raise Unreadable(shown(text), bad.why, bad.mend) from None
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


def _figures(text: str, parts: tuple[str, ...], kind: Kind, signed: bool) -> tuple[Fraction, ...]:
    if len(parts) < 2:
        return tuple(figure(text, part, kind, signed=signed) for part in parts)
    low, high = range_figures(text, parts[0], parts[1], kind, signed=signed)
    if low > high:
        why, mend = "is a range that runs backwards", f"Write the lower end first, as in {UNITS[kind].span}."
        raise Unreadable(shown(text), why, mend)
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
        Unreadable: the part is not such a figure, or so large or small that it can not be meant.
    """
    sign, part = _without_sign(text, part, signed)
    try:
        found = measure(part, kind)
    except NumeralError as bad:
        raise refusal(text, part, kind, bad) from None
    if found is None:
        raise refusal(text, part, kind)
    _require_meant(text, found, kind)
    return sign * found


def _without_sign(text: str, part: str, signed: bool) -> tuple[int, str]:
    if part[:1] not in ("-", "+"):
        return 1, part
    if not signed:
        why = f"has a {'minus' if part[0] == '-' else 'plus'} sign"
        raise Unreadable(shown(text), why, "Write it without a sign.")
    return (-1 if part[0] == "-" else 1), part[1:].lstrip(" ")


def _require_meant(text: str, found: Fraction, kind: Kind) -> None:
    """Bounds so wide that only a slip passes them: a unit left out, a digit held down."""
    (least, most), (little, much) = UNITS[kind].bounds, UNITS[kind].said
    if found > most:
        raise Unreadable(
            shown(text), f"can hardly be meant: it is more than {much}", "Check its digits, its point and its unit."
        )
    if 0 < found < least:
        raise Unreadable(
            shown(text), f"can hardly be meant: it is less than {little}", "Check its digits, its point and its unit."
        )
