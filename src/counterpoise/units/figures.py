"""One figure with its unit, measured in SI: a number and a unit, or two of each as in 42 ft 6 in and 12 lb 4 oz."""

import re
from fractions import Fraction

from counterpoise.units.kinds import UNITS, Kind, Pair, Units, tidy
from counterpoise.units.numerals import Numeral, NumeralError, numeral

# A bare fraction is read by these alone: those of a rule and of a scale, and a third of a yard or a foot. 250/300 kg is
# two capacities, and 4/5 ft may be one or the other.
_DIVISORS = frozenset({2, 3, 4, 8, 16, 32, 64})
_STUCK_POINT = re.compile(r"\.[0-9]")


def measure(part: str, kind: Kind) -> Fraction | None:
    """One figure without a sign in SI, exact; None where it is no such figure, as without a unit that it needs.

    Raises:
        NumeralError: a number in it cannot be used.
    """
    units = UNITS[kind]
    first = numeral(part)
    if first is None:
        return None
    if kind is Kind.COUNT:
        return first.value if first.is_whole and not first.rest else None
    _require_customary(first, kind, units)
    if not first.rest:
        return first.value if first.value == 0 or not units.likely else None
    factor = units.factor(first.rest)
    return first.value * factor if factor is not None else _pair(first, units)


def _require_customary(first: Numeral, kind: Kind, units: Units) -> None:
    """Refuse 250/300 kg: not a part of a kilogram, but two figures."""
    if first.bare is None or kind is Kind.RATIO or (first.rest and units.factor(first.rest) is None):
        return
    over, under = first.bare
    if over < under and under in _DIVISORS:
        return
    low, high = sorted(first.bare)
    ends = " or ".join(f"{low}..{high} {unit}" for unit in ([first.rest] if first.rest else units.likely))
    raise NumeralError(
        "may be a fraction, or two figures with a slash between",
        f"Write {ends} if it may be either; write two figures each by itself, and a fraction like 3/4 or 0.8.",
    )


def _pair(first: Numeral, units: Units) -> Fraction | None:
    """Feet and inches, or pounds and ounces; None if it is neither."""
    if units.pair is None:
        return None
    folded = first.rest.lower()
    big = next((name for name in units.pair.big if folded.startswith(name)), None)
    if big is None:
        return None
    behind = first.rest[len(big) :]
    after = behind.removeprefix(".").removeprefix(",").lstrip(" ").removeprefix("and ")
    after = after.lstrip(" ").removeprefix("-").lstrip(" ")
    second = numeral(after)
    if second is None:
        return None
    names = units.pair.names
    if _STUCK_POINT.match(behind):
        meant = [f"0.{second.text}"] * second.is_whole + [second.text] * (second.value < units.pair.parts)
        raise NumeralError(
            f"has a point between {big} and {second.text}: of the unit, or of a decimal",
            f"Write {' or '.join(f'{first.text} {names[0]} {one} {names[1]}' for one in meant)}.",
        )
    _require_customary(second, Kind.LENGTH, units)
    if not second.rest:
        both = f"{first.text} {names[0]} {second.text} {names[1]}"
        raise NumeralError(f"has no unit after {second.text}", f"Write {both}.")
    if tidy(second.rest).lower() not in units.pair.small:
        return None
    if not first.is_whole or second.value >= units.pair.parts:
        why = f"is not a whole number of {names[0]} with less than {units.pair.parts} {names[1]} after it"
        raise NumeralError(why, _carried(first, second, units.pair) or f"Write it like {units.pair.like}.")
    in_small = first.value * units.pair.parts + second.value
    return in_small * units.factors[units.pair.small[0]]


def _carried(first: Numeral, second: Numeral, pair: Pair) -> str:
    """A question that may be what was meant by 15'-14": 16 ft 2 in. "" where that is no likely slip."""
    if not first.is_whole or not second.value < 10 * pair.parts:
        return ""
    more, left = divmod(second.value, pair.parts)
    whole, part = divmod(left, 1)
    small = "-".join(str(one) for one in (int(whole), part) if one) or "0"
    return f"Did you mean {int(first.value + more)} {pair.names[0]} {small} {pair.names[1]}?"
