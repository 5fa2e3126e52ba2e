"""How a batten hangs: the answer, and the questions it can be asked."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from counterpoise.errors import within
from counterpoise.statics.field import Field, spread_out
from counterpoise.statics.grid import Grid, cut
from counterpoise.statics.model import ROUNDING, Beam, Line, Load
from counterpoise.statics.proof import PROOF, Unproven, prove
from counterpoise.statics.three_moment import Carried, carry


@dataclass(frozen=True, slots=True, kw_only=True)
class Tips:
    """No answer exists: the loads lie beyond the outer lines, so the batten tips up."""

    centre: float  # centre of gravity of everything that hangs [m]
    first: float  # outer line, stage right [m]
    last: float  # outer line, stage left [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hanging:
    """A batten at rest, proven on the way out. Moments sag positive, deflections are down positive.

    Moments and deflections may be marched only when they are first asked for; Unproven then, should they not bear out
    the pulls.
    """

    tensions: tuple[float, ...]  # pull of every line, 0 where slack [N]
    gaps: tuple[float, ...]  # slack of every line, 0 where it carries [m]
    carrying: tuple[int, ...]  # lines that carry, counted from 0
    weight: float  # of all loads [N]
    centre: float  # their centre of gravity [m]
    _shape: "Shape" = field(repr=False, compare=False)

    @property
    def _field(self) -> Field:
        return self._shape.marched(self.tensions)[0]

    @property
    def _ends(self) -> tuple[int, ...]:  # stations of the carrying lines
        return self._shape.marched(self.tensions)[1]

    def moment(self, x: float) -> float:
        """Bending moment at x [N m], sagging positive. OutOfRange off the batten."""
        return self._field.moment(self._on(x))

    def shear(self, x: float) -> float:
        """Shear at x [N], dM/dx; at a step, the value just stage left of it. OutOfRange off the batten."""
        return self._field.shear(self._on(x))

    def slope(self, x: float) -> float:
        """Slope at x, down toward stage left positive [rad]. OutOfRange off the batten."""
        return self._field.slope(self._on(x))

    def deflection(self, x: float) -> float:
        """How far the batten hangs below level at x [m], lines' offsets and stretch included."""
        return self._field.drop(self._on(x))

    def sag(self, x: float) -> float:
        """Deflection at x against the chord between the neighbouring carrying lines [m].

        On an overhang: against the level of its carrying line.
        """
        drop, stations = self.deflection(x), [self._field.xs[s] for s in self._ends]
        if x <= stations[0]:
            return drop - self._level(0)
        for j in range(1, len(stations)):
            if x <= stations[j]:
                left, right = stations[j - 1], stations[j]
                share = (x - left) / (right - left)
                return drop - (1.0 - share) * self._level(j - 1) - share * self._level(j)
        return drop - self._level(-1)

    @property
    def largest_moment(self) -> tuple[float, float]:
        """Moment of the greatest size anywhere, with its sign [N m], and its x [m]. Exact, not sampled."""
        return self._field.greatest_moment()

    @property
    def largest_sags(self) -> tuple[tuple[float, float, float, float], ...]:
        """For each span between carrying lines: its start, its end, its sag of the greatest size, and where [m].

        The sag keeps its sign (negative: the span is lifted above its chord). Exact, not sampled.
        """
        xs = self._field.xs
        return tuple(
            (xs[a], xs[b], *self._field.greatest_sag(a, b)) for a, b in zip(self._ends, self._ends[1:], strict=False)
        )

    @property
    def tip_drops(self) -> tuple[float, float]:
        """How far each end, stage right and stage left, hangs below its outer carrying line [m]."""
        field = self._field
        return field.drops[0] - self._level(0), field.drop(field.xs[-1]) - self._level(-1)

    def _level(self, j: int) -> float:
        return self._field.drop(self._field.xs[self._ends[j]])

    def _on(self, x: float) -> float:
        if not -ROUNDING <= x <= self._field.xs[-1] + ROUNDING:
            within("x", x, low=0.0, high=self._field.xs[-1], unit="m", mend="Ask for a place on the batten.")
        return x


class Shape:
    """Moments and deflections in every cell, marched when they are first asked for."""

    __slots__ = ("_known", "_of")

    def __init__(
        self,
        *,
        known: tuple[Field, tuple[int, ...]] | None = None,
        of: tuple[Beam, Sequence[Line], Sequence[Load], tuple[int, ...]] | None = None,
    ) -> None:
        self._known, self._of = known, of

    def marched(self, tensions: Sequence[float]) -> tuple[Field, tuple[int, ...]]:
        """The field, and the stations of the carrying lines. Unproven where it does not bear out the pulls."""
        if self._known is None:
            assert self._of is not None  # one of the two is given
            beam, lines, loads, carrying = self._of
            grid = cut(beam, lines, loads)
            carried = carry(grid, lines, carrying, {})
            field, gaps = settle(grid, lines, carried)
            prove(grid, lines, loads, carried, field, gaps)
            for i, pull in zip(carrying, carried.pulls, strict=True):
                if not abs(pull - tensions[i]) <= PROOF * grid.weight:
                    raise Unproven("a pull found in two ways", abs(pull - tensions[i]), PROOF * grid.weight)
            self._known = field, tuple([grid.at[i] for i in carrying])
        return self._known


def levels_of(lines: Sequence[Line], carried: Carried) -> list[float]:
    """Where the carrying lines hold the batten [m, down positive]."""
    pairs = zip(carried.carrying, carried.pulls, strict=True)
    return [lines[i].offset + lines[i].flexibility * pull for i, pull in pairs]


def gaps_of(grid: Grid, lines: Sequence[Line], carrying: Sequence[int], field: Field) -> list[float]:
    """Gap of each line: 0 where it carries, else the line's level less the batten's; negative is a line stretched."""
    gaps = [0.0] * len(lines)
    last = len(grid.hs)
    for i, line in enumerate(lines):
        if i not in carrying:
            s = grid.at[i]
            gaps[i] = line.offset - (field.drops[s] if s < last else field.drop(grid.xs[s]))
    return gaps


def proven(
    grid: Grid, lines: Sequence[Line], loads: Sequence[Load], carried: Carried, field: Field, gaps: Sequence[float]
) -> Hanging:
    """The answer, once proven; pulls and gaps that miss zero by rounding are set to it."""
    prove(grid, lines, loads, carried, field, gaps)
    tensions = [0.0] * len(lines)
    for i, pull in zip(carried.carrying, carried.pulls, strict=True):
        tensions[i] = max(pull, 0.0)
    return Hanging(
        tensions=tuple(tensions),
        gaps=tuple(max(gap, 0.0) for gap in gaps),
        carrying=carried.carrying,
        weight=grid.weight,
        centre=grid.centre,
        _shape=Shape(known=(field, tuple([grid.at[i] for i in carried.carrying]))),
    )


def settle(grid: Grid, lines: Sequence[Line], carried: Carried) -> tuple[Field, list[float]]:
    """Field and gaps of a carrying set."""
    field = spread_out(grid, carried, levels_of(lines, carried))
    return field, gaps_of(grid, lines, carried.carrying, field)
