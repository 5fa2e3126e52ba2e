"""A hemp set: bags that can be pulled in, and a difference that its crew can haul. The rule of the lock is not its."""

from __future__ import annotations

from collections.abc import Iterator

from counterpoise.balance import Span, on_batten
from counterpoise.checks.rows import Check, Input, Measure
from counterpoise.documents import Bags, Known
from counterpoise.rigging import RiggedBatten, RiggedHouse, least
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
    light, best, heavy = (GRAVITY * mass for mass in on_batten(rigged, rigged.high, rigged.pieces))
    weight = _span(bags.weight)
    figures = (Input.of("bags", bags.weight), *loads)
    yield Check(key=f"{rigged.key}/bags", label=rigged.label, link="bags", line=None, measure=Measure.FORCE,
                value=weight, limit=None if bags.weight.is_unknown else light, formula="bags",
                inputs=figures)  # fmt: skip
    left = Span(max(0.0, light - weight.high), max(0.0, best - weight.best), max(0.0, heavy - weight.low))
    yield Check(key=f"{rigged.key}/crew", label=rigged.label, link="crew", line=None, measure=Measure.FORCE,
                value=left, limit=_hauls(bags, house), formula="crew",
                inputs=(Input.of("what its crew may haul", bags.hauls), *figures))  # fmt: skip


def _span(known: Known) -> Span:
    if known.low is None or known.best is None or known.high is None:
        return Span(0.0, 0.0, 0.0)
    return Span(GRAVITY * known.low, GRAVITY * known.best, GRAVITY * known.high)


def _hauls(bags: Bags, house: RiggedHouse) -> float | None:
    return None if bags.weight.is_unknown else least(bags.hauls, house.rules)
