"""Highest value of a straight function over part of a box: few doubts, few conditions, and a proof with the answer.

The dual simplex method suits: with every doubt at the end that raises the function most, its start is no search, the
bound it holds falls with every step, and it may stop as soon as the bound is low enough. The bound that leaves is not
the method's own but one computed anew from the multipliers (weak duality), which holds whatever they are.
Source: dual simplex with bounded variables, any text on linear programming.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

ROUND = 1.0e-11  # a condition broken by less than this is taken as kept when a place is looked for
NOISE = 1.0e-9  # of the largest entry of a row: one as small as this may be rounding, and would spoil what it divides


@dataclass(frozen=True, slots=True)
class Straight:
    """start + sum of slopes times u, each u from 0 to 1."""

    start: float
    slopes: tuple[float, ...]

    def most(self) -> float:
        """The highest value over the whole box."""
        return self.start + sum([slope for slope in self.slopes if slope > 0.0])

    def value(self, u: Sequence[float]) -> float:
        """The value at u."""
        return self.start + sum([slope * v for slope, v in zip(self.slopes, u, strict=True)])

    def times(self, factor: float) -> "Straight":
        """The same function, factor times as large."""
        return Straight(factor * self.start, tuple([factor * slope for slope in self.slopes]))


@dataclass(frozen=True, slots=True)
class Highest:
    """No value in the part is above `limit`; `at` attains it, or is None where the part is empty or was left early."""

    limit: float
    at: tuple[float, ...] | None


def highest(target: Straight, conditions: Sequence[Straight], enough: float = float("-inf")) -> Highest:
    """The highest value of `target` where every condition is 0 or more, inside the box.

    Args:
        target: what is to be high.
        conditions: each 0 or more in the part that counts, in numbers about 1.
        enough: stop once the limit is this low.

    Returns:
        A limit proven by weak duality to rounding (minus infinity: the part is empty), and where it is attained.
    """
    table = _Table(target, conditions)
    for _ in range(40 * (len(conditions) + len(target.slopes)) + 40):
        if table.bound() <= enough:
            break
        row = table.most_broken()
        if row is None:
            return Highest(_limit(target, conditions, table.multipliers()), table.place())
        entering = table.entering(row)
        if entering is None:
            if _is_empty(conditions, table.ray(row)):
                return Highest(float("-inf"), None)
            break
        table.pivot(row, entering)
    return Highest(_limit(target, conditions, table.multipliers()), None)


def _limit(target: Straight, conditions: Sequence[Straight], multipliers: Sequence[float]) -> float:
    """Highest value over the box of target + multipliers times conditions; multipliers of 0 or more."""
    return _sum_of(target, conditions, multipliers).most()


def _is_empty(conditions: Sequence[Straight], ray: Sequence[float]) -> bool:
    """Whether the conditions, weighted by the ray, are below zero all over the box: then no point keeps them all."""
    size = sum(ray)
    nothing = Straight(0.0, (0.0,) * len(conditions[0].slopes))
    return size > 0.0 and _sum_of(nothing, conditions, ray).most() < -1.0e-13 * size


def _sum_of(target: Straight, conditions: Sequence[Straight], multipliers: Sequence[float]) -> Straight:
    start, slopes = target.start, list(target.slopes)
    for condition, y in zip(conditions, multipliers, strict=True):
        if y > 0.0:
            start += y * condition.start
            slopes = [slope + y * more for slope, more in zip(slopes, condition.slopes, strict=True)]
    return Straight(start, tuple(slopes))


@dataclass(slots=True)
class _Table:
    """Variables 0 to d - 1 are the doubts, from 0 to 1; d + j is the value of condition j, 0 or more."""

    target: Straight
    conditions: Sequence[Straight]
    free: list[int] = field(init=False)  # variables held at one of their ends
    ends: list[float] = field(init=False)  # the end each is held at
    held: list[int] = field(init=False)  # variables that follow from them, a row each
    consts: list[float] = field(init=False)
    rows: list[list[float]] = field(init=False)
    const: float = field(init=False)
    gains: list[float] = field(init=False)

    def __post_init__(self) -> None:
        d = len(self.target.slopes)
        self.free, self.held = list(range(d)), [d + j for j in range(len(self.conditions))]
        self.ends = [1.0 if slope > 0.0 else 0.0 for slope in self.target.slopes]
        self.consts = [c.start for c in self.conditions]
        self.rows = [list(c.slopes) for c in self.conditions]
        self.const, self.gains = self.target.start, list(self.target.slopes)

    def bound(self) -> float:
        """Value of the target if only the conditions met so far counted."""
        return self.const + sum([g * e for g, e in zip(self.gains, self.ends, strict=True)])

    def values(self) -> list[float]:
        """Values of the variables that follow."""
        ends = self.ends
        return [
            c + sum([a * e for a, e in zip(row, ends, strict=True)])
            for c, row in zip(self.consts, self.rows, strict=True)
        ]

    def most_broken(self) -> tuple[int, bool] | None:
        """The row furthest out of its range, and whether it is below it."""
        d, worst, found = len(self.free), ROUND, None
        for r, (variable, value) in enumerate(zip(self.held, self.values(), strict=True)):
            if -value > worst:
                worst, found = -value, (r, True)
            elif variable < d and value - 1.0 > worst:
                worst, found = value - 1.0, (r, False)
        return found

    def entering(self, broken: tuple[int, bool]) -> int | None:
        """The variable that mends the row at the least cost to the target."""
        row, below = self.rows[broken[0]], broken[1]
        least = NOISE * max(map(abs, row), default=0.0)
        best = None
        for k, a in enumerate(row):
            helps = a if self.ends[k] == 0.0 else -a  # it may only move away from its end
            if (helps if below else -helps) > least:
                cost = abs(self.gains[k] / a)
                if best is None or cost < best[0] * (1.0 - 1e-12) or (cost <= best[0] and abs(a) > best[1]):
                    best = (cost, abs(a), k)
        return None if best is None else best[2]

    def pivot(self, broken: tuple[int, bool], k: int) -> None:
        """Hold the broken row at the end it passed, and let variable k follow."""
        r, below = broken
        row = self.rows[r]
        a = row[k]
        new = [-value / a for value in row]
        new[k] = 1.0 / a
        const = -self.consts[r] / a
        for i, other in enumerate(self.rows):
            if i != r and other[k]:
                self.consts[i] += other[k] * const
                self.rows[i] = _replaced(other, k, new)
        self.const += self.gains[k] * const
        self.gains = _replaced(self.gains, k, new)
        self.rows[r], self.consts[r] = new, const
        self.free[k], self.held[r] = self.held[r], self.free[k]
        self.ends[k] = 0.0 if below else 1.0

    def multipliers(self) -> list[float]:
        """What each condition costs the target, 0 or more."""
        d, found = len(self.free), [0.0] * len(self.conditions)
        for variable, gain in zip(self.free, self.gains, strict=True):
            if variable >= d:
                found[variable - d] = max(0.0, -gain)
        return found

    def ray(self, broken: tuple[int, bool]) -> list[float]:
        """Weights of conditions that can not all be kept."""
        r, _ = broken
        d, found = len(self.free), [0.0] * len(self.conditions)
        if self.held[r] >= d:
            found[self.held[r] - d] = 1.0
        for variable, a in zip(self.free, self.rows[r], strict=True):
            if variable >= d:
                found[variable - d] = abs(a)
        return found

    def place(self) -> tuple[float, ...]:
        """Where the doubts stand."""
        u = [0.0] * len(self.free)
        for variable, value in [*zip(self.free, self.ends, strict=True), *zip(self.held, self.values(), strict=True)]:
            if variable < len(u):
                u[variable] = min(1.0, max(0.0, value))
        return tuple(u)


def _replaced(row: list[float], k: int, new: list[float]) -> list[float]:
    """A row in which variable k is replaced by what it follows from."""
    a = row[k]
    out = [value + a * other for value, other in zip(row, new, strict=True)]
    out[k] = a * new[k]
    return out
