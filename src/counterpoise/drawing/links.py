"""Which rows a set's picture shows: the weakest link of each line, and the chain of one line from batten to steel."""

from __future__ import annotations

from counterpoise.checks import Check, SetResult, Verdict
from counterpoise.units import Style, force

ON_THE_LINE = ("trim chain", "shackle", "turnbuckle", "lift line", "loft block")


def weakest(one: SetResult, line: int) -> Check | None:
    """The row of this line (from 1) that is farthest over, else one of unknown limit, else the nearest to its limit.

    Shared steel is left out: it adds what other sets hang there.
    """
    rows = [row for row in one.rows if row.line == line and row.link in ON_THE_LINE]
    unknown = [row for row in rows if row.limit is None]
    over = [row for row in rows if row.verdict is Verdict.OVER]
    if unknown and not over:
        return max(unknown, key=lambda row: row.value.high)
    return max((row for row in rows if row.limit is not None), key=lambda row: row.use, default=None)


def without_figure(one: SetResult, line: int) -> Check | None:
    """A link of this line whose limit nobody knows."""
    return next((row for row in one.rows if row.line == line and row.limit is None), None)


def told_line(one: SetResult) -> int:
    """The line whose chain is drawn: the one whose own links are nearest their limit."""
    count = len(one.rigged.lines) if one.rigged else 0
    rows = [row for line in range(1, count + 1) if (row := weakest(one, line)) is not None]
    worst = max(rows, key=lambda row: row.use if row.limit is not None else row.value.high, default=None)
    return worst.line if worst is not None and worst.line is not None else 1


def chain_of(one: SetResult, line: int) -> list[Check]:
    """The links of a line from the batten to the steel, then what all lines share."""
    own = [row for row in one.rows if row.line == line]
    shared = [row for row in one.rows if row.line is None and row.link in ("loft beam", "head block", "head beam")]
    return own + shared


def of_text(row: Check, style: Style) -> str:
    """As in "309 of 250 lb", "752 or more" or "no figure: ask" where not all is known."""
    if row.limit is None:
        return "no figure: ask"
    value, bound = row.printed(style)
    return f"{value} or more" if row.lacks else f"{value} of {bound}"


def figure(row: Check, style: Style) -> str:
    """What a row carries, with its unit, as it is printed beside its limit."""
    return force(row.value.high, style) if row.limit is None else row.printed(style)[0] + unit_of(style)


def unit_of(style: Style) -> str:
    """The unit of a force as printed, with its space."""
    return " lb" if style.system == "us" else " kg"
