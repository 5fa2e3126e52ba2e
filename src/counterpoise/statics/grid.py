"""The batten cut into cells: between two neighbouring stations stiffness and spread load are constant.

Stations are the ends, the lines, the steps of stiffness, the point loads and the ends of spread loads, so inside a
cell the moment is a parabola and the deflection a quartic, and every integral below is exact.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from counterpoise.statics.model import Beam, Line, Load, PointLoad


@dataclass(frozen=True, slots=True)
class Grid:
    """Stations and cells; cell c reaches from station c to station c + 1."""

    xs: list[float]  # stations [m]
    hs: list[float]  # lengths of the cells [m]
    eis: list[float]  # stiffness of the cells [N m2]
    ws: list[float]  # spread load on the cells [N/m]
    ps: list[float]  # point load at the stations [N]
    at: list[int]  # station of each line
    weight: float  # of all loads [N]
    centre: float  # their centre of gravity [m]


def cut(beam: Beam, lines: Sequence[Line], loads: Sequence[Load], also: Iterable[float] = ()) -> Grid:
    """Cut the batten into cells, `also` at these places. Arguments have been checked."""
    length = beam.length
    ends = [min(segment.end, length) for segment in beam.segments]
    ends[-1] = length
    places = [min(max(line.x, 0.0), length) for line in lines]
    points: list[tuple[float, float]] = []
    spreads: list[tuple[float, float, float]] = []
    stations = {0.0, length, *ends, *places, *also}
    for load in loads:
        if isinstance(load, PointLoad):
            x = min(max(load.x, 0.0), length)
            points.append((x, load.force))
            stations.add(x)
        else:
            start, end = max(load.start, 0.0), min(load.end, length)
            spreads.append((start, end, load.per_length))
            stations.add(start)
            stations.add(end)
    xs = sorted(stations)
    cells = len(xs) - 1
    hs = [xs[c + 1] - xs[c] for c in range(cells)]
    eis = [beam.segments[bisect_right(ends, xs[c])].stiffness for c in range(cells)]
    ws = [0.0] * cells
    ps = [0.0] * (cells + 1)
    weight = first = 0.0
    for x, force in points:
        ps[bisect_left(xs, x)] += force
        weight += force
        first += force * x
    for start, end, per_length in spreads:
        for c in range(bisect_left(xs, start), bisect_left(xs, end)):
            ws[c] += per_length
        weight += per_length * (end - start)
        first += per_length * (end - start) * 0.5 * (start + end)
    at = [bisect_left(xs, x) for x in places]
    return Grid(xs, hs, eis, ws, ps, at, weight, first / weight if weight else 0.0)


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch between two stations as a simple beam: its end pulls, end turns under load, and flexibility."""

    length: float
    left: float  # pull at the left end under the loads between the ends [N]
    right: float  # at the right end [N]
    turn_left: float  # integral of (m0/EI)(1 - u), u from 0 to 1 along the span
    turn_right: float  # integral of (m0/EI) u
    flex_ll: float  # integral of (1 - u)2/EI
    flex_lr: float  # integral of u(1 - u)/EI
    flex_rr: float  # integral of u2/EI


def simple_span(grid: Grid, a: int, b: int) -> Span:
    """The stretch from station a to station b on two rigid points."""
    xs, hs, eis, ws, ps = grid.xs, grid.hs, grid.eis, grid.ws, grid.ps
    start, end = xs[a], xs[b]
    length = end - start
    left = right = 0.0
    for c in range(a, b):
        load = ws[c] * hs[c]
        if load:
            middle = xs[c] + 0.5 * hs[c]
            left += load * (end - middle)
            right += load * (middle - start)
        if ps[c] and c > a:
            left += ps[c] * (end - xs[c])
            right += ps[c] * (xs[c] - start)
    left /= length
    right /= length
    moment, shear = 0.0, left
    whole = whole_u = flex = flex_u = flex_uu = 0.0
    for c in range(a, b):
        h, w, soft, off = hs[c], ws[c], 1.0 / eis[c], xs[c] - start
        if c > a:
            shear -= ps[c]
        area = h * (moment + h * (0.5 * shear - h * w / 6.0))
        lever = h * h * (0.5 * moment + h * (shear / 3.0 - 0.125 * h * w))
        whole += area * soft
        whole_u += (off * area + lever) * soft
        flex += h * soft
        flex_u += h * (off + 0.5 * h) * soft
        flex_uu += h * (off * (off + h) + h * h / 3.0) * soft
        moment += h * (shear - 0.5 * h * w)
        shear -= h * w
    turn_right = whole_u / length
    u1, u2 = flex_u / length, flex_uu / (length * length)
    return Span(length, left, right, whole - turn_right, turn_right, flex - 2.0 * u1 + u2, u1 - u2, u2)


def left_of(grid: Grid, station: int) -> tuple[float, float]:
    """Weight strictly left of a station and its moment about it (both positive)."""
    x, weight, moment = grid.xs[station], 0.0, 0.0
    for c in range(station):
        spread, point = grid.ws[c] * grid.hs[c], grid.ps[c]
        weight += spread + point
        moment += spread * (x - grid.xs[c] - 0.5 * grid.hs[c]) + point * (x - grid.xs[c])
    return weight, moment


def right_of(grid: Grid, station: int) -> tuple[float, float]:
    """Weight strictly right of a station and its moment about it (both positive)."""
    x, weight, moment = grid.xs[station], 0.0, 0.0
    for c in range(station, len(grid.hs)):
        spread, point = grid.ws[c] * grid.hs[c], grid.ps[c + 1]
        weight += spread + point
        moment += spread * (grid.xs[c] + 0.5 * grid.hs[c] - x) + point * (grid.xs[c + 1] - x)
    return weight, moment
