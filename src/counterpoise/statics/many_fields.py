"""Moment, shear, slope and deflection of one batten with loads set at many places, all places at once.

The march of `field`, as arrays: axis 0 runs along the batten, axis 1 over the places. Each place has stations of its
own, those of the standing batten and those of the loads set there, so that nothing changes inside a cell; where two
stations are one place a cell has no length. Slopes and drops start from nothing at every carrying line, and are turned
onto the levels of the lines after.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from counterpoise.statics.grid import Grid
from counterpoise.statics.many_equations import Array, Index, Mask
from counterpoise.statics.model import Line
from counterpoise.statics.proof import PROOF, Unproven, kink_of_rounding


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Placed:
    """Loads set at many places: point loads, and spread loads."""

    points: Array  # [point loads, places] [m]
    forces: Array  # [point loads] [N]
    starts: Array  # [spread loads, places] [m]
    ends: Array
    per_length: Array  # [spread loads] [N/m]

    def some(self, places: Index) -> "Placed":
        """Those of some of the places."""
        return Placed(points=self.points[:, places], forces=self.forces, starts=self.starts[:, places],
                      ends=self.ends[:, places], per_length=self.per_length)  # fmt: skip

    @property
    def weight(self) -> Array:
        """Of all of them [places] [N]."""
        spread = self.per_length @ (self.ends - self.starts)
        return np.asarray(self.forces.sum() + spread)

    @property
    def first(self) -> Array:
        """Their moment about x = 0 [places] [N m]."""
        middles = 0.5 * (self.starts + self.ends)
        return np.asarray(self.forces @ self.points + self.per_length @ ((self.ends - self.starts) * middles))


class Fields:
    """Every cell of the batten at all places, for one choice of carrying lines; proven when it is made.

    With t from the start of a cell: M = moment + shear t - w t2/2, and the slope falls by M/EI.
    """

    def __init__(
        self, grid: Grid, lines: Sequence[Line], carrying: tuple[int, ...], placed: Placed, tensions: Array
    ) -> None:
        """The pulls of the lines [lines, places] spread out.

        Raises:
            Unproven: somewhere the batten is not in balance, kinks over a line, or a slack line is stretched.
        """
        self.grid, self.lines, self.carrying = grid, lines, carrying
        self.tensions, self.weight = tensions, grid.weight + placed.weight
        net = self._cut(placed)
        self._march(net)
        self._level()
        self._prove()

    def _cut(self, placed: Placed) -> Array:
        """Stations and cells; what presses down at each station, the lines taken off [stations, places]."""
        grid, count = self.grid, self.tensions.shape[1]
        base = np.repeat(np.array(grid.xs)[:, None], count, axis=1)
        xs = np.concatenate([base, placed.points, placed.starts, placed.ends])
        net = np.zeros(xs.shape)
        net[: len(grid.xs)] = np.array(grid.ps)[:, None]
        np.subtract.at(net, grid.at, self.tensions)
        net[len(grid.xs) :][: len(placed.forces)] = placed.forces[:, None]
        order = xs.argsort(axis=0, kind="stable")
        went = np.empty_like(order)
        np.put_along_axis(went, order, np.arange(len(order))[:, None], axis=0)
        self.stations: Index = went[: len(grid.xs)]  # where each station of the standing grid went
        self.xs: Array = np.take_along_axis(xs, order, axis=0)
        self.hs: Array = np.diff(self.xs, axis=0)
        of = (order < len(grid.xs)).cumsum(axis=0)[:-1] - 1
        self.of: Index = np.minimum(of, len(grid.hs) - 1)  # the cell of the standing grid that each is part of
        self.softs: Array = (1.0 / np.array(grid.eis))[self.of]
        self.ws: Array = np.array(grid.ws)[self.of]
        for start, end, per_length in zip(placed.starts, placed.ends, placed.per_length, strict=True):
            self.ws += per_length * ((self.xs[:-1] >= start) & (self.xs[1:] <= end))
        self.held: Index = self.stations[[grid.at[i] for i in self.carrying]]  # stations of the carrying lines
        starts: Mask = np.zeros(self.xs.shape, dtype=bool)
        np.put_along_axis(starts, self.held, values=True, axis=0)
        self.free: Array = np.where(starts, 0.0, 1.0)
        self.span: Index = starts.cumsum(axis=0)[:-1]  # 0: stage-right overhang, then the spans, then the other one
        return np.take_along_axis(net, order, axis=0)

    def _march(self, net: Array) -> None:
        """Fill the cells from stage right; slope and drop begin anew at each carrying line."""
        hs, ws, softs, free = self.hs, self.ws, self.softs, self.free
        self.moments, self.shears = np.zeros(self.xs.shape), np.zeros(self.xs.shape)  # shears: just stage left
        self.slopes, self.drops = np.zeros(self.xs.shape), np.zeros(self.xs.shape)
        self.came = np.zeros((2, *self.xs.shape))  # slope and drop as they come to each station
        pressed, bends = hs * ws, softs * hs
        moment = shear = slope = drop = np.zeros(self.xs.shape[1])
        for k, (h, hw, bend) in enumerate(zip(hs, pressed, bends, strict=True)):
            shear = shear - net[k]
            slope, drop = slope * free[k], drop * free[k]
            self.moments[k], self.shears[k], self.slopes[k], self.drops[k] = moment, shear, slope, drop
            drop = drop + h * (slope - bend * (0.5 * moment + h * (shear / 6.0 - hw / 24.0)))
            slope = slope - bend * (moment + h * (0.5 * shear - hw / 6.0))
            moment = moment + h * (shear - 0.5 * hw)
            shear = shear - hw
            self.came[0, k + 1], self.came[1, k + 1] = slope, drop
        self.moments[-1], self.shears[-1] = moment, shear - net[-1]
        self.slopes[-1], self.drops[-1] = slope * free[-1], drop * free[-1]

    def _level(self) -> None:
        """Turn every span onto the levels of its lines, and both overhangs after the spans beside them."""
        grid, count = self.grid, self.tensions.shape[1]
        at = np.array([grid.xs[grid.at[i]] for i in self.carrying])
        carry = [self.lines[i] for i in self.carrying]
        stretched = np.array([line.flexibility for line in carry])[:, None] * self.tensions[list(self.carrying)]
        levels = np.array([line.offset for line in carry])[:, None] + stretched
        slope, drop = (np.take_along_axis(each, self.held, axis=0) for each in self.came)
        spans = np.diff(at)[:, None]
        self.lengths: Array = np.concatenate([[np.inf], spans[:, 0], [np.inf]])  # of the spans; overhangs have none
        none = np.zeros((1, count))
        chords = drop[1:] / spans
        self.chords: Array = np.concatenate([none, chords, none])
        turns = np.diff(levels, axis=0) / spans - chords  # slope of each span just stage left of its first line
        after = turns + slope[1:]  # slope of each span as it comes to its last line
        self.kinks, self.levels = turns[1:] - after[:-1], levels
        turned = np.concatenate([turns[:1] - slope[:1], turns, after[-1:]])
        begins = np.concatenate([at[:1], at])
        risen = np.concatenate([levels[:1] - drop[:1], levels])
        span = np.concatenate([self.span, self.span[-1:]])  # of every station
        tilt = np.take_along_axis(turned, span, axis=0)
        lever = self.xs - begins[span]
        self.sags: Array = self.drops - np.take_along_axis(self.chords, span, axis=0) * lever  # inside the spans
        self.deflections: Array = self.drops + tilt * lever + np.take_along_axis(risen, span, axis=0)
        self.turned: Array = self.slopes + tilt
        end = len(self.carrying)  # the last station may be the last line itself
        last = self.came[:, -1] * self.free[-1]
        self.deflections[-1] = last[1] + turned[end] * (self.xs[-1] - begins[end]) + risen[end]
        self.tips: Array = np.stack([self.deflections[0] - levels[0], self.deflections[-1] - levels[-1]])
        self.gaps: Array = np.zeros(self.tensions.shape)
        for i in set(range(len(self.lines))) - set(self.carrying):
            there = np.take_along_axis(self.deflections, self.stations[grid.at[i]][None], axis=0)[0]
            self.gaps[i] = self.lines[i].offset - there

    def _prove(self) -> None:
        """Balance, no kink over a line, no slack line stretched; each within PROOF of the like of its own."""
        grid, length = self.grid, self.grid.xs[-1]
        _hold("equilibrium of forces", self.shears[-1], self.weight)
        _hold("equilibrium of moments", self.moments[-1], self.weight * length)
        bent = 1.0e-3 * self.weight * length**3 / max(grid.eis)
        offsets = max(abs(line.offset) for line in self.lines)
        tall = np.maximum(np.maximum(np.abs(self.deflections).max(axis=0), offsets), bent)
        steep = np.maximum(np.abs(self.turned).max(axis=0), tall / length)
        at = [grid.xs[grid.at[i]] for i in self.carrying]
        for kink, before, here, after in zip(self.kinks, at, at[1:], at[2:], strict=False):
            near = kink_of_rounding(1.0, before, here, after)
            _hold("a batten without a kink", kink, steep + near * tall)
        _hold("a slack line that is not stretched", np.minimum(self.gaps, 0.0).min(axis=0), tall)


def _hold(law: str, miss: Array, scale: Array) -> None:
    stands = np.abs(miss) <= PROOF * scale  # a miss that is no number fails as well
    if not stands.all():
        i = int(np.argmin(stands))
        raise Unproven(law, float(np.abs(miss)[i]), PROOF * float(scale[i]))
