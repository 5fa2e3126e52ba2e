"""The extremes of a batten whose lines lean over all that is in doubt and its travel, where corners do not give them.

How far it has drifted is in doubt then too. Between two drifts each line reaches deeper by something between two depths
and gives by something between two flexibilities: taken as one more doubt of its trim, the pulls that are sought bound
the drift in their turn, closer than before. Nothing here is a corner, so lines may go slack anywhere in it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from counterpoise.balance import slant
from counterpoise.loadpath.hangs import Rope
from counterpoise.loadpath.leaning import on_block, ways_of
from counterpoise.loadpath.loads import loads_of
from counterpoise.loadpath.sought import Sought, seek
from counterpoise.rigging import RiggedBatten
from counterpoise.statics import Axial, Beam, Tips, pressed

ROUNDS = 4
CLOSER = 0.9  # a round that leaves more than that of the range is the last

_Range = tuple[float, float]


@dataclass(frozen=True, slots=True)
class _Found:
    """What is sought with the drift anywhere in a range [m]; pulls [N]."""

    drift: _Range
    sought: Sought


def seek_leaning(rigged: RiggedBatten) -> Sought | Tips:
    """What nothing in doubt passes, at any height where all hangs free. Raises Unproven.

    Of a batten that tips, its tips, of a part of what is in doubt as `Sought` tells them.
    """
    rope, every = Rope(rigged), (min(rigged.runs), max(rigged.runs))
    trimmed = _closer(rigged, rope, every, None)
    if isinstance(trimmed, Tips):
        return trimmed
    if trimmed.sought.tips is not None or trimmed.sought.unproven:
        return trimmed.sought
    found = _closer(rigged, rope, every, trimmed.drift)
    return found if isinstance(found, Tips) else _told(rigged, found)


def _closer(rigged: RiggedBatten, rope: Rope, every: _Range, trimmed: _Range | None) -> _Found | Tips:
    """Round after round with the drift that the last one leaves; `trimmed` that at low trim, None: it is sought."""
    drift, pulls, rounds = every, (_weight(rigged)[1],) * len(rigged.lines), 0
    while True:
        sought = _seek(rigged, rope, drift, trimmed, pulls)
        if isinstance(sought, Tips):
            return sought
        left = _drift(rigged, sought, drift)
        is_close = left[1] - left[0] > CLOSER * (drift[1] - drift[0])
        drift, pulls, rounds = left, sought.high, rounds + 1
        if rounds == ROUNDS or is_close or sought.unproven or sought.tips is not None:
            return _Found(drift, sought)


def _seek(
    rigged: RiggedBatten, rope: Rope, drift: _Range, trimmed: _Range | None, pulls: Sequence[float]
) -> Sought | Tips:
    """The extremes with the drift anywhere in a range, and no line pulling more than is known already."""
    top = rigged.low if trimmed is None else rigged.high
    bottom = rigged.low if trimmed is None else rigged.clear
    lines, doubts = [], []
    for line, run, off, pull in zip(rigged.lines, rigged.runs, _trims(rigged), pulls, strict=True):
        least, most = _away(run, drift)
        deepest, highest = 0.0, 0.0
        if trimmed is not None:
            was = _away(run, trimmed)
            deepest = _lower(rigged, was[1], least, bottom)
            highest = _lower(rigged, was[0], most, top)
        gives = [line.flexibility * (1.0 + (width / (rigged.loft - height)) ** 2)
                 for width, height in ((least, bottom), (most, top))]  # fmt: skip
        lines.append(replace(line, offset=line.offset + (deepest + highest) / 2.0, flexibility=sum(gives) / 2.0))
        doubts.append(off + (deepest - highest) / 2.0 + pull * (gives[1] - gives[0]) / 2.0)
    wide = replace(rigged, lines=tuple(lines), trim_doubts=tuple(doubts), runs=())
    found = [seek(wide, rope, height) for height in ({bottom, top} if rigged.cables else {top})]
    return _both(found)


def _both(found: Sequence[Sought | Tips]) -> Sought | Tips:
    """The wider of what is sought at each end of a cable's way."""
    first, *rest = found
    for one in rest:
        if isinstance(first, Tips) or isinstance(one, Tips):
            return first if isinstance(first, Tips) else one
        first = Sought(low=tuple(map(min, first.low, one.low)), high=tuple(map(max, first.high, one.high)),
                       moment=max(first.moment, one.moment), stress=max(first.stress, one.stress),
                       sag_ratio=max(first.sag_ratio, one.sag_ratio), tips=first.tips or one.tips,
                       unproven=first.unproven or one.unproven)  # fmt: skip
    return first


def _drift(rigged: RiggedBatten, sought: Sought, known: _Range) -> _Range:
    """Between which it drifts: the mean of the runs by pulls of which each lies between two, and all of them do."""
    light, heavy = _weight(rigged)
    first, last = min(rigged.runs), max(rigged.runs)
    above, below = ([run - first for run in rigged.runs], [last - run for run in rigged.runs])
    low = max(known[0], first + _sum(above, sought.low) / heavy, last - _sum(below, sought.high) / light)
    high = min(known[1], first + _sum(above, sought.high) / light, last - _sum(below, sought.low) / heavy)
    return (low, high) if low <= high else known


def _told(rigged: RiggedBatten, found: _Found) -> Sought:
    """With pulls as the ropes have them, and what presses it as if all pushed at its most."""
    one, drop = found.sought, rigged.loft - rigged.high
    widest = [_away(run, found.drift)[1] for run in rigged.runs]
    # at rest they add up to nothing, so no place has more than half of all
    push = sum(pull * width / drop for pull, width in zip(one.high, widest, strict=True)) / 2.0
    turns = tuple(_turns(rigged, i, found.drift) for i in range(len(rigged.runs)))
    high = tuple(pull * math.hypot(1.0, width / drop) for pull, width in zip(one.high, widest, strict=True))
    one = replace(one, all_high=_weight(rigged)[1] * slant(rigged, rigged.high)[1],
                  aside=max(width / math.hypot(width, drop) for width in widest))  # fmt: skip
    if not isinstance(rigged.beam, Beam) or not rigged.made.stretches:
        return replace(one, high=high, turns=turns)
    ends = Axial(xs=(rigged.lines[0].x, rigged.lines[-1].x), forces=(-push,))
    pushed = pressed(ends, rigged.beam)
    grown = 1.0 if pushed is None else pushed.factor
    area = min(stretch.area for stretch in rigged.made.stretches)
    if not math.isfinite(grown):
        return replace(one, high=high, turns=turns, may_buckle=True)
    return replace(
        one, high=high, turns=turns, stress=grown * one.stress + push / area, sag_ratio=grown * one.sag_ratio
    )


def _turns(rigged: RiggedBatten, i: int, drift: _Range) -> _Range:
    """What a line puts on its loft block per pull in it, least and most."""
    drops = (rigged.loft - rigged.clear, rigged.loft - rigged.high)
    sines = [(rigged.runs[i] - at) / math.hypot(rigged.runs[i] - at, drop) for at in drift for drop in drops]
    return on_block([way * sine for way in ways_of(rigged, i) for sine in sines])


def _away(run: float, drift: _Range) -> _Range:
    """How far a block stands aside of its line then, least and most, without sign [m]."""
    ends = abs(run - drift[0]), abs(run - drift[1])
    return (0.0 if drift[0] <= run <= drift[1] else min(ends)), max(ends)


def _lower(rigged: RiggedBatten, trimmed: float, width: float, height: float) -> float:
    """How much deeper a line reaches than a plumb one, by how far it leans at low trim and here [m]."""
    drop = rigged.loft - height
    rope = math.hypot(rigged.loft - rigged.low, trimmed) - (height - rigged.low)
    reach = (rope - drop) * (rope + drop) - width**2
    return reach / (math.sqrt(max(drop**2 + reach, 0.0)) + drop)


def _weight(rigged: RiggedBatten) -> _Range:
    """Of all that hangs at its lightest and at its heaviest [N]."""
    count = len(rigged.pipe_spreads or (0.0,)) + 1 + len(rigged.fixed)
    found = [sum(load.force for load in loads_of(rigged, [end] * len(rigged.pieces), [end] * count, height,
                                                 [end] * len(rigged.cables)).all)
             for end in (0, 2) for height in (rigged.low, rigged.high)]  # fmt: skip
    return min(found), max(found)


def _trims(rigged: RiggedBatten) -> Sequence[float]:
    return rigged.trim_doubts or (0.0,) * len(rigged.lines)


def _sum(weights: Sequence[float], values: Sequence[float]) -> float:
    return sum(weight * value for weight, value in zip(weights, values, strict=True))
