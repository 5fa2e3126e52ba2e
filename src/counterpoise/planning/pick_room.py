"""Where along a batten a pick may be put: a clamp needs pipe either side of it."""

from __future__ import annotations

from counterpoise.documents import Piece
from counterpoise.rigging import RiggedBatten
from counterpoise.units import METRES_PER_INCH, Style, length, place

CLAMP = 3.0 * METRES_PER_INCH  # [m]; a pipe clamp is 2 to 3 in wide. Common practice, no source: no house writes it
NEARLY = 1e-6  # [m]


def has_room(piece: Piece, centre: float, batten: RiggedBatten) -> bool:
    """True where each pick of a piece lies a clamp's width and more from both ends and from each splice.

    Args:
        piece: as written; what is spread evenly is tied, and needs no clamp.
        centre: of the piece, from the middle of the batten [m].
        batten: that it is to hang on.
    """
    if piece.spread_over is not None:
        return True
    long, half = batten.beam.length, batten.beam.length / 2
    spliced = [place(one.at, length=long).best for one in batten.written.batten.splices]
    picks = [half + centre + pick.number for pick in piece.picks if pick.best is not None]
    off = [min(x, long - x, *(abs(x - at) for at in spliced if at is not None)) for x in picks]
    return all(each >= CLAMP - NEARLY for each in off)


def kept_off(style: Style) -> str:
    """The rule in words, for a mend that it limits."""
    return f", its picks {length(CLAMP, style)} or more from the ends and splices of the pipe"
