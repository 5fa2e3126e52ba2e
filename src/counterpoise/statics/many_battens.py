"""Many battens as flat arrays, and their spans."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import compress, repeat
from struct import pack
from typing import cast

import numpy as np

from counterpoise.errors import within
from counterpoise.statics.many_equations import Array, Index, Spans, spans_of
from counterpoise.statics.model import (
    CLOSEST,
    ROUNDING,
    Beam,
    Line,
    Load,
    PointLoad,
    Segment,
    SpreadLoad,
    check_lines,
    check_loads,
    check_weight,
)

Batten = tuple[Beam, Sequence[Line], Sequence[Load]]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Battens:
    """Battens with equally many lines as flat arrays, SI; the loads of all stand in one row."""

    given: tuple[Batten, ...]
    length: Array  # [battens]
    stiffness: Array  # the greatest of each batten [battens]
    stepped: Index  # battens whose stiffness changes along them
    places: Array  # [battens, lines]
    flexes: Array
    offsets: Array
    owner: Index  # the batten's number of each load, point loads first
    starts: Array  # of each load; of a point load its place
    ends: Array
    forces: Array  # [N]
    points: int  # how many of the loads are point loads


def battens(given: Sequence[Batten]) -> Battens:
    """Flatten battens that have equally many lines.

    Raises:
        OutOfRange: no batten, or one on fewer than two lines; all else is looked at when they are hung.
        ValueError: the battens have not equally many lines.
    """
    count = len(given)
    within("number of battens", count, low=1, high=math.inf, mend="Give one batten or more.")
    n = len(given[0][1])
    within("number of lines", n, low=2, high=math.inf, mend="A batten hangs on two lines or more.")
    if {len(each) for _, each, _ in given} != {n}:
        raise ValueError("These battens have not equally many lines; sort them by the number of their lines first.")
    lines: list[Line] = []
    every: list[Load] = []
    for _, each, loads in given:
        lines += each
        every += loads
    is_point = bytes(map(isinstance, every, repeat(PointLoad)))
    hangs = np.frombuffer(is_point, dtype=bool)
    points = cast("list[PointLoad]", list(compress(every, is_point)))
    spreads = cast("list[SpreadLoad]", [every[i] for i in np.flatnonzero(~hangs).tolist()])
    owner = np.repeat(np.arange(count), [len(loads) for _, _, loads in given])
    places = _column([load.x for load in points])
    beams = [beam for beam, _, _ in given]
    parts = [beam.segments for beam in beams]
    stepped = [i for i, each in enumerate(parts) if len(each) > 1 and _is_stepped(each)]
    return Battens(
        given=tuple(given),
        length=_column([beam.length for beam in beams]),
        stiffness=_column([each[0].stiffness if len(each) == 1 else _greatest(each) for each in parts]),
        stepped=np.array(stepped, dtype=np.intp),
        places=_column([line.x for line in lines]).reshape(count, n),
        flexes=_column([line.flexibility for line in lines]).reshape(count, n),
        offsets=_column([line.offset for line in lines]).reshape(count, n),
        owner=np.concatenate([owner[hangs], owner[~hangs]]),
        starts=np.concatenate([places, _column([load.start for load in spreads])]),
        ends=np.concatenate([places, _column([load.end for load in spreads])]),
        forces=np.concatenate([_column([load.force for load in points]), _column([load.force for load in spreads])]),
        points=len(points),
    )


def _column(values: list[float]) -> Array:
    return np.frombuffer(pack(f"{len(values)}d", *values))  # twice as quick as np.array


def _greatest(parts: Sequence[Segment]) -> float:
    return max([part.stiffness for part in parts])


def _is_stepped(parts: Sequence[Segment]) -> bool:
    return any(part.stiffness != parts[0].stiffness for part in parts)


def spans_of_battens(many: Battens) -> Spans:
    """The spans of every batten, in closed form where its stiffness is one; refuses what hang refuses."""
    _check(many)
    length, count = many.length, len(many.length)
    n = many.places.shape[1]
    places = np.minimum(np.maximum(many.places, 0.0), length[:, None])
    lengths = places[:, 1:] - places[:, :-1]
    owner, middle, width, force = _pieces(many, places)
    passed = middle >= np.take(np.ascontiguousarray(places.T), owner, axis=1)
    zone = np.add.reduce(passed, axis=0, dtype=np.int16)  # 0 and n: beyond the outer lines
    inside = (zone > 0) & (zone < n)
    j = np.minimum(np.maximum(zone, 1), n - 1) - 1
    key = owner * (n - 1) + j
    span, a = lengths.ravel()[key], middle - places.ravel()[key + owner]
    b = span - a
    share = np.where(inside, force, 0.0) / span
    turned, mean = share * a * b / 6.0, share * width**2 / 24.0
    sums = np.empty((4, count * (n - 1)))
    terms = (share * b, share * a, turned * (span + b) - mean * b, turned * (span + a) - mean * a)
    for k, term in enumerate(terms):
        sums[k] = _sums(key, term, count * (n - 1))
    lefts, rights, leads, trails = sums.reshape(4, count, n - 1)
    out = np.flatnonzero(~inside)  # beyond the outer lines, on either side
    some, side, fall = owner[out], zone[out] > 0, force[out]
    beyond = np.abs(middle[out] - places[some, side * (n - 1)])
    falls = _sums(2 * some + side, fall, 2 * count).reshape(count, 2)
    ends = _sums(2 * some + side, fall * beyond, 2 * count).reshape(count, 2)
    stiffness = many.stiffness[:, None]
    centre = 0.5 * (many.starts + many.ends)
    spans = Spans(
        places=places,
        flexes=many.flexes,
        offsets=many.offsets,
        length=length,
        stiffness=many.stiffness,
        lefts=lefts,
        rights=rights,
        leads=leads / stiffness,
        trails=trails / stiffness,
        flex=lengths[:, None, :] / stiffness[..., None] * np.array([1.0 / 3.0, 1.0 / 6.0, 1.0 / 3.0])[:, None],
        falls=falls,
        ends=ends,
        at_lines=np.zeros((count, n)),
        weight=_sums(many.owner, many.forces, count),
        first=_sums(many.owner, many.forces * centre, count),
    )
    for i in many.stepped:
        _replace(spans, int(i), spans_of(*many.given[i]))
    for i in np.flatnonzero(~((spans.weight >= 1.0e-9) & (spans.weight <= 1.0e12))):
        check_weight(float(spans.weight[i]))
    return spans


def _sums(keys: Index, values: Array, count: int) -> Array:
    """Sum of the values of each key."""
    return np.bincount(keys, values, minlength=count).astype(np.float64, copy=False)  # of no values: whole numbers


def _pieces(many: Battens, places: Array) -> tuple[Index, Array, Array, Array]:
    """Loads cut at the lines: owner, middle, width and force of every piece."""
    p, n = many.points, places.shape[1]
    owner, start, end = many.owner[p:], many.starts[p:, None], many.ends[p:, None]
    at = places[owner]
    low = np.concatenate([start, np.minimum(np.maximum(at, start), end)], axis=1)
    high = np.concatenate([low[:, 1:], end], axis=1)
    width = high - low
    force = (many.forces[p:, None] / (end - start)) * width
    middle = 0.5 * (low + high)
    some = width.ravel() > 0.0
    return (
        np.concatenate([many.owner[:p], np.repeat(owner, n + 1)[some]]),
        np.concatenate([many.starts[:p], middle.ravel()[some]]),
        np.concatenate([np.zeros(p), width.ravel()[some]]),
        np.concatenate([many.forces[:p], force.ravel()[some]]),
    )


def _check(many: Battens) -> None:
    """Refuse what hang refuses, by its own words."""
    places, limit = many.places, many.length + ROUNDING
    close = ~(places[:, 1:] - places[:, :-1] >= CLOSEST).all(axis=1)
    wrong = (places[:, 0] < -ROUNDING) | (places[:, -1] > limit) | close
    off = (many.starts < -ROUNDING) | (many.ends > limit[many.owner])  # no load ends before it starts
    for i in [*np.flatnonzero(wrong), *many.owner[off]]:
        beam, lines, loads = many.given[i]
        check_lines(beam, lines)
        check_loads(beam, loads)


def _replace(spans: Spans, i: int, exact: Spans) -> None:
    """Put the spans of one batten in the place of those that took its stiffness for one."""
    for name in ("lefts", "rights", "leads", "trails", "flex", "falls", "ends", "at_lines"):
        getattr(spans, name)[i] = getattr(exact, name)
