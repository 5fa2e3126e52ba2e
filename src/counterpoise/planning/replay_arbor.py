"""Rules of collars, bricks and counts: stock, floor, reach and stack, brick by brick."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import chain, repeat

from counterpoise.balance import Stack, fits, out_of_balance, pipe_weight
from counterpoise.planning import tell
from counterpoise.planning.holds import NEAR, standing
from counterpoise.planning.phrases import bricks, stack_said
from counterpoise.planning.replay_asked import Asked, hands_busy, refusal, stands_locked
from counterpoise.planning.state import Refusal, SetState, State, Step
from counterpoise.planning.windows import places
from counterpoise.rigging import RiggedBridge, RiggedHouse, RiggedSet


def collars_up(at: Asked) -> State | Refusal:
    """They are lifted with lock and second hold on."""
    return hands_busy(at.step, at.on) or at.state.with_set(at.step.set, replace(at.on, collars_down=False))


def collars_down(at: Asked) -> State | Refusal:
    """They may always go down."""
    return at.state.with_set(at.step.set, replace(at.on, collars_down=True))


def bricks_on(at: Asked) -> State | Refusal:
    """Batten first, then arbor: none beyond pipe weight where nothing hangs."""
    own, after = pipe_weight(at.rigged), _stack_after(at, 1)
    if not at.on.hung and (after.bricks > own.bricks or after.small > own.small):
        return refusal("BATTEN-FIRST", at.step, f"Nothing hangs on set {at.step.set}.", "Batten first, then arbor.")
    return _bricks(at, 1)


def bricks_off(at: Asked) -> State | Refusal:
    """None below pipe weight."""
    own, after = pipe_weight(at.rigged), _stack_after(at, -1)
    if after.bricks < own.bricks or after.small < own.small:
        moved = Stack(at.step.bricks, at.step.small).said
        says = f"{moved} off {at.on.stack.said} leaves {after.said}: below pipe weight."
        return refusal("PIPE-WEIGHT", at.step, says, f"Leave {own.said} on.")
    return _bricks(at, -1)


def _stack_after(at: Asked, sign: int) -> Stack:
    return Stack(at.on.bricks + sign * at.step.bricks, at.on.small + sign * at.step.small)


def _bricks(at: Asked, sign: int) -> State | Refusal:
    """Brick by brick: each is judged where it leaves the set, as the crew may stop at any of them."""
    house, step, rigged = at.house, at.step, at.rigged
    bridge = next((one for one in places(house) if one.name == step.bridge), None)
    if bridge is None or step.bricks < 0 or step.small < 0:
        return refusal("REACH", step, f'There is no bridge "{step.bridge}".', "Name a bridge of the house.")
    refused = hands_busy(step, at.on)
    if refused is None and at.on.collars_down:
        refused = refusal("ORDER", step, "Top plate and collars are down.", "Lift them first.")
    refused = refused or _small_on_top(at, sign) or _not_in_stock(at.state, step, rigged, sign)
    refused = refused or _floor(house, at.state, step, rigged, bridge, sign)
    if refused is not None:  # before any is looked at one by one: a slip of the pen may be a thousand million
        return refused
    now = at.on
    for large, small in _one_by_one(step, sign):
        after = replace(now, bricks=now.bricks + large, small=now.small + small)
        refused = _one_brick(house, step, rigged, bridge, now, after)
        if refused is not None:
            return refused
        now = after
    changed = at.state
    for name, count in _moved(step, rigged):
        there = changed.stock.get(name, {}).get(step.bridge, 0)
        changed = changed.with_stock(name, step.bridge, there - sign * count)
    return changed.with_set(step.set, now)


def _one_by_one(step: Step, sign: int) -> Iterator[tuple[int, int]]:
    """What one brick after another adds of either size: small ones go on last and come off first."""
    large, small = repeat((sign, 0), step.bricks), repeat((0, sign), step.small)
    yield from chain(large, small) if sign > 0 else chain(small, large)


def _small_on_top(at: Asked, sign: int) -> Refusal | None:
    left = at.on.small if sign > 0 else at.on.small - at.step.small
    if at.step.small and at.rigged.small is None:
        return refusal("ORDER", at.step, f"Set {at.step.set} takes no small bricks.", "Name its own brick only.")
    if at.step.bricks and left > at.rigged.small_pipe_bricks:
        return refusal("ORDER", at.step, f"{left} small bricks lie on top.", "Take the small ones off first.")
    return None


def _moved(step: Step, rigged: RiggedSet) -> Iterator[tuple[str, int]]:
    """The kinds of brick that a step moves, and how many."""
    yield rigged.brick.name, step.bricks * rigged.abreast
    if rigged.small is not None and step.small:
        yield rigged.small.name, step.small * rigged.abreast


def _one_brick(
    house: RiggedHouse, step: Step, rigged: RiggedSet, bridge: RiggedBridge, before: SetState, after: SetState
) -> Refusal | None:
    return (_stack(house, step, rigged, after) or _reach(house, step, rigged, bridge, before, after)
            or stands_locked(house, step, rigged, before, after))  # fmt: skip


def _stack(house: RiggedHouse, step: Step, rigged: RiggedSet, after: SetState) -> Refusal | None:
    if fits(rigged, after.stack):
        return None
    return refusal("STACK", step, _too_tall(house, rigged, after.stack), "Hang less, or use thinner weights.")


def _too_tall(house: RiggedHouse, rigged: RiggedSet, stack: Stack) -> str:
    tall, room = tell.height(house, stack.height(rigged)), tell.height(house, rigged.usable_height)
    return f"{stack_said(stack)} with plates stand {tall}; the arbor takes {room}."


def _reach(
    house: RiggedHouse, step: Step, rigged: RiggedSet, bridge: RiggedBridge, before: SetState, after: SetState
) -> Refusal | None:
    """The hand works from the top of the stack without the brick to its top with it; both must be in reach."""
    if in_reach(rigged, bridge, before.stack, after.stack, before.height):
        return None
    top = rigged.seat(before.height) + before.stack.height(rigged)
    says = f"With {before.stack.said} on, the stack ends at {tell.height(house, top)}; {bridge.name} reaches from "
    says += f"{tell.height(house, bridge.reach_low)} to {tell.height(house, bridge.reach_high)}."
    now = standing(house, rigged, before.stack, before.height, before.pieces(rigged))
    if now.over > 0 and now.pull.arbor > now.pull.batten:
        mend = "Do not lower it to the rail. Put load back on the batten first, or use a rated hold."
    else:
        mend = "Bring the arbor into reach while it is in balance."
    return refusal("REACH", step, says, mend)


def in_reach(rigged: RiggedSet, bridge: RiggedBridge, before: Stack, after: Stack, height: float) -> bool:
    """True where a bridge's crew can work on the top of a stack both without one brick and with it."""
    tops = [rigged.seat(height) + stack.height(rigged) for stack in (before, after)]
    return all(bridge.reach_low - NEAR <= top <= bridge.reach_high + NEAR for top in tops)


def _not_in_stock(state: State, step: Step, rigged: RiggedSet, sign: int) -> Refusal | None:
    for name, count in _moved(step, rigged) if sign > 0 else ():
        there = state.stock.get(name, {}).get(step.bridge, 0)
        if count > there:
            says = f"{step.bridge} has {bricks(there, name)}, {count} asked: short by {count - there}."
            return refusal("STOCK", step, says, "Bring bricks up, or strip another set first.")
    return None


def _floor(
    house: RiggedHouse, state: State, step: Step, rigged: RiggedSet, bridge: RiggedBridge, sign: int
) -> Refusal | None:
    """Bricks and people against the posting of the whole floor. An unknown posting is said in the plan's notes."""
    coming = sum(count * house.bricks[name].mass for name, count in _moved(step, rigged))
    over = "" if sign > 0 else floor_is_over(house, state, bridge.name, coming)
    if not over:
        return None
    return refusal(
        "BRIDGE-FLOOR",
        step,
        f"{bridge.name} would carry {over}.",
        "Send bricks elsewhere first. Heaps are not checked.",
    )


def floor_is_over(house: RiggedHouse, state: State, place: str, coming: float = 0.0) -> str:
    """What a floor carries, where with `coming` [kg] more that is beyond its posting; "" within it or where unknown."""
    bridge = next((one for one in house.bridges if one.name == place), None)
    if bridge is None or bridge.most is None:
        return ""
    loose = sum(places.get(place, 0) * house.bricks[name].mass for name, places in state.stock.items())
    total = loose + coming + bridge.people * house.rules["person"].value
    if total <= bridge.most + 1e-9:
        return ""
    return f"{tell.mass_up(house, total)}; its posting allows {tell.mass_down(house, bridge.most)} in all"


def count(at: Asked) -> State | Refusal:
    """A count that agrees clears the set. One that does not blocks it until a second count agrees with either."""
    said = Stack(at.step.bricks, at.step.small)
    if said == at.on.stack:
        return at.state.with_set(at.step.set, replace(at.on, blocked="", counted=None))
    if not fits(at.rigged, said) or (said.small and at.rigged.small is None):
        fact = (
            _too_tall(at.house, at.rigged, said) if at.rigged.small or not said.small else "It takes no small bricks."
        )
        return refusal("COUNT", at.step, f"Set {at.step.set}: {fact}", "Count the bricks on the arbor again.")
    if at.on.counted == said:  # counted twice alike: believed. The loose bricks are not counted by this.
        believed = replace(at.on, bricks=said.bricks, small=said.small, blocked="", counted=None)
        return at.state.with_set(at.step.set, believed)
    left = out_of_balance(at.rigged, said, at.on.height, at.on.pieces(at.rigged)).worst
    why = f"unknown: recount before it moves ({said.said} counted, {at.on.stack.said} expected"
    why += f", {tell.signed(at.house, left)} if so{_hidden(at.rigged, at.on, left)})"
    return at.state.with_set(at.step.set, replace(at.on, blocked=why, counted=said))


def _cannot_be(at: Asked, said: Stack) -> str:
    """Why no arbor like this can hold such a stack, "" where it can."""
    if said.small and at.rigged.small is None:
        return f"{said.said} counted; it takes no small bricks."
    return "" if fits(at.rigged, said) else _too_tall(at.house, at.rigged, said)


def _hidden(rigged: RiggedSet, on: SetState, left: float) -> str:
    stops = rigged.written.stops
    if left < 0 and stops.top is not None and abs(on.height - rigged.low) <= NEAR:
        return ", hidden by the top stop"
    if left > 0 and stops.bottom is not None and abs(on.height - rigged.high) <= NEAR:
        return ", hidden by the bottom stop"
    return ""
