"""One choice of carrying lines with its influence lines: what a unit load at any x adds to every pull and gap.

By reciprocity the pull of a line under a unit load at x is the drop at x when that line is made one unit longer, and
the drop at a slack line under a unit load at x is the drop at x under a unit load at the slack line. Both are cubics
between stations, exact, and evaluated cell by cell so that no digits are lost.
"""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import replace

from counterpoise.statics.bend import Bend
from counterpoise.statics.field import Field
from counterpoise.statics.grid import Grid, Span
from counterpoise.statics.hanging import settle
from counterpoise.statics.model import Line
from counterpoise.statics.proof import PROOF, Unproven, drop_scale
from counterpoise.statics.slack import TRIFLE
from counterpoise.statics.three_moment import carry

Cubic = tuple[float, float, float, float]


class Choice:
    """A choice of carrying lines under the loads that stay, and its influence lines."""

    def __init__(self, grid: Grid, lines: Sequence[Line], carrying: tuple[int, ...]) -> None:
        self.carrying, self.grid, self.count = carrying, grid, len(lines)
        carried = carry(grid, lines, carrying, {})
        self.field, self.gaps = settle(grid, lines, carried)
        self.pulls = [0.0] * self.count
        for i, pull in zip(carrying, carried.pulls, strict=True):
            self.pulls[i] = pull
        self.slack = tuple(i for i in range(self.count) if i not in carrying)
        self.tall = drop_scale(grid, lines, self.field)
        self.give = 1.0e-3 * grid.xs[-1] ** 3 / max(grid.eis)  # size of a drop per force, for tolerances [m/N]
        self.places = [grid.xs[s] for s in grid.at]
        self.bend = Bend(grid, self.field, carrying)
        _unbroken(self.field, self.tall)
        self._prepare(grid, lines)

    def _prepare(self, grid: Grid, lines: Sequence[Line]) -> None:
        """Influence lines as cubics for each cell."""
        zeros = [0.0] * len(grid.hs)
        empty = replace(grid, ws=zeros, ps=[0.0] * len(grid.xs))
        level = [replace(line, offset=0.0) for line in lines]
        known: dict[tuple[int, int], Span] = {}
        fields: list[Field] = []
        for i in range(self.count):
            if i in self.carrying:
                longer = [replace(line, offset=1.0) if k == i else line for k, line in enumerate(level)]
                field, _ = settle(empty, longer, carry(empty, longer, self.carrying, known))
            else:
                loaded = replace(empty, ps=[1.0 if s == grid.at[i] else 0.0 for s in range(len(grid.xs))])
                field, _ = settle(loaded, level, carry(loaded, level, self.carrying, {}))
            _unbroken(field, max(*map(abs, field.drops), *(abs(s) * grid.xs[-1] for s in field.slopes)))
            fields.append(field)
        self.cubics: list[list[Cubic]] = [
            [(f.drops[c], f.slopes[c], -0.5 * f.moments[c] / ei, -f.shears[c] / (6.0 * ei)) for f in fields]
            for c, ei in enumerate(grid.eis)
        ]

    def added(self, x: float) -> list[float]:
        """What a load of 1 N at x adds: pull at each carrying line [N], drop at each slack line [m]."""
        xs = self.grid.xs
        c = min(bisect_right(xs, x) - 1, len(self.cubics) - 1)
        t = x - xs[c]
        return [k0 + t * (k1 + t * (k2 + t * k3)) for k0, k1, k2, k3 in self.cubics[c]]

    def broken(self, added: Sequence[float], force: float) -> list[int]:
        """Lines that would push, or be stretched while slack, by more than rounding, with the load of this force."""
        no_push = -TRIFLE * (self.grid.weight + force)
        no_stretch = -TRIFLE * (self.tall + force * self.give)
        found = [i for i in self.carrying if self.pulls[i] + force * added[i] < no_push]
        found += [i for i in self.slack if self.gaps[i] - force * added[i] < no_stretch]
        return found

    def tensions(self, added: Sequence[float], force: float) -> list[float]:
        """Pull of every line with the load of this force [N]."""
        found = [0.0] * self.count
        for i in self.carrying:
            pull = self.pulls[i] + force * added[i]
            if pull > 0.0:
                found[i] = pull
        return found

    def balance(self, tensions: Sequence[float], weight: float, first: float) -> None:
        """Raise Unproven unless the pulls are in equilibrium with a weight and its moment about x = 0."""
        length = self.grid.xs[-1]
        miss, lever = sum(tensions) - weight, -first
        for tension, place in zip(tensions, self.places, strict=True):
            lever += tension * place
        if not (abs(miss) <= PROOF * weight and abs(lever) <= PROOF * weight * length):
            raise Unproven("equilibrium", max(abs(miss), abs(lever) / length), PROOF * weight)


def _unbroken(field: Field, scale: float) -> None:
    """Raise Unproven where the batten kinks or misses a carrying line."""
    steep = max(*map(abs, field.slopes), scale / field.xs[-1])
    for law, steps, size in (("a line without a gap", field.drop_steps, scale), ("no kink", field.slope_steps, steep)):
        for step in steps:
            if not abs(step) <= PROOF * size:
                raise Unproven(law, abs(step), PROOF * size)


class Choices:
    """The choices met so far for one batten and its loads; each is prepared once."""

    def __init__(self, grid: Grid, lines: Sequence[Line]) -> None:
        self.grid, self.lines = grid, lines
        self.met: dict[tuple[int, ...], Choice] = {}

    def of(self, carrying: tuple[int, ...]) -> Choice:
        """The choice of these lines."""
        choice = self.met.get(carrying)
        if choice is None:
            choice = self.met[carrying] = Choice(self.grid, self.lines, carrying)
        return choice
