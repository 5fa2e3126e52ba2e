"""Room left on a ladder truss: how heavy one extra load may grow before the first limit is met.

As for a batten (room.py): the way is followed from slack event to slack event. While the same lines carry, every pull,
moment and drop runs straight in the load, so the greatest stress and sag are convex in it: a piece whose end is within
is within all along; else the crossing is closed in on from above, place by place, which ends after a few steps.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from counterpoise.errors import within
from counterpoise.statics.field import Field
from counterpoise.statics.frame_field import Bent, bend
from counterpoise.statics.frame_loads import Loaded
from counterpoise.statics.hanger import Hanger
from counterpoise.statics.hanging import Tips
from counterpoise.statics.ladder import Bar, ChordLoads, Ladder, check_chord_loads
from counterpoise.statics.ladder_limits import LadderLimits, broken, use_of
from counterpoise.statics.model import ROUNDING, Line, PointLoad
from counterpoise.statics.path import just_beyond
from counterpoise.statics.proof import Unproven
from counterpoise.statics.room import Room, Which
from counterpoise.statics.slack import TRIFLE

CLOSE = 1.0e-7  # of the load: how near the pulls at the load found come to those of a fresh solution


def room_on_ladder(
    ladder: Ladder,
    lines: Sequence[Line],
    loads: ChordLoads,
    limits: LadderLimits,
    xs: Sequence[float],
    *,
    on_top: bool = False,
    cap: float = 1.0e5,
) -> tuple[Room, ...]:
    """The largest extra point load at each x before the first limit is met, as the load grows from zero.

    Args:
        ladder, lines, loads: as for hang_ladder.
        limits: what must hold.
        xs: places on the truss [m].
        on_top: whether the extra load hangs on the top chord; else on the bottom chord.
        cap: no load above this is looked at [N], above 0.

    Returns:
        A Room for each x; its `which` is a row counted from 0, "top chord", "bottom chord", "spacer", "sag", "tips", or
        None. A heavier load may relieve a limit again; the first one met counts.

    Raises:
        OutOfRange: as hang_ladder, or a row without one coefficient for each line.
        Unproven: an answer did not stand its proof.
    """
    within("cap", cap, low=1.0e-6, high=1.0e12, unit="N", mend="Give the largest load worth asking about.")
    for row in limits.rows:
        mend = "Give one coefficient for each line."
        within("number of coefficients", len(row.coefficients), low=len(lines), high=len(lines), mend=mend)
    for x in xs:
        within("x", x, low=-ROUNDING, high=ladder.length + ROUNDING, unit="m", mend="Ask for a place on the truss.")
    hanger = Hanger(ladder, [line.x for line in lines])
    now = hanger.hang(lines, loads)
    if isinstance(now, Tips):
        return tuple(Room(x=x, force=0.0, which="tips") for x in xs)
    over = broken(now, limits)
    if over is not None:
        return tuple(Room(x=x, force=0.0, which=over) for x in xs)
    growth = _Growth(hanger, lines, loads, limits, on_top)
    return tuple(growth.room(min(max(x, 0.0), ladder.length), now.carrying, cap) for x in xs)


@dataclass(frozen=True, slots=True)
class _Piece:
    """One choice of carrying lines: what stands, and what each newton of the extra load adds."""

    carrying: tuple[int, ...]
    pulls: tuple[list[float], list[float]]  # of every line [N]
    gaps: tuple[list[float], list[float]]  # [m]
    give: tuple[float, float]  # size of drops [m]
    bent: tuple[Bent, Bent]

    def tensions(self, force: float) -> list[float]:
        """Pull of every line with the extra load [N]."""
        return [max(a + force * b, 0.0) for a, b in zip(*self.pulls, strict=True)]


class _Growth:
    """A truss under one growing load, place after place."""

    def __init__(
        self, hanger: Hanger, lines: Sequence[Line], loads: ChordLoads, limits: LadderLimits, on_top: bool
    ) -> None:
        self.hanger, self.lines, self.loads, self.limits, self.on_top = hanger, lines, loads, limits, on_top
        check_chord_loads(hanger.ladder, loads)
        self.level = [replace(line, offset=0.0) for line in lines]
        self.standing = hanger.condensed.loaded(loads)
        frame = hanger.condensed.frame
        self.ends = sorted({0.0, frame.xs[-1], *(frame.xs[m] for m in frame.joints)})  # of the stretches of a chord

    def room(self, x: float, carrying: tuple[int, ...], cap: float) -> Room:
        """Follow the load at x from zero to the first limit."""
        tips_at = self._tips_at(x)
        end, start = min(cap, tips_at), 0.0
        extra = self.hanger.condensed.loaded(self._with(ChordLoads(), x, 1.0))
        for _ in range(50 * len(self.lines)):
            piece = self._piece(extra, carrying, x)
            if end > 0.0 and not self._holds(piece, just_beyond(start, end, self.standing.weight)):
                piece = self._piece(extra, self._after(x, start, end), x)  # several lines change at once
            event = self._next_event(piece, start, end)
            force, which = self._first_met(piece, start, event)
            if which is not None or event >= end:
                if which is None and tips_at <= cap:
                    which = "tips"
                self._prove(piece, x, force)
                return Room(x=x, force=force, which=which)
            start = event
            carrying = self._after(x, start, end)
        raise Unproven("the path of the growing load", start, end)

    def _with(self, loads: ChordLoads, x: float, force: float) -> ChordLoads:
        load = PointLoad(x=x, force=force)
        if self.on_top:
            return replace(loads, top=(*loads.top, load))
        return replace(loads, bottom=(*loads.bottom, load))

    def _tips_at(self, x: float) -> float:
        """The force at x that brings the centre of gravity over an outer line."""
        first, last = self.hanger.condensed.xs[0], self.hanger.condensed.xs[-1]
        weight, centre = self.standing.weight, self.standing.centre
        if x < first:
            return weight * max(0.0, centre - first) / (first - x)
        if x > last:
            return weight * max(0.0, last - centre) / (x - last)
        return math.inf

    def _after(self, x: float, start: float, end: float) -> tuple[int, ...]:
        """Lines that carry just beyond a force."""
        beyond = just_beyond(start, end, self.standing.weight)
        answer = self.hanger.hang(self.lines, self._with(self.loads, x, beyond))
        if isinstance(answer, Tips):
            raise Unproven("the place where the truss tips", beyond, end)
        return answer.carrying

    def _piece(self, extra: Loaded, carrying: tuple[int, ...], x: float) -> _Piece:
        condensed = self.hanger.condensed
        stands = condensed.carry(self.lines, self.standing, carrying)
        adds = condensed.carry(self.level, extra, carrying)
        gaps0, give0 = condensed.gaps(self.lines, self.standing, stands)
        gaps1, give1 = condensed.gaps(self.level, extra, adds)
        bent0 = bend(condensed, self.lines, self.standing, stands, [x])
        bent1 = bend(condensed, self.level, extra, adds, bent0.top.xs)
        return _Piece(carrying, (stands.tensions, adds.tensions), (gaps0, gaps1), (give0, give1), (bent0, bent1))

    def _straight(self, piece: _Piece, end: float) -> list[tuple[float, float, float]]:
        """What must not fall below nothing on this piece: now, per newton, and what is rounding up to `end`."""
        no_push = -TRIFLE * (self.standing.weight + end)
        no_stretch = -TRIFLE * (piece.give[0] + end * piece.give[1])
        found = []
        for i in range(len(self.lines)):
            if i in piece.carrying:
                found.append((piece.pulls[0][i], piece.pulls[1][i], no_push))
            else:
                found.append((piece.gaps[0][i], piece.gaps[1][i], no_stretch))
        return found

    def _holds(self, piece: _Piece, force: float) -> bool:
        """Whether no line pushes and no slack line is stretched."""
        return all(now + force * more >= rounding for now, more, rounding in self._straight(piece, force))

    def _next_event(self, piece: _Piece, start: float, end: float) -> float:
        """The force at which a line goes slack or comes taut, or the end."""
        event, soon = end, just_beyond(start, end, self.standing.weight)
        for at_zero, growth, rounding in self._straight(piece, end):
            if growth < 0.0 and at_zero + end * growth < rounding:  # a drift of rounding is no event
                event = min(event, max(-at_zero / growth, soon))
        return end if event >= end * (1.0 - TRIFLE) else event

    def _first_met(self, piece: _Piece, start: float, event: float) -> tuple[float, Which]:
        """The force between start and event at which a limit is met first, and which; else the event."""
        force, which = self._row_met(piece, start, event)
        ratio = self.limits.sag_ratio
        if start > 0.0 and ratio and any(value > 1.0 + 1.0e-9 for value, _, _ in self._sags(ratio, piece, start)):
            return start, "sag"  # a line went slack and two spans became one: its sag may start beyond the limit
        for _ in range(60):
            new, met = force, which
            for value, stands, name in self._uses(piece, force):
                if value > 1.0 + 1.0e-12:
                    crossing = force * (1.0 - stands) / (value - stands)
                    if crossing < new:
                        new, met = crossing, name
            if new <= start:
                return start, met
            which = met
            if new >= force * (1.0 - 1.0e-14):
                return force, which
            force = new
        raise Unproven("the force at which a limit is met", force, event)

    def _row_met(self, piece: _Piece, start: float, event: float) -> tuple[float, Which]:
        force, which = event, None  # type: float, Which
        here, there = piece.tensions(start), piece.tensions(event)
        for number, row in enumerate(self.limits.rows):
            low, high = row.value(here), row.value(there)
            if low > row.limit:
                return start, number
            if high > row.limit:
                met = start + (event - start) * (row.limit - low) / (high - low)
                if which is None or met < force:
                    force, which = met, number
        return force, which

    def _uses(self, piece: _Piece, force: float) -> Iterator[tuple[float, float, str]]:
        """For each stretch, spacer and span: what is used of its limit, the same at the same place unloaded, its name.

        Unloaded: without the extra load, the same lines carrying, with the signs it has under the load.
        """
        ladder, limits, (stands, adds) = self.hanger.ladder, self.limits, piece.bent
        if limits.top_stress is not None:
            pair = stands.top, adds.top
            yield from self._chord("top chord", ladder.top, limits.top_stress, pair, piece, force, -1.0)
        if limits.bottom_stress is not None:
            pair = stands.bottom, adds.bottom
            yield from self._chord("bottom chord", ladder.bottom, limits.bottom_stress, pair, piece, force, 1.0)
        if limits.spacer_stress is not None:
            allowed = limits.spacer_stress
            for one, more in zip(stands.spacers, adds.spacers, strict=True):
                axial = (one.axial, one.axial + force * more.axial)
                for m0, m1 in ((one.foot, more.foot), (one.head, more.head)):
                    yield use_of(ladder.spacer, allowed, axial, (m0, m0 + force * m1), "spacer")
        if limits.sag_ratio is not None:
            yield from self._sags(limits.sag_ratio, piece, force)

    def _chord(
        self,
        name: str,
        bar: Bar,
        allowed: float,
        pair: tuple[Field, Field],
        piece: _Piece,
        force: float,
        sign: float,
    ) -> Iterator[tuple[float, float, str]]:
        """The most used place of each stretch of a chord."""
        (stands, adds), (bent0, bent1) = pair, piece.bent
        area, modulus = bar.section.area, bar.section.elastic_modulus
        stretch, worst, at = -1, -1.0, 0.0
        push = resting = 0.0
        for c, (x, w, h) in enumerate(zip(stands.xs, stands.ws, stands.hs, strict=False)):
            if stretch < 0 or x >= self.ends[stretch + 1]:
                if stretch >= 0:
                    yield worst / allowed, at / allowed, name
                stretch, worst = stretch + 1, -1.0
                resting = sign * bent0.axial[stretch] / area
                push = resting + force * sign * bent1.axial[stretch] / area
                resting = resting if push >= 0.0 else -resting
            m0, v0 = stands.moments[c], stands.shears[c]
            m, v = m0 + force * adds.moments[c], v0 + force * adds.shears[c]
            places = (0.0, v / w, h) if 0.0 < v < w * h else (0.0, h)
            for t in places:
                moment = m + t * (v - 0.5 * w * t)
                stress = abs(push) + abs(moment) / modulus
                if stress > worst:
                    standing = (m0 + t * (v0 - 0.5 * w * t)) / modulus
                    worst, at = stress, resting + (standing if moment >= 0.0 else -standing)
        yield worst / allowed, at / allowed, name

    def _sags(self, ratio: float, piece: _Piece, force: float) -> Iterator[tuple[float, float, str]]:
        """The sag of both chords in each span between carrying lines."""
        places = self.hanger.condensed.xs
        stands, adds = piece.bent
        for one, more in ((stands.top, adds.top), (stands.bottom, adds.bottom)):
            field = replace(
                one,
                moments=_sum(one.moments, more.moments, force),
                shears=_sum(one.shears, more.shears, force),
                slopes=_sum(one.slopes, more.slopes, force),
                drops=_sum(one.drops, more.drops, force),
            )
            for left, right in zip(piece.carrying, piece.carrying[1:], strict=False):
                start, end = places[left], places[right]
                sag, at = field.greatest_sag(field.xs.index(start), field.xs.index(end))
                share = (at - start) / (end - start)
                standing = one.drop(at) - (1.0 - share) * one.drop(start) - share * one.drop(end)
                allowed = ratio * (end - start)
                yield abs(sag) / allowed, math.copysign(standing / allowed, standing * sag), "sag"

    def _prove(self, piece: _Piece, x: float, force: float) -> None:
        """The pulls at the force found are those of a fresh, proven solution."""
        answer = self.hanger.hang(self.lines, self._with(self.loads, x, force))
        weight = self.standing.weight + force
        if isinstance(answer, Tips):
            raise Unproven("the place where the truss tips", force, weight)
        for ours, fresh in zip(piece.tensions(force), answer.tensions, strict=True):
            if not abs(ours - fresh) <= CLOSE * weight:
                raise Unproven("pulls found in two ways", abs(ours - fresh), CLOSE * weight)


def _sum(one: Sequence[float], more: Sequence[float], force: float) -> list[float]:
    return [a + force * b for a, b in zip(one, more, strict=True)]
