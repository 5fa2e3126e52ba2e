"""Numbers as people write them: 12.5, 1,000, 3/8, 1-1/2, 1½. ASCII digits only, exact, never a guess.

Refused: leading zeros (010 may be octal or a slip), exponents, a divisor of zero, groups that are not of three, a
decimal comma, a fraction that may be a whole number and a fraction run together (11/2), whole parts over twelve digits.
"""

import re
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Numeral:
    """A number found at the start of a text."""

    value: Fraction
    is_whole: bool  # written as a whole number
    text: str  # as written
    rest: str  # what follows, without the spaces between
    bare: tuple[int, int] | None = None  # over and under of a fraction with a slash and no whole number before it


class NumeralError(ValueError):
    """A number that starts well and cannot be used: `why` and `mend` say it to the reader. Stays in this package."""

    def __init__(self, why: str, mend: str) -> None:
        super().__init__(why)
        self.why, self.mend = why, mend


_VULGAR = {
    "½": Fraction(1, 2), "⅓": Fraction(1, 3), "⅔": Fraction(2, 3), "¼": Fraction(1, 4), "¾": Fraction(3, 4),
    "⅕": Fraction(1, 5), "⅖": Fraction(2, 5), "⅗": Fraction(3, 5), "⅘": Fraction(4, 5), "⅙": Fraction(1, 6),
    "⅚": Fraction(5, 6), "⅛": Fraction(1, 8), "⅜": Fraction(3, 8), "⅝": Fraction(5, 8), "⅞": Fraction(7, 8),
}  # fmt: skip
VULGAR = "".join(_VULGAR)  # the fractions that are one character
_NUMERAL = re.compile(
    r"""(?:
        (?: (?P<whole>[0-9]+) (?:[ ]+|-) )? (?P<over>[0-9]+) [/\u2044] (?P<under>[0-9]+)   # 3/8   1 1/2   1-1/2
      | (?: (?P<before>[0-9]+) [ -]? )? (?P<vulgar>[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])                       # ½   1½   1-½
      | (?P<decimal> (?:[0-9]+(?:,[0-9]+)*)? (?:\.[0-9]+)? )                                # 12   1,000   12.5   .5
    )""",
    re.VERBOSE,
)
_GROUPED = re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]+)?\Z")
_NUMBER_RUNS_ON = re.compile(r"[0-9.,/\u2044½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]")
_LONGEST = 12  # digits before the point: more than any house has pounds, and a slip of a thousand is still seen


def numeral(text: str) -> Numeral | None:
    """The number at the start of a text, or None if the text does not start with one.

    Raises:
        NumeralError: there is a number, and it cannot be taken at its word.
    """
    found = _NUMERAL.match(text)
    if found is None or not found.group():
        return None
    after = text[found.end() :]
    if _NUMBER_RUNS_ON.match(after):
        raise NumeralError("has a number that does not end properly", "Write numbers like 1,000.5 or 12.5 or 1-1/2.")
    bare = None
    if found["decimal"] is not None:
        value, is_whole = _decimal(found["decimal"])
    elif found["vulgar"] is not None:
        value, is_whole = _whole(found["before"]) + _VULGAR[found["vulgar"]], False
    else:
        value, is_whole = _fraction(found["whole"], found["over"], found["under"]), False
        bare = (int(found["over"]), int(found["under"])) if found["whole"] is None else None
    return Numeral(value=value, is_whole=is_whole, text=found.group(), rest=after.lstrip(" "), bare=bare)


def _decimal(text: str) -> tuple[Fraction, bool]:
    whole = text.partition(".")[0]
    if "," in text:
        if not _GROUPED.match(text):
            raise NumeralError(
                "has a comma that does not set off thousands",
                "Write a decimal point, as in 12.5, or groups of three, as in 1,000.",
            )
        text, whole = text.replace(",", ""), whole.replace(",", "")
    _whole(whole)
    return Fraction(text), "." not in text


def _fraction(whole: str | None, over: str, under: str) -> Fraction:
    top, bottom = _whole(over), _whole(under)
    if bottom == 0:
        raise NumeralError("divides by zero", "Write a fraction like 3/8.")
    if whole is None:
        _require_one_meaning(over, bottom)
        return Fraction(top, bottom)
    if top >= bottom:
        raise NumeralError(
            "has a fraction of one or more after a whole number", "Write it like 1-1/2, with the fraction below one."
        )
    return _whole(whole) + Fraction(top, bottom)


def _require_one_meaning(over: str, bottom: int) -> None:
    """Refuse 11/2, which may be eleven halves or 1-1/2 run together."""
    for cut in range(1, len(over)):
        if over[cut] != "0" and int(over[cut:]) < bottom <= int(over):
            raise NumeralError(
                "may be a whole number and a fraction run together",
                f"Write {over[:cut]}-{over[cut:]}/{bottom}, or {int(over) / bottom:g}.",
            )


def _whole(digits: str | None) -> int:
    if not digits:
        return 0
    if len(digits) > _LONGEST:
        raise NumeralError("has a number with too many digits", f"Write at most {_LONGEST} digits before the point.")
    if len(digits) > 1 and digits[0] == "0":
        raise NumeralError("has a number that begins with 0", "Leave out the leading zero.")
    return int(digits)
