"""The ends of what is in doubt of a batten: weights light and heavy, trims long and short, cable low and high."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from counterpoise.loadpath.loads import BEST
from counterpoise.rigging import RiggedBatten
from counterpoise.statics import Line

MOST_CORNERS = 256  # above these the extremes are sought by linear programmes; below, only where lines go slack


def heights_of(rigged: RiggedBatten) -> tuple[float, ...]:
    """With cable, where all hangs free, where what hangs of a cable changes its slope, and the highest it flies.

    Where lines lean `Leaning` says which heights are looked at.
    """
    return with_kinks(rigged) if rigged.cables and not rigged.runs else (rigged.high,)


def with_kinks(rigged: RiggedBatten) -> tuple[float, ...]:
    """From where all hangs free up to high trim, and where on the way what hangs of a cable changes its slope [m]."""
    kinks = {at for one in rigged.cables for at in one.changes if rigged.clear < at < rigged.high}
    return tuple(sorted({rigged.clear, rigged.high} | kinks))


def between(heights: Sequence[float], parts: int) -> tuple[float, ...]:
    """The heights, and others evenly between each two of them."""
    found = [low + (high - low) * i / parts for low, high in itertools.pairwise(heights) for i in range(parts)]
    return (*found, heights[-1])


def corner_count(rigged: RiggedBatten) -> int:
    """At how many ends of what is in doubt a batten would have to be looked at, at one height."""
    trims: int = 2 ** sum(off > 0.0 for off in rigged.trim_doubts)
    return math.prod(map(len, (*_piece_ends(rigged), *_cable_ends(rigged), *_bare_ends(rigged)))) * trims


def corners_of(
    rigged: RiggedBatten,
) -> Iterator[tuple[Sequence[int], Sequence[int], Sequence[int], float, Sequence[Line]]]:
    """Pieces, cables and what the batten is of each light or heavy, cable low and high, doubtful lines long or short.

    Where that makes too many, all light and all heavy with the lines as they are written.
    """
    groups = (_piece_ends(rigged), _cable_ends(rigged), _bare_ends(rigged))
    weights: Iterable[tuple[Sequence[int], ...]] = itertools.product(*(itertools.product(*one) for one in groups))
    trims: Iterable[Sequence[Line]] = _trims(rigged)
    if corner_count(rigged) > MOST_CORNERS:
        weights = [tuple(tuple(ends[side] for ends in one) for one in groups) for side in (0, -1)]
        trims = (rigged.lines,)
    for one, height, lines in itertools.product(weights, heights_of(rigged), trims):
        if any(end != BEST for ends in one for end in ends) or height != rigged.high or lines is not rigged.lines:
            yield one[0], one[1], one[2], height, lines


def _trims(rigged: RiggedBatten) -> Iterator[Sequence[Line]]:
    """The lines as written, or, where trims are in doubt, with every choice of them long or short."""
    doubts = rigged.trim_doubts or (0.0,) * len(rigged.lines)
    if not any(doubts):
        yield rigged.lines
        return
    for signs in itertools.product(*((-1.0, 1.0) if off > 0.0 else (0.0,) for off in doubts)):
        yield tuple(replace(line, offset=line.offset + sign * off)
                    for line, sign, off in zip(rigged.lines, signs, doubts, strict=True))  # fmt: skip


def _bare_ends(rigged: RiggedBatten) -> list[tuple[int, ...]]:
    """Of each weight of pipe, of fittings and each thing fixed: light and heavy where in doubt, else the best."""
    doubts = [*(rigged.pipe_spreads or (0.0,)), rigged.hardware_doubt,
              *(one.mass[2] - one.mass[0] for one in rigged.fixed)]  # fmt: skip
    return [(0, 2) if off > 0.0 else (BEST,) for off in doubts]


def _piece_ends(rigged: RiggedBatten) -> list[tuple[int, ...]]:
    return [(BEST,) if piece.is_certain else (0, 2) for piece in rigged.pieces]


def _cable_ends(rigged: RiggedBatten) -> list[tuple[int, ...]]:
    return [(0, 2) if one.line_mass[0] != one.line_mass[2] else (BEST,) for one in rigged.cables]
