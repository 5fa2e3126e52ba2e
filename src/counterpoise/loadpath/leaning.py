"""A batten whose lines lean: over the travel they trim differently, and it drifts to where nothing pulls it along.

Lines are taken to be trimmed level at low trim, where hands reach, as the batten hangs there (common practice, no
source). A free batten drifts to the mean of the runs, weighed by the pulls; the pulls depend on how deep each line
reaches, and that on the drift. As a batten that moves toward a block gives load away there, the mean falls while the
drift grows: there is one place, and it lies between the runs. Derivation: docs/theory/axial.md.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from counterpoise.loadpath.along import Along
from counterpoise.loadpath.corners import with_kinks
from counterpoise.loadpath.hangs import Hangs, Rope
from counterpoise.loadpath.loads import Loads
from counterpoise.rigging import RiggedBatten
from counterpoise.statics import Beam, Line, Run, Tips, pressed, rest_along

SETTLED = 1e-9  # of how far the runs lie apart
STEP = 1.15  # from one drop to the next
NEAR = 1e-3  # [m]; two heights so near are one
MOST_TURNS = 40


@dataclass(frozen=True, slots=True)
class _Lean:
    """The lines at one height with the batten drifted so far, and how they then carry it."""

    drift: float
    lower: tuple[float, ...]
    hangs: Hangs


class Leaning:
    """Hangs one batten whose lines lean, under many loads and trims."""

    def __init__(self, rigged: RiggedBatten) -> None:
        self._rigged, self._rope = rigged, Rope(rigged)

    @property
    def heights(self) -> tuple[float, ...]:
        """Both ends of where everything hangs free; with cable, many between.

        Where lines lean too far at high trim, low trim alone.
        """
        rigged = self._rigged
        if rigged.steep:
            return (rigged.low,)
        return self.many if rigged.cables else tuple(sorted({rigged.clear, rigged.high}))

    @property
    def many(self) -> tuple[float, ...]:
        """Heights so near to each other that what hangs on a line runs about straight from one to the next.

        It is a + b h + c/D between the kinks of a cable. From D to 1.15 D such a curve is above the line through its
        ends by no more than 0.15^2/4 of c/D, what leaning draws to a line there: some thousandths of it.
        """
        rigged = self._rigged
        found = set(with_kinks(rigged))
        drop = rigged.loft - rigged.high
        while (drop := drop * STEP) < rigged.loft - rigged.clear:
            found.add(rigged.loft - drop)
        return tuple(sorted(found))

    def hang(
        self, lines: Sequence[Line], loads: Callable[[float], Loads], *, closely: bool = False
    ) -> tuple[Hangs, ...] | Tips:
        """The batten at rest at each of these heights, of which `loads` tells the loads. Raises Unproven.

        `closely` at many, and on both sides of each height at which a line goes slack or comes taut.
        """
        low = self._rigged.low
        trimmed = self._settled(lines, loads(low), low, None)
        if isinstance(trimmed, Tips):
            return trimmed
        ropes = self._ropes(trimmed[0].drift)

        def at(height: float) -> Hangs | Tips:
            one = trimmed if height == low else self._settled(lines, loads(height), height, ropes)
            return one if isinstance(one, Tips) else self._told(*one, height)

        found: list[Hangs] = []
        for height in self.many if closely else self.heights:
            one = at(height)
            if isinstance(one, Tips):
                return one
            if closely and found and found[-1].carrying != one.carrying:
                found += _event(at, found[-1], one)
            found.append(one)
        return tuple(found)

    def _ropes(self, drift: float) -> list[float]:
        """From block to batten at low trim, where all reach as deep as plumb ones."""
        drop = self._rigged.loft - self._rigged.low
        return [math.hypot(drop, run - drift) for run in self._rigged.runs]

    def _settled(
        self, lines: Sequence[Line], loads: Loads, height: float, ropes: Sequence[float] | None
    ) -> tuple[_Lean, bool] | Tips:
        """The drift that its own pulls keep, between two that are known to be on either side; False: not found."""
        runs = self._rigged.runs
        low, high = min(runs), max(runs)
        close = SETTLED * (high - low)
        drift, turns = sum(runs) / len(runs), 0
        before: tuple[float, float] | None = None
        while True:
            one = self._at(lines, loads, height, ropes, drift)
            if isinstance(one, Tips):
                return one
            turns += 1
            off = _mean(runs, one.hangs.answer.tensions) - drift
            if abs(off) <= close or turns == MOST_TURNS:
                return one, abs(off) <= close
            low, high = (drift, high) if off > 0.0 else (low, drift)
            aimed = drift + off if before is None else _straight(before, (drift, off))
            before = drift, off
            drift = aimed if low < aimed < high else (low + high) / 2.0

    def _at(
        self, lines: Sequence[Line], loads: Loads, height: float, ropes: Sequence[float] | None, drift: float
    ) -> _Lean | Tips:
        drop, in_ = self._rigged.loft - height, height - self._rigged.low
        lower, leaning = [], []
        for i, (line, run) in enumerate(zip(lines, self._rigged.runs, strict=True)):
            width = run - drift
            more = 0.0
            if ropes is not None:  # sqrt(rope^2 - width^2) - drop, without the difference of two near numbers
                reach = (ropes[i] - in_ - drop) * (ropes[i] - in_ + drop) - width**2
                more = reach / (math.sqrt(max(drop**2 + reach, 0.0)) + drop)
            lower.append(more)
            gives = line.flexibility * (1.0 + (width / drop) ** 2)
            leaning.append(replace(line, offset=line.offset + more, flexibility=gives))
        found = self._rope.hang(leaning, loads)
        return found if isinstance(found, Tips) else _Lean(drift, tuple(lower), found)

    def _told(self, one: _Lean, is_settled: bool, height: float) -> Hangs:
        rigged, drop, pulls = self._rigged, self._rigged.loft - height, one.hangs.answer.tensions
        widths = tuple(run - one.drift for run in rigged.runs)
        runs = [Run(x=line.x, block_x=line.x + run, drop=drop)
                for line, run in zip(rigged.lines, rigged.runs, strict=True)]  # fmt: skip
        axial = rest_along(runs, pulls).axial
        blocks = []
        for i, width in enumerate(widths):
            sine = width / math.hypot(width, drop)
            blocks.append(on_block([way * sine for way in ways_of(rigged, i)]))
        along = Along(height=height, drop=drop, drift=one.drift, widths=widths, lower=one.lower, blocks=tuple(blocks),
                      axial=axial, pressed=pressed(axial, rigged.beam) if isinstance(rigged.beam, Beam) else None,
                      is_settled=is_settled)  # fmt: skip
        return replace(one.hangs, along=along)


def _event(at: Callable[[float], Hangs | Tips], below: Hangs, above: Hangs) -> list[Hangs]:
    """How it hangs on both sides of the height between at which other lines come to carry."""
    assert below.along is not None  # both lean
    assert above.along is not None
    low, high = below.along.height, above.along.height
    sides = [below, above]
    while high - low > NEAR:
        one = at((low + high) / 2.0)
        if isinstance(one, Tips):
            break
        is_below = one.carrying == below.carrying
        low, high = ((low + high) / 2.0, high) if is_below else (low, (low + high) / 2.0)
        sides[0 if is_below else 1] = one
    return sides


def ways_of(rigged: RiggedBatten, i: int) -> tuple[float, ...]:
    """Toward which side line i (from 0) leaves its loft block: toward the head block; by a mule block either way."""
    return (-1.0, 1.0) if rigged.written.lines.at[i].mule_blocks else (rigged.towards[i],)


def on_block(sines: Sequence[float]) -> tuple[float, float]:
    """What a loft block carries per pull, least and most, of the sines of a lean toward where the rope leaves it level.

    Source: sum of two equal forces.
    """
    found = [math.sqrt(max(0.0, 2.0 * (1.0 - sine))) for sine in sines]
    return min(found), max(found)


def _mean(runs: Sequence[float], pulls: Sequence[float]) -> float:
    return sum(run * pull for run, pull in zip(runs, pulls, strict=True)) / sum(pulls)


def _straight(before: tuple[float, float], here: tuple[float, float]) -> float:
    """Where a straight line through both is nought."""
    if before[1] == here[1]:
        return math.inf
    return here[0] - here[1] * (here[0] - before[0]) / (here[1] - before[1])
