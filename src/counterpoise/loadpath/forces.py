"""Line forces of one set from what hangs on it, with the range that uncertain weights bring."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from counterpoise.balance import Span
from counterpoise.rigging import RiggedPiece, RiggedSet
from counterpoise.statics import Hanging, Load, PointLoad, SpreadLoad, Tips, hang
from counterpoise.units import STANDARD_GRAVITY as GRAVITY

NOTHING = Span(0.0, 0.0, 0.0)
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


@dataclass(frozen=True, slots=True)
class Tipping:
    """An answer, not an error: the centre of gravity lies outside the outer lines.

    It is certain where the best figures tip, and not where only a corner of the uncertain weights does.
    """

    tips: Tips
    is_certain: bool = True


def loads_of(rigged: RiggedSet, which: Sequence[int] | None = None, doubt: float = 0.0) -> list[Load]:
    """Batten, hardware and pieces as loads [N]; `which` picks low, best or high (0, 1, 2) for each piece.

    The hardware is shared equally among the lines, at their places. `doubt` is the mass by which pipe and hardware
    together, in proportion, depart from their best figures [kg].
    """
    bare = rigged.batten_mass + rigged.hardware_mass
    scale = 1.0 + doubt / bare if doubt else 1.0
    pipe = SpreadLoad(
        start=0.0, end=rigged.beam.length, per_length=GRAVITY * scale * rigged.batten_mass / rigged.beam.length
    )
    each = GRAVITY * scale * rigged.hardware_mass / len(rigged.lines)
    loads: list[Load] = [pipe, *(PointLoad(x=line.x, force=each) for line in rigged.lines)]
    for index, piece in enumerate(rigged.pieces):
        loads += piece_loads(piece, GRAVITY * piece.mass[which[index] if which else 1])
    return loads


def piece_loads(piece: RiggedPiece, weight: float) -> list[Load]:
    """One piece of that weight [N] as loads."""
    if piece.spread is not None:
        start, end = piece.spread
        return [SpreadLoad(start=start, end=end, per_length=weight / (end - start))]
    return [PointLoad(x=x, force=weight * share) for x, share in piece.points]


def forces_of(rigged: RiggedSet) -> Forces | Tipping:
    """Line forces with everything hung and free of the deck. Raises Unproven where statics cannot prove its answer."""
    best = hang(rigged.beam, rigged.lines, loads_of(rigged))
    if isinstance(best, Tips):
        return Tipping(best)
    corners = [best]
    doubts = (-rigged.batten_doubt, rigged.batten_doubt) if rigged.batten_doubt else (0.0,)
    for which, doubt in itertools.product(_corners(rigged), doubts):
        one = hang(rigged.beam, rigged.lines, loads_of(rigged, which, doubt=doubt))
        if isinstance(one, Tips):
            return Tipping(one, is_certain=False)
        corners.append(one)
    return Forces(best, tuple(corners))


def _corners(rigged: RiggedSet) -> list[tuple[int, ...]]:
    choices = [(1,) if piece.is_certain else (0, 2) for piece in rigged.pieces]
    if all(len(one) == 1 for one in choices) and not rigged.batten_doubt:
        return []
    corners = list(itertools.islice(itertools.product(*choices), MOST_CORNERS + 1))
    if len(corners) > MOST_CORNERS:
        return [tuple(one[0] for one in choices), tuple(one[-1] for one in choices)]
    return corners
