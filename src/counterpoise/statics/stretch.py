"""One span between two carrying lines, ready to be asked many times for its greatest moment and its greatest sag.

Loads press down, so along a span the shear only falls and the moment is one hump: its greatest size is at an end or
where the shear passes zero, found by halving. What loads elsewhere do to a span comes in by its two end moments alone,
whose shapes are kept: so a span is not marched again unless a load hangs in it.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import pairwise

from counterpoise.statics.sweep import level_place, level_places

Peak = tuple[float, float]  # a value with its sign, and where [m]


class Cells:
    """A span cut into cells and marched: values at the stations, shears at the start of each cell."""

    __slots__ = ("_raw", "chord", "hs", "moments", "shears", "slopes", "softs", "ws", "xs")

    def __init__(
        self,
        xs: list[float],
        hs: list[float],
        softs: list[float],
        ws: list[float],
        ps: Sequence[float],
        moment: float,
        shear: float,
    ) -> None:
        self.xs, self.hs, self.softs, self.ws = xs, hs, softs, ws
        slope = drop = 0.0
        moments, shears, slopes, drops = [moment], [], [slope], [drop]
        for h, soft, w, p in zip(hs, softs, ws, ps, strict=False):
            shear -= p
            shears.append(shear)
            hw, bend = h * w, soft * h
            drop += h * (slope - bend * (0.5 * moment + h * (shear / 6.0 - hw / 24.0)))
            slope -= bend * (moment + h * (0.5 * shear - hw / 6.0))
            moment += h * (shear - 0.5 * hw)
            shear -= hw
            moments.append(moment)
            slopes.append(slope)
            drops.append(drop)
        self.moments, self.shears = moments, shears
        first = xs[0]
        chord = drop / (xs[-1] - first)
        self.slopes = [slope - chord for slope in slopes]  # against the chord
        self.chord, self._raw = chord, drops

    def drop(self, c: int) -> float:
        """How far the start of cell c hangs below the chord [m]."""
        return self._raw[c] - self.chord * (self.xs[c] - self.xs[0])

    def drops(self) -> list[float]:
        """How far every station hangs below the chord [m]."""
        chord, first = self.chord, self.xs[0]
        return [drop - chord * (x - first) for drop, x in zip(self._raw, self.xs, strict=True)]

    def hump(self) -> Peak:
        """The greatest moment where the shear passes zero or at the ends, and where."""
        c = bisect_left([-shear for shear in self.shears], 0.0) - 1
        return hump_in(self, max(c, 0), 0.0, 0.0)

    def greatest_sag(self) -> Peak:
        """Sag of the greatest size, with its sign, and where."""
        slopes = self.slopes
        if slopes[0] < 0.0 or slopes[-1] > 0.0:
            return greatest(self.level_sags())
        c = 0
        for slope in slopes:  # see Stretch.greatest_sag
            if slope < 0.0:
                break
            c += 1
        else:
            return 0.0, self.xs[0]
        c -= 1
        return self.sag_in(c, slopes[c], slopes[c + 1], self.moments[c], self.shears[c], self.drop(c))

    def sag_in(self, c: int, first: float, after: float, m: float, v: float, drop: float) -> Peak:
        """Sag where the slope, `first` at the start of cell c and `after` at its end, comes down to zero, and where."""
        w, soft, h = self.ws[c], self.softs[c], self.hs[c]
        t = level_place(first, soft, m, v, w, (0.0, h, first, after))
        return drop + t * (first - soft * t * (0.5 * m + t * (v / 6.0 - t * w / 24.0))), self.xs[c] + t

    def level_sags(self) -> list[Peak]:
        """Sags where the slope is the chord's, and where."""
        return level_sags(self, self.moments, self.slopes, self.drops(), 0.0)


def hump_in(cells: Cells, c: int, moment: float, shear: float) -> Peak:
    """The greatest moment in cell c, with a moment at its start and a shear to be added."""
    moment += cells.moments[c]
    shear += cells.shears[c]
    h, w = cells.hs[c], cells.ws[c]
    if shear <= 0.0:
        t = 0.0
    else:
        t = shear / w if shear < w * h else h
    return moment + t * (shear - 0.5 * w * t), cells.xs[c] + t


def level_sags(
    cells: Cells, moments: Sequence[float], slopes: Sequence[float], drops: Sequence[float], shear: float
) -> list[Peak]:
    """Sags where the slope is the chord's, among them the greatest, and where.

    Moments, slopes and drops stand for those of the cells; the shear is added to theirs.
    """
    found = []
    for c, (first, after, m, k) in enumerate(zip(slopes, slopes[1:], moments, moments[1:], strict=False)):
        level = (first < 0.0) != (after < 0.0)
        if not level and (
            (m >= 0.0 and k >= 0.0)  # the slope falls all along
            or (m < 0.0 <= k and first >= 0.0)  # it runs away from zero, turns once, and is still on its side
            or (m > 0.0 > k and first < 0.0)
        ):
            continue
        h, w, soft, v = cells.hs[c], cells.ws[c], cells.softs[c], cells.shears[c] + shear
        if (m >= 0.0 and k >= 0.0) or (m <= 0.0 and k <= 0.0 and not 0.0 < v < w * h):
            if not level:
                continue
            places = [level_place(first, soft, m, v, w, (0.0, h, first, after))]
        else:
            turn = soft * h * (max(abs(m), abs(k)) + 0.125 * w * h * h)  # more than the slope can change
            if not level and abs(first) > turn:
                continue
            # the end too: rounding may let the slope change its sign just there
            places = [*level_places(first, soft, m, v, w, h), h]
        for t in places:
            sag = drops[c] + t * (first - soft * t * (0.5 * m + t * (v / 6.0 - t * w / 24.0)))
            found.append((sag, cells.xs[c] + t))
    return found


def greatest(sags: Sequence[Peak]) -> Peak:
    """The one of the greatest size; the first among equals."""
    return max(sags, key=_size, default=(0.0, 0.0))


def _size(peak: Peak) -> float:
    return abs(peak[0])


class Stretch:
    """A span under the loads that stay, and the shapes that unit moments at its ends give it."""

    __slots__ = (
        "aft",
        "aft_sag",
        "cells",
        "deepest",
        "drops",
        "fore",
        "fore_sag",
        "highest",
        "length",
        "lever",
        "peak",
        "ps",
        "rising",
        "weight",
    )

    def __init__(
        self, xs: list[float], softs: list[float], ws: list[float], ps: list[float], moment: float, shear: float
    ) -> None:
        self.ps, self.length = ps, xs[-1] - xs[0]
        hs = [b - a for a, b in pairwise(xs)]
        self.cells = Cells(xs, hs, softs, ws, ps, moment, shear)
        none = [0.0] * len(ws)
        self.fore = Cells(xs, hs, softs, none, none, 1.0, -1.0 / self.length)
        self.aft = Cells(xs, hs, softs, none, none, 0.0, 1.0 / self.length)
        self.drops = self.cells.drops(), self.fore.drops(), self.aft.drops()
        self.rising = [-shear for shear in self.cells.shears]
        self.peak = self.cells.hump()[0]
        sags = [sag for sag, _ in self.cells.level_sags()]
        self.deepest, self.highest = max(0.0, *sags, 0.0), max(0.0, *[-sag for sag in sags], 0.0)
        self.fore_sag, self.aft_sag = abs(self.fore.greatest_sag()[0]), abs(self.aft.greatest_sag()[0])
        self.weight = sum([w * h for w, h in zip(ws, hs, strict=True)]) + sum(ps[1:-1])
        self.lever = sum([w * h * (xs[-1] - x - 0.5 * h) for w, h, x in zip(ws, hs, xs, strict=False)])
        self.lever += sum([p * (xs[-1] - x) for p, x in zip(ps[1:-1], xs[1:-1], strict=True)])

    def hump(self, fore: float, aft: float) -> Peak:
        """The greatest moment between the ends once these moments are added at the ends."""
        slant = (aft - fore) / self.length
        c = max(bisect_left(self.rising, slant) - 1, 0)
        return hump_in(self.cells, c, fore + slant * (self.cells.xs[c] - self.cells.xs[0]), slant)

    def may_sag(self, fore: float, aft: float) -> float:
        """No sag is larger than this once these moments are added at the ends [m]."""
        down, up = self.deepest, self.highest
        if fore > 0.0:  # a sagging moment at an end lowers the span all along
            down += fore * self.fore_sag
        else:
            up -= fore * self.fore_sag
        if aft > 0.0:
            down += aft * self.aft_sag
        else:
            up -= aft * self.aft_sag
        if down > up:  # quicker than max, and asked very often
            return down
        return up

    def greatest_sag(self, fore: float, aft: float) -> Peak:
        """Sag of the greatest size once these moments are added at the ends.

        The slope against the chord rises where the moment hogs, falls over its hump, and rises again. Where it starts
        at zero or above and ends at zero or below there is one place where it is zero, on the fall: halving finds it.
        """
        cells, one, two = self.cells, self.fore, self.aft
        base, left, right = cells.slopes, one.slopes, two.slopes
        first, after = base[0] + fore * left[0] + aft * right[0], base[-1] + fore * left[-1] + aft * right[-1]
        shear = (aft - fore) / self.length
        if first < 0.0 or after > 0.0:
            moments = [m + fore * p + aft * q for m, p, q in zip(cells.moments, one.moments, two.moments, strict=True)]
            slopes = [m + fore * p + aft * q for m, p, q in zip(base, left, right, strict=True)]
            whole = [m + fore * p + aft * q for m, p, q in zip(*self.drops, strict=True)]
            return greatest(level_sags(cells, moments, slopes, whole, shear))
        low, high = 0, len(base) - 1
        while high - low > 1:
            middle = (low + high) >> 1
            slope = base[middle] + fore * left[middle] + aft * right[middle]
            if slope < 0.0:
                high, after = middle, slope
            else:
                low, first = middle, slope
        drops = self.drops
        moment = cells.moments[low] + fore * one.moments[low] + aft * two.moments[low]
        drop = drops[0][low] + fore * drops[1][low] + aft * drops[2][low]
        if after == 0.0:
            return drop, cells.xs[low]  # level to the end
        return cells.sag_in(low, first, after, moment, cells.shears[low] + shear, drop)

    def with_load(self, x: float, force: float, moment: float, shear: float) -> Cells:
        """The span with a load strictly inside, from the moment and the shear at its start."""
        cells = self.cells
        xs, hs, softs, ws, ps = cells.xs[:], cells.hs[:], cells.softs[:], cells.ws[:], self.ps[:]
        c = bisect_right(xs, x) - 1
        if xs[c] == x:
            ps[c] += force
        else:
            hs[c : c + 1] = [x - xs[c], xs[c + 1] - x]
            xs.insert(c + 1, x)
            softs.insert(c, softs[c])
            ws.insert(c, ws[c])
            ps.insert(c + 1, force)
        return Cells(xs, hs, softs, ws, ps, moment, shear)
