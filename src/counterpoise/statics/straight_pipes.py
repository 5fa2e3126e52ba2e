"""A batten over a box of doubts: for one choice of carrying lines, all of it as straight functions."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

from counterpoise.statics.box import Straight
from counterpoise.statics.doubts import Doubt, at_factors, scaled
from counterpoise.statics.field import Field
from counterpoise.statics.grid import Grid, Span, cut
from counterpoise.statics.hanging import settle
from counterpoise.statics.model import Beam, Line, Load, PointLoad
from counterpoise.statics.straight_sets import Sizes, StraightSet, straight
from counterpoise.statics.three_moment import Carried, carry


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
        moved = shifted(lines, doubt)
        grid = cut(beam, moved, [scaled(load, doubt.high - doubt.low) for load in doubt.loads], lowest.xs)
        found.append(Part(grid, moved, {}))
    return found


def shifted(lines: Sequence[Line], doubt: Doubt) -> list[Line]:
    """The lines with the offsets alone that a doubt adds from its low end to its high end."""
    width = doubt.high - doubt.low
    offsets = doubt.offsets or (0.0,) * len(lines)
    return [replace(line, offset=width * offset) for line, offset in zip(lines, offsets, strict=True)]


def leaning(parts: Sequence[Part], *, left: bool) -> Straight:
    """Moment of all loads about an outer line, 0 or more where that line need not push [N m]."""
    at = parts[0].grid.at
    x = parts[0].grid.xs[at[0] if left else at[-1]]
    return straight([part.grid.weight * (part.grid.centre - x) * (1.0 if left else -1.0) for part in parts])


def sizes_of(parts: Sequence[Part]) -> Sizes:
    """Size of pulls and of drops in the box."""
    grid, weight = parts[0].grid, sum([part.grid.weight for part in parts])
    trims = sum([max([abs(line.offset) for line in part.lines]) for part in parts])
    return Sizes(weight, trims + 1.0e-3 * weight * grid.xs[-1] ** 3 / max(grid.eis))


class StraightPipe(StraightSet):
    """One choice of carrying lines of a batten; fields are worked out when first asked for."""

    def __init__(self, parts: Sequence[Part], carrying: tuple[int, ...], sizes: Sizes) -> None:
        super().__init__(carrying, len(parts[0].lines), sizes)
        self._parts = parts
        self._carried: list[Carried] = [carry(part.grid, part.lines, carrying, part.known) for part in parts]

    def _pulls(self) -> Sequence[Sequence[float]]:
        return [carried.pulls for carried in self._carried]

    def _gaps(self) -> Sequence[Sequence[float]]:
        return [gaps for _, gaps in self._settled]

    @cached_property
    def _settled(self) -> list[tuple[Field, list[float]]]:
        pairs = zip(self._parts, self._carried, strict=True)
        return [settle(part.grid, part.lines, carried) for part, carried in pairs]

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
        return list(pairwise([at[i] for i in self.carrying]))

    def _of_fields(self, ask: Callable[[Field], float]) -> Straight:
        return straight([ask(field) for field, _ in self._settled])
