"""A plan for one set from any real state: loaded, struck or re-weighed from what hangs there now.

The same replay judges it as judges a load-in from empty. Nothing that is done is done again.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from counterpoise.balance import Stack, pipe_weight
from counterpoise.planning import tell
from counterpoise.planning.course import Course, steps_from
from counterpoise.planning.doubt import in_doubt, is_certain
from counterpoise.planning.from_here import find_course
from counterpoise.planning.goal import Goal, Target, at_low_trim, orders_of, target_of
from counterpoise.planning.no_way import why_no_way
from counterpoise.planning.one_set import load_in, plannable, strike
from counterpoise.planning.plan import Plan
from counterpoise.planning.replay import replay
from counterpoise.planning.state import Act, Refusal, SetState, State, Step
from counterpoise.planning.tall_plan import with_clears
from counterpoise.planning.tall_steps import is_tall
from counterpoise.planning.windows import joins_of, places
from counterpoise.planning.words import STARTS, Spoken, branch_lines, numbered, speak
from counterpoise.rigging import RiggedBridge, RiggedHouse, RiggedSet


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
    rigged = plannable(house, label, state)
    if isinstance(rigged, Plan):
        return _refused(label, state, rigged.refusal) if rigged.refusal else _only_from_empty(rigged, state)
    on = state.sets[label]
    refusal = _not_now(rigged, on, goal)
    if refusal is not None:
        return _refused(label, state, refusal, on.stack)
    target = target_of(rigged, on, goal)
    for crew, wanted in () if _is_staged(rigged, goal) else _tries(house, rigged, target):
        course = find_course(house, rigged, state, wanted, crew)
        if course is None:
            continue
        steps = steps_from(rigged, on, wanted, course, to_feel=not target.is_strike and not is_certain(rigged))
        found = _judged(house, rigged, state, steps, course, wanted)
        if found.refusal is None:
            return found
        refusal = refusal or found.refusal
    taken_up = _taken_up(house, rigged, state, goal)
    if taken_up is not None:
        return taken_up
    return _refused(label, state, refusal or why_no_way(house, rigged, state, target, goal), on.stack)


def _refused(label: str, state: State, refusal: Refusal, stack: Stack | None = None) -> Plan:
    return Plan(set=label, steps=(), lines=(), refusal=refusal, final=stack or Stack(0), begin=state)


def _only_from_empty(hemp: Plan, state: State) -> Plan:
    says = f"Set {hemp.set} is a hemp set: a log does not know its bags, and its steps are told from empty only."
    return _refused(hemp.set, state, Refusal(code="NO-ARBOR", says=says, mend="Ask for its steps without a log."))


def _tries(house: RiggedHouse, rigged: RiggedSet, target: Target) -> Iterator[tuple[tuple[RiggedBridge, ...], Target]]:
    """From every place, then from one alone; then its pieces in another order; a strike also all of it at low trim."""
    every = places(house)
    crews = [every, *((one,) for one in every if len(every) > 1)]
    lowered = at_low_trim(rigged, target)
    for wanted in (target, lowered) if target.is_strike and lowered != target else (target,):
        for crew in crews:
            yield crew, wanted
    for other in (target, lowered) if target.is_strike else (target,):
        yield from ((every, each) for each in orders_of(other) if each not in (target, lowered))


def _not_now(rigged: RiggedSet, on: SetState, goal: Goal) -> Refusal | None:
    label = rigged.label
    if on.blocked:
        return Refusal(
            code="BLOCKED", says=f"Set {label} is {on.blocked}.", mend="Count the bricks on the arbor again."
        )
    known = {*(one.name for one in rigged.pieces), *(one.name for one in joins_of(rigged))}
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


# --- judged and said ---------------------------------------------------------------------------------------------


def _judged(
    house: RiggedHouse, rigged: RiggedSet, state: State, steps: tuple[Step, ...], course: Course, target: Target
) -> Plan:
    done = replay(house, steps, state)
    if done.refusal is not None:
        return _refused(rigged.label, state, done.refusal, state.sets[rigged.label].stack)
    lines = list(with_clears(house, rigged.label, speak(house, steps, done.states), done.states))
    last = next((work for work in reversed(course.works) if work.bridge), None)
    if last is not None and not target.is_strike and not is_certain(rigged):
        more, fewer = in_doubt(house, rigged, done.last, last.height, last.bridge)
        lines.extend(branch_lines(house, rigged, done.last, more, fewer, last.height))
    return Plan(set=rigged.label, steps=steps, lines=numbered(lines), refusal=None, final=course.stack, begin=state,
                notes=tuple(_notes(house, rigged, state, steps, course.stack, target)), arbor_peak=course.arbor,
                batten_peak=course.batten)  # fmt: skip


def _notes(
    house: RiggedHouse, rigged: RiggedSet, state: State, steps: Sequence[Step], final: Stack, target: Target
) -> Iterator[str]:
    on = state.sets[rigged.label]
    hung = ", ".join(on.hung) or "nothing"
    yield (f"From how it stands: {hung} on, {on.stack.said} bricks, batten at {tell.height(house, on.height)}. What "
           "was done is not done again.")  # fmt: skip
    if not steps:
        yield "Nothing is to be done: it stands so already."
    yield "Static, without friction, and the worst that loads and bricks may come to. Nobody under the load."
    yield tell.friction_beside(house, rigged)
    yield "A second hold has no rating in the house: not counted."
    used = {step.bridge for step in steps if step.bridge}
    for place in places(house):
        if place.name in used and place.most is None:
            yield f"Not checked: the floor of {place.name}; its posting, people or stock is not known."
    block = rigged.written.tension_block
    if block is None or block.low is None:
        yield "Not checked: the hold-down of the tension block; it is not known."
    if final != target.stack:
        yield (f"{target.stack.said} bricks would balance it best; {final.said} is what can be put on within the lock "
               "and the stock.")  # fmt: skip
    if not target.is_strike and not is_certain(rigged):
        yield "A weight is not known well: write down the count that floats."


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
