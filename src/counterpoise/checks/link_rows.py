"""The links from the trim chain to the steel: each against its rating."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from counterpoise.balance import Span
from counterpoise.checks.rows import Check, Input, Measure
from counterpoise.documents import DEAD_HUNG, Bay, Known
from counterpoise.loadpath import Forces, Link
from counterpoise.rigging import RiggedBatten, RiggedHouse, least

_Limit = tuple[float | None, tuple[Input, ...]]


def link_rows(
    house: RiggedHouse, rigged: RiggedBatten, forces: Forces, links: list[Link], rests_on: tuple[Input, ...]
) -> Iterator[Check]:
    """A row for each link that the set has."""
    bay = house.bay_of(rigged.label)
    for link in links:
        found = _rated(house, rigged, bay, link)
        if found is None:
            continue
        limit, inputs = found
        value = forces.span(link.coefficients, link.constant)
        which = "".join(f"/{number}" for number in (link.line, link.number) if number)
        yield Check(
            key=f"{rigged.key}/{link.name}{which}", label=rigged.label,
            link=link.name, line=link.line, measure=Measure.FORCE, limit=limit, formula=link.formula,
            value=Span(link.certain * value.low, link.certain * value.best, value.high),
            inputs=(*inputs, *rests_on), coefficients=link.coefficients, constant=link.constant.high,
            lacks=link.lacks or forces.unproven or (_hitched(rigged) if link.name == "trim chain" else ""),
        )  # fmt: skip


def no_steel_rows(rigged: RiggedBatten) -> Iterator[Check]:
    """The steel above a set that stands in no bay: unknown, never left out."""
    for name in ("loft beam",) if rigged.written.rigged == DEAD_HUNG else ("loft beam", "head beam"):
        yield Check(key=f"{rigged.key}/{name}", label=rigged.label, link=name, line=None, measure=Measure.FORCE,
                    value=Span(0.0, 0.0, 0.0), limit=None, formula="shared steel", inputs=(),
                    lacks="no allowance of the loft steel is written for this set")  # fmt: skip


def _rated(house: RiggedHouse, rigged: RiggedBatten, bay: Bay | None, link: Link) -> _Limit | None:
    """The limit of a link and what it rests on; None where the set has no such part."""
    if link.name == "lift line":
        return _lift_line(house, rigged, (link.line or 1) - 1)
    if link.formula == "shared steel":
        assert bay is not None  # links of steel are made only where a bay is written
        return _steel(house, bay, link.name)
    part = _part(rigged, link)
    return None if part is None else (least(part, house.rules), (Input.of(f"{link.name} rating", part),))


def _part(rigged: RiggedBatten, link: Link) -> Known | None:
    """The rating of a part, the line's own before that of all lines."""
    written = rigged.written
    if link.name == "head block":
        return written.head_block.rating
    if link.name == "pin":
        return written.bags.pin if written.bags is not None else None
    assert link.line is not None  # all other links are of one line
    line = written.lines.at[link.line - 1]
    if link.name == "loft block":
        return (line.loft_block or written.loft_block).rating
    if link.name == "mule block":
        return line.mule_blocks[link.number - 1].rating
    own: Known | None = getattr(line, link.name.replace(" ", "_"), None)
    common: Known | None = getattr(written.lines, link.name.replace(" ", "_"))
    return own if own is not None else common


def _hitched(rigged: RiggedBatten) -> str:
    """A chain choked round the batten carries less than its rating, doubled not less."""
    hitch = rigged.written.lines.hitch
    if hitch == "choked":
        return "the chain is choked round the batten, and its rating is of a straight pull"
    return "how the chain is hitched round the batten is not known" if hitch == "unknown" else ""


def _steel(house: RiggedHouse, bay: Bay, name: str) -> _Limit:
    known = {"loft beam": bay.loft_beam, "head beam": bay.head_beam}.get(name, bay.head_beam_sideways)
    assert known is not None  # a link is made only of an allowance that is written
    impact = {"included": 1.0, "add 25 %": 1.25}.get(bay.impact)
    allowed = least(known, house.rules)
    limit = allowed / impact if allowed is not None and impact is not None else None
    allowance = Input.of(f"allowance of the {name}, impact {bay.impact}", known)
    return limit, (replace(allowance, is_unknown=limit is None),)


def _lift_line(house: RiggedHouse, rigged: RiggedBatten, index: int) -> _Limit:
    """Breaking strength × termination efficiency / design factor."""
    lines, factor = rigged.written.lines, house.rules["lift line factor"]
    own = lines.at[index]
    rope, ends = own.breaking_strength or lines.breaking_strength, own.termination or lines.termination
    inputs = (Input.of("breaking strength", rope), Input.of("termination", ends), Input.of_rule(factor))
    strength, efficiency = least(rope, house.rules), least(ends, house.rules)
    if strength is None or efficiency is None or factor.is_unknown:
        return None, inputs
    return strength * efficiency / factor.value, inputs
