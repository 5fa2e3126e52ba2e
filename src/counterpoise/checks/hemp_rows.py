"""A hemp set: bags that can be pulled in, and a difference that its crew can haul. The rule of the lock is not its."""

from __future__ import annotations

from collections.abc import Iterator

from counterpoise.balance import Span, flying_heights, on_batten
from counterpoise.checks.rows import Check, Input, Measure
from counterpoise.documents import Bags, Known
from counterpoise.rigging import RiggedBatten, RiggedHouse, doubt, least
from counterpoise.units import STANDARD_GRAVITY as GRAVITY


def hemp_rows(house: RiggedHouse, rigged: RiggedBatten, loads: tuple[Input, ...]) -> Iterator[Check]:
    """Bags against the batten load, and what is left of that against the crew.

    Bags must weigh less than what hangs, else the batten could not be pulled in; batten load less bags is what the
    crew hauls and the pins hold. Common practice, no source.
    """
    bags = rigged.written.bags
    if bags is None:
        yield Check(key=f"{rigged.key}/bags", label=rigged.label, link="bags", line=None, measure=Measure.FORCE,
                    value=Span(0.0, 0.0, 0.0), limit=None, formula="bags", inputs=(),
                    lacks="no bags are written for this hemp set")  # fmt: skip
        return
    light, best, heavy = _hangs(rigged)
    weight = _span(bags.weight, house)
    figures = (Input.of("bags", bags.weight), *loads)
    # what is in doubt about the load stands with the bags, so that a best figure is held against a best figure
    yield Check(key=f"{rigged.key}/bags", label=rigged.label, link="bags", line=None, measure=Measure.FORCE,
                value=Span(weight.low - (heavy - best), weight.best, weight.high + (best - light)),
                limit=None if bags.weight.is_unknown else best, formula="bags", inputs=figures)  # fmt: skip
    most = GRAVITY * max(on_batten(rigged, height, rigged.pieces)[1] for height in flying_heights(rigged))
    left = Span(max(0.0, light - weight.high), max(0.0, most - weight.best), max(0.0, heavy - weight.low))
    yield Check(key=f"{rigged.key}/crew", label=rigged.label, link="crew", line=None, measure=Measure.FORCE,
                value=left, limit=_hauls(bags, house), formula="crew",
                inputs=(Input.of("what its crew may haul", bags.hauls), *figures))  # fmt: skip


def _hangs(rigged: RiggedBatten) -> tuple[float, float, float]:
    """What hangs where that is least: light and best there, and heavy where it is most [N]."""
    found = [on_batten(rigged, height, rigged.pieces) for height in flying_heights(rigged)]
    light, best, heavy = min(one[0] for one in found), min(one[1] for one in found), max(one[2] for one in found)
    return GRAVITY * light, GRAVITY * best, GRAVITY * heavy


def _span(known: Known, house: RiggedHouse) -> Span:
    if known.best is None:
        return Span(0.0, 0.0, 0.0)
    off = doubt(known, house.rules)
    return Span(GRAVITY * max(0.0, known.best - off), GRAVITY * known.best, GRAVITY * (known.best + off))


def _hauls(bags: Bags, house: RiggedHouse) -> float | None:
    return None if bags.weight.is_unknown else least(bags.hauls, house.rules)
