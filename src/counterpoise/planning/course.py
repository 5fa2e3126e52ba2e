"""A way for one set from where it stands: what is done at which height, and the same as steps. Judges nothing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from counterpoise.balance import Stack
from counterpoise.planning.flights import felt_and_flown, fly
from counterpoise.planning.goal import Target
from counterpoise.planning.holds import Pull
from counterpoise.planning.state import Act, SetState, Step
from counterpoise.rigging import RiggedSet


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """What is done at one batten height [m]: pieces hung, then bricks changed, then pieces struck."""

    height: float
    pieces: tuple[str, ...]
    before: Stack
    after: Stack
    bridge: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """A way from here: its visits, the height and stack it ends with, and the most either side is heavy in it."""

    works: tuple[Work, ...]
    height: float
    stack: Stack
    arbor: Pull
    batten: Pull


def steps_from(rigged: RiggedSet, on: SetState, target: Target, course: Course, *, to_feel: bool) -> tuple[Step, ...]:
    """A way as steps, from hands and collars as they are; `to_feel` has it felt off its stop after its last work."""
    return tuple(_steps(rigged, on, target, course, to_feel=to_feel))


def _steps(rigged: RiggedSet, on: SetState, target: Target, course: Course, *, to_feel: bool) -> Iterator[Step]:
    label, height, held, is_open, stack = rigged.label, on.height, on.held, not on.collars_down, on.stack
    if not on.locked:
        yield Step(act=Act.LOCK_ON, set=label)
    for work in course.works:
        if work.height != height:
            yield from _closed(label, stack, held=held, is_open=is_open)
            yield from fly(label, height, work.height)
            height, held, is_open = work.height, False, False
        if not held:
            yield Step(act=Act.HOLD_ON, set=label)
        held = True
        hang = Act.STRIKE if target.is_strike else Act.HANG
        pieces = [Step(act=hang, set=label, piece=name) for name in work.pieces]
        yield from () if target.is_strike else pieces
        yield from _bricks(label, work)
        is_open = is_open and work.before == work.after
        yield from pieces if target.is_strike else ()
        stack = work.after
    yield from _closed(label, stack, held=held, is_open=is_open)
    yield from (Step(act=Act.CLEAR, set=label, hold=name) for name in on.rated if course.height == height)
    yield from felt_and_flown(rigged, height, course.height, feel_here=to_feel and bool(course.works), feel_there=False,
                              feel=bool(course.works))  # fmt: skip
    yield from (Step(act=Act.CLEAR, set=label, hold=name) for name in on.rated if course.height != height)


def _closed(label: str, stack: Stack, *, held: bool, is_open: bool) -> Iterator[Step]:
    if is_open:
        yield Step(act=Act.COLLARS_DOWN, set=label)
        yield Step(act=Act.COUNT, set=label, bricks=stack.bricks, small=stack.small)
    if held:
        yield Step(act=Act.HOLD_OFF, set=label)


def _bricks(label: str, work: Work) -> Iterator[Step]:
    large, small = work.after.bricks - work.before.bricks, work.after.small - work.before.small
    if large or small:
        act = Act.BRICKS_ON if large + small > 0 else Act.BRICKS_OFF
        yield Step(act=Act.COLLARS_UP, set=label)
        yield Step(act=act, set=label, bricks=abs(large), small=abs(small), bridge=work.bridge)
        yield Step(act=Act.COLLARS_DOWN, set=label)
        yield Step(act=Act.COUNT, set=label, bricks=work.after.bricks, small=work.after.small)
