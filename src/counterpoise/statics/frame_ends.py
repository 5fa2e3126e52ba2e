"""The forces at the ends of every bar of a ladder truss, from its ring forces, without spreading anything out.

They are proven by what they were not made from: the truss as a whole, marched from loads and pulls, comes out free and
has the moments that were solved for over the lines; every foot of a spacer is in balance; and every ring closes, by the
bending and stretch of its own four bars. docs/theory/ladder.md.
"""

from functools import partial

from counterpoise.statics.condensed import Borne, Condensed, Loaded
from counterpoise.statics.frame import Frame, Rings
from counterpoise.statics.frame_field import spacers_of
from counterpoise.statics.hung_ladder import EndForces, SpacerForces
from counterpoise.statics.proof import PROOF, Unproven

Bar = tuple[str, float, float, float, float, float, float, float]  # EndForces before it has its name
_named = partial(tuple.__new__, EndForces)
Whole = tuple[list[float], list[float], list[float]]  # at every mark: moment, shear just before and just after it


def end_forces(condensed: Condensed, loaded: Loaded, borne: Borne) -> tuple[EndForces, ...]:
    """Top chord from stage right to stage left, then bottom chord, then spacers. Unproven where they do not stand."""
    frame, depth = condensed.frame, condensed.frame.ladder.depth
    rings = condensed.rings_of(loaded, borne)
    spacers = spacers_of(frame, loaded, rings)
    whole, bottom = _whole(frame, loaded, borne), _bottom(frame, loaded, rings)
    _prove_whole(condensed, loaded, borne, whole)
    _prove_feet(frame, loaded, bottom, spacers)
    _prove_rings(frame, loaded.weight, condensed.chord_turns_of(loaded, borne), rings, spacers)
    feet = [("spacer", x, x, axial, (h - f) / depth, (h - f) / depth, f, h) for x, axial, f, h in spacers]
    return tuple(map(_named, [*_top(frame, whole, bottom, rings), *bottom, *feet]))


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


def _bottom(frame: Frame, loaded: Loaded, rings: Rings) -> list[Bar]:
    """The bars of the bottom chord, free ends included."""
    xs, joints, weights, points = frame.xs, frame.joints, loaded.bottom.weights, loaded.bottom.points
    first, last, count, inverse = joints[0], joints[-1], len(frame.hs), 1.0 / frame.ladder.depth
    at_end = points[-1]  # what hangs just at the end of a chord is no shear in its last bar
    found: list[Bar] = []
    if first:
        fallen = sum(weights[:first])
        found.append(("bottom", 0.0, xs[first], 0.0, -points[0], -fallen, 0.0, loaded.hung.ends[first - 1]))
    a, columns = first, zip(joints[1:], rings[::3], rings[1::3], rings[2::3], loaded.shears, frame.bays, strict=True)
    for b, start, end, push, simple, bay in columns:
        shear = simple + (end - start) / bay
        leaves = shear - (weights[a] if b - a == 1 else sum(weights[a:b]))
        if b == count:
            leaves += at_end
        found.append(("bottom", xs[a], xs[b], push * inverse, shear - points[a], leaves, start, end))
        a = b
    if last < count:
        shear = sum(weights[last:]) - points[last]
        found.append(("bottom", xs[last], xs[-1], 0.0, shear, at_end, loaded.hung.starts[last], 0.0))
    return found


def _top(frame: Frame, whole: Whole, bottom: list[Bar], rings: Rings) -> list[Bar]:
    """The bars of the top chord: what the truss as a whole has, and the bottom chord has not."""
    moments, before, after = whole
    marks = [*frame.joints]
    pushes = rings[2::3]
    if marks[0]:
        marks.insert(0, 0)
        pushes.insert(0, 0.0)
    if marks[-1] < len(frame.hs):
        marks.append(len(frame.hs))
        pushes.append(0.0)
    return [
        ("top", start, end, -axial, after[a] - v, before[b] - w, moments[a] - m - n, moments[b] - k - n)
        for a, b, n, (_, start, end, axial, v, w, m, k) in zip(marks, marks[1:], pushes, bottom, strict=False)
    ]


def _prove_whole(condensed: Condensed, loaded: Loaded, borne: Borne, whole: Whole) -> None:
    moments, _, after = whole
    _hold("equilibrium of the truss", after[-1], loaded.weight)
    scale = loaded.weight * condensed.frame.xs[-1]
    _hold("equilibrium of the truss", moments[-1], scale)
    for mark, moment in zip(condensed.frame.at, borne.moments, strict=True):
        _hold("equilibrium of the truss", moments[mark] - moment, scale)


def _prove_feet(frame: Frame, loaded: Loaded, bottom: list[Bar], spacers: list[SpacerForces]) -> None:
    """Every spacer pulls what the bottom chord hangs on its foot."""
    points = loaded.bottom.points
    starts, ends = [bar[4] for bar in bottom], [bar[5] for bar in bottom]
    if not frame.joints[0]:
        ends.insert(0, 0.0)
    else:
        starts.pop(0)
    if frame.joints[-1] == len(frame.hs):
        starts.append(0.0)
    steps = zip(spacers, frame.joints, starts, ends, strict=False)
    worst = [abs(spacer[1] - points[mark] - start + end) for spacer, mark, start, end in steps]
    _hold("equilibrium of a joint", max(worst), loaded.weight)


def _prove_rings(frame: Frame, weight: float, turns: Rings, rings: Rings, spacers: list[SpacerForces]) -> None:
    """Every ring closes: no kink at its joints, and no gap across or along it."""
    ladder = frame.ladder
    soft, soft_top = 1.0 / ladder.top.bending + 1.0 / ladder.bottom.bending, 0.5 / ladder.top.bending
    along = (1.0 / ladder.top.stretching + 1.0 / ladder.bottom.stretching) / ladder.depth**2
    pulled, bent = ladder.depth / ladder.spacer.stretching, ladder.depth / (6.0 * ladder.spacer.bending)
    sixth, worst = soft / 6.0, 0.0
    _, axial, foot, head = spacers[0]
    for j, bay in enumerate(frame.bays):
        a, b, n = rings[3 * j : 3 * j + 3]
        _, axial_b, foot_b, head_b = spacers[j + 1]
        across = pulled * (axial_b - axial) / bay
        at_a = turns[3 * j] + bay * (sixth * (2.0 * a + b) + soft_top * n) + 3.0 * bent * (foot + head) + across
        at_b = turns[3 * j + 1] + bay * (sixth * (a + 2.0 * b) + soft_top * n) - 3.0 * bent * (foot_b + head_b) - across
        gap = turns[3 * j + 2] + bay * (soft_top * (a + b + 2.0 * n) + along * n)
        gap += bent * (foot + 2.0 * head - foot_b - 2.0 * head_b)
        worst = max(worst, abs(at_a), abs(at_b), abs(gap))
        axial, foot, head = axial_b, foot_b, head_b
    floor = 1.0e-6 * weight * frame.xs[-1] ** 2 * soft  # where nothing bends but by rounding
    _hold("a ring that closes", worst, max(*turns, -min(turns), floor))


def _hold(law: str, miss: float, scale: float) -> None:
    if not abs(miss) <= PROOF * scale:  # a miss that is no number fails as well
        raise Unproven(law, abs(miss), PROOF * scale)
