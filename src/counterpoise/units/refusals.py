"""Why a figure is not read and what to write instead: the slips that people make are known by name.

A mend that holds a figure is tried before it is told, so that what it says to write can be read.
"""

import re
from fractions import Fraction

from counterpoise.errors import Unreadable
from counterpoise.units.figures import measure
from counterpoise.units.kinds import UNITS, Kind, Units, tidy
from counterpoise.units.notation import shown
from counterpoise.units.numerals import Numeral, NumeralError, numeral

_NOT_NUMBERS = frozenset({"nan", "inf", "infinity"})
_TON = re.compile(r"(?:(?:metric|short|long|us|uk) ?)?(?:t|tf|mt|tons?|tonnes?)\Z")
_CLOTH = re.compile(r"(oz|ounces?|g|grams?|lbs?|kg)(?:\Z|/(?:(?:lin|linear|running)\.? ?)?(?:yd|ft|m|ly|lm)\Z)")
_DAY = re.compile(r"[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}\Z|[0-9]{1,2}/[0-9]{1,2}/[0-9]{2,4}\Z")
_EXPONENT = re.compile(r"[0-9.,]*[0-9] ?(?:[eE][+-]?[0-9]|(?:x|\*) ?10\^)")
_NOT_PLAIN = re.compile(r"0[xXbo][0-9a-fA-F]|[0-9,]*[0-9](?:_|[' ][0-9]{3}(?![0-9]))")
_RATIO = re.compile(r"(?P<over>[0-9.]+|[lL])(?: ?: ?| to |/)(?P<under>[0-9.]+)\Z")
_FEET_AND_INCHES = re.compile(r"([0-9]+)-([0-9]{1,2}(?:[ -][0-9]/[0-9]{1,2})?)(?: ?(?:ft|in|'|\"))?\Z")
_BETWEEN = re.compile(r" ?(?:\bto\b|\band\b|-|–|—|\u2012) ?")


def refusal(text: str, part: str, kind: Kind, bad: NumeralError | None = None) -> Unreadable:
    """The error for a figure that was not read.

    Args:
        text: the whole text, for the message.
        part: the figure within it, without its sign.
        kind: what it stands for.
        bad: what is wrong with a number in it, if that is known.
    """
    why, mend = _slip(part, kind) or _range(part, kind) or ((bad.why, bad.mend) if bad else _unit(part, kind))
    return Unreadable(shown(text), why, mend)


def _slip(part: str, kind: Kind) -> tuple[str, str] | None:
    """A way of writing that is known and not read, whatever the unit."""
    units = UNITS[kind]
    like = f"Write it like {units.like}."
    if part.strip("+- ").lower() in _NOT_NUMBERS:
        return "is not a number", f"{like} If it is not known, write unknown."
    if _DAY.match(part):
        return f"is a day, and {_a(kind)} is asked for here", like
    if "±" in part or "+/-" in part:
        return "says give or take", f"Write both ends, as in {units.span}, or ~ in front of an estimate."
    if part.endswith("?"):
        return "ends in a question mark", f"Write ~ in front of an estimate: ~{part.rstrip('? ')}. Else write unknown."
    if _EXPONENT.match(part):
        return f"cannot be read as {_a(kind)}: it has an exponent", f"Write all its digits, as in 29,000. {like}"
    if _NOT_PLAIN.match(part):
        return f"cannot be read as {_a(kind)}: its digits are not plain", f"Write 1,000 or 1000. {like}"
    return _ratio(part) if kind is Kind.RATIO else None


def _ratio(part: str) -> tuple[str, str] | None:
    found = _RATIO.match(part)
    if found is None or ("/" in part and found["over"] not in "lL"):
        return None
    over = "1" if found["over"] in "lL" else found["over"]
    meant = f"{over}/{found['under']}"
    return "cannot be read as a ratio", f"Write {meant}." if _reads(meant, Kind.RATIO) else "Write it like 1/180."


def _a(kind: Kind) -> str:
    """The kind with its article."""
    return f"{'an' if kind.value[0] in 'aeiou' else 'a'} {kind.value}"


def _range(part: str, kind: Kind) -> tuple[str, str] | None:
    """Two figures with a dash or a "to" between them. A dash may also stand between feet and inches."""
    units = UNITS[kind]
    found = _FEET_AND_INCHES.match(part) if kind is Kind.LENGTH else None
    if found is not None and _reads(f"{found[1]} ft {found[2]} in", kind):
        return "may be feet and inches, or a range", f"Write {found[1]} ft {found[2]} in, or a range like {units.span}."
    cleared = part.removeprefix("between ").removeprefix("from ")
    for between in _BETWEEN.finditer(cleared):
        low, high = cleared[: between.start()], cleared[between.end() :]
        if _runs_up(low, high, kind):
            return f"cannot be read as {_a(kind)}; it may be a range", f"Write {low}..{high}."
        if _is_number(low) and _is_number(high) and _measured(low, Kind.RATIO) <= _measured(high, Kind.RATIO):
            ends = " or ".join(f"{low}..{high} {unit}" for unit in units.likely) or f"{low}..{high}"
            return f"cannot be read as {_a(kind)}; it may be a range", f"Write {ends}."
    return None


def _runs_up(low: str, high: str, kind: Kind) -> bool:
    """True where "low..high" would be read: a first end without a unit takes the one unit of the second."""
    top = _measured(high, kind)
    if _is_number(low) and top >= 0 and (unit := _rest(high)) and UNITS[kind].factor(unit) is not None:
        low = f"{low} {unit}"
    return 0 <= _measured(low, kind) <= top


def _rest(part: str) -> str:
    found = numeral(part)
    return found.rest if found else ""


def _measured(part: str, kind: Kind) -> Fraction:
    """The figure, less than zero where it is none."""
    try:
        found = measure(part, kind)
    except NumeralError:
        found = None
    return Fraction(-1) if found is None else found


def _reads(part: str, kind: Kind) -> bool:
    return _measured(part, kind) >= 0


def _is_number(part: str) -> bool:
    try:
        found = numeral(part)
    except NumeralError:
        return False
    return found is not None and not found.rest


def _unit(part: str, kind: Kind) -> tuple[str, str]:
    """What is wrong with the unit behind a number; also where there is no number."""
    units = UNITS[kind]
    first = numeral(part)
    if first is None:
        return f"cannot be read as {_a(kind)}", f"Write it like {units.like}."
    if kind is Kind.COUNT:
        return "is not a whole number", "Write a whole number with no unit, like 12."
    if not first.rest:
        choice = " or ".join(f"{first.text} {unit}" for unit in units.likely)
        return f"is {_a(kind)} without a unit", f"Write {choice}."
    unit = tidy(first.rest)
    return _many_meanings(first, unit, kind) or _foreign(first, unit, kind, units)


def _many_meanings(first: Numeral, unit: str, kind: Kind) -> tuple[str, str] | None:
    """A unit that several people mean several things by."""
    folded = unit.lower()
    weighs = kind in (Kind.MASS, Kind.FORCE)
    if weighs and _TON.match(folded):
        return (
            "may mean three different weights",
            "A short ton is 2,000 lb, a long ton 2,240 lb, a tonne 1,000 kg: write lb or kg.",
        )
    if weighs and folded in ("k", "klb", "klbs"):
        pounds = f"{float(first.value * 1000):,.0f} lb"
        return "may mean thousands of pounds, or kilograms", f"Write {pounds} or {first.text} kg."
    if kind is Kind.AREA_MASS and (found := _CLOTH.match(folded)):
        return (
            "does not say per what area",
            f"Write {found[1]}/yd2 or {found[1]}/m2. A running yard of cloth 54 in wide is 1.5 yd2.",
        )
    return None


def _foreign(first: Numeral, unit: str, kind: Kind, units: Units) -> tuple[str, str]:
    """A unit that is not one of this kind."""
    folded = unit.lower()
    if kind is Kind.MASS and unit in UNITS[Kind.FORCE].factors:
        return "is a force, and a weight is asked for here", f"Write it like {units.like}."
    same = next((name for name in units.factors if name.lower() == folded), None)
    if same is not None:
        return "has a unit with the wrong capitals", f"Write {first.text} {same}."
    other = next((one for one in Kind if UNITS[one].factor(unit) is not None), None)
    if other is not None:
        return f"cannot be read as {_a(kind)}: {unit} is a unit of {other.value}", f"Write it like {units.like}."
    if unit[:1] in ("-", "–"):
        return f"cannot be read as {_a(kind)}", f"Write a range with two dots, as in {units.span}."
    return f"cannot be read as {_a(kind)}", f"Write it like {units.like}."
