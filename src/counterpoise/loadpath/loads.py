"""What hangs on a batten, as loads: what is fixed to it on its top, what is hung on it below."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from counterpoise.rigging import RiggedBatten, RiggedPiece
from counterpoise.statics import Load, PointLoad, SpreadLoad
from counterpoise.units import STANDARD_GRAVITY as GRAVITY

BEST = 1  # of low, best, high


@dataclass(frozen=True, slots=True)
class Loads:
    """Loads [N]. On a pipe it is one who is on top and who below; on a ladder they are made to different chords."""

    bare: tuple[Load, ...]  # pipe and fittings
    fixed: tuple[Load, ...]  # what stays on it, hung below
    pieces: tuple[tuple[Load, ...], ...]  # each without its cable, hung below
    cables: tuple[Load, ...] = ()  # hung below

    @property
    def below(self) -> list[Load]:
        """All that hangs below."""
        return [*self.fixed, *(load for piece in self.pieces for load in piece), *self.cables]

    @property
    def all(self) -> list[Load]:
        """Everything."""
        return [*self.bare, *self.below]


def loads_of(
    rigged: RiggedBatten,
    which: Sequence[int] | None = None,
    bare: Sequence[int] | None = None,
    height: float | None = None,
    cables: Sequence[int] | None = None,
) -> Loads:
    """Batten, hardware, what is fixed to it, pieces and their cable as loads, everything free of the deck.

    Args:
        rigged: the batten.
        which: low, best or high (0, 1, 2) for each piece; best by default.
        bare: low, best or high (0, 1, 2) for each written weight of pipe (`pipe_spreads`), for the hardware and for
            each thing that is fixed to the batten; best by default.
        height: of the batten [m], for the cable it carries; high trim by default, where that is most.
        cables: low, best or high (0, 1, 2) for each cable; best by default.

    The hardware is shared equally among the lines, at their places.
    """
    spreads = rigged.pipe_spreads or (0.0,)
    count = len(spreads)
    ends = bare if bare is not None else [BEST] * (count + 1 + len(rigged.fixed))
    pipes = []
    for (start, end, mass), of in zip(rigged.made.per_length, rigged.made.written, strict=True):
        scale = 1.0 + (ends[of] - BEST) * spreads[of]
        pipes.append(SpreadLoad(start=start, end=end, per_length=GRAVITY * scale * mass))
    each = GRAVITY * (rigged.hardware_mass + (ends[count] - BEST) * rigged.hardware_doubt) / len(rigged.lines)
    fixed = [load for one, end in zip(rigged.fixed, ends[count + 1 :], strict=True)
             for load in _placed(GRAVITY * one.mass[end], one.spread, ((one.x, 1.0),))]  # fmt: skip
    at = rigged.high if height is None else height
    hung = [tuple(piece_loads(piece, GRAVITY * piece.mass[which[index] if which else BEST]))
            for index, piece in enumerate(rigged.pieces)]  # fmt: skip
    wires = [PointLoad(x=cable.x, force=GRAVITY * cable.on_batten(at) * cable.line_mass[end])
             for cable, end in zip(rigged.cables, cables or [BEST] * len(rigged.cables), strict=True)]  # fmt: skip
    lines = (PointLoad(x=line.x, force=each) for line in rigged.lines)
    return Loads(bare=(*pipes, *lines), fixed=tuple(fixed), pieces=tuple(hung), cables=tuple(wires))


def piece_loads(piece: RiggedPiece, weight: float) -> list[Load]:
    """One piece of that weight [N] as loads."""
    return _placed(weight, piece.spread, piece.points)


def _placed(weight: float, spread: tuple[float, float] | None, points: Sequence[tuple[float, float]]) -> list[Load]:
    if spread is not None:
        start, end = spread
        return [SpreadLoad(start=start, end=end, per_length=weight / (end - start))]
    return [PointLoad(x=x, force=weight * share) for x, share in points]
