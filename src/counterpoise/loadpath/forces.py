"""Line forces of one set from what hangs on it, with the range that weights and trims not known exactly bring."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from counterpoise.balance import Span
from counterpoise.loadpath.hangs import Hangs, Rope
from counterpoise.loadpath.loads import BEST, loads_of
from counterpoise.rigging import RiggedBatten
from counterpoise.statics import Line, Tips

if TYPE_CHECKING:
    from counterpoise.loadpath.sought import Sought

NOTHING = Span(0.0, 0.0, 0.0)
MOST_CORNERS = 256  # above these the extremes are sought by linear programmes; below, only where lines go slack


@dataclass(frozen=True, slots=True)
class Forces:
    """The batten at the best figures, at corners of what is in doubt, and, where lines go slack between, the extremes.

    While the same lines carry at every corner, everything runs straight in between and the corners are the extremes.
    Where they do not, `sought` holds those that were sought for. `unproven` says why a limit is not proven, else "".
    """

    best: Hangs
    corners: tuple[Hangs, ...]
    sought: tuple[Sought, ...] = ()
    unproven: str = ""

    def span(self, coefficients: Sequence[float], constant: Span = NOTHING) -> Span:
        """Σ c·T + constant [N]."""
        sums = [_sum(coefficients, one.tensions) for one in self.corners]
        low, high = min(sums), max(sums)
        if len(set(coefficients)) > 1:  # all alike: the whole weight, whatever lines share it
            for one in self.sought:
                low = min(low, _sum(coefficients, one.low))
                high = max(high, _sum(coefficients, one.high))
        best = _sum(coefficients, self.best.tensions)
        return Span(low + constant.low, best + constant.best, high + constant.high)

    @property
    def tensions(self) -> tuple[Span, ...]:
        """The pull in each line just above the batten [N]."""
        count = len(self.best.tensions)
        return tuple(self.span([float(i == j) for j in range(count)]) for i in range(count))

    @property
    def stress(self) -> Span:
        """The largest stress [Pa]."""
        sizes = [one.stress for one in self.corners]
        return Span(min(sizes), self.best.stress, max([*sizes, *(one.stress for one in self.sought)]))

    @property
    def moment(self) -> Span:
        """The largest bending moment, without sign [N m]; of a batten that is one beam."""
        sizes = [one.largest_moment for one in self.corners]
        return Span(min(sizes), self.best.largest_moment, max([*sizes, *(one.moment for one in self.sought)]))

    @property
    def shear(self) -> Span:
        """The largest shear, without sign [N]; of a batten that is one beam."""
        sizes = [one.largest_shear for one in self.corners]
        return Span(min(sizes), self.best.largest_shear, max(sizes))

    @property
    def sag(self) -> Span:
        """The largest sag as a share of its span."""
        ratios = [_sag(one) for one in self.corners]
        return Span(min(ratios), _sag(self.best), max([*ratios, *(one.sag_ratio for one in self.sought)]))

    @property
    def tip(self) -> tuple[float, Span] | None:
        """The drop of a tip as a share of its overhang, and how far the one that drops most reaches [m]; None: no tip.

        What a tip does is not sought between corners: with `sought` it is the worst of those that were looked at.
        """
        found = [_tip(one) for one in (self.best, *self.corners)]
        if not any(reach for reach, _ in found):
            return None
        reach, best = found[0]
        ratios = [ratio for _, ratio in found]
        return reach or max(each for each, _ in found), Span(min(ratios), best, max(ratios))

    def stress_at(self, x: float) -> Span:
        """The bending stress at one place [Pa]; of pipe. Between corners with other slack lines the greatest counts."""
        sizes = [one.stress_at(x) for one in self.corners]
        most = max([*sizes, *([self.stress.high] if self.sought else [])])
        return Span(min(sizes), self.best.stress_at(x), most)


def _sum(coefficients: Sequence[float], tensions: Sequence[float]) -> float:
    return sum(c * t for c, t in zip(coefficients, tensions, strict=True))


def _sag(one: Hangs) -> float:
    return max((abs(sag) / (end - start) for start, end, sag, _ in one.largest_sags), default=0.0)


def _tip(one: Hangs) -> tuple[float, float]:
    """How far the end reaches whose tip drops the most of that, and the share; a tip that rises drops nothing."""
    shares = [(reach, max(0.0, drop) / reach) for reach, drop in one.tips]
    return max(shares, key=lambda tip: (tip[1], tip[0]), default=(0.0, 0.0))  # of two alike the longer


@dataclass(frozen=True, slots=True)
class Tipping:
    """An answer, not an error: the centre of gravity lies outside the outer lines.

    It is certain where the best figures tip, and not where only a part of what is in doubt does.
    """

    tips: Tips
    is_certain: bool = True


def forces_of(rigged: RiggedBatten) -> Forces | Tipping:
    """Line forces with everything hung and free of the deck. Raises Unproven where statics cannot prove its answer."""
    rope = Rope(rigged)
    best = rope.hang(rigged.lines, loads_of(rigged))
    if isinstance(best, Tips):
        return Tipping(best)
    corners = [best]
    for which, wires, bare, height, lines in corners_of(rigged):
        one = rope.hang(lines, loads_of(rigged, which, bare, height, wires))
        if isinstance(one, Tips):
            return Tipping(one, is_certain=False)
        corners.append(one)
    whole = corner_count(rigged) <= MOST_CORNERS
    if whole and len({one.carrying for one in corners}) == 1:
        return Forces(best, tuple(corners))
    return _sought(rigged, rope, best, corners)


def _sought(rigged: RiggedBatten, rope: Rope, best: Hangs, corners: list[Hangs]) -> Forces | Tipping:
    """The extremes where the corners do not give them: lines go slack between, or there are too many corners."""
    from counterpoise.loadpath.sought import seek

    found = []
    for height in _heights(rigged):
        one = seek(rigged, rope, height)
        if isinstance(one, Tips):
            return Tipping(one)
        if one.tips is not None:
            return Tipping(one.tips, is_certain=False)
        found.append(one)
    unproven = next((one.unproven for one in found if one.unproven), "")
    return Forces(best, tuple(corners), tuple(found), unproven)


def _heights(rigged: RiggedBatten) -> tuple[float, ...]:
    """With cable, the lowest and the highest it flies."""
    return (rigged.clear, rigged.high) if rigged.cables else (rigged.high,)


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
    for one, height, lines in itertools.product(weights, _heights(rigged), trims):
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
