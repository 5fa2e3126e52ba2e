"""What is said where a weight is not known well: the set is felt with all on, and brought to a float brick by brick."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from counterpoise.balance import Stack, smallest_mass
from counterpoise.planning import tell
from counterpoise.planning.doubt import in_doubt
from counterpoise.planning.holds import pull
from counterpoise.planning.phrases import each_arbor, place_first, plates_on_top, spoken_to, worth_at_batten
from counterpoise.planning.spoken import Spoken, clear_line, flies_line, spoken_line
from counterpoise.planning.state import Act, State, Step
from counterpoise.rigging import RiggedHouse, RiggedSet
from counterpoise.units import STANDARD_GRAVITY

_ON = {Act.HANG, Act.BRICKS_ON, Act.BRICKS_OFF}


def with_branches(
    house: RiggedHouse, rigged: RiggedSet, lines: Sequence[Spoken], steps: Sequence[Step], states: Sequence[State],
    reached: float, bridge: str,
) -> Iterator[Spoken]:  # fmt: skip
    """The lines, and after the one in which it is first felt with all on, what is done where it does not float.

    `reached` is the batten height at which the arbor is in reach of `bridge` [m].
    """
    felt, done = _first_felt(steps), 0
    for line in lines:
        yield line
        if done < felt <= done + line.steps:
            yield from _branches(house, rigged, states[felt], reached, bridge, states[-1].sets[rigged.label].height)
        done += line.steps


def _first_felt(steps: Sequence[Step]) -> int:
    """How many steps are done when the lock is on again after the first feel with all on."""
    all_on = max((at for at, step in enumerate(steps) if step.act in _ON), default=0)
    feel = next((at for at in range(all_on, len(steps)) if steps[at].act is Act.FEEL), len(steps))
    return next((at + 1 for at in range(feel, len(steps)) if steps[at].act is Act.LOCK_ON), len(steps))


def _branches(
    house: RiggedHouse, rigged: RiggedSet, state: State, reached: float, bridge: str, goal: float
) -> Iterator[Spoken]:
    more, fewer = in_doubt(house, rigged, state, reached, bridge, goal)
    on = state.sets[rigged.label]
    felt = pull(rigged, on.stack, on.height, on.pieces(rigged))
    if more > 0:
        yield from _branch(
            house, rigged, state, reached, bridge, more, f"batten-heavy {tell.force(house, felt.batten)}"
        )
    if fewer > 0:
        yield from _branch(
            house, rigged, state, reached, bridge, -fewer, f"arbor-heavy {tell.force(house, felt.arbor)}"
        )


def _branch(
    house: RiggedHouse, rigged: RiggedSet, state: State, reached: float, bridge: str, most: int, heavy: str
) -> Iterator[Spoken]:
    """One side: held where bricks are in reach, clear, one brick, felt again; `most` is below 0 where they come off."""
    label, on, side = rigged.label, state.sets[rigged.label], heavy.split(maxsplit=1)[0]
    sign, small = (1 if most > 0 else -1), " small" if rigged.small else ""
    half = tell.force(house, STANDARD_GRAVITY * smallest_mass(rigged) / rigged.purchase * rigged.hand_line_ratio / 2)
    at = tell.height(house, reached)
    is_there = on.height == reached
    before = f"{heavy} at most before it"
    held = f"if half a{small} brick {side}, {half}, felt both ways: lock on{', second hold on' if is_there else ''}."
    reply = f"{side}, locked{', held' if is_there else ''}."
    yield _said(spoken_line("rail", house, label, state, held, reply, 0), before)
    if not is_there:
        yield _said(flies_line(house, label, state, is_in=reached < on.height), before)
        held = f"two on the rope. Slowly {'in' if reached < on.height else 'out'} to {at}, lock on, second hold on."
        yield _said(spoken_line("rail", house, label, state, held, f"at {at}, locked, held.", 0), before)
    yield _said(clear_line(house, label, state), before)
    after, last = _changed(rigged, on.stack, sign), _changed(rigged, on.stack, most)
    verb, each = ("add", "") if sign > 0 else ("take off", "")
    if rigged.abreast > 1:
        verb, each = ("add", " on each arbor, by turns") if sign > 0 else ("take", " off each arbor, by turns")
    worth = worth_at_batten(house, rigged, smallest_mass(rigged))
    says = (
        f"{place_first(house, bridge)}{verb} 1{small} brick{each}{worth}. {after.said} on{each_arbor(rigged)} after. "
    )
    to, reply = spoken_to(house, bridge), f"{after.said} on{each_arbor(rigged)}, collars down, clear."
    yield _said(spoken_line(to, house, label, state, says + plates_on_top(after.plates(rigged)), reply, 0), before)
    way = "out" if reached < on.height else "in"
    out = "" if is_there else f"Slowly {way} to {tell.height(house, on.height)}. "
    again = ""
    if abs(most) > 1:
        again = f" Again one at a time until it floats, {last.said} on{each_arbor(rigged)} at most."
        again += " If not then: stop, weigh it."
    says = f"second hold off. Two on the rope. Feel it, crack the lock. {out}Feel both ways, lock on.{again}"
    yield _said(spoken_line("rail", house, label, state, says, "felt, locked.", 0), f"not {side} by more than it was")


def _said(line: Spoken, after: str) -> Spoken:
    return replace(line, after=after, is_branch=True)


def _changed(rigged: RiggedSet, stack: Stack, count: int) -> Stack:
    """With so many more of the smallest brick that it takes, or fewer."""
    return Stack(stack.bricks, stack.small + count) if rigged.small else Stack(stack.bricks + count)
