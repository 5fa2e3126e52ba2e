"""The visits of one load-in: at which heights pieces are hung and bricks put on, found by trying them all in order.

A visit costs a lock, a hold and a clear, so fewer visits win; then the smaller peak out of balance; then fewer bricks
handled. Where nothing stays within the lock, the same search says what the smallest peak would be.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from counterpoise.balance import Stack, best_stack, fits, most_small_bricks, pipe_weight, stated_stack
from counterpoise.planning.holds import NEAR, Pull, pulls_over, standing, within_lock
from counterpoise.planning.replay import in_reach
from counterpoise.rigging import BrickKind, RiggedBridge, RiggedHouse, RiggedPiece, RiggedSet

_STEP = 0.3048  # [m]: heights tried between the ones that matter are whole feet above low trim
_INCH = 0.0254
_MOST_STATIONS = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """A stop on the way out: its height [m], the pieces hung there, and the stack before and after."""

    height: float
    hang: tuple[str, ...]
    before: Stack
    after: Stack
    bridge: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A way of loading a set: its visits, the height it ends at, and the peak pulls either way off the stops."""

    visits: tuple[Visit, ...]
    goal: float
    stack: Stack
    arbor: Pull
    batten: Pull


@dataclass(frozen=True, slots=True)
class _Path:
    """A way so far, best first when compared by `cost`."""

    visits: tuple[Visit, ...]
    arbor: Pull
    batten: Pull

    @property
    def cost(self) -> tuple[float, ...]:
        handled = sum(abs(one.after.count - one.before.count) for one in self.visits)
        return len(self.visits), round(max(self.arbor.arbor, self.batten.batten), 3), handled

    def past(self, pulls: Iterable[Pull]) -> _Path:
        arbor, batten = self.arbor, self.batten
        for one in pulls:
            arbor = one if one.arbor > arbor.arbor + NEAR else arbor
            batten = one if one.batten > batten.batten + NEAR else batten
        return _Path(self.visits, arbor, batten)


def hang_height(rigged: RiggedSet, piece: RiggedPiece) -> float:
    """Where a piece is tied on: at low trim, or where a taller one stands on the deck."""
    return rigged.low if piece.off_the_floor else max(rigged.low, piece.clear)


def goal_height(rigged: RiggedSet) -> float:
    """Where a load-in ends: at the show trim where one is written, else where every piece hangs free."""
    free = max([rigged.low, *(one.clear for one in rigged.pieces)])
    trims = [one.trims["show"] for one in rigged.pieces if "show" in one.trims]
    written = max(trims, default=free)
    return min(rigged.high, max(rigged.low, written))


def wanted_stack(rigged: RiggedSet) -> Stack:
    """What the hang states, else what balances best over the flying range."""
    return stated_stack(rigged) or best_stack(rigged)


def find_way(house: RiggedHouse, rigged: RiggedSet) -> Way | None:
    """The best way within what the lock holds.

    Returns None where there is none: the bridges do not reach, the stack does not fit, or the lock does not hold.
    """
    return _Search(house, rigged).best()


class _Search:
    """One search over heights and counts; holds what was worked out once."""

    def __init__(self, house: RiggedHouse, rigged: RiggedSet) -> None:
        self.house, self.rigged = house, rigged
        self.want, self.goal = wanted_stack(rigged), goal_height(rigged)
        self.stations = stations(house, rigged, self.want, self.goal)
        self.most = self._most()
        # one search asks the same question for many paths; `cache` on closures forgets with the search
        self.moved = cache(self._moved)
        self.stands = cache(self._stands)

    def best(self) -> Way | None:
        ends: list[tuple[tuple[float, ...], Way]] = []
        zero = Pull(0.0, 0.0, self.rigged.low)
        paths: dict[Stack, _Path] = {pipe_weight(self.rigged): _Path((), zero, zero)}
        last = max((hang_height(self.rigged, one) for one in self.rigged.pieces), default=self.rigged.low)
        before = self.rigged.low
        for here in self.stations:
            paths = dict(self._flown(paths, before, here)) if here > before else paths
            paths = self._worked(paths, here)
            before = here
            if here >= last - NEAR:
                ends.extend(self._ends(paths, here))
        return min(ends, key=lambda each: each[0])[1] if ends else None

    def _ends(self, paths: Mapping[Stack, _Path], here: float) -> Iterator[tuple[tuple[float, ...], Way]]:
        goal = max(self.goal, here)
        for stack, path in self._flown(paths, here, goal):
            way = Way(visits=path.visits, goal=goal, stack=stack, arbor=path.arbor, batten=path.batten)
            miss = self._miss(stack)
            if self.rigged.stated_bricks is None or miss == 0:
                yield (miss, *path.cost), way

    def _miss(self, stack: Stack) -> float:
        """How many large bricks it is from what is wanted, small ones counted for what they weigh."""
        small = self.rigged.small.mass / self.rigged.brick.mass if self.rigged.small else 0.0
        off = stack.bricks - self.want.bricks + small * (stack.small - self.want.small)
        return round(abs(off), 6) if stack != self.want else 0.0

    def _flown(self, paths: Mapping[Stack, _Path], start: float, end: float) -> Iterator[tuple[Stack, _Path]]:
        for stack, path in paths.items():
            pulls = self.moved(stack, start, end)
            if all(within_lock(self.house, self.rigged, one) for one in pulls):
                yield stack, path.past(pulls)

    def _worked(self, paths: Mapping[Stack, _Path], here: float) -> dict[Stack, _Path]:
        hang = tuple(one.name for one in self.rigged.pieces if abs(hang_height(self.rigged, one) - here) <= NEAR)
        found = dict(paths)
        if hang:
            found = {}
            for stack, path in paths.items():
                if self.stands(stack, here):
                    self._keep(found, path, Visit(height=here, hang=hang, before=stack, after=stack, bridge=""))
        begin = tuple((found if hang else paths).items())  # one visit is worked from one bridge
        for bridge in self.house.bridges if self._hung_from(here) else ():
            for stack, path in begin:
                come = _Path(path.visits[:-1], path.arbor, path.batten) if hang else path
                for more in self._loaded(stack, bridge, here):
                    visit = Visit(height=here, hang=hang, before=stack, after=more, bridge=bridge.name)
                    self._keep(found, come, visit)
        return found

    def _loaded(self, stack: Stack, bridge: RiggedBridge, here: float) -> Iterator[Stack]:
        """Every stack that one visit may leave: large bricks one by one, and small ones on top of any of them."""
        large = stack
        yield from self._small_on(large, bridge, here)
        while stack.small == self.rigged.small_pipe_bricks:  # none goes under small ones that are there for the trim
            more = Stack(large.bricks + 1, large.small)
            if not self._goes_on(large, more, bridge, here):
                return
            large = more
            yield large
            yield from self._small_on(large, bridge, here)

    def _small_on(self, stack: Stack, bridge: RiggedBridge, here: float) -> Iterator[Stack]:
        now, more = stack, Stack(stack.bricks, stack.small + 1)
        while more.small <= self.most.small and self._goes_on(now, more, bridge, here):
            yield more
            now, more = more, Stack(more.bricks, more.small + 1)

    def _goes_on(self, now: Stack, more: Stack, bridge: RiggedBridge, here: float) -> bool:
        return (
            more.bricks <= self.most.bricks
            and fits(self.rigged, more)
            and in_reach(self.rigged, bridge, now, more, here)
            and self.stands(more, here)
        )

    def _keep(self, found: dict[Stack, _Path], path: _Path, visit: Visit) -> None:
        new = _Path((*path.visits, visit), path.arbor, path.batten)
        old = found.get(visit.after)
        if old is None or new.cost < old.cost:
            found[visit.after] = new

    def _hung_from(self, height: float) -> tuple[RiggedPiece, ...]:
        return tuple(one for one in self.rigged.pieces if hang_height(self.rigged, one) <= height + NEAR)

    def _moved(self, stack: Stack, start: float, end: float) -> tuple[Pull, ...]:
        return pulls_over(self.rigged, stack, start, end, self._hung_from(start))

    def _stands(self, stack: Stack, here: float) -> bool:
        return standing(self.house, self.rigged, stack, here, self._hung_from(here)).over == 0

    def _most(self) -> Stack:
        """The most of either size that stock and arbor allow, and a few beyond what is wanted."""
        rigged = self.rigged
        most = min(rigged.pipe_bricks + self._in_stock(rigged.brick), self.want.bricks + 4)
        most = max(most, rigged.pipe_bricks)
        while most > rigged.pipe_bricks and not fits(rigged, Stack(most, rigged.small_pipe_bricks)):
            most -= 1
        small = rigged.small_pipe_bricks
        if rigged.small is not None:
            asked = max(most_small_bricks(rigged), self.want.small)
            small = max(small, min(small + self._in_stock(rigged.small), asked))
        return Stack(most, small)

    def _in_stock(self, kind: BrickKind) -> int:
        return sum(kind.stock.get(one.name, 0) for one in self.house.bridges)


def stations(
    house: RiggedHouse, rigged: RiggedSet, want: Stack, goal: float, now: Stack | None = None
) -> tuple[float, ...]:
    """Heights worth a stop: where pieces are tied or leave the deck, the ends of the reach, whole feet between.

    The reach is that of pipe weight, of the stack that is wanted and of the one that is on now.
    """
    tied = {hang_height(rigged, one) for one in rigged.pieces} | {rigged.low}
    edges = [edge for bridge in house.bridges for edge in (bridge.reach_low, bridge.reach_high)]
    stacks = (pipe_weight(rigged), _one_fewer(want), *(() if now is None else (now, _one_fewer(now))))
    reach = {height for edge in edges for stack in stacks for height in _at_reach(rigged, stack, edge)}
    free = max([rigged.low, *(one.clear for one in rigged.pieces if one.off_the_floor)])
    even = {rigged.low + count * _STEP for count in range(1, math.floor((free - rigged.low) / _STEP) + 1)}
    kinks = {change for one in rigged.pieces for change in one.changes}
    useful = {height for height in reach | even | kinks if rigged.low < height <= min(rigged.high, max(free, goal))
              and _is_reached(house, rigged, height, want)}  # fmt: skip
    spare = sorted(useful - tied)
    every = max(1, math.ceil(len(spare) / _MOST_STATIONS))
    return tuple(sorted({height for height in tied if height <= rigged.high} | set(spare[::every]) | set(spare[-1:])))


def _at_reach(rigged: RiggedSet, stack: Stack, edge: float) -> tuple[float, float]:
    """The batten height at which the top of a stack is at the edge of a reach, to the inch on either side."""
    height = rigged.low + rigged.purchase * (rigged.seat_low + stack.height(rigged) - edge)
    return math.floor(height / _INCH) * _INCH, math.ceil(height / _INCH) * _INCH


def _one_fewer(stack: Stack) -> Stack:
    """Before its last brick was laid."""
    return Stack(stack.bricks, stack.small - 1) if stack.small else Stack(max(0, stack.bricks - 1))


def _is_reached(house: RiggedHouse, rigged: RiggedSet, height: float, want: Stack) -> bool:
    own = pipe_weight(rigged)
    stacks = [Stack(count, own.small) for count in range(own.bricks, max(own.bricks, want.bricks) + 2)]
    return any(in_reach(rigged, bridge, *pair, height) for bridge in house.bridges for pair in pairwise(stacks))
