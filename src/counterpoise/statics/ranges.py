"""True extremes of pulls, bending and sag of a batten while weights and trims lie anywhere between their ends.

The search is that of extreme_search; here is what a batten's own questions are. docs/theory/ranges.md.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from counterpoise.errors import within
from counterpoise.statics.box import Straight
from counterpoise.statics.doubts import Doubt, at_factors, check_doubts
from counterpoise.statics.extreme_search import Extreme, InDoubt, Search
from counterpoise.statics.hanging import Hanging, Tips
from counterpoise.statics.model import Beam, Line, Load, check_lines, check_loads, check_weight
from counterpoise.statics.peaks import Stretch, turned
from counterpoise.statics.slack import hang
from counterpoise.statics.straight_pipes import Part, StraightPipe, leaning, parts_of, sizes_of

MOST_LINES = 10  # up to this every choice of carrying lines is looked at: 1,013 of them
PROVEN = 1.0e-6  # of the load: a limit this near to a value that was attained proves it


@dataclass(frozen=True, slots=True, kw_only=True)
class Extremes:
    """Least and greatest of each row of pulls, and greatest size of moment and sag, over the whole box.

    Where part of the box tips, they are those of the part that hangs.
    """

    low: tuple[Extreme, ...]  # one for each row [N]
    high: tuple[Extreme, ...]  # one for each row [N]
    moment: Extreme  # greatest size anywhere on the batten [N m]
    sag_ratio: Extreme  # greatest size of sag / span of any span between carrying lines
    tips: tuple[float, ...] | None  # factors at which the batten tips, if it does anywhere
    tried: int  # battens solved
    proven: bool  # whether every limit of a pull meets its value; else these are the worst of those tried

    @property
    def words(self) -> str:
        """How these are known, for print."""
        return "proven" if self.proven else f"worst of {self.tried}"


def extremes(
    beam: Beam,
    lines: Sequence[Line],
    loads: Sequence[Load],
    doubts: Sequence[Doubt],
    *,
    rows: Sequence[Sequence[float]] | None = None,
    most_lines: int = MOST_LINES,
) -> Extremes | Tips:
    """Extremes of line pulls, moment and sag, wherever every doubt lies between its ends.

    Args:
        beam, lines: as for hang; the offsets are those that every trim doubt is about.
        loads: what hangs for certain; more than nothing together with the low ends of the doubts.
        doubts: see weighing, trimmed, tilted. All are taken as free of each other.
        rows: coefficients on the pulls; each row is a sum to look at. None: each line for itself.
        most_lines: with more lines than this (at most 12) nothing is proven and the worst of many trials is given.

    Returns:
        Extremes; Tips where the batten tips whatever the doubts are. The limits of pulls meet their values to 1e-9 of
        the load; those of moment and sag lie up to 0.01 % above, since they look along the batten as well.

    Raises:
        OutOfRange: as hang, a doubt without an offset for each line, a row without a coefficient for each line.
        Unproven: as hang.

    Source: parametric convex quadratic programme; weak duality. docs/theory/ranges.md.
    """
    check_lines(beam, lines)
    check_doubts(lines, doubts)
    check_loads(beam, [*loads, *(load for doubt in doubts for load in doubt.loads)])
    units = rows_of(lines, rows, most_lines)
    pipe = _DoubtfulPipe(beam, lines, loads, doubts)
    check_weight(pipe.parts[0].grid.weight)
    search = Search(pipe, most_lines)
    tips = search.begin(units)
    if tips is not None:
        return tips
    spans = [search.pulls(row) for row in units]
    moment = search.peak(lambda: pipe.bending(search.sets), moment_size)
    sag = search.peak(lambda: pipe.sagging(search.sets, moment.limit), sag_size)
    return Extremes(
        low=tuple(low for low, _ in spans),
        high=tuple(high for _, high in spans),
        moment=moment,
        sag_ratio=sag,
        tips=search.tips,
        tried=len(search.met),
        proven=are_met(units, spans, pipe.sizes.weight),
    )


def rows_of(
    lines: Sequence[Line], rows: Sequence[Sequence[float]] | None, most_lines: int
) -> Sequence[Sequence[float]]:
    """The rows, each line for itself where there are none; a row of another length is refused (OutOfRange)."""
    within("most lines", float(most_lines), low=0.0, high=12.0, mend="Above 12 there are too many choices to look at.")
    units = [[float(k == i) for k in range(len(lines))] for i in range(len(lines))] if rows is None else rows
    for row in units:
        count = float(len(lines))
        within("coefficients of a row", float(len(row)), low=count, high=count, mend="Give one for each line.")
    return units


def are_met(rows: Sequence[Sequence[float]], spans: Sequence[tuple[Extreme, Extreme]], weight: float) -> bool:
    """Whether every limit of a row meets its value."""
    return all(
        abs(one.limit - one.value) <= PROVEN * weight * max(1.0, sum(map(abs, row)))
        for row, span in zip(rows, spans, strict=True)
        for one in span
    )


def moment_size(one: Hanging) -> float:
    """Greatest |M| [N m]."""
    return abs(one.largest_moment[0])


def sag_size(one: Hanging) -> float:
    """Greatest |sag| / span."""
    return max(abs(sag) / (end - start) for start, end, sag, _ in one.largest_sags)


class _DoubtfulPipe(InDoubt[StraightPipe, Hanging]):
    """A batten of which something is in doubt."""

    def __init__(self, beam: Beam, lines: Sequence[Line], loads: Sequence[Load], doubts: Sequence[Doubt]) -> None:
        self._hung = (beam, lines, loads)
        self.doubts, self.lines = doubts, len(lines)
        self.parts: list[Part] = parts_of(beam, lines, loads, doubts)
        self.sizes = sizes_of(self.parts)

    def leaning(self, *, left: bool) -> Straight:
        return leaning(self.parts, left=left)

    def on(self, carrying: tuple[int, ...]) -> StraightPipe:
        return StraightPipe(self.parts, carrying, self.sizes)

    def hang(self, factors: Sequence[float]) -> Hanging | Tips:
        beam, lines, loads = self._hung
        return hang(beam, *at_factors(lines, loads, self.doubts, factors))

    def bending(self, sets: Sequence[StraightPipe]) -> list[Stretch]:
        """Where |M| may be greatest [N m]."""
        grid, found = self.parts[0].grid, []
        spread = [sum(part.grid.ws[c] for part in self.parts) for c in range(len(grid.hs))]
        for one in sets:
            for c, w in enumerate(spread):
                found.append(Stretch(one, one.moment, grid.xs[c], grid.xs[c + 1], w))
            for i in one.carrying:  # between carrying lines the moment is hollow downward, so it hogs most over one
                x = grid.xs[grid.at[i]]
                found.append(Stretch(one, turned(one.moment), x, x, 0.0))
        return found

    def sagging(self, sets: Sequence[StraightPipe], moment: float) -> list[Stretch]:
        """Where |sag| / span may be greatest; nothing bends more than `moment` [N m]."""
        grid, found = self.parts[0].grid, []
        for one in sets:
            for a, b in one.spans:
                start, end = grid.xs[a], grid.xs[b]

                def ask(x: float, one: StraightPipe = one, start: float = start, end: float = end) -> Straight:
                    return one.sag_ratio(x, start, end)

                for c in range(a, b):
                    curve = moment / grid.eis[c] / (end - start)
                    found.append(Stretch(one, ask, grid.xs[c], grid.xs[c + 1], curve))
                    found.append(Stretch(one, turned(ask), grid.xs[c], grid.xs[c + 1], curve))
        return found
