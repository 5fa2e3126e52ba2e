"""Room left for one more load along a batten, whatever it is made of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from counterpoise.loadpath.hangs import Rope, chord_loads
from counterpoise.loadpath.loads import Loads, loads_of
from counterpoise.rigging import RiggedBatten
from counterpoise.statics import Beam, Limits, PointLoad, Room, Row, Tips, room_left

EVERYTHING = 1e5  # [N]: no extra load above this is looked for
FINE = 1.0  # [N]; nearer than this the force that a tip allows is not sought
HEAVY = 2  # of low, best, high


def room_for(
    rigged: RiggedBatten,
    rows: Sequence[Row],
    bending: float | None,
    sag: float | None,
    xs: Sequence[float],
    *,
    tip: float | None = None,
) -> tuple[Room, ...]:
    """The largest extra load at each place before the first limit is met, with every uncertain weight at its heaviest.

    Args:
        rigged: the batten with what hangs on it.
        rows: limits on sums of line pulls.
        bending: what its maker or the house allows: a moment of a truss [N m], else a stress [Pa]; None: no limit.
        sag: as a share of a span; None: no limit.
        xs: places [m] from the stage-right end.
        tip: how far a tip may drop, as a share of its overhang; None: no limit.

    A batten of several pipes is judged by the weakest of them all along. Raises Unproven.
    """
    bare = [HEAVY] * (len(rigged.pipe_spreads or (0.0,)) + 1 + len(rigged.fixed))
    heaviest = loads_of(rigged, [HEAVY] * len(rigged.pieces), bare=bare, cables=[HEAVY] * len(rigged.cables))
    stretches = rigged.made.stretches
    if isinstance(rigged.beam, Beam):
        strength = min((one.modulus for one in stretches), default=1.0)  # of a truss the limit is a moment already
        limits = Limits(rows=tuple(rows), moment=None if bending is None else bending * strength, sag_ratio=sag)
        found = room_left(rigged.beam, rigged.lines, heaviest.all, limits, xs, cap=EVERYTHING)
        return found if tip is None else tuple(_within_tips(rigged, heaviest, one, tip) for one in found)
    from counterpoise.statics import LadderLimits, room_on_ladder

    chord, judged = rigged.beam.bottom.section, stretches[0]
    # statics judge the nominal section: as much less is allowed there as the design section is weaker
    weaker = min(judged.area / chord.area, judged.modulus / chord.elastic_modulus)
    along = None if bending is None else bending * weaker
    ladder = LadderLimits(rows=tuple(rows), top_stress=along, bottom_stress=along, spacer_stress=bending, sag_ratio=sag)
    rooms = room_on_ladder(rigged.beam, rigged.lines, chord_loads(heaviest), ladder, xs, cap=EVERYTHING)
    return rooms if tip is None else tuple(_within_tips(rigged, heaviest, one, tip) for one in rooms)


def _within_tips(rigged: RiggedBatten, heaviest: Loads, room: Room, tip: float) -> Room:
    """The room less what lets a tip drop too far, told from the side that is within, to a pound or less.

    A tip drops in proportion to the load while the same lines carry, so a halving finds where it has dropped too far.
    """
    rope = Rope(rigged)

    def fits(force: float) -> bool:
        more = (*heaviest.pieces, (PointLoad(x=room.x, force=force),))
        hangs = rope.hang(rigged.lines, replace(heaviest, pieces=more))
        return isinstance(hangs, Tips) or all(drop <= tip * reach for reach, drop in hangs.tips)

    if room.force <= 0.0 or fits(room.force):
        return room
    low, high = 0.0, room.force
    while high - low > FINE:
        middle = (low + high) / 2.0
        low, high = (middle, high) if fits(middle) else (low, middle)
    return Room(x=room.x, force=low, which="overhang")
