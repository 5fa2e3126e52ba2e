"""A ladder truss spread out again: every moment, shear, slope and drop of both chords, once the pulls are known.

The chords are marched from loads, pulls and ring forces, so that what the rings were solved from is met again by
another way: each step that should be nothing is kept for the proof.
"""

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from operator import sub, truediv

from counterpoise.statics.condensed import Condensed
from counterpoise.statics.field import Field
from counterpoise.statics.frame import Frame, Rings
from counterpoise.statics.frame_loads import Loaded
from counterpoise.statics.hung_ladder import SpacerForces
from counterpoise.statics.line_moments import Borne
from counterpoise.statics.model import Line, Load, PointLoad

RingColumns = tuple[list[float], list[float], list[float], list[float]]  # of each bay a, b, n, and (b - a) / length
Spacer = tuple[float, float, float, float]  # SpacerForces before it has its name


@dataclass(slots=True)
class Bent:
    """Both chords and the spacers of a truss at rest, and the steps that should be nothing."""

    top: Field
    bottom: Field
    axial: list[float]  # of the bottom chord in each stretch; the top chord has the opposite [N]
    spacers: list[SpacerForces]
    moment_steps: list[float]  # [N m]
    shear_steps: list[float]  # [N]
    drop_steps: list[float]  # [m]
    slope_steps: list[float]  # [rad]
    size: float  # of drops, for tolerances [m]
    steep: float  # size of slopes, for tolerances [rad]


def bend(condensed: Condensed, lines: Sequence[Line], loaded: Loaded, borne: Borne, also: Iterable[float] = ()) -> Bent:
    """Spread out the pulls of one choice of carrying lines, with stations `also` at these places."""
    frame, ladder = condensed.frame, condensed.frame.ladder
    rings = condensed.rings_of(loaded, borne)
    spacers = spacers_of(frame, loaded, rings)
    top, bottom = _fields(frame, loaded, also)
    bent = Bent(top, bottom, _axial(frame, rings), spacers, [], [], [], [], 0.0, 0.0)
    jumps = {frame.xs[m]: one for m, one in zip(frame.joints, spacers, strict=True)}
    pulls = dict(zip(frame.places, borne.tensions, strict=True))
    upper, lower = _points(top.xs, loaded.loads.top), _points(top.xs, loaded.loads.bottom)
    for k, x in enumerate(top.xs):
        one = jumps.get(x)
        upper[k] += (one.axial if one else 0.0) - pulls.get(x, 0.0)
        lower[k] -= one.axial if one else 0.0
    _march(top, upper, {bisect_left(top.xs, x): -one.head for x, one in jumps.items()}, bent)
    _march(bottom, lower, {bisect_left(top.xs, x): one.foot for x, one in jumps.items()}, bent)
    _match_rings(frame, rings, bent)
    _level(frame, lines, borne, bent)
    _hang_bottom(frame, [one.axial * ladder.depth / ladder.spacer.stretching for one in spacers], bent)
    _close(frame, bent)
    return bent


def spacers_of(frame: Frame, loaded: Loaded, rings: Rings) -> list[SpacerForces]:
    """What every spacer pulls, and its moments, from the ring forces."""
    return list(map(SpacerForces._make, spacer_forces(frame, loaded, ring_columns(frame, rings))))


def ring_columns(frame: Frame, rings: Rings) -> RingColumns:
    """The ring forces, each kind for itself, and the shear that they bring into the bottom chord."""
    a, b, n = rings[::3], rings[1::3], rings[2::3]
    return a, b, n, list(map(truediv, map(sub, b, a), frame.bays))


def spacer_forces(frame: Frame, loaded: Loaded, rings: RingColumns) -> list[Spacer]:
    """As spacers_of, before they have their names."""
    found: list[Spacer] = []
    xs, joints, hung, spacers = frame.xs, frame.joints, loaded.hung, loaded.spacers
    first, last = joints[0], joints[-1]
    before, n_before, shear_before = (hung.ends[first - 1] if first else 0.0), 0.0, 0.0
    for mark, a, b, n, shear, hangs in zip(joints, *rings, spacers, strict=False):
        foot = a - before
        found.append((xs[mark], hangs + shear - shear_before, foot, foot + n - n_before))
        before, n_before, shear_before = b, n, shear
    foot = (hung.starts[last] if last < len(frame.hs) else 0.0) - before
    found.append((xs[last], spacers[-1] - shear_before, foot, foot - n_before))
    return found


def _axial(frame: Frame, rings: Rings) -> list[float]:
    """Pull of the bottom chord in each stretch, free ends included."""
    found = [n / frame.ladder.depth for n in rings[2::3]]
    if frame.joints[0]:
        found.insert(0, 0.0)
    if frame.joints[-1] < len(frame.hs):
        found.append(0.0)
    return found


def _fields(frame: Frame, loaded: Loaded, also: Iterable[float]) -> tuple[Field, Field]:
    """Both chords on the same stations, with their spread loads, all else still at zero."""
    length, loads = frame.xs[-1], loaded.loads
    places = {*frame.xs, *also}
    for load in (*loads.top, *loads.bottom):
        ends = (load.x,) if isinstance(load, PointLoad) else (load.start, load.end)
        places.update(ends)
    places = {x for x in places if 0.0 < x < length} | {0.0, length}  # an end missed by rounding is the end
    xs = sorted(places)
    hs = [b - a for a, b in pairwise(xs)]
    found = []
    for bar, mine in ((frame.ladder.top, loads.top), (frame.ladder.bottom, loads.bottom)):
        ws = [0.0] * len(hs)
        for load in mine:
            if not isinstance(load, PointLoad):
                start, end = max(load.start, 0.0), min(load.end, length)
                for c in range(bisect_left(xs, start), bisect_left(xs, end)):
                    ws[c] += load.per_length
        zeros = [0.0] * len(hs)
        eis = [bar.bending] * len(hs)
        found.append(Field(xs, hs, eis, ws, zeros, zeros[:], zeros[:], zeros[:], [], []))
    return found[0], found[1]


def _points(xs: Sequence[float], loads: Sequence[Load]) -> list[float]:
    """Point loads at the stations."""
    found = [0.0] * len(xs)
    for load in loads:
        if isinstance(load, PointLoad):
            found[bisect_left(xs, min(max(load.x, 0.0), xs[-1]))] += load.force
    return found


def _march(field: Field, points: Sequence[float], jumps: dict[int, float], bent: Bent) -> None:
    """Moments and shears from the stage-right end, and slopes and drops from level; both ends must come out free."""
    moment = shear = slope = drop = 0.0
    for c, (h, w, ei) in enumerate(zip(field.hs, field.ws, field.eis, strict=True)):
        shear -= points[c]
        moment += jumps.get(c, 0.0)
        field.moments[c], field.shears[c], field.slopes[c], field.drops[c] = moment, shear, slope, drop
        turn = h / ei
        drop += h * slope - turn * h * (0.5 * moment + h * (shear / 6.0 - h * w / 24.0))
        slope -= turn * (moment + h * (0.5 * shear - h * w / 6.0))
        moment += h * (shear - 0.5 * h * w)
        shear -= h * w
    last = len(field.hs)
    bent.moment_steps.append(moment + jumps.get(last, 0.0))
    bent.shear_steps.append(shear - points[last])


def _match_rings(frame: Frame, rings: Rings, bent: Bent) -> None:
    """The marched moment at the start of every bay is that of its ring."""
    for j in range(len(frame.bays)):
        c = bisect_left(bent.bottom.xs, frame.xs[frame.joints[j]])
        bent.moment_steps.append(bent.bottom.moments[c] - rings[3 * j])


def _level(frame: Frame, lines: Sequence[Line], borne: Borne, bent: Bent) -> None:
    """Turn and lower the top chord onto its outer carrying lines; it must meet the others."""
    held = [(frame.places[i], lines[i].offset + lines[i].flexibility * borne.tensions[i]) for i in borne.carrying]
    top = bent.top
    (x0, y0), (x1, y1) = held[0], held[-1]
    d0, d1 = top.drop(x0), top.drop(x1)
    tilt = ((y1 - d1) - (y0 - d0)) / (x1 - x0)
    for c, x in enumerate(top.xs[:-1]):
        top.drops[c] += (y0 - d0) + tilt * (x - x0)
        top.slopes[c] += tilt
    bent.drop_steps.extend([top.drop(x) - y for x, y in held[1:-1]])
    bent.size = max(*map(abs, top.drops), abs(d1 - d0) * 1.0e-3)
    bent.steep = max(map(abs, top.slopes))


def _hang_bottom(frame: Frame, stretches: Sequence[float], bent: Bent) -> None:
    """Turn and lower each stretch of the bottom chord onto the feet of its spacers."""
    field, xs = bent.bottom, bent.bottom.xs
    stations = [bisect_left(xs, frame.xs[m]) for m in frame.joints]
    feet = [_drop_at(bent.top, s) + stretch for s, stretch in zip(stations, stretches, strict=True)]
    marched = [_drop_at(field, s) for s in stations]
    for j in range(len(stations) - 1):
        a, b = stations[j], stations[j + 1]
        tilt = ((feet[j + 1] - marched[j + 1]) - (feet[j] - marched[j])) / (xs[b] - xs[a])
        low, high = (a if j else 0), (b if j + 2 < len(stations) else len(field.hs))
        for c in range(low, high):  # free ends go on straight from the outer bays
            field.drops[c] += feet[j] - marched[j] + tilt * (xs[c] - xs[a])
            field.slopes[c] += tilt


def _drop_at(field: Field, station: int) -> float:
    """Drop at a station."""
    return field.drops[station] if station < len(field.drops) else field.drop(field.xs[station])


def _slope_before(field: Field, station: int) -> float:
    """Slope at the end of the cell before a station."""
    c = station - 1
    h, m, v, w = field.hs[c], field.moments[c], field.shears[c], field.ws[c]
    return field.slopes[c] - h / field.eis[c] * (m + h * (0.5 * v - h * w / 6.0))


def _close(frame: Frame, bent: Bent) -> None:
    """Every joint is rigid: chord, spacer and chord turn alike, and the rings close along the chords."""
    ladder, top, bottom = frame.ladder, bent.top, bent.bottom
    soft = ladder.depth / (6.0 * ladder.spacer.bending)
    along = (1.0 / ladder.top.stretching + 1.0 / ladder.bottom.stretching) / ladder.depth
    axial = bent.axial[1:] if frame.joints[0] else bent.axial
    stations = [bisect_left(top.xs, frame.xs[m]) for m in frame.joints]
    leans: list[float] = []
    for i, (s, one) in enumerate(zip(stations, bent.spacers, strict=True)):
        turn_top = top.slopes[s] if s < len(top.hs) else _slope_before(top, s)
        lean = turn_top - soft * (2.0 * one.head + one.foot)
        turn = lean - soft * (2.0 * one.foot + one.head)
        if i:
            bent.slope_steps.append(_slope_before(bottom, s) - turn)
            bent.slope_steps.append(lean - leans[-1] + axial[i - 1] * frame.bays[i - 1] * along)
        if i < len(stations) - 1:
            bent.slope_steps.append(bottom.slopes[s] - turn)
        leans.append(lean)
