"""The calls before weight moves or a batten does: nobody below, and the answer."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from counterpoise.planning.spoken import Spoken, clear_line, flies_line
from counterpoise.planning.state import SetState, State
from counterpoise.rigging import RiggedHouse


def with_clears(house: RiggedHouse, label: str, lines: Sequence[Spoken], states: Sequence[State]) -> Iterator[Spoken]:
    """The lines with the deck's call where it is needed: at every stop before weight moves, and before it flies."""
    done, is_clear = 0, False
    for line in lines:
        before, after = states[done].sets[label], states[done + line.steps].sets[label]
        if not is_clear and _moves_weight(before, after):
            yield clear_line(house, label, states[done])
            is_clear = True
        if before.height != after.height:
            if not is_clear:
                yield flies_line(house, label, states[done], is_in=after.height < before.height)
            is_clear = False
        done += line.steps
        yield line


def _moves_weight(before: SetState, after: SetState) -> bool:
    return (before.hung, before.stack) != (after.hung, after.stack)
