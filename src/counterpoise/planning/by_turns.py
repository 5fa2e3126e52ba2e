"""One set by as many visits as it takes: pieces and bricks by turns, each state between within lock, stops and holds.

What no single visit does is found here: lights hung a few at a time with bricks between, a strike that leaves off in
the middle, another count. The way is looked for in `from_here`; the replay judges every step of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from counterpoise.balance import Stack, pipe_weight
from counterpoise.planning import tell
from counterpoise.planning.branches import with_branches
from counterpoise.planning.clears import with_clears
from counterpoise.planning.course import Course, Work, steps_from
from counterpoise.planning.doubt import is_certain, is_felt_where_loaded
from counterpoise.planning.from_here import Effort, find_course
from counterpoise.planning.goal import Target, at_low_trim, light_by_light, orders_of
from counterpoise.planning.holds import Pull
from counterpoise.planning.phrases import married_note, stack_said
from counterpoise.planning.plan import Plan
from counterpoise.planning.replay import replay
from counterpoise.planning.spoken import numbered
from counterpoise.planning.state import Act, State, Step, start
from counterpoise.planning.ties import slack_notes
from counterpoise.planning.windows import places
from counterpoise.planning.words import speak
from counterpoise.rigging import RiggedBridge, RiggedHouse, RiggedSet


def by_turns(house: RiggedHouse, rigged: RiggedSet, state: State, target: Target) -> Plan | None:
    """The first way that the replay allows; else the first that it refuses, with why; None where there is no way."""
    refused, effort = None, Effort()
    for crew, wanted, is_far in _tries(house, rigged, target):
        course = find_course(house, rigged, state, wanted, crew, effort, is_far=is_far)
        if course is None and len(crew) > 1:
            course = find_course(house, rigged, state, wanted, crew, effort, is_far=is_far, is_apart=True)
        if course is None:
            continue
        to_feel = not target.is_strike and not is_certain(rigged) and _is_felt_there(house, rigged, course)
        steps = steps_from(rigged, state.sets[rigged.label], wanted, course, to_feel=to_feel)
        found = _judged(house, rigged, state, steps, course, wanted)
        if found.refusal is None:
            return found
        refused = refused or found
    return refused


def _is_felt_there(house: RiggedHouse, rigged: RiggedSet, course: Course) -> bool:
    """Whether it can be felt where its last work is done."""
    here = course.works[-1].height if course.works else course.height
    return here == course.height or is_felt_where_loaded(house, rigged, course.stack, here, course.height)


def _tries(
    house: RiggedHouse, rigged: RiggedSet, target: Target
) -> Iterator[tuple[tuple[RiggedBridge, ...], Target, bool]]:
    """From every place, then from one alone; further out; light by light; other orders; a strike also at low trim."""
    every = places(house)
    crews = [every, *((one,) for one in every if len(every) > 1)]
    lowered = at_low_trim(rigged, target)
    plain = (target, lowered) if target.is_strike and lowered != target else (target,)
    for wanted in plain:
        for crew in crews:
            yield crew, wanted, False
    for wanted in plain:
        yield every, wanted, True
    for wanted in plain:
        if (lit := light_by_light(rigged, wanted)) != wanted:
            yield every, lit, False
            yield every, lit, True
    for wanted in plain:
        yield from ((every, each, False) for each in orders_of(wanted) if each not in plain)


def _judged(
    house: RiggedHouse, rigged: RiggedSet, state: State, steps: tuple[Step, ...], course: Course, target: Target
) -> Plan:
    done = replay(house, steps, state)
    if done.refusal is not None:
        return Plan(set=rigged.label, steps=(), lines=(), refusal=done.refusal, begin=state,
                    final=state.sets[rigged.label].stack)  # fmt: skip
    lines = list(with_clears(house, rigged.label, speak(house, steps, done.states), done.states))
    last = next((work for work in reversed(course.works) if work.bridge), None)
    if last is not None and not target.is_strike and not is_certain(rigged):
        lines = list(with_branches(house, rigged, lines, steps, done.states, last.height, last.bridge))
    return Plan(set=rigged.label, steps=steps, lines=numbered(lines), refusal=None, final=course.stack, begin=state,
                notes=tuple(_notes(house, rigged, done.states, steps, course.stack, target)), arbor_peak=course.arbor,
                batten_peak=course.batten)  # fmt: skip


def _notes(
    house: RiggedHouse, rigged: RiggedSet, states: Sequence[State], steps: Sequence[Step], final: Stack, target: Target
) -> Iterator[str]:
    on = states[0].sets[rigged.label]
    hung = ", ".join(on.hung) or "nothing"
    if sum(step.act in (Act.BRICKS_ON, Act.BRICKS_OFF) for step in steps) > 1:
        yield "Pieces and bricks by turns: in one go it would be more than lock and stops hold."
    if on != start(house).sets[rigged.label]:
        at = tell.height(house, on.height)
        yield f"From how it stands: {hung} on, {stack_said(on.stack)}, batten at {at}. What was done is not done again."
    if not steps:
        yield "Nothing is to be done: it stands so already."
    yield "Static, without friction, and the worst that loads and bricks may come to. Nobody under the load."
    yield tell.friction_beside(house, rigged)
    yield from married_note(rigged)
    yield "A second hold has no rating in the house: not counted."
    yield from slack_notes(house, rigged, steps, states)
    used = {step.bridge for step in steps if step.bridge}
    for place in places(house):
        if place.name in used and place.most is None:
            yield f"Not checked: the floor of {place.name}; its posting, people or stock is not known."
    block = rigged.written.tension_block
    if block is None or block.low is None:
        yield "Not checked: the hold-down of the tension block; it is not known."
    if final != target.stack:
        yield (f"{stack_said(target.stack)} would balance it best; {final.said} is what can be put on within the lock "
               "and the stock.")  # fmt: skip
    if not target.is_strike and not is_certain(rigged):
        yield "A weight is not known well: write down the count that floats."


def back_again(house: RiggedHouse, rigged: RiggedSet, loaded: Plan, begin: State) -> Plan:
    """The strike that undoes a load-in by turns, visit by visit: what stood on the way there stands on the way back."""
    works = list(_works(rigged, loaded))
    back = [replace(one, pieces=one.pieces[::-1], before=one.after, after=one.before) for one in reversed(works)]
    zero = Pull(0.0, 0.0, rigged.low)
    course = Course(works=tuple(back), height=rigged.low, stack=pipe_weight(rigged), arbor=loaded.arbor_peak or zero,
                    batten=loaded.batten_peak or zero)  # fmt: skip
    todo = tuple(name for work in back for name in work.pieces)
    target = Target(is_strike=True, todo=todo, at=(), stack=course.stack, is_exact=True, height=rigged.low)
    steps = steps_from(rigged, begin.sets[rigged.label], target, course, to_feel=False)
    return _judged(house, rigged, begin, steps, course, target)


def _works(rigged: RiggedSet, loaded: Plan) -> Iterator[Work]:
    """The visits of a load-in: what was hung at a height, then the bricks put on there."""
    height, stack, pieces = rigged.low, pipe_weight(rigged), tuple[str, ...]()
    for step in loaded.steps:
        if step.act is Act.HANG:
            pieces = (*pieces, step.piece)
        elif step.act is Act.BRICKS_ON:
            after = Stack(stack.bricks + step.bricks, stack.small + step.small)
            yield Work(height=height, pieces=pieces, before=stack, after=after, bridge=step.bridge)
            stack, pieces = after, ()
        elif step.act is Act.MOVE:
            if pieces:
                yield Work(height=height, pieces=pieces, before=stack, after=stack, bridge="")
            height, pieces = step.height, ()
