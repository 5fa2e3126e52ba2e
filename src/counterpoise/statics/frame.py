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
from itertools import pairwise
from typing import NamedTuple

from counterpoise.statics.bands import Band
from counterpoise.statics.ladder import Ladder
from counterpoise.statics.model import ROUNDING, Load, PointLoad

Rings = list[float]  # a, b, n of every bay, one after another [N m]


class Lump(NamedTuple):  # made many times for one answer, and a named tuple is made quickest
    """What hangs on each cell of a chord, reduced to four numbers for each cell."""

    weights: list[float]  # [N]
    levers: list[float]  # moment about the end of the cell [N m]
    points: list[float]  # what of it hangs just at its start; at last what hangs at the end of the chord [N]
    turns_left: list[float]  # end turn of the cell as a simple beam, times EI [N m2]
    turns_right: list[float]  # [N m2]
    weight: float  # of all, from the loads themselves, not from the cells [N]
    first: float  # their moment about x = 0 [N m]


class Standing(NamedTuple):
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
        for (a, b), bay in zip(pairwise(self.joints), self.bays, strict=True):
            if b - a == 1:
                self.cells.append([(a, 0.0, 1.0)])
            else:
                start = xs[a]
                self.cells.append([(c, (xs[c] - start) / bay, (xs[c + 1] - start) / bay) for c in range(a, b)])
        self.matrix = Band(self._rows())  # the flexibility of the rings

    def _rows(self) -> list[list[float]]:
        """The flexibility of the rings."""
        top, bottom, spacer, depth = self.ladder.top, self.ladder.bottom, self.ladder.spacer, self.ladder.depth
        bent = depth / (6.0 * spacer.bending)
        pulled = depth / spacer.stretching
        along = (1.0 / top.stretching + 1.0 / bottom.stretching) / depth**2
        soft, soft_top = 1.0 / top.bending + 1.0 / bottom.bending, 1.0 / top.bending
        rows: list[list[float]] = []
        known: dict[tuple[float, float], list[list[float]]] = {}  # bays of one length have the same rows
        before = 0.0
        for bay in self.bays:
            found = known.get((before, bay))
            if found is None:
                third, half, ends = bay * soft / 3.0, bay * soft_top / 2.0 + 3.0 * bent, 2.0 * pulled / bay**2
                along_bay = bay * (soft_top + along) + 4.0 * bent
                own = third + ends + 6.0 * bent
                both = pulled / (bay * before) if before else 0.0
                beside = bent if before else 0.0
                found = known[before, bay] = [
                    [0.0, 0.0, -both, both - 6.0 * beside, -3.0 * beside, own],
                    [0.0, both, -both, 0.0, third / 2.0 - ends, own],
                    [0.0, -3.0 * beside, -2.0 * beside, half, half, along_bay],
                ]
            rows += found
            before = bay
        return rows

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
        begin, end = bisect_right(joints, first) - 1, bisect_left(joints, last)
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
        lump = Lump([0.0] * count, [0.0] * count, [0.0] * (count + 1), [0.0] * count, [0.0] * count, 0.0, 0.0)
        xs, hs, weights, levers, points = self.xs, self.hs, lump.weights, lump.levers, lump.points
        length, whole, first = xs[-1], 0.0, 0.0
        for load in loads:
            if isinstance(load, PointLoad):
                x, force = load.x, load.force
                whole += force
                first += force * x
                if x >= length:
                    weights[-1] += force
                    points[-1] += force
                    continue
                c = bisect_right(xs, x) - 1 if x > 0.0 else 0
                s, h = x - xs[c], hs[c]
                weights[c] += force
                if s <= 0.0:
                    points[c] += force
                    levers[c] += force * h
                else:
                    rest = h - s
                    levers[c] += force * rest
                    turn = force * s * rest / (6.0 * h)
                    lump.turns_left[c] += turn * (h + rest)
                    lump.turns_right[c] += turn * (h + s)
            else:
                start, end, per_length = load.start, load.end, load.per_length
                force = per_length * (end - start)
                whole += force
                first += 0.5 * force * (start + end)
                self._hang_spread(lump, max(start, 0.0), min(end, length), per_length)
        return Lump(*lump[:5], whole, first)

    def _hang_spread(self, lump: Lump, start: float, end: float, per_length: float) -> None:
        xs, hs = self.xs, self.hs
        first, last = bisect_left(xs, start), bisect_right(xs, end) - 1
        weights, levers, lefts, rights = lump.weights, lump.levers, lump.turns_left, lump.turns_right
        for c in range(first, last):  # cells wholly covered
            h = hs[c]
            weight = per_length * h
            lever = 0.5 * weight * h
            turn = lever * h / 12.0
            weights[c] += weight
            levers[c] += lever
            lefts[c] += turn
            rights[c] += turn
        if first > last:  # within one cell
            _hang_part(lump, last, hs[last], (start - xs[last], end - xs[last]), per_length)
            return
        if start < xs[first]:
            _hang_part(lump, first - 1, hs[first - 1], (start - xs[first - 1], hs[first - 1]), per_length)
        if end > xs[last]:
            _hang_part(lump, last, hs[last], (0.0, end - xs[last]), per_length)

    def simple(self, lump: Lump, stops: Sequence[int], *, joined: bool) -> tuple[Standing, list[float], list[float]]:
        """A chord hinged at every stop and free beyond the outer ones.

        Joined: the outer stops pass the moment of what is free on to the stretch between them (one beam on lines);
        else a spacer takes it up (a chord whose rings are cut).

        Returns:
            Moments in the cells, pulls at the stops, and the shear at the start of each stretch between them.
        """
        hs, weights, levers = self.hs, lump.weights, lump.levers
        count, inner = len(hs), len(stops) - 1
        starts, ends = [0.0] * count, [0.0] * count
        left = right = shear = 0.0
        for c in range(stops[0]):
            starts[c] = left
            left += shear * hs[c] - levers[c]
            ends[c] = left
            shear -= weights[c]
        pulls, shears = [-shear], []
        shear = 0.0
        for c in range(count - 1, stops[-1] - 1, -1):
            ends[c] = right
            right -= (shear + weights[c]) * hs[c] - levers[c]
            starts[c] = right
            shear += weights[c]
        fallen = shear
        a = stops[0]
        for j, b in enumerate(stops[1:]):
            moment = left if joined and j == 0 else 0.0
            last = right if joined and j == inner - 1 else 0.0
            if b - a == 1:
                shear = (levers[a] + last - moment) / hs[a]
                shears.append(shear)
                pulls[-1] += shear
                pulls.append(weights[a] - shear)
                starts[a], ends[a], a = moment, last, b
                continue
            shear = (_about(self.xs, lump, a, b) + last - moment) / (self.xs[b] - self.xs[a])
            shears.append(shear)
            pulls[-1] += shear
            for c in range(a, b):
                starts[c] = moment
                moment += shear * hs[c] - levers[c]
                ends[c] = moment
                shear -= weights[c]
            ends[b - 1] = last
            pulls.append(-shear)
            a = b
        pulls[-1] += fallen
        return Standing(starts, ends), pulls, shears


def _about(xs: Sequence[float], lump: Lump, a: int, b: int) -> float:
    """Moment about mark b of what hangs from mark a on."""
    end = xs[b]
    return sum([lump.levers[c] + lump.weights[c] * (end - xs[c + 1]) for c in range(a, b)])


def chord_turns(frame: Frame, top: tuple[Lump, Standing], bottom: tuple[Lump, Standing]) -> Rings:
    """Gaps of the cut rings from what bends both chords."""
    turns: Rings = []
    soft, soft_b = 1.0 / frame.ladder.top.bending, 1.0 / frame.ladder.bottom.bending
    for whole, right, whole_b, right_b in zip(*_turns(frame, *top), *_turns(frame, *bottom), strict=True):
        turns.append((right - whole) * soft + (whole_b - right_b) * soft_b)
        turns.append(right_b * soft_b - right * soft)
        turns.append(-whole * soft)
    return turns


def ring_turns(frame: Frame, chords: Rings, hung: Standing, spacers: Sequence[float]) -> Rings:
    """Gaps of the cut rings: of both chords, and what stretches the spacers and bends the outer ones."""
    ladder, turns = frame.ladder, chords[:]
    pulled = ladder.depth / ladder.spacer.stretching
    for j, bay in enumerate(frame.bays):
        stretch = pulled * (spacers[j + 1] - spacers[j]) / bay
        turns[3 * j] += stretch
        turns[3 * j + 1] -= stretch
    first, last = frame.joints[0], frame.joints[-1]
    bent = ladder.depth / ladder.spacer.bending
    foot = -hung.ends[first - 1] if first else 0.0  # moment that a free end brings into its spacer
    turns[0] += bent * foot
    turns[2] += 0.5 * bent * foot
    foot = hung.starts[last] if last < len(frame.hs) else 0.0
    turns[-2] -= bent * foot
    turns[-1] -= 0.5 * bent * foot
    return turns


def _turns(frame: Frame, lump: Lump, chord: Standing) -> tuple[list[float], list[float]]:
    """Integrals over every bay of M and of M u, M of one chord."""
    starts, ends, hs = chord.starts, chord.ends, frame.hs
    lefts, rights = lump.turns_left, lump.turns_right
    wholes, levers = [], []
    for cells in frame.cells:
        whole = right = 0.0
        for c, u, v in cells:
            m, k, at_left, at_right, h = starts[c], ends[c], lefts[c], rights[c], hs[c] / 6.0
            whole += 3.0 * h * (m + k) + at_left + at_right
            right += h * (m * (2.0 * u + v) + k * (2.0 * v + u)) + u * at_left + v * at_right
        wholes.append(whole)
        levers.append(right)
    return wholes, levers


def _onto(joints: Sequence[float], x: float) -> float:
    """The spacer at x, if there is one to rounding; else x."""
    k = bisect_left(joints, x - ROUNDING)
    return joints[k] if k < len(joints) and joints[k] <= x + ROUNDING else x


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
