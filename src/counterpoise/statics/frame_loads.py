"""What loads do to a ladder truss while every line and every ring is cut: by statics alone, cell by cell."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from operator import add, mul
from typing import NamedTuple

from counterpoise.statics.frame import Frame, Rings
from counterpoise.statics.ladder import ChordLoads, check_chord_loads
from counterpoise.statics.model import Load, PointLoad


class Lump(NamedTuple):  # made many times for one answer, and a named tuple is made quickest
    """What hangs on each cell of a chord, reduced to four numbers for each cell."""

    weights: list[float]  # [N]
    levers: list[float]  # moment about the end of the cell [N m]
    points: list[float]  # what of it hangs just at its start; at last what hangs at the end of the chord [N]
    turns_left: list[float]  # end turn of the cell as a simple beam, times EI [N m2]
    turns_right: list[float]  # [N m2]
    weight: float  # of all, from the loads themselves, not from the cells [N]
    first: float  # their moment about x = 0 [N m]


class Standing(NamedTuple):
    """A chord's moments while every ring is cut: at the start and the end of each cell [N m]."""

    starts: list[float]
    ends: list[float]


class Loaded(NamedTuple):
    """Loads on a condensed ladder truss, before any line has pulled."""

    loads: ChordLoads
    weight: float  # from the loads themselves, not from the cells [N]
    first: float  # their moment about x = 0 [N m]
    both: Lump  # of both chords; its turns are left out
    bottom: Lump
    hung: Standing  # moments of the bottom chord, every ring cut
    spacers: list[float]  # pull of each spacer, every ring cut [N]
    shears: list[float]  # at the start of each bay of the bottom chord, every ring cut [N]
    chords: Rings  # gaps of the cut rings from what bends both chords
    ahead: Rings  # half of the ring forces that close them, under the loads alone; see Band
    pulls: list[float]  # q, pull of each line, hinged at every line [N]
    kinks: list[float]  # g, over each interior line [rad]
    outer: tuple[float, float]  # moments at the first and the last line [N m]

    @property
    def centre(self) -> float:
        """Centre of gravity of the loads [m]."""
        return self.first / self.weight


def lump(frame: Frame, loads: Iterable[Load]) -> Lump:
    """Reduce the loads of one chord cell by cell; OutOfRange for one that hangs off the truss."""
    xs, hs, mark_at = frame.xs, frame.hs, frame.mark_at
    count = len(hs)
    weights, levers, points = [0.0] * count, [0.0] * count, [0.0] * (count + 1)
    lefts, rights = [0.0] * count, [0.0] * count
    whole = first = 0.0
    for load in loads:
        if isinstance(load, PointLoad):
            x, force = load.x, load.force
            whole += force
            first += force * x
            mark = mark_at(x)
            if mark is None:
                c = bisect_right(xs, x) - 1
                if 0 <= c < count:
                    s, h = x - xs[c], hs[c]
                    rest = h - s
                    weights[c] += force
                    levers[c] += force * rest
                    turn = force * s * rest / (6.0 * h)
                    lefts[c] += turn * (h + rest)
                    rights[c] += turn * (h + s)
                    continue
                mark = _end_near(frame, load, x)
            points[mark] += force
        else:
            start, end, per_length = load.start, load.end, load.per_length
            force = per_length * (end - start)
            whole += force
            first += 0.5 * force * (start + end)
            if start < 0.0 or end > xs[-1]:
                check_chord_loads(frame.ladder, ChordLoads(top=(load,)))
                start, end = max(start, 0.0), min(end, xs[-1])
            _hang_spread(frame, (weights, levers, lefts, rights), start, end, per_length)
    weights, levers = list(map(add, weights, points)), list(map(add, levers, map(mul, points, hs)))
    weights[-1] += points[-1]
    return Lump(weights, levers, points, lefts, rights, whole, first)


def _end_near(frame: Frame, load: Load, x: float) -> int:
    """The mark of the end that this load misses by rounding; OutOfRange where it misses by more."""
    check_chord_loads(frame.ladder, ChordLoads(top=(load,)))
    return 0 if x < 0.0 else len(frame.hs)


Sums = tuple[list[float], list[float], list[float], list[float]]  # weights, levers, turns left and right of a Lump


def _hang_spread(frame: Frame, found: Sums, start: float, end: float, per_length: float) -> None:
    xs, hs = frame.xs, frame.hs
    first, last = bisect_left(xs, start), bisect_right(xs, end) - 1
    weights, levers, lefts, rights = found
    for c in range(first, last):  # cells wholly covered
        h = hs[c]
        weight = per_length * h
        lever = 0.5 * weight * h
        turn = lever * h / 12.0
        weights[c] += weight
        levers[c] += lever
        lefts[c] += turn
        rights[c] += turn
    if first > last:  # within one cell
        _hang_part(found, last, hs[last], (start - xs[last], end - xs[last]), per_length)
        return
    if start < xs[first]:
        _hang_part(found, first - 1, hs[first - 1], (start - xs[first - 1], hs[first - 1]), per_length)
    if end > xs[last]:
        _hang_part(found, last, hs[last], (0.0, end - xs[last]), per_length)


def _hang_part(found: Sums, c: int, h: float, reach: tuple[float, float], per_length: float) -> None:
    s, e = reach
    weights, levers, lefts, rights = found
    weight = per_length * (e - s)
    weights[c] += weight
    levers[c] += weight * (h - 0.5 * (s + e))
    part = per_length / (6.0 * h)
    lefts[c] += part * (_left(h, e) - _left(h, s))
    rights[c] += part * (_right(h, e) - _right(h, s))


def _left(h: float, s: float) -> float:
    return s * s * (h * h - h * s + 0.25 * s * s)


def _right(h: float, s: float) -> float:
    return s * s * (0.5 * h * h - 0.25 * s * s)


def simple(
    frame: Frame, hung: Lump, stops: Sequence[int], *, joined: bool
) -> tuple[Standing, list[float], list[float]]:
    """A chord hinged at every stop and free beyond the outer ones.

    Joined: the outer stops pass the moment of what is free on to the stretch between them (one beam on lines);
    else a spacer takes it up (a chord whose rings are cut).

    Returns:
        Moments in the cells, pulls at the stops, and the shear at the start of each stretch between them.
    """
    xs, hs, weights, levers = frame.xs, frame.hs, hung.weights, hung.levers
    count, inner = len(hs), len(stops) - 1
    starts, ends = [0.0] * count, [0.0] * count
    left = right = shear = 0.0
    for c in range(stops[0]):
        starts[c] = left
        left += shear * hs[c] - levers[c]
        ends[c] = left
        shear -= weights[c]
    pull, pulls, shears = -shear, [], []
    shear = 0.0
    for c in range(count - 1, stops[-1] - 1, -1):
        ends[c] = right
        right -= (shear + weights[c]) * hs[c] - levers[c]
        starts[c] = right
        shear += weights[c]
    fallen, moment, last = shear, left if joined else 0.0, 0.0
    a = stops[0]
    for j, b in enumerate(stops[1:], start=1):
        if joined and j == inner:
            last = right
        if b - a == 1:
            shear = (levers[a] + last - moment) / hs[a]
            pulls.append(pull + shear)
            pull = weights[a] - shear
            starts[a], ends[a] = moment, last
            shears.append(shear)
        else:
            end, lever = xs[b], last - moment
            for c in range(a, b):
                lever += levers[c] + weights[c] * (end - xs[c + 1])
            shear = lever / (end - xs[a])
            pulls.append(pull + shear)
            shears.append(shear)
            for c in range(a, b):
                starts[c] = moment
                moment += shear * hs[c] - levers[c]
                ends[c] = moment
                shear -= weights[c]
            ends[b - 1] = last
            pull = -shear
        moment, a = 0.0, b
    pulls.append(pull + fallen)
    return Standing(starts, ends), pulls, shears


def chord_turns(
    frame: Frame, whole: Standing, hung: Standing, top: Lump, bottom: Lump
) -> tuple[Rings, list[float], list[float]]:
    """Gaps of the cut rings from what bends both chords.

    Returns:
        The gaps, and two integrals over every cell of the top chord, of M (1 - t) / EI and of M t / EI, t from 0 to 1
        along it.
    """
    soft, soft_b, turns = frame.soft_top, frame.soft_bottom, [0.0] * (3 * len(frame.bays) + 3)
    heads, tails = [], []
    columns = (frame.cells, frame.sixths, *whole, *hung, *top[3:5], *bottom[3:5])
    for (n, start, share), sixth, m, k, m_b, k_b, left, right, left_b, right_b in zip(*columns, strict=True):
        m -= m_b
        k -= k_b
        both, both_b = sixth * (m + k), sixth * (m_b + k_b)
        area, lever = (3.0 * both + left + right) * soft, (both + sixth * k + right) * soft
        area_b, lever_b = (3.0 * both_b + left_b + right_b) * soft_b, (both_b + sixth * k_b + right_b) * soft_b
        heads.append(area - lever)
        tails.append(lever)
        gap = start * (area_b - area) + share * (lever_b - lever)
        turns[n] += area_b - area - gap
        turns[n + 1] += gap
        turns[n + 2] -= area
    return turns[:-3], heads, tails  # the last three are of the free ends, which close no ring


def ring_turns(frame: Frame, chords: Rings, hung: Standing, spacers: Sequence[float]) -> Rings:
    """Gaps of the cut rings: of both chords, and what stretches the spacers and bends the outer ones."""
    turns, pulled, before = chords[:], frame.pulled, spacers[0]
    for k, bay, pull in zip(range(0, len(turns), 3), frame.bays, spacers[1:], strict=True):
        stretch = pulled * (pull - before) / bay
        turns[k] += stretch
        turns[k + 1] -= stretch
        before = pull
    first, last = frame.joints[0], frame.joints[-1]
    bent = 6.0 * frame.bent
    foot = -hung.ends[first - 1] if first else 0.0  # moment that a free end brings into its spacer
    turns[0] += bent * foot
    turns[2] += 0.5 * bent * foot
    foot = hung.starts[last] if last < len(frame.hs) else 0.0
    turns[-2] -= bent * foot
    turns[-1] -= 0.5 * bent * foot
    return turns
