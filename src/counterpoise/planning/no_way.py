"""Why no way leads from where a set stands to where it is wanted, and what would make it right."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from counterpoise.planning import tell
from counterpoise.planning.course import Course
from counterpoise.planning.doubt import is_certain
from counterpoise.planning.from_here import Effort, find_course
from counterpoise.planning.goal import Goal, Target, target_of
from counterpoise.planning.holds import Pull, Standing, lock_limit, standing, within_lock
from counterpoise.planning.needed import FALLING, RISING, Side, why_not
from counterpoise.planning.phrases import stack_said
from counterpoise.planning.replay import in_reach, replay
from counterpoise.planning.state import Act, Refusal, State, Step
from counterpoise.planning.tall_steps import is_tall
from counterpoise.planning.windows import hung_pieces, places
from counterpoise.rigging import RiggedBridge, RiggedHouse, RiggedSet

_PLENTY = 100_000  # bricks at each place, to see whether only the stock stands in the way


def why_no_way(house: RiggedHouse, rigged: RiggedSet, state: State, target: Target, goal: Goal) -> Refusal:
    """Asked in this order: is it adrift, does it rise in stages, is it the stock, a weight, the lock, or the reach."""
    on, label = state.sets[rigged.label], rigged.label
    now = standing(house, rigged, on.stack, on.height, on.pieces(rigged))
    if now.over > 0 and not _is_reached(house, rigged, state):
        return _adrift(house, rigged, state, now)
    if is_tall(rigged) and goal.what != "re-weigh":
        says = f"Set {label} rises in stages, and its own plan does not pass where it stands now."
        return Refusal(code="TALL", says=says, mend=f"Bring it back to a stop of its plan: `steps` for set {label} "
                       "without a log tells them.")  # fmt: skip
    crew, effort = places(house), Effort()
    if find_course(house, rigged, state, target, _strong(crew), effort) is not None:
        return _overloaded(house, rigged)
    if find_course(house, rigged, _plenty(house, state), target, _strong(crew), effort) is not None:
        return _short(house, rigged, state, target)
    if not is_certain(rigged):
        known = replace(rigged, pieces=tuple(one.at_best() for one in rigged.pieces))
        if find_course(house, known, state, target_of(known, on, goal), crew, effort) is not None:
            says = f"Set {label}: no order of steps was found that stays within the lock for all that it may weigh."
            return Refusal(code="WEIGH", says=says, mend="Weigh it: the heaviest it may be is beyond the lock.")
    free = find_course(house, rigged, state, target, crew, Effort(), is_free=True) if crew else None
    if free is not None:
        return _needs_hold(house, rigged, free)
    names = ", ".join(one.name for one in crew) or "where there is no bridge, and no rail with a reach"
    says = f"Set {label}: its {stack_said(on.stack)} cannot be brought to {target.stack.said} from {names}, at any "
    says += "batten height that was tried."
    return Refusal(code="REACH", says=says, mend="Bring bricks there, hang less, or load from a place that reaches the "
                   "arbor.")  # fmt: skip


def _is_reached(house: RiggedHouse, rigged: RiggedSet, state: State) -> bool:
    """True where some place reaches the top of the stack as it stands."""
    on = state.sets[rigged.label]
    return any(in_reach(rigged, place, on.stack, on.stack, on.height) for place in places(house))


def _strong(crew: Iterable[RiggedBridge]) -> tuple[RiggedBridge, ...]:
    """The same places with floors that carry all."""
    return tuple(replace(one, most=None) for one in crew)


def _overloaded(house: RiggedHouse, rigged: RiggedSet) -> Refusal:
    posted = [f"{one.name} {tell.mass_down(house, one.most)}" for one in places(house) if one.most is not None]
    says = f"Set {rigged.label}: the bricks that come off would pass what the floor may carry in all "
    says += f"({', '.join(posted)})."
    return Refusal(code="BRIDGE-FLOOR", says=says, mend="Send bricks elsewhere first. Heaps are not checked.")


def _plenty(house: RiggedHouse, state: State) -> State:
    stock = {kind: {one.name: _PLENTY for one in places(house)} for kind in state.stock}
    return replace(state, stock=stock)


def _short(house: RiggedHouse, rigged: RiggedSet, state: State, target: Target) -> Refusal:
    on = state.sets[rigged.label]
    wants = [(rigged.brick.name, target.stack.bricks - on.bricks)]
    if rigged.small is not None:
        wants.append((rigged.small.name, target.stack.small - on.small))
    several = "" if sum(max(0, count) for _, count in wants) == 1 else "s"
    lacks = [f"{count} {name}" for name, count in wants if count > 0]
    there = [f"{place.name} has {state.stock.get(name, {}).get(place.name, 0)} {name}"
             for place in places(house) for name, _ in wants]  # fmt: skip
    says = f"Set {rigged.label} wants {' and '.join(lacks)} brick{several} more; {', '.join(there)}."
    return Refusal(code="STOCK", says=says, mend="Bring bricks up where the arbor is reached, or strip another set "
                   "first.")  # fmt: skip


# --- out of balance ----------------------------------------------------------------------------------------------


def _adrift(house: RiggedHouse, rigged: RiggedSet, state: State, now: Standing) -> Refusal:
    """Too heavy to be set free, and nobody reaches its bricks: load on the batten first, or a rated hold."""
    on, label = state.sets[rigged.label], rigged.label
    says = f"Set {label} stands {tell.heavy(house, now.pull)} with {on.stack.said} on; the lock may hold "
    says += f"{tell.lock(house, rigged, now.pull)}, and no bridge reaches its bricks where it is."
    if now.pull.arbor > now.pull.batten:
        back = _put_back(house, rigged, state)
        first = (
            f"Put load back on the batten first: {back}." if back else "No piece of the hang, put back, balances it."
        )
        mend = f"Do not lower it to the rail. {first}"
    else:
        mend = "Do not open the lock. Take load off the batten where it can be reached."
    return Refusal(code="REACH", says=says, mend=f"{mend} Or use {_hold(house, rigged, now.pull)}")


def _put_back(house: RiggedHouse, rigged: RiggedSet, state: State) -> str:
    """The fewest pieces, heaviest first, with which the lock holds it; judged by the replay."""
    on, label = state.sets[rigged.label], rigged.label
    left = sorted((one for one in rigged.pieces if one.name not in on.hung), key=lambda one: -one.mass[1])
    hands = [*([] if on.locked else [Step(act=Act.LOCK_ON, set=label)]), Step(act=Act.HOLD_ON, set=label)]
    for count in range(1, len(left) + 1):
        names = [one.name for one in left[:count]]
        done = replay(house, [*hands, *(Step(act=Act.HANG, set=label, piece=name) for name in names)], state)
        after = done.last.sets[label]
        felt = standing(house, rigged, after.stack, after.height, hung_pieces(rigged, after.hung)).pull
        if done.refusal is None and within_lock(house, rigged, felt):
            return f"{', '.join(names)}, and it is {tell.heavy(house, felt)}"
    return ""


def _needs_hold(house: RiggedHouse, rigged: RiggedSet, free: Course) -> Refusal:
    arbor, batten = lock_limit(house, rigged)
    felt = Pull(free.arbor.arbor if free.arbor.arbor > arbor else 0.0,
                free.batten.batten if free.batten.batten > batten else 0.0, free.arbor.height)  # fmt: skip
    says = f"Set {rigged.label}: no order of steps was found that stays within the lock, which may hold "
    says += f"{tell.limit(house, min(arbor, batten))}. The least found, to {stack_said(free.stack)}, is "
    says += f"{tell.heavy(house, felt)}."
    hold = _hold(house, rigged, felt)
    return Refusal(code="HOLD", says=says, mend=f"{hold[0].upper()}{hold[1:]}")


def _hold(house: RiggedHouse, rigged: RiggedSet, felt: Pull) -> str:
    """The rated hold that would do, and which of the house's own can do it."""
    arbor, batten = lock_limit(house, rigged)
    sides = list(_sides(felt, arbor, batten))
    asks = " and ".join(f"{tell.force(house, one.force * rigged.hand_line_ratio)} or more at the hand line against the "
                        f"{one.against}" for one in sides)  # fmt: skip
    can = [one.hold for one in house.house.holds if not any(why_not(house, rigged, one, side) for side in sides)]
    own = f"Of the house's holds {' or '.join(can)} can do it." if can else "None of the house's holds can do it alone."
    return f"a hold that can haul, rated {asks}. {own}"


def _sides(felt: Pull, arbor: float, batten: float) -> Iterator[Side]:
    if felt.arbor > arbor:
        yield Side(against=RISING, does="haul", force=felt.arbor, height=felt.height)
    if felt.batten > batten:
        yield Side(against=FALLING, does="haul", force=felt.batten, height=felt.height)
