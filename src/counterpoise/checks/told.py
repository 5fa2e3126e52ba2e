"""Figures of rows in words, as every face tells them."""

from __future__ import annotations

from counterpoise.checks.rows import Check, Verdict
from counterpoise.units import Style

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
