"""One figure with its unit, measured in SI: a number and a unit, or two of each as in 42 ft 6 in and 12 lb 4 oz."""

from fractions import Fraction

from counterpoise.units.kinds import UNITS, Kind, Units, tidy
from counterpoise.units.numerals import Numeral, NumeralError, numeral


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
    if not first.rest:
        return first.value if first.value == 0 or not units.likely else None
    factor = units.factor(first.rest)
    return first.value * factor if factor is not None else _pair(first, units)


def _pair(first: Numeral, units: Units) -> Fraction | None:
    """Feet and inches, or pounds and ounces; None if it is neither."""
    if units.pair is None:
        return None
    folded = first.rest.lower()
    big = next((name for name in units.pair.big if folded.startswith(name)), None)
    if big is None:
        return None
    after = first.rest[len(big) :].removeprefix(".").removeprefix(",").lstrip(" ").removeprefix("-").lstrip(" ")
    second = numeral(after)
    if second is None:
        return None
    names = units.pair.names
    if not second.rest:
        both = f"{first.text} {names[0]} {second.text} {names[1]}"
        raise NumeralError(f"has no unit after {second.text}", f"Write {both}.")
    if tidy(second.rest).lower() not in units.pair.small:
        return None
    if not first.is_whole or second.value >= units.pair.parts:
        why = f"is not a whole number of {names[0]} with less than {units.pair.parts} {names[1]} after it"
        raise NumeralError(why, f"Write it like {units.pair.like}.")
    in_small = first.value * units.pair.parts + second.value
    return in_small * units.factors[units.pair.small[0]]
