"""What a rated part of the load path may carry: its rating, how it is loaded, impact where the house asks for it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from counterpoise.checks.rows import Input
from counterpoise.documents import HEMP, SIDE_LOADS, Block, Known
from counterpoise.loadpath import Link, bending_efficiency
from counterpoise.rigging import RiggedBatten, RiggedHouse, doubt, least, most

_Limit = tuple[float | None, tuple[Input, ...]]
# Share of its rating that a shackle keeps, loaded out of line: makers' tables that ASME B30.26 refers to.
SIDE_LOADED = dict(zip(SIDE_LOADS, (0.70, 0.50), strict=True))


def part_limit(house: RiggedHouse, rigged: RiggedBatten, link: Link) -> _Limit | None:
    """The limit of a part and what it rests on; None where the set has no such part, or writes no figure of it."""
    part = _part(rigged, link)
    if part is None:
        return None
    limit, inputs = least(part, house.rules), [Input.of(f"{link.name} rating", part)]
    if link.name == "shackle":
        side = SIDE_LOADED.get(rigged.written.lines.shackle_load, 1.0)
        limit = None if limit is None else side * limit
    impact = house.house.rules.impact
    if impact is not None and _asks_for_impact(rigged, link):
        inputs.append(Input.of("impact, by the rule of the house", impact))
        more = most(impact, house.rules)
        limit = None if limit is None or more is None else limit / (1.0 + more)
    return limit, (*inputs, *_loading(rigged, link))


def _loading(rigged: RiggedBatten, link: Link) -> Iterator[Input]:
    """How a part is loaded, where that is written as not known: a word to find out like any figure."""
    lines, at = rigged.written.lines, f"{rigged.written.stands}.lines"
    asked = {
        "trim chain": ("hitch", lines.hitch, "how the chain is hitched round the batten"),
        "shackle": ("shackle load", lines.shackle_load, "whether the shackle is loaded in line or from the side"),
    }
    if link.name in asked and asked[link.name][1] == "unknown":
        word, _, says = asked[link.name]
        yield replace(Input.unwritten(says), words="unknown", path=f"{at}.{word}", is_lacking=True,
                      write=f"`lines: {{{word}: …}}`")  # fmt: skip


def lacks_of_part(rigged: RiggedBatten, link: Link) -> str:
    """Why a part is not within whatever its rating: how it is loaded takes from that what nobody has told.

    A chain choked round the batten carries less than its rating, doubled not less.
    """
    lines = rigged.written.lines
    if link.name == "trim chain":
        return {"choked": "the chain is choked round the batten, and its rating is of a straight pull",
                "unknown": "how the chain is hitched round the batten is not known"}.get(lines.hitch, "")  # fmt: skip
    if link.name == "shackle" and lines.shackle_load == "unknown":
        return "whether the shackle is loaded in line or from the side is not known"
    return ""


def sheave_limit(house: RiggedHouse, rigged: RiggedBatten, index: int) -> _Limit | None:
    """Breaking strength × bending efficiency over the smallest sheave / design factor.

    None where a diameter is not written, of a fibre rope, which the table is not of, and of a line with another rope,
    whose diameter has no place in the documents.
    """
    lines, factor = rigged.written.lines, house.rules["lift line factor"]
    own, rope = lines.at[index], lines.breaking_strength
    blocks = (own.loft_block or rigged.written.loft_block, rigged.written.head_block)
    sheaves = [block.diameter for block in blocks if block.diameter is not None]
    if lines.diameter is None or not sheaves or own.breaking_strength is not None or rigged.written.rigged == HEMP:
        return None
    found = [(least(each, house.rules), each) for each in sheaves]
    size, sheave = min(found, key=lambda one: -1.0 if one[0] is None else one[0])
    inputs = (Input.of("breaking strength", rope), Input.of("sheave diameter", sheave),
              Input.of("rope diameter", lines.diameter), Input.of_rule(factor))  # fmt: skip
    strength, thick = least(rope, house.rules), lines.diameter.best
    if strength is None or size is None or thick is None or factor.is_unknown:
        return None, inputs
    efficiency = bending_efficiency(size / (thick + doubt(lines.diameter, house.rules)))
    return strength * efficiency / factor.value, inputs


def _part(rigged: RiggedBatten, link: Link) -> Known | None:
    """The rating of a part, the line's own before that of all lines."""
    written = rigged.written
    if link.name == "pin":
        return written.bags.pin if written.bags is not None else None
    if link.name == "mule block":
        assert link.line is not None  # it stands in one line
        return written.lines.at[link.line - 1].mule_blocks[link.number - 1].rating
    block = _block(rigged, link)
    if block is not None:
        return {"shaft": block.shaft, "base": block.base}.get(link.name.split()[-1], block.rating)
    assert link.line is not None  # all other links are of one line
    own: Known | None = getattr(written.lines.at[link.line - 1], link.name.replace(" ", "_"), None)
    common: Known | None = getattr(written.lines, link.name.replace(" ", "_"))
    return own if own is not None else common


def _block(rigged: RiggedBatten, link: Link) -> Block | None:
    """The loft block or head block that a link is, or is a part of."""
    if link.name.startswith("head block"):
        return rigged.written.head_block
    if link.name.startswith("loft block") and link.line is not None:
        return rigged.written.lines.at[link.line - 1].loft_block or rigged.written.loft_block
    return None


def _asks_for_impact(rigged: RiggedBatten, link: Link) -> bool:
    """True unless its maker's rating has impact in it already."""
    block = _block(rigged, link)
    return block is None or block.impact != "included"
