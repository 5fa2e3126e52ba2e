"""A ladder truss condensed to the places of its lines: small, and ready for the search of the lines that carry.

Here the flexibility F of the moments at the interior lines, with every ring of the frame closed, and the kinks g that
loads leave over them; what is left, for any choice of carrying lines, are the few equations of `line_moments`.
Derivation: docs/theory/ladder.md, eq. 7.
"""

from collections.abc import Sequence
from itertools import pairwise
from operator import add, mul

from counterpoise.errors import within
from counterpoise.statics.frame import Frame, Rings
from counterpoise.statics.frame_loads import Loaded, Lump, chord_turns, lump, ring_turns, simple
from counterpoise.statics.ladder import ChordLoads, Ladder
from counterpoise.statics.line_moments import Borne, LineMoments, dot


class Condensed(LineMoments):
    """A ladder truss seen from its lines. Made once for a truss and the places of its lines; serves any loads."""

    def __init__(self, ladder: Ladder, places: Sequence[float]) -> None:
        self.frame = frame = Frame(ladder, places)
        count, softs, matrix = len(places) - 2, frame.matrix.softs, [[0.0] * (len(places) - 2) for _ in places[2:]]
        super().__init__(frame.places, matrix)
        self._hats: list[tuple[list[float], int, int]] = []  # see _hat_over
        self._turns: list[tuple[Rings, int, int]] = []  # gaps each leaves in the cut rings, from where to where
        self._ahead: list[Rings] = []  # half of the ring forces that close them; see Band
        self._weighed: list[tuple[list[float], int]] = []  # the same over the pivots
        for i in range(count):
            hat, first, last = found = self._hat_over(i + 1)
            turns, begin, _ = gaps = frame.turns_of(hat, first, last)
            ahead = frame.matrix.ahead(turns, begin)
            weighed = list(map(mul, ahead[begin:], softs[begin:]))
            self._hats.append(found)
            self._turns.append(gaps)
            self._ahead.append(ahead)
            self._weighed.append((weighed, begin))
            for j, other in enumerate(self._ahead):
                matrix[i][j] = matrix[j][i] = -dot(weighed, other[begin:])
        self._add_products(matrix)

    def _hat_over(self, i: int) -> tuple[list[float], int, int]:
        """Moments at the marks from line to line for a unit moment over line i; first and last mark."""
        xs, (first, middle, last) = self.frame.xs, self.frame.at[i - 1 : i + 2]
        (a, _, b), (before, after) = self.xs[i - 1 : i + 2], self.spans[i - 1 : i + 1]
        hat = [(x - a) / before for x in xs[first:middle]]
        hat += [(b - x) / after for x in xs[middle : last + 1]]
        return hat, first, last

    def _add_products(self, matrix: list[list[float]]) -> None:
        """Integrals of every two hats over the top chord, over its EI: of one with itself and with the one beside."""
        third, sixth = self.frame.soft_top / 3.0, self.frame.soft_top / 6.0
        for i, (before, after) in enumerate(pairwise(self.spans)):
            matrix[i][i] += third * (before + after)
            if i:
                matrix[i][i - 1] += sixth * before
                matrix[i - 1][i] += sixth * before

    def loaded(self, loads: ChordLoads) -> Loaded:
        """What the loads do while every line and every ring is cut.

        Raises:
            OutOfRange: one hangs off the truss, or they weigh nothing.
        """
        found = self.share(loads)
        if not 1.0e-9 <= found.weight <= 1.0e12:
            mend = "A truss weighs something: give its weight."
            within("total load", found.weight, low=1.0e-9, high=1.0e12, unit="N", mend=mend)
        return found

    def share(self, loads: ChordLoads) -> Loaded:
        """As loaded, of loads that are only a share of what hangs: they may weigh nothing."""
        frame = self.frame
        top, bottom = lump(frame, loads.top), lump(frame, loads.bottom)
        weight, first = top.weight + bottom.weight, top.first + bottom.first
        weights, levers = list(map(add, top.weights, bottom.weights)), list(map(add, top.levers, bottom.levers))
        both = Lump(weights, levers, list(map(add, top.points, bottom.points)), [], [], weight, first)
        whole, pulls, _ = simple(frame, both, frame.at, joined=True)
        hung, spacers, shears = simple(frame, bottom, frame.joints, joined=False)
        chords, heads, tails = chord_turns(frame, whole, hung, top, bottom)
        ahead = frame.matrix.ahead(ring_turns(frame, chords, hung, spacers))
        kinks = [
            dot(hat, heads[a:b]) + dot(hat[1:], tails[a:b]) - dot(weighed, ahead[begin:])
            for (hat, a, b), (weighed, begin) in zip(self._hats, self._weighed, strict=True)
        ]
        a, b = frame.at[0], frame.at[-1]
        outer = (whole.ends[a - 1] if a else 0.0, whole.starts[b] if b < len(frame.hs) else 0.0)
        return Loaded(loads, weight, first, both, bottom, hung, spacers, shears, chords, ahead, pulls, kinks, outer)

    def rings_of(self, loaded: Loaded, borne: Borne) -> Rings:
        """The forces that close the rings, under the loads and the moments over the lines."""
        middle = loaded.ahead
        for moment, unit in zip(borne.moments[1:-1], self._ahead, strict=True):
            middle = [m + moment * u for m, u in zip(middle, unit, strict=True)]
        return self.frame.matrix.closing(middle)

    def chord_turns_of(self, loaded: Loaded, borne: Borne) -> Rings:
        """Gaps of the cut rings from what bends both chords, under the loads and the moments over the lines."""
        found = loaded.chords[:]
        for moment, (turns, begin, end) in zip(borne.moments[1:-1], self._turns, strict=True):
            found[begin:end] = [t + moment * u for t, u in zip(found[begin:end], turns[begin:end], strict=True)]
        return found
