"""A span with one point load added, answered without a march.

Left of the load its moment is b times the shape of a unit moment at the right end, right of it a times that of one at
the left end (a, b: from the left end to the load, from the load to the right end). So its slopes are those shapes too,
but for a turn of each part as a whole; and by reciprocity (Maxwell, Betti) the turns of the ends under a unit load at x
are the drops at x under unit moments at the ends.
"""

from bisect import bisect_left, bisect_right

from counterpoise.statics.stretch import Cells, Peak, Stretch, hump_in
from counterpoise.statics.sweep import level_place


class OnePoint:
    """A place strictly inside a span; how heavy the load is comes with each question."""

    __slots__ = ("a", "b", "c", "lead", "stretch", "t", "trail", "x")

    def __init__(self, stretch: Stretch, x: float) -> None:
        xs = stretch.cells.xs
        self.stretch, self.x = stretch, x
        self.a, self.b = x - xs[0], xs[-1] - x
        self.c = c = bisect_right(xs, x) - 1
        self.t = t = x - xs[c]
        self.lead, self.trail = _drop(stretch.fore, c, t), _drop(stretch.aft, c, t)

    def hump(self, force: float, fore: float, aft: float) -> Peak:
        """The greatest moment between the ends, with these moments added at the ends, and where."""
        stretch, c = self.stretch, self.c
        cells, length = stretch.cells, stretch.length
        left = (aft - fore + force * self.b) / length  # shear that is added left of the load
        shear = cells.shears[c] - cells.ws[c] * self.t + left
        if shear <= 0.0:
            c = min(max(bisect_left(stretch.rising, left) - 1, 0), c)
            return hump_in(cells, c, fore + left * (cells.xs[c] - cells.xs[0]), left)
        if shear >= force:
            right = left - force
            c = max(bisect_left(stretch.rising, right) - 1, c)
            return hump_in(cells, c, fore + force * self.a + right * (cells.xs[c] - cells.xs[0]), right)
        moment = cells.moments[c] + self.t * (cells.shears[c] - 0.5 * cells.ws[c] * self.t)
        return moment + fore + left * self.a, self.x

    def greatest_sag(self, force: float, fore: float, aft: float) -> Peak | None:
        """Sag of the greatest size and where; nothing where the slope may pass zero more than once."""
        stretch, c = self.stretch, self.c
        base, one, two = stretch.cells.slopes, stretch.fore.slopes, stretch.aft.slopes
        start = base[0] + fore * one[0] + aft * two[0] + force * self.lead
        end = base[-1] + fore * one[-1] + aft * two[-1] - force * self.trail
        if start < 0.0 or end > 0.0:
            return None
        over = aft + force * self.b
        turn = force * (self.lead - self.b * two[0])
        first = base[c] + fore * one[c] + over * two[c] + turn
        soft, w, t = stretch.cells.softs[c], stretch.cells.ws[c], self.t
        m = stretch.cells.moments[c] + fore * stretch.fore.moments[c] + over * stretch.aft.moments[c]
        v = stretch.cells.shears[c] + (over - fore) / stretch.length
        here = first - soft * t * (m + t * (0.5 * v - w * t / 6.0))  # slope at the load
        if here < 0.0:
            if first >= 0.0:
                return _level(stretch, c, (fore, over, turn, turn * stretch.cells.xs[0]), (0.0, t, first, here))
            return _between(stretch, (0, c), (start, first), (fore, over, turn, turn * stretch.cells.xs[0]))
        under = fore + force * self.a
        turn = -force * (self.trail + self.a * one[-1])
        about = turn * stretch.cells.xs[-1]
        after = base[c + 1] + under * one[c + 1] + aft * two[c + 1] + turn
        if after < 0.0:
            return _level(stretch, c, (under, aft, turn, about), (t, stretch.cells.hs[c], here, after))
        return _between(stretch, (c + 1, len(base) - 1), (after, end), (under, aft, turn, about))


def _between(stretch: Stretch, stations: tuple[int, int], slopes: tuple[float, float], shape: "Shape") -> Peak:
    """The sag where the slope comes down to zero between two stations, by halving."""
    low, high = stations
    first, after = slopes
    fore, aft, turn, about = shape
    base, one, two = stretch.cells.slopes, stretch.fore.slopes, stretch.aft.slopes
    while high - low > 1:
        middle = (low + high) >> 1
        slope = base[middle] + fore * one[middle] + aft * two[middle] + turn
        if slope < 0.0:
            high, after = middle, slope
        else:
            low, first = middle, slope
    if high == low or after >= 0.0:  # level to the end
        return 0.0, stretch.cells.xs[high]
    return _level(stretch, low, (fore, aft, turn, about), (0.0, stretch.cells.hs[low], first, after))


Shape = tuple[
    float, float, float, float
]  # moments at both ends, turn of the whole, and that times where it turns about


def _level(stretch: Stretch, c: int, shape: Shape, bracket: tuple[float, float, float, float]) -> Peak:
    """The sag in cell c where the slope comes down to zero, inside the bracket of level_place."""
    fore, aft, turn, about = shape
    cells, drops = stretch.cells, stretch.drops
    soft, w = cells.softs[c], cells.ws[c]
    first = cells.slopes[c] + fore * stretch.fore.slopes[c] + aft * stretch.aft.slopes[c] + turn
    m = cells.moments[c] + fore * stretch.fore.moments[c] + aft * stretch.aft.moments[c]
    v = cells.shears[c] + (aft - fore) / stretch.length
    drop = drops[0][c] + fore * drops[1][c] + aft * drops[2][c] + turn * cells.xs[c] - about
    t = level_place(first, soft, m, v, w, bracket)
    return drop + t * (first - soft * t * (0.5 * m + t * (v / 6.0 - t * w / 24.0))), cells.xs[c] + t


def _drop(cells: Cells, c: int, t: float) -> float:
    """How far the shape of a unit end moment hangs below the chord, t into cell c."""
    bent = 0.5 * cells.moments[c] + t * cells.shears[c] / 6.0
    return cells.drop(c) + t * (cells.slopes[c] - cells.softs[c] * t * bent)
