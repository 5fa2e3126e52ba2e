"""Figures of rows in words, as every face tells them; and which mend is told first."""

from __future__ import annotations

from collections.abc import Sequence

from counterpoise.checks.finding import Finding
from counterpoise.checks.rows import Check, Verdict
from counterpoise.units import Style

AT_ONCE = "AT-MOST"  # code of the finding that several are over, with what would mend all of them
CAUTION = (
    "Static figures for manual counterweight sets; not for flying people, nor for anyone under the load. This informs "
    "a qualified person. Makers' data, local codes, the house's own rules and, for structure, a licensed engineer come "
    "first."
)


def figure_told(row: Check, style: Style) -> str:
    """A row's figure against its limit: "309 of 250 lb"; of what is not known exactly the worst, called so."""
    value, bound = row.printed(style)
    worst = row.printed_worst(style)
    if row.verdict is Verdict.OVER:
        return f"{value} of {bound}" if worst == value else f"{value} (worst {worst}) of {bound}"
    if row.lacks:
        return "not known"
    if row.limit is None:
        return f"{value}, limit not known"
    return f"{'up to ' if row.verdict is Verdict.UNKNOWN else ''}{value} of {bound}"


def whole_first(findings: Sequence[Finding]) -> list[Finding]:
    """The findings in their order; where several are over on a set, what mends all of it before each by itself."""
    whole = {one.label: one for one in findings if one.code == AT_ONCE}
    found: list[Finding] = []
    for one in findings:
        first = whole.pop(one.label, None) if one.verdict is Verdict.OVER else None
        found += [first] if first is not None else []
        found += [one] if one.code != AT_ONCE else []
    return found
