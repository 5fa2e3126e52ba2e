"""What each other set puts on a beam that several share: the engine's own pulls, by name."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from counterpoise.balance import Span
from counterpoise.checks.rows import Check
from counterpoise.documents import Bay
from counterpoise.loadpath import SteelPulls, are_pulls_known, beams_of, places_of, steel_pulls, whole_pulls
from counterpoise.rigging import RiggedBatten

if TYPE_CHECKING:
    from counterpoise.checks.result import HouseResult, SetResult

_Part = Callable[[SteelPulls], Span | None]


def shares_of_others(result: HouseResult, one: SetResult, row: Check) -> list[tuple[str, float]]:
    """(what, what it puts on this steel [N]) of the other sets in the bay, the heaviest first.

    Of sets that carry pieces together each is named with what it carries without them, and the pieces once. A set whose
    pulls are not known has no share here.
    """
    bay = result.house.bay_of(one.label)
    if bay is None or one.batten is None:
        return []
    part = _part_of(row, one.batten, bay.dead_ends is None)
    found: list[tuple[str, float]] = []
    together: dict[frozenset[str], float] = {}
    for label in bay.sets:
        pulls = None if label == one.label else _pulls_of(result, label, bay)
        if pulls is None:
            continue
        whole, bare = part(pulls), part(pulls.relieved) if pulls.relieved is not None else None
        if whole is None:
            continue
        found.append((f"set {label}, its ropes with it", (bare or whole).best))
        if bare is not None and one.label not in pulls.twins:
            pair = frozenset({label, *pulls.twins})
            together[pair] = max(together.get(pair, 0.0), whole.best - bare.best)
    found += [(f"what sets {' and '.join(sorted(pair))} carry together", much) for pair, much in together.items()]
    return sorted((each for each in found if each[1]), key=lambda each: -each[1])


def _pulls_of(result: HouseResult, label: str, bay: Bay) -> SteelPulls | None:
    """What a set puts on the steel, None where that is not known; of some only under all of their lines."""
    other = result.set_called(label)
    if other is None or other.batten is None or other.forces is None:
        whole = next((each for each in result.house.wholes if each.label == label), None)
        return None if whole is None else whole_pulls(whole, bay)
    is_known = are_pulls_known(other.batten, other.forces)
    return steel_pulls(other.batten, other.forces, bay) if is_known else None


def pulls_on(batten: RiggedBatten, bay: Bay, pulls: Mapping[str, SteelPulls], row: Check) -> list[tuple[str, float]]:
    """Each other set of the bay whose pulls are known, and what it puts on the steel of a row [N], most first."""
    part = _part_of(row, batten, bay.dead_ends is None)
    found = [(label, part(pulls[label])) for label in bay.sets if label != row.label and label in pulls]
    known = [(label, span.best) for label, span in found if span is not None and span.best > 0.0]
    return sorted(known, key=lambda each: -each[1])


def _part_of(row: Check, batten: RiggedBatten, with_dead_ends: bool) -> _Part:
    """What of a set's pulls is on the steel of a row; None where that set has no part there."""
    if row.link == "loft beam":
        return lambda pulls: _on_beam(pulls, pulls.loft, batten, (row.line or 1) - 1)
    if row.link == "loft beam sideways":
        return lambda pulls: _on_beam(pulls, pulls.loft_sideways, batten, (row.line or 1) - 1)
    if row.link == "head beam" and with_dead_ends:
        return lambda pulls: _sum(pulls.head, pulls.dead_ends)
    name = {"head beam": "head", "head beam sideways": "sideways", "dead ends": "dead_ends"}.get(row.link, "")
    return lambda pulls: getattr(pulls, name, None)


def _on_beam(pulls: SteelPulls, loft: tuple[Span, ...], batten: RiggedBatten, beam: int) -> Span | None:
    found = beams_of(places_of(batten), pulls.places)
    return None if found is None else \
        _sum(*(pull for at, pull in zip(found, loft, strict=True) if at == beam))  # fmt: skip


def _sum(*spans: Span) -> Span:
    return Span(sum(one.low for one in spans), sum(one.best for one in spans), sum(one.high for one in spans))
