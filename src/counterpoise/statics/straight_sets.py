"""One choice of carrying lines over a whole box of doubts: every pull, gap, moment and drop as a straight function.

While the same lines carry, all of them run straight in loads and offsets, so one solution at the low ends and one for
each doubt say all.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

from counterpoise.statics.box import Straight, highest
from counterpoise.statics.doubts import Doubt, at_factors, scaled
from counterpoise.statics.field import Field
from counterpoise.statics.grid import Grid, Span, cut
from counterpoise.statics.hanging import settle
from counterpoise.statics.model import Beam, Line, Load, PointLoad
from counterpoise.statics.three_moment import Carried, carry

TRIFLE = 1.0e-13  # of the load, of the drops: a condition that fails by less may fail by rounding


@dataclass(frozen=True, slots=True)
class Part:
    """A share of loads and offsets, cut at the same stations as every other."""

    grid: Grid
    lines: Sequence[Line]
    known: dict[tuple[int, int], Span]


def parts_of(beam: Beam, lines: Sequence[Line], loads: Sequence[Load], doubts: Sequence[Doubt]) -> list[Part]:
    """Everything at the low ends, then what each doubt adds from its low end to its high end."""
    stations = [
        min(max(x, 0.0), beam.length)
        for doubt in doubts
        for load in doubt.loads
        for x in ((load.x,) if isinstance(load, PointLoad) else (load.start, load.end))
    ]
    low_lines, low_loads = at_factors(lines, loads, doubts, [doubt.low for doubt in doubts])
    lowest = cut(beam, low_lines, low_loads, stations)
    found = [Part(lowest, low_lines, {})]
    for doubt in doubts:
        width = doubt.high - doubt.low
        offsets = doubt.offsets or (0.0,) * len(lines)
        moved = [replace(line, offset=width * offset) for line, offset in zip(lines, offsets, strict=True)]
        grid = cut(beam, moved, [scaled(load, width) for load in doubt.loads], lowest.xs)
        found.append(Part(grid, moved, {}))
    return found


def leaning(parts: Sequence[Part], *, left: bool) -> Straight:
    """Moment of all loads about an outer line, 0 or more where that line need not push [N m]."""
    at = parts[0].grid.at
    x = parts[0].grid.xs[at[0] if left else at[-1]]
    levers = [part.grid.weight * (part.grid.centre - x) * (1.0 if left else -1.0) for part in parts]
    return Straight(levers[0], tuple(levers[1:]))


def sizes_of(parts: Sequence[Part]) -> tuple[float, float]:
    """Size of pulls [N] and of drops [m] in the box, by which conditions are scaled."""
    grid, weight = parts[0].grid, sum([part.grid.weight for part in parts])
    trims = sum([max([abs(line.offset) for line in part.lines]) for part in parts])
    return weight, trims + 1.0e-3 * weight * grid.xs[-1] ** 3 / max(grid.eis)


class StraightSet:
    """One choice of carrying lines; fields are worked out when first asked for."""

    def __init__(self, parts: Sequence[Part], carrying: tuple[int, ...]) -> None:
        self.carrying, self._parts = carrying, parts
        self._carried: list[Carried] = [carry(part.grid, part.lines, carrying, part.known) for part in parts]

    @cached_property
    def pulls(self) -> tuple[Straight, ...]:
        """Pull of every line [N]; may fall below zero where this choice is not the true one."""
        found = [Straight(0.0, (0.0,) * (len(self._parts) - 1))] * len(self._parts[0].lines)
        for k, i in enumerate(self.carrying):
            found[i] = self._straight([carried.pulls[k] for carried in self._carried])
        return tuple(found)

    @cached_property
    def _settled(self) -> list[tuple[Field, list[float]]]:
        pairs = zip(self._parts, self._carried, strict=True)
        return [settle(part.grid, part.lines, carried) for part, carried in pairs]

    @cached_property
    def conditions(self) -> list[Straight]:
        """Where this choice is the true one: no carrying line pushes, no slack line is stretched."""
        weight, tall = sizes_of(self._parts)
        found = [self.pulls[i].times(1.0 / weight) for i in self.carrying]
        slack = [i for i in range(len(self._parts[0].lines)) if i not in self.carrying]
        found.extend([self._straight([gaps[i] for _, gaps in self._settled]).times(1.0 / tall) for i in slack])
        return found

    @cached_property
    def inside(self) -> tuple[float, ...] | None:
        """A point well inside the part of the box where this choice is the true one."""
        tops = [highest(condition, self.conditions).at for condition in self.conditions]
        found = [u for u in tops if u is not None]
        return tuple(sum(v) / len(found) for v in zip(*found, strict=True)) if found else None

    def is_clearly_empty(self) -> bool:
        """Whether one condition alone fails all over the box."""
        weight, _ = sizes_of(self._parts)
        few = -TRIFLE * weight
        return any(self.pulls[i].most() < few for i in self.carrying) or any(
            condition.most() < -TRIFLE for condition in self.conditions
        )

    def moment(self, x: float) -> Straight:
        """Bending moment at x [N m]."""
        return self._of_fields(lambda field: field.moment(x))

    def sag_ratio(self, x: float, a: float, b: float) -> Straight:
        """Drop at x below the chord of the carrying lines at a and b, over their distance."""
        share = (x - a) / (b - a)
        return self._of_fields(
            lambda field: (field.drop(x) - (1.0 - share) * field.drop(a) - share * field.drop(b)) / (b - a)
        )

    @property
    def spans(self) -> list[tuple[int, int]]:
        """Stations of neighbouring carrying lines."""
        at = self._parts[0].grid.at
        stations = [at[i] for i in self.carrying]
        return list(pairwise(stations))

    def _of_fields(self, ask: Callable[[Field], float]) -> Straight:
        return self._straight([ask(field) for field, _ in self._settled])

    def _straight(self, values: Sequence[float]) -> Straight:
        return Straight(values[0], tuple(values[1:]))
