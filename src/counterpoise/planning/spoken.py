"""A spoken line: who is told, what is said, what must come back, and how the set stands after it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from counterpoise.planning import tell
from counterpoise.planning.holds import standing
from counterpoise.planning.state import State
from counterpoise.rigging import RiggedHouse, RiggedSet


@dataclass(frozen=True, slots=True, kw_only=True)
class Spoken:
    """One line: its number, who is told, the set, what is said, the reply, and how the set stands after it.

    `is_branch` marks a line that is done only if what it asks turns out so; `steps` is how many steps it stands for.
    """

    number: int
    to: Literal["deck", "bridge", "rail"]
    set: str
    says: str
    reply: str
    after: str
    is_branch: bool = False
    steps: int = 0


def numbered(lines: Sequence[Spoken]) -> tuple[Spoken, ...]:
    """The same lines, counted from 1."""
    return tuple(replace(line, number=count) for count, line in enumerate(lines, start=1))


def how_it_stands(house: RiggedHouse, rigged: RiggedSet, state: State) -> str:
    """Which side is heavy, and what holds it."""
    on = state.sets[rigged.label]
    stands = standing(house, rigged, on.stack, on.height, on.pieces(rigged))
    by = " and ".join(on.rated) if stands.over > 0 and on.rated else f"the {stands.by}"
    return f"{tell.heavy(house, stands.pull)}, held by {by}"


def spoken_line(
    to: Literal["deck", "bridge", "rail"], house: RiggedHouse, label: str, after: State, says: str, reply: str, n: int
) -> Spoken:
    """One line, and how the set stands after it; `n` is how many steps it stands for."""
    rigged = house.set_called(label)
    stands = how_it_stands(house, rigged, after) if rigged else ""
    return Spoken(number=0, to=to, set=label, says=f"Set {label}: {says}", reply=f"Set {label}: {reply}", after=stands,
                  steps=n)  # fmt: skip


def clear_line(house: RiggedHouse, label: str, after: State) -> Spoken:
    """The call before any weight moves."""
    return spoken_line(
        "deck", house, label, after, "clear under bridge, arbor and batten. Nobody below.", "clear below.", 0
    )


def flies_line(house: RiggedHouse, label: str, before: State, *, is_in: bool) -> Spoken:
    """The call before a batten moves."""
    says = f"batten comes {'in' if is_in else 'out'}. Clear below."
    return spoken_line("deck", house, label, before, says, "clear below.", 0)
