"""Which rows a set's picture shows: the weakest link of each line, and the chain of one line from batten to steel."""

from __future__ import annotations

from dataclasses import dataclass

from counterpoise.balance import Span
from counterpoise.checks import Check, SetResult, Verdict
from counterpoise.checks.working_parts import rating_of
from counterpoise.units import Style, force, pair

ON_THE_LINE = ("trim chain", "shackle", "turnbuckle", "lift line", "sheave", "loft block")


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


@dataclass(frozen=True, slots=True)
class OnLine:
    """What one line pulls at its weakest link [N], and the most it may there; None where that is not known.

    Of a block that is rated by its resultant both are told as pulls in the line, so that all lines compare and add up.
    """

    row: Check
    pull: Span
    most: float | None
    is_slack: bool


def on_line(one: SetResult, line: int) -> OnLine | None:
    """The pull of a line (from 1) and its weakest link; None where the set has no such row."""
    row = weakest(one, line)
    if row is None or one.forces is None:
        return None
    turned = row.coefficients[line - 1]
    own = row.constant / turned  # the rope below the loft block, where the link carries that too
    span = one.forces.tensions[line - 1]
    most = None if row.limit is None else row.limit / turned
    slack = line - 1 not in one.forces.best.carrying
    return OnLine(row, Span(span.low + own, span.best + own, span.high + own), most, slack)


def printed_pull(found: OnLine, style: Style) -> tuple[str, str]:
    """The pull, and the most it may be, as they stand beside each other."""
    value = found.pull.best if found.row.verdict is Verdict.OVER else found.pull.high
    if found.most is None:
        return force(value, style), "not known"
    said, bound = pair(value, found.most, style)
    return said + unit_of(style), bound


def bears_resultant(one: SetResult, row: Check) -> bool:
    """True where the figure of a block's row is the resultant on it, not the pull in its line."""
    return rating_of(one, row) == "resultant"


def without_figure(one: SetResult, line: int) -> Check | None:
    """A link of this line whose limit nobody knows."""
    return next((row for row in one.rows if row.line == line and row.limit is None), None)


def told_line(one: SetResult) -> int:
    """The line whose chain is drawn: the one whose own links are nearest their limit."""
    count = len(one.batten.lines) if one.batten else 0
    rows = [row for line in range(1, count + 1) if (row := weakest(one, line)) is not None]
    worst = max(rows, key=lambda row: row.use if row.limit is not None else row.value.high, default=None)
    return worst.line if worst is not None and worst.line is not None else 1


def chain_of(one: SetResult, line: int) -> list[Check]:
    """The links of a line from the batten to the steel, then what all lines share."""
    own = [row for row in one.rows if row.line == line]
    shared = [row for row in one.rows if row.line is None and row.link in ("loft beam", "head block", "head beam")]
    return own + shared


def of_text(row: Check, style: Style) -> str:
    """As in "309 of 250 lb", "up to 73 of 50 lb", "752 or more" or "no figure: ask" where not all is known."""
    if row.limit is None:
        return "no figure: ask"
    if row.link == "fire curtain" and row.verdict is Verdict.WITHIN:
        return "clear of it"  # nothing reaches into its path, and nothing may: no share of a limit
    value, bound = row.printed(style)
    if row.lacks:
        return f"{value} or more" if row.value.high > 0.0 else "not known"  # nothing known of it is no figure
    return f"{'up to ' if row.verdict is Verdict.UNKNOWN else ''}{value} of {bound}"


def unit_of(style: Style) -> str:
    """The unit of a force as printed, with its space."""
    return " lb" if style.system == "us" else " kg"
