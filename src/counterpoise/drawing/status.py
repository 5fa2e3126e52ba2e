"""The four words a set can bear, and the links that tell the line of a piece of news."""

from __future__ import annotations

from counterpoise.checks import SetResult

SAID = {"within": "", "over": "over", "unknown": "unknown", "out": "out"}


def status_of(one: SetResult) -> str:
    """within, over, unknown or out (of service)."""
    return "out" if one.out_of_service else one.verdict.value
