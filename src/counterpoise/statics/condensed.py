"""A ladder truss condensed to the places of its lines: small, and ready for the search of the lines that carry.

Unknowns are the moments of the truss as a whole at its interior lines, as for a batten. F is their flexibility with
every ring of the frame closed, g the kinks that the loads leave over the lines; q are the loads as the lines would
carry them if the truss were hinged at each. Then, for any choice of carrying lines, a few small equations are left.
"""

from collections.abc import Sequence
from itertools import pairwise
from operator import add, mul, sub
from typing import NamedTuple

from counterpoise.errors import within
from counterpoise.statics.bands import solve_dense
from counterpoise.statics.frame import Frame, Lump, Rings, Standing, chord_turns, ring_turns
from counterpoise.statics.ladder import ChordLoads, Ladder
from counterpoise.statics.model import Line


class Loaded(NamedTuple):
    """Loads on a condensed ladder truss, before any line has pulled."""

    loads: ChordLoads
    weight: float  # from the loads themselves, not from the cells [N]
    first: float  # their moment about x = 0 [N m]
    top: Lump
    bottom: Lump
    whole: Standing  # moments of the truss as a whole, hinged at every line
    hung: Standing  # moments of the bottom chord, every ring cut
    spacers: list[float]  # pull of each spacer, every ring cut [N]
    shears: list[float]  # at the start of each bay of the bottom chord, every ring cut [N]
    both: Lump  # of both chords; its turns are left out
    chords: Rings  # gaps of the cut rings from what bends both chords
    ahead: Rings  # half of the ring forces that close them, under the loads alone; see Band
    pulls: list[float]  # q, pull of each line, hinged at every line [N]
    kinks: list[float]  # g, over each interior line [rad]
    outer: tuple[float, float]  # moments at the first and the last line [N m]

    @property
    def centre(self) -> float:
        """Centre of gravity of the loads [m]."""
        return self.first / self.weight


class Borne(NamedTuple):
    """Moments and pulls at the lines for one choice of carrying lines; a pull may come out negative."""

    carrying: tuple[int, ...]
    moments: list[float]  # of the truss as a whole, at every line [N m]
    pulls: list[float]  # of the carrying lines [N]
    tensions: list[float]  # of every line [N]


class Condensed:
    """A ladder truss seen from its lines. Made once for a truss and the places of its lines; serves any loads."""

    def __init__(self, ladder: Ladder, places: Sequence[float]) -> None:
        self.frame = frame = Frame(ladder, places)
        self.xs = frame.places
        self.spans = [b - a for a, b in pairwise(self.xs)]
        self.hats: list[list[float]] = []  # moments at the marks for a unit moment over one interior line
        self.turns: list[tuple[Rings, int, int]] = []  # gaps it leaves in the cut rings, from where to where
        self.ahead: list[Rings] = []  # half of the ring forces that close them; see Band
        for j in range(1, len(self.xs) - 1):
            first, middle, last = frame.at[j - 1 : j + 2]
            hat = [0.0] * len(frame.xs)
            for k in range(first + 1, middle + 1):
                hat[k] = (frame.xs[k] - self.xs[j - 1]) / self.spans[j - 1]
            for k in range(middle + 1, last):
                hat[k] = (self.xs[j + 1] - frame.xs[k]) / self.spans[j]
            self.hats.append(hat)
            turns, begin, end = frame.turns_of(hat, first, last)
            self.turns.append((turns, begin, end))
            self.ahead.append(frame.matrix.ahead(turns, begin))
        count, softs = len(self.hats), frame.matrix.softs
        self.flexibility = [[0.0] * count for _ in range(count)]
        self._weighed: list[tuple[list[float], int]] = []
        for i, (_, begin, _) in enumerate(self.turns):
            weighed = list(map(mul, self.ahead[i][begin:], softs[begin:]))
            self._weighed.append((weighed, begin))
            for j in range(i + 1):
                value = -_dot(weighed, self.ahead[j][begin:])
                if i - j < 2:
                    value += self._product(i, j)
                self.flexibility[i][j] = self.flexibility[j][i] = value

    def _product(self, i: int, j: int) -> float:
        """Integral of two hats over the top chord, over its EI."""
        at, hs, one, other = self.frame.at, self.frame.hs, self.hats[i], self.hats[j]
        total = 0.0
        for c in range(at[max(i, j)], at[min(i, j) + 2]):
            a, b, p, q = one[c], one[c + 1], other[c], other[c + 1]
            total += hs[c] * (2.0 * (a * p + b * q) + a * q + b * p)
        return total / (6.0 * self.frame.ladder.top.bending)

    def loaded(self, loads: ChordLoads) -> Loaded:
        """What the loads do while every line and every ring is cut. Their places have been checked.

        Raises:
            OutOfRange: they weigh nothing.
        """
        found = self.share(loads)
        if not 1.0e-9 <= found.weight <= 1.0e12:
            mend = "A truss weighs something: give its weight."
            within("total load", found.weight, low=1.0e-9, high=1.0e12, unit="N", mend=mend)
        return found

    def share(self, loads: ChordLoads) -> Loaded:
        """As loaded, of loads that are only a share of what hangs: they may weigh nothing."""
        frame = self.frame
        top, bottom = frame.lump(loads.top), frame.lump(loads.bottom)
        weight, first = top.weight + bottom.weight, top.first + bottom.first
        both = Lump(
            list(map(add, top.weights, bottom.weights)),
            list(map(add, top.levers, bottom.levers)),
            list(map(add, top.points, bottom.points)),
            [],
            [],
            weight,
            first,
        )
        whole, pulls, _ = frame.simple(both, frame.at, joined=True)
        hung, spacers, shears = frame.simple(bottom, frame.joints, joined=False)
        chord = Standing(list(map(sub, whole.starts, hung.starts)), list(map(sub, whole.ends, hung.ends)))
        chords = chord_turns(frame, (top, chord), (bottom, hung))
        ahead = frame.matrix.ahead(ring_turns(frame, chords, hung, spacers))
        a, b = frame.at[0], frame.at[-1]
        outer = (whole.ends[a - 1] if a else 0.0, whole.starts[b] if b < len(frame.hs) else 0.0)
        kinks = [self._kink(j, (top, chord), ahead) for j in range(len(self.hats))]
        return Loaded(
            loads, weight, first, top, bottom, whole, hung, spacers, shears, both, chords, ahead, pulls, kinks, outer
        )

    def rings_of(self, loaded: Loaded, borne: Borne) -> Rings:
        """The forces that close the rings, under the loads and the moments over the lines."""
        middle = loaded.ahead
        for moment, unit in zip(borne.moments[1:-1], self.ahead, strict=True):
            middle = [m + moment * u for m, u in zip(middle, unit, strict=True)]
        return [-force for force in self.frame.matrix.back(middle)]

    def chord_turns_of(self, loaded: Loaded, borne: Borne) -> Rings:
        """Gaps of the cut rings from what bends both chords, under the loads and the moments over the lines."""
        found = loaded.chords[:]
        for moment, (turns, begin, end) in zip(borne.moments[1:-1], self.turns, strict=True):
            found[begin:end] = [t + moment * u for t, u in zip(found[begin:end], turns[begin:end], strict=True)]
        return found

    def _kink(self, j: int, top: tuple[Lump, Standing], ahead: Rings) -> float:
        """The kink over interior line j under the loads, rings closed: the top chord's own, and what the rings add."""
        lump, chord = top
        first, last = self.frame.at[j], self.frame.at[j + 2]
        hat, total = self.hats[j][first : last + 1], 0.0
        parts = (self.frame.hs, chord.starts, chord.ends, lump.turns_left, lump.turns_right)
        for a, b, h, m, k, left, right in zip(hat, hat[1:], *[part[first:last] for part in parts], strict=False):
            total += h * (2.0 * (a * m + b * k) + a * k + b * m) / 6.0 + a * left + b * right
        weighed, begin = self._weighed[j]
        return total / self.frame.ladder.top.bending - _dot(weighed, ahead[begin:])

    def carry(self, lines: Sequence[Line], loaded: Loaded, carrying: tuple[int, ...]) -> Borne:
        """Moments and pulls where exactly these lines act, in both directions."""
        base = self._base(loaded, carrying)
        moments = base
        if len(carrying) == len(lines) and len(carrying) > 2:
            matrix = self._with_lines(lines)
            found = solve_dense(matrix, [-kink for kink in self._kinks(lines, loaded, base)])
            moments = [base[0], *found, base[-1]]
        elif len(carrying) > 2:
            hats = [self._hat(carrying, k) for k in range(1, len(carrying) - 1)]
            kinks = self._kinks(lines, loaded, base)
            products = [self._kinks(lines, None, hat) for hat in hats]
            matrix = [[_dot(one[1:-1], product) for product in products] for one in hats]
            found = solve_dense(matrix, [-_dot(hat[1:-1], kinks) for hat in hats])
            for value, hat in zip(found, hats, strict=True):
                moments = [m + value * h for m, h in zip(moments, hat, strict=True)]
        tensions = self._tensions(loaded.pulls, loaded.outer, moments)
        if len(carrying) == len(lines):
            return Borne(carrying, moments, tensions, tensions)
        pulls = [tensions[i] for i in carrying]
        tensions = [t if i in carrying else 0.0 for i, t in enumerate(tensions)]
        return Borne(carrying, moments, pulls, tensions)

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
        kinks, spans, size = self._kinks(lines, loaded, borne.moments), self.spans, 0.0
        inner = borne.moments[1:-1]
        for row, g in zip(self.flexibility, loaded.kinks, strict=True):
            size = max(size, abs(g) + sum([abs(f * m) for f, m in zip(row, inner, strict=True)]))
        for line, pull in zip(lines, borne.tensions, strict=True):
            size = max(size, (abs(line.offset) + line.flexibility * pull) / min(spans))
        return kinks, size

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

    def _tensions(self, pulls: Sequence[float], outer: tuple[float, float], moments: Sequence[float]) -> list[float]:
        """Pull of every line, from the moments at all of them."""
        found = self._shares(pulls, outer)
        for i, span in enumerate(self.spans):
            step = (moments[i + 1] - moments[i]) / span
            found[i] += step
            found[i + 1] -= step
        return found

    def _kinks(self, lines: Sequence[Line], loaded: Loaded | None, moments: Sequence[float]) -> list[float]:
        """Kink left over each interior line under these moments; None: under the moments alone, lines level."""
        if loaded is None:
            pulls = self._tensions([0.0] * len(lines), (0.0, 0.0), moments)
            levels = [line.flexibility * t for line, t in zip(lines, pulls, strict=True)]
            kinks = [0.0] * len(self.hats)
        else:
            pulls = self._tensions(loaded.pulls, loaded.outer, moments)
            levels = [line.offset + line.flexibility * t for line, t in zip(lines, pulls, strict=True)]
            kinks = loaded.kinks
        inner, spans = moments[1:-1], self.spans
        return [
            g
            + _dot(row, inner)
            + (levels[j] - levels[j + 1]) / spans[j]
            + (levels[j + 2] - levels[j + 1]) / spans[j + 1]
            for j, (g, row) in enumerate(zip(kinks, self.flexibility, strict=True))
        ]


def _dot(one: Sequence[float], other: Sequence[float]) -> float:
    return float(sum(map(mul, one, other)))
