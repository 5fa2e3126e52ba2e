"""The tour: in a dozen lines, what is found in the demo and what would be said on the night."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from counterpoise.cli.say import verdict_line
from counterpoise.planning import Plan, load_in

if TYPE_CHECKING:
    from counterpoise.checks import HouseResult

LINES = 11  # one more says where it is served: a dozen in all


def toured(result: HouseResult, directory: Path) -> str:
    """At most `LINES` lines: the surprise, the findings, and the load-in of one set, shortened where it must be."""
    from counterpoise.checks import surprise_of

    surprise = surprise_of(result)
    lines = [surprise.sentence] if surprise else []
    lines.append(verdict_line(result))
    lines += [f"{one.verdict.value}: {one.place}: {one.says} {one.mend}" for one in result.findings[:3]]
    found = _easiest(result)
    if found is not None:
        lines += _said(found[0], found[1], LINES - len(lines), directory)
    return "\n".join(lines[:LINES])


def _easiest(result: HouseResult) -> tuple[str, Plan] | None:
    """The shortest plan among the sets that are within and carry something."""
    plans = [(one.label, load_in(result.house, one.label)) for one in result.sets
             if one.rigged is not None and one.rigged.pieces and one.verdict.value == "within"]  # fmt: skip
    allowed = [each for each in plans if each[1].refusal is None]
    return min(allowed, key=lambda each: len(each[1].lines), default=None)


def _said(label: str, plan: Plan, room: int, directory: Path) -> list[str]:
    head = f"Load-in of set {label}:"
    said = [f"{one.number:3d}. {one.to}: {one.says}" for one in plan.lines]
    if len(said) + 1 > room:
        cut = len(said) - (room - 2)
        where = " ".join(str(directory / name) for name in ("house.yaml", "show.yaml", "hang.yaml"))
        said = [*said[: room - 2], f"     … {cut} more: counterpoise steps {where} {label}"]
    return [head, *said]
