"""True extremes of pulls, bending and sag while weights and trims lie anywhere between their ends.

While the same lines carry, everything runs straight, so the extremes stand at corners of the part of the box where
that choice is the true one; a corner of a part need not be a corner of the box. Every choice is looked at, so nothing
depends on a path through the box. docs/theory/ranges.md has the proof, and what it does not cover.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations

from counterpoise.errors import within
from counterpoise.statics.box import Straight, highest
from counterpoise.statics.doubts import Doubt, at_factors, check_doubts
from counterpoise.statics.hanging import Hanging, Tips
from counterpoise.statics.model import Beam, Line, Load, check_lines, check_loads, check_weight
from counterpoise.statics.peaks import Peak, largest_moment, largest_sag_ratio, moment_size, sag_size
from counterpoise.statics.slack import hang
from counterpoise.statics.straight_sets import Part, StraightSet, leaning, parts_of

MOST_LINES = 10  # up to this every choice of carrying lines is looked at: 1,013 of them
SAME = 1.0e-9  # of the load: two pulls nearer than this are one
PROVEN = 1.0e-6  # of the load: a limit this near to a value that was attained proves it


@dataclass(frozen=True, slots=True, kw_only=True)
class Extreme:
    """A value that was attained, where, and a limit that nothing passes (infinite: no limit is proven)."""

    value: float  # by hang at `factors`
    limit: float  # as far out as value, or further; nothing in the box lies beyond
    factors: tuple[float, ...]  # of every doubt


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
    within("most lines", float(most_lines), low=0.0, high=12.0, mend="Above 12 there are too many choices to look at.")
    units = [[float(k == i) for k in range(len(lines))] for i in range(len(lines))] if rows is None else rows
    for row in units:
        count = float(len(lines))
        within("coefficients of a row", float(len(row)), low=count, high=count, mend="Give one for each line.")
    parts = parts_of(beam, lines, loads, doubts)
    check_weight(parts[0].grid.weight)
    leans = [leaning(parts, left=True), leaning(parts, left=False)]
    trials = Trials(beam, lines, loads, doubts)
    for lean in leans:
        if lean.most() < 0.0:
            tipped = trials.solve(_corner(lean))
            if isinstance(tipped, Tips):
                return tipped
    furthest = [_corner(lean, -1.0) for lean in leans]
    tips = next((trials.factors(u) for u in furthest if isinstance(trials.solve(u), Tips)), None)
    weight = sum(part.grid.weight for part in parts)
    if len(lines) > most_lines:
        return _sampled(trials, parts, units, tips)
    return _enumerated(trials, parts, units, tips, weight)


class Trials:
    """Battens solved so far, by where in the box they stand."""

    def __init__(self, beam: Beam, lines: Sequence[Line], loads: Sequence[Load], doubts: Sequence[Doubt]) -> None:
        self._beam, self._lines, self._loads, self._doubts = beam, lines, loads, doubts
        self.met: dict[tuple[float, ...], Hanging | Tips] = {}

    def factors(self, u: Sequence[float]) -> tuple[float, ...]:
        """Factor of each doubt at u, 0 the low end and 1 the high end."""
        pairs = zip(self._doubts, u, strict=True)
        return tuple(d.high if v == 1.0 else d.low + v * (d.high - d.low) for d, v in pairs)

    def solve(self, u: tuple[float, ...]) -> Hanging | Tips:
        """How the batten hangs at u."""
        found = self.met.get(u)
        if found is None:
            lines, loads = at_factors(self._lines, self._loads, self._doubts, self.factors(u))
            found = self.met[u] = hang(self._beam, lines, loads)
        return found

    def best(self, measure: Callable[[Hanging], float]) -> tuple[float, tuple[float, ...]]:
        """The highest measure of all that hung, and its factors."""
        found, at = -math.inf, None
        for u, one in self.met.items():
            if isinstance(one, Hanging) and (value := measure(one)) > found:
                found, at = value, u
        assert at is not None  # a box that does not tip all over has been hung somewhere
        return found, self.factors(at)


def _enumerated(
    trials: Trials,
    parts: Sequence[Part],
    rows: Sequence[Sequence[float]],
    tips: tuple[float, ...] | None,
    weight: float,
) -> Extremes:
    """Every choice of carrying lines, each over the part of the box where it is the true one."""
    sets = _sets_in_the_box(trials, parts)
    low, high = [], []
    for row in rows:
        high.append(_most(trials, sets, row, 1.0, weight))
        least = _most(trials, sets, row, -1.0, weight)
        low.append(Extreme(value=0.0 - least.value, limit=0.0 - least.limit, factors=least.factors))
    moment = _peak(trials, largest_moment(sets, parts, trials.solve), moment_size)
    sag = _peak(trials, largest_sag_ratio(sets, parts, trials.solve, moment.limit), sag_size)
    sizes = [max(1.0, sum(map(abs, row))) for row in rows] * 2
    close = all(abs(e.limit - e.value) <= PROVEN * weight * size for e, size in zip([*low, *high], sizes, strict=True))
    return Extremes(
        low=tuple(low),
        high=tuple(high),
        moment=moment,
        sag_ratio=sag,
        tips=tips,
        tried=len(trials.met),
        proven=close,
    )


def _sets_in_the_box(trials: Trials, parts: Sequence[Part]) -> list[StraightSet]:
    """The choices that are the true one somewhere in the box; a batten is solved in each."""
    nothing = Straight(0.0, (0.0,) * (len(parts) - 1))
    every = range(len(parts[0].lines))
    found = []
    for size in range(2, len(every) + 1):
        for carrying in combinations(every, size):
            one = StraightSet(parts, carrying)
            if one.is_clearly_empty():
                continue
            top = highest(nothing, one.conditions)
            if top.limit > -math.inf:
                found.append(one)
                if top.at is not None:
                    trials.solve(top.at)
    return found


def _most(trials: Trials, sets: Sequence[StraightSet], row: Sequence[float], sign: float, weight: float) -> Extreme:
    """The highest of sign times a row, and the limit that all parts together prove."""
    signed = [sign * c for c in row]
    small = SAME * weight
    best, factors = trials.best(lambda one: _along(signed, one))
    targets = [(_total(signed, one.pulls), one) for one in sets]
    limit = best
    for target, one in sorted(targets, key=lambda pair: -pair[0].most()):
        bound = target.most()
        if bound > best + small:
            top = highest(target, one.conditions, best + small)
            bound = top.limit
            if top.at is not None:
                hung = trials.solve(top.at)
                if isinstance(hung, Hanging) and (value := _along(signed, hung)) > best:
                    best, factors = value, trials.factors(top.at)
        limit = max(limit, bound)
    return Extreme(value=best, limit=max(limit, best), factors=factors)


def _peak(trials: Trials, peak: Peak, measure: Callable[[Hanging], float]) -> Extreme:
    value, factors = trials.best(measure)
    return Extreme(value=value, limit=max(value, peak.limit), factors=factors)


def _sampled(
    trials: Trials, parts: Sequence[Part], rows: Sequence[Sequence[float]], tips: tuple[float, ...] | None
) -> Extremes:
    """Climb from corner to corner of the box, for each row both ways; nothing is proven."""
    count = len(parts) - 1
    starts = [(v,) * count for v in (0.5, 0.0, 1.0)]
    starts += [_between(parts)]
    hung = [u for u in starts if isinstance(trials.solve(u), Hanging)]
    for row in rows:
        for sign in (1.0, -1.0):
            for u in hung:
                _climb(trials, parts, [sign * c for c in row], u)
    low, high = [], []
    for row in rows:
        high_value, high_at = trials.best(lambda one, row=row: _along(row, one))  # type: ignore[misc]
        low_value, low_at = trials.best(lambda one, row=row: -_along(row, one))  # type: ignore[misc]
        high.append(Extreme(value=high_value, limit=math.inf, factors=high_at))
        low.append(Extreme(value=0.0 - low_value, limit=-math.inf, factors=low_at))
    moment, moment_at = trials.best(moment_size)
    sag, sag_at = trials.best(sag_size)
    return Extremes(
        low=tuple(low),
        high=tuple(high),
        moment=Extreme(value=moment, limit=math.inf, factors=moment_at),
        sag_ratio=Extreme(value=sag, limit=math.inf, factors=sag_at),
        tips=tips,
        tried=len(trials.met),
        proven=False,
    )


def _climb(trials: Trials, parts: Sequence[Part], row: Sequence[float], u: tuple[float, ...]) -> None:
    """Go to the corner that the choice at u points to, as long as that helps."""
    value = -math.inf
    for _ in range(20):
        hung = trials.solve(u)
        if isinstance(hung, Tips) or _along(row, hung) <= value:
            return
        value = _along(row, hung)
        u = _corner(_total(row, StraightSet(parts, hung.carrying).pulls))


def _between(parts: Sequence[Part]) -> tuple[float, ...]:
    """A point of the box where the batten hangs, on the way between the corners furthest from tipping either way."""
    left, right = leaning(parts, left=True), leaning(parts, left=False)
    a, b = _corner(left), _corner(right)
    la, lb, ra, rb = left.value(a), left.value(b), right.value(a), right.value(b)
    if ra >= 0.0:
        return a
    if lb >= 0.0:
        return b
    from_right, from_left = ra / (ra - rb), la / (la - lb)  # left holds before the second, right beyond the first
    s = 0.5 * (from_right + from_left)
    return tuple((1.0 - s) * p + s * q for p, q in zip(a, b, strict=True))


def _corner(target: Straight, sign: float = 1.0) -> tuple[float, ...]:
    """The corner of the box where sign times the target is highest; the middle of what does not matter."""
    return tuple(0.5 if slope == 0.0 else float(sign * slope > 0.0) for slope in target.slopes)


def _along(row: Sequence[float], one: Hanging) -> float:
    return sum([c * t for c, t in zip(row, one.tensions, strict=True)])


def _total(row: Sequence[float], pulls: Sequence[Straight]) -> Straight:
    start = sum([c * pull.start for c, pull in zip(row, pulls, strict=True)])
    count = len(pulls[0].slopes)
    slopes = [sum([c * pull.slopes[k] for c, pull in zip(row, pulls, strict=True) if c]) for k in range(count)]
    return Straight(start, tuple(slopes))
