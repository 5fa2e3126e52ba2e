"""Words the drawings and the pages share: the four a set can bear, and what the rail feels."""

from __future__ import annotations

from counterpoise.checks import SetResult
from counterpoise.units import Style, signed_force

SAID = {"within": "", "over": "over", "unknown": "unknown", "out": "out"}


def status_of(one: SetResult) -> str:
    """within, over, unknown or out (of service)."""
    return "out" if one.out_of_service else one.verdict.value


def felt(delta: float, style: Style) -> str:
    """What is felt at the batten, from Δ [N]: "12 lb arbor-heavy here"; the word is its sign."""
    said = signed_force(delta, style).lstrip("+−-")
    if said.startswith("0"):
        return "in balance here"
    return f"{said} {'arbor' if delta > 0 else 'batten'}-heavy here"
