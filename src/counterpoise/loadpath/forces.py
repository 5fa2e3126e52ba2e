"""Line forces of one set from what hangs on it, with the range that weights and trims not known exactly bring."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING

from counterpoise.balance import Span
from counterpoise.loadpath.corners import MOST_CORNERS, between, corner_count, corners_of, heights_of
from counterpoise.loadpath.hangs import Hangs, Rope
from counterpoise.loadpath.loads import Loads, loads_of
from counterpoise.rigging import RiggedBatten
from counterpoise.statics import Beam, Tips

if TYPE_CHECKING:
    from counterpoise.loadpath.sought import Sought

NOTHING = Span(0.0, 0.0, 0.0)
MAY_BUCKLE = "its lines lean and press it along by as much as may buckle it between them"
PARTS = 3  # of each stretch of the travel on which what hangs of a cable runs straight
ALONG = 1e-3  # of what hangs: what leaning lines pull along a truss or a ladder counts above that


@dataclass(frozen=True, slots=True)
class Forces:
    """The batten at the best figures, at corners of what is in doubt, and, where lines go slack between, the extremes.

    While the same lines carry at every corner, everything runs straight in between and the corners are the extremes.
    Where they do not, `sought` holds those that were sought for. `unproven` says why a limit is not proven, else "".

    Where lines lean, or cable hangs on it, it hangs otherwise at each height: `best` is as it does at high trim,
    `elsewhere` at the other heights that are looked at, and the larger of them counts.
    """

    best: Hangs
    corners: tuple[Hangs, ...]
    sought: tuple[Sought, ...] = ()
    unproven: str = ""
    elsewhere: tuple[Hangs, ...] = ()  # at the best figures too

    def span(self, coefficients: Sequence[float], constant: Span = NOTHING, *, vertical: bool = False) -> Span:
        """Σ c·T + constant [N]; `vertical` of what hangs on the lines instead of the pulls in them."""
        sums = [_sum(coefficients, one.verticals if vertical else one.tensions) for one in self.corners]
        low, high = min(sums), max(sums)
        if len(set(coefficients)) == 1:  # the whole weight, whatever lines share it; of ropes that lean more than that
            most = [] if vertical else [coefficients[0] * one.all_high for one in self.sought]
            high = max([high, *most])
        else:
            for one in self.sought:
                low = min(low, _sum(coefficients, one.low))
                high = max(high, _sum(coefficients, one.high))
        best = max(_sum(coefficients, one.verticals if vertical else one.tensions) for one in self.bests)
        return Span(low + constant.low, best + constant.best, high + constant.high)

    @property
    def bests(self) -> tuple[Hangs, ...]:
        """How it hangs at the best figures, at each height that is looked at."""
        return (self.best, *self.elsewhere)

    def at_most(self, coefficients: Sequence[float], *, vertical: bool = False) -> Hangs:
        """Of how it hangs at the best figures, where that sum is largest."""
        return max(self.bests, key=lambda one: _sum(coefficients, one.verticals if vertical else one.tensions))

    def stressed_most(self, *, amplified: bool) -> Hangs:
        """Of how it hangs at the best figures, where its largest stress is; `amplified` by what presses it."""
        return max(self.bests, key=lambda one: one.stress_when_pressed if amplified else one.stress)

    def stressed_most_at(self, x: float, *, amplified: bool) -> Hangs:
        """The same of the stress at one place of a pipe."""
        return max(self.bests, key=lambda one: one.stress_at_when_pressed(x) if amplified else one.stress_at(x))

    def turns(self, i: int) -> tuple[float, float] | None:
        """Where its lines lean, what line i (from 0) puts on its loft block per pull in it, least and most."""
        found = [turn for one in self.corners if one.along is not None for turn in one.along.blocks[i]]
        found += [turn for one in self.sought if one.turns for turn in one.turns[i]]
        return (min(found), max(found)) if found else None

    def aside(self, i: int) -> float:
        """What a rope that leans pulls aside at most, per pull in line i (from 0); 0 of a plumb one."""
        found = [one.along.sine(i) for one in self.corners if one.along is not None]
        return max([0.0, *found, *(one.aside for one in self.sought)])

    @property
    def pressed(self) -> str:
        """Why no stress or sag of a batten whose lines lean is within; "" where that is computed."""
        may = MAY_BUCKLE if any(one.may_buckle for one in self.sought) else ""
        return next((why for one in self.corners if (why := _not_pressed(one))), may)

    @property
    def tensions(self) -> tuple[Span, ...]:
        """The pull in each line just above the batten [N]."""
        count = len(self.best.tensions)
        return tuple(self.span([float(i == j) for j in range(count)]) for i in range(count))

    @property
    def verticals(self) -> tuple[Span, ...]:
        """What hangs on each line [N]."""
        count = len(self.best.verticals)
        return tuple(self.span([float(i == j) for j in range(count)], vertical=True) for i in range(count))

    @property
    def stress(self) -> Span:
        """The largest stress [Pa]; the most with what presses it, which makes it bend more by no more than that."""
        sizes = [one.stress for one in self.corners]
        most = sizes if self.best.along is None else [one.stress_when_pressed for one in self.corners]
        best = max(one.stress for one in self.bests)
        return Span(min(sizes), best, max([*most, *(one.stress for one in self.sought)]))

    @property
    def moment(self) -> Span:
        """The largest bending moment, without sign [N m]; of a batten that is one beam."""
        sizes = [one.largest_moment for one in self.corners]
        best = max(one.largest_moment for one in self.bests)
        return Span(min(sizes), best, max([*sizes, *(one.moment for one in self.sought)]))

    @property
    def shear(self) -> Span:
        """The largest shear, without sign [N]; of a batten that is one beam."""
        sizes = [one.largest_shear for one in self.corners]
        return Span(min(sizes), max(one.largest_shear for one in self.bests), max(sizes))

    @property
    def sag(self) -> Span:
        """The largest sag as a share of its span."""
        ratios = [_sag(one) for one in self.corners]
        most = [_grown(one, ratio) for one, ratio in zip(self.corners, ratios, strict=True)]
        best = max(map(_sag, self.bests))
        return Span(min(ratios), best, max([*most, *(one.sag_ratio for one in self.sought)]))

    @property
    def sags_most(self) -> tuple[float, float]:
        """The span that sags most for its length at the best figures [m]."""
        worst = max(self.bests, key=_sag)
        start, end, *_ = max(worst.largest_sags, key=lambda sag: abs(sag[2]) / (sag[1] - sag[0]))
        return start, end

    @property
    def tip(self) -> tuple[float, Span] | None:
        """The drop of a tip as a share of its overhang, and how far the one that drops most reaches [m]; None: no tip.

        What a tip does is not sought between corners: with `sought` it is the worst of those that were looked at.
        """
        states = (*self.bests, *self.corners)
        found = [_tip(one) for one in states]
        if not any(reach for reach, _ in found):
            return None
        reach, best = max(found[: len(self.bests)], key=lambda tip: tip[1])
        ratios = [ratio for _, ratio in found]
        most = [_grown(one, _tip(one, when_stretched=True)[1]) for one in states]
        return reach or max(each for each, _ in found), Span(min(ratios), best, max(most))

    def stress_at(self, x: float) -> Span:
        """The stress at one place [Pa]; of pipe. Between corners with other slack lines the greatest counts."""
        sizes = [one.stress_at(x) for one in self.corners]
        most = sizes if self.best.along is None else [one.stress_at_when_pressed(x) for one in self.corners]
        best = max(one.stress_at(x) for one in self.bests)
        return Span(min(sizes), best, max([*most, *([self.stress.high] if self.sought else [])]))


def _sum(coefficients: Sequence[float], tensions: Sequence[float]) -> float:
    return sum(c * t for c, t in zip(coefficients, tensions, strict=True))


def _sag(one: Hangs) -> float:
    return max((abs(sag) / (end - start) for start, end, sag, _ in one.largest_sags), default=0.0)


def _grown(one: Hangs, ratio: float) -> float:
    """A drop as a share, grown by what presses the batten, as far as that has a figure."""
    much = 1.0 if one.along is None else one.along.bent_more
    return ratio * much if math.isfinite(much) else ratio


def _not_pressed(one: Hangs) -> str:
    if one.along is None:
        return ""
    if not one.made.stretches or not isinstance(one.made.beam, Beam):
        many = "a truss" if not one.made.stretches else "a ladder"
        counts = one.along.push > ALONG * sum(one.verticals)
        return f"its lines lean, and what they pull along {many} is not computed" if counts else ""
    return "" if math.isfinite(one.along.bent_more) else MAY_BUCKLE


def _tip(one: Hangs, *, when_stretched: bool = False) -> tuple[float, float]:
    """How far the end reaches whose tip drops the most of that, and the share; a tip that rises drops nothing.

    A pull along the batten straightens the span beside it, which then lifts the tip by less: `when_stretched`.
    """
    tips = one.tips_when_stretched if when_stretched else one.tips
    shares = [(reach, max(0.0, drop) / reach) for reach, drop in tips]
    return max(shares, key=lambda tip: (tip[1], tip[0]), default=(0.0, 0.0))  # of two alike the longer


@dataclass(frozen=True, slots=True)
class Tipping:
    """An answer, not an error: the centre of gravity lies outside the outer lines.

    It is certain where the best figures tip, and not where only a part of what is in doubt does.
    """

    tips: Tips
    is_certain: bool = True


def forces_of(rigged: RiggedBatten) -> Forces | Tipping:
    """Line forces with everything hung and free of the deck. Raises Unproven where statics cannot prove its answer."""
    if rigged.runs:
        return _leaning(rigged)
    rope = Rope(rigged)
    best = rope.hang(rigged.lines, loads_of(rigged))
    if isinstance(best, Tips):
        return Tipping(best)
    corners, elsewhere = [best], list[Hangs]()
    for height in heights_of(rigged)[:-1]:
        one = rope.hang(rigged.lines, loads_of(rigged, height=height))
        if isinstance(one, Tips):
            return Tipping(one)
        elsewhere.append(one)
    for which, wires, bare, height, lines in corners_of(rigged):
        one = rope.hang(lines, loads_of(rigged, which, bare, height, wires))
        if isinstance(one, Tips):
            return Tipping(one, is_certain=False)
        corners.append(one)
    whole = corner_count(rigged) <= MOST_CORNERS
    if whole and len({one.carrying for one in corners}) == 1:
        return Forces(best, tuple(corners), elsewhere=tuple(elsewhere))
    return _sought(rigged, rope, Forces(best, tuple(corners), elsewhere=tuple(elsewhere)))


def _leaning(rigged: RiggedBatten) -> Forces | Tipping:
    """Where lines lean: each choice of what is in doubt at each height looked at, with the drift it hangs at there.

    With the same lines carrying everywhere, what a line pulls runs straight in what is in doubt but for the drift, a
    quotient that is least and most at corners; what it bends off between them is of second order, and not looked at.
    Where not the same lines carry, or there are too many corners, the extremes are sought; of a batten of which nothing
    is in doubt at many heights and at those where a line goes slack.
    """
    from counterpoise.loadpath.leaning import Leaning

    rope = Leaning(rigged)
    certain = None, None, None, rigged.lines
    is_certain = corner_count(rigged) == 1
    found = list[tuple[Hangs, ...]]()
    for which, wires, bare, lines in (certain, *((a, b, c, e) for a, b, c, _, e in corners_of(rigged))):
        one = rope.hang(lines, partial(_loads_at, rigged, which, bare, wires))
        if isinstance(one, Tips):
            return Tipping(one, is_certain=not found)
        found.append(one)
    if is_certain and len({one.carrying for one in found[0]}) > 1:
        close = rope.hang(rigged.lines, partial(_loads_at, rigged, None, None, None), closely=True)
        if isinstance(close, Tips):
            return Tipping(close)
        found = [close]
    *elsewhere, best = found[0]
    corners = tuple(each for one in found for each in one)
    unproven = _unproven(rigged, corners)
    is_whole = corner_count(rigged) <= MOST_CORNERS and len({one.carrying for one in corners}) == 1
    if not (is_whole or is_certain) and rigged.cables:
        unproven = unproven or "its lines lean, cable hangs on it, and lines go slack in part of what is in doubt"
    if is_whole or is_certain or unproven:
        return Forces(best, corners, unproven=unproven, elsewhere=tuple(elsewhere))
    from counterpoise.loadpath.leaning_range import seek_leaning

    sought = seek_leaning(rigged)
    if isinstance(sought, Tips):
        return Tipping(sought)
    if sought.tips is not None:
        return Tipping(sought.tips, is_certain=False)
    return Forces(best, corners, (sought,), sought.unproven, tuple(elsewhere))


def _loads_at(
    rigged: RiggedBatten, which: Sequence[int] | None, bare: Sequence[int] | None, wires: Sequence[int] | None,
    height: float,
) -> Loads:  # fmt: skip
    return loads_of(rigged, which, bare, height, wires)


def _unproven(rigged: RiggedBatten, corners: Sequence[Hangs]) -> str:
    """Why what was found where lines lean is not the worst; "" where it is."""
    if rigged.steep:
        return f"line {rigged.steep} leans by more than 3 in 10 at high trim: what that does is not computed"
    if not all(one.along is not None and one.along.is_settled for one in corners):
        return "its lines lean, and where the batten drifts to was not found"
    return ""


def _sought(rigged: RiggedBatten, rope: Rope, known: Forces) -> Forces | Tipping:
    """The extremes where the corners do not give them: lines go slack between, or there are too many corners.

    With cable, at heights between as well: what hangs of it runs straight there, and a line may go slack on the way.
    """
    from counterpoise.loadpath.sought import seek

    found = []
    for height in between(heights_of(rigged), PARTS):
        one = seek(rigged, rope, height)
        if isinstance(one, Tips):
            return Tipping(one)
        if one.tips is not None:
            return Tipping(one.tips, is_certain=False)
        found.append(one)
    unproven = next((one.unproven for one in found if one.unproven), "")
    return replace(known, sought=tuple(found), unproven=unproven)
