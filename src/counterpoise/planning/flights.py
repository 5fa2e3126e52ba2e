"""The rail's part as steps: lock open, feel, move, lock on. Proposes only: the replay judges every step."""

from __future__ import annotations

from collections.abc import Iterator

from counterpoise.planning.state import Act, Step
from counterpoise.rigging import RiggedSet

_FEEL_HEIGHT = 0.3048  # [m]: far enough off its stop to be felt


def fly(label: str, height: float, to: float, *, feel: bool = False, feel_there: bool = False) -> Iterator[Step]:
    """From one batten height to another [m]; nothing where they are one, unless it is to be felt there."""
    if to == height and not feel:
        return
    yield Step(act=Act.LOCK_OPEN, set=label)
    yield Step(act=Act.FEEL, set=label)
    if to != height:
        yield Step(act=Act.MOVE, set=label, height=to)
        if feel_there:
            yield Step(act=Act.FEEL, set=label)
    yield Step(act=Act.LOCK_ON, set=label)


def feel_off_the_stop(rigged: RiggedSet, height: float) -> Iterator[Step]:
    """Out a little and back: on its stop a set tells nothing of its weight."""
    label, out = rigged.label, min(rigged.high, height + _FEEL_HEIGHT)
    yield Step(act=Act.LOCK_OPEN, set=label)
    yield Step(act=Act.FEEL, set=label)
    yield Step(act=Act.MOVE, set=label, height=out)
    yield Step(act=Act.FEEL, set=label)
    yield Step(act=Act.MOVE, set=label, height=height)
    yield Step(act=Act.LOCK_ON, set=label)


def felt_and_flown(
    rigged: RiggedSet, height: float, goal: float, *, feel_here: bool, feel_there: bool, feel: bool
) -> Iterator[Step]:
    """To where a load-in ends; one not known well is felt off its stop first, or where it ends."""
    if feel_here:
        yield from feel_off_the_stop(rigged, height)
    yield from fly(rigged.label, height, goal, feel=feel and not feel_here, feel_there=feel_there)
