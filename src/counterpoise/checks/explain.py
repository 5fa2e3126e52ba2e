"""How a figure came about: its formula, its inputs with their words and sources, and how well the worst is known."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from counterpoise.checks.result import HouseResult
from counterpoise.checks.rows import Check, Input
from counterpoise.documents import How
from counterpoise.units import Style

# formula: what it says, and where docs/theory derives it
FORMULAS: Mapping[str, tuple[str, str]] = {
    "pull": ("T, the pull of the elastic batten on this pull-only line, plus the line's own weight for the rope",
             "docs/theory/batten.md"),
    "block": ("T on a block rated by line pull; √2 T where the rating is of the resultant of a right angle",
              "docs/theory/load-path.md"),
    "sheave": ("T and the line's own weight, against breaking strength × bending efficiency / design factor",
               "docs/theory/load-path.md"),
    "shaft and base": ("the resultant on the block, of both legs of its lines", "docs/theory/load-path.md"),
    "dead ends": ("what the lines of double-purchase sets pull once more, on the steel of their dead ends",
                  "docs/theory/load-path.md"),
    "fleet angle": ("the angle out of the plane of a sheave, from where the blocks stand across",
                    "docs/theory/load-path.md"),
    "overhang": ("the drop of a tip below its outer line, against the rule of sag for twice the overhang",
                 "docs/theory/batten.md"),
    "fire curtain": ("how far the thickness of a piece reaches into the path", "docs/theory/load-path.md"),
    "roll": ("tan θ = Σ W e / Σ W d about the pipe", "docs/theory/load-path.md"),
    "bridge floor": ("bricks stored and people, against length × width × posting", "docs/theory/load-path.md"),
    "shared steel": ("the pull of every set in the bay, down or sideways; a double purchase pulls down twice",
                     "docs/theory/load-path.md"),
    "bending": ("σ = M / S, M the largest moment, S the modulus of the design wall; |N| / A more where lines lean",
                "docs/theory/batten.md"),
    "ladder": ("the largest |N| / A + |M| / S of any chord or spacer of a rigid-jointed frame without diagonals",
               "docs/theory/ladder.md"),
    "truss": ("the largest moment and shear of one beam, against what its maker allows the section",
              "docs/theory/ladder.md"),
    "truss table": ("the largest moment and shear of one beam, against w l²/8, P l/4, P l/3 of its maker's loads",
                    "docs/theory/ladder.md"),
    "sag": ("the largest drop below the chord between carrying lines, E I with the nominal wall",
            "docs/theory/batten.md"),
    "arbor": ("arbor + bricks + plates", "docs/theory/balance.md"),
    "guides": ("P = (W e + r |Δ| e_h) / a on each shoe, e and e_h aside of the lift lines, a between the shoes",
               "docs/theory/balance.md"),
    "stack": ("Σ brick thickness + plates, one on top and one for each full gap", "docs/theory/balance.md"),
    "lock": ("the largest |Δ| over the flying range, Δ = A/r − B, times hand line per batten travel",
             "docs/theory/balance.md"),
    "tension block": ("twice the batten-heavy pull on the lock", "docs/theory/balance.md"),
    "splice": ("σ = M / S at the splice, against the share of the strength left there; where lines lean |N| / A more",
               "docs/theory/batten.md"),
    "posted": ("all that is hung, or batten and all, against the capacity posted", "docs/theory/load-path.md"),
    "clamp size": ("the pipe's outside diameter against what the clamps go on", "docs/theory/load-path.md"),
    "clamp": ("the largest share of a piece that hangs on one of its picks", "docs/theory/load-path.md"),
    "hand line": ("the pull on the lock, which is that in the hand line", "docs/theory/balance.md"),
    "pin": ("T and the line's own weight: each line of a hemp set is tied off alone", "docs/theory/load-path.md"),
    "bags": ("bags against the least that hangs with its ropes, n w (rail − h), else it could not be pulled in",
             "docs/theory/balance.md"),
    "crew": ("all that hangs and its ropes, n w (rail − h), less the bags", "docs/theory/balance.md"),
    "condition": ("what was found on a part of which nothing is computed", "docs/limits.md"),
    "stop": ("r |Δ| where the arbor stands on its stop", "docs/theory/balance.md"),
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Derivation:
    """The story of one figure."""

    key: str
    place: str
    value: str
    limit: str
    verdict: str
    formula: str
    theory: str
    how: How
    inputs: tuple[Input, ...]


def explain(result: HouseResult, key: str) -> Derivation | None:
    """The derivation of the row with this key, None where there is no such row."""
    rows = (row for one in result.sets for row in one.rows)
    row = next((row for row in (*rows, *result.bridges) if row.key == key), None)
    return None if row is None else derivation(row, Style(result.house.house.units))  # type: ignore[arg-type]


def derivation(row: Check, style: Style) -> Derivation:
    """The story of one row."""
    value, bound = row.printed(style)
    formula, theory = FORMULAS[row.formula]
    return Derivation(
        key=row.key, place=row.of, value=value, limit=bound, verdict=row.verdict.value,
        formula=formula, theory=theory, how=row.how, inputs=row.inputs,
    )  # fmt: skip
