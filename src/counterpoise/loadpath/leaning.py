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
from counterpoise.loadpath.hangs import Hangs, Rope
from counterpoise.loadpath.loads import Loads
from counterpoise.rigging import RiggedBatten
from counterpoise.statics import Beam, Line, Run, Tips, pressed, rest_along

SETTLED = 1e-9  # of how far the runs lie apart
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
        """Both ends of where everything hangs free; where lines lean too far at high trim, low trim alone."""
        rigged = self._rigged
        if rigged.steep:
            return (rigged.low,)
        return (rigged.high,) if rigged.clear == rigged.high else (rigged.clear, rigged.high)

    def hang(self, lines: Sequence[Line], loads: Callable[[float], Loads]) -> tuple[Hangs, ...] | Tips:
        """The batten at rest at each of these heights, of which `loads` tells the loads. Raises Unproven."""
        low = self._rigged.low
        trimmed = self._settled(lines, loads(low), low, None)
        if isinstance(trimmed, Tips):
            return trimmed
        ropes = self._ropes(trimmed[0].drift)
        found = []
        for height in self.heights:
            one = trimmed if height == low else self._settled(lines, loads(height), height, ropes)
            if isinstance(one, Tips):
                return one
            found.append(self._told(*one, height))
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
        for width, toward in zip(widths, rigged.towards, strict=True):
            # of a rope that leaves the block level: two equal forces, and the sine of its lean toward the head block
            sine = width / math.hypot(width, drop)
            blocks.append(math.sqrt(max(0.0, 2.0 * (1.0 - toward * sine))))
        along = Along(height=height, drop=drop, drift=one.drift, widths=widths, lower=one.lower, blocks=tuple(blocks),
                      axial=axial, pressed=pressed(axial, rigged.beam) if isinstance(rigged.beam, Beam) else None,
                      is_settled=is_settled)  # fmt: skip
        return replace(one.hangs, along=along)


def _mean(runs: Sequence[float], pulls: Sequence[float]) -> float:
    return sum(run * pull for run, pull in zip(runs, pulls, strict=True)) / sum(pulls)


def _straight(before: tuple[float, float], here: tuple[float, float]) -> float:
    """Where a straight line through both is nought."""
    if before[1] == here[1]:
        return math.inf
    return here[0] - here[1] * (here[0] - before[0]) / (here[1] - before[1])
