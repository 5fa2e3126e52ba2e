"""A ladder truss by the stiffness method in fifty digits: an outside answer for the accuracy of ours."""

import importlib
from collections.abc import Sequence
from typing import Any

from counterpoise.statics import Bar, Load, PointLoad
from tests.ladders import Truss, marks

DIGITS = 50
mp: Any = importlib.import_module("mpmath")  # ships no types


def exact(truss: Truss, carrying: Sequence[int]) -> tuple[list[Any], list[Any], list[Any]]:
    """Pulls of the carrying lines, and drops of the top and the bottom chord at the marks with loads.

    Nodes at every mark of both chords, three displacements each (along, down, turn); these lines act both ways.
    Source: stiffness of a straight bar, any text on matrix structural analysis.
    """
    with mp.workdps(DIGITS):
        ladder, lines, hung = truss
        xs = marks(truss, loads=True)
        count = len(xs)
        held = len(carrying)
        size = 6 * count + held  # and the pulls, as multipliers: rigid lines need no large number
        left, right = mp.zeros(size + 1), mp.zeros(size + 1, 1)
        for chord, bar in enumerate((ladder.top, ladder.bottom)):
            for k in range(count - 1):
                h = mp.mpf(xs[k + 1]) - mp.mpf(xs[k])
                _bar(left, bar, h, (6 * k + 3 * chord, 6 * k + 6 + 3 * chord), upright=False)
            for load in hung.bottom if chord else hung.top:
                _load(right, xs, chord, load)
        for x in ladder.spacers:
            k = xs.index(x)
            _bar(left, ladder.spacer, mp.mpf(ladder.depth), (6 * k, 6 * k + 3), upright=True)
        for row, i in enumerate(carrying, start=6 * count):
            down = 6 * xs.index(lines[i].x) + 1
            left[row, down] = left[down, row] = mp.mpf(1)
            left[row, row] = -mp.mpf(lines[i].flexibility)
            right[row] = mp.mpf(lines[i].offset)
        left[size, 0] = left[0, size] = mp.mpf(1)  # no drift
        found = mp.lu_solve(left, right)
        pulls = [found[6 * count + k] for k in range(held)]
        return pulls, [found[6 * k + 1] for k in range(count)], [found[6 * k + 4] for k in range(count)]


def _bar(left: Any, bar: Bar, h: Any, ends: tuple[int, int], *, upright: bool) -> None:
    """Add a bar from one node to the other; upright bars run down."""
    area, inertia, modulus = (mp.mpf(v) for v in (bar.section.area, bar.section.second_moment, bar.modulus))
    along, ei = modulus * area / h, modulus * inertia
    k1, k2, k3, k4 = 12 * ei / h**3, 6 * ei / h**2, 4 * ei / h, 2 * ei / h
    # along the bar, across it, turn; across is down for a level bar with turns clockwise (down the stage-left side)
    local = [
        [along, 0, 0, -along, 0, 0],
        [0, k1, k2, 0, -k1, k2],
        [0, k2, k3, 0, -k2, k4],
        [-along, 0, 0, along, 0, 0],
        [0, -k1, -k2, 0, k1, -k2],
        [0, k2, k4, 0, -k2, k3],
    ]
    order, signs = ([1, 0, 2], [1, -1, 1]) if upright else ([0, 1, 2], [1, 1, 1])
    for p in range(6):
        for q in range(6):
            row, column = ends[p // 3] + order[p % 3], ends[q // 3] + order[q % 3]
            left[row, column] += local[p][q] * signs[p % 3] * signs[q % 3]


def _load(right: Any, xs: list[float], chord: int, load: Load) -> None:
    if isinstance(load, PointLoad):
        right[6 * xs.index(load.x) + 3 * chord + 1] += mp.mpf(load.force)
        return
    for k in range(xs.index(load.start), xs.index(load.end)):
        h, w = mp.mpf(xs[k + 1]) - mp.mpf(xs[k]), mp.mpf(load.per_length)
        for node, sign in ((k, 1), (k + 1, -1)):
            right[6 * node + 3 * chord + 1] += w * h / 2
            right[6 * node + 3 * chord + 2] += sign * w * h * h / 12
