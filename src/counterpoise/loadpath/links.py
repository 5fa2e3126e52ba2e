"""The links of one set from its trim chains to the steel: what each carries as a sum over the line forces."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from counterpoise.balance import Span
from counterpoise.documents import Bay
from counterpoise.loadpath.forces import Forces
from counterpoise.rigging import RiggedSet
from counterpoise.units import STANDARD_GRAVITY as GRAVITY

NOTHING = Span(0.0, 0.0, 0.0)
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
    lacks: str = ""  # why no figure can be had, where a neighbour on the same steel is unknown


def links_of(rigged: RiggedSet, bay: Bay | None, neighbours: Mapping[str, Forces | None]) -> list[Link]:
    """Every link from the batten up, in order; `neighbours` are the other sets of the bay, None where not known.

    The lift line and its blocks carry the batten's pull and the line's own weight below the loft block, largest at
    low trim. Loft blocks turn the line by a right angle, and so load their beam by the same vertical force.
    """
    count = len(rigged.lines)
    own = GRAVITY * rigged.line_mass * (rigged.loft - rigged.low)
    below = Span(own, own, own)
    links: list[Link] = []
    for i in range(count):
        one = tuple(float(i == j) for j in range(count))
        links += [_at(i, "trim chain", one, NOTHING, "pull"), _at(i, "shackle", one, NOTHING, "pull"),
                  _at(i, "turnbuckle", one, NOTHING, "pull"), _at(i, "lift line", one, below, "pull"),
                  _block(rigged, i, one, below)]  # fmt: skip
        if bay is not None:
            links.append(_beam("loft beam", i, one, below, neighbours))
    every = (1.0,) * count
    all_own = Span(count * own, count * own, count * own)
    turned = RIGHT_ANGLE if rigged.written.head_block.rating_of == "resultant" else 1.0
    links.append(Link(name="head block", line=None, coefficients=tuple(turned for _ in every),
                      constant=_times(turned, all_own), formula="block"))  # fmt: skip
    if bay is not None:
        links.append(_beam("head beam", None, every, all_own, neighbours))
    return links


def _at(i: int, name: str, coefficients: tuple[float, ...], constant: Span, formula: str) -> Link:
    return Link(name=name, line=i + 1, coefficients=coefficients, constant=constant, formula=formula)


def _block(rigged: RiggedSet, i: int, one: tuple[float, ...], below: Span) -> Link:
    turned = RIGHT_ANGLE if rigged.written.loft_block.rating_of == "resultant" else 1.0
    return _at(i, "loft block", tuple(turned * c for c in one), _times(turned, below), "block")


def _beam(
    name: str, i: int | None, own: tuple[float, ...], below: Span, neighbours: Mapping[str, Forces | None]
) -> Link:
    """Shared steel: this set's part moves with its line forces, its neighbours' parts are a constant."""
    total = below
    lacking = [label for label, forces in neighbours.items() if forces is None]
    for forces in neighbours.values():
        if forces is None:
            continue
        count = len(forces.best.tensions)
        if i is not None and i >= count:
            continue
        part = forces.span([1.0 if i is None else float(i == j) for j in range(count)])
        lines = count if i is None else 1
        each = Span(*(below.best / (len(own) if i is None else 1) * lines,) * 3)
        total = Span(total.low + part.low + each.low, total.best + part.best + each.best,
                     total.high + part.high + each.high)  # fmt: skip
    lacks = f"set {', '.join(lacking)} on the same steel is not known" if lacking else ""
    return Link(name=name, line=None if i is None else i + 1, coefficients=own, constant=total,
                formula="shared steel", lacks=lacks)  # fmt: skip


def _times(factor: float, span: Span) -> Span:
    return Span(factor * span.low, factor * span.best, factor * span.high)
