"""Bricks that run out and floors that carry too much, found before the first step: why, and what to ask for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from counterpoise.planning import tell
from counterpoise.planning.floors import Floors, Freight, Order, Task
from counterpoise.planning.order import in_this_order
from counterpoise.planning.state import Refusal
from counterpoise.rigging import RiggedHouse


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """Bricks to bring to a place (more than 0) or to send off it (less), before a set; "" before the first step."""

    kind: str
    place: str
    count: int
    before: str = ""


def what_to_ask(
    house: RiggedHouse, tasks: Sequence[Task], floors: Floors, order: Order, *, is_asked: bool
) -> tuple[Refusal | None, tuple[Ask, ...]]:
    """Why the order cannot be worked with what lies there, None where it can; and what must be brought or sent."""
    at_once = tuple(_over_at_once(floors))
    if at_once:
        place, over = at_once[0]
        return _as_it_stands(house, floors, place, over)
    if not order.needs_help:
        return None, ()
    asks = tuple(_asks(tasks, floors, order))
    if order.stuck:
        return _no_room(house, tasks, floors, order), asks
    code = "STOCK" if order.short else "BRIDGE-FLOOR"
    says = [_short(tasks, floors, order, is_asked)] if order.short else []
    says += [_too_much(house, tasks, floors, order, is_asked)] if any(one.count < 0 for one in order.freight) else []
    return Refusal(code=code, says=" ".join(says), mend=" ".join(_mended(asks, floors))), asks


def _over_at_once(floors: Floors) -> Iterator[tuple[str, float]]:
    for place, most in floors.most.items():
        carried = sum(count * floors.mass.get(kind, 0.0) for (kind, at), count in floors.stock.items() if at == place)
        if carried > most + 1e-9:
            yield place, carried - most


def _as_it_stands(house: RiggedHouse, floors: Floors, place: str, over: float) -> tuple[Refusal, tuple[Ask, ...]]:
    kinds = [(count, kind) for (kind, at), count in floors.stock.items() if at == place and count > 0]
    count, kind = max(kinds)
    sent = min(count, -int(-over // floors.mass[kind]))
    says = f"Before the first step {_carries(house, place, floors.most[place] + over)}."
    asks = (Ask(kind=kind, place=place, count=-sent),)
    return Refusal(code="BRIDGE-FLOOR", says=says, mend=" ".join(_mended(asks, floors))), asks


def _carries(house: RiggedHouse, place: str, bricks: float) -> str:
    """What a floor would carry with these bricks [kg], people and bricks apart, against its posting."""
    bridge = next(one for one in house.bridges if one.name == place)
    people = bridge.people * house.rules["person"].value
    most = bridge.most or 0.0
    crew = f" and {bridge.people} people, {tell.mass_up(house, bricks + people)} in all," if bridge.people else ""
    said = f"{place} would carry {tell.mass_up(house, bricks)} of bricks{crew or ''}"
    return f"{said} of the {tell.mass_down(house, most)} that its posting allows"


def _asks(tasks: Sequence[Task], floors: Floors, order: Order) -> Iterator[Ask]:
    """Bricks that are short are asked for before the first step, where the floors carry them so long."""
    early = _early(floors, order.freight)
    tried = in_this_order(tasks, Floors(stock=early, mass=floors.mass, most=floors.most), order.sequence)
    if not tried.needs_help and not any(one.count < 0 for one in order.freight):
        added = {stuff: count - floors.stock.get(stuff, 0) for stuff, count in early.items()}
        yield from (Ask(kind=kind, place=place, count=count) for (kind, place), count in added.items() if count)
        return
    for one in order.freight:
        name = tasks[order.sequence[one.at]].name if one.at else ""
        yield Ask(kind=one.kind, place=one.place, count=one.count, before=name)


def _early(floors: Floors, freight: Sequence[Freight]) -> dict[tuple[str, str], int]:
    stock = dict(floors.stock)
    for one in freight:
        stock[one.kind, one.place] = stock.get((one.kind, one.place), 0) + max(0, one.count)
    return stock


def _short(tasks: Sequence[Task], floors: Floors, order: Order, is_asked: bool) -> str:
    first = next(one for one in order.freight if one.count > 0)
    says = f"Short by {bricks(order.short, _one_kind(order.freight))}"
    if is_asked:
        return f"{says} in this order: {first.place} runs out at set {tasks[order.sequence[first.at]].name}."
    says += " in any order" if order.short == order.least[0] else " in the best order found"
    plain = in_this_order(tasks, floors, range(len(tasks)))
    runs_out = next((one for one in plain.freight if one.count > 0), None)
    if runs_out is None:
        return f"{says}."
    return f"{says}; in the order of the house {runs_out.place} runs out at set {tasks[runs_out.at].name}."


def _one_kind(freight: Sequence[Freight]) -> str:
    kinds = {one.kind for one in freight if one.count > 0}
    return kinds.pop() if len(kinds) == 1 else ""


def _too_much(house: RiggedHouse, tasks: Sequence[Task], floors: Floors, order: Order, is_asked: bool) -> str:
    """The first floor that carries too much. In an order that was asked for, the most that it would come to as well."""
    first = next(one for one in order.freight if one.count < 0)
    name = tasks[order.sequence[first.at]].name
    peak, most_at = _peak(tasks, floors, order, first.place)
    says = f"{_carries(house, first.place, peak)}, at set {most_at}"
    says = says[0].upper() + says[1:]
    if not is_asked:
        says += ", in any order" if order.is_proven else ", in the best order found"
    return f"{says}; it is too much from set {name} on." if name != most_at else f"{says}."


def _peak(tasks: Sequence[Task], floors: Floors, order: Order, place: str) -> tuple[float, str]:
    """The most bricks [kg] that a floor would come to if nothing were sent off, and at which set."""
    now = sum(count * floors.mass.get(kind, 0.0) for (kind, at), count in floors.stock.items() if at == place)
    worst, name = now, tasks[order.sequence[0]].name
    for at in order.sequence:
        for one in tasks[at].moved:
            now += one.count * floors.mass.get(one.kind, 0.0) if one.place == place else 0.0
            if now > worst + 1e-9:
                worst, name = now, tasks[at].name
    return worst, name


def _no_room(house: RiggedHouse, tasks: Sequence[Task], floors: Floors, order: Order) -> Refusal:
    task = tasks[order.stuck[0]]
    bare = replace(floors, stock={})
    for place, most in bare.most.items():
        peak, _ = _peak([task], bare, in_this_order([task], bare, (0,)), place)
        if peak > most:
            says = f"Set {task.name} alone: {_carries(house, place, peak)}."
            mend = "Send its bricks off as they come, a part of them at a time, or have the floor's posting looked at."
            return Refusal(code="BRIDGE-FLOOR", says=says, mend=mend)
    says = f"Set {task.name}: no sending off makes room on the floor for its bricks in this order."
    return Refusal(code="BRIDGE-FLOOR", says=says, mend="Work it in two parts, or name another order.")


def bricks(count: int, kind: str) -> str:
    """A count of bricks of a kind in words."""
    return f"{count} {kind} brick{'s' if count != 1 else ''}".replace("  ", " ")


def _mended(asks: Sequence[Ask], floors: Floors) -> Iterator[str]:
    for one in asks:
        when = f"before set {one.before}" if one.before else "before the first step"
        if one.count > 0:
            yield f"Bring {bricks(one.count, one.kind)} to {one.place} {when}."
        else:
            yield f"Send {bricks(-one.count, one.kind)} off {one.place} {when}."
    wanted = {(one.kind, one.place) for one in asks if one.count > 0}
    for kind in sorted({kind for kind, _ in wanted}):
        lies = [f"{count} at {place}" for (of, place), count in floors.stock.items()
                if of == kind and count > 0 and (kind, place) not in wanted]  # fmt: skip
        if lies:
            yield f"Of {kind} bricks there are {', '.join(lies)}."
