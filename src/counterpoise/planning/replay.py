"""Steps judged one by one: each is allowed and gives the next state, or is refused with a reason and a mend.

A plan and the log of what was really done are judged by the same fold. Nothing here proposes anything.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from counterpoise.balance import Stack, fits, out_of_balance, pipe_weight
from counterpoise.checks.zone_rows import zone_rows
from counterpoise.loadpath import Tipping, forces_of
from counterpoise.planning import tell
from counterpoise.planning.fouling import fouled
from counterpoise.planning.holds import NEAR, Pull, Standing, pull, pulls_over, standing, stands_on_deck, within_lock
from counterpoise.planning.rated import covers, hold_called
from counterpoise.planning.state import Act, Refusal, Replayed, SetState, State, Step, start
from counterpoise.planning.windows import Join, hung_with, hung_without, joins_of, places, units_of
from counterpoise.rigging import RiggedBridge, RiggedHouse, RiggedPiece, RiggedSet


@dataclass(frozen=True, slots=True)
class _Asked:
    """A step, the set it is asked of, and how all stands before it."""

    house: RiggedHouse
    state: State
    step: Step
    rigged: RiggedSet
    on: SetState
    others: tuple[RiggedHouse, ...]


def replay(house: RiggedHouse, steps: Iterable[Step], begin: State | None = None) -> Replayed:
    """Do one step after another, from an empty house unless another state is given; end at the first refusal."""
    house = house.as_one
    states = [begin or start(house)]
    for step in steps:
        after = judge(house, states[-1], step)
        if isinstance(after, Refusal):
            return Replayed(states=tuple(states), refusal=after)
        states.append(after)
    return Replayed(states=tuple(states), refusal=None)


def judge(house: RiggedHouse, state: State, step: Step, others: tuple[RiggedHouse, ...] = ()) -> State | Refusal:
    """The state after a step, or why it is not allowed. What is static and without friction is judged, no more.

    `others` are the same house with what else hangs on its other sets, in a changeover.
    """
    house = house.as_one
    rigged = house.set_called(step.set)
    if rigged is None:
        return _no_set(house, step)
    if rigged.out_of_service:
        says = f"Set {step.set} is out of service: {rigged.out_of_service}."
        return _refusal("SERVICE", step, says, "Leave it locked until a named person has released it.")
    on = state.sets[step.set]
    if on.blocked and step.act not in (Act.COUNT, Act.LOCK_ON, Act.HOLD_ON):
        return _refusal("BLOCKED", step, f"Set {step.set} is {on.blocked}.", "Count the bricks on the arbor again.")
    return _RULES[step.act](_Asked(house, state, step, rigged, on, others))


def _refusal(code: str, step: Step, says: str, mend: str) -> Refusal:
    return Refusal(code=code, says=says, mend=mend, step=step)


def _no_set(house: RiggedHouse, step: Step) -> Refusal:
    lacking = [one.what for one in house.missing if one.label == step.set]
    if lacking:
        says = f"Set {step.set} cannot be judged: not known is {', '.join(lacking)}."
        return _refusal("MISSING", step, says, "Find these out and write them in.")
    return _refusal("NO-SET", step, f"There is no set {step.set}.", "Use a label that is in the house.")


# --- hands -------------------------------------------------------------------------------------------------------


def _hold_on(at: _Asked) -> State | Refusal:
    if not at.on.locked:
        return _refusal("ORDER", at.step, "A second hold goes on after the lock.", "Lock on first.")
    return at.state.with_set(at.step.set, replace(at.on, held=True))


def _hold_off(at: _Asked) -> State | Refusal:
    if not at.on.collars_down:
        return _refusal("ORDER", at.step, "The collars are not down.", "Top plate and collars down first.")
    return at.state.with_set(at.step.set, replace(at.on, held=False))


def _lock_on(at: _Asked) -> State | Refusal:
    return at.state.with_set(at.step.set, replace(at.on, locked=True, felt=False))


def _lock_open(at: _Asked) -> State | Refusal:
    if not at.on.collars_down:
        return _refusal("ORDER", at.step, "The collars are not down.", "Top plate and collars down before it moves.")
    if at.on.held:
        return _refusal("ORDER", at.step, "The second hold is still on.", "Take it off, then open the lock.")
    free = _set_free(at.house, at.step, at.rigged, at.on, at.on.height)
    return free or at.state.with_set(at.step.set, replace(at.on, locked=False, felt=False))


def _feel(at: _Asked) -> State | Refusal:
    return at.state.with_set(at.step.set, replace(at.on, felt=True))


def _move(at: _Asked) -> State | Refusal:
    if at.on.locked or at.on.held or not at.on.collars_down:
        says = "It is locked, held or open at the arbor."
        return _refusal("ORDER", at.step, says, "Collars down, hold off, lock open.")
    if not at.on.felt:
        return _refusal("ORDER", at.step, "Nobody has felt the balance.", "Feel it before it moves.")
    if not at.rigged.low - NEAR <= at.step.height <= at.rigged.high + NEAR:
        says = f"{tell.height(at.house, at.step.height)} is outside its travel."
        mend = f"Stay from {tell.height(at.house, at.rigged.low)} to {tell.height(at.house, at.rigged.high)}."
        return _refusal("TRAVEL", at.step, says, mend)
    free = _set_free(at.house, at.step, at.rigged, at.on, at.step.height)
    free = free or fouled(at.house, at.others, at.state, at.step, at.rigged)
    return free or at.state.with_set(at.step.set, replace(at.on, height=at.step.height))


def _set_free(house: RiggedHouse, step: Step, rigged: RiggedSet, on: SetState, end: float) -> Refusal | None:
    """Judged as if no stop existed: the first inch puts all of it on lock and hands."""
    pulls = pulls_over(rigged, on.stack, on.height, end, on.pieces(rigged))
    beyond = [one for one in pulls if not within_lock(house, rigged, one)
              and not covers(house, rigged, on.rated, one, moves=True)]  # fmt: skip
    if not beyond:
        return None
    worst = max(beyond, key=lambda one: one.worst)
    says = f"Set {step.set} would be {tell.heavy(house, worst)} at {tell.height(house, worst.height)}; "
    says += f"the lock may hold {tell.lock(house, rigged, worst)}."
    return _refusal("HOLD", step, says, _balance_first(on, rigged, worst.arbor > worst.batten))


def _balance_first(on: SetState, rigged: RiggedSet, is_arbor_heavy: bool) -> str:
    if not is_arbor_heavy:
        return "Keep the lock on. Add bricks, or take load off the batten."
    if len(on.hung) < len(rigged.pieces):
        return "Keep the lock on. Put load back on the batten first, or use a hold rated to haul it."
    return "Keep the lock on. Take bricks off where the bridge reaches them, or use a hold rated to haul it."


# --- rated holds -------------------------------------------------------------------------------------------------


def _rig(at: _Asked) -> State | Refusal:
    hold = hold_called(at.house, at.step.hold)
    if hold is None:
        return _refusal(
            "NO-HOLD", at.step, f'The house has no hold "{at.step.hold}".', "Name one that is written there."
        )
    if not at.on.locked:
        return _refusal("ORDER", at.step, "A rated hold takes the strain before the lock is opened.", "Lock on first.")
    used = sum(at.step.hold in one.rated for one in at.state.sets.values())
    if hold.count is not None and hold.count.best is not None and used >= hold.count.best:
        return _refusal("NO-HOLD", at.step, f"Every {at.step.hold} is in use.", "Close the other set first.")
    return at.state.with_set(at.step.set, replace(at.on, rated=(*at.on.rated, at.step.hold)))


def _clear(at: _Asked) -> State | Refusal:
    if at.step.hold not in at.on.rated:
        return _refusal("NO-HOLD", at.step, f"{at.step.hold} is not on set {at.step.set}.", "Name one that is on it.")
    if not at.on.locked:
        return _refusal("ORDER", at.step, "The lock is open.", "Lock on before the hold comes off.")
    after = replace(at.on, rated=tuple(name for name in at.on.rated if name != at.step.hold))
    if covers(at.house, at.rigged, after.rated, _felt_now(at), moves=False):
        return at.state.with_set(at.step.set, after)
    now = standing(at.house, at.rigged, at.on.stack, at.on.height, at.on.pieces(at.rigged))
    if now.over > 0:
        says = f"Set {at.step.set} is {tell.heavy(at.house, now.pull)}; only {at.step.hold} holds it."
        return _refusal("HOLD", at.step, says, "Balance it first, then take the hold off.")
    return at.state.with_set(at.step.set, after)


def _felt_now(at: _Asked) -> Pull:
    return pull(at.rigged, at.on.stack, at.on.height, at.on.pieces(at.rigged))


# --- batten ------------------------------------------------------------------------------------------------------


def _hang(at: _Asked) -> State | Refusal:
    piece, join = _named(at)
    if piece is None or _hangs(at, piece):
        says = f"{at.step.piece} is {'already' if piece else 'not planned'} on set {at.step.set}."
        return _refusal("ORDER", at.step, says, "Name a piece that the hang puts there.")
    after = replace(at.on, hung=hung_with(at.rigged, at.on.hung, (at.step.piece,)))
    refused = _hands_busy(at.step, at.on) or _stands(at.house, at.step, at.rigged, at.on, after)
    refused = refused or _tips(at.step, at.rigged, after) or _in_the_curtain(at, piece)
    # a load put back on a batten that is too light for its arbor is the way out of trouble, wherever that batten is
    in_trouble = standing(at.house, at.rigged, at.on.stack, at.on.height, at.on.pieces(at.rigged)).over > 0
    if refused is None and not in_trouble:
        refused = _not_its_place(at, piece, join)
    return refused or at.state.with_set(at.step.set, after)


def _in_the_curtain(at: _Asked, piece: RiggedPiece) -> Refusal | None:
    """Refuse a piece that hangs in the path of the fire curtain for certain; where it may, the check is not within."""
    row = next(zone_rows(at.house, replace(at.rigged, pieces=(piece,))), None)
    if row is None or row.lacks or row.value.best <= 0.0:
        return None
    says = f"{piece.name} would hang {tell.height(at.house, row.value.best)} into the path of the fire curtain."
    return _refusal("CURTAIN", at.step, says, "Hang it on a set that is clear of it.")


def _strike(at: _Asked) -> State | Refusal:
    piece, join = _named(at)
    if piece is None or not _hangs(at, piece):
        says = f"{at.step.piece} is not on set {at.step.set}."
        return _refusal("ORDER", at.step, says, "Name a piece that hangs there.")
    gone = (at.step.piece, *(units_of(at.on.hung, piece) if at.step.piece == piece.name else ()))
    after = replace(at.on, hung=hung_without(at.rigged, at.on.hung, gone))
    refused = _hands_busy(at.step, at.on) or _stands(at.house, at.step, at.rigged, at.on, after)
    refused = refused or _tips(at.step, at.rigged, after)
    refused = refused or _not_its_place(at, piece, join)
    return refused or at.state.with_set(at.step.set, after)


def _named(at: _Asked) -> tuple[RiggedPiece | None, Join | None]:
    """The piece a step names, or the section and the piece that it is of."""
    join = next((one for one in joins_of(at.rigged) if one.name == at.step.piece), None)
    name = join.piece if join else at.step.piece
    return next((one for one in at.rigged.pieces if one.name == name or (one.lights and name in one.units)), None), join


def _hangs(at: _Asked, piece: RiggedPiece) -> bool:
    """True where it, or any light of it, hangs; of one light, where that one does."""
    units = units_of(at.on.hung, piece)
    return at.step.piece in at.on.hung or at.step.piece in units or (at.step.piece == piece.name and bool(units))


def _not_its_place(at: _Asked, piece: RiggedPiece, join: Join | None) -> Refusal | None:
    """A section is bolted on and off at its own height, under those above it; a piece within reach of the deck."""
    if join is None:
        below = [one.name for one in joins_of(at.rigged) if one.piece == piece.name and one.name in at.on.hung]
        if at.step.act is Act.STRIKE and below:
            return _refusal("ORDER", at.step, f"{below[-1]} is still on.", "Take it off first, at its own height.")
        return _out_of_deck_reach(at.house, at.step, at.rigged, at.on, piece)
    above = [one.name for one in joins_of(at.rigged) if one.piece == piece.name and one.number < join.number]
    later = [one.name for one in joins_of(at.rigged) if one.piece == piece.name and one.number > join.number]
    lacks = [name for name in (piece.name, *above) if name not in at.on.hung]
    below = [name for name in later if name in at.on.hung]
    if lacks or below:
        says = f"{join.name} hangs under {lacks[0]}." if lacks else f"{below[0]} hangs under {join.name}."
        return _refusal("ORDER", at.step, says, "From the top down on the way out, from the foot up on the way in.")
    if abs(at.on.height - join.height) > NEAR:
        says = f"The batten is at {tell.height(at.house, at.on.height)}; {join.name} is bolted on elsewhere."
        return _refusal("DECK-REACH", at.step, says, f"Bring it to {tell.height(at.house, join.height)} first.")
    return None


def _hands_busy(step: Step, on: SetState) -> Refusal | None:
    if on.locked and on.held:
        return None
    says = "No weight moves before the lock and a second hold are on."
    return _refusal("ORDER", step, says, "Lock on, second hold on, clear below.")


def _out_of_deck_reach(
    house: RiggedHouse, step: Step, rigged: RiggedSet, on: SetState, piece: RiggedPiece
) -> Refusal | None:
    """Pieces are hung and struck at low trim, or where the piece stands on the deck. Common practice, no source."""
    if abs(on.height - rigged.low) <= NEAR or stands_on_deck(piece, rigged, on.height):
        return None
    says = f"The batten is at {tell.height(house, on.height)}, out of reach of the deck."
    return _refusal("DECK-REACH", step, says, f"Bring it to {tell.height(house, rigged.low)} first.")


def _stands(house: RiggedHouse, step: Step, rigged: RiggedSet, before: SetState, after: SetState) -> Refusal | None:
    """Refuse what would not stand locked, unless it stood worse before: then it is a step out of trouble."""
    now = standing(house, rigged, after.stack, after.height, after.pieces(rigged))
    was = standing(house, rigged, before.stack, before.height, before.pieces(rigged))
    if now.over == 0 or is_way_out(was, now) or covers(house, rigged, after.rated, now.pull, moves=False):
        return None
    where = f"at {tell.height(house, after.height)} with {after.stack.said} on"
    if now.is_unknown:
        says = f"{where} set {step.set} would press {tell.force(house, now.force)} into the {now.by}: rating unknown."
        mend = f"Find out the rating of the {now.by}, or list it as not checked here."
        return _refusal("UNKNOWN-STOP", step, says[0].upper() + says[1:], mend)
    return _too_heavy(house, step, rigged, where, now)


def is_way_out(was: Standing, now: Standing) -> bool:
    """A step out of trouble: less too much than before, and not by making the other side the heavy one."""
    rounding = 1e-6  # [N]
    less = (now.over, now.force) < (was.over, was.force)
    heavier = now.pull.arbor > was.pull.arbor + rounding or now.pull.batten > was.pull.batten + rounding
    return less and (not heavier or _same_side(was.pull, now.pull))


def _same_side(was: Pull, now: Pull) -> bool:
    return (was.arbor >= was.batten) == (now.arbor >= now.batten)


def _tips(step: Step, rigged: RiggedSet, after: SetState) -> Refusal | None:
    """Refuse a batten that would tip over its outer lines, with the other pieces not yet on or off already."""
    found = forces_of(replace(rigged, pieces=after.pieces(rigged)))
    if not isinstance(found, Tipping):
        return None
    says = f"Set {step.set}'s batten {'would' if found.is_certain else 'may'} tip over its outer line at this moment."
    return _refusal("TIPS", step, says, "Hang the pieces between the outer lines first, and strike them last; or hold "
                    "the batten level with a rated hold at each end.")  # fmt: skip


def _too_heavy(house: RiggedHouse, step: Step, rigged: RiggedSet, where: str, now: Standing) -> Refusal:
    heavy = tell.heavy(house, now.pull)
    if now.by != "lock":
        says = f"Set {step.set}, {where}, would be {heavy}: more than its {now.by} is rated for."
        return _refusal("STOP", step, says, f"Hang less, or have a {now.by} fitted that is rated for it.")
    says = f"Set {step.set}, {where}, would be {heavy}; the lock may hold {tell.lock(house, rigged, now.pull)}."
    if step.act is Act.STRIKE:
        return _refusal("ARBOR-FIRST", step, says, "Arbor first, then batten: take the bricks off before the piece.")
    if step.act is Act.BRICKS_ON:
        return _refusal("HOLD", step, says, "Stop before this brick. A second hold has no rating here.")
    return _refusal("HOLD", step, says, "A second hold has no rating here. Split the load, or use a rated hold.")


# --- arbor -------------------------------------------------------------------------------------------------------


def _collars_up(at: _Asked) -> State | Refusal:
    return _hands_busy(at.step, at.on) or at.state.with_set(at.step.set, replace(at.on, collars_down=False))


def _collars_down(at: _Asked) -> State | Refusal:
    return at.state.with_set(at.step.set, replace(at.on, collars_down=True))


def _bricks_on(at: _Asked) -> State | Refusal:
    own, after = pipe_weight(at.rigged), _stack_after(at, 1)
    if not at.on.hung and (after.bricks > own.bricks or after.small > own.small):
        return _refusal("BATTEN-FIRST", at.step, f"Nothing hangs on set {at.step.set}.", "Batten first, then arbor.")
    return _bricks(at, 1)


def _bricks_off(at: _Asked) -> State | Refusal:
    own, after = pipe_weight(at.rigged), _stack_after(at, -1)
    if after.bricks < own.bricks or after.small < own.small:
        moved = Stack(at.step.bricks, at.step.small).said
        says = f"{moved} off {at.on.stack.said} leaves {after.said}: below pipe weight."
        return _refusal("PIPE-WEIGHT", at.step, says, f"Leave {own.said} on.")
    return _bricks(at, -1)


def _stack_after(at: _Asked, sign: int) -> Stack:
    return Stack(at.on.bricks + sign * at.step.bricks, at.on.small + sign * at.step.small)


def _bricks(at: _Asked, sign: int) -> State | Refusal:
    """Brick by brick: each is judged where it leaves the set, as the crew may stop at any of them."""
    house, step, rigged = at.house, at.step, at.rigged
    bridge = next((one for one in places(house) if one.name == step.bridge), None)
    if bridge is None or step.bricks < 0 or step.small < 0:
        return _refusal("REACH", step, f'There is no bridge "{step.bridge}".', "Name a bridge of the house.")
    refused = _hands_busy(step, at.on)
    if refused is None and at.on.collars_down:
        refused = _refusal("ORDER", step, "Top plate and collars are down.", "Lift them first.")
    refused = refused or _small_on_top(at, sign) or _not_in_stock(at.state, step, rigged, sign)
    refused = refused or _floor(house, at.state, step, rigged, bridge, sign)
    now = at.on
    for bricks, small in _one_by_one(step, sign):
        if refused is not None:
            return refused
        after = replace(now, bricks=now.bricks + bricks, small=now.small + small)
        refused = _one_brick(house, step, rigged, bridge, now, after)
        now = after
    if refused is not None:
        return refused
    changed = at.state
    for name, count in _moved(step, rigged):
        there = changed.stock.get(name, {}).get(step.bridge, 0)
        changed = changed.with_stock(name, step.bridge, there - sign * count)
    return changed.with_set(step.set, now)


def _one_by_one(step: Step, sign: int) -> Iterator[tuple[int, int]]:
    """What one brick after another adds of either size: small ones go on last and come off first."""
    large, small = [(sign, 0)] * step.bricks, [(0, sign)] * step.small
    yield from large + small if sign > 0 else small + large


def _small_on_top(at: _Asked, sign: int) -> Refusal | None:
    left = at.on.small if sign > 0 else at.on.small - at.step.small
    if at.step.small and at.rigged.small is None:
        return _refusal("ORDER", at.step, f"Set {at.step.set} takes no small bricks.", "Name its own brick only.")
    if at.step.bricks and left > at.rigged.small_pipe_bricks:
        return _refusal("ORDER", at.step, f"{left} small bricks lie on top.", "Take the small ones off first.")
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
            or _stands(house, step, rigged, before, after))  # fmt: skip


def _stack(house: RiggedHouse, step: Step, rigged: RiggedSet, after: SetState) -> Refusal | None:
    if fits(rigged, after.stack):
        return None
    tall, room = tell.height(house, after.stack.height(rigged)), tell.height(house, rigged.usable_height)
    says = f"{after.stack.said} bricks with plates stand {tall}; the arbor takes {room}."
    return _refusal("STACK", step, says, "Hang less, or use thinner weights.")


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
    return _refusal("REACH", step, says, mend)


def in_reach(rigged: RiggedSet, bridge: RiggedBridge, before: Stack, after: Stack, height: float) -> bool:
    """True where a bridge's crew can work on the top of a stack both without one brick and with it."""
    tops = [rigged.seat(height) + stack.height(rigged) for stack in (before, after)]
    return all(bridge.reach_low - NEAR <= top <= bridge.reach_high + NEAR for top in tops)


def _not_in_stock(state: State, step: Step, rigged: RiggedSet, sign: int) -> Refusal | None:
    for name, count in _moved(step, rigged) if sign > 0 else ():
        there = state.stock.get(name, {}).get(step.bridge, 0)
        if count > there:
            says = f"{step.bridge} has {there} {name} bricks; {count} are asked: short by {count - there}."
            return _refusal("STOCK", step, says, "Bring bricks up, or strip another set first.")
    return None


def _floor(
    house: RiggedHouse, state: State, step: Step, rigged: RiggedSet, bridge: RiggedBridge, sign: int
) -> Refusal | None:
    """Bricks and people against the posting of the whole floor. An unknown posting is said in the plan's notes."""
    if sign > 0 or bridge.most is None:
        return None
    loose = sum(places.get(bridge.name, 0) * house.bricks[name].mass for name, places in state.stock.items())
    coming = sum(count * house.bricks[name].mass for name, count in _moved(step, rigged))
    total = loose + coming + bridge.people * house.rules["person"].value
    if total <= bridge.most + 1e-9:
        return None
    says = f"{bridge.name} would carry {tell.mass_up(house, total)}; its posting allows "
    says += f"{tell.mass_down(house, bridge.most)} in all."
    return _refusal("BRIDGE-FLOOR", step, says, "Send bricks elsewhere first. Heaps are not checked.")


def _count(at: _Asked) -> State | Refusal:
    """A count that agrees clears the set. One that does not blocks it until a second count agrees with either."""
    said = Stack(at.step.bricks, at.step.small)
    if said == at.on.stack:
        return at.state.with_set(at.step.set, replace(at.on, blocked="", counted=None))
    if at.on.counted == said:  # counted twice alike: believed. The loose bricks are not counted by this.
        believed = replace(at.on, bricks=said.bricks, small=said.small, blocked="", counted=None)
        return at.state.with_set(at.step.set, believed)
    left = out_of_balance(at.rigged, said, at.on.height, at.on.pieces(at.rigged)).worst
    why = f"unknown: recount before it moves ({said.said} counted, {at.on.stack.said} expected"
    why += f", {tell.signed(at.house, left)} if so{_hidden(at.rigged, at.on, left)})"
    return at.state.with_set(at.step.set, replace(at.on, blocked=why, counted=said))


def _hidden(rigged: RiggedSet, on: SetState, left: float) -> str:
    stops = rigged.written.stops
    if left < 0 and stops.top is not None and abs(on.height - rigged.low) <= NEAR:
        return ", hidden by the top stop"
    if left > 0 and stops.bottom is not None and abs(on.height - rigged.high) <= NEAR:
        return ", hidden by the bottom stop"
    return ""


_Rule = Callable[[_Asked], State | Refusal]
_RULES: Mapping[Act, _Rule] = {
    Act.HOLD_ON: _hold_on,
    Act.HOLD_OFF: _hold_off,
    Act.HANG: _hang,
    Act.STRIKE: _strike,
    Act.COLLARS_UP: _collars_up,
    Act.COLLARS_DOWN: _collars_down,
    Act.BRICKS_ON: _bricks_on,
    Act.BRICKS_OFF: _bricks_off,
    Act.COUNT: _count,
    Act.LOCK_OPEN: _lock_open,
    Act.FEEL: _feel,
    Act.MOVE: _move,
    Act.LOCK_ON: _lock_on,
    Act.RIG: _rig,
    Act.CLEAR: _clear,
}
