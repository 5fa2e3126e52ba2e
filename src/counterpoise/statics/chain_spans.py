"""The spans of a batten of one stiffness in closed form, and the equations that tie them over the lines.

Source: a point load P on a simple span l, a from its left end and b from its right, turns the ends by
P a b (l + b)/6 EI l and P a b (l + a)/6 EI l, any table of beams; a load spread over h about the same place loses
P b h2/24 EI l and P a h2/24 EI l of it, the exact mean of the same cubic.
"""

from collections.abc import Sequence
from itertools import pairwise

from counterpoise.statics.model import Beam, Line, Load, PointLoad
from counterpoise.statics.three_moment import solve_banded


class Chain:
    """Spans between neighbouring lines as simple beams, with what hangs beyond the outer lines.

    Turns are times EI, and so is the flexibility of a line: with EI = 1 the equations keep their form.
    """

    __slots__ = ("falls", "first", "leads", "lefts", "lengths", "moments", "places", "rights", "trails", "weight")

    def __init__(self, beam: Beam, lines: Sequence[Line], loads: Sequence[Load]) -> None:
        length = beam.length
        self.places = places = [min(max(line.x, 0.0), length) for line in lines]
        count = len(places) - 1
        self.lengths = [places[j + 1] - places[j] for j in range(count)]
        self.lefts, self.rights = [0.0] * count, [0.0] * count  # pulls at the ends of each span [N]
        self.leads, self.trails = [0.0] * count, [0.0] * count  # EI times the turns of its ends, times 6 l
        self.falls = [0.0, 0.0]  # weight beyond the outer lines [N]
        self.moments = [0.0, 0.0]  # its moments about them [N m], hogging positive
        self.weight = self.first = 0.0
        for load in loads:
            if isinstance(load, PointLoad):
                self._hang(load.x, load.force, 0.0)
            else:
                self._spread(load.start, load.end, load.per_length)
        for j, span in enumerate(self.lengths):
            six = 6.0 * span
            self.leads[j] /= six
            self.trails[j] /= six

    def _hang(self, x: float, force: float, width: float) -> None:
        """A force about x, spread over a width that lies in one span or beyond the outer lines."""
        self.weight += force
        self.first += force * x
        places = self.places
        for j in range(len(self.lengths), -1, -1):
            if x >= places[j]:
                break
        else:
            self.falls[0] += force
            self.moments[0] += force * (places[0] - x)
            return
        a = x - places[j]
        if j == len(self.lengths):
            self.falls[1] += force
            self.moments[1] += force * a
            return
        span = self.lengths[j]
        b = span - a
        share = force * a / span
        self.lefts[j] += force - share
        self.rights[j] += share
        turned, mean = force * a * b, 0.25 * force * width * width
        self.leads[j] += turned * (span + b) - mean * b
        self.trails[j] += turned * (span + a) - mean * a

    def _spread(self, start: float, end: float, per_length: float) -> None:
        """A spread load, cut at the lines."""
        for place in self.places:
            if start < place < end:
                width = place - start
                self._hang(start + 0.5 * width, per_length * width, width)
                start = place
        width = end - start
        self._hang(start + 0.5 * width, per_length * width, width)


def solve(
    chain: Chain, flexes: Sequence[float], offsets: Sequence[float], carrying: tuple[int, ...]
) -> tuple[list[float], list[float], list[float]]:
    """Moments, pulls and EI times levels at every line, with these lines carrying; a pull may come out negative."""
    straight = [*chain.lefts, chain.falls[1]]  # pulls with a hinge over every line
    straight[0] += chain.falls[0]
    for j, right in enumerate(chain.rights):
        straight[j + 1] += right
    if len(carrying) == len(flexes):
        joined, ends = (chain.lengths, chain.leads, chain.trails, straight, flexes, offsets), chain.moments
        moments = _over_lines(*joined, (-ends[0], -ends[1]))
    else:
        moments = _join(chain, straight, flexes, offsets, carrying)
    pulls = straight[:]
    for j, span in enumerate(chain.lengths):
        step = (moments[j + 1] - moments[j]) / span
        pulls[j] += step
        pulls[j + 1] -= step
    levels = [offset + flex * pull for offset, flex, pull in zip(offsets, flexes, pulls, strict=True)]
    if len(carrying) < len(flexes):
        _float(chain, moments, levels, carrying)
    return moments, pulls, levels


def _over_lines(
    lengths: Sequence[float],
    leads: Sequence[float],
    trails: Sequence[float],
    straight: Sequence[float],
    flexes: Sequence[float],
    offsets: Sequence[float],
    ends: tuple[float, float],
) -> list[float]:
    """Moments over carrying lines: the slopes of the spans agree at each inner one; docs/theory/batten.md, eq. 1."""
    count = len(lengths) - 1
    if count == 0:
        return [*ends]
    inverse = [1.0 / span for span in lengths]
    pulls = [*straight]
    step = ends[0] * inverse[0]
    pulls[0] -= step
    pulls[1] += step
    step = ends[1] * inverse[-1]
    pulls[-2] += step
    pulls[-1] -= step
    levels = [offset + flex * pull for offset, flex, pull in zip(offsets, flexes, pulls, strict=True)]
    slopes = [(levels[j + 1] - levels[j]) * inverse[j] for j in range(count + 1)]
    diagonal, first, second, right = [], [0.0] * count, [0.0] * count, []
    for j in range(count):  # line j + 1, between spans j and j + 1
        before, after = inverse[j], inverse[j + 1]
        middle, give = before + after, flexes[j + 1]
        diagonal.append(
            (lengths[j] + lengths[j + 1]) / 3.0
            + before * before * flexes[j]
            + middle * middle * give
            + after * after * flexes[j + 2]
        )
        right.append(slopes[j] - slopes[j + 1] - trails[j] - leads[j + 1])
        if j + 1 < count:
            first[j] = lengths[j + 1] / 6.0 - after * (middle * give + (after + inverse[j + 2]) * flexes[j + 2])
            if j + 2 < count:
                second[j] = after * inverse[j + 2] * flexes[j + 2]
    right[0] -= lengths[0] / 6.0 * ends[0]
    right[-1] -= lengths[-1] / 6.0 * ends[1]
    return [ends[0], *solve_banded(diagonal, first, second, right), ends[1]]


def _join(
    chain: Chain, straight: Sequence[float], flexes: Sequence[float], offsets: Sequence[float], carrying: Sequence[int]
) -> list[float]:
    """Moments at every line: spans that meet at slack lines become one; at these the moment follows from shear."""
    places, last = chain.places, len(chain.places) - 1
    moments = [0.0] * (last + 1)
    left, right = _outside(chain, carrying, moments)
    lengths, leads, trails, pulls = [], [], [], [straight[i] for i in carrying]
    pulls[0] = left + chain.lefts[carrying[0]]
    pulls[-1] = right + chain.rights[carrying[-1] - 1]
    for k in range(len(carrying) - 1):
        i, j = carrying[k], carrying[k + 1]
        start, end = places[i], places[j]
        span = end - start
        lead = trail = 0.0
        for m in range(i, j):
            turn, other = chain.leads[m], chain.trails[m]
            u, v = (places[m] - start) / span, (places[m + 1] - start) / span
            lead += turn * (1.0 - u) + other * (1.0 - v)
            trail += turn * u + other * v
            if m > i:  # what the spans put on a slack line hangs there
                a, b = places[m] - start, end - places[m]
                share = straight[m] * a / span
                pulls[k] += straight[m] - share
                pulls[k + 1] += share
                lead += share * b * (span + b) / 6.0
                trail += share * b * (span + a) / 6.0
        lengths.append(span)
        leads.append(lead)
        trails.append(trail)
    found = _over_lines(
        lengths,
        leads,
        trails,
        pulls,
        [flexes[i] for i in carrying],
        [offsets[i] for i in carrying],
        (moments[carrying[0]], moments[carrying[-1]]),
    )
    for i, moment in zip(carrying, found, strict=True):
        moments[i] = moment
    _between(chain, straight, carrying, moments)
    return moments


def _outside(chain: Chain, carrying: Sequence[int], moments: list[float]) -> tuple[float, float]:
    """Fill in the moments from the ends to the outer carrying lines; the weights that hang beyond those."""
    shear, moments[0] = chain.falls[0], -chain.moments[0]
    for j in range(carrying[0]):
        moments[j + 1] = moments[j] - chain.lengths[j] * (shear + chain.lefts[j])
        shear += chain.lefts[j] + chain.rights[j]
    left = shear
    shear, moments[-1] = chain.falls[1], -chain.moments[1]
    for j in range(len(chain.lengths) - 1, carrying[-1] - 1, -1):
        moments[j] = moments[j + 1] - chain.lengths[j] * (shear + chain.rights[j])
        shear += chain.lefts[j] + chain.rights[j]
    return left, shear


def _between(chain: Chain, straight: Sequence[float], carrying: Sequence[int], moments: list[float]) -> None:
    """Fill in the moments at slack lines between carrying ones: on the chord, and what hangs there above it."""
    places = chain.places
    for i, j in pairwise(carrying):
        start, end = places[i], places[j]
        for m in range(i + 1, j):
            u = (places[m] - start) / (end - start)
            moment = moments[i] * (1.0 - u) + moments[j] * u
            for k in range(i + 1, j):
                near, far = (k, m) if k < m else (m, k)
                moment += straight[k] * (places[near] - start) * (end - places[far]) / (end - start)
            moments[m] = moment


def _float(chain: Chain, moments: Sequence[float], levels: list[float], carrying: Sequence[int]) -> None:
    """Fill in EI times the level of the batten at every slack line, span by span from a carrying one."""
    for i, j in pairwise(carrying):
        rise = levels[j] - levels[i]  # of the tangent at line i, once what bends the spans between is taken off
        for m in range(i, j):
            bent, turned = bend(chain, moments, m)
            rise += bent * chain.lengths[m] + turned * (chain.places[j] - chain.places[m + 1])
        slope = rise / (chain.places[j] - chain.places[i])
        if i == carrying[0]:
            outer = slope
        for m in range(i, j):
            bent, turned = bend(chain, moments, m)
            if m + 1 < j:
                levels[m + 1] = levels[m] + chain.lengths[m] * (slope - bent)
            slope -= turned
    for m in range(carrying[-1], len(chain.lengths)):
        bent, turned = bend(chain, moments, m)
        levels[m + 1] = levels[m] + chain.lengths[m] * (slope - bent)
        slope -= turned
    for m in range(carrying[0] - 1, -1, -1):
        bent, turned = bend(chain, moments, m)
        outer += turned
        levels[m] = levels[m + 1] - chain.lengths[m] * (outer - bent)


def bend(chain: Chain, moments: Sequence[float], m: int) -> tuple[float, float]:
    """EI times the turn of span m's start against its chord, and of its start against its end."""
    span, left, right = chain.lengths[m], moments[m], moments[m + 1]
    lead = chain.leads[m] + span * (left / 3.0 + right / 6.0)
    return lead, chain.leads[m] + chain.trails[m] + 0.5 * span * (left + right)
