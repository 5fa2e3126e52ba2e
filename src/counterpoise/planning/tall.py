"""Tall pieces: the counts to put on at each window of reach, so that the set is out of balance as little as can be.

Where nothing stays within the lock this still says what is least bad; what must hold it then is told in `needed`.
Judges nothing and says nothing.
"""

from __future__ import annotations

import bisect
import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from counterpoise.balance import fits
from counterpoise.planning.felt import Felt, Hop
from counterpoise.planning.holds import NEAR, Pull
from counterpoise.planning.windows import (
    Station,
    count_of,
    joins_of,
    places,
    stack_of,
    stations_of,
    tied_at,
    wanted_on,
    windows_of,
)
from counterpoise.rigging import RiggedBridge, RiggedHouse, RiggedSet

_ROUNDING = 1e-6  # [N]
_INFINITE = float("inf")


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """Bricks changed at one stop: which one of the way's stations, from how many to how many, and by whom."""

    station: int
    before: int
    after: int
    place: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """The way from one change to the next with one count: heights [m], and the most either side is heavy [N].

    Moves are judged as if no stop existed; what only stands there, as a stop holds it. `is_within` says that the lock
    and the stops hold all of it.
    """

    bricks: int
    start: float
    end: float
    arbor: Pull
    batten: Pull
    is_within: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class TallWay:
    """A way out: its stops, the changes made at some of them, the height it ends at [m] and the legs between."""

    stations: tuple[Station, ...]
    changes: tuple[Change, ...]
    legs: tuple[Leg, ...]
    goal: float
    bricks: int

    @property
    def peak(self) -> float:
        """The largest out of balance beyond what lock and stops hold [N], 0 where they hold all of it."""
        return max((max(one.arbor.arbor, one.batten.batten) for one in self.legs if not one.is_within), default=0.0)


@dataclass(frozen=True, slots=True, order=True)
class _Cost:
    """What is least: each leg's peak beyond the lock, the worst first; changes; bricks handled; stops; any peak."""

    beyond: tuple[float, ...] = ()
    changes: int = 0
    handled: int = 0
    stops: int = 0
    peak: float = 0.0

    def past(self, beyond: float, peak: float) -> _Cost:
        """After one leg more."""
        worse = self.beyond
        if beyond:
            at = bisect.bisect_right(worse, -beyond, key=lambda each: -each)
            worse = (*worse[:at], beyond, *worse[at:])
        return _Cost(worse, self.changes, self.handled, self.stops, max(self.peak, peak))

    def changing(self, bricks: int, *, extra_stop: bool) -> _Cost:
        """After one change more."""
        return _Cost(self.beyond, self.changes + 1, self.handled + bricks, self.stops + extra_stop, self.peak)


_Node = tuple[int, int]  # station, bricks


def find_tall_way(house: RiggedHouse, rigged: RiggedSet, crew: Sequence[RiggedBridge] | None = None) -> TallWay | None:
    """The way that is out of balance least, by dynamic programming over stops and counts; None where there is none.

    Least is: the legs beyond what lock and stops hold compared worst first; then the count nearest the wanted one; then
    changes; then bricks handled. Within the lock all legs are alike. Every way ends within the lock and with everything
    on. None where the bridges do not reach, the stack does not fit, or a section joins above the travel.
    """
    return _Search(house, rigged, places(house) if crew is None else crew).best()


class _Search:
    """One search over stations and counts; holds what was worked out once."""

    def __init__(self, house: RiggedHouse, rigged: RiggedSet, crew: Sequence[RiggedBridge]) -> None:
        self.house, self.rigged, self.crew = house, rigged, tuple(crew)
        self.felt = Felt(house, rigged)
        self.want = count_of(rigged, wanted_on(rigged))
        self.goal, self.most = tall_goal(rigged), self._most_bricks()
        self.windows = {one.name: windows_of(rigged, one, self.most) for one in self.crew}
        self.stations = stations_of(rigged, self.windows.values(), self.goal)
        self.last = max((k for k, one in enumerate(self.stations) if one.is_event or one.height <= self.goal + NEAR),
                        default=0)  # fmt: skip
        self.hops: dict[tuple[int, int], Hop] = {}
        self.backs: dict[tuple[int, int], Hop] = {}
        self.runs = [tuple(self._runs(one.height)) if one.hung else () for one in self.stations]

    def best(self) -> TallWay | None:
        if any(one.height > self.rigged.high for one in joins_of(self.rigged)):
            return None
        least = self._least_peak()
        return None if least == _INFINITE else self._way(least + _ROUNDING)

    # --- the least peak: which counts need no further look ---------------------------------------------------------

    def _least_peak(self) -> float:
        """The least largest leg beyond the lock of all ways, by one pass over the stations."""
        found, least = {self.rigged.pipe_bricks: 0.0}, _INFINITE
        for k in range(len(self.stations)):
            if k:
                found = {bricks: max(peak, self._hop(k, bricks).beyond) for bricks, peak in found.items()}
            found = self._changed(found, k)
            if k >= self.last:
                ends = (max(peak, self._back(k, bricks).beyond) for bricks, peak in found.items()
                        if self._may_end(bricks))  # fmt: skip
                least = min([least, *ends])
        return least

    def _changed(self, found: Mapping[int, float], k: int) -> dict[int, float]:
        after = dict(found)
        for low, high in self._merged(k):
            peak = min((found[bricks] for bricks in range(low, high + 1) if bricks in found), default=_INFINITE)
            for bricks in range(low, high + 1) if peak < _INFINITE else ():
                after[bricks] = min(peak, after.get(bricks, _INFINITE))
        return after

    def _merged(self, k: int) -> Iterator[tuple[int, int]]:
        """Counts that can be reached from one another at a station, by any of the crews there."""
        low, high = -1, -2
        for start, end, _ in sorted(self.runs[k]):
            if start > high:
                if high >= low:
                    yield low, high
                low, high = start, end
            high = max(high, end)
        if high >= low:
            yield low, high

    # --- the way ---------------------------------------------------------------------------------------------------

    def _way(self, most: float) -> TallWay:
        start: _Node = (0, self.rigged.pipe_bricks)
        costs: dict[_Node, _Cost] = {start: _Cost()}
        came: dict[_Node, tuple[_Node, int, str]] = {}
        ends: dict[_Node, tuple[_Cost, int]] = {}
        self._change(costs, came, start, 0, _Cost())
        for k in range(len(self.stations)):
            for _ in self.runs[k][1:]:  # where more crews than one reach, a count may pass from one to the other
                for node in [each for each in costs if each[0] == k]:
                    self._change(costs, came, node, k, costs[node])
            for node in [each for each in costs if each[0] == k]:
                self._leave(costs, came, ends, node, most)
        node = min(ends, key=lambda each: (ends[each][0].beyond, abs(each[1] - self.want), ends[each][0]))
        return self._told(came, node, ends[node][1])

    def _leave(
        self, costs: dict[_Node, _Cost], came: dict[_Node, tuple[_Node, int, str]],
        ends: dict[_Node, tuple[_Cost, int]], node: _Node, most: float,
    ) -> None:  # fmt: skip
        """Every later station at which a count may be changed, as far as the peak allows; and every end."""
        (k, bricks), leg = node, None
        for at in range(k, len(self.stations)):
            if at > k:
                hop = self._hop(at, bricks)
                leg = hop if leg is None else leg.then(hop)
                if leg.beyond > most:
                    return
                self._change(costs, came, node, at, costs[node].past(round(leg.beyond, 3), leg.peak))
            if at >= self.last and self._may_end(bricks):
                back = self._back(at, bricks)
                whole = back if leg is None else leg.then(back)
                cost = costs[node].past(round(whole.beyond, 3), whole.peak)
                if whole.beyond <= most and (node not in ends or cost < ends[node][0]):
                    ends[node] = cost, at

    def _change(
        self, costs: dict[_Node, _Cost], came: dict[_Node, tuple[_Node, int, str]], node: _Node, at: int, cost: _Cost
    ) -> None:
        bricks = node[1]
        extra = not self.stations[at].is_event and not self._next_is_event(at)
        for low, high, place in self.runs[at]:
            for after in range(low, high + 1) if low <= bricks <= high else ():
                new = cost.changing(abs(after - bricks), extra_stop=extra)
                if after != bricks and ((at, after) not in costs or new < costs[at, after]):
                    costs[at, after], came[at, after] = new, (node, bricks, place)

    def _next_is_event(self, at: int) -> bool:
        return at + 1 < len(self.stations) and self.stations[at + 1].is_event

    def _told(self, came: Mapping[_Node, tuple[_Node, int, str]], node: _Node, end: int) -> TallWay:
        changes: list[Change] = []
        final = node[1]
        while node in came:
            before, bricks, place = came[node]
            changes.append(Change(station=node[0], before=bricks, after=node[1], place=place))
            node = before
        changes.reverse()
        at = [0, *(one.station for one in changes)]
        counts = [self.rigged.pipe_bricks, *(one.after for one in changes)]
        spans = zip(at, [*at[1:], end], counts, strict=True)
        legs = [self._leg(start, stop, bricks, ends=number == len(changes))
                for number, (start, stop, bricks) in enumerate(spans)]  # fmt: skip
        return TallWay(stations=self.stations[: end + 1], changes=tuple(changes), goal=self.goal, bricks=final,
                       legs=tuple(leg for leg in legs if leg is not None))  # fmt: skip

    def _leg(self, start: int, stop: int, bricks: int, *, ends: bool) -> Leg | None:
        hops = [self._hop(k, bricks) for k in range(start + 1, stop + 1)] + ([self._back(stop, bricks)] if ends else [])
        if not hops:
            return None
        whole = hops[0]
        for one in hops[1:]:
            whole = whole.then(one)
        to = self.goal if ends else self.stations[stop].height
        return Leg(bricks=bricks, start=self.stations[start].height, end=to, arbor=whole.arbor, batten=whole.batten,
                   is_within=whole.is_within)  # fmt: skip

    # --- what is felt ------------------------------------------------------------------------------------------------

    def _hop(self, k: int, bricks: int) -> Hop:
        """Into station k from the one before it: a move, or something hung or bolted on while it stands."""
        if (k, bricks) not in self.hops:
            self.hops[k, bricks] = self.felt.between(self.stations[k - 1], self.stations[k], bricks)
        return self.hops[k, bricks]

    def _back(self, k: int, bricks: int) -> Hop:
        """From a station at which all is on to the goal, out or in."""
        if (k, bricks) not in self.backs:
            here = self.stations[k]
            self.backs[k, bricks] = self.felt.moved(bricks, here.height, self.goal, here.hung)
        return self.backs[k, bricks]

    def _may_end(self, bricks: int) -> bool:
        """It ends within the lock, at the count that is stated where one is."""
        if self.rigged.stated_bricks is not None and stack_of(self.rigged, bricks) != wanted_on(self.rigged):
            return False
        return self.felt.is_held(self.felt.pull(bricks, self.goal, self.stations[self.last].hung))

    # --- what can be changed -----------------------------------------------------------------------------------------

    def _runs(self, height: float) -> Iterator[tuple[int, int, str]]:
        """Counts between which a crew can change at a height: from, to, and whose. Batten first: never while empty."""
        for name, windows in self.windows.items():
            can = [count for count, (low, high) in windows.items() if low - NEAR <= height <= high + NEAR]
            for _, group in itertools.groupby(enumerate(can), key=lambda each: each[1] - each[0]):
                run = [count for _, count in group]
                yield run[0], run[-1] + 1, name

    def _most_bricks(self) -> int:
        rigged, most = self.rigged, self.rigged.pipe_bricks
        large, small = (sum(kind.stock.get(one.name, 0) for one in self.crew) if kind else 0
                        for kind in (rigged.brick, rigged.small))  # fmt: skip
        while most < self.want + 4:
            more = stack_of(rigged, most + 1)
            is_there = more.bricks - rigged.pipe_bricks <= large and more.small - rigged.small_pipe_bricks <= small
            if not is_there or not fits(rigged, more):
                break
            most += 1
        return most


def tall_goal(rigged: RiggedSet) -> float:
    """Where a load-in ends [m]: at the highest show trim, else where all hangs free; never below a join."""
    trims = [one.trims["show"] for one in rigged.pieces if "show" in one.trims]
    wanted = max(trims, default=max([rigged.low, *(one.clear for one in rigged.pieces)]))
    on = max([rigged.low, *(one.height for one in joins_of(rigged)), *(tied_at(rigged, one) for one in rigged.pieces)])
    return min(rigged.high, max(on, wanted))
