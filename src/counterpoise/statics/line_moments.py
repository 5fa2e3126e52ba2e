"""The small equations of a ladder truss that is condensed to its lines: moments and pulls for any choice of them.

Unknowns are the moments of the truss as a whole at its interior lines, as for a batten. F is their flexibility with
every ring of the frame closed, g the kinks that the loads leave over the lines; q are the loads as the lines would
carry them if the truss were hinged at each. docs/theory/ladder.md, eq. 8.
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from operator import mul
from typing import NamedTuple

from counterpoise.statics.bands import solve_dense
from counterpoise.statics.frame_loads import Loaded
from counterpoise.statics.model import Line


class Borne(NamedTuple):
    """Moments and pulls at the lines for one choice of carrying lines; a pull may come out negative."""

    carrying: tuple[int, ...]
    moments: list[float]  # of the truss as a whole, at every line [N m]
    pulls: list[float]  # of the carrying lines [N]
    tensions: list[float]  # of every line [N]


class LineMoments:
    """A truss as its lines feel it."""

    def __init__(self, xs: Sequence[float], flexibility: list[list[float]]) -> None:
        """Xs: places of the lines [m]; flexibility: F, kinks at the inner lines for unit moments there [rad/(N m)]."""
        self.xs, self.flexibility = xs, flexibility
        self.spans = [b - a for a, b in pairwise(xs)]

    def carry(self, lines: Sequence[Line], loaded: Loaded, carrying: tuple[int, ...]) -> Borne:
        """Moments and pulls where exactly these lines act, in both directions."""
        if len(carrying) == len(lines):
            return self._carry_all(lines, loaded, carrying)
        base = moments = self._base(loaded, carrying)
        if len(carrying) > 2:
            hats = [self._hat(carrying, k) for k in range(1, len(carrying) - 1)]
            kinks = self._kinks(lines, loaded, base)
            products = [self._kinks(lines, None, hat) for hat in hats]
            matrix = [[dot(one[1:-1], product) for product in products] for one in hats]
            found = solve_dense(matrix, [-dot(hat[1:-1], kinks) for hat in hats])
            for value, hat in zip(found, hats, strict=True):
                moments = [m + value * h for m, h in zip(moments, hat, strict=True)]
        tensions = self._tensions(loaded.pulls, moments)
        pulls = [tensions[i] for i in carrying]
        tensions = [t if i in carrying else 0.0 for i, t in enumerate(tensions)]
        return Borne(carrying, moments, pulls, tensions)

    def _carry_all(self, lines: Sequence[Line], loaded: Loaded, carrying: tuple[int, ...]) -> Borne:
        """As carry, every line carrying."""
        pulls, (first, last) = loaded.pulls, loaded.outer
        if len(lines) == 2:
            return Borne(carrying, [first, last], pulls, pulls)
        levels = [line.offset + line.flexibility * t for line, t in zip(lines, pulls, strict=True)]
        kinks = self._bent(levels, loaded.kinks)
        moments = [first, *solve_dense(self._with_lines(lines), [-kink for kink in kinks]), last]
        tensions = self._tensions(pulls, moments)
        return Borne(carrying, moments, tensions, tensions)

    def _with_lines(self, lines: Sequence[Line]) -> list[list[float]]:
        """The flexibility of truss and lines together, every line carrying."""
        matrix = [row[:] for row in self.flexibility]
        soft, back = [line.flexibility for line in lines], [1.0 / span for span in self.spans]
        middle = [-(a + b) for a, b in pairwise(back)]
        count = len(matrix)
        for j in range(count):  # a moment over line j + 1 pulls on it and on the lines beside it
            matrix[j][j] += back[j] ** 2 * soft[j] + middle[j] ** 2 * soft[j + 1] + back[j + 1] ** 2 * soft[j + 2]
            if j + 1 < count:
                both = back[j + 1] * (middle[j] * soft[j + 1] + middle[j + 1] * soft[j + 2])
                matrix[j][j + 1] += both
                matrix[j + 1][j] += both
            if j + 2 < count:
                far = back[j + 1] * back[j + 2] * soft[j + 2]
                matrix[j][j + 2] += far
                matrix[j + 2][j] += far
        return matrix

    def kinks(self, lines: Sequence[Line], loaded: Loaded, borne: Borne) -> tuple[list[float], float]:
        """Kink left over each interior line, nothing where no line beside it is slack; and their size [rad]."""
        inner, tall, size = borne.moments[1:-1], 0.0, 0.0
        levels = []
        for line, pull in zip(lines, borne.tensions, strict=True):
            offset, stretch = line.offset, line.flexibility * pull
            levels.append(offset + stretch)
            tall = max(tall, abs(offset) + stretch)
        kinks, sizes = self._bent(levels, loaded.kinks), list(map(abs, inner))
        for j, row in enumerate(self.flexibility):
            kinks[j] += dot(row, inner)
            size = max(size, abs(loaded.kinks[j]) + dot(map(abs, row), sizes))
        return kinks, max(size, tall / min(self.spans))

    def gaps(self, lines: Sequence[Line], loaded: Loaded, borne: Borne) -> tuple[list[float], float]:
        """Gap of each line, 0 where it carries, negative where it is stretched; and the size of drops."""
        kinks, size = self.kinks(lines, loaded, borne)
        scale = size * (self.xs[-1] - self.xs[0])
        gaps, carrying = [0.0] * len(lines), borne.carrying
        for p, q in pairwise(carrying):
            for i in range(p + 1, q):
                gaps[i] = -sum([kinks[k - 1] * self._triangle(p, q, i, k) for k in range(p + 1, q)])
        for ahead, outer in ((-1, carrying[0]), (1, carrying[-1])):
            i = outer
            while 0 < i < len(lines) - 1:  # from the outer carrying line outwards, kink by kink
                behind, beyond = self.xs[i] - self.xs[i - ahead], self.xs[i + ahead] - self.xs[i]
                slope = (gaps[i] - gaps[i - ahead]) / behind + kinks[i - 1] * ahead
                gaps[i + ahead] = gaps[i] + slope * beyond
                i += ahead
        return gaps, scale

    def _triangle(self, p: int, q: int, i: int, k: int) -> float:
        """Moment at line i of a simple beam from line p to line q under a unit load at line k."""
        start, end = self.xs[p], self.xs[q]
        low, high = self.xs[min(i, k)], self.xs[max(i, k)]
        return (low - start) * (end - high) / (end - start)

    def _hat(self, carrying: Sequence[int], k: int) -> list[float]:
        """Moments at every line for a unit moment over carrying line k, straight to its carrying neighbours."""
        before, here, after = carrying[k - 1 : k + 2]
        hat = [0.0] * len(self.xs)
        for i in range(before + 1, after):
            beside = before if i <= here else after
            hat[i] = (self.xs[i] - self.xs[beside]) / (self.xs[here] - self.xs[beside])
        return hat

    def _base(self, loaded: Loaded, carrying: Sequence[int]) -> list[float]:
        """Moments at every line with no moment over the carrying lines strictly inside."""
        xs, pulls = self.xs, loaded.pulls
        base = [0.0] * len(xs)
        base[0], base[-1] = loaded.outer
        if len(carrying) == len(xs):
            return base
        shares = self._shares(pulls, loaded.outer)
        first, last = carrying[0], carrying[-1]
        for i in range(1, first + 1):
            base[i] = loaded.outer[0] - sum([shares[k] * (xs[i] - xs[k]) for k in range(i)])
        for i in range(last, len(xs) - 1):
            base[i] = loaded.outer[1] - sum([shares[k] * (xs[k] - xs[i]) for k in range(i + 1, len(xs))])
        for p, q in pairwise(carrying):
            m_p = base[p] if p == first else 0.0
            m_q = base[q] if q == last else 0.0
            for i in range(p + 1, q):
                share = (xs[i] - xs[p]) / (xs[q] - xs[p])
                base[i] = m_p * (1.0 - share) + m_q * share
                base[i] += sum([shares[k] * self._triangle(p, q, i, k) for k in range(p + 1, q)])
        return base

    def _shares(self, pulls: Sequence[float], outer: tuple[float, float]) -> list[float]:
        """The loads as they come to the lines if each span were simple: pulls less what the outer moments bring."""
        shares = list(pulls)
        step = outer[0] / self.spans[0]
        shares[0] += step
        shares[1] -= step
        step = outer[1] / self.spans[-1]
        shares[-2] -= step
        shares[-1] += step
        return shares

    def _tensions(self, pulls: Sequence[float], moments: Sequence[float]) -> list[float]:
        """Pull of every line, from the moments at all of them; what the outer ones bring is in `pulls`."""
        found, before = list(pulls), 0.0
        last = len(found) - 1
        for i, span in enumerate(self.spans, start=1):
            moment = moments[i] if i < last else 0.0
            step = (moment - before) / span
            found[i - 1] += step
            found[i] -= step
            before = moment
        return found

    def _kinks(self, lines: Sequence[Line], loaded: Loaded | None, moments: Sequence[float]) -> list[float]:
        """Kink left over each interior line under these moments; None: under the moments alone, lines level."""
        inner, count = moments[1:-1], len(lines)
        if loaded is None:
            pulls = self._tensions([0.0] * count, moments)
            kinks = self._bent([line.flexibility * t for line, t in zip(lines, pulls, strict=True)], [0.0] * count)
        else:
            pulls = self._tensions(loaded.pulls, moments)
            levels = [line.offset + line.flexibility * t for line, t in zip(lines, pulls, strict=True)]
            kinks = self._bent(levels, loaded.kinks)
        return [kink + dot(row, inner) for kink, row in zip(kinks, self.flexibility, strict=True)]

    def _bent(self, levels: Sequence[float], kinks: Sequence[float]) -> list[float]:
        """These kinks, and those over lines that hold the truss at these levels."""
        found = []
        slope = (levels[1] - levels[0]) / self.spans[0]
        for j in range(1, len(levels) - 1):
            after = (levels[j + 1] - levels[j]) / self.spans[j]
            found.append(kinks[j - 1] + after - slope)
            slope = after
        return found


def dot(one: Iterable[float], other: Iterable[float]) -> float:
    """Sum of the products, as far as the shorter goes."""
    total: float = sum(map(mul, one, other))
    return total
