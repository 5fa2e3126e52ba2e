"""The steel that sets share: what each puts on it, and what its beams carry of one set and of its neighbours."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from counterpoise.balance import Span
from counterpoise.documents import DEAD_HUNG, Bay
from counterpoise.loadpath.forces import NOTHING, Forces, forces_of
from counterpoise.loadpath.link import Link
from counterpoise.rigging import RiggedBatten
from counterpoise.units import STANDARD_GRAVITY as GRAVITY

SAME_BEAM = 0.305  # [m], a foot; blocks no farther apart than this, seen from the middle of their battens, share a beam
OTHER_BEAM = 1.0  # [m]; and lines farther apart than this do not; between the two it is not known


@dataclass(frozen=True, slots=True, kw_only=True)
class SteelPulls:
    """What one set puts on shared steel, its own lift lines included [N].

    `places` are those of its loft blocks from the middle of its batten [m]; `twins` the sets that carry its pieces with
    it, and `relieved` what it puts there where one of those takes them all. Where `is_apart` is False it is not known
    how its lines share, and only what they all put there together is.
    """

    places: tuple[float, ...]
    loft: tuple[Span, ...]
    loft_sideways: tuple[Span, ...]  # on its loft beams, toward the head block
    head: Span  # down, without dead ends
    sideways: Span  # on the head beam, toward the stage
    dead_ends: Span  # of a double purchase, down
    twins: tuple[str, ...] = ()
    relieved: SteelPulls | None = None
    is_apart: bool = True


def steel_pulls(rigged: RiggedBatten, forces: Forces, bay: Bay | None = None) -> SteelPulls:
    """The pulls of one set on the steel it shares; without its lift lines where the allowance is net of them.

    Its lines come to the head block level and leave it down: what they pull down they pull toward the stage as well;
    the dead ends of a double purchase only pull down. A dead-hung set pulls on no head beam; its lines are made to the
    steel and turn over no block, so they pull their beams aside by what they lean. Raises Unproven.
    """
    own = _own(rigged) if counts_lines(bay) else NOTHING
    every = _every(rigged)
    level = NOTHING if _is_dead_hung(rigged) else forces.span(every, _times(sum(every), own))
    relieved = None
    if rigged.twins:
        bare = forces_of(replace(rigged, pieces=(), cables=(), twins=()))
        relieved = steel_pulls(replace(rigged, twins=()), bare, bay) if isinstance(bare, Forces) else None
    return SteelPulls(
        places=places_of(rigged),
        loft=tuple(_sum(one, own) for one in forces.verticals),
        loft_sideways=_loft_sideways(rigged, forces, own), head=level, sideways=level,
        dead_ends=level if rigged.purchase == 2 else NOTHING, twins=rigged.twins, relieved=relieved,
    )  # fmt: skip


def whole_pulls(rigged: RiggedBatten, bay: Bay | None = None) -> SteelPulls | None:
    """What a set puts on the steel under all of its lines together, where it is not known how these share.

    Args:
        rigged: one of the `wholes` of a house: plumb lines, so that they pull together what hangs.
        bay: of the steel.

    Returns:
        Its sums and no loft beams; None where the batten may tip over, or a cable comes taut over the travel.

    Raises Unproven.
    """
    forces = forces_of(rigged)
    if not isinstance(forces, Forces) or not are_pulls_known(rigged, forces):
        return None
    return _summed(steel_pulls(rigged, forces, bay))


def _summed(pulls: SteelPulls) -> SteelPulls:
    relieved = None if pulls.relieved is None else _summed(pulls.relieved)
    return replace(pulls, places=(), loft=(), loft_sideways=(), relieved=relieved, is_apart=False)


def _loft_sideways(rigged: RiggedBatten, forces: Forces, own: Span) -> tuple[Span, ...]:
    found = []
    for i, pull in enumerate(forces.tensions):
        least, most = _level_part(rigged, forces, i)
        whole = _sum(pull, own)
        found.append(Span(least * whole.low, most * whole.best, most * whole.high))
    return tuple(found)


def _level_part(rigged: RiggedBatten, forces: Forces, i: int) -> tuple[float, float]:
    """What a line puts level on its loft block per pull in it, toward the head block, least and most; 1 of a plumb one.

    The resultant R of two equal pulls lies halfway between them, so its part along the one that is level is R2 / 2.
    """
    if _is_dead_hung(rigged):
        return 0.0, forces.aside(i)
    least, most = forces.turns(i) or (math.sqrt(2.0), math.sqrt(2.0))
    return least * least / 2.0, most * most / 2.0


def are_pulls_known(rigged: RiggedBatten, forces: Forces) -> bool:
    """False where a cable comes taut over the travel, or lines lean and the worst that they pull is not proven."""
    return not rigged.taut and not (rigged.runs and forces.unproven)


def counts_lines(bay: Bay | None) -> bool:
    """True unless the allowances of the steel are written to be net of the weight of the lift lines."""
    return bay is None or bay.lift_lines == "counted"


def steel_links(
    rigged: RiggedBatten, bay: Bay, neighbours: Mapping[str, SteelPulls | None], forces: Forces
) -> list[Link]:
    """Each loft beam and the head beam, down and sideways, and the steel of the dead ends where that is another.

    Loft blocks turn the line by a right angle, and so load their beam by the same vertical force. The head beam carries
    that of all lines, and the same again where the dead ends of a double purchase are made to it.
    """
    own = _own(rigged) if counts_lines(bay) else NOTHING
    apart = {label: one if one is not None and one.is_apart else None for label, one in neighbours.items()}
    links = [_loft_beam(rigged, i, own, apart) for i in range(len(rigged.lines))]
    if bay.loft_beam_sideways is not None and (rigged.runs or not _is_dead_hung(rigged)):
        links += [_loft_beam_sideways(rigged, i, own, apart, forces) for i in range(len(rigged.lines))]
    if _is_dead_hung(rigged):
        return links
    both = bay.dead_ends is None
    links.append(_over_all("head beam", rigged, rigged.purchase if both else 1, own, neighbours,
                           lambda one: _sum(one.head, one.dead_ends) if both else one.head))  # fmt: skip
    if bay.head_beam_sideways is not None:
        links.append(_over_all("head beam sideways", rigged, 1, own, neighbours, lambda one: one.sideways))
    if not both and rigged.purchase == 2:
        links.append(_over_all("dead ends", rigged, 1, own, neighbours, lambda one: one.dead_ends))
    return links


def _is_dead_hung(rigged: RiggedBatten) -> bool:
    return rigged.written.rigged == DEAD_HUNG


def places_of(rigged: RiggedBatten) -> tuple[float, ...]:
    """Where its loft blocks stand, from the middle of its batten [m]: on these the beams are."""
    return tuple(x - rigged.beam.length / 2 for x in rigged.blocks or [line.x for line in rigged.lines])


def _every(rigged: RiggedBatten) -> tuple[float, ...]:
    return (1.0,) * len(rigged.lines)


def _own(rigged: RiggedBatten) -> Span:
    """Weight of one lift line below its loft block where that is largest, at low trim [N]."""
    weight = GRAVITY * rigged.line_mass * (rigged.loft - rigged.low)
    return Span(weight, weight, weight)


def _loft_beam(rigged: RiggedBatten, i: int, own: Span, neighbours: Mapping[str, SteelPulls | None]) -> Link:
    """One loft beam: this set's part moves with its line forces, its neighbours' parts are a constant."""
    others, lacks = _on_loft_beam(rigged, i, neighbours, lambda one: one.loft)
    return Link(name="loft beam", line=i + 1, coefficients=tuple(float(i == j) for j in range(len(rigged.lines))),
                constant=_sum(own, others), formula="shared steel", vertical=True,
                lacks=lacks, waits_for=_open(neighbours))  # fmt: skip


def _loft_beam_sideways(
    rigged: RiggedBatten, i: int, own: Span, neighbours: Mapping[str, SteelPulls | None], forces: Forces
) -> Link:
    """The same toward the head block, at most over the travel.

    Sets that are worked from opposite sides of the stage pull against each other: not counted on.
    """
    others, lacks = _on_loft_beam(rigged, i, neighbours, lambda one: one.loft_sideways)
    _, most = _level_part(rigged, forces, i)
    return Link(name="loft beam sideways", line=i + 1, formula="shared steel",
                coefficients=tuple(most * float(i == j) for j in range(len(rigged.lines))),
                constant=_sum(_times(most, own), others), lacks=lacks, waits_for=_open(neighbours))  # fmt: skip


def _on_loft_beam(
    rigged: RiggedBatten, i: int, neighbours: Mapping[str, SteelPulls | None],
    part: Callable[[SteelPulls], tuple[Span, ...]],
) -> tuple[Span, str]:  # fmt: skip
    """What all other sets put on the beam over line i, and why that is not known where it is not."""
    places = places_of(rigged)
    beams = {label: beams_of(places, pulls.places) for label, pulls in neighbours.items() if pulls is not None}
    lost = next((label for label, found in beams.items() if found is None), None)
    lacks = _not_known(neighbours)
    if lost is not None:
        lacks = lacks or f"which beams carry the lines of set {lost} is not known: they stand at other places"

    def on_it(one: SteelPulls) -> Span:
        found = beams_of(places, one.places) or ()
        return _sum(*(pull for beam, pull in zip(found, part(one), strict=False) if beam == i))

    return _from_others(rigged, neighbours, on_it), lacks


def beams_of(own: tuple[float, ...], other: tuple[float, ...]) -> list[int | None] | None:
    """For each line of another set, which line of this set stands on the same beam, None for one on a beam of its own.

    Sets of as many lines stand on the beams in order. Else a line that stands where one of this set does is on its
    beam, and one that is a metre or more from all of them on another. None for all where that can not be told.
    """
    if len(own) == len(other):
        return list(range(len(own)))
    found: list[int | None] = []
    for x in other:
        near = min(range(len(own)), key=lambda i: abs(own[i] - x))
        apart = abs(own[near] - x)
        if SAME_BEAM < apart < OTHER_BEAM:
            return None
        found.append(near if apart <= SAME_BEAM else None)
    return found


def _over_all(
    name: str, rigged: RiggedBatten, times: int, own: Span, neighbours: Mapping[str, SteelPulls | None],
    part: Callable[[SteelPulls], Span],
) -> Link:  # fmt: skip
    """A beam that carries all lines of all sets, `times` those of this one."""
    every = _every(rigged)
    total = _sum(_times(times * sum(every), own), _from_others(rigged, neighbours, part))
    return Link(name=name, line=None, coefficients=tuple(times * lean for lean in every), constant=total,
                formula="dead ends" if name == "dead ends" else "shared steel",
                lacks=_not_known(neighbours), waits_for=_open(neighbours))  # fmt: skip


def _from_others(
    rigged: RiggedBatten, neighbours: Mapping[str, SteelPulls | None], part: Callable[[SteelPulls], Span]
) -> Span:
    """What all neighbours put on a beam.

    Of twins just one carries what they share, the one with which that beam carries most; where this set is one of them,
    it is this set, which is judged with all of it.
    """
    total, groups = [], dict[frozenset[str], list[tuple[Span, Span]]]()
    for label, pulls in neighbours.items():
        if pulls is None:
            continue
        if pulls.relieved is None:
            total.append(part(pulls))
        else:
            group = groups.setdefault(frozenset({label, *pulls.twins}), [])
            group.append((part(pulls), part(pulls.relieved)))
    for members, group in groups.items():
        total += [without for _, without in group]
        if rigged.label not in members:
            total.append(Span(*(max(getattr(whole, end) - getattr(without, end) for whole, without in group)
                                for end in ("low", "best", "high"))))  # fmt: skip
    return _sum(*total)


def _open(neighbours: Mapping[str, SteelPulls | None]) -> tuple[str, ...]:
    return tuple(label for label, pulls in neighbours.items() if pulls is None)


def _not_known(neighbours: Mapping[str, SteelPulls | None]) -> str:
    lacking = _open(neighbours)
    many = len(lacking) > 1
    said = f"set{'s' if many else ''} {', '.join(lacking)} on the same steel {'are' if many else 'is'} not known"
    return said if lacking else ""


def _sum(*spans: Span) -> Span:
    return Span(sum(one.low for one in spans), sum(one.best for one in spans), sum(one.high for one in spans))


def _times(factor: float, span: Span) -> Span:
    return Span(factor * span.low, factor * span.best, factor * span.high)
