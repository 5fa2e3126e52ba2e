"""The links of one set from its trim chains to the steel: what each carries as a sum over the line forces."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from counterpoise.balance import Span
from counterpoise.documents import DEAD_HUNG, HEMP, Bay, Mule
from counterpoise.loadpath.forces import NOTHING, Forces
from counterpoise.rigging import RiggedBatten
from counterpoise.units import STANDARD_GRAVITY as GRAVITY

SAME_BEAM = 0.3  # [m]; lines nearer than this to each other, seen from the middle of their battens, share a beam
OTHER_BEAM = 1.0  # [m]; and lines farther apart than this do not; between the two it is not known
RIGHT_ANGLE = 2.0 * math.sin(math.pi / 4.0)  # resultant per pull of a line turned by 90 degrees
UPRIGHT = (1.0, RIGHT_ANGLE)  # a line straight below its block: its pull, and the resultant there


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
    number: int = 0  # of several such links of one line, from 1; 0 where there is one
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
    sideways: Span  # on the head beam, toward the stage


def steel_pulls(rigged: RiggedBatten, forces: Forces, bay: Bay | None = None) -> SteelPulls:
    """The pulls of one set on the steel it shares; without its lift lines where the allowance is net of them.

    Its lines come to the head block level and leave it down: what they pull down they pull toward the stage as well;
    the dead ends of a double purchase only pull down. A dead-hung set pulls on no head beam.
    """
    own = _own(rigged) if counts_lines(bay) else 0.0
    middle = rigged.beam.length / 2
    every = tuple(lean for lean, _ in _leans(rigged))
    level = forces.span(every, _times(sum(every), Span(own, own, own)))
    dead = rigged.written.rigged == DEAD_HUNG
    return SteelPulls(
        places=tuple(line.x - middle for line in rigged.lines),
        loft=tuple(_sum(one, Span(own, own, own)) for one in forces.tensions),
        head=NOTHING if dead else _times(float(rigged.purchase), level),
        sideways=NOTHING if dead else level,
    )


def counts_lines(bay: Bay | None) -> bool:
    """True unless the allowances of the steel are written to be net of the weight of the lift lines."""
    return bay is None or bay.lift_lines == "counted"


def _leans(rigged: RiggedBatten) -> tuple[tuple[float, float], ...]:
    return rigged.leans or (UPRIGHT,) * len(rigged.lines)


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
    leans = _leans(rigged)
    links: list[Link] = []
    for i in range(count):
        one = tuple(float(i == j) for j in range(count))
        lean, on_block = leans[i]
        pull, hung = tuple(lean * c for c in one), _times(lean, below)
        links += [_at(i, name, pull, NOTHING, "pull") for name in ("clamp", "trim chain", "shackle", "turnbuckle")]
        links.append(_at(i, "lift line", pull, hung, "pull"))
        if rigged.written.rigged != DEAD_HUNG:  # whose lines are made to the steel
            line = rigged.written.lines.at[i]
            block = line.loft_block or rigged.written.loft_block
            links.append(_turning("loft block", i + 1, block.rating_of, pull, hung, on_block / lean))
            links += [_turning("mule block", i + 1, mule.rating_of, pull, hung, _turned(mule), number)
                      for number, mule in enumerate(line.mule_blocks, start=1)]  # fmt: skip
        if rigged.written.rigged == HEMP:
            links.append(_at(i, "pin", pull, hung, "pin"))
        if bay is not None:
            links.append(_loft_beam(rigged, i, one, below if counts_lines(bay) else NOTHING, neighbours))
    every = tuple(lean for lean, _ in leans)
    all_own = _times(sum(every), below)
    if rigged.written.rigged != DEAD_HUNG:
        links.append(_turning("head block", None, rigged.written.head_block.rating_of, every, all_own))
    if bay is not None and rigged.written.rigged != DEAD_HUNG:
        on_steel = all_own if counts_lines(bay) else NOTHING
        links.append(_head_beam("head beam", rigged, rigged.purchase, on_steel, neighbours))
        if bay.head_beam_sideways is not None:
            links.append(_head_beam("head beam sideways", rigged, 1, on_steel, neighbours))
    return links


def _at(i: int, name: str, coefficients: tuple[float, ...], constant: Span, formula: str) -> Link:
    return Link(name=name, line=i + 1, coefficients=coefficients, constant=constant, formula=formula)


def _turned(mule: Mule) -> float | None:
    """Resultant on a mule block per pull of its line, 2 sin(turn / 2); None where the turn is not known."""
    return None if mule.turn.best is None else 2.0 * math.sin(min(mule.turn.best, math.pi) / 2.0)


def _turning(
    name: str, line: int | None, rating_of: str, pulls: tuple[float, ...], own: Span,
    turned: float | None = RIGHT_ANGLE, number: int = 0,
) -> Link:  # fmt: skip
    """A block that turns its line; where it is not known what its rating is of, both are looked at."""
    lacks = "" if turned is not None or rating_of == "line pull" else "how far it turns its line is not known"
    resultant = turned if turned is not None else 2.0  # doubled back: no turn brings more
    looked_at = {"line pull": (1.0,), "resultant": (resultant,)}.get(rating_of, (1.0, resultant))
    most = max(looked_at)
    return Link(name=name, line=line, coefficients=tuple(most * c for c in pulls), constant=_times(most, own),
                formula="block", number=number, certain=0.0 if lacks else min(looked_at) / most,
                lacks=lacks)  # fmt: skip


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


def _beams(own: tuple[float, ...], other: tuple[float, ...]) -> list[int | None] | None:
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


def _head_beam(
    name: str, rigged: RiggedBatten, times: int, all_own: Span, neighbours: Mapping[str, SteelPulls | None]
) -> Link:
    """The head beam, down with the dead ends of a double purchase (`times` 2), or toward the stage."""
    others = [pulls for pulls in neighbours.values() if pulls is not None]
    total = _sum(_times(float(times), all_own),
                 *(one.sideways if name.endswith("sideways") else one.head for one in others))  # fmt: skip
    return Link(name=name, line=None, coefficients=tuple(times * lean for lean, _ in _leans(rigged)), constant=total,
                formula="shared steel", lacks=_not_known(neighbours))  # fmt: skip


def _not_known(neighbours: Mapping[str, SteelPulls | None]) -> str:
    lacking = [label for label, pulls in neighbours.items() if pulls is None]
    return f"set {', '.join(lacking)} on the same steel is not known" if lacking else ""


def _sum(*spans: Span) -> Span:
    return Span(sum(one.low for one in spans), sum(one.best for one in spans), sum(one.high for one in spans))


def _times(factor: float, span: Span) -> Span:
    return Span(factor * span.low, factor * span.best, factor * span.high)
