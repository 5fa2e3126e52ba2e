"""The search for true extremes over a box of doubts, whatever it is that hangs: a batten or a ladder truss.

While the same lines carry, everything runs straight, so the extremes stand at corners of the part of the box where
that choice is the true one; a corner of a part need not be a corner of the box. Every choice is looked at, so nothing
depends on a path through the box. docs/theory/ranges.md has the proof, and what it does not cover.
"""

import math
from abc import ABC, abstractmethod
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Generic, Protocol, TypeVar

from counterpoise.statics.box import Straight, highest
from counterpoise.statics.doubts import Doubt
from counterpoise.statics.hanging import Tips
from counterpoise.statics.peaks import Stretch, widest, within
from counterpoise.statics.straight_sets import Sizes, StraightSet

SAME = 1.0e-9  # of the load: two pulls nearer than this are one


@dataclass(frozen=True, slots=True, kw_only=True)
class Extreme:
    """A value that was attained, where, and a limit that nothing passes (infinite: no limit is proven)."""

    value: float  # by hang at `factors`
    limit: float  # as far out as value, or further; nothing in the box lies beyond
    factors: tuple[float, ...]  # of every doubt

    def turned(self) -> "Extreme":
        """The lowest, where this is the highest of what has the other sign."""
        return Extreme(value=0.0 - self.value, limit=0.0 - self.limit, factors=self.factors)


class Rest(Protocol):
    """Something at rest on lines that only pull."""

    @property
    def tensions(self) -> tuple[float, ...]:
        """Pull of every line [N]."""

    @property
    def gaps(self) -> tuple[float, ...]:
        """Slack of every line [m]."""

    @property
    def carrying(self) -> tuple[int, ...]:
        """Lines that carry."""


S = TypeVar("S", bound=StraightSet)
R = TypeVar("R", bound=Rest)


class InDoubt(ABC, Generic[S, R]):
    """What hangs, and what of it is in doubt; the search knows no more of it than this."""

    lines: int
    doubts: Sequence[Doubt]
    sizes: Sizes

    @abstractmethod
    def leaning(self, *, left: bool) -> Straight:
        """Moment of all loads about an outer line, 0 or more where that line need not push [N m]."""

    @abstractmethod
    def on(self, carrying: tuple[int, ...]) -> S:
        """The choice of these carrying lines."""

    @abstractmethod
    def hang(self, factors: Sequence[float]) -> R | Tips:
        """How it hangs with every doubt at its factor, proven."""


class Search(Generic[S, R]):
    """What was solved so far, by where in the box it stands, and the choices that are true somewhere in it."""

    def __init__(self, one: InDoubt[S, R], most_lines: int) -> None:
        self._one = one
        self.is_whole = one.lines <= most_lines  # whether every choice is looked at
        self.met: dict[tuple[float, ...], R | Tips] = {}
        self._leans = [one.leaning(left=True), one.leaning(left=False)]
        self._sets: list[S] = []
        self.tips: tuple[float, ...] | None = None  # factors at which it tips, if it does anywhere
        self.tipped: Tips | None = None  # and how

    def begin(self, rows: Sequence[Sequence[float]]) -> Tips | None:
        """Find the choices to look at, or climb for each row where they are too many; Tips where all the box tips."""
        for lean in self._leans:
            if lean.most() < 0.0:
                tipped = self.solve(corner(lean))
                if isinstance(tipped, Tips):
                    return tipped
        self._tips()
        if self.is_whole:
            self._sets = self._sets_in_the_box()
        else:
            self._climb_all(rows)
        return None

    @property
    def sets(self) -> Sequence[S]:
        """The choices that are the true one somewhere in the box; none where they are too many."""
        return self._sets

    def factors(self, u: Sequence[float]) -> tuple[float, ...]:
        """Factor of each doubt at u, 0 the low end and 1 the high end."""
        pairs = zip(self._one.doubts, u, strict=True)
        return tuple(d.high if v == 1.0 else d.low + v * (d.high - d.low) for d, v in pairs)

    def solve(self, u: tuple[float, ...]) -> R | Tips:
        """How it hangs at u."""
        found = self.met.get(u)
        if found is None:
            found = self.met[u] = self._one.hang(self.factors(u))
        return found

    def best(self, measure: Callable[[R], float]) -> tuple[float, tuple[float, ...]]:
        """The highest measure of all that hung, and its factors."""
        found, at = -math.inf, None
        for u, one in self.met.items():
            if not isinstance(one, Tips) and (value := measure(one)) > found:
                found, at = value, u
        assert at is not None  # a box that does not tip all over has been hung somewhere
        return found, self.factors(at)

    def pulls(self, row: Sequence[float]) -> tuple[Extreme, Extreme]:
        """Least and greatest of a sum of pulls [N]."""
        turned = [-c for c in row]
        small = SAME * self._one.sizes.weight
        least, most = [
            self.most([(total(r, one.pulls), one) for one in self.sets], lambda one, r=r: along(r, one), small)  # type: ignore[misc]
            for r in (turned, row)
        ]
        return least.turned(), most

    def gap(self, line: int) -> Extreme:
        """The most that a line hangs slack [m]: attained to a millionth, as what hangs may seesaw over a line there."""
        targets = [(one.gaps[line], one) for one in self.sets if line in one.gaps]
        return self.most(targets, lambda one: one.gaps[line], SAME * self._one.sizes.tall, jumps=True)

    def most(
        self, targets: Sequence[tuple[Straight, S]], measure: Callable[[R], float], small: float, *, jumps: bool = False
    ) -> Extreme:
        """The highest of a straight function of each choice, and the limit that all parts together prove.

        With `jumps`, what is measured may be another value beyond the border of a part: it is taken a little inside.
        """
        best, factors = self.best(measure)
        limit = best if self.is_whole else math.inf
        for target, one in sorted(targets, key=lambda pair: -pair[0].most()):
            bound = target.most()
            if bound > best + small:
                top = highest(target, one.conditions, best + small)
                bound = top.limit
                for u in () if top.at is None else (top.at, within(one, top.at)) if jumps else (top.at,):
                    hung = self.solve(u)
                    if not isinstance(hung, Tips) and (value := measure(hung)) > best:
                        best, factors = value, self.factors(u)
            limit = max(limit, bound)
        return Extreme(value=best, limit=max(limit, best), factors=factors)

    def peak(self, stretches: Callable[[], Sequence[Stretch]], measure: Callable[[R], float]) -> Extreme:
        """The greatest along what hangs as well: the value is attained by solving, the limit is proven."""
        best, factors = self.best(measure)
        if not self.is_whole:
            return Extreme(value=best, limit=math.inf, factors=factors)

        def look(u: tuple[float, ...]) -> float:
            nonlocal best, factors
            if u not in self.met:  # what was met before has been measured
                hung = self.solve(u)
                if not isinstance(hung, Tips) and (value := measure(hung)) > best:
                    best, factors = value, self.factors(u)
            return best

        limit = widest(stretches(), look, best)
        return Extreme(value=best, limit=max(best, limit), factors=factors)

    def _tips(self) -> None:
        """Look where it would tip first, to either side."""
        for u in [corner(lean, -1.0) for lean in self._leans]:
            found = self.solve(u)
            if isinstance(found, Tips):
                self.tips, self.tipped = self.factors(u), found
                return

    def _sets_in_the_box(self) -> list[S]:
        """The choices that are the true one somewhere in the box; one place is solved in each."""
        nothing = Straight(0.0, (0.0,) * len(self._one.doubts))
        found = []
        for size in range(2, self._one.lines + 1):
            for carrying in combinations(range(self._one.lines), size):
                one = self._one.on(carrying)
                if one.is_clearly_empty():
                    continue
                top = highest(nothing, one.conditions)
                if top.limit > -math.inf:
                    found.append(one)
                    if top.at is not None:
                        self.solve(top.at)
        return found

    def _climb_all(self, rows: Sequence[Sequence[float]]) -> None:
        """Climb from corner to corner of the box, for each row both ways; nothing is proven."""
        count = len(self._one.doubts)
        starts = [*((v,) * count for v in (0.5, 0.0, 1.0)), self._between()]
        hung = [u for u in starts if not isinstance(self.solve(u), Tips)]
        for row in rows:
            for sign in (1.0, -1.0):
                for u in hung:
                    self._climb([sign * c for c in row], u)

    def _climb(self, row: Sequence[float], u: tuple[float, ...]) -> None:
        """Go to the corner that the choice at u points to, as long as that helps."""
        value = -math.inf
        for _ in range(20):
            hung = self.solve(u)
            if isinstance(hung, Tips) or along(row, hung) <= value:
                return
            value = along(row, hung)
            u = corner(total(row, self._one.on(hung.carrying).pulls))

    def _between(self) -> tuple[float, ...]:
        """A point of the box where it hangs, on the way between the corners furthest from tipping either way."""
        left, right = self._leans
        a, b = corner(left), corner(right)
        la, lb, ra, rb = left.value(a), left.value(b), right.value(a), right.value(b)
        if ra >= 0.0:
            return a
        if lb >= 0.0:
            return b
        from_right, from_left = ra / (ra - rb), la / (la - lb)  # left holds before the second, right beyond the first
        s = 0.5 * (from_right + from_left)
        return tuple((1.0 - s) * p + s * q for p, q in zip(a, b, strict=True))


def corner(target: Straight, sign: float = 1.0) -> tuple[float, ...]:
    """The corner of the box where sign times the target is highest; the middle of what does not matter."""
    return tuple(0.5 if slope == 0.0 else float(sign * slope > 0.0) for slope in target.slopes)


def along(row: Sequence[float], one: Rest) -> float:
    """A sum of pulls."""
    return sum([c * t for c, t in zip(row, one.tensions, strict=True)])


def total(row: Sequence[float], pulls: Sequence[Straight]) -> Straight:
    """The same sum as a straight function."""
    start = sum([c * pull.start for c, pull in zip(row, pulls, strict=True)])
    count = len(pulls[0].slopes)
    slopes = [sum([c * pull.slopes[k] for c, pull in zip(row, pulls, strict=True) if c]) for k in range(count)]
    return Straight(start, tuple(slopes))
