"""Line forces of one set from what hangs on it, with the range that uncertain weights bring."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from counterpoise.balance import Span
from counterpoise.rigging import RiggedBatten, RiggedPiece
from counterpoise.statics import Hanging, Line, Load, PointLoad, SpreadLoad, Tips, hang
from counterpoise.units import STANDARD_GRAVITY as GRAVITY

NOTHING = Span(0.0, 0.0, 0.0)
BEST = 1  # of low, best, high
MOST_CORNERS = 4096  # twelve uncertain pieces on one set; above that only all-light and all-heavy are tried


@dataclass(frozen=True, slots=True)
class Forces:
    """The batten at the best figures, and at every corner of the uncertain weights that was tried."""

    best: Hanging
    corners: tuple[Hanging, ...]

    def span(self, coefficients: Sequence[float], constant: Span = NOTHING) -> Span:
        """Σ c·T + constant over the corners [N]."""
        sums = [sum(c * t for c, t in zip(coefficients, one.tensions, strict=True)) for one in self.corners]
        best = sum(c * t for c, t in zip(coefficients, self.best.tensions, strict=True))
        return Span(min(sums) + constant.low, best + constant.best, max(sums) + constant.high)

    @property
    def tensions(self) -> tuple[Span, ...]:
        """The pull in each line just above the batten [N]."""
        count = len(self.best.tensions)
        return tuple(self.span([float(i == j) for j in range(count)]) for i in range(count))

    @property
    def moment(self) -> Span:
        """The largest bending moment, without sign [N m]."""
        sizes = [abs(one.largest_moment[0]) for one in self.corners]
        return Span(min(sizes), abs(self.best.largest_moment[0]), max(sizes))

    def moment_at(self, x: float) -> Span:
        """The bending moment at one place, without sign [N m]."""
        sizes = [abs(one.moment(x)) for one in self.corners]
        return Span(min(sizes), abs(self.best.moment(x)), max(sizes))


@dataclass(frozen=True, slots=True)
class Tipping:
    """An answer, not an error: the centre of gravity lies outside the outer lines.

    It is certain where the best figures tip, and not where only a corner of the uncertain weights does.
    """

    tips: Tips
    is_certain: bool = True


def loads_of(
    rigged: RiggedBatten, which: Sequence[int] | None = None, bare: int = BEST, height: float | None = None
) -> list[Load]:
    """Batten, hardware, what is fixed to it, pieces and their cable as loads [N], everything free of the deck.

    Args:
        rigged: the batten.
        which: low, best or high (0, 1, 2) for each piece; best by default.
        bare: low, best or high (0, 1, 2) for pipe, hardware and what is fixed to the batten, together.
        height: of the batten [m], for the cable it carries; high trim by default, where that is most.

    The hardware is shared equally among the lines, at their places.
    """
    own = rigged.batten_mass + rigged.hardware_mass
    scale = 1.0 + (bare - 1) * rigged.batten_doubt / own if own > 0.0 else 1.0
    pipe = SpreadLoad(
        start=0.0, end=rigged.beam.length, per_length=GRAVITY * scale * rigged.batten_mass / rigged.beam.length
    )
    each = GRAVITY * scale * rigged.hardware_mass / len(rigged.lines)
    loads: list[Load] = [pipe, *(PointLoad(x=line.x, force=each) for line in rigged.lines)]
    for one in rigged.fixed:
        loads += _placed(GRAVITY * one.mass[bare], one.spread, ((one.x, 1.0),))
    for index, piece in enumerate(rigged.pieces):
        at = which[index] if which else BEST
        loads += piece_loads(piece, GRAVITY * piece.mass[at])
        for cable in rigged.cables:
            if cable.name == piece.name:
                length = cable.on_batten(rigged.high if height is None else height)
                loads.append(PointLoad(x=cable.x, force=GRAVITY * length * cable.line_mass[at]))
    return loads


def piece_loads(piece: RiggedPiece, weight: float) -> list[Load]:
    """One piece of that weight [N] as loads."""
    return _placed(weight, piece.spread, piece.points)


def _placed(weight: float, spread: tuple[float, float] | None, points: Sequence[tuple[float, float]]) -> list[Load]:
    if spread is not None:
        start, end = spread
        return [SpreadLoad(start=start, end=end, per_length=weight / (end - start))]
    return [PointLoad(x=x, force=weight * share) for x, share in points]


def forces_of(rigged: RiggedBatten) -> Forces | Tipping:
    """Line forces with everything hung and free of the deck. Raises Unproven where statics cannot prove its answer."""
    best = hang(rigged.beam, rigged.lines, loads_of(rigged))
    if isinstance(best, Tips):
        return Tipping(best)
    corners = [best]
    for which, bare, height, lines in _corners(rigged):
        one = hang(rigged.beam, lines, loads_of(rigged, which, bare, height))
        if isinstance(one, Tips):
            return Tipping(one, is_certain=False)
        corners.append(one)
    return Forces(best, tuple(corners))


def _corners(rigged: RiggedBatten) -> Iterator[tuple[Sequence[int], int, float, Sequence[Line]]]:
    """Each piece and the bare batten light or heavy, cable low and high, each line of doubtful trim long or short."""
    heights = (rigged.clear, rigged.high) if rigged.cables else (rigged.high,)
    light, _, heavy = rigged.bare_mass
    bare = (BEST,) if light == heavy else (0, 2)
    choices = [_ends(rigged, piece) for piece in rigged.pieces]
    trims = list(_trims(rigged))
    if math.prod(len(one) for one in choices) * len(trims) > MOST_CORNERS:
        pieces: Iterable[Sequence[int]] = (tuple(one[0] for one in choices), tuple(one[-1] for one in choices))
    else:
        pieces = itertools.product(*choices)
    for one in itertools.product(pieces, bare, heights, trims):
        if any(at != BEST for at in one[0]) or one[1] != BEST or one[2] != rigged.high or one[3] is not rigged.lines:
            yield one


def _trims(rigged: RiggedBatten) -> Iterator[Sequence[Line]]:
    """The lines as written, or, where trims are in doubt, with every choice of them long or short."""
    doubts = rigged.trim_doubts or (0.0,) * len(rigged.lines)
    if not any(doubts):
        yield rigged.lines
        return
    for signs in itertools.product(*((-1.0, 1.0) if off > 0.0 else (0.0,) for off in doubts)):
        yield tuple(replace(line, offset=line.offset + sign * off)
                    for line, sign, off in zip(rigged.lines, signs, doubts, strict=True))  # fmt: skip


def _ends(rigged: RiggedBatten, piece: RiggedPiece) -> tuple[int, ...]:
    cabled = any(one.name == piece.name and one.line_mass[0] != one.line_mass[2] for one in rigged.cables)
    return (BEST,) if piece.is_certain and not cabled else (0, 2)
