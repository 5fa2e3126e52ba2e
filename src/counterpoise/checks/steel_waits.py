"""What steel that several sets share waits for: told as one, whichever of its rows and sets it is told of."""

from __future__ import annotations

from dataclasses import dataclass

from counterpoise.checks.rows import Check, where, words_to_write
from counterpoise.rigging import PULLS, Missing, RiggedHouse

NAMED = 3  # figures of a neighbour that are named
OF_STEEL = ("shared steel", "dead ends")


@dataclass(frozen=True, slots=True)
class Waits:
    """A thing that must be found out, and where it is written."""

    what: str
    where: str


def steel_waits(house: RiggedHouse, row: Check) -> list[Waits]:
    """All that must be found out before a row of shared steel can be judged; none for rows of other links."""
    bay = house.bay_of(row.label)
    if row.formula not in OF_STEEL or bay is None:
        return []
    found = []
    names = [one.name for one in row.inputs if one.is_unknown]
    open_ = [said for word, said in (("allowance", "its allowance"), ("whether impact", "whether impact is in it"))
             if any(name.startswith(word) for name in names)]  # fmt: skip
    if open_:
        found.append(Waits(" and ".join(open_), f"bay {bay.bay} under `steel` in the house"))
    for label in row.waits_for:
        lacking = [one for one in house.missing_of(label) if one.waits == PULLS]
        other = house.batten_called(label)
        taut = [f"the cable of {other.taut} is too short"] if other is not None and other.taut and not lacking else []
        lean = ["its lines lean"] if other is not None and other.runs and not lacking else []
        what = ", ".join([*taut, *lean, *list(dict.fromkeys(one.what for one in lacking))[:NAMED]])
        found.append(Waits(f"what set {label} puts on it{f' ({what})' if what else ''}",
                           place_to_write(lacking[0]) if lacking else ""))  # fmt: skip
    return found


def place_to_write(one: Missing) -> str:
    """Where a figure that is missing is written, and in which words."""
    words = words_to_write(one.path)
    return f"{words}, {where(one.path, one.line)}" if words else where(one.path, one.line)


def is_figure(one: Missing) -> bool:
    """False of what no figure settles: how twin sets share what hangs on them."""
    return not one.path.endswith(".twin of")
