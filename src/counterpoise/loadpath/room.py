"""Room left for one more load along a batten, whatever it is made of."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

from counterpoise.loadpath.corners import corner_count, corners_of
from counterpoise.loadpath.hangs import Hangs, Rope, chord_loads
from counterpoise.loadpath.loads import Loads, loads_of
from counterpoise.rigging import RiggedBatten
from counterpoise.statics import Beam, Limits, Line, PointLoad, Room, Row, Tips, room_left

EVERYTHING = 1e5  # [N]: no extra load above this is looked for
FINE = 1.0  # [N]; nearer than this the force that a tip or a shear allows is not sought
ROOM_CORNERS = 64  # corners of what is in doubt that are looked at, each along the whole batten
_Judge = Callable[[Sequence[Line], Loads, Sequence[float]], tuple[Room, ...]]


def room_for(
    rigged: RiggedBatten,
    rows: Sequence[Row],
    bending: float | None,
    sag: float | None,
    xs: Sequence[float],
    *,
    tip: float | None = None,
    shear: float | None = None,
    splices: Sequence[tuple[float, float]] = (),
) -> tuple[Room, ...]:
    """The largest extra load at each place before the first limit is met, wherever what is in doubt may lie.

    Args:
        rigged: the batten with what hangs on it.
        rows: limits on sums of line pulls.
        bending: what its maker or the house allows: a moment of a truss [N m], else a stress [Pa]; None: no limit.
        sag: as a share of a span; None: no limit.
        xs: places [m] from the stage-right end.
        tip: how far a tip may drop, as a share of its overhang; None: no limit.
        shear: what its maker allows of a truss [N]; None: no limit.
        splices: of a pipe, where each stands [m] and what may stress it there [Pa].

    Returns:
        A room for each place; none where so much is in doubt that not every corner of it is looked at, and none where
        lines lean: a load there changes where the batten drifts to, and with it all of this.

    What hangs in one span relieves another, so no one corner is the worst: the least of all corners counts, up to the
    load at which another choice of lines would carry at one of them. To there it is proven: where the same lines carry
    at every corner, with nothing more and with all of the load, they carry everywhere between, as the place where a
    choice is the true one has flat sides in loads and doubts together; in it everything runs straight. A batten of
    several pipes is judged by the weakest of them all along. Raises Unproven.
    """
    if rigged.runs or corner_count(rigged) > ROOM_CORNERS:
        return ()
    judge = _judge(rigged, rows, bending, sag)
    states = [(rigged.lines, loads_of(rigged)), *((lines, loads_of(rigged, pieces, bare, height, cables))
              for pieces, cables, bare, height, lines in corners_of(rigged))]  # fmt: skip
    least: tuple[Room, ...] = ()
    for lines, loads in states:
        found = judge(lines, loads, xs)
        if tip is not None:
            drop = partial(_drops_within, tip)
            found = tuple(_within(rigged, lines, loads, one, "overhang", drop) for one in found)
        if shear is not None:
            sheared = partial(_sheared_within, shear)
            found = tuple(_within(rigged, lines, loads, one, "batten", sheared) for one in found)
        if splices:
            spliced = partial(_spliced_within, splices)
            found = tuple(_within(rigged, lines, loads, one, "splice", spliced) for one in found)
        least = tuple(map(_lesser, least, found)) if least else found
    if len(states) > 1:
        return _proven(Rope(rigged), states, least)
    return least


_States = Sequence[tuple[Sequence[Line], Loads]]


def _proven(rope: Rope, states: _States, rooms: Sequence[Room]) -> tuple[Room, ...]:
    """The rooms up to where at some corner other lines would carry than do now at all of them."""
    now = _carrying(rope, states, ())
    if len(now) > 1:
        return tuple(Room(x=one.x, force=0.0, which="slack") for one in rooms)

    def alike(x: float, force: float) -> bool:
        return _carrying(rope, states, (PointLoad(x=x, force=force),)) == now

    return tuple(_at_most(one, "slack", partial(alike, one.x)) for one in rooms)


def _carrying(rope: Rope, states: _States, more: tuple[PointLoad, ...]) -> set[tuple[int, ...]]:
    """The choices of lines that carry at the corners, () where it tips."""
    found = (rope.hang(lines, replace(loads, pieces=(*loads.pieces, more))) for lines, loads in states)
    return {() if isinstance(one, Tips) else one.carrying for one in found}


def _lesser(one: Room, other: Room) -> Room:
    return one if one.force <= other.force else other


def _judge(rigged: RiggedBatten, rows: Sequence[Row], bending: float | None, sag: float | None) -> _Judge:
    """What finds the room for one choice of what is in doubt."""
    stretches = rigged.made.stretches
    if isinstance(rigged.beam, Beam):
        beam = rigged.beam
        strength = min((one.modulus for one in stretches), default=1.0)  # of a truss the limit is a moment already
        limits = Limits(rows=tuple(rows), moment=None if bending is None else bending * strength, sag_ratio=sag)
        return lambda lines, loads, xs: room_left(beam, lines, loads.all, limits, xs, cap=EVERYTHING)
    from counterpoise.statics import LadderLimits, room_on_ladder

    ladder, judged = rigged.beam, stretches[0]
    chord = ladder.bottom.section
    # statics judge the nominal section: as much less is allowed there as the design section is weaker
    weaker = min(judged.area / chord.area, judged.modulus / chord.elastic_modulus)
    along = None if bending is None else bending * weaker
    most = LadderLimits(rows=tuple(rows), top_stress=along, bottom_stress=along, spacer_stress=bending, sag_ratio=sag)
    return lambda lines, loads, xs: room_on_ladder(ladder, lines, chord_loads(loads), most, xs, cap=EVERYTHING)


def _drops_within(most: float, hangs: Hangs) -> bool:
    return all(drop <= most * reach for reach, drop in hangs.tips)


def _spliced_within(splices: Sequence[tuple[float, float]], hangs: Hangs) -> bool:
    return all(hangs.stress_at(x) <= most for x, most in splices)


def _sheared_within(most: float, hangs: Hangs) -> bool:
    return hangs.largest_shear <= most


def _within(
    rigged: RiggedBatten, lines: Sequence[Line], loads: Loads, room: Room, which: str, keeps: Callable[[Hangs], bool]
) -> Room:
    """The room less what breaks one limit more, told from the side that is within, to a pound or less.

    What is looked at grows with the load while the same lines carry, so a halving finds where it is met.
    """
    rope = Rope(rigged)

    def fits(force: float) -> bool:
        more = (*loads.pieces, (PointLoad(x=room.x, force=force),))
        hangs = rope.hang(lines, replace(loads, pieces=more))
        return isinstance(hangs, Tips) or keeps(hangs)

    return _at_most(room, which, fits)


def _at_most(room: Room, which: str, fits: Callable[[float], bool]) -> Room:
    """The room, or the force nearest to it that fits, found by halving."""
    if room.force <= 0.0 or fits(room.force):
        return room
    low, high = 0.0, room.force
    while high - low > FINE:
        middle = (low + high) / 2.0
        low, high = (middle, high) if fits(middle) else (low, middle)
    return Room(x=room.x, force=low, which=which)
