"""Moment, shear, slope and deflection in every cell, once the moments at the carrying lines are known."""

import math
from bisect import bisect_right
from dataclasses import dataclass

from counterpoise.statics.grid import Grid
from counterpoise.statics.sweep import level_places
from counterpoise.statics.three_moment import Carried


@dataclass(frozen=True, slots=True)
class Field:
    """Values at the start of every cell, from which the cell follows exactly.

    With t from the start of the cell: M = moment + shear t - w t2/2, slope' = -M/EI, deflection' = slope.
    Deflection is down positive, so a sagging moment lessens the slope.
    """

    xs: list[float]  # stations, one more than cells [m]
    hs: list[float]  # [m]
    eis: list[float]  # [N m2]
    ws: list[float]  # [N/m]
    moments: list[float]  # [N m]
    shears: list[float]  # [N]
    slopes: list[float]  # [rad]
    drops: list[float]  # deflection, down positive, absolute [m]
    slope_steps: list[float]  # unwanted step of slope at the carrying lines, first and last left out [rad]
    drop_steps: list[float]  # unwanted step of deflection at the carrying lines, the first left out [m]

    def cell(self, x: float) -> tuple[int, float]:
        """Cell that holds x, and the distance from its start."""
        c = min(max(bisect_right(self.xs, x) - 1, 0), len(self.hs) - 1)
        return c, x - self.xs[c]

    def moment(self, x: float) -> float:
        """Bending moment at x [N m]."""
        c, t = self.cell(x)
        return self.moments[c] + t * (self.shears[c] - 0.5 * self.ws[c] * t)

    def shear(self, x: float) -> float:
        """Shear at x [N]."""
        c, t = self.cell(x)
        return self.shears[c] - self.ws[c] * t

    def slope(self, x: float) -> float:
        """Slope at x, down toward stage left positive [rad]."""
        c, t = self.cell(x)
        m, v, w = self.moments[c], self.shears[c], self.ws[c]
        return self.slopes[c] - t / self.eis[c] * (m + t * (0.5 * v - w * t / 6.0))

    def drop(self, x: float) -> float:
        """Deflection at x, down positive, absolute [m]."""
        return self.drop_in(*self.cell(x))

    def drop_in(self, c: int, t: float) -> float:
        """Deflection at the distance t from the start of cell c [m]."""
        bent = t * t * (0.5 * self.moments[c] + t * (self.shears[c] / 6.0 - self.ws[c] * t / 24.0))
        return self.drops[c] + self.slopes[c] * t - bent / self.eis[c]

    def greatest_moment(self) -> tuple[float, float]:
        """Moment of the greatest size, with its sign, and where; the first from stage right among equals."""
        best = at = 0.0
        size = -1.0
        for c, m in enumerate(self.moments):
            if abs(m) > size:
                best, at, size = m, self.xs[c], abs(m)
            v, w = self.shears[c], self.ws[c]
            if w > 0.0 and v > 0.0 and v < w * self.hs[c]:  # the shear passes zero inside: a sagging peak
                peak = m + 0.5 * v * v / w
                if abs(peak) > size:
                    best, at, size = peak, self.xs[c] + v / w, abs(peak)
        return best, at

    def greatest_sag(self, a: int, b: int) -> tuple[float, float]:
        """Sag of the greatest size against the chord from station a to station b, with its sign, and where."""
        start, end = self.xs[a], self.xs[b]
        y_start, y_end = self.drops[a], self.drop_in(b - 1, self.hs[b - 1])
        chord = (y_end - y_start) / (end - start)
        best, at = 0.0, start
        for c in range(a, b):
            # the start too: rounding may let the slope change its sign between two cells, unseen by either
            for t in (0.0, *self._level_places(c, chord)):
                sag = self.drop_in(c, t) - (y_start + chord * (self.xs[c] + t - start))
                if abs(sag) > abs(best):
                    best, at = sag, self.xs[c] + t
        return best, at

    def _level_places(self, c: int, chord: float) -> list[float]:
        """Distances t inside cell c where the slope equals the chord's."""
        first = self.slopes[c] - chord
        return level_places(first, 1.0 / self.eis[c], self.moments[c], self.shears[c], self.ws[c], self.hs[c])


def spread_out(grid: Grid, carried: Carried, levels: list[float]) -> Field:
    """March through every span from the moments and levels at its carrying lines, then out along both overhangs."""
    cells = len(grid.hs)
    zeros = [0.0] * cells
    field = Field(grid.xs, grid.hs, grid.eis, grid.ws, zeros, zeros[:], zeros[:], zeros[:], [], [])
    stations = [grid.at[i] for i in carried.carrying]
    slope_before = math.nan
    for j, span in enumerate(carried.spans):
        m_left, m_right = carried.moments[j], carried.moments[j + 1]
        chord = (levels[j + 1] - levels[j]) / span.length
        slope = chord + span.turn_left + span.flex_ll * m_left + span.flex_lr * m_right
        if j:
            field.slope_steps.append(slope - slope_before)
        shear = span.left + (m_right - m_left) / span.length
        slope_before, drop = _march(field, grid, stations[j], stations[j + 1], (m_left, shear, slope, levels[j]))
        field.drop_steps.append(drop - levels[j + 1])
    outer, inner = stations[0], stations[-1]
    _march_back(field, grid, outer, field.slopes[outer], levels[0])
    shear = sum(grid.ws[c] * grid.hs[c] + grid.ps[c + 1] for c in range(inner, cells))
    _march(field, grid, inner, cells, (carried.moments[-1], shear, slope_before, levels[-1]))
    return field


def _march(field: Field, grid: Grid, a: int, b: int, start: tuple[float, float, float, float]) -> tuple[float, float]:
    """Fill cells a to b - 1 from moment, shear, slope and deflection at station a; slope and deflection at b."""
    moment, shear, slope, drop = start
    for c in range(a, b):
        h, w = grid.hs[c], grid.ws[c]
        if c > a:
            shear -= grid.ps[c]
        field.moments[c], field.shears[c], field.slopes[c], field.drops[c] = moment, shear, slope, drop
        bend = h / grid.eis[c]
        drop += h * slope - bend * h * (0.5 * moment + h * (shear / 6.0 - h * w / 24.0))
        slope -= bend * (moment + h * (0.5 * shear - h * w / 6.0))
        moment += h * (shear - 0.5 * h * w)
        shear -= h * w
    return slope, drop


def _march_back(field: Field, grid: Grid, outer: int, slope: float, drop: float) -> None:
    """Fill the cells of the stage-right overhang, from slope and deflection at the outer carrying line."""
    moment = shear = 0.0
    for c in range(outer):
        h, w = grid.hs[c], grid.ws[c]
        shear -= grid.ps[c]
        field.moments[c], field.shears[c] = moment, shear
        moment += h * (shear - 0.5 * h * w)
        shear -= h * w
    for c in range(outer - 1, -1, -1):
        h, w, m, v = grid.hs[c], grid.ws[c], field.moments[c], field.shears[c]
        bend = h / grid.eis[c]
        slope += bend * (m + h * (0.5 * v - h * w / 6.0))
        drop -= h * slope - bend * h * (0.5 * m + h * (v / 6.0 - h * w / 24.0))
        field.slopes[c], field.drops[c] = slope, drop
