"""Room left for one more load along a batten, whatever it is made of."""

from __future__ import annotations

from collections.abc import Sequence

from counterpoise.loadpath.hangs import chord_loads
from counterpoise.loadpath.loads import loads_of
from counterpoise.rigging import RiggedBatten
from counterpoise.statics import Beam, Limits, Room, Row, room_left

EVERYTHING = 1e5  # [N]: no extra load above this is looked for
HEAVY = 2  # of low, best, high


def room_for(
    rigged: RiggedBatten, rows: Sequence[Row], bending: float | None, sag: float | None, xs: Sequence[float]
) -> tuple[Room, ...]:
    """The largest extra load at each place before the first limit is met, with every uncertain weight at its heaviest.

    Args:
        rigged: the batten with what hangs on it.
        rows: limits on sums of line pulls.
        bending: what its maker or the house allows: a moment of a truss [N m], else a stress [Pa]; None: no limit.
        sag: as a share of a span; None: no limit.
        xs: places [m] from the stage-right end.

    A batten of several pipes is judged by the weakest of them all along. Raises Unproven.
    """
    heaviest = loads_of(rigged, [HEAVY] * len(rigged.pieces), bare=[HEAVY] * (2 + len(rigged.fixed)))
    stretches = rigged.made.stretches
    if isinstance(rigged.beam, Beam):
        strength = min((one.modulus for one in stretches), default=1.0)  # of a truss the limit is a moment already
        limits = Limits(rows=tuple(rows), moment=None if bending is None else bending * strength, sag_ratio=sag)
        return room_left(rigged.beam, rigged.lines, heaviest.all, limits, xs, cap=EVERYTHING)
    from counterpoise.statics import LadderLimits, room_on_ladder

    chord, judged = rigged.beam.bottom.section, stretches[0]
    # statics judge the nominal section: as much less is allowed there as the design section is weaker
    weaker = min(judged.area / chord.area, judged.modulus / chord.elastic_modulus)
    along = None if bending is None else bending * weaker
    ladder = LadderLimits(rows=tuple(rows), top_stress=along, bottom_stress=along, spacer_stress=bending, sag_ratio=sag)
    return room_on_ladder(rigged.beam, rigged.lines, chord_loads(heaviest), ladder, xs, cap=EVERYTHING)
