"""The forces at the ends of every bar of a ladder truss, from its ring forces, without spreading anything out.

They are proven by what they were not made from: the truss as a whole, marched from loads and pulls, comes out free and
has the moments that were solved for over the lines; every foot of a spacer is in balance; and every ring closes, by the
bending and stretch of its own four bars. docs/theory/ladder.md.
"""

import math
from functools import partial

from counterpoise.statics.condensed import Condensed
from counterpoise.statics.frame import Frame, Rings
from counterpoise.statics.frame_field import RingColumns, Spacer, ring_columns, spacer_forces
from counterpoise.statics.frame_loads import Loaded
from counterpoise.statics.hung_ladder import EndForces
from counterpoise.statics.line_moments import Borne
from counterpoise.statics.proof import PROOF, Unproven

Bar = tuple[str, float, float, float, float, float, float, float]  # EndForces before it has its name
_named = partial(tuple.__new__, EndForces)
Whole = tuple[list[float], list[float], list[float]]  # at every mark: moment, shear just before and just after it


def end_forces(condensed: Condensed, loaded: Loaded, borne: Borne) -> tuple[EndForces, ...]:
    """Top chord from stage right to stage left, then bottom chord, then spacers. Unproven where they do not stand."""
    frame, inverse = condensed.frame, 1.0 / condensed.frame.ladder.depth
    rings = ring_columns(frame, condensed.rings_of(loaded, borne))
    spacers, whole = spacer_forces(frame, loaded, rings), _whole(frame, loaded, borne)
    bars, bottom = _chords(frame, loaded, whole, rings)
    _prove_whole(condensed, loaded, borne, whole)
    _prove_feet(frame, loaded, bottom, spacers)
    _prove_rings(frame, loaded.weight, condensed.chord_turns_of(loaded, borne), rings, spacers)
    bars += bottom
    for x, axial, foot, head in spacers:
        shear = (head - foot) * inverse
        bars.append(("spacer", x, x, axial, shear, shear, foot, head))
    return tuple(map(_named, bars))


def _whole(frame: Frame, loaded: Loaded, borne: Borne) -> Whole:
    """The truss as a whole, marched from its stage-right end."""
    pulls = [0.0] * len(frame.xs)
    for mark, pull in zip(frame.at, borne.tensions, strict=True):
        pulls[mark] += pull
    both = loaded.both
    moment = shear = 0.0
    moments, before, after = [], [], []
    for h, weight, lever, point, pull in zip(frame.hs, both.weights, both.levers, both.points, pulls, strict=False):
        moments.append(moment)
        before.append(shear)
        shear += pull
        moment += shear * h - lever
        after.append(shear - point)
        shear -= weight
    moments.append(moment)
    before.append(shear + both.points[-1])
    after.append(shear + pulls[-1])
    return moments, before, after


def _chords(frame: Frame, loaded: Loaded, whole: Whole, rings: RingColumns) -> tuple[list[Bar], list[Bar]]:
    """The bars of the top chord, what the truss as a whole has and the bottom chord has not; those of the bottom chord.

    Free ends included.
    """
    (moments, before, after), xs, joints = whole, frame.xs, frame.joints
    weights, points = loaded.bottom.weights, loaded.bottom.points
    top: list[Bar] = []
    bottom: list[Bar] = []
    a, count, inverse = joints[0], len(frame.hs), 1.0 / frame.ladder.depth
    if a:
        fallen = sum(weights[:a])
        bottom.append(("bottom", 0.0, xs[a], 0.0, -points[0], -fallen, 0.0, loaded.hung.ends[a - 1]))
        top.append(_free(whole, 0, a, bottom[-1]))
    if points[-1] and joints[-1] == count:  # what hangs just at the end of a chord is no shear in its last bar
        weights = [*weights[:-1], weights[-1] - points[-1]]
    for b, m, k, n, slope, simple in zip(joints[1:], *rings, loaded.shears, strict=True):
        start, end, axial, shear = xs[a], xs[b], n * inverse, simple + slope
        v, w = shear - points[a], shear - (weights[a] if b - a == 1 else sum(weights[a:b]))
        bottom.append(("bottom", start, end, axial, v, w, m, k))
        top.append(("top", start, end, -axial, after[a] - v, before[b] - w, moments[a] - m - n, moments[b] - k - n))
        a = b
    if a < count:
        shear = sum(weights[a:]) - points[a]
        bottom.append(("bottom", xs[a], xs[-1], 0.0, shear, points[-1], loaded.hung.starts[a], 0.0))
        top.append(_free(whole, a, count, bottom[-1]))
    return top, bottom


def _free(whole: Whole, a: int, b: int, beneath: Bar) -> Bar:
    """A free end of the top chord, above that of the bottom chord."""
    (moments, before, after), (_, start, end, _, v, w, m, k) = whole, beneath
    return "top", start, end, 0.0, after[a] - v, before[b] - w, moments[a] - m, moments[b] - k


def _prove_whole(condensed: Condensed, loaded: Loaded, borne: Borne, whole: Whole) -> None:
    moments, _, after = whole
    steps = [moments[mark] - moment for mark, moment in zip(condensed.frame.at, borne.moments, strict=True)]
    _hold("equilibrium of the truss", after[-1], loaded.weight)
    _hold("equilibrium of the truss", math.hypot(moments[-1], *steps), loaded.weight * condensed.frame.xs[-1])


def _prove_feet(frame: Frame, loaded: Loaded, bottom: list[Bar], spacers: list[Spacer]) -> None:
    """Every spacer pulls what the bottom chord hangs on its foot."""
    points, joints = loaded.bottom.points, frame.joints
    before = [bar[5] for bar in bottom] if joints[0] else [0.0, *[bar[5] for bar in bottom]]
    after = [bar[4] for bar in (bottom[1:] if joints[0] else bottom)]
    if joints[-1] == len(frame.hs):
        after.append(0.0)
    steps = zip(spacers, joints, before, after, strict=False)
    misses = [spacer[1] - points[mark] - start + end for spacer, mark, end, start in steps]
    _hold("equilibrium of a joint", math.hypot(*misses), loaded.weight)


def _prove_rings(frame: Frame, weight: float, turns: Rings, rings: RingColumns, spacers: list[Spacer]) -> None:
    """Every ring closes: no kink at its joints, and no gap across or along it."""
    soft_top, soft, along = 0.5 * frame.soft_top, frame.soft_top + frame.soft_bottom, frame.along
    pulled, bent = frame.pulled, frame.bent
    sixth, bent_3, both, missed = soft / 6.0, 3.0 * bent, frame.soft_top + along, 0.0
    _, axial, foot, head = spacers[0]
    columns = (turns[::3], turns[1::3], turns[2::3], *rings[:3], frame.bays, spacers[1:])
    for at_a, at_b, at_n, a, b, n, bay, (_, axial_b, foot_b, head_b) in zip(*columns, strict=True):
        across, push, two = pulled * (axial_b - axial) / bay, soft_top * n, a + b
        at_a += bay * (sixth * (two + a) + push) + bent_3 * (foot + head) + across
        at_b += bay * (sixth * (two + b) + push) - bent_3 * (foot_b + head_b) - across
        at_n += bay * (soft_top * two + both * n) + bent * (foot - foot_b + 2.0 * (head - head_b))
        missed += at_a * at_a + at_b * at_b + at_n * at_n
        axial, foot, head = axial_b, foot_b, head_b
    floor = 1.0e-6 * weight * frame.xs[-1] ** 2 * soft  # where nothing bends but by rounding
    _hold("a ring that closes", math.sqrt(missed), max(*turns, -min(turns), floor))


def _hold(law: str, miss: float, scale: float) -> None:
    if not abs(miss) <= PROOF * scale:  # a miss that is no number fails as well
        raise Unproven(law, abs(miss), PROOF * scale)
