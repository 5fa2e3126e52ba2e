"""A ladder truss cut open bay by bay: the force method for a frame of two chords and rigidly jointed spacers.

Each bay is a closed ring, so three forces in it are unknown: the moments a and b of the bottom chord at its two ends
and its axial force N, taken as the moment n = N * depth. Everything else follows from equilibrium:

    bottom chord   M_b = a (1 - u) + b u + m_b         u from 0 to 1 along the bay, m_b under the chord's own loads
    top chord      M_t = M - M_b - n                   M the moment of the truss as a whole
    spacer         moment at its foot a - b', at its head a - b' + n - n'       ' of the bay before it
                   pull: what hangs on the bottom chord at its foot

so equilibrium is kept to rounding, and a ring touches only its neighbours: the matrix is symmetric, positive definite,
and comes in blocks of three, each tied only to the one before and the one behind.
Derivation: docs/theory/ladder.md. Source: Castigliano's theorem of least work, any text on structural analysis.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from itertools import pairwise

from counterpoise.statics.bands import Band, Entries
from counterpoise.statics.ladder import Ladder
from counterpoise.statics.model import ROUNDING

Rings = list[float]  # a, b, n of every bay, one after another [N m]


class Frame:
    """A ladder truss cut into cells at its spacers and at the places of its lines, with its rings solved for."""

    def __init__(self, ladder: Ladder, places: Sequence[float]) -> None:
        """Places: where lines are made to the top chord, rising, checked [m]."""
        self.ladder = ladder
        length, joints = ladder.length, ladder.spacers
        if joints[0] < 0.0 or joints[-1] > length:
            joints = tuple([min(max(x, 0.0), length) for x in joints])
        at_joints = set(joints)
        self.places = [x if x in at_joints else _onto(joints, min(max(x, 0.0), length)) for x in places]
        self.xs = xs = sorted({0.0, length, *joints, *self.places})
        marks = {x: mark for mark, x in enumerate(xs)}
        self.mark_at = marks.get  # the mark just at a place, if there is one
        self.hs = [b - a for a, b in pairwise(xs)]
        self.sixths = [h / 6.0 for h in self.hs]
        self.at = [marks[x] for x in self.places]  # mark of each line
        self.joints = [marks[x] for x in joints]  # mark of each spacer
        self.bays = [b - a for a, b in pairwise(joints)]  # lengths
        self.cells = self._cells()
        top, bottom, spacer, depth = ladder.top, ladder.bottom, ladder.spacer, ladder.depth
        self.soft_top, self.soft_bottom = 1.0 / top.bending, 1.0 / bottom.bending  # [1/(N m2)]
        self.along = (1.0 / top.stretching + 1.0 / bottom.stretching) / depth**2  # of both chords, for n [1/(N m2)]
        self.bent, self.pulled = depth / (6.0 * spacer.bending), depth / spacer.stretching  # [1/(N m)], [m/N]
        self.matrix = Band(self._blocks())  # the flexibility of the rings

    def _cells(self) -> list[tuple[int, float, float]]:
        """Of each cell: where the ring of its bay stands among Rings, and where it starts and how long it is, bay = 1.

        A cell beyond the outer spacers has no ring; it stands behind them all.
        """
        xs, joints, beyond = self.xs, self.joints, (3 * len(self.bays), 0.0, 0.0)
        if len(self.hs) == len(self.bays):
            return [(n, 0.0, 1.0) for n in range(0, beyond[0], 3)]
        found = [beyond] * joints[0]
        for j, (a, b, bay) in enumerate(zip(joints, joints[1:], self.bays, strict=False)):
            if b - a == 1:
                found.append((3 * j, 0.0, 1.0))
            else:
                found += [(3 * j, (xs[c] - xs[a]) / bay, (xs[c + 1] - xs[c]) / bay) for c in range(a, b)]
        return found + [beyond] * (len(self.hs) - joints[-1])

    def _blocks(self) -> Iterator[Entries]:
        """The flexibility of the rings, bay by bay: rows a, b and n of each."""
        bent, pulled, half = self.bent, self.pulled, 0.5 * self.soft_top
        third, along = (self.soft_top + self.soft_bottom) / 3.0, self.soft_top + self.along
        bent_2, bent_3, bent_4, bent_6 = 2.0 * bent, 3.0 * bent, 4.0 * bent, 6.0 * bent
        before = 0.0
        for bay in self.bays:
            chords, back = bay * third, 1.0 / bay
            ends, beside = 2.0 * pulled * back * back, bay * half + bent_3
            own, across, along_bay = chords + ends + bent_6, 0.5 * chords - ends, bay * along + bent_4
            if before:
                both = pulled * back * before
                near = both - bent_6
                yield -both, near, -bent_3, both, -both, -bent_3, -bent_2, own, across, own, beside, beside, along_bay
            else:
                yield 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, own, across, own, beside, beside, along_bay
            before = back

    def turns_of(self, hat: Sequence[float], first: int, last: int) -> tuple[Rings, int, int]:
        """Gaps of the cut rings when the top chord alone carries these moments at the marks first to last.

        Returns:
            The gaps, and between which of them there are any.
        """
        turns, joints, soft = [0.0] * (3 * len(self.bays)), self.joints, self.soft_top
        low, high = max(first, joints[0]), min(last, joints[-1])
        if low >= high:
            return turns, 0, 0
        begin, end = 3 * (bisect_right(joints, low) - 1), 3 * bisect_left(joints, high)
        for c in range(low, high):
            k, start, share = self.cells[c]
            m, after, sixth = hat[c - first], hat[c - first + 1], self.sixths[c] * soft
            both = sixth * (m + after)
            whole = 3.0 * both
            lever = start * whole + share * (both + sixth * after)
            turns[k] += lever - whole
            turns[k + 1] -= lever
            turns[k + 2] -= whole
        return turns, begin, end


def _onto(joints: Sequence[float], x: float) -> float:
    """The spacer at x, if there is one to rounding; else x."""
    k = bisect_left(joints, x - ROUNDING)
    return joints[k] if k < len(joints) and joints[k] <= x + ROUNDING else x
