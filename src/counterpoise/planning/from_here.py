"""A way for one set from wherever it stands: what is hung, struck and changed at which height, by as few visits as can.

Looks level by level: all that one visit can do, then all that two can. Nothing is undone on the way: a load-in only
hangs, a strike only strikes. Proposes only: the replay judges every step.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache

from counterpoise.balance import Stack, fits, most_small_bricks, pipe_weight
from counterpoise.planning.course import Course, Work
from counterpoise.planning.goal import Target
from counterpoise.planning.holds import NEAR, Pull, Standing, pulls_over, standing, within_lock
from counterpoise.planning.rated import covers
from counterpoise.planning.replay import in_reach, is_way_out
from counterpoise.planning.search import stations, wanted_stack
from counterpoise.planning.state import SetState, State
from counterpoise.planning.windows import hung_pieces, hung_with, hung_without
from counterpoise.rigging import RiggedBridge, RiggedHouse, RiggedPiece, RiggedSet

_MOST_VISITS = 8  # a way that needs more is not looked for


@dataclass(frozen=True, slots=True, kw_only=True)
class _Left:
    """Loose bricks at one bridge, and the mass that its floor takes beside them [kg]."""

    large: int
    small: int
    room: float


_Node = tuple[float, int, Stack]  # batten height [m], how much of what is to be done is done, the stack


def find_course(
    house: RiggedHouse,
    rigged: RiggedSet,
    state: State,
    target: Target,
    crew: Sequence[RiggedBridge],
    *,
    is_free: bool = False,
) -> Course | None:
    """The way with the nearest count, then fewest visits; None where there is none within lock and stops.

    `is_free` leaves lock and stops out, and the peak of the way that is found then says what a hold would have to do.
    """
    return _Search(house, rigged, state, target, crew, is_free).best()


class _Search:
    """One search; holds what was worked out once."""

    def __init__(
        self, house: RiggedHouse, rigged: RiggedSet, state: State, target: Target, crew: Sequence[RiggedBridge],
        is_free: bool,
    ) -> None:  # fmt: skip
        self.house, self.rigged, self.target, self.is_free = house, rigged, target, is_free
        self.on, self.stock, self.crew = state.sets[rigged.label], state.stock, crew
        self.most = self._most()
        most = max(target.stack, self.on.stack, pipe_weight(rigged))
        known = stations(house, rigged, most, max(target.height, self.on.height), self.on.stack)
        self.heights = tuple(sorted({*known, self.on.height, rigged.low, *target.at}))
        # one search asks the same question for many ways; `cache` on closures forgets with the search
        self.moved = cache(self._moved)
        self.stands = cache(self._stands)

    def best(self) -> Course | None:
        zero = Pull(0.0, 0.0, self.on.height)
        begin = Course(works=(), height=self.on.height, stack=self.on.stack, arbor=zero, batten=zero)
        here: dict[_Node, Course] = {(self.on.height, 0, self.on.stack): begin}
        seen: set[_Node] = set()
        ends: list[tuple[float, tuple[int, float, int], Course]] = []
        for _ in range(_MOST_VISITS + 1):
            ends += [found for node, course in here.items() for found in self._ended(node, course)]
            if not here or any(miss == 0 for miss, _, _ in ends):
                break
            seen |= here.keys()
            here = self._next(here, seen)
        return min(ends, key=lambda each: each[:2])[2] if ends else None

    def _next(self, here: Mapping[_Node, Course], seen: set[_Node]) -> dict[_Node, Course]:
        found: dict[_Node, Course] = {}
        for node, course in here.items():
            for height in self.heights:
                flown = self._flown(node, course, height)
                for after, new in self._worked(node, flown, height) if flown is not None else ():
                    if after not in seen and (after not in found or new.cost < found[after].cost):
                        found[after] = new
        return found

    def _ended(self, node: _Node, course: Course) -> Iterator[tuple[float, tuple[int, float, int], Course]]:
        _, done, stack = node
        if done < len(self.target.todo) or (self.target.is_exact and stack != self.target.stack):
            return
        is_done = not course.works and stack == self.target.stack and self.target.height == self.on.height
        if is_done and self.on.locked:
            pulls: tuple[Pull, ...] | None = ()  # nothing is to be done, so nothing is set free
        else:
            pulls = self._held(stack, done, node[0], self.target.height)
        if pulls is not None:
            small = self.rigged.small.mass / self.rigged.brick.mass if self.rigged.small else 0.0
            off = stack.bricks - self.target.stack.bricks + small * (stack.small - self.target.stack.small)
            end = replace(course.past(pulls), height=self.target.height, stack=stack)
            yield round(abs(off), 6) if stack != self.target.stack else 0.0, end.cost, end

    # --- moves -----------------------------------------------------------------------------------------------------

    def _flown(self, node: _Node, course: Course, height: float) -> Course | None:
        if height == node[0]:
            return course
        pulls = self._held(node[2], node[1], node[0], height)
        return None if pulls is None else course.past(pulls)

    def _held(self, stack: Stack, done: int, start: float, end: float) -> tuple[Pull, ...] | None:
        """What is felt over a move as if no stop existed, None where lock and rated holds do not hold it."""
        pulls = self.moved(stack, done, start, end)
        is_held = self.is_free or all(
            within_lock(self.house, self.rigged, one)
            or covers(self.house, self.rigged, self.on.rated, one, moves=True) for one in pulls)  # fmt: skip
        return pulls if is_held else None

    def _moved(self, stack: Stack, done: int, start: float, end: float) -> tuple[Pull, ...]:
        return pulls_over(self.rigged, stack, start, end, self._hung(done))

    # --- work ------------------------------------------------------------------------------------------------------

    def _worked(self, node: _Node, course: Course, height: float) -> Iterator[tuple[_Node, Course]]:
        """All that one visit may do at a height."""
        _, done, stack = node
        if self.target.is_strike:
            for after, bridge, pulls in ((stack, "", ()), *self._changed(course, stack, done, height)):
                for less, felt in self._pieces(done, after, height):
                    yield self._visited(course, (height, less, after), node, bridge, (*pulls, *felt))
            return
        for more, felt in self._pieces(done, stack, height):
            for after, bridge, pulls in ((stack, "", ()), *self._changed(course, stack, more, height)):
                yield self._visited(course, (height, more, after), node, bridge, (*felt, *pulls))

    def _visited(
        self, course: Course, after: _Node, node: _Node, bridge: str, pulls: Sequence[Pull]
    ) -> tuple[_Node, Course]:
        work = Work(height=after[0], pieces=self.target.todo[node[1] : after[1]], before=node[2], after=after[2],
                    bridge=bridge)  # fmt: skip
        return after, replace(course.past(pulls), works=(*course.works, work))

    def _pieces(self, done: int, stack: Stack, height: float) -> Iterator[tuple[int, tuple[Pull, ...]]]:
        """None, one or more of what is to be hung or struck, as far as it is done at this height and stands."""
        felt: tuple[Pull, ...] = ()
        yield done, felt
        while done < len(self.target.todo) and abs(self.target.at[done] - height) <= NEAR:
            was, now = self.stands(stack, done, height), self.stands(stack, done + 1, height)
            if not self._may_stand(was, now):
                return
            done += 1
            felt = (*felt, now.pull) if now.over > 0 else felt
            yield done, felt

    def _changed(
        self, course: Course, stack: Stack, done: int, height: float
    ) -> Iterator[tuple[Stack, str, tuple[Pull, ...]]]:
        """Every stack that one visit may leave, one way, from one bridge."""
        for bridge in self.crew:
            left = self._left(course, bridge)
            for sign in (1, -1):
                for after, pulls in self._run(stack, done, height, bridge, sign):
                    if not self._is_there(stack, after, left):
                        continue
                    yield after, bridge.name, pulls

    def _run(
        self, stack: Stack, done: int, height: float, bridge: RiggedBridge, sign: int
    ) -> Iterator[tuple[Stack, tuple[Pull, ...]]]:
        """Large ones one by one, small ones on top of each count; off again the other way round."""
        own = self.rigged.small_pipe_bricks
        now, felt = stack, tuple[Pull, ...]()
        for after, pulls in self._small(now, done, height, bridge, sign, felt):
            yield after, pulls
            now, felt = (after, pulls) if sign < 0 else (now, felt)
        while now.small <= own:
            more = Stack(now.bricks + sign, now.small)
            beyond = self._brick(now, more, done, height, bridge)
            if beyond is None:
                return
            now, felt = more, (*felt, *beyond)
            yield now, felt
            yield from self._small(now, done, height, bridge, sign, felt) if sign > 0 else ()

    def _small(
        self, now: Stack, done: int, height: float, bridge: RiggedBridge, sign: int, felt: tuple[Pull, ...]
    ) -> Iterator[tuple[Stack, tuple[Pull, ...]]]:
        while self.rigged.small is not None:
            after = Stack(now.bricks, now.small + sign)
            pulls = self._brick(now, after, done, height, bridge)
            if pulls is None:
                return
            now, felt = after, (*felt, *pulls)
            yield now, felt

    def _brick(
        self, now: Stack, after: Stack, done: int, height: float, bridge: RiggedBridge
    ) -> tuple[Pull, ...] | None:
        """What is felt with one brick more or less where it is too much; None where it may not be."""
        own = pipe_weight(self.rigged)
        is_more = after.bricks + after.small > now.bricks + now.small
        if is_more and (
            after.bricks > self.most.bricks or after.small > self.most.small or not self._may_load(after, done)
        ):
            return None
        if not is_more and (after.bricks < own.bricks or after.small < own.small):
            return None
        if not fits(self.rigged, after) or not in_reach(self.rigged, bridge, now, after, height):
            return None
        was, stood = self.stands(now, done, height), self.stands(after, done, height)
        if not self._may_stand(was, stood):
            return None
        return (stood.pull,) if stood.over > 0 else ()

    def _may_load(self, after: Stack, done: int) -> bool:
        """Batten first."""
        own = pipe_weight(self.rigged)
        return bool(self._hung(done)) or (after.bricks <= own.bricks and after.small <= own.small)

    def _may_stand(self, was: Standing, now: Standing) -> bool:
        return (self.is_free or now.over == 0 or is_way_out(was, now)
                or covers(self.house, self.rigged, self.on.rated, now.pull, moves=False))  # fmt: skip

    def _stands(self, stack: Stack, done: int, height: float) -> Standing:
        return standing(self.house, self.rigged, stack, height, self._hung(done))

    def _hung(self, done: int) -> tuple[RiggedPiece, ...]:
        return hung_pieces(self.rigged, hung_after(self.rigged, self.on, self.target, done))

    # --- bricks ----------------------------------------------------------------------------------------------------

    def _left(self, course: Course, bridge: RiggedBridge) -> _Left:
        """What lies at a bridge after the visits so far, and what its floor takes beside that."""
        rigged, large, small = self.rigged, 0, 0
        for work in course.works:
            if work.bridge == bridge.name:
                large += (work.before.bricks - work.after.bricks) * rigged.abreast
                small += (work.before.small - work.after.small) * rigged.abreast
        there = {kind: places.get(bridge.name, 0) for kind, places in self.stock.items()}
        there[rigged.brick.name] = there.get(rigged.brick.name, 0) + large
        if rigged.small is not None:
            there[rigged.small.name] = there.get(rigged.small.name, 0) + small
        room = float("inf")
        if bridge.most is not None:
            loose = sum(count * self.house.bricks[kind].mass for kind, count in there.items())
            room = bridge.most - loose - bridge.people * self.house.rules["person"].value
        few = there[rigged.small.name] // rigged.abreast if rigged.small else 0
        return _Left(large=there[rigged.brick.name] // rigged.abreast, small=few, room=room)

    def _is_there(self, before: Stack, after: Stack, left: _Left) -> bool:
        """Bricks enough where they come from, and a floor that carries those that come off."""
        large, small = after.bricks - before.bricks, after.small - before.small
        mass = -large * self.rigged.brick.mass - (small * self.rigged.small.mass if self.rigged.small else 0.0)
        is_off = large < 0 or small < 0
        return large <= left.large and small <= left.small and not (is_off and mass > left.room + 1e-9)

    def _most(self) -> Stack:
        """A few beyond what is on, what is wanted, and what balances all that the hang puts there."""
        stacks = (self.on.stack, self.target.stack, pipe_weight(self.rigged), wanted_stack(self.rigged))
        small = max(one.small for one in stacks)
        return Stack(max(one.bricks for one in stacks) + 4, max(small, most_small_bricks(self.rigged)))


def hung_after(rigged: RiggedSet, on: SetState, target: Target, done: int) -> tuple[str, ...]:
    """What hangs when so much of what is to be done is done."""
    names = target.todo[:done]
    return hung_without(rigged, on.hung, names) if target.is_strike else hung_with(rigged, on.hung, names)
