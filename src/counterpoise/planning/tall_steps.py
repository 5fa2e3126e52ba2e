"""The way of a tall piece as steps: what is hung, bolted on and loaded at each stop, and the rated hold around it.

Proposes only: the replay judges every step.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from counterpoise.planning.felt import Felt
from counterpoise.planning.flights import fly
from counterpoise.planning.state import Act, Step
from counterpoise.planning.tall import Change, TallWay
from counterpoise.planning.windows import stack_of
from counterpoise.rigging import RiggedHouse, RiggedSet


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """One height at which work is done [m]: in their order what is hung or bolted on and which bricks are changed."""

    height: float
    work: tuple[str | Change, ...]


def stops_of(way: TallWay) -> tuple[Stop, ...]:
    """The stops of a way, lowest first; the batten flies from one to the next, and from the last to the goal."""
    found: list[Stop] = []
    for k, here in enumerate(way.stations):
        work: tuple[str | Change, ...] = (*here.hang, *(one for one in way.changes if one.station == k))
        if work and found and found[-1].height == here.height:
            found[-1] = Stop(height=here.height, work=(*found[-1].work, *work))
        elif work:
            found.append(Stop(height=here.height, work=work))
    return tuple(found)


def held_from_to(house: RiggedHouse, rigged: RiggedSet, way: TallWay) -> tuple[int, int] | None:
    """The first stop at which a rated hold goes on and the last at which it comes off again, by their number.

    At the first, or on the way from it, lock and stops do not hold; at the last, or on the way to it, for the last
    time. None where they hold throughout. The goal counts as one stop more.
    """
    felt, stops = Felt(house, rigged), stops_of(way)
    bricks, hung = rigged.pipe_bricks, way.stations[0].hung
    here: list[bool] = []
    legs: list[bool] = []
    for stop, to in zip(stops, [*(one.height for one in stops[1:]), way.goal], strict=True):
        beyond = False
        for work in stop.work:
            if isinstance(work, Change):
                step = 1 if work.after > work.before else -1
                counts = range(work.before + step, work.after + step, step)
                beyond |= not all(felt.stands(count, stop.height, hung) for count in counts)
                bricks = work.after
            else:
                hung = (*hung, work)
                beyond |= not felt.stands(bricks, stop.height, hung)
        here.append(beyond)
        legs.append(not felt.moved(bricks, stop.height, to, hung).is_within)
    on = [at for at, beyond in enumerate(here) if beyond or legs[at]]
    off = [at for at, beyond in enumerate([*here, False]) if beyond or (at and legs[at - 1])]
    return (on[0], max(on[0], off[-1])) if on else None


def tall_load_steps(
    rigged: RiggedSet, way: TallWay, holds: Sequence[str] = (), span: tuple[int, int] | None = None
) -> Iterator[Step]:
    """From an empty set at low trim to the goal, with these rated holds on from the first stop of a span to its last.

    `span` is as `held_from_to` gives it.
    """
    label, height = rigged.label, rigged.low
    for number, stop in enumerate(stops_of(way)):
        yield from fly(label, height, stop.height)
        height = stop.height
        yield Step(act=Act.HOLD_ON, set=label)
        if span is not None and number == span[0]:
            yield from (Step(act=Act.RIG, set=label, hold=name) for name in holds)
        for work in stop.work:
            if isinstance(work, Change):
                yield from _bricks(rigged, work.before, work.after, work.place)
            else:
                yield Step(act=Act.HANG, set=label, piece=work)
        if span is not None and number == span[1]:
            yield from (Step(act=Act.CLEAR, set=label, hold=name) for name in reversed(holds))
        yield Step(act=Act.HOLD_OFF, set=label)
    yield from fly(label, height, way.goal, feel=True)
    if span is not None and span[1] >= len(stops_of(way)):
        yield from _at_the_goal(label, Act.CLEAR, tuple(reversed(holds)))


def tall_strike_steps(
    rigged: RiggedSet, way: TallWay, holds: Sequence[str] = (), span: tuple[int, int] | None = None
) -> Iterator[Step]:
    """The exact reverse of the load-in: from the goal to an empty set at low trim, arbor first."""
    label, height = rigged.label, way.goal
    if span is not None and span[1] >= len(stops_of(way)):
        yield from _at_the_goal(label, Act.RIG, holds)
    for number, stop in reversed(tuple(enumerate(stops_of(way)))):
        yield from fly(label, height, stop.height)
        height = stop.height
        yield Step(act=Act.HOLD_ON, set=label)
        if span is not None and number == span[1]:
            yield from (Step(act=Act.RIG, set=label, hold=name) for name in holds)
        for work in reversed(stop.work):
            if isinstance(work, Change):
                yield from _bricks(rigged, work.after, work.before, work.place)
            else:
                yield Step(act=Act.STRIKE, set=label, piece=work)
        if span is not None and number == span[0]:
            yield from (Step(act=Act.CLEAR, set=label, hold=name) for name in reversed(holds))
        yield Step(act=Act.HOLD_OFF, set=label)
    yield from fly(label, height, rigged.low, feel=True)


def _at_the_goal(label: str, act: Act, holds: Sequence[str]) -> Iterator[Step]:
    yield Step(act=Act.HOLD_ON, set=label)
    yield from (Step(act=act, set=label, hold=name) for name in holds)
    yield Step(act=Act.HOLD_OFF, set=label)


def _bricks(rigged: RiggedSet, before: int, after: int, place: str) -> Iterator[Step]:
    label, act = rigged.label, Act.BRICKS_ON if after > before else Act.BRICKS_OFF
    was, stack = stack_of(rigged, before), stack_of(rigged, after)
    yield Step(act=Act.COLLARS_UP, set=label)
    large, small = abs(stack.bricks - was.bricks), abs(stack.small - was.small)
    yield Step(act=act, set=label, bricks=large, small=small, bridge=place)
    yield Step(act=Act.COLLARS_DOWN, set=label)
    yield Step(act=Act.COUNT, set=label, bricks=stack.bricks, small=stack.small)


def is_tall(rigged: RiggedSet) -> bool:
    """True where a piece is tipped up from its foot or bolted together as it rises."""
    return any(part.joins > rigged.low or part.tipped is not None for one in rigged.pieces for part in one.parts)
