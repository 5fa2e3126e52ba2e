"""The arbor and the balance: load and height of the stack, the lock, the tension block, the stops."""

from __future__ import annotations

from collections.abc import Iterator

from counterpoise.balance import Span, Stack, flying_heights, largest_off, on_arbor, out_of_balance, pipe_weight
from counterpoise.checks.inputs import brick_inputs, thickness_inputs
from counterpoise.checks.rows import Check, Input, Measure, value_of
from counterpoise.rigging import RiggedHouse, RiggedSet, least
from counterpoise.units import STANDARD_GRAVITY as GRAVITY


def arbor_rows(house: RiggedHouse, rigged: RiggedSet, stack: Stack) -> Iterator[Check]:
    """What the arbor carries, and how high its stack is."""
    arbor = rigged.written.arbor
    every = (float(rigged.purchase),) * len(rigged.lines)  # at balance the arbor weighs r times what the lines carry
    lines = len(rigged.lines) * GRAVITY * rigged.line_mass * (rigged.loft - rigged.low) * rigged.purchase
    yield Check(key=f"{rigged.key}/arbor", label=rigged.label, link="arbor", line=None, measure=Measure.FORCE,
                value=on_arbor(rigged, stack), limit=least(arbor.rating, house.rules), formula="arbor",
                inputs=(Input.of("arbor rating", arbor.rating), *brick_inputs(house, rigged, stack)),
                coefficients=every, constant=lines)  # fmt: skip
    height = stack.height(rigged)
    yield Check(key=f"{rigged.key}/stack", label=rigged.label, link="stack", line=None, measure=Measure.LENGTH,
                value=Span(height, height, height), limit=rigged.usable_height, formula="stack",
                inputs=(Input.of("usable height", arbor.usable_height), *thickness_inputs(house, rigged),
                        Input.of("plate thickness", arbor.plate_thickness)))  # fmt: skip


def balance_rows(house: RiggedHouse, rigged: RiggedSet, stack: Stack, hung: tuple[Input, ...]) -> Iterator[Check]:
    """Lock in the flying range, top stop with the load on and pipe weight, bottom stop, tension block."""
    heights = flying_heights(rigged)
    spans = [out_of_balance(rigged, stack, height) for height in heights]
    loads = (*hung, *brick_inputs(house, rigged, stack), Input.of("lift-line weight", rigged.written.lines.weight))
    ratio = rigged.hand_line_ratio
    pull = largest_off(rigged, stack)
    limit, rule = lock_limit_of(house, rigged)
    yield Check(key=f"{rigged.key}/lock", label=rigged.label, link="lock", line=None, measure=Measure.FORCE,
                value=_times(ratio, pull), limit=limit, formula="lock",
                inputs=(rule, *loads))  # fmt: skip
    hand_line = rigged.written.hand_line.rating
    if hand_line is not None:
        yield Check(key=f"{rigged.key}/hand line", label=rigged.label, link="hand line", line=None,
                    measure=Measure.FORCE, value=_times(ratio, pull), limit=least(hand_line, house.rules),
                    formula="hand line", inputs=(Input.of("hand line rating", hand_line), *loads))  # fmt: skip
    down = Span(*(2.0 * ratio * max(0.0, -min(getattr(one, end) for one in spans)) for end in ("high", "best", "low")))
    if rigged.written.tension_block is not None:
        known = rigged.written.tension_block
        yield Check(key=f"{rigged.key}/tension block", label=rigged.label, link="tension block", line=None,
                    measure=Measure.FORCE, value=down, limit=least(known, house.rules), formula="tension block",
                    inputs=(Input.of("tension block rating", known), *loads))  # fmt: skip
    yield from _stops(house, rigged, stack, loads)


def _times(factor: float, span: Span) -> Span:
    return Span(factor * span.low, factor * span.best, factor * span.high)


def lock_limit_of(house: RiggedHouse, rigged: RiggedSet) -> tuple[float | None, Input]:
    """What the lock of a set may be asked to hold in its hand line [N]: its own figure, else the rule of the house."""
    rule, own = house.rules["lock hold"], rigged.written.lock.hold
    if own is not None:
        return least(own, house.rules), Input.of("lock hold of this set", own)
    return value_of(rule), Input.of_rule(rule)


def _stops(house: RiggedHouse, rigged: RiggedSet, stack: Stack, loads: tuple[Input, ...]) -> Iterator[Check]:
    stops = rigged.written.stops
    bare = out_of_balance(rigged, _bare(rigged, stack), rigged.low)
    top = Span(*(rigged.purchase * max(0.0, -each) for each in (bare.high, bare.best, bare.low)))
    full = out_of_balance(rigged, stack, rigged.high)
    bottom = Span(*(rigged.purchase * max(0.0, each) for each in (full.low, full.best, full.high)))
    for name, known_stop, value in (("top stop", stops.top, top), ("bottom stop", stops.bottom, bottom)):
        if known_stop is not None:
            yield Check(key=f"{rigged.key}/{name}", label=rigged.label, link=name, line=None, measure=Measure.FORCE,
                        value=value, limit=least(known_stop, house.rules), formula="stop",
                        inputs=(Input.of(f"{name} rating", known_stop), *loads))  # fmt: skip


def _bare(rigged: RiggedSet, stack: Stack) -> Stack:
    """Pipe weight, or what is on where that is less: the load is on, the bricks are not yet."""
    own = pipe_weight(rigged)
    return Stack(min(own.bricks, stack.bricks), min(own.small, stack.small))
