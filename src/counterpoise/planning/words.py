"""Steps said aloud: who is told, what is said, and what must come back before the next line.

One line for what one crew does in one go. Nobody is told to move weight before lock, second hold and clear are said.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from counterpoise.balance import Stack, pipe_weight
from counterpoise.planning import tell
from counterpoise.planning.holds import pull
from counterpoise.planning.phrases import (
    all_of,
    bricks,
    each_arbor,
    pieces_said,
    place_first,
    plates_on_top,
    spoken_to,
    worth_at_batten,
)
from counterpoise.planning.spoken import Spoken, numbered, spoken_line
from counterpoise.planning.state import Act, State, Step
from counterpoise.planning.windows import joins_of
from counterpoise.rigging import RiggedHouse


@dataclass(frozen=True, slots=True)
class _Done:
    """Steps that are said in one go, and how all stands before and after them."""

    house: RiggedHouse
    group: Sequence[Step]
    before: State
    after: State


def speak(house: RiggedHouse, steps: Sequence[Step], states: Sequence[State]) -> tuple[Spoken, ...]:
    """The lines of a plan whose steps were all allowed; `states` has the one before the first and one after each."""
    lines: list[Spoken] = []
    at = 0
    for group in _groups(steps):
        before, after = states[at], states[at + len(group)]
        lines.extend(_LINES[group[0].act](_Done(house, group, before, after)))
        at += len(group)
    return numbered(lines)


_WITH: dict[Act, tuple[Act, ...]] = {
    Act.HOLD_ON: (),
    Act.RIG: (Act.RIG,),
    Act.CLEAR: (Act.CLEAR,),
    Act.HANG: (Act.HANG,),
    Act.STRIKE: (Act.STRIKE,),
    Act.COLLARS_UP: (Act.BRICKS_ON, Act.BRICKS_OFF, Act.COLLARS_DOWN, Act.COUNT),
    Act.COUNT: (),
    Act.HOLD_OFF: (Act.LOCK_OPEN, Act.FEEL, Act.MOVE, Act.LOCK_ON),
    Act.LOCK_OPEN: (Act.FEEL, Act.MOVE, Act.LOCK_ON),
    Act.LOCK_ON: (),
    Act.COLLARS_DOWN: (Act.COUNT,),
}
STARTS = frozenset(_WITH)  # what may be the first of the steps that are said in one go


def _groups(steps: Sequence[Step]) -> Iterator[Sequence[Step]]:
    start = 0
    while start < len(steps):
        end = start + 1
        follows = _WITH[steps[start].act]
        while end < len(steps) and steps[end].act in follows and steps[end].set == steps[start].set:
            end += 1
            if steps[end - 1].act is Act.LOCK_ON:
                break  # a flight is said by itself
        yield steps[start:end]
        start = end


def _held(done: _Done) -> Iterator[Spoken]:
    label = done.group[0].set
    yield spoken_line(
        "rail", done.house, label, done.after, f"{_locks(done)} on, second hold on.", "locked, held.", len(done.group)
    )


def _locks(done: _Done) -> str:
    """Of sets whose hand lines are married every word is for all of them."""
    rigged = done.house.set_called(done.group[0].set)
    return "lock" if rigged is None or rigged.abreast == 1 else f"all {rigged.abreast} locks"


def _locked(done: _Done) -> Iterator[Spoken]:
    yield spoken_line("rail", done.house, done.group[0].set, done.after, "lock on.", "locked.", len(done.group))


def _closed(done: _Done) -> Iterator[Spoken]:
    label = done.group[0].set
    said = done.after.sets[label].stack.said
    says = f"no bricks now. Top plate and collars down, count what is on. It must be {said}."
    yield spoken_line(
        "bridge", done.house, label, done.after, says, f"{said} on, collars down, clear.", len(done.group)
    )


def _hung(done: _Done) -> Iterator[Spoken]:
    names = _pieces(done)
    label = done.group[0].set
    says = f"batten first. Hang {names}."
    if _are_sections(done):
        says = f"bolt on {names}. No bricks move meanwhile."
        yield spoken_line("deck", done.house, label, done.after, says, f"{names} on, clear below.", len(done.group))
        return
    if _tall(done.house, done.after, label, [step.piece for step in done.group]):
        says = f"batten first. Hang {names}, standing on the deck. Ties just taut."
    yield spoken_line("deck", done.house, label, done.after, says, f"{names} on, clear below.", len(done.group))


def _struck(done: _Done) -> Iterator[Spoken]:
    names = _pieces(done)
    left = "Nothing left on." if not done.after.sets[done.group[0].set].hung else "Leave the rest on."
    rigged, on = done.house.set_called(done.group[0].set), done.after.sets[done.group[0].set]
    first = "bricks are off. " if rigged is not None and on.stack == pipe_weight(rigged) else ""
    says, reply = f"{first}Strike {names}. {left}", f"{names} off, clear."
    if _are_sections(done):
        says = f"unbolt {names}. Leave the rest on. No bricks move meanwhile."
    yield spoken_line("deck", done.house, done.group[0].set, done.after, says, reply, len(done.group))


def _bricked(done: _Done) -> Iterator[Spoken]:
    label = done.group[0].set
    rigged = done.house.set_called(label)
    if rigged is None:
        return
    moved = [step for step in done.group if step.act in (Act.BRICKS_ON, Act.BRICKS_OFF)]
    stack = done.after.sets[label].stack
    for step in moved:
        verb = "add" if step.act is Act.BRICKS_ON else "take" if rigged.abreast > 1 else "take off"
        mass = step.bricks * rigged.brick.mass + step.small * (rigged.small.mass if rigged.small else 0.0)
        worth = worth_at_batten(done.house, rigged, mass)
        each = " on each arbor, by turns" if rigged.abreast > 1 and step.act is Act.BRICKS_ON else ""
        each = " off each arbor, by turns" if rigged.abreast > 1 and not each else each
        says = f"{place_first(done.house, step.bridge)}{verb} {_sizes(step)}{each}{worth}. "
        says += f"{stack.said} on{each_arbor(rigged)} after. "
        says += plates_on_top(stack.plates(rigged))
        to = spoken_to(done.house, step.bridge)
        reply = f"{stack.said} on{each_arbor(rigged)}, collars down, clear."
        yield spoken_line(to, done.house, label, done.after, says, reply, len(done.group))


def _sizes(step: Step) -> str:
    """What is moved, in the order in which it is moved: small ones last on, first off."""
    said = [bricks(step.bricks)] if step.bricks or not step.small else []
    small = [f"{step.small} small"] if step.small else []
    return ", then ".join(said + small if step.act is Act.BRICKS_ON else small + said)


def _counted(done: _Done) -> Iterator[Spoken]:
    step = done.group[0]
    said = Stack(step.bricks, step.small).said
    says = f"count what is on. It must be {said}."
    yield spoken_line("bridge", done.house, step.set, done.after, says, f"{said} on.", len(done.group))


def _flown(done: _Done) -> Iterator[Spoken]:
    label = done.group[0].set
    first = "second hold off. " if done.group[0].act is Act.HOLD_OFF else ""
    if len(done.group) == 1 and first:
        yield spoken_line("rail", done.house, label, done.after, "second hold off.", "hold off.", 1)
        return
    start, end = done.before.sets[label].height, done.after.sets[label].height
    moves = [step for step in done.group if step.act is Act.MOVE]
    says = f"{first}Two on the rope. Feel it, crack the lock."
    if done.before.sets[label].rated:
        says = f"{first}Strain on {all_of(done.before.sets[label].rated)}. Hand line tended, not held. Lock open."
    if not moves:
        says, reply = f"{says} Lock on.", "felt, locked."
    elif end == start:
        out = tell.height(done.house, moves[0].height - start)
        says, reply = f"{says} Out {out}, feel, back in, lock on.", "felt, locked."
    else:
        way = "out" if end > start else "in"
        felt = " feel both ways," if done.group[-2].act is Act.FEEL else ""
        says = f"{says} Slowly {way} to {tell.height(done.house, end)},{felt} lock on."
        reply = f"at {tell.height(done.house, end)}, locked."
        if end < start and _tall(done.house, done.after, label, list(done.after.sets[label].hung)):
            says += " It just lands, ties taut."
    yield spoken_line("rail", done.house, label, done.after, says[0].lower() + says[1:], reply, len(done.group))


def _rigged(done: _Done) -> Iterator[Spoken]:
    names = all_of(step.hold for step in done.group)
    says = f"{names} on, strain taken before the lock opens. One voice for hold, rail and bridge."
    yield spoken_line(
        "rail", done.house, done.group[0].set, done.after, says, f"{names} on, strain taken.", len(done.group)
    )


def _cleared(done: _Done) -> Iterator[Spoken]:
    names = all_of(step.hold for step in done.group)
    rigged, on = done.house.set_called(done.group[0].set), done.after.sets[done.group[0].set]
    felt = "" if rigged is None else tell.heavy(done.house, pull(rigged, on.stack, on.height, on.pieces(rigged)))
    says = f"lock on, {felt}. Ease {names}: what is felt goes to the lock. Then off."
    yield spoken_line("rail", done.house, done.group[0].set, done.after, says, f"{names} off.", len(done.group))


def _are_sections(done: _Done) -> bool:
    rigged = done.house.set_called(done.group[0].set)
    return rigged is not None and done.group[0].piece in {one.name for one in joins_of(rigged)}


_Speaker = Callable[[_Done], Iterator[Spoken]]
_LINES: dict[Act, _Speaker] = {
    Act.HOLD_ON: _held,
    Act.HANG: _hung,
    Act.STRIKE: _struck,
    Act.COLLARS_UP: _bricked,
    Act.COUNT: _counted,
    Act.HOLD_OFF: _flown,
    Act.LOCK_OPEN: _flown,
    Act.LOCK_ON: _locked,
    Act.COLLARS_DOWN: _closed,
    Act.RIG: _rigged,
    Act.CLEAR: _cleared,
}


def _pieces(done: _Done) -> str:
    return pieces_said(done.house.set_called(done.group[0].set), [step.piece for step in done.group])


def _tall(house: RiggedHouse, state: State, label: str, names: list[str]) -> bool:
    rigged = house.set_called(label)
    return (
        rigged is not None
        and state.sets[label].height > rigged.low
        and any(
            one.name in names and not one.off_the_floor and abs(one.clear - state.sets[label].height) < 1e-6
            for one in rigged.pieces
        )
    )
