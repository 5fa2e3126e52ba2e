"""A plan for one set from any real state: loaded, struck or re-weighed from what hangs there now.

The same replay judges it as judges a load-in from empty. Nothing that is done is done again.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from counterpoise.balance import Stack, pipe_weight
from counterpoise.planning.by_turns import by_turns
from counterpoise.planning.clears import with_clears
from counterpoise.planning.goal import Goal, target_of
from counterpoise.planning.no_way import why_no_way
from counterpoise.planning.one_set import load_in, plannable, strike
from counterpoise.planning.phrases import stack_said
from counterpoise.planning.plan import Plan
from counterpoise.planning.replay import replay
from counterpoise.planning.spoken import Spoken, numbered
from counterpoise.planning.state import Act, Refusal, SetState, State, Step
from counterpoise.planning.tall_steps import is_tall
from counterpoise.planning.windows import joins_of
from counterpoise.planning.words import STARTS, speak
from counterpoise.rigging import RiggedHouse, RiggedSet


def plan_from(house: RiggedHouse, state: State, label: str, goal: Goal) -> Plan:
    """The steps from how all stands now until the goal is reached, or why there are none and what would mend it.

    Args:
        house: with the show and the hang that are to be reached.
        state: as the fold of a log leaves it, or as it was found; batten heights in m.
        label: the set.
        goal: load-in, strike or re-weigh.

    A set that is blocked is refused until its bricks are counted. What stands as it is to stand gets no steps. What
    rises in stages, or wants a rated hold, is taken up where its own plan from empty (or from loaded) passes this
    state. Static and without friction, as the replay.
    """
    label, house = house.label_of(label), house.as_one
    rigged = plannable(house, label, state)
    if isinstance(rigged, Plan):
        return _refused(label, state, rigged.refusal) if rigged.refusal else _only_from_empty(rigged, state)
    on = state.sets[label]
    refusal = _not_now(rigged, on, goal)
    if refusal is not None:
        return _refused(label, state, refusal, on.stack)
    target = target_of(rigged, on, goal)
    found = None if _is_staged(rigged, goal) else by_turns(house, rigged, state, target)
    if found is not None and found.refusal is None:
        return found
    refusal = found.refusal if found is not None else None
    taken_up = _taken_up(house, rigged, state, goal)
    if taken_up is not None:
        return taken_up
    return _refused(label, state, refusal or why_no_way(house, rigged, state, target, goal), on.stack)


def _refused(label: str, state: State, refusal: Refusal, stack: Stack | None = None) -> Plan:
    return Plan(set=label, steps=(), lines=(), refusal=refusal, final=stack or Stack(0), begin=state)


def _only_from_empty(hemp: Plan, state: State) -> Plan:
    says = f"Set {hemp.set} is a hemp set: a log does not know its bags, and its steps are told from empty only."
    return _refused(hemp.set, state, Refusal(code="NO-ARBOR", says=says, mend="Ask for its steps without a log."))


def _not_now(rigged: RiggedSet, on: SetState, goal: Goal) -> Refusal | None:
    label = rigged.label
    if on.blocked:
        return Refusal(
            code="BLOCKED", says=f"Set {label} is {on.blocked}.", mend="Count the bricks on the arbor again."
        )
    known = {*(one.name for one in rigged.pieces), *(one.name for one in joins_of(rigged)),
             *(unit for one in rigged.pieces if one.lights for unit in one.units)}  # fmt: skip
    strange = [name for name in on.hung if name not in known]
    if strange:
        says = f"{', '.join(strange)} hangs on set {label}, and the hang does not put it there."
        return Refusal(code="ORDER", says=says, mend="Write it in the hang, or use the hang it was hung by.")
    want, own = goal.stack, pipe_weight(rigged)
    if want is not None and (want.bricks < own.bricks or want.small < own.small):
        says = f"{stack_said(want)} asked for set {label}: below its pipe weight."
        return Refusal(code="PIPE-WEIGHT", says=says, mend=f"Leave {own.said} on.")
    return None


def _is_staged(rigged: RiggedSet, goal: Goal) -> bool:
    return is_tall(rigged) and goal.what != "re-weigh"


# --- its own plan, taken up where it stands ----------------------------------------------------------------------


def _taken_up(house: RiggedHouse, rigged: RiggedSet, state: State, goal: Goal) -> Plan | None:
    """The rest of the plan from empty, or from loaded, from the last step at which the set stands like this."""
    if goal.what == "re-weigh":
        return None
    label, on = rigged.label, state.sets[rigged.label]
    whole = load_in(house, label) if goal.what == "load-in" else strike(house, label)
    states = replay(house, whole.steps, whole.begin).states if whole.refusal is None else ()
    for steps in _rests(on, whole.steps, states, label):
        done = replay(house, steps, state)
        if done.refusal is None and not done.last.sets[label].held:
            lines: Sequence[Spoken] = speak(house, steps, done.states)
            lines = numbered(tuple(with_clears(house, label, lines, done.states)))
            notes = ("The rest of its own plan, from where it stands.", *whole.notes)
            return replace(whole, steps=steps, lines=lines, begin=state, notes=notes)
    return None


def _rests(on: SetState, whole: Sequence[Step], states: Sequence[State], label: str) -> Iterator[tuple[Step, ...]]:
    """What is left of a plan from where a set stands in it, the least first; also from within a run of bricks."""
    first = () if on.locked else (Step(act=Act.LOCK_ON, set=label),)
    for at in range(len(states) - 1, -1, -1):
        there, rest = states[at].sets[label], tuple(whole[at:])
        if (
            rest
            and rest[0].act in (Act.BRICKS_ON, Act.BRICKS_OFF)
            and _is_within(on, there, states[at + 1].sets[label])
        ):
            yield (*first, *_rest_of_a_run(on, rest, states[at + 1].sets[label], label))
        if not _stands_alike(there, on) or (rest and rest[0].act not in STARTS):
            continue
        if not rest and not (on.locked and on.collars_down and not on.held):
            continue
        let_go = (Step(act=Act.HOLD_OFF, set=label),) if on.held and not there.held else ()
        yield (*first, *let_go, *rest)


def _is_within(on: SetState, before: SetState, after: SetState) -> bool:
    """True where a set stands as before a run of bricks, with some of them moved."""
    low, high = sorted((before.stack, after.stack))
    small_low, small_high = sorted((before.small, after.small))
    return (low < on.stack < high and small_low <= on.small <= small_high
            and _stands_alike(before, replace(on, bricks=before.bricks, small=before.small)))  # fmt: skip


def _rest_of_a_run(on: SetState, rest: tuple[Step, ...], after: SetState, label: str) -> Iterator[Step]:
    if not on.held:
        yield Step(act=Act.HOLD_ON, set=label)
    if on.collars_down:
        yield Step(act=Act.COLLARS_UP, set=label)
    large, small = abs(after.bricks - on.bricks), abs(after.small - on.small)
    yield replace(rest[0], bricks=large, small=small)
    yield from rest[1:]


def _stands_alike(one: SetState, other: SetState) -> bool:
    return (abs(one.height - other.height) < 1e-6 and one.stack == other.stack and one.rated == other.rated
            and set(one.hung) == set(other.hung))  # fmt: skip
