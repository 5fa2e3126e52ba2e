"""What is said above the steps of a set of which a check does not know enough: nothing goes on, or a first count."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from counterpoise.checks import Finding, HouseResult, SetResult
    from counterpoise.planning.turns import Turn

HELD = "unknown"  # the word of a result for a set on which nothing is to be put until something is found out
_FIRST = "Unknown, a first count only, then the rail feels"
_HANGS = "Unknown as it hangs, nothing is promised of its strike"
_SAYS = {
    "load-in": "HOLD, unknown: put nothing on. Its steps are as they would be once this is found out",
    "change": "HOLD, unknown: strike it, put nothing on. Its steps are as they would be once this is found out",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Open:
    """Of one turn: "unknown" where nothing is to be put on, else ""; and the line above its steps, "" where none is."""

    hold: str
    says: str


def open_of(turn: Turn, results: Sequence[HouseResult]) -> Open:
    """What a check leaves open of a turn. Of a changeover `results` are of what hangs and of what is to hang."""
    ends = results[0] if turn.what == "strike" else results[-1]
    lines = []
    worst = _unknown_of(turn.set, ends)
    hold = worst.hold if worst is not None and turn.what != "strike" and worst.hold == HELD else ""
    if worst is not None:
        lines.append(f"{_SAYS[turn.what] if hold else _HANGS if turn.what == 'strike' else _FIRST}: {why_open(worst)}")
    now = _unknown_of(turn.set, results[0]) if turn.what == "change" else None
    if now is not None and now.hold == HELD:
        lines.append(f"{_HANGS}: {why_open(now)}")
    return Open(hold=hold, says=" ".join(lines))


def _unknown_of(label: str, result: HouseResult) -> SetResult | None:
    """The set, of several that are worked as one the one to be held, where its check says unknown; else None."""
    from counterpoise.checks import Verdict

    found = [one for one in result.sets if one.verdict is Verdict.UNKNOWN and result.house.label_of(one.label) == label]
    return max(found, key=lambda one: one.hold == HELD, default=None)


def why_open(one: SetResult) -> str:
    """The unknown that holds a set, before one that the rail finds out by feeling: the link, and what is so."""
    from counterpoise.checks import Verdict
    from counterpoise.checks.result import FOUND_BY_FEEL

    link_of = {row.key: row.link for row in one.rows}

    def is_felt(each: Finding) -> bool:
        return link_of.get(each.key) in FOUND_BY_FEEL

    open_ = sorted((each for each in one.findings if each.verdict is Verdict.UNKNOWN), key=is_felt)
    if not open_:
        return "`counterpoise check` says what is lacking."
    place = open_[0].place.removeprefix(f"set {one.label}").removeprefix(", ")
    return f"{place}: {open_[0].says}" if place else open_[0].says
