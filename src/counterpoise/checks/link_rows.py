"""The links from the trim chain to the steel: each against its rating."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from counterpoise.balance import Span, Stack, flying_heights, out_of_balance
from counterpoise.checks.part_limits import lacks_of_part, part_limit, sheave_limit
from counterpoise.checks.rows import Check, Input, Measure
from counterpoise.documents import COUNTERWEIGHT, DEAD_HUNG, Bay, LineAt
from counterpoise.loadpath import Forces, Link
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedSet, doubt, least

_Limit = tuple[float | None, tuple[Input, ...]]
HEAD_BLOCK = ("head block", "head block shaft", "head block base")
STEEL = ("loft beam", "loft beam sideways", "head beam", "head beam sideways", "dead ends")
NONE = Span(0.0, 0.0, 0.0)
WRITE_STEEL = "`steel: [{bay: …, sets: […], loft beam: …, head beam: …, impact: …}]`"


def link_rows(
    house: RiggedHouse, rigged: RiggedBatten, forces: Forces, links: list[Link], stack: Stack | None,
    rests_on: tuple[Input, ...],
) -> Iterator[Check]:  # fmt: skip
    """A row for each link that the set has; `stack` is None where its balance can not be computed, or there is none."""
    bay = house.bay_of(rigged.label)
    plain = [line == LineAt(at=line.at) for line in rigged.written.lines.at]
    alike: dict[str, _Limit | None] = {}  # most lines of a set say nothing of their own: looked up once for all of them
    for link in links:
        if link.line is not None and plain[link.line - 1]:
            if link.name not in alike:
                alike[link.name] = _rated(house, rigged, bay, link)
            found = alike[link.name]
        else:
            found = _rated(house, rigged, bay, link)
        if found is None:
            continue
        limit, inputs = found
        value = forces.span(link.coefficients, link.constant, vertical=link.vertical)
        hand = hand_line_on(house, rigged, stack, link.name)
        which = "".join(f"/{number}" for number in (link.line, link.number) if number)
        yield Check(
            key=f"{rigged.key}/{link.name}{which}", label=rigged.label,
            link=link.name, line=link.line, measure=Measure.FORCE, limit=limit, formula=link.formula,
            value=Span(link.certain * value.low + hand.low, link.certain * value.best + hand.best,
                       value.high + hand.high),
            inputs=(*inputs, *rests_on), coefficients=link.coefficients, constant=link.constant.high + hand.high,
            lacks=link.lacks or forces.unproven or lacks_of_part(rigged, link)
            or _lacks_of_hand_line(house, rigged, stack, link.name), waits_for=link.waits_for,
        )  # fmt: skip


def no_steel_rows(rigged: RiggedBatten) -> Iterator[Check]:
    """The steel above a set that stands in no bay: unknown, never left out."""
    for name in ("loft beam",) if rigged.written.rigged == DEAD_HUNG else ("loft beam", "head beam"):
        yield Check(key=f"{rigged.key}/{name}", label=rigged.label, link=name, line=None, measure=Measure.FORCE,
                    value=NONE, limit=None, formula="shared steel", inputs=(no_steel_input(),),
                    lacks="no allowance of the loft steel is written for this set")  # fmt: skip


def no_steel_input() -> Input:
    """What a set in no bay waits for."""
    return replace(Input.unwritten("allowance of the loft steel"), path="steel", write=WRITE_STEEL)


def steel_inputs(house: RiggedHouse, rigged_as: str, bay: Bay) -> Iterator[Input]:
    """What the steel of a set in a bay rests on, as far as it is not known."""
    for name in ("loft beam",) if rigged_as == DEAD_HUNG else ("loft beam", "head beam"):
        yield from (one for one in _steel(house, bay, name)[1] if one.is_unknown)


def hand_line_on(house: RiggedHouse, rigged: RiggedBatten, stack: Stack | None, name: str) -> Span:
    """What the hand line adds to the head block: arbor-heavy it pulls down on its sheave there with both its legs.

    Of a block rated by line pull it counts as one more line. Added to the resultant of the lift lines as a number, it
    is no less than the sum of the two as vectors.
    """
    if name not in HEAD_BLOCK or rigged.written.rigged != COUNTERWEIGHT:
        return NONE
    pull = _arbor_heavy(house, rigged, stack)
    of = rigged.written.head_block.rating_of if name == "head block" else "resultant"
    legs = {"line pull": (1.0, 1.0), "resultant": (2.0, 2.0)}.get(of, (1.0, 2.0))
    return Span(legs[0] * pull.low, legs[0] * pull.best, legs[1] * pull.high)


def _arbor_heavy(house: RiggedHouse, rigged: RiggedBatten, stack: Stack | None) -> Span:
    """The largest pull up on the lock while the set flies; with its balance not known, as much as a lock may hold."""
    if stack is None or not isinstance(rigged, RiggedSet) or rigged.steep:
        return Span(0.0, 0.0, _lock_holds(house, rigged) or 0.0)
    spans = [out_of_balance(rigged, stack, height) for height in flying_heights(rigged)]
    low, best, high = (max(0.0, *(getattr(one, end) for one in spans)) for end in ("low", "best", "high"))
    ratio = rigged.hand_line_ratio
    return Span(ratio * low, ratio * best, ratio * high)


def _lock_holds(house: RiggedHouse, rigged: RiggedBatten) -> float | None:
    """The most that its lock could be asked to hold by what is known of it [N], None where that is not known."""
    own, rule = rigged.written.lock.hold, house.rules["lock hold"]
    written = rule.written if own is None else own
    if written is None:
        return rule.value
    return None if written.best is None else written.best + doubt(written, house.rules)


def _lacks_of_hand_line(house: RiggedHouse, rigged: RiggedBatten, stack: Stack | None, name: str) -> str:
    """Why the hand line's share of a head block is not known: neither the balance is, nor what the lock holds."""
    if name not in HEAD_BLOCK or rigged.written.rigged != COUNTERWEIGHT:
        return ""
    is_known = stack is not None and not rigged.steep
    if is_known or _lock_holds(house, rigged) is not None:
        return ""
    return "neither its balance is known nor what its lock holds, and with it the hand line's share"


def _rated(house: RiggedHouse, rigged: RiggedBatten, bay: Bay | None, link: Link) -> _Limit | None:
    """The limit of a link and what it rests on; None where the set has no such part."""
    if link.name == "lift line":
        return _lift_line(house, rigged, (link.line or 1) - 1)
    if link.name == "sheave":
        return sheave_limit(house, rigged, (link.line or 1) - 1)
    if link.name in STEEL:
        assert bay is not None  # links of steel are made only where a bay is written
        return _steel(house, bay, link.name)
    return part_limit(house, rigged, link)


def _steel(house: RiggedHouse, bay: Bay, name: str) -> _Limit:
    known = {"loft beam": bay.loft_beam, "loft beam sideways": bay.loft_beam_sideways, "head beam": bay.head_beam,
             "dead ends": bay.dead_ends}.get(name, bay.head_beam_sideways)  # fmt: skip
    assert known is not None  # a link is made only of an allowance that is written
    impact = {"included": 1.0, "add 25 %": 1.25}.get(bay.impact)
    allowed = least(known, house.rules)
    limit = allowed / impact if allowed is not None and impact is not None else None
    said = f", impact {bay.impact}" if impact is not None else ""
    allowance = Input.of(f"allowance of the {name}{said}", known)
    if impact is not None:
        return limit, (replace(allowance, is_unknown=limit is None),)
    at = f"{known.path.rpartition('.')[0]}.impact"
    open_ = replace(Input.unwritten(f"whether impact is in the allowances of bay {bay.bay}"), path=at, line=known.line,
                    words="unknown")  # fmt: skip
    return limit, (allowance, open_)


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
