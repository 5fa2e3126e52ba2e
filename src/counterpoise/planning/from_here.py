"""A way for one set from wherever it stands: what is hung, struck and changed at which height, by as few visits as can.

Goes brick by brick and piece by piece, the way that asks least so far first. Nothing is undone: a load-in only hangs, a
strike only strikes. Proposes only: the replay judges every step.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from heapq import heappop, heappush

from counterpoise.balance import Stack, fits, most_small_bricks, pipe_weight
from counterpoise.planning.course import Course, Work
from counterpoise.planning.goal import Target
from counterpoise.planning.holds import NEAR, Pull, Standing, heights_between, pull, standing, within_lock
from counterpoise.planning.rated import covers
from counterpoise.planning.replay import in_reach, is_way_out
from counterpoise.planning.search import stations, wanted_stack
from counterpoise.planning.so_far import ARRIVED, AT_PIECES, NO_BRIDGE, Cost, Doing, Node, SoFar
from counterpoise.planning.state import SetState, State
from counterpoise.planning.windows import hung_pieces, hung_with, hung_without
from counterpoise.rigging import RiggedBridge, RiggedHouse, RiggedPiece, RiggedSet

MOST_VISITS = 60  # a way that needs more is not looked for: nobody would walk it
MOST_NODES = 25_000  # looked at in all searches of one question; beyond these one ends with what it has


@dataclass(slots=True)
class Effort:
    """How many nodes may still be looked at, by one search after the other."""

    left: int = MOST_NODES


def find_course(
    house: RiggedHouse,
    rigged: RiggedSet,
    state: State,
    target: Target,
    crew: Sequence[RiggedBridge],
    effort: Effort,
    *,
    is_free: bool = False,
    is_far: bool = False,
    is_apart: bool = False,
) -> Course | None:
    """The way with the nearest count, then fewest visits; None where none was found within lock and stops.

    `is_free` leaves lock and stops out and looks for the smallest peak, which says what a hold would have to do.
    `is_far` looks along the whole travel, also beyond where the set is to end. `is_apart` keeps ways to one state apart
    that leave other bricks at the bridges, as one of them may run short later on.
    """
    return _Search(house, rigged, state, target, crew, is_free=is_free, is_far=is_far).best(effort, is_apart=is_apart)


class _Search:
    """One search; holds what was worked out once."""

    def __init__(
        self, house: RiggedHouse, rigged: RiggedSet, state: State, target: Target, crew: Sequence[RiggedBridge], *,
        is_free: bool, is_far: bool,
    ) -> None:  # fmt: skip
        self.house, self.rigged, self.target, self.is_free = house, rigged, target, is_free
        self.on, self.stock, self.crew = state.sets[rigged.label], state.stock, crew
        self.own = pipe_weight(rigged)
        self.most = self._most()
        most = max(target.stack, self.on.stack, self.own)
        end = rigged.high if is_far else max(target.height, self.on.height)
        known = stations(house, rigged, most, end, self.on.stack)
        self.heights = tuple(sorted({*known, self.on.height, rigged.low, *target.at}))
        # one search asks the same question for many ways; `cache` on closures forgets with the search
        self.hung = cache(self._hung)
        self.held = cache(self._held)
        self.between = cache(self._between)
        self.moving = cache(self._moving)
        self.stands = cache(self._stands)
        self.hangs = cache(self._hangs)
        self.brick = cache(self._brick)

    def best(self, effort: Effort, *, is_apart: bool) -> Course | None:
        zero = Pull(0.0, 0.0, self.on.height)
        node = Node(self.on.height, 0, self.on.stack, ARRIVED)
        begin = SoFar((0, 0.0, 0, 0), zero, zero, node, ((0, 0),) * len(self.crew), None)
        order = itertools.count()
        open_ = [(self._key(begin.cost), next(order), begin)]
        seen: set[tuple[Node, tuple[tuple[int, int], ...]]] = set()

        def name(way: SoFar) -> tuple[Node, tuple[tuple[int, int], ...]]:
            return way.node, way.moved if is_apart else ()

        ends: list[tuple[float, tuple[float, ...], Course]] = []
        most: tuple[float, ...] = (math.inf,)
        while open_ and effort.left > 0:
            key, _, way = heappop(open_)
            if key > most:
                break
            if name(way) in seen:
                continue
            seen.add(name(way))
            effort.left -= 1
            for miss, end_cost, course in self._ended(way):
                ends.append((miss, self._key(end_cost), course))
                most = min(most, self._key(end_cost)) if miss == 0 else most
            for further in self._further(way):
                if name(further) not in seen and further.cost[0] <= MOST_VISITS:
                    heappush(open_, (self._key(further.cost), next(order), further))
        return min(ends, key=lambda each: each[:2])[2] if ends else None

    def _key(self, cost: Cost) -> tuple[float, ...]:
        """What is to be least: visits first, or the peak first where lock and stops are left out."""
        visits, peak, starts, handled = cost
        return (peak, visits, starts, handled) if self.is_free else cost

    def _ended(self, way: SoFar) -> Iterator[tuple[float, Cost, Course]]:
        """How far from the count that is wanted it may end here, and how."""
        height, done, stack, _ = way.node
        if done < len(self.target.todo) or (self.target.is_exact and stack != self.target.stack):
            return
        is_done = way.cost[0] == 0 and stack == self.target.stack and self.target.height == self.on.height
        if is_done and self.on.locked:
            pulls: tuple[Pull, ...] | None = ()  # nothing is to be done, so nothing is set free
        else:
            pulls = self.held(stack, done, height, self.target.height)
        if pulls is not None:
            small = self.rigged.small.mass / self.rigged.brick.mass if self.rigged.small else 0.0
            off = stack.bricks - self.target.stack.bricks + small * (stack.small - self.target.stack.small)
            end = way.on(way.node, pulls)
            course = Course(works=self._works(way), height=self.target.height, stack=stack, arbor=end.arbor,
                            batten=end.batten)  # fmt: skip
            yield round(abs(off), 6) if stack != self.target.stack else 0.0, end.cost, course

    def _works(self, way: SoFar) -> tuple[Work, ...]:
        """The visits of a way, from the first."""
        works: list[Work] = []
        last: SoFar | None = way
        while last is not None:
            end, first, crew = last, last, NO_BRIDGE
            while first.node.doing != ARRIVED and first.before is not None:
                crew = max(crew, first.node.doing.crew)
                first = first.before
            if end is not first:
                bridge = "" if crew == NO_BRIDGE else self.crew[crew].name
                works.append(Work(height=end.node.height, pieces=self.target.todo[first.node.done : end.node.done],
                                  before=first.node.stack, after=end.node.stack, bridge=bridge))  # fmt: skip
            last = first.before
        return tuple(reversed(works))

    # --- moves -----------------------------------------------------------------------------------------------------

    def _further(self, way: SoFar) -> Iterator[SoFar]:
        """One act more."""
        height, done, stack, doing = way.node
        if doing != ARRIVED or way.before is None:
            for other in self.heights:
                pulls = self.held(stack, done, height, other) if other != height else ()
                if pulls is not None and (other != height or doing != ARRIVED):
                    yield way.on(Node(other, done, stack, ARRIVED), pulls)
        visits = 1 if doing == ARRIVED else 0
        if doing in (ARRIVED, AT_PIECES) or self.target.is_strike:
            felt = self.hangs(stack, done, height)
            if felt is not None:
                yield way.on(Node(height, done + 1, stack, AT_PIECES), felt, visits)
        if doing != AT_PIECES or not self.target.is_strike:
            yield from self._bricks(way, visits)

    def _held(self, stack: Stack, done: int, start: float, end: float) -> tuple[Pull, ...] | None:
        """What is felt over a move as if no stop existed, None where lock and rated holds do not hold it."""
        found = []
        for height in self.between(done, *sorted((start, end))):
            one, is_held = self.moving(stack, done, height)
            if not is_held:
                return None
            found.append(one)
        return tuple(found)

    def _between(self, done: int, low: float, high: float) -> tuple[float, ...]:
        return heights_between(low, high, self.hung(done), self.rigged.cables)

    def _moving(self, stack: Stack, done: int, height: float) -> tuple[Pull, bool]:
        """What is felt at a height in passing, and whether lock and rated holds hold it."""
        one = pull(self.rigged, stack, height, self.hung(done))
        is_held = (self.is_free or within_lock(self.house, self.rigged, one)
                   or covers(self.house, self.rigged, self.on.rated, one, moves=True))  # fmt: skip
        return one, is_held

    # --- work ------------------------------------------------------------------------------------------------------

    def _hangs(self, stack: Stack, done: int, height: float) -> tuple[Pull, ...] | None:
        """What is felt when the next is hung or struck where it is too much; None where that is not done, or stands."""
        if done >= len(self.target.todo) or abs(self.target.at[done] - height) > NEAR:
            return None
        was, now = self.stands(stack, done, height), self.stands(stack, done + 1, height)
        if not self._may_stand(was, now):
            return None
        return (now.pull,) if now.over > 0 else ()

    def _bricks(self, way: SoFar, visits: int) -> Iterator[SoFar]:
        """One brick more or less. A visit changes them one way, from one bridge, small ones above large ones."""
        height, done, stack, doing = way.node
        at_work = doing.crew != NO_BRIDGE
        for crew in (doing.crew,) if at_work else range(len(self.crew)):
            for sign in (doing.sign,) if at_work else (1, -1):
                for is_small in (False, True) if self.rigged.small is not None else (False,):
                    if at_work and doing.is_small != is_small and is_small != (sign > 0):
                        continue  # no large one goes on above small ones; no small one is left above when large go
                    if not is_small and stack.small > self.rigged.small_pipe_bricks:
                        continue
                    large, small = (0, sign) if is_small else (sign, 0)
                    after = Stack(stack.bricks + large, stack.small + small)
                    felt = self.brick(stack, after, done, height, self.crew[crew])
                    moved = None if felt is None else self._moved(way.moved, crew, large, small)
                    if felt is not None and moved is not None:
                        yield way.on(Node(height, done, after, Doing(crew, sign, is_small)), felt, visits, moved)

    def _brick(
        self, now: Stack, after: Stack, done: int, height: float, bridge: RiggedBridge
    ) -> tuple[Pull, ...] | None:
        """What is felt with one brick more or less where it is too much; None where it may not be."""
        is_more = after.bricks + after.small > now.bricks + now.small
        if is_more and (
            after.bricks > self.most.bricks or after.small > self.most.small or not self._may_load(after, done)
        ):
            return None
        if not is_more and (after.bricks < self.own.bricks or after.small < self.own.small):
            return None
        if not fits(self.rigged, after) or not in_reach(self.rigged, bridge, now, after, height):
            return None
        was, stood = self.stands(now, done, height), self.stands(after, done, height)
        if not self._may_stand(was, stood):
            return None
        return (stood.pull,) if stood.over > 0 else ()

    def _may_load(self, after: Stack, done: int) -> bool:
        """Batten first."""
        return bool(self.hung(done)) or (after.bricks <= self.own.bricks and after.small <= self.own.small)

    def _may_stand(self, was: Standing, now: Standing) -> bool:
        return (self.is_free or now.over == 0 or is_way_out(was, now)
                or covers(self.house, self.rigged, self.on.rated, now.pull, moves=False))  # fmt: skip

    def _stands(self, stack: Stack, done: int, height: float) -> Standing:
        return standing(self.house, self.rigged, stack, height, self.hung(done))

    def _hung(self, done: int) -> tuple[RiggedPiece, ...]:
        return hung_pieces(self.rigged, hung_after(self.rigged, self.on, self.target, done))

    # --- bricks ----------------------------------------------------------------------------------------------------

    def _moved(
        self, moved: tuple[tuple[int, int], ...], crew: int, large: int, small: int
    ) -> tuple[tuple[int, int], ...] | None:
        """With one more brick from a bridge, or back to it; None where none is left there, or its floor is full."""
        bridge, rigged = self.crew[crew], self.rigged
        before = moved[crew]
        after = (before[0] + large, before[1] + small)
        there = {kind: places.get(bridge.name, 0) for kind, places in self.stock.items()}
        there[rigged.brick.name] = there.get(rigged.brick.name, 0) - after[0] * rigged.abreast
        if rigged.small is not None:
            there[rigged.small.name] = there.get(rigged.small.name, 0) - after[1] * rigged.abreast
        used = rigged.brick.name if large else rigged.small.name if rigged.small is not None else ""
        if large + small > 0 and there[used] < 0:
            return None
        if large + small < 0 and bridge.most is not None:
            loose = sum(count * self.house.bricks[kind].mass for kind, count in there.items())
            if loose > bridge.most - bridge.people * self.house.rules["person"].value + 1e-9:
                return None
        return (*moved[:crew], after, *moved[crew + 1 :])

    def _most(self) -> Stack:
        """A few beyond what is on, what is wanted, and what balances all that the hang puts there."""
        stacks = (self.on.stack, self.target.stack, self.own, wanted_stack(self.rigged))
        small = max(one.small for one in stacks)
        return Stack(max(one.bricks for one in stacks) + 4, max(small, most_small_bricks(self.rigged)))


def hung_after(rigged: RiggedSet, on: SetState, target: Target, done: int) -> tuple[str, ...]:
    """What hangs when so much of what is to be done is done."""
    names = target.todo[:done]
    return hung_without(rigged, on.hung, names) if target.is_strike else hung_with(rigged, on.hung, names)
