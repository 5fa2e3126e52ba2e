"""A hemp set: bags that can be pulled in, and a difference that its crew can haul. The rule of the lock is not its."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from counterpoise.balance import Span, flying_heights, on_batten, slant
from counterpoise.checks.rows import Check, Input, Measure, Verdict
from counterpoise.documents import Bags, How, Known
from counterpoise.rigging import RiggedBatten, RiggedHouse, doubt, least
from counterpoise.units import STANDARD_GRAVITY as GRAVITY, Style, length, mass_up


def hemp_rows(house: RiggedHouse, rigged: RiggedBatten, loads: tuple[Input, ...]) -> Iterator[Check]:
    """Bags against the batten load, and what is left of that against the crew.

    Bags must weigh less than what hangs and the ropes leave of it, else the batten could not be pulled in; batten load
    and ropes less bags is what the crew hauls. Common practice, no source; of the ropes equilibrium.
    """
    bags = rigged.written.bags
    if bags is None:
        yield Check(key=f"{rigged.key}/bags", label=rigged.label, link="bags", line=None, measure=Measure.FORCE,
                    value=Span(0.0, 0.0, 0.0), limit=None, formula="bags", inputs=(),
                    lacks="no bags are written for this hemp set")  # fmt: skip
        return
    low, best, high = _hauled(house, rigged)
    weight = _span(bags.weight, house)
    figures = (Input.of("bags", bags.weight), *_ropes(house, rigged), *loads)
    # what is in doubt about the load stands with the bags, so that a best figure is held against a best figure
    light = min(best)
    yield Check(key=f"{rigged.key}/bags", label=rigged.label, link="bags", line=None, measure=Measure.FORCE,
                value=Span(weight.low - (min(high) - light), weight.best, weight.high + (light - min(low))),
                limit=None if bags.weight.is_unknown else light, formula="bags", inputs=figures)  # fmt: skip
    left = Span(max(0.0, max(low) - weight.high), max(0.0, max(best) - weight.best), max(0.0, max(high) - weight.low))
    yield Check(key=f"{rigged.key}/crew", label=rigged.label, link="crew", line=None, measure=Measure.FORCE,
                value=left, limit=_hauls(bags, house), formula="crew",
                inputs=(Input.of("what its crew may haul", bags.hauls), *figures))  # fmt: skip


def ropes_at(house: RiggedHouse, rigged: RiggedBatten, height: float) -> Span:
    """What the ropes add to the load of the batten with it at a height [N], below 0 above the height of the rail.

    On the batten's side hang n w (G - h) of rope, on the rail's n w (G - rail): what counts is n w (rail - h). Where
    no floor is written for its rail that is taken at the deck, and for what a crew hauls at its worst at half the
    height of the loft blocks (assumed: no rail is higher).
    """
    rail = _rail(house, rigged)
    floors = (0.0, 0.0, rigged.loft / 2) if rail is None or rail.best is None else _ends(rail, house)
    rope = GRAVITY * len(rigged.lines) * rigged.line_mass
    return Span(*(rope * (floor - height) for floor in floors))


def _rail(house: RiggedHouse, rigged: RiggedBatten) -> Known | None:
    """The floor of the rail its ropes are made off at."""
    number = _rail_number(house, rigged)
    return None if number is None else house.house.rails[number].floor


def _rail_number(house: RiggedHouse, rigged: RiggedBatten) -> int | None:
    """Which rail of the house it is: that the set names, or the only one."""
    rails = house.house.rails
    named = next((number for number, one in enumerate(rails) if one.rail == rigged.written.rail), None)
    return 0 if named is None and len(rails) == 1 else named


def _ends(known: Known, house: RiggedHouse) -> tuple[float, float, float]:
    off = doubt(known, house.rules)
    return known.number - off, known.number, known.number + off


def _ropes(house: RiggedHouse, rigged: RiggedBatten) -> tuple[Input, ...]:
    rail = _rail(house, rigged)
    weight = Input.of("lift-line weight", rigged.written.lines.weight)
    if rail is None or rail.best is None:
        return (weight, _unwritten_floor(house, rigged)) if rigged.line_mass else (weight,)
    below, _, above = (GRAVITY * len(rigged.lines) * rigged.line_mass * end for end in _ends(rail, house))
    return weight, Input.of("floor of its rail", rail, widens=above - below)


def _unwritten_floor(house: RiggedHouse, rigged: RiggedBatten) -> Input:
    """The floor of its rail where nobody wrote it: what it is taken for, and by how much that widens the crew's row."""
    number = _rail_number(house, rigged)
    name = "…" if number is None else house.house.rails[number].rail
    ropes = ropes_at(house, rigged, 0.0)
    most = length(rigged.loft / 2, Style(house.house.units))  # type: ignore[arg-type]  # one of these two words
    return Input(name="floor of its rail", words=f"not known, taken at the deck, at worst at {most}",
                 how=How.ASSUMED, path="rails" if number is None else f"rails[{number}].floor", is_doubtful=True,
                 source="half the height of the loft blocks: no rail is higher", widens=ropes.high - ropes.best,
                 write=f"`rails: [{{rail: {name}, floor: …}}]`")  # fmt: skip


def _hauled(house: RiggedHouse, rigged: RiggedBatten) -> tuple[list[float], list[float], list[float]]:
    """What the batten and its ropes pull against the bags at each height where it flies: least, best, most [N]."""
    low, best, high = list[float](), list[float](), list[float]()
    for height in flying_heights(rigged):
        light, even, heavy = on_batten(rigged, height, rigged.pieces)
        ropes = ropes_at(house, rigged, height)
        likely, most = slant(rigged, height)
        low.append(GRAVITY * light + ropes.low)
        best.append(GRAVITY * even * likely + ropes.best)
        high.append(GRAVITY * heavy * most + ropes.high)
    return low, best, high


def more_bags(house: RiggedHouse, rigged: RiggedBatten, style: Style) -> str:
    """How much more in the bags leaves its crew no more than they may haul; "" where it could not be pulled in then."""
    bags = rigged.written.bags
    crew = next((row for row in hemp_rows(house, rigged, ()) if row.link == "crew"), None)
    if bags is None or crew is None or crew.limit is None or bags.weight.best is None:
        return ""
    more = (crew.value.high - crew.limit) / GRAVITY
    off = doubt(bags.weight, house.rules)
    written = replace(bags.weight, low=bags.weight.best + more - off, best=bags.weight.best + more,
                      high=bags.weight.best + more + off)  # fmt: skip
    again = replace(rigged, written=replace(rigged.written, bags=replace(bags, weight=written)))
    if any(row.verdict is not Verdict.WITHIN for row in hemp_rows(house, again, ())):
        return ""
    return f"Put {mass_up(more, style)} more in the bags; the batten still comes in by its own weight."


def _span(known: Known, house: RiggedHouse) -> Span:
    if known.best is None:
        return Span(0.0, 0.0, 0.0)
    off = doubt(known, house.rules)
    return Span(GRAVITY * max(0.0, known.best - off), GRAVITY * known.best, GRAVITY * (known.best + off))


def _hauls(bags: Bags, house: RiggedHouse) -> float | None:
    return None if bags.weight.is_unknown else least(bags.hauls, house.rules)
