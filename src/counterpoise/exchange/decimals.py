"""Points and commas in the figures of a sheet: which of the two sets off decimals is one thing for the whole sheet.

`250,5` and `12.5` say it by themselves; `1.000` may be one or a thousand, and is read as the others say. Where they say
nothing or contradict each other, what would be a thousandth of a pound or of a millimetre is not taken for one.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from enum import Enum

_FIGURE = re.compile(r"(?<![\w.,])\d+(?:[.,]\d+)+(?![\d.,])")
_COARSE = re.compile(r"\s*(?:m\b|met(?:re|er)s?\b|'|ft\b|feet\b|foot\b|\"|in\b|inch(?:es)?\b|kn\b)", re.IGNORECASE)
_COARSE_UNITS = frozenset({"m", "ft", "in", "ft-in", "kN", ""})  # "" waits for an answer anyway
_SWAPPED = str.maketrans(".,", ",.")
_GROUPED = re.compile(r"[1-9]\d{0,2}(?:[.,]\d{3})+\Z")


class Decimal(Enum):
    """What sets off decimals on a sheet."""

    POINT = "point"
    COMMA = "comma"
    BOTH = "both"  # cells contradict each other
    NOT_SAID = "not said"
    NUMBER = "number"  # of a cell that the spreadsheet itself holds as a number: its point is one


def decimal_of(texts: Iterable[str]) -> Decimal:
    """What the cells that say it by themselves say."""
    marks = {mark for text in texts for found in _FIGURE.finditer(text) if (mark := _says(found[0]))}
    if len(marks) == 2:
        return Decimal.BOTH
    return {".": Decimal.POINT, ",": Decimal.COMMA}[marks.pop()] if marks else Decimal.NOT_SAID


def with_points(text: str, decimal: Decimal, unit: str) -> tuple[str, str]:
    """The text with decimal points and no thousands, or "" with what may be meant of a figure that may be two.

    Args:
        text: of a cell.
        decimal: what the sheet says.
        unit: of the column, "" where nobody stated one.
    """
    if decimal is Decimal.NUMBER:
        return text, ""
    doubt = ""

    def plain(found: re.Match[str]) -> str:
        nonlocal doubt
        figure, rest = found[0], text[found.end() :]
        mark = _says(figure)
        if mark:
            return figure.translate(_SWAPPED) if mark == "," and _is_sound(figure) else figure
        if not _GROUPED.match(figure):
            return figure
        own = figure[-4]
        is_coarse = bool(_COARSE.match(rest)) or (not re.search("[A-Za-z#]", rest) and unit in _COARSE_UNITS)
        as_decimal = _as_decimal(own, decimal)
        if as_decimal is None or (as_decimal and not is_coarse):
            tail = rest.strip() or unit
            doubt = doubt or f"{figure[:-4]}{figure[-3:]} {tail} or {float(figure.replace(own, '.')):g} {tail}"
        return figure.replace(own, "." if as_decimal else ",")

    said = _FIGURE.sub(plain, text)
    return ("", doubt) if doubt else (said, "")


def _as_decimal(mark: str, decimal: Decimal) -> bool | None:
    """Whether a mark before three digits is read as one of decimals; None where it may be either."""
    match decimal:
        case Decimal.BOTH:
            return None
        case Decimal.NOT_SAID:
            return mark == "."
        case _:
            return mark == {"point": ".", "comma": ","}[decimal.value]


def _says(figure: str) -> str:
    """The mark that sets off decimals in a figure which leaves no doubt, "" in one that may be a thousand or more."""
    marks: list[str] = re.findall("[.,]", figure)
    if len(set(marks)) == 2:
        return marks[-1]
    if len(marks) > 1:
        return "," if marks[0] == "." else "."
    mark = marks[0]
    before, _, after = figure.partition(mark)
    if len(after) == 3 and before != "0" and len(before) <= 3:
        return ""
    return mark if mark == "." or len(after) <= 3 else ""


def _is_sound(figure: str) -> bool:
    """True where points in front of a decimal comma set off threes."""
    whole = figure.rpartition(",")[0] or figure
    return "," not in whole and ("." not in whole or _GROUPED.match(whole) is not None)
