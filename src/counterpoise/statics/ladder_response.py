"""The answer of a ladder truss to one set of loads moved along it. The truss is made ready once."""

from collections.abc import Sequence

from counterpoise.statics.hanger import Hanger
from counterpoise.statics.hanging import Tips
from counterpoise.statics.hung_ladder import HangingLadder
from counterpoise.statics.ladder import ChordLoads, Ladder
from counterpoise.statics.model import Line, set_at


def response_on_ladder(
    ladder: Ladder, lines: Sequence[Line], loads: ChordLoads, moved: ChordLoads, xs: Sequence[float]
) -> tuple[HangingLadder | Tips, ...]:
    """The answer with `moved` set at each x, beside `loads` that stay.

    Args:
        ladder, lines, loads: as for hang_ladder.
        moved: loads with places relative to 0; at x they hang at x + their own place.
        xs: places [m].

    Returns:
        For each x the same as hang_ladder. The shape, and with it members and sag, is only worked out where asked for.

    Raises:
        OutOfRange: as hang_ladder, also when a moved load would hang off the truss at some x.
        Unproven: an answer did not stand its proof.
    """
    hanger = Hanger(ladder, [line.x for line in lines])
    return tuple(
        hanger.hang(
            lines,
            ChordLoads(
                bottom=(*loads.bottom, *set_at(moved.bottom, x)),
                top=(*loads.top, *set_at(moved.top, x)),
            ),
        )
        for x in xs
    )
