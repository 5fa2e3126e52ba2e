"""Room left: how heavy one extra load at a place may grow before the first limit is met.

The answer is followed from slack event to slack event. On each piece pulls run straight, and the greatest moment and
sag are convex in the load, so a piece whose end is within the limits is within them all along; else the crossing is
closed in on from above, place by place, which ends after a few steps.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from counterpoise.errors import within
from counterpoise.statics.bend import Bent, Hung
from counterpoise.statics.grid import cut
from counterpoise.statics.hanging import Hanging, Tips
from counterpoise.statics.influence import Choice, Choices
from counterpoise.statics.model import Beam, Line, Load, PointLoad, check_loads
from counterpoise.statics.path import just_beyond
from counterpoise.statics.proof import Unproven
from counterpoise.statics.slack import TRIFLE, hang

Which = int | str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A limit on line pulls: the sum of coefficients times pulls, plus constant, stays at or below limit."""

    coefficients: tuple[float, ...]  # one for each line
    constant: float = 0.0  # [N]
    limit: float  # [N]

    def value(self, tensions: Sequence[float]) -> float:
        """The left-hand side [N]."""
        return self.constant + sum([c * t for c, t in zip(self.coefficients, tensions, strict=True)])


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What must hold. A limit left at None is not looked at, which the caller must say to the reader.

    Overhangs have no sag limit here: their moment is limited like any other, the drop of their tip is not.
    """

    rows: tuple[Row, ...] = ()
    moment: float | None = None  # |M| anywhere on the batten [N m]
    sag_ratio: float | None = None  # |sag| of each span between carrying lines / its length


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """The largest extra point load at x, for one load and not for several at once."""

    x: float  # [m]
    force: float  # [N]; 0 where a limit is broken already
    which: Which  # row counted from 0, "moment", "sag", "tips"; None: nothing limits up to the cap


def room_left(
    beam: Beam,
    lines: Sequence[Line],
    loads: Sequence[Load],
    limits: Limits,
    xs: Sequence[float],
    *,
    cap: float = 1.0e5,
) -> tuple[Room, ...]:
    """The largest extra point load at each x before the first limit is met, as the load grows from zero.

    Args:
        beam, lines, loads: as for hang.
        limits: what must hold.
        xs: places on the batten [m].
        cap: no load above this is looked at [N], above 0.

    Returns:
        A Room for each x. A heavier load may relieve a limit again; the first one met counts.

    Raises:
        OutOfRange: as hang, or a row without one coefficient for each line.
        Unproven: an answer did not stand its proof.
    """
    within("cap", cap, low=1.0e-6, high=1.0e12, unit="N", mend="Give the largest load worth asking about.")
    for row in limits.rows:
        mend = "Give one coefficient for each line."
        within("number of coefficients", len(row.coefficients), low=len(lines), high=len(lines), mend=mend)
    check_loads(beam, [PointLoad(x=x, force=0.0) for x in xs])
    now = hang(beam, lines, loads)
    broken: Which = "tips" if isinstance(now, Tips) else _broken(now, limits)
    if broken is not None or isinstance(now, Tips):
        return tuple(Room(x=x, force=0.0, which=broken) for x in xs)
    growth = _Growth(beam, lines, loads, limits, cap)
    return tuple(growth.room(x, now.carrying) for x in xs)


def _broken(now: Hanging, limits: Limits) -> Which:
    """A limit that is broken without any extra load."""
    for number, row in enumerate(limits.rows):
        if not row.value(now.tensions) <= row.limit:
            return number
    if limits.moment is not None and not abs(now.largest_moment[0]) <= limits.moment:
        return "moment"
    ratio = limits.sag_ratio
    if ratio is not None and any(not abs(sag) <= ratio * (end - start) for start, end, sag, _ in now.largest_sags):
        return "sag"
    return None


class _Growth:
    """A batten under one growing load, place after place; what is solved for one place serves the next."""

    def __init__(self, beam: Beam, lines: Sequence[Line], loads: Sequence[Load], limits: Limits, cap: float) -> None:
        self.beam, self.lines, self.loads, self.limits, self.cap = beam, lines, loads, limits, cap
        self.grid = cut(beam, lines, loads)
        self.choices = Choices(self.grid, lines)
        self.rows = [(row, [(i, c) for i, c in enumerate(row.coefficients) if c != 0.0]) for row in limits.rows]

    def room(self, x: float, carrying: tuple[int, ...]) -> Room:
        """Follow the load at x from zero to the first limit."""
        tips_at = self._tips_at(x)
        end = min(self.cap, tips_at)
        choice, start = self.choices.of(carrying), 0.0
        place = min(max(x, 0.0), self.beam.length)
        for _ in range(50 * len(self.lines)):
            added = choice.added(place)
            if choice.broken(added, just_beyond(start, end, self.grid.weight)):  # several lines change at once
                choice = self._beyond(place, start, end)
                added = choice.added(place)
            event, line = self._next_event(choice, added, start, end)
            force, which = self._first_met(choice, added, place, start, event)
            if which is not None or event >= end:
                if which is None and tips_at <= self.cap:
                    which = "tips"
                self._prove(choice, added, place, force)
                return Room(x=x, force=force, which=which)
            start = event
            changed = {*choice.carrying} ^ {line}
            choice = self.choices.of(tuple(sorted(changed))) if len(changed) > 1 else self._beyond(place, start, end)
        raise Unproven("the path of the growing load", start, end)

    def _tips_at(self, x: float) -> float:
        """The force at x that brings the centre of gravity over an outer line."""
        xs, at, weight, centre = self.grid.xs, self.grid.at, self.grid.weight, self.grid.centre
        first, last = xs[at[0]], xs[at[-1]]
        if x < first:
            return weight * max(0.0, centre - first) / (first - x)
        if x > last:
            return weight * max(0.0, last - centre) / (x - last)
        return math.inf

    def _beyond(self, x: float, start: float, end: float) -> Choice:
        beyond = just_beyond(start, end, self.grid.weight)
        answer = hang(self.beam, self.lines, [*self.loads, PointLoad(x=x, force=beyond)])
        if isinstance(answer, Tips):
            raise Unproven("the place where the batten tips", beyond, end)
        return self.choices.of(answer.carrying)

    def _next_event(self, choice: Choice, added: Sequence[float], start: float, end: float) -> tuple[float, int]:
        """The force at which a line goes slack or comes taut, and which; the end of the way if none does."""
        event, line, soon = end, -1, just_beyond(start, end, self.grid.weight)
        for i in choice.broken(added, end):  # only these change on the way; a drift of rounding is no event
            at_zero, growth = (choice.pulls[i], added[i]) if i in choice.carrying else (choice.gaps[i], -added[i])
            force = max(at_zero / -growth, soon) if growth < 0.0 else soon
            if force < event:
                event, line = force, i
        if event >= end * (1.0 - TRIFLE):  # the last line but one goes slack just as the batten tips
            return end, -1
        return event, line

    def _first_met(
        self, choice: Choice, added: Sequence[float], x: float, start: float, event: float
    ) -> tuple[float, Which]:
        """The force between start and event at which a limit is met first, and which; else the event."""
        force, which = self._row_met(choice, added, start, event)
        moment, ratio = self.limits.moment, self.limits.sag_ratio
        if moment is None and ratio is None:
            return force, which
        if start > 0.0 and ratio is not None and self._sags_at(choice, added, x, start, ratio):
            return start, "sag"  # a line went slack and two spans became one: its sag may start beyond the limit
        hung = Hung(choice.bend, x)
        for _ in range(60):
            bent = Bent(hung, choice.tensions(added, force), force)
            new = force
            if moment is not None:
                greatest, at = bent.greatest_moment()
                if abs(greatest) > moment * (1.0 + 1.0e-12):
                    standing = choice.field.moment(at)
                    new, which = _cross(standing, greatest, moment, force), "moment"
            for sag, where, span in bent.sags_beyond(ratio) if ratio is not None else ():
                allowed = (ratio or 0.0) * span
                if abs(sag) > allowed * (1.0 + 1.0e-12):
                    met = _cross(_standing_sag(choice, where), sag, allowed, force)
                    if met < new:
                        new, which = met, "sag"
            if new <= start:
                return start, which
            if new >= force * (1.0 - 1.0e-14):
                return force, which
            force = new
        raise Unproven("the force at which a limit is met", force, event)

    def _sags_at(self, choice: Choice, added: Sequence[float], x: float, force: float, ratio: float) -> bool:
        """Whether a span sags beyond the limit at this force."""
        bent = Bent(Hung(choice.bend, x), choice.tensions(added, force), force)
        return any(abs(sag) > ratio * span * (1.0 + 1.0e-9) for sag, _, span in bent.sags_beyond(ratio))

    def _row_met(self, choice: Choice, added: Sequence[float], start: float, event: float) -> tuple[float, Which]:
        if not self.limits.rows:
            return event, None
        force, which = event, None
        at_start, at_event = choice.tensions(added, start), choice.tensions(added, event)
        for number, (row, factors) in enumerate(self.rows):
            there = row.constant
            for i, factor in factors:
                there += factor * at_event[i]
            if there > row.limit:
                here = row.value(at_start)
                met = start
                if here < row.limit:
                    met += (event - start) * (row.limit - here) / (there - here)
                if which is None or met < force:
                    force, which = met, number
        return force, which

    def _prove(self, choice: Choice, added: Sequence[float], x: float, force: float) -> None:
        """The pulls at the force found are in equilibrium, none pushes, no slack line is stretched."""
        weight = self.grid.weight + force
        first = self.grid.weight * self.grid.centre + force * x
        choice.balance(choice.tensions(added, force), weight, first)


def _cross(standing: float, value: float, allowed: float, force: float) -> float:
    """The force at which a quantity that grows straight from `standing` at 0 to `value` at `force` is as allowed."""
    goal = math.copysign(allowed, value)
    return force * (goal - standing) / (value - standing)


def _standing_sag(choice: Choice, x: float) -> float:
    """Sag at x without the extra load, on the chord of this choice of lines."""
    xs, at, field = choice.grid.xs, choice.grid.at, choice.field
    for left, right in zip(choice.carrying, choice.carrying[1:], strict=False):
        a, b = xs[at[left]], xs[at[right]]
        if a <= x <= b:
            share = (x - a) / (b - a)
            return field.drop(x) - (1.0 - share) * field.drop(a) - share * field.drop(b)
    raise Unproven("a sag between two lines", x, 0.0)
