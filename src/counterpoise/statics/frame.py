"""A ladder truss cut open bay by bay: the force method for a frame of two chords and rigidly jointed spacers.

Each bay is a closed ring, so three forces in it are unknown: the moments a and b of the bottom chord at its two ends
and its axial force N, taken as the moment n = N * depth. Everything else follows from equilibrium:

    bottom chord   M_b = a (1 - u) + b u + m_b         u from 0 to 1 along the bay, m_b under the chord's own loads
    top chord      M_t = M - M_b - n                   M the moment of the truss as a whole
    spacer         moment at its foot a - b', at its head a - b' + n - n'       ' of the bay before it
                   pull: what hangs on the bottom chord at its foot

so equilibrium is kept to rounding, and a ring touches only its neighbours: the matrix is symmetric, positive definite,
with five entries on either side of the diagonal.
Derivation: docs/theory/ladder.md. Source: Castigliano's theorem of least work, any text on structural analysis.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from counterpoise.statics.bands import Band
from counterpoise.statics.ladder import Ladder
from counterpoise.statics.model import ROUNDING, Load, PointLoad

Rings = list[float]  # a, b, n of every bay, one after another [N m]


@dataclass(frozen=True, slots=True)
class Lump:
    """What hangs on each cell of a chord, reduced to four numbers for each cell."""

    weights: list[float]  # [N]
    levers: list[float]  # moment about the end of the cell [N m]
    turns_left: list[float]  # end turn of the cell as a simple beam, times EI [N m2]
    turns_right: list[float]  # [N m2]


@dataclass(frozen=True, slots=True)
class Standing:
    """A chord's moments while every ring is cut: at the start and the end of each cell [N m]."""

    starts: list[float]
    ends: list[float]


class Frame:
    """A ladder truss cut into cells at its spacers and at the places of its lines, with its rings solved for."""

    def __init__(self, ladder: Ladder, places: Sequence[float]) -> None:
        """Places: where lines are made to the top chord, rising, checked [m]."""
        self.ladder = ladder
        length, joints = ladder.length, [min(max(x, 0.0), ladder.length) for x in ladder.spacers]
        self.places = [_onto(joints, min(max(x, 0.0), length)) for x in places]
        self.xs = xs = sorted({0.0, length, *joints, *self.places})
        self.hs = [b - a for a, b in pairwise(xs)]
        self.at = [bisect_left(xs, x) for x in self.places]  # mark of each line
        self.joints = [bisect_left(xs, x) for x in joints]  # mark of each spacer
        self.bays = [b - a for a, b in pairwise(joints)]  # lengths
        self.cells: list[list[tuple[int, float, float]]] = []  # of each bay: number, start and end, 0 to 1 along it
        self._bay_of: list[int] = []  # of each cell from the first spacer to the last
        for j, bay in enumerate(self.bays):
            a, b, start = self.joints[j], self.joints[j + 1], joints[j]
            self._bay_of.extend([j] * (b - a))
            self.cells.append([(c, (xs[c] - start) / bay, (xs[c + 1] - start) / bay) for c in range(a, b)])
        self._matrix = Band(self._rows())

    def _rows(self) -> list[list[float]]:
        """The flexibility of the rings."""
        top, bottom, spacer, depth = self.ladder.top, self.ladder.bottom, self.ladder.spacer, self.ladder.depth
        bent = depth / (6.0 * spacer.bending)
        pulled = depth / spacer.stretching
        along = (1.0 / top.stretching + 1.0 / bottom.stretching) / depth**2
        soft, soft_top = 1.0 / top.bending + 1.0 / bottom.bending, 1.0 / top.bending
        rows = [[0.0] * 6 for _ in range(3 * len(self.bays))]
        for j, bay in enumerate(self.bays):
            a, b, n = rows[3 * j : 3 * j + 3]
            third, ends = bay * soft / 3.0, 2.0 * pulled / bay**2
            a[5] = third + ends + 6.0 * bent
            b[4] = third / 2.0 - ends
            b[5] = third + ends + 6.0 * bent
            n[3] = bay * soft_top / 2.0 + 3.0 * bent
            n[4] = bay * soft_top / 2.0 + 3.0 * bent
            n[5] = bay * (soft_top + along) + 4.0 * bent
            if j:
                both = pulled / (bay * self.bays[j - 1])
                a[2], a[3], a[4] = -both, both - 6.0 * bent, -3.0 * bent
                b[1], b[2] = both, -both
                n[1], n[2] = -3.0 * bent, -2.0 * bent
        return rows

    def rings(self, turns: Sequence[float]) -> Rings:
        """The ring forces that close the gaps `turns` left by every ring cut."""
        return self._matrix.solve([-turn for turn in turns])

    def turns_of(self, moments: Sequence[float], first: int, last: int) -> tuple[Rings, int, int]:
        """Gaps of the cut rings when the top chord alone carries these moments from mark first to mark last.

        Returns:
            The gaps, and between which of them there are any.
        """
        turns, hs, sixth = [0.0] * (3 * len(self.bays)), self.hs, 1.0 / (6.0 * self.ladder.top.bending)
        joints = self.joints
        first, last = max(first, joints[0]), min(last, joints[-1])
        if first >= last:
            return turns, 0, 0
        begin, end = self._bay_of[first - joints[0]], self._bay_of[last - 1 - joints[0]] + 1
        for j in range(begin, end):
            whole = lever = 0.0
            for c, u, v in self.cells[j]:
                if first <= c < last:
                    m, k, h = moments[c], moments[c + 1], hs[c] * sixth
                    whole += 3.0 * h * (m + k)
                    lever += h * (m * (2.0 * u + v) + k * (2.0 * v + u))
            turns[3 * j : 3 * j + 3] = lever - whole, -lever, -whole
        return turns, 3 * begin, 3 * end

    def lump(self, loads: Iterable[Load]) -> Lump:
        """Reduce the loads of one chord cell by cell."""
        count = len(self.hs)
        lump = Lump([0.0] * count, [0.0] * count, [0.0] * count, [0.0] * count)
        xs, hs = self.xs, self.hs
        for load in loads:
            if isinstance(load, PointLoad):
                x, force = min(max(load.x, 0.0), xs[-1]), load.force
                c = min(bisect_right(xs, x) - 1, count - 1)
                if xs[c] == x:
                    lump.weights[c] += force
                    lump.levers[c] += force * hs[c]
                else:
                    _hang_point(lump, c, hs[c], x - xs[c], force)
            else:
                self._hang_spread(lump, max(load.start, 0.0), min(load.end, xs[-1]), load.per_length)
        return lump

    def _hang_spread(self, lump: Lump, start: float, end: float, per_length: float) -> None:
        xs, hs = self.xs, self.hs
        first, last = bisect_left(xs, start), bisect_right(xs, end) - 1
        for c in range(first, last):  # cells wholly covered
            h = hs[c]
            weight = per_length * h
            turn = weight * h * h / 24.0
            lump.weights[c] += weight
            lump.levers[c] += 0.5 * weight * h
            lump.turns_left[c] += turn
            lump.turns_right[c] += turn
        if first > last:  # within one cell
            _hang_part(lump, last, hs[last], (start - xs[last], end - xs[last]), per_length)
            return
        if start < xs[first]:
            _hang_part(lump, first - 1, hs[first - 1], (start - xs[first - 1], hs[first - 1]), per_length)
        if end > xs[last]:
            _hang_part(lump, last, hs[last], (0.0, end - xs[last]), per_length)

    def simple(self, lump: Lump, stops: Sequence[int], *, joined: bool) -> tuple[Standing, list[float]]:
        """Moments in the cells, and pulls at the stops, of a chord hinged at every stop and free beyond the outer ones.

        Joined: the outer stops pass the moment of what is free on to the stretch between them (one beam on lines);
        else a spacer takes it up (a chord whose rings are cut).
        """
        hs, weights, levers = self.hs, lump.weights, lump.levers
        count = len(hs)
        standing, pulls = Standing([0.0] * count, [0.0] * count), [0.0] * len(stops)
        left = right = shear = 0.0
        for c in range(stops[0]):
            standing.starts[c] = left
            left += shear * hs[c] - levers[c]
            standing.ends[c] = left
            shear -= weights[c]
        pulls[0], shear = -shear, 0.0
        for c in range(count - 1, stops[-1] - 1, -1):
            standing.ends[c] = right
            right -= (shear + weights[c]) * hs[c] - levers[c]
            standing.starts[c] = right
            shear += weights[c]
        pulls[-1] += shear
        for j in range(len(stops) - 1):
            a, b = stops[j], stops[j + 1]
            m_a = left if joined and j == 0 else 0.0
            m_b = right if joined and j == len(stops) - 2 else 0.0
            at_a, at_b = self._between(lump, (a, b), (m_a, m_b), standing)
            pulls[j] += at_a
            pulls[j + 1] += at_b
        return standing, pulls

    def _between(
        self, lump: Lump, stops: tuple[int, int], ends: tuple[float, float], standing: Standing
    ) -> tuple[float, float]:
        """Fill in the cells between two stops, given the moments there; the pulls at both."""
        xs, hs, weights, levers = self.xs, self.hs, lump.weights, lump.levers
        (a, b), (moment, last) = stops, ends
        length = xs[b] - xs[a]
        about = sum([levers[c] + weights[c] * (xs[b] - xs[c + 1]) for c in range(a, b)])
        shear = pull = (about + last - moment) / length
        for c in range(a, b):
            standing.starts[c] = moment
            moment += shear * hs[c] - levers[c]
            standing.ends[c] = moment
            shear -= weights[c]
        standing.ends[b - 1] = last
        return pull, -shear


def ring_turns(
    frame: Frame, top: tuple[Lump, Standing], bottom: tuple[Lump, Standing], spacers: Sequence[float]
) -> Rings:
    """Gaps of the cut rings: what bends both chords and the outer spacers, and what stretches the spacers."""
    ladder = frame.ladder
    turns: Rings = []
    soft, soft_b = 1.0 / ladder.top.bending, 1.0 / ladder.bottom.bending
    pulled = ladder.depth / ladder.spacer.stretching
    for j, bay in enumerate(frame.bays):
        whole, right = _turns(frame, j, *top)
        whole_b, right_b = _turns(frame, j, *bottom)
        stretch = pulled * (spacers[j + 1] - spacers[j]) / bay
        turns.append((right - whole) * soft + (whole_b - right_b) * soft_b + stretch)
        turns.append(-right * soft + right_b * soft_b - stretch)
        turns.append(-whole * soft)
    first, last, hung = frame.joints[0], frame.joints[-1], bottom[1]
    bent = ladder.depth / ladder.spacer.bending
    foot = -hung.ends[first - 1] if first else 0.0  # moment that a free end brings into its spacer
    turns[0] += bent * foot
    turns[2] += 0.5 * bent * foot
    foot = hung.starts[last] if last < len(frame.hs) else 0.0
    turns[-2] -= bent * foot
    turns[-1] -= 0.5 * bent * foot
    return turns


def _turns(frame: Frame, j: int, lump: Lump, chord: Standing) -> tuple[float, float]:
    """Integrals over bay j of M and of M u, M of one chord."""
    whole = right = 0.0
    starts, ends, hs = chord.starts, chord.ends, frame.hs
    for c, u, v in frame.cells[j]:
        m, k, at_left, at_right, h = starts[c], ends[c], lump.turns_left[c], lump.turns_right[c], hs[c] / 6.0
        whole += 3.0 * h * (m + k) + at_left + at_right
        right += h * (m * (2.0 * u + v) + k * (2.0 * v + u)) + u * at_left + v * at_right
    return whole, right


def _onto(joints: Sequence[float], x: float) -> float:
    """The spacer at x, if there is one to rounding; else x."""
    k = bisect_left(joints, x - ROUNDING)
    return joints[k] if k < len(joints) and joints[k] <= x + ROUNDING else x


def _hang_point(lump: Lump, c: int, h: float, s: float, force: float) -> None:
    rest = h - s
    lump.weights[c] += force
    lump.levers[c] += force * rest
    turn = force * s * rest / (6.0 * h)
    lump.turns_left[c] += turn * (h + rest)
    lump.turns_right[c] += turn * (h + s)


def _hang_part(lump: Lump, c: int, h: float, reach: tuple[float, float], per_length: float) -> None:
    s, e = reach
    weight = per_length * (e - s)
    lump.weights[c] += weight
    lump.levers[c] += weight * (h - 0.5 * (s + e))
    part = per_length / (6.0 * h)
    lump.turns_left[c] += part * (_left(h, e) - _left(h, s))
    lump.turns_right[c] += part * (_right(h, e) - _right(h, s))


def _left(h: float, s: float) -> float:
    return s * s * (h * h - h * s + 0.25 * s * s)


def _right(h: float, s: float) -> float:
    return s * s * (0.5 * h * h - 0.25 * s * s)
