"""Greatest values over a box of doubts and along what hangs at once: branch and bound on the place.

At one place everything runs straight in the doubts within one choice of carrying lines. Between two places a curve
rises above the straight line through its ends by at most (distance)2 / 8 times its greatest curvature: w for the
moment, M / EI for the sag. So stretches are halved, the most promising first, until no stretch can hold more than was
attained, give or take FINE.
"""

import heapq
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from counterpoise.statics.box import Straight, highest
from counterpoise.statics.straight_sets import StraightSet

FINE = 1.0e-4  # a limit this little above what was attained is near enough
NUDGE = 1.0e-6  # of the way to the inside of a part; changes a value by far less than FINE
MOST_STEPS = 20_000

Place = tuple[float, ...]  # in the box, each doubt from 0 to 1


@dataclass(frozen=True, slots=True)
class Stretch:
    """From a to b, within one choice of carrying lines; a single place where they are one."""

    one: StraightSet
    ask: Callable[[float], Straight]  # what is to be high, at a place from a to b
    a: float
    b: float
    curve: float  # the most it can be curved (hollow downward) between a and b


@dataclass(slots=True, order=True)
class _Open:
    """A stretch still to be looked at: nothing there is above -key. Looked at more closely each time it comes up."""

    key: float
    order: int
    stretch: Stretch = field(compare=False)
    ends: tuple[float, float] | None = field(compare=False, default=None)  # limits at a and b, once proven


def turned(ask: Callable[[float], Straight]) -> Callable[[float], Straight]:
    """The same with the other sign."""
    return lambda x: ask(x).times(-1.0)


def widest(stretches: Sequence[Stretch], look: Callable[[Place], float], best: float) -> float:
    """A limit that nothing on any stretch passes, for values of 0 or more.

    Args:
        stretches: everything there is.
        look: solves at a place in the box, and returns the best value attained so far.
        best: the best value attained before.
    """
    queue: list[_Open] = []
    for number, one in enumerate(stretches):
        top = max(one.ask(one.a).most(), one.ask(one.b).most()) + _rise(one)
        queue.append(_Open(-top, number, one))
    heapq.heapify(queue)
    best, done = max(best, 0.0), 0.0  # done: highest limit of the single places, which can not be halved
    for _ in range(MOST_STEPS):
        if not queue or -queue[0].key <= max(done, best * (1.0 + FINE)):
            break
        open_ = heapq.heappop(queue)
        parts = list(_closer(open_, best))
        for part, places in parts:
            for u in places:
                best = max(best, look(u))
            if part.key < math.inf:
                heapq.heappush(queue, part)
        if not parts:
            done = max(done, -open_.key)
    return max(best, done, -queue[0].key if queue else 0.0)


def _rise(stretch: Stretch) -> float:
    """The most by which it can rise above the straight line through its ends."""
    return 0.125 * stretch.curve * (stretch.b - stretch.a) ** 2


def _closer(one: _Open, best: float) -> Iterator[tuple[_Open, list[Place]]]:
    """The stretch with its ends' limits proven; once they are, its two halves."""
    stretch = one.stretch
    if one.ends is None:
        left, at_left = _top(stretch, stretch.a, best)
        right, at_right = _top(stretch, stretch.b, best) if stretch.b > stretch.a else (left, [])
        yield _between(one, stretch, (left, right)), at_left + at_right
        return
    middle = 0.5 * (stretch.a + stretch.b)
    if not stretch.a < middle < stretch.b:
        return  # a single place, whose limit counted when it came up
    top, places = _top(stretch, middle, best)
    first = Stretch(stretch.one, stretch.ask, stretch.a, middle, stretch.curve)
    second = Stretch(stretch.one, stretch.ask, middle, stretch.b, stretch.curve)
    yield _between(one, first, (one.ends[0], top)), places
    yield _between(one, second, (top, one.ends[1])), []


def _between(one: _Open, stretch: Stretch, ends: tuple[float, float]) -> _Open:
    top = min(max(ends) + _rise(stretch), -one.key)
    return _Open(-top, one.order, stretch, ends)


def _top(stretch: Stretch, x: float, best: float) -> tuple[float, list[Place]]:
    """The limit at one place, and where to look; no lower than it must be for the stretch to be done with."""
    found = highest(stretch.ask(x), stretch.one.conditions, best - _rise(stretch))
    if found.at is None:
        return found.limit, []
    return found.limit, [within(stretch.one, found.at)]


def within(one: StraightSet, u: Place) -> Place:
    """A little inside the part of a choice: where a line just goes slack there is no doubt then which choice it is."""
    inside = one.inside
    return u if inside is None else tuple([a + NUDGE * (b - a) for a, b in zip(u, inside, strict=True)])
