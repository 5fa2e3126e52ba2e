"""The floor of each bridge: bricks stored and people against its posting. A row of the house, of no set."""

from __future__ import annotations

from collections.abc import Iterator

from counterpoise.balance import Span
from counterpoise.checks.finding import Finding
from counterpoise.checks.rows import BRIDGE_FLOOR, Check, Input, Measure, Verdict
from counterpoise.documents import Bridge
from counterpoise.rigging import RiggedHouse, least
from counterpoise.units import STANDARD_GRAVITY as GRAVITY, Style


def bridge_rows(house: RiggedHouse) -> Iterator[Check]:
    """A row for each bridge of which a posting is written, unless a person says it is not checked here.

    The total says nothing about a heap.
    """
    for bridge in house.house.bridges:
        if bridge.posting is None:
            continue
        row = _row(house, bridge)
        if row.verdict is Verdict.OVER or not any(one.covers(BRIDGE_FLOOR, "") for one in house.not_checked):
            yield row


def _row(house: RiggedHouse, bridge: Bridge) -> Check:
    people, person = bridge.people, house.rules["person"]
    inputs = [Input.of("posting of the floor", bridge.posting)] if bridge.posting is not None else []
    sizes = (("length of the floor", bridge.length), ("width of the floor", bridge.width))
    inputs += [Input.unwritten(name) if known is None else Input.of(name, known) for name, known in sizes]
    low = best = high = 0.0
    lacks = ""
    for brick in house.house.bricks:
        count = brick.stock.get(bridge.bridge)
        if count is None:
            continue
        kind = house.bricks.get(brick.brick)
        inputs.append(Input.of(f"{brick.brick} bricks on it", count))
        inputs.append(Input.of(f"{brick.brick} brick weight", brick.weight))
        if count.best is None or kind is None:
            lacks = f"how many {brick.brick} bricks lie on it, or what they weigh, is not known"
            continue
        low, best, high = (mass + count.best * (kind.mass + off)
                           for mass, off in ((low, -kind.spread), (best, 0.0), (high, kind.spread)))  # fmt: skip
    if people is not None and people.best is None:
        lacks = lacks or "how many people may be on it is not known"
    elif people is not None and people.best is not None:
        inputs += [Input.of("people on it", people), Input.of_rule(person)]
        low, best, high = (mass + people.best * person.value for mass in (low, best, high))
        lacks = lacks or ("the rule `person` is not known" if person.is_unknown else "")
    return Check(key=f"{BRIDGE_FLOOR}/{bridge.bridge}", label=bridge.bridge, link=BRIDGE_FLOOR, line=None,
                 measure=Measure.FORCE, value=Span(GRAVITY * low, GRAVITY * best, GRAVITY * high),
                 limit=_carries(house, bridge), formula=BRIDGE_FLOOR, inputs=tuple(inputs), lacks=lacks)  # fmt: skip


def _carries(house: RiggedHouse, bridge: Bridge) -> float | None:
    """Length × width × posting [N]; None where one of them is not known."""
    found = [least(known, house.rules) for known in (bridge.length, bridge.width, bridge.posting) if known is not None]
    known = [each for each in found if each is not None]
    return known[0] * known[1] * known[2] if len(known) == 3 else None


def bridge_findings(rows: tuple[Check, ...], style: Style) -> Iterator[Finding]:
    """One finding for each floor that is over or unknown."""
    for row in rows:
        if row.verdict is Verdict.WITHIN:
            continue
        value, bound = row.printed(style)
        says = f"{value} of {bound}, bricks stored and people."
        if row.limit is None:
            says = f"what the floor of {row.label} may carry is not known."
        if row.lacks and row.verdict is Verdict.UNKNOWN:
            says = f"{row.lacks}."
        lacking = next((one for one in row.inputs if one.is_unknown or one.is_doubtful), None)
        find = "Find it out" if lacking is None else f"Find it out: {lacking.name} ({lacking.words}), {lacking.where}"
        mend = "Store bricks elsewhere, or have fewer people on it." if row.verdict is Verdict.OVER else f"{find}."
        yield Finding(code=f"BRIDGE-FLOOR-{row.verdict.value.upper()}", label="", place=f"{row.label}, floor",
                      says=says, mend=mend, source=row.inputs[0].source, verdict=row.verdict, key=row.key)  # fmt: skip
