"""A plan for one set from any real state: loaded, struck or re-weighed from what hangs there now.

The same replay judges it as judges a load-in from empty. Nothing that is done is done again.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from counterpoise.balance import Stack, pipe_weight
from counterpoise.planning.by_turns import by_turns
from counterpoise.planning.clears import with_clears
from counterpoise.planning.goal import Goal, target_of
from counterpoise.planning.no_way import why_no_way
from counterpoise.planning.one_set import load_in, plannable, strike
from counterpoise.planning.plan import Plan
from counterpoise.planning.replay import replay
from counterpoise.planning.state import Act, Refusal, SetState, State, Step
from counterpoise.planning.tall_steps import is_tall
from counterpoise.planning.windows import joins_of
from counterpoise.planning.words import STARTS, Spoken, numbered, speak
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
        says = f"{want.said} bricks are asked for set {label}: below its pipe weight."
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
    first = () if on.locked else (Step(act=Act.LOCK_ON, set=label),)
    for at in range(len(states) - 1, -1, -1):
        rest = whole.steps[at:]
        if not _stands_alike(states[at].sets[label], on) or (rest and rest[0].act not in STARTS):
            continue
        if not rest and not (on.locked and on.collars_down and not on.held):
            continue
        steps = (*first, *rest)
        done = replay(house, steps, state)
        if done.refusal is None:
            lines: Sequence[Spoken] = speak(house, steps, done.states)
            lines = numbered(tuple(with_clears(house, label, lines, done.states)))
            notes = ("The rest of its own plan, from where it stands.", *whole.notes)
            return replace(whole, steps=steps, lines=lines, begin=state, notes=notes)
    return None


def _stands_alike(one: SetState, other: SetState) -> bool:
    return (abs(one.height - other.height) < 1e-6 and one.stack == other.stack and one.rated == other.rated
            and set(one.hung) == set(other.hung))  # fmt: skip
