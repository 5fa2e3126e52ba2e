"""A batten in fifty digits, by another way than ours: stiffness of cubic beam elements, a node at every line and load.

Cubic (Hermite) elements with consistent loads give exact deflections and turns at their nodes for any load between
them, and inside an element the built-in beam's own curve is added (any text on finite elements), so nothing here is
approximate but the fifty digits. Which lines carry is judged by the pulls and gaps in fifty digits: the choice without
a push and without a stretch is the true one, and there is only one true set of pulls (strict convexity).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from typing import Any

from mpmath import MPContext

from counterpoise.statics import Beam, Line, Load, PointLoad

mp: Any = MPContext()  # our own, so that no other test is changed
mp.dps = 50
Number = Any  # an mpf
NOTHING = mp.mpf(10) ** -35


@dataclass(frozen=True)
class Cell:
    """One element: its start, length, stiffness, spread load, and moment, shear, slope and drop at its start."""

    x: Number
    h: Number
    ei: Number
    w: Number
    moment: Number
    shear: Number
    slope: Number
    drop: Number

    def moment_at(self, t: Number) -> Number:
        return self.moment + self.shear * t - self.w * t * t / 2

    def drop_at(self, t: Number) -> Number:
        bent = self.moment * t**2 / 2 + self.shear * t**3 / 6 - self.w * t**4 / 24
        return self.drop + self.slope * t - bent / self.ei


@dataclass(frozen=True)
class Exact:
    """The answer in fifty digits."""

    carrying: tuple[int, ...]
    pulls: list[Number]
    gaps: list[Number]
    cells: list[Cell]

    def moment(self, x: float) -> Number:
        cell = self._cell(x)
        return cell.moment_at(mp.mpf(x) - cell.x)

    def drop(self, x: float) -> Number:
        cell = self._cell(x)
        return cell.drop_at(mp.mpf(x) - cell.x)

    def largest_moment(self) -> Number:
        """Greatest size anywhere."""
        found = mp.mpf(0)
        for cell in self.cells:
            places = [mp.mpf(0), cell.h]
            if cell.w > 0 and 0 < cell.shear < cell.w * cell.h:
                places.append(cell.shear / cell.w)
            found = max([found, *(abs(cell.moment_at(t)) for t in places)])
        return found

    def largest_sag(self, a: float, b: float) -> Number:
        """Greatest size of the sag against the chord from a to b, both carrying lines."""
        start, end = mp.mpf(a), mp.mpf(b)
        y_a, y_b = self.drop(a), self.drop(b)
        chord = (y_b - y_a) / (end - start)
        found = mp.mpf(0)
        for cell in self.cells:
            if start <= cell.x < end:
                for t in [mp.mpf(0), *_level(cell, chord)]:
                    found = max(found, abs(cell.drop_at(t) - y_a - chord * (cell.x + t - start)))
        return found

    def _cell(self, x: float) -> Cell:
        return [cell for cell in self.cells if cell.x <= x or cell.x == 0][-1]


def _level(cell: Cell, chord: Number) -> Iterator[Number]:
    """Places in a cell where its slope is the chord's: roots of a cubic, between the roots of its derivative."""

    def rise(t: Number) -> Number:
        return cell.slope - chord - (cell.moment * t + cell.shear * t**2 / 2 - cell.w * t**3 / 6) / cell.ei

    turns = []
    if cell.w:
        under = cell.shear**2 + 2 * cell.w * cell.moment
        if under > 0:
            turns = sorted((cell.shear + sign * mp.sqrt(under)) / cell.w for sign in (-1, 1))
    elif cell.shear:
        turns = [-cell.moment / cell.shear]
    stops = [mp.mpf(0), *(t for t in turns if 0 < t < cell.h), cell.h]
    for low, high in pairwise(stops):
        f_low = rise(low)
        if f_low * rise(high) < 0:
            for _ in range(110):  # the sag is level here: 1e-33 of a cell leaves 1e-66 of it
                middle = (low + high) / 2
                if f_low * rise(middle) > 0:
                    low = middle
                else:
                    high = middle
            yield (low + high) / 2


def exact(beam: Beam, lines: Sequence[Line], loads: Sequence[Load], first: Sequence[int] = ()) -> Exact:
    """The true answer; `first` is a choice of carrying lines to look at before every other. ValueError: it tips."""
    every = range(len(lines))
    choices = (c for size in range(len(lines), 1, -1) for c in combinations(every, size))
    for carrying in [tuple(first), *choices] if first else choices:
        found = solve(beam, lines, loads, carrying)
        size, tall = max(map(abs, found.pulls)), max(abs(cell.drop) for cell in found.cells)
        if min(found.pulls) >= -NOTHING * size and min(found.gaps) >= -NOTHING * tall:
            return found
    raise ValueError("no choice of lines stands")


def solve(beam: Beam, lines: Sequence[Line], loads: Sequence[Load], carrying: tuple[int, ...]) -> Exact:
    """Pulls and gaps if exactly these lines act, and in both directions."""
    xs, elements, right = _mesh(beam, lines, loads)
    band = [[mp.mpf(0)] * 4 for _ in right]  # band[j][d]: entry (j, j + d)
    for e, (h, ei, w) in enumerate(elements):
        k = ei / h**3
        stiff = [
            [12 * k, 6 * h * k, -12 * k, 6 * h * k],
            [6 * h * k, 4 * h * h * k, -6 * h * k, 2 * h * h * k],
            [-12 * k, -6 * h * k, 12 * k, -6 * h * k],
            [6 * h * k, 2 * h * h * k, -6 * h * k, 4 * h * h * k],
        ]
        for p in range(4):
            for q in range(p, 4):
                band[2 * e + p][q - p] += stiff[p][q]
        for p, share in enumerate((w * h / 2, w * h * h / 12, w * h / 2, -w * h * h / 12)):
            right[2 * e + p] += share
    loaded = right[:]
    at = {i: 2 * xs.index(mp.mpf(lines[i].x)) for i in range(len(lines))}
    for i in carrying:
        _hold(band, right, at[i], mp.mpf(lines[i].offset), mp.mpf(lines[i].flexibility))
    u = _banded(band, right)
    cells, pulls_at = _march(xs, elements, u, loaded)
    pulls = [pulls_at[at[i] // 2] if i in carrying else mp.mpf(0) for i in range(len(lines))]
    gaps = [mp.mpf(0) if i in carrying else mp.mpf(lines[i].offset) - u[at[i]] for i in range(len(lines))]
    return Exact(carrying, pulls, gaps, cells)


def _mesh(
    beam: Beam, lines: Sequence[Line], loads: Sequence[Load]
) -> tuple[list[Number], list[tuple[Number, Number, Number]], list[Number]]:
    """Nodes; length, stiffness and spread load of every element; point loads on the nodes."""
    places = {0.0, beam.length, *(s.end for s in beam.segments), *(line.x for line in lines)}
    for load in loads:
        places |= {load.x} if isinstance(load, PointLoad) else {load.start, load.end}
    xs = [mp.mpf(x) for x in sorted(places)]
    elements = []
    for a, b in pairwise(xs):
        middle = (a + b) / 2
        ei = next(mp.mpf(s.stiffness) for s in beam.segments if s.start <= middle <= s.end)
        spread = [load for load in loads if not isinstance(load, PointLoad) and load.start <= middle <= load.end]
        elements.append((b - a, ei, sum((mp.mpf(load.per_length) for load in spread), mp.mpf(0))))
    right = [mp.mpf(0)] * (2 * len(xs))
    for load in loads:
        if isinstance(load, PointLoad):
            right[2 * xs.index(mp.mpf(load.x))] += mp.mpf(load.force)
    return xs, elements, right


def _hold(band: list[list[Number]], right: list[Number], j: int, offset: Number, flexibility: Number) -> None:
    """A spring of the line's stiffness, or a settled rigid support, at unknown j."""
    if flexibility:
        band[j][0] += 1 / flexibility
        right[j] += offset / flexibility
        return
    for d in range(1, 4):
        if j + d < len(right):
            right[j + d] -= band[j][d] * offset
            band[j][d] = mp.mpf(0)
        if j - d >= 0:
            right[j - d] -= band[j - d][d] * offset
            band[j - d][d] = mp.mpf(0)
    band[j][0], right[j] = mp.mpf(1), offset


def _banded(band: list[list[Number]], right: list[Number]) -> list[Number]:
    """Gauss elimination of a symmetric banded system; `band` and `right` are used up."""
    n, u = len(right), right[:]
    for j in range(n):
        for d in range(1, min(4, n - j)):
            factor = band[j][d] / band[j][0]
            if factor:
                u[j + d] -= factor * u[j]
                for e in range(d, min(4, n - j)):
                    band[j + d][e - d] -= factor * band[j][e]
    for j in range(n - 1, -1, -1):
        u[j] = (u[j] - sum((band[j][d] * u[j + d] for d in range(1, min(4, n - j))), mp.mpf(0))) / band[j][0]
    return u


def _march(
    xs: list[Number], elements: list[tuple[Number, Number, Number]], u: list[Number], loaded: list[Number]
) -> tuple[list[Cell], list[Number]]:
    """Element by element the inner forces, and at every node the pull that its balance asks for."""
    cells, pulls = [], [-loaded[2 * k] for k in range(len(xs))]
    for e, (h, ei, w) in enumerate(elements):
        v1, r1, v2, r2 = u[2 * e : 2 * e + 4]
        k = ei / h**3
        push1 = k * (12 * v1 + 6 * h * r1 - 12 * v2 + 6 * h * r2)
        turn1 = k * (6 * h * v1 + 4 * h * h * r1 - 6 * h * v2 + 2 * h * h * r2)
        pulls[e] += push1
        pulls[e + 1] -= push1
        # down is positive: the shear that lifts the element's left end, and the moment that makes it sag
        shear, moment = -(push1 - w * h / 2), turn1 - w * h * h / 12
        cells.append(Cell(xs[e], h, ei, w, moment, shear, r1, v1))
    return cells, [-p for p in pulls]
