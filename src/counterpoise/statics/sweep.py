"""One pass along the batten for the greatest moment and the greatest sags, when the pulls are known.

This is the quick way for many answers in a row; Field gives the same numbers and more, for one answer.
"""

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

Sag = tuple[float, float, float]  # sag with its sign [m], where [m], length of its span [m]


@dataclass(slots=True)
class Strip:
    """Stations and cells of a batten, with its loads, ready to take a few loads more."""

    xs: list[float]  # stations [m]
    softs: list[float]  # 1/EI of the cells [1/(N m2)]
    ws: list[float]  # spread load on the cells [N/m]
    ps: list[float]  # point load at the stations [N]
    marks: list[int]  # at a station that carries: number of the line; else -1

    def copy(self) -> "Strip":
        """The same strip, to be changed apart from this one."""
        return Strip(self.xs[:], self.softs[:], self.ws[:], self.ps[:], self.marks[:])

    def add_point(self, x: float, force: float) -> None:
        """Hang a force [N] at x."""
        self.ps[self._station(x)] += force

    def add_spread(self, start: float, end: float, per_length: float) -> None:
        """Hang a force per length [N/m] from start to end."""
        first = self._station(start)
        for c in range(first, self._station(end)):
            self.ws[c] += per_length

    def _station(self, x: float) -> int:
        """Index of the station at x, made if need be."""
        xs = self.xs
        c = bisect_right(xs, x) - 1
        if xs[c] == x:
            return c
        xs.insert(c + 1, x)
        self.softs.insert(c, self.softs[c])
        self.ws.insert(c, self.ws[c])
        self.ps.insert(c + 1, 0.0)
        self.marks.insert(c + 1, -1)
        return c + 1


def sweep(strip: Strip, pulls: Sequence[float], *, sags: bool) -> tuple[float, float, list[Sag]]:
    """Greatest moment [N m] with its sign, where [m], and the greatest sag of each span (none unless asked for)."""
    xs = strip.xs
    moment = shear = slope = drop = best = at = 0.0
    cells: list[tuple[float, float, float, float, float, float, float, float]] = []
    found: list[Sag] = []
    hanging = False
    for c, (x, soft, w, p, mark) in enumerate(zip(xs, strip.softs, strip.ws, strip.ps, strip.marks, strict=False)):
        shear -= p
        if mark >= 0:
            if hanging and sags:
                found.append(_sag_of(cells, x, drop))
            shear += pulls[mark]
            hanging, slope, drop = True, 0.0, 0.0
            cells = []
        h = xs[c + 1] - x
        if abs(moment) > abs(best):
            best, at = moment, x
        if 0.0 < shear < w * h:
            peak = moment + 0.5 * shear * shear / w
            if abs(peak) > abs(best):
                best, at = peak, x + shear / w
        cells.append((x, h, soft, moment, shear, w, slope, drop))
        hw = h * w
        drop += h * (slope - soft * h * (0.5 * moment + h * (shear / 6.0 - hw / 24.0)))
        slope -= soft * h * (moment + h * (0.5 * shear - hw / 6.0))
        moment += h * (shear - 0.5 * hw)
        shear -= hw
    if sags and strip.marks[-1] >= 0 and hanging:
        found.append(_sag_of(cells, xs[-1], drop))
    return best, at, found


def _sag_of(cells: list[tuple[float, float, float, float, float, float, float, float]], end: float, drop: float) -> Sag:
    """Greatest sag of a span whose cells were marched level from zero and reached `drop` at its end."""
    start = cells[0][0]
    length = end - start
    chord = drop / length
    best, at = 0.0, start
    last = len(cells) - 1
    for c, (x, h, soft, m, v, w, slope, y) in enumerate(cells):
        first = slope - chord
        sag = y - chord * (x - start)  # rounding may let the slope change its sign between two cells, unseen by either
        if abs(sag) > abs(best):
            best, at = sag, x
        after = (cells[c + 1][6] if c < last else slope - soft * h * (m + h * (0.5 * v - h * w / 6.0))) - chord
        m_end = m + h * (v - 0.5 * h * w)
        if (m >= 0.0 and m_end >= 0.0) or (w == 0.0 and m <= 0.0 and m_end <= 0.0):  # slope runs one way
            if (first < 0.0) == (after < 0.0):
                continue
            places = [level_place(first, soft, m, v, w, (0.0, h, first, after))]
        else:
            turn = soft * h * (max(abs(m), abs(m_end)) + 0.125 * w * h * h)  # more than the slope can change
            if (first < 0.0) == (after < 0.0) and abs(first) > turn:
                continue
            places = level_places(first, soft, m, v, w, h)
        for t in places:
            sag = y - chord * (x - start) + t * (first - soft * t * (0.5 * m + t * (v / 6.0 - t * w / 24.0)))
            if abs(sag) > abs(best):
                best, at = sag, x + t
    return best, at, length


def level_places(first: float, soft: float, m: float, v: float, w: float, h: float) -> list[float]:
    """Distances in a cell of length h where the slope, `first` at its start, is zero."""
    found = []
    low, f_low = 0.0, first
    for t in (*zero_moments(m, v, w, h), h):  # up to each of these the slope only rises or only falls
        f = first - soft * t * (m + t * (0.5 * v - w * t / 6.0))
        if (f < 0.0) != (f_low < 0.0):
            found.append(level_place(first, soft, m, v, w, (low, t, f_low, f)))
        low, f_low = t, f
    return found


def zero_moments(m: float, v: float, w: float, h: float) -> tuple[float, ...]:
    """Distances strictly inside a cell where the moment m + v t - w t2/2 is zero, in order."""
    if w == 0.0:
        t = -m / v if v else 0.0
        return (t,) if 0.0 < t < h else ()
    under = v * v + 2.0 * w * m
    if under <= 0.0:
        return ()
    q = v + math.sqrt(under) if v >= 0.0 else v - math.sqrt(under)  # both roots without loss of digits
    one, other = q / w, -2.0 * m / q
    if one > other:
        one, other = other, one
    if 0.0 < one < h:
        return (one, other) if one < other < h else (one,)
    return (other,) if 0.0 < other < h else ()


def level_place(
    first: float, soft: float, m: float, v: float, w: float, bracket: tuple[float, float, float, float]
) -> float:
    """The one place where the slope is zero: Newton, kept inside by bisection.

    The bracket holds two places, between which the slope only rises or only falls, and the slopes there, of which one
    is below zero.
    """
    low, high, f_low, f_high = bracket
    rising = f_low < 0.0
    enough = 1.0e-6 * (high - low)  # a Newton step this short leaves its square; the sag is level here besides
    t = low + (high - low) * f_low / (f_low - f_high)
    half, third = 0.5 * v, w / 6.0
    for _ in range(80):
        f = first - soft * t * (m + t * (half - third * t))
        if f == 0.0:
            return t
        if (f < 0.0) == rising:
            low = t
        else:
            high = t
        fall = soft * (m + t * (v - 0.5 * w * t))
        new = t + f / fall if fall else low
        if not low < new < high:
            new = 0.5 * (low + high)
        if -enough <= new - t <= enough:
            return new
        t = new
    return t
