"""What each other set puts on a beam that several share: the engine's own pulls, by name."""

from __future__ import annotations

from counterpoise.checks import Check, HouseResult, SetResult
from counterpoise.loadpath import SteelPulls, steel_pulls

LOFT_BEAM = "loft beam"


def shares_of_others(result: HouseResult, one: SetResult, row: Check) -> list[tuple[str, float]]:
    """(set, what it puts on this steel [N]) of the others in the bay, the heaviest first.

    Not named, and so left in what remains to the total: a set whose pulls are not known, one that carries pieces
    together with others, and on a loft beam one with another count of lines, which stand at places of their own.
    """
    bay = result.house.bay_of(one.label)
    found: list[tuple[str, float]] = []
    for label in bay.sets if bay is not None else ():
        other = result.set_called(label)
        if label == one.label or other is None or other.batten is None or other.forces is None or other.batten.twins:
            continue
        part = _part(steel_pulls(other.batten, other.forces, bay), row, bay is not None and bay.dead_ends is None)
        if part is not None:
            found.append((label, part))
    return sorted(found, key=lambda each: -each[1])


def _part(pulls: SteelPulls, row: Check, with_dead_ends: bool) -> float | None:
    if row.link == LOFT_BEAM:
        alike = row.line is not None and len(pulls.loft) == len(row.coefficients)
        return pulls.loft[(row.line or 1) - 1].best if alike else None
    if row.link == "head beam":
        return pulls.head.best + (pulls.dead_ends.best if with_dead_ends else 0.0)
    return {"head beam sideways": pulls.sideways.best, "dead ends": pulls.dead_ends.best}.get(row.link)
