"""A batten on a fixed choice of carrying lines: the three-moment equation with elastic supports.

Unknowns are the moments at the interior carrying lines. The matrix is symmetric, positive definite and five-banded
(a moment bends the two spans beside it, and pulls on three lines), and the loads stand on the right-hand side only.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from counterpoise.statics.grid import Grid, Span, left_of, right_of, simple_span
from counterpoise.statics.model import Line


@dataclass(frozen=True, slots=True)
class Carried:
    """Moments and pulls at the carrying lines; a pull may come out negative."""

    carrying: tuple[int, ...]
    spans: list[Span]
    moments: list[float]  # at the carrying lines [N m]
    pulls: list[float]  # of the carrying lines [N]


def carry(grid: Grid, lines: Sequence[Line], carrying: tuple[int, ...], known: dict[tuple[int, int], Span]) -> Carried:
    """Solve for the moments and pulls at the carrying lines, two or more. `known` keeps spans between calls."""
    stations = [grid.at[i] for i in carrying]
    spans: list[Span] = []
    for a, b in pairwise(stations):
        span = known.get((a, b))
        if span is None:
            span = known[a, b] = simple_span(grid, a, b)
        spans.append(span)
    left_weight, left_moment = left_of(grid, stations[0])
    right_weight, right_moment = right_of(grid, stations[-1])
    last = len(stations) - 1
    moments = [0.0] * (last + 1)
    moments[0], moments[last] = -left_moment, -right_moment
    straight = [grid.ps[s] for s in stations]  # pulls with every interior moment at zero
    straight[0] += left_weight
    straight[last] += right_weight
    for j, span in enumerate(spans):
        straight[j] += span.left
        straight[j + 1] += span.right
    flexes = [lines[i].flexibility for i in carrying]
    offsets = [lines[i].offset for i in carrying]
    if last > 1:
        _interior_moments(spans, flexes, offsets, straight, moments)
    pulls = straight[:]
    for j, span in enumerate(spans):
        step = (moments[j + 1] - moments[j]) / span.length
        pulls[j] += step
        pulls[j + 1] -= step
    return Carried(carrying, spans, moments, pulls)


def _interior_moments(
    spans: Sequence[Span],
    flexes: Sequence[float],
    offsets: Sequence[float],
    straight: Sequence[float],
    moments: list[float],
) -> None:
    """Fill in the interior moments: slopes agree from span to span at every interior carrying line."""
    count = len(spans) - 1
    inverse = [1.0 / span.length for span in spans]
    pulls = list(straight)
    step = -moments[0] * inverse[0]
    pulls[0] += step
    pulls[1] -= step
    step = moments[-1] * inverse[-1]
    pulls[-2] += step
    pulls[-1] -= step
    levels = [offset + flex * pull for offset, flex, pull in zip(offsets, flexes, pulls, strict=True)]
    middle = [-(inverse[j] + inverse[j + 1]) for j in range(count)]
    diagonal, first, second, right = [0.0] * count, [0.0] * count, [0.0] * count, [0.0] * count
    for j in range(count):  # interior line j + 1, between spans j and j + 1
        before, after = spans[j], spans[j + 1]
        diagonal[j] = (
            before.flex_rr
            + after.flex_ll
            + inverse[j] ** 2 * flexes[j]
            + middle[j] ** 2 * flexes[j + 1]
            + inverse[j + 1] ** 2 * flexes[j + 2]
        )
        if j + 1 < count:
            first[j] = after.flex_lr + inverse[j + 1] * (middle[j] * flexes[j + 1] + middle[j + 1] * flexes[j + 2])
        if j + 2 < count:
            second[j] = inverse[j + 1] * inverse[j + 2] * flexes[j + 2]
        kink = (levels[j] - levels[j + 1]) * inverse[j] + (levels[j + 2] - levels[j + 1]) * inverse[j + 1]
        right[j] = -(before.turn_right + after.turn_left + kink)
    right[0] -= spans[0].flex_lr * moments[0]
    right[-1] -= spans[-1].flex_lr * moments[-1]
    moments[1:-1] = solve_banded(diagonal, first, second, right)


def solve_banded(
    diagonal: Sequence[float], first: Sequence[float], second: Sequence[float], right: Sequence[float]
) -> list[float]:
    """Solve a symmetric positive definite five-banded system by L D L'.

    Args:
        diagonal: entries (j, j). first: entries (j, j+1), the last unused. second: entries (j, j+2), last two unused.
        right: right-hand side.

    Source: Cholesky's method without roots, any text on matrix computation.
    """
    count = len(diagonal)
    pivots, lower1, lower2, solution = [0.0] * count, [0.0] * count, [0.0] * count, list(right)
    for j in range(count):
        pivot, beside = diagonal[j], first[j]
        if j > 0:
            pivot -= lower1[j - 1] ** 2 * pivots[j - 1]
            beside -= lower1[j - 1] * lower2[j - 1] * pivots[j - 1]
            solution[j] -= lower1[j - 1] * solution[j - 1]
        if j > 1:
            pivot -= lower2[j - 2] ** 2 * pivots[j - 2]
            solution[j] -= lower2[j - 2] * solution[j - 2]
        pivots[j] = pivot
        lower1[j] = beside / pivot
        lower2[j] = second[j] / pivot
    for j in range(count - 1, -1, -1):
        value = solution[j] / pivots[j]
        if j + 1 < count:
            value -= lower1[j] * solution[j + 1]
        if j + 2 < count:
            value -= lower2[j] * solution[j + 2]
        solution[j] = value
    return solution
