"""Steps judged one by one: each is allowed and gives the next state, or is refused with a reason and a mend.

A plan and the log of what was really done are judged by the same fold. Nothing here proposes anything.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from counterpoise.planning.replay_arbor import (
    bricks_off,
    bricks_on,
    collars_down,
    collars_up,
    count,
    floor_is_over,
    in_reach,
)
from counterpoise.planning.replay_asked import Asked, is_way_out, refusal, what_is_over
from counterpoise.planning.replay_batten import hang, strike
from counterpoise.planning.replay_hands import clear, feel, hold_off, hold_on, lock_on, lock_open, move, rig
from counterpoise.planning.state import Act, Refusal, Replayed, State, Step, start
from counterpoise.rigging import RiggedHouse

__all__ = ["floor_is_over", "in_reach", "is_way_out", "judge", "married_as", "replay", "says_married", "what_is_over"]


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
        return refusal("SERVICE", step, says, "Leave it locked until a named person has released it.")
    on = state.sets[step.set]
    if on.blocked and step.act not in (Act.COUNT, Act.LOCK_ON, Act.HOLD_ON):
        return refusal("BLOCKED", step, f"Set {step.set} is {on.blocked}.", "Count the bricks on the arbor again.")
    return _RULES[step.act](Asked(house, state, step, rigged, on, others))


def _no_set(house: RiggedHouse, step: Step) -> Refusal:
    lacking = [one.what for one in house.missing if one.label == step.set]
    if lacking:
        says = f"Set {step.set} cannot be judged: not known is {', '.join(lacking)}."
        return refusal("MISSING", step, says, "Find these out and write them in.")
    married = married_as(house, step.set)
    if married:
        return refusal("TWINS", step, *says_married(step.set, married))
    return refusal("NO-SET", step, f"There is no set {step.set}.", "Use a label that is in the house.")


def married_as(house: RiggedHouse, label: str) -> str:
    """What a set is worked as whose hand line is married to another's, "" where it is none of those."""
    return next((one.label for one in house.as_one.sets if label in one.arbors and one.label != label), "")


def says_married(label: str, married: str) -> tuple[str, str]:
    """That a set is worked as one with others, and what to write."""
    return (f"Set {label} is worked as one with the set that its hand line is married to.",
            f"Write {married}; a count is then what is on each of their arbors.")  # fmt: skip


_Rule = Callable[[Asked], State | Refusal]


_RULES: Mapping[Act, _Rule] = {
    Act.HOLD_ON: hold_on,
    Act.HOLD_OFF: hold_off,
    Act.HANG: hang,
    Act.STRIKE: strike,
    Act.COLLARS_UP: collars_up,
    Act.COLLARS_DOWN: collars_down,
    Act.BRICKS_ON: bricks_on,
    Act.BRICKS_OFF: bricks_off,
    Act.COUNT: count,
    Act.LOCK_OPEN: lock_open,
    Act.FEEL: feel,
    Act.MOVE: move,
    Act.LOCK_ON: lock_on,
    Act.RIG: rig,
    Act.CLEAR: clear,
}
