"""Greatest moment and sag over a box of doubts and along the batten at once: branch and bound on the place.

At one place both run straight in the doubts within one choice of carrying lines. Between two places a curve rises above
the straight line through its ends by at most (distance)2 / 8 times its greatest curvature: w for the moment, M / EI for
the sag. So stretches of the batten are halved, the most promising first, until no stretch can hold more than was
attained, give or take FINE.
"""

import heapq
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from counterpoise.statics.box import Straight, highest
from counterpoise.statics.hanging import Hanging, Tips
from counterpoise.statics.straight_sets import Part, StraightSet

FINE = 1.0e-4  # a limit this little above what was attained is near enough
NUDGE = 1.0e-6  # of the way to the inside of a part; changes a value by far less than FINE
MOST_STEPS = 20_000

Solve = Callable[[tuple[float, ...]], Hanging | Tips]


@dataclass(frozen=True, slots=True)
class Peak:
    """What was attained, and what nothing passes."""

    value: float
    limit: float


@dataclass(slots=True, order=True)
class _Stretch:
    """From a to b of one choice: nothing there is above -key. Looked at more closely each time it comes up."""

    key: float
    order: int
    one: StraightSet = field(compare=False)
    ask: Callable[[float], Straight] = field(compare=False)
    a: float = field(compare=False)
    b: float = field(compare=False)
    curve: float = field(compare=False)  # greatest curvature between a and b
    ends: tuple[float, float] | None = field(compare=False, default=None)  # limits at a and b, once proven


def largest_moment(sets: Sequence[StraightSet], parts: Sequence[Part], solve: Solve) -> Peak:
    """The greatest |M| anywhere on the batten and in the box [N m]."""
    grid = parts[0].grid
    spread = [sum(part.grid.ws[c] for part in parts) for c in range(len(grid.hs))]
    stretches: list[tuple[StraightSet, Callable[[float], Straight], float, float, float]] = []
    for one in sets:
        for c, w in enumerate(spread):
            stretches.append((one, one.moment, grid.xs[c], grid.xs[c + 1], w))
        for i in one.carrying:  # between carrying lines the moment is hollow downward, so it hogs most over one
            x = grid.xs[grid.at[i]]
            stretches.append((one, _turned(one.moment), x, x, 0.0))
    return _widest(stretches, solve, moment_size)


def largest_sag_ratio(sets: Sequence[StraightSet], parts: Sequence[Part], solve: Solve, moment: float) -> Peak:
    """The greatest |sag| / span of any span; `moment`: nothing bends more [N m]."""
    grid = parts[0].grid
    stretches: list[tuple[StraightSet, Callable[[float], Straight], float, float, float]] = []
    for one in sets:
        for a, b in one.spans:
            ask = _sag(one, grid.xs[a], grid.xs[b])
            for c in range(a, b):
                curve = moment / grid.eis[c] / (grid.xs[b] - grid.xs[a])
                stretches.append((one, ask, grid.xs[c], grid.xs[c + 1], curve))
                stretches.append((one, _turned(ask), grid.xs[c], grid.xs[c + 1], curve))
    return _widest(stretches, solve, sag_size)


def moment_size(one: Hanging) -> float:
    """Greatest |M| [N m]."""
    return abs(one.largest_moment[0])


def sag_size(one: Hanging) -> float:
    """Greatest |sag| / span."""
    return max(abs(sag) / (end - start) for start, end, sag, _ in one.largest_sags)


def _sag(one: StraightSet, a: float, b: float) -> Callable[[float], Straight]:
    return lambda x: one.sag_ratio(x, a, b)


def _turned(ask: Callable[[float], Straight]) -> Callable[[float], Straight]:
    return lambda x: ask(x).times(-1.0)


def _widest(
    stretches: Sequence[tuple[StraightSet, Callable[[float], Straight], float, float, float]],
    solve: Solve,
    measure: Callable[[Hanging], float],
) -> Peak:
    """Branch and bound; the value is attained by solving, the limit is proven."""
    best = 0.0
    queue: list[_Stretch] = []
    for number, (one, ask, a, b, curve) in enumerate(stretches):
        top = max(ask(a).most(), ask(b).most()) + 0.125 * curve * (b - a) ** 2
        queue.append(_Stretch(-top, number, one, ask, a, b, curve))
    heapq.heapify(queue)
    done = 0.0  # highest limit of the single places, which can not be halved
    for _ in range(MOST_STEPS):
        if not queue or -queue[0].key <= max(done, best * (1.0 + FINE)):
            break
        stretch = heapq.heappop(queue)
        parts = list(_closer(stretch))
        for part, places in parts:
            for u in places:
                hung = solve(u)
                if isinstance(hung, Hanging):
                    best = max(best, measure(hung))
            if part.key < math.inf:
                heapq.heappush(queue, part)
        if not parts:
            done = max(done, -stretch.key)
    return Peak(best, max(best, done, -queue[0].key if queue else 0.0))


def _closer(stretch: _Stretch) -> Iterator[tuple[_Stretch, list[tuple[float, ...]]]]:
    """The stretch with its ends' limits proven; once they are, its two halves."""
    if stretch.ends is None:
        left, at_left = _top(stretch, stretch.a)
        right, at_right = _top(stretch, stretch.b) if stretch.b > stretch.a else (left, [])
        yield _between(stretch, stretch.a, stretch.b, (left, right)), at_left + at_right
        return
    middle = 0.5 * (stretch.a + stretch.b)
    if not stretch.a < middle < stretch.b:
        return  # a single place, whose limit counted when it came up
    top, places = _top(stretch, middle)
    yield _between(stretch, stretch.a, middle, (stretch.ends[0], top)), places
    yield _between(stretch, middle, stretch.b, (top, stretch.ends[1])), []


def _between(stretch: _Stretch, a: float, b: float, ends: tuple[float, float]) -> _Stretch:
    top = min(max(ends) + 0.125 * stretch.curve * (b - a) ** 2, -stretch.key)
    return _Stretch(-top, stretch.order, stretch.one, stretch.ask, a, b, stretch.curve, ends)


def _top(stretch: _Stretch, x: float) -> tuple[float, list[tuple[float, ...]]]:
    found = highest(stretch.ask(x), stretch.one.conditions)
    if found.at is None:
        return found.limit, []
    inside = stretch.one.inside
    if inside is None:
        return found.limit, [found.at]
    # where a line just goes slack its neighbours' spans become one: a little inside there is no doubt which it is
    return found.limit, [tuple([u + NUDGE * (v - u) for u, v in zip(found.at, inside, strict=True)])]
