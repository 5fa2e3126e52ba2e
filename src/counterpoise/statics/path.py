"""What happens to a hanging batten as one more load grows: straight pieces from slack event to slack event."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from counterpoise.errors import within
from counterpoise.statics.grid import Grid, Span, cut
from counterpoise.statics.hanging import Hanging, Tips, proven, settle
from counterpoise.statics.model import Beam, Line, Load, PointLoad, SpreadLoad, check_lines, check_loads
from counterpoise.statics.proof import Unproven
from counterpoise.statics.slack import TRIFLE, hang
from counterpoise.statics.three_moment import carry


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """From t0 to t1 the same lines carry, and every pull, gap, moment and deflection runs straight."""

    t0: float
    t1: float
    hanging0: Hanging
    hanging1: Hanging


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """The pieces in order; none where the batten tips from the start. Neighbouring pieces share their event."""

    pieces: tuple[Piece, ...]
    tips_at: float | None  # t at which the batten tips, if it does before the end


def follow(
    beam: Beam, lines: Sequence[Line], base_loads: Sequence[Load], extra_loads: Sequence[Load], upto: float
) -> Path:
    """Follow the batten under base_loads + t * extra_loads while t grows from 0 to `upto`.

    Args:
        beam, lines, base_loads: as for hang.
        extra_loads: loads at t = 1; together more than nothing.
        upto: end of the path, above 0.

    Returns:
        Path: the events (a line goes slack or comes taut) are solved for, not searched by steps.

    Raises:
        OutOfRange: as hang. Unproven: an answer did not stand its proof.
    """
    check_lines(beam, lines)
    check_loads(beam, base_loads)
    check_loads(beam, extra_loads)
    within("upto", upto, low=1.0e-12, high=1.0e12, mend="Follow the load over some way.")
    walk = Walk(beam, lines, base_loads, extra_loads)
    pieces = []
    end = min(upto, walk.tips_at)
    for t0, t1, carrying in walk.pieces(end):
        pieces.append(Piece(t0=t0, t1=t1, hanging0=walk.hanging(t0, carrying), hanging1=walk.hanging(t1, carrying)))
    return Path(pieces=tuple(pieces), tips_at=walk.tips_at if walk.tips_at < upto else None)


class Walk:
    """The same batten cut once, with the base loads and the extra loads apart."""

    def __init__(self, beam: Beam, lines: Sequence[Line], base: Sequence[Load], extra: Sequence[Load]) -> None:
        self.beam, self.lines, self.base, self.extra = beam, lines, base, extra
        self.level = [replace(line, offset=0.0) for line in lines]
        self.grid0 = cut(beam, lines, base, _places(beam, extra))
        self.grid1 = cut(beam, lines, extra, self.grid0.xs)
        within("total load", self.grid0.weight, low=1.0e-9, high=1.0e12, unit="N", mend="Give the batten's weight.")
        within("extra load", self.grid1.weight, low=1.0e-9, high=1.0e12, unit="N", mend="Give a load that grows.")
        self.known0: dict[tuple[int, int], Span] = {}
        self.known1: dict[tuple[int, int], Span] = {}
        self.give = 1.0e-3 * beam.length**3 / max(segment.stiffness for segment in beam.segments)  # [m/N]
        self.tips_at = tipping(self.grid0, self.grid1)

    def pieces(self, end: float) -> list[tuple[float, float, tuple[int, ...]]]:
        """Stretches of t and the lines that carry on each; empty where the batten tips from the start."""
        if end <= 0.0:
            return []
        found: list[tuple[float, float, tuple[int, ...]]] = []
        t, carrying = 0.0, self.carrying_after(0.0, end)
        for _ in range(50 * len(self.lines)):
            event = self.next_event(carrying, t, end)
            found.append((t, event, carrying))
            if event >= end:
                return found
            t, carrying = event, self.carrying_after(event, end)
        raise Unproven("the path of the growing load", float(len(found)), 50.0 * len(self.lines))

    def carrying_after(self, t: float, end: float) -> tuple[int, ...]:
        """Lines that carry just beyond t."""
        beyond = just_beyond(t, end, self.grid0.weight / self.grid1.weight)
        answer = hang(self.beam, self.lines, self.loads(beyond))
        if isinstance(answer, Tips):
            raise Unproven("the place where the batten tips", beyond, self.tips_at)
        return answer.carrying

    def next_event(self, carrying: tuple[int, ...], t: float, end: float) -> float:
        """The t at which the lines that carry change, or `end`."""
        pulls0, gaps0 = self.straight(self.grid0, self.lines, carrying, self.known0)
        pulls1, gaps1 = self.straight(self.grid1, self.level, carrying, self.known1)
        event, soon = end, just_beyond(t, end, self.grid0.weight / self.grid1.weight)
        weight = self.grid0.weight + end * self.grid1.weight
        no_push, no_stretch = -TRIFLE * weight, -TRIFLE * weight * self.give
        straight = [(p0, p1, no_push) for p0, p1 in zip(pulls0, pulls1, strict=True)]
        straight += [(g0, g1, no_stretch) for g0, g1 in zip(gaps0, gaps1, strict=True)]
        for at_zero, growth, rounding in straight:
            if growth < 0.0 and at_zero + end * growth < rounding:  # a drift of rounding is no event
                event = min(event, max(-at_zero / growth, soon))
        return end if event >= end * (1.0 - TRIFLE) else event  # the last line but one goes slack as the batten tips

    def straight(
        self, grid: Grid, lines: Sequence[Line], carrying: tuple[int, ...], known: dict[tuple[int, int], Span]
    ) -> tuple[list[float], list[float]]:
        """Pulls and gaps of one part of the load on a fixed choice of lines; either may come out negative."""
        carried = carry(grid, lines, carrying, known)
        _, gaps = settle(grid, lines, carried)
        return carried.pulls, gaps

    def loads(self, t: float) -> list[Load]:
        """The base loads and t times the extra loads."""
        return [*self.base, *(grown(load, t) for load in self.extra)]

    def hanging(self, t: float, carrying: tuple[int, ...]) -> Hanging:
        """The proven answer at t on these lines."""
        loads = self.loads(t)
        grid = cut(self.beam, self.lines, loads)
        carried = carry(grid, self.lines, carrying, {})
        return proven(grid, self.lines, loads, carried, *settle(grid, self.lines, carried))


def just_beyond(t: float, end: float, standing: float) -> float:
    """A t so little beyond that nothing happens in between, and yet enough to tell a change from rounding.

    Standing: the weight that stays, in units of the load that grows.
    """
    return t + min(0.5 * (end - t), 1.0e-9 * (standing + end))


def grown(load: Load, t: float) -> Load:
    """The same load t times as heavy."""
    if isinstance(load, PointLoad):
        return PointLoad(x=load.x, force=t * load.force)
    return SpreadLoad(start=load.start, end=load.end, per_length=t * load.per_length)


def tipping(base: Grid, extra: Grid) -> float:
    """The t at which the centre of gravity of base + t extra leaves the outer lines: 0 if outside from the start."""
    first, last = base.xs[base.at[0]], base.xs[base.at[-1]]
    slip = TRIFLE * base.xs[-1]
    if not first - slip <= base.centre <= last + slip:
        return 0.0
    if extra.centre < first:
        return base.weight * max(0.0, base.centre - first) / (extra.weight * (first - extra.centre))
    if extra.centre > last:
        return base.weight * max(0.0, last - base.centre) / (extra.weight * (extra.centre - last))
    return math.inf


def _places(beam: Beam, loads: Sequence[Load]) -> list[float]:
    found: list[float] = []
    for load in loads:
        ends = (load.x,) if isinstance(load, PointLoad) else (load.start, load.end)
        found.extend(min(max(x, 0.0), beam.length) for x in ends)
    return found
