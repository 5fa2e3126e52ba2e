"""What each link of a set may carry, joined to what it does carry."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from counterpoise.balance import Span, Stack, out_of_balance
from counterpoise.checks.rows import Check, Input, Measure
from counterpoise.documents import Bay, Known
from counterpoise.loadpath import Forces, Link
from counterpoise.rigging import RiggedHouse, RiggedSet, Rule, least
from counterpoise.units import STANDARD_GRAVITY as GRAVITY

LANDED = 1e-6  # [m]; this far below where it hangs free a piece stands on the deck


def rows_of(house: RiggedHouse, rigged: RiggedSet, stack: Stack, forces: Forces, links: list[Link]) -> list[Check]:
    """Every limit row of one set, from the batten to the steel and the arbor."""
    bay = next((one for one in house.bays if rigged.label in one.sets), None)
    rows = [*_batten(house, rigged, forces)]
    for link in links:
        found = _rated(house, rigged, bay, link)
        if found is not None:
            limit, inputs = found
            rows.append(_row(rigged, link, forces, limit, (*inputs, *_loads(rigged), *_elastic(rigged))))
    if bay is None:
        rows += [_unrated_steel(rigged, name) for name in ("loft beam", "head beam")]
    return [*rows, *_arbor(house, rigged, stack), *_balance(house, rigged, stack)]


def _loads(rigged: RiggedSet) -> tuple[Input, ...]:
    written = rigged.written
    pieces = tuple(Input.of(f"weight of {one.name}", one.written.weight) for one in rigged.pieces)
    return (*pieces, Input.of("batten weight", written.batten.weight), Input.of("hardware", written.batten.hardware))


def _elastic(rigged: RiggedSet) -> tuple[Input, ...]:
    """What the shares between the lines rest on, besides the loads."""
    batten, lines = rigged.written.batten, rigged.written.lines
    return (Input.of("diameter", batten.outside_diameter), Input.of("wall", batten.wall),
            Input.of("modulus", batten.modulus), Input.of("lift-line stiffness", lines.stiffness),
            Input.of("lift-line weight", lines.weight))  # fmt: skip


def _row(rigged: RiggedSet, link: Link, forces: Forces, limit: float | None, inputs: tuple[Input, ...]) -> Check:
    return Check(
        key=f"{rigged.key}/{link.name}" + (f"/{link.line}" if link.line else ""), label=rigged.label, link=link.name,
        line=link.line, measure=Measure.FORCE, value=forces.span(link.coefficients, link.constant), limit=limit,
        formula=link.formula, inputs=inputs, coefficients=link.coefficients, constant=link.constant.high,
        lacks=link.lacks,
    )  # fmt: skip


def _rated(
    house: RiggedHouse, rigged: RiggedSet, bay: Bay | None, link: Link
) -> tuple[float | None, tuple[Input, ...]] | None:
    """The limit of a link and what it rests on; None where the set has no such part."""
    written = rigged.written
    if link.name == "lift line":
        return _lift_line(house, rigged)
    if link.name in ("loft beam", "head beam"):
        assert bay is not None  # links of steel are made only where a bay is written
        known = bay.loft_beam if link.name == "loft beam" else bay.head_beam
        impact = {"included": 1.0, "add 25 %": 1.25}.get(bay.impact)
        allowed = least(known, house.rules)
        limit = allowed / impact if allowed is not None and impact is not None else None
        allowance = Input.of(f"allowance of the {link.name}, impact {bay.impact}", known)
        return limit, (replace(allowance, is_unknown=limit is None),)
    parts: dict[str, Known | None] = {
        "trim chain": written.lines.trim_chain, "shackle": written.lines.shackle,
        "turnbuckle": written.lines.turnbuckle, "loft block": written.loft_block.rating,
        "head block": written.head_block.rating,
    }  # fmt: skip
    part = parts[link.name]
    return None if part is None else (least(part, house.rules), (Input.of(f"{link.name} rating", part),))


def _value(rule: Rule) -> float | None:
    return None if rule.is_unknown else rule.value


def _lift_line(house: RiggedHouse, rigged: RiggedSet) -> tuple[float | None, tuple[Input, ...]]:
    """Breaking strength × termination efficiency / design factor."""
    lines, factor = rigged.written.lines, house.rules["lift line factor"]
    inputs = (Input.of("breaking strength", lines.breaking_strength), Input.of("termination", lines.termination),
              Input.of_rule(factor))  # fmt: skip
    strength, efficiency = least(lines.breaking_strength, house.rules), least(lines.termination, house.rules)
    if strength is None or efficiency is None or factor.is_unknown:
        return None, inputs
    return strength * efficiency / factor.value, inputs


def _unrated_steel(rigged: RiggedSet, name: str) -> Check:
    return Check(key=f"{rigged.key}/{name}", label=rigged.label, link=name, line=None, measure=Measure.FORCE,
                 value=Span(0.0, 0.0, 0.0), limit=None, formula="shared steel", inputs=(),
                 lacks="no allowance of the loft steel is written for this set")  # fmt: skip


def _batten(house: RiggedHouse, rigged: RiggedSet, forces: Forces) -> Iterator[Check]:
    """Bending stress on the section that judges strength, and the largest sag between carrying lines."""
    batten = rigged.written.batten
    judged = batten.design_wall or batten.wall
    size = (Input.of("diameter", batten.outside_diameter), Input.of("wall", batten.wall))
    strong = (size[0], Input.of("design wall" if batten.design_wall else "wall", judged))
    moment, modulus = forces.moment, rigged.modulus_judged
    rule = house.rules["batten stress"]
    yield Check(key=f"{rigged.key}/batten", label=rigged.label, link="batten", line=None, measure=Measure.STRESS,
                value=Span(moment.low / modulus, moment.best / modulus, moment.high / modulus),
                limit=None if judged.is_unknown else _value(rule), formula="bending",
                inputs=(Input.of_rule(rule), *strong, *_loads(rigged)))  # fmt: skip
    rule = house.rules["sag"]
    worst = [max(one.largest_sags, key=lambda sag: abs(sag[2]) / (sag[1] - sag[0])) for one in forces.corners]
    ratios = [abs(sag[2]) / (sag[1] - sag[0]) for sag in worst]
    span = worst[0][1] - worst[0][0]
    yield Check(key=f"{rigged.key}/sag", label=rigged.label, link="sag", line=None, measure=Measure.LENGTH,
                value=Span(span * min(ratios), span * ratios[0], span * max(ratios)),
                limit=None if rule.is_unknown else rule.value * span, formula="sag",
                inputs=(Input.of_rule(rule), Input.of("modulus", batten.modulus), *size,
                        *_loads(rigged)))  # fmt: skip


def _arbor(house: RiggedHouse, rigged: RiggedSet, stack: Stack) -> Iterator[Check]:
    arbor = rigged.written.arbor
    bricks = next(one for one in house.house.bricks if one.brick == rigged.brick.name)
    inputs = (Input.of("brick weight", bricks.weight), Input.of("arbor weight", arbor.weight))
    load = GRAVITY * (rigged.arbor_mass + stack.mass(rigged))
    more = GRAVITY * (rigged.arbor_doubt + stack.bricks * rigged.brick.spread)
    every = (float(rigged.purchase),) * len(rigged.lines)  # at balance the arbor weighs r times what the lines carry
    lines = len(rigged.lines) * GRAVITY * rigged.line_mass * (rigged.loft - rigged.low) * rigged.purchase
    yield Check(key=f"{rigged.key}/arbor", label=rigged.label, link="arbor", line=None, measure=Measure.FORCE,
                value=Span(load - more, load, load + more), limit=least(arbor.rating, house.rules), formula="arbor",
                inputs=(Input.of("arbor rating", arbor.rating), *inputs), coefficients=every,
                constant=lines)  # fmt: skip
    height = stack.height(rigged)
    yield Check(key=f"{rigged.key}/stack", label=rigged.label, link="stack", line=None, measure=Measure.LENGTH,
                value=Span(height, height, height), limit=rigged.usable_height, formula="stack",
                inputs=(Input.of("usable height", arbor.usable_height), Input.of("brick thickness", bricks.thickness),
                        Input.of("plate thickness", arbor.plate_thickness)))  # fmt: skip


def flying_heights(rigged: RiggedSet) -> tuple[float, ...]:
    """The batten heights at which the set is judged in balance [m]: Δ runs straight between them.

    From where every piece hangs free of the deck, or the lowest trim where that is lower, to high trim; with each
    trim, and each height at which a piece leaves the deck. Just below such a height the piece may still stand.
    """
    free = min(rigged.high, max([rigged.low, *(one.height for one in rigged.pieces)]))
    trims = {end for one in rigged.pieces for at in one.hung.trims.values() for end in (at.low, at.high)
             if end is not None and rigged.low <= end <= rigged.high}  # fmt: skip
    bottom = min({free, *trims})
    leaves = {at for one in rigged.pieces for at in (one.height, one.height - LANDED) if bottom <= at <= rigged.high}
    return tuple(sorted({free, rigged.high, *trims, *leaves}))


def _balance(house: RiggedHouse, rigged: RiggedSet, stack: Stack) -> Iterator[Check]:
    """Lock in the flying range, top stop with the load on and pipe weight, bottom stop, tension block."""
    rule, stops = house.rules["lock hold"], rigged.written.stops
    spans = [out_of_balance(rigged, stack, height) for height in flying_heights(rigged)]
    bricks = next(one for one in house.house.bricks if one.brick == rigged.brick.name)
    loads = (*_loads(rigged), Input.of("arbor weight", rigged.written.arbor.weight),
             Input.of("brick weight", bricks.weight),
             Input.of("lift-line weight", rigged.written.lines.weight))  # fmt: skip
    ratio = rigged.hand_line_ratio
    pull = Span(max(max(one.low, -one.high, 0.0) for one in spans), max(abs(one.best) for one in spans),
                max(abs(one.worst) for one in spans))  # fmt: skip
    yield Check(key=f"{rigged.key}/lock", label=rigged.label, link="lock", line=None, measure=Measure.FORCE,
                value=Span(ratio * pull.low, ratio * pull.best, ratio * pull.high), limit=_value(rule), formula="lock",
                inputs=(Input.of_rule(rule), *loads))  # fmt: skip
    down = Span(*(2.0 * ratio * max(0.0, -min(getattr(one, end) for one in spans)) for end in ("high", "best", "low")))
    if rigged.written.tension_block is not None:
        known = rigged.written.tension_block
        yield Check(key=f"{rigged.key}/tension block", label=rigged.label, link="tension block", line=None,
                    measure=Measure.FORCE, value=down, limit=least(known, house.rules), formula="tension block",
                    inputs=(Input.of("tension block rating", known), *loads))  # fmt: skip
    bare = out_of_balance(rigged, Stack(min(rigged.pipe_bricks, stack.bricks)), rigged.low)
    top = Span(*(rigged.purchase * max(0.0, -each) for each in (bare.high, bare.best, bare.low)))
    full = out_of_balance(rigged, stack, rigged.high)
    bottom = Span(*(rigged.purchase * max(0.0, each) for each in (full.low, full.best, full.high)))
    for name, known_stop, value in (("top stop", stops.top, top), ("bottom stop", stops.bottom, bottom)):
        if known_stop is not None:
            yield Check(key=f"{rigged.key}/{name}", label=rigged.label, link=name, line=None, measure=Measure.FORCE,
                        value=value, limit=least(known_stop, house.rules), formula="stop",
                        inputs=(Input.of(f"{name} rating", known_stop), *loads))  # fmt: skip
