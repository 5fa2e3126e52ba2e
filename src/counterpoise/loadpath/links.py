"""The links of one set from its trim chains to the steel: what each carries as a sum over the line forces."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from counterpoise.balance import Span
from counterpoise.documents import DEAD_HUNG, HEMP, Bay
from counterpoise.loadpath.forces import NOTHING, Forces
from counterpoise.rigging import RiggedBatten
from counterpoise.units import STANDARD_GRAVITY as GRAVITY

SAME_BEAM = 0.3  # [m]; lines nearer than this to each other, seen from the middle of their battens, share a beam
RIGHT_ANGLE = 2.0 * math.sin(math.pi / 4.0)  # resultant per pull of a line turned by 90 degrees


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """What a link carries: Σ coefficients·T + constant [N]. `line` counts from 1, None where it serves the whole set.

    `formula` is a heading of docs/theory/load-path.md.
    """

    name: str
    line: int | None
    coefficients: tuple[float, ...]
    constant: Span
    formula: str
    certain: float = 1.0  # share of it that is so in any case, where what a rating is of is not known
    lacks: str = ""  # why no figure can be had, where a neighbour on the same steel is unknown


@dataclass(frozen=True, slots=True, kw_only=True)
class SteelPulls:
    """What one set puts on shared steel, its own lift lines included: on each loft beam, and on the head beam [N].

    `places` are those of its lines from the middle of its batten [m].
    """

    places: tuple[float, ...]
    loft: tuple[Span, ...]
    head: Span


def steel_pulls(rigged: RiggedBatten, forces: Forces, bay: Bay | None = None) -> SteelPulls:
    """The pulls of one set on the steel it shares, vertical; without its lift lines where the allowance is net of them.

    A dead-hung set pulls on no head beam.
    """
    count, own = len(rigged.lines), _own(rigged) if counts_lines(bay) else 0.0
    middle = rigged.beam.length / 2
    ends = _times(float(rigged.purchase), Span(count * own, count * own, count * own))
    return SteelPulls(
        places=tuple(line.x - middle for line in rigged.lines),
        loft=tuple(_sum(one, Span(own, own, own)) for one in forces.tensions),
        head=NOTHING if rigged.written.rigged == DEAD_HUNG else forces.span((float(rigged.purchase),) * count, ends),
    )


def counts_lines(bay: Bay | None) -> bool:
    """True unless the allowances of the steel are written to be net of the weight of the lift lines."""
    return bay is None or bay.lift_lines == "counted"


def _own(rigged: RiggedBatten) -> float:
    """Weight of one lift line below its loft block where that is largest, at low trim [N]."""
    return GRAVITY * rigged.line_mass * (rigged.loft - rigged.low)


def links_of(rigged: RiggedBatten, bay: Bay | None, neighbours: Mapping[str, SteelPulls | None]) -> list[Link]:
    """Every link from the batten up, in order; `neighbours` are the other sets of the bay, None where not known.

    The lift line and its blocks carry the batten's pull and the line's own weight below the loft block, largest at
    low trim. Loft blocks turn the line by a right angle, and so load their beam by the same vertical force. The head
    beam carries the same again where a double purchase has its dead ends, which are taken to be made to it.
    """
    count = len(rigged.lines)
    own = _own(rigged)
    below = Span(own, own, own)
    links: list[Link] = []
    for i in range(count):
        one = tuple(float(i == j) for j in range(count))
        links += [_at(i, name, one, NOTHING, "pull") for name in ("clamp", "trim chain", "shackle", "turnbuckle")]
        links.append(_at(i, "lift line", one, below, "pull"))
        if rigged.written.rigged != DEAD_HUNG:  # whose lines are made to the steel
            links.append(_block(rigged, i, one, below))
        if rigged.written.rigged == HEMP:
            links.append(_at(i, "pin", one, below, "pin"))
        if bay is not None:
            links.append(_loft_beam(rigged, i, one, below if counts_lines(bay) else NOTHING, neighbours))
    every = (1.0,) * count
    all_own = Span(count * own, count * own, count * own)
    if rigged.written.rigged != DEAD_HUNG:
        links.append(_turning("head block", None, rigged.written.head_block.rating_of, every, all_own))
    if bay is not None and rigged.written.rigged != DEAD_HUNG:
        links.append(_head_beam(rigged, all_own if counts_lines(bay) else NOTHING, neighbours))
    return links


def _at(i: int, name: str, coefficients: tuple[float, ...], constant: Span, formula: str) -> Link:
    return Link(name=name, line=i + 1, coefficients=coefficients, constant=constant, formula=formula)


def _block(rigged: RiggedBatten, i: int, one: tuple[float, ...], below: Span) -> Link:
    block = rigged.written.lines.at[i].loft_block or rigged.written.loft_block
    return _turning("loft block", i + 1, block.rating_of, one, below)


def _turning(name: str, line: int | None, rating_of: str, pulls: tuple[float, ...], own: Span) -> Link:
    """A block that turns its line by a right angle; where its rating is of is not known, both are looked at."""
    turned = 1.0 if rating_of == "line pull" else RIGHT_ANGLE
    return Link(name=name, line=line, coefficients=tuple(turned * c for c in pulls), constant=_times(turned, own),
                formula="block", certain=1.0 / turned if rating_of == "unknown" else 1.0)  # fmt: skip


def _loft_beam(
    rigged: RiggedBatten, i: int, one: tuple[float, ...], below: Span, neighbours: Mapping[str, SteelPulls | None]
) -> Link:
    """One loft beam: this set's part moves with its line forces, its neighbours' parts are a constant."""
    lacks = _not_known(neighbours)
    total = below
    places = tuple(line.x - rigged.beam.length / 2 for line in rigged.lines)
    for label, pulls in neighbours.items():
        if pulls is None:
            continue
        beams = _beams(places, pulls.places)
        if beams is None:
            lacks = lacks or f"which beams carry the lines of set {label} is not known: they stand at other places"
            continue
        total = _sum(total, *(pull for beam, pull in zip(beams, pulls.loft, strict=True) if beam == i))
    return Link(name="loft beam", line=i + 1, coefficients=one, constant=total, formula="shared steel", lacks=lacks)


def _beams(own: tuple[float, ...], other: tuple[float, ...]) -> list[int] | None:
    """For each line of another set, which line of this set stands on the same beam; None where that can not be told.

    Sets of as many lines stand on the beams in order. Else each line must stand where one of this set does.
    """
    if len(own) == len(other):
        return list(range(len(own)))
    found = []
    for x in other:
        near = min(range(len(own)), key=lambda i: abs(own[i] - x))
        if abs(own[near] - x) > SAME_BEAM:
            return None
        found.append(near)
    return found


def _head_beam(rigged: RiggedBatten, all_own: Span, neighbours: Mapping[str, SteelPulls | None]) -> Link:
    ends = float(rigged.purchase)
    total = _sum(_times(ends, all_own), *(pulls.head for pulls in neighbours.values() if pulls is not None))
    return Link(name="head beam", line=None, coefficients=(ends,) * len(rigged.lines), constant=total,
                formula="shared steel", lacks=_not_known(neighbours))  # fmt: skip


def _not_known(neighbours: Mapping[str, SteelPulls | None]) -> str:
    lacking = [label for label, pulls in neighbours.items() if pulls is None]
    return f"set {', '.join(lacking)} on the same steel is not known" if lacking else ""


def _sum(*spans: Span) -> Span:
    return Span(sum(one.low for one in spans), sum(one.best for one in spans), sum(one.high for one in spans))


def _times(factor: float, span: Span) -> Span:
    return Span(factor * span.low, factor * span.best, factor * span.high)
