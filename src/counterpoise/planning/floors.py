"""Whole bricks on the floors of bridges: what one task after another puts on them and takes from them.

A task is what one set moves, in its own order. Where bricks run out or a floor would carry too much, the least that
must be brought or sent is told, as late as it can be.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

Stuff = tuple[str, str]  # kind of brick, place
_ROUNDING = 1e-9  # [kg]


@dataclass(frozen=True, slots=True)
class Moved:
    """Bricks of one kind that leave (less than 0) or come to (more than 0) the floor of a place."""

    kind: str
    place: str
    count: int


@dataclass(frozen=True, kw_only=True)
class Task:
    """One set's work, closed before the next begins. `after`: places in the list of the tasks that come before it."""

    name: str
    moved: tuple[Moved, ...]
    after: frozenset[int] = field(default=frozenset())

    @cached_property
    def net(self) -> Mapping[Stuff, int]:
        """What the floor has more, or less, after it."""
        found: dict[Stuff, int] = {}
        for one in self.moved:
            found[one.kind, one.place] = found.get((one.kind, one.place), 0) + one.count
        return found

    @cached_property
    def low(self) -> Mapping[Stuff, int]:
        """The least that the floor has against before, at any moment of it: 0 or less."""
        now: dict[Stuff, int] = {}
        found: dict[Stuff, int] = {}
        for one in self.moved:
            stuff = (one.kind, one.place)
            now[stuff] = now.get(stuff, 0) + one.count
            found[stuff] = min(found.get(stuff, 0), now[stuff])
        return found


@dataclass(frozen=True, kw_only=True)
class Floors:
    """Loose bricks by kind and place, the mass of one [kg], and the most bricks that a floor may carry [kg].

    `most` is what the posting leaves for bricks when the people are taken off; a place that is not in it is not judged.
    """

    stock: Mapping[Stuff, int]
    mass: Mapping[str, float]
    most: Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Freight:
    """Bricks to bring up (more than 0) or to send off (less than 0) before a task; `at` is its place in the order."""

    at: int
    kind: str
    place: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """An order of tasks, and what must be brought or sent for it.

    `short` is how many bricks the house lacks in this order, `carried` how many are brought and sent in all. No order
    can do with less than `least` of the two. `stuck` are tasks, by their place in the list, for which no sending off
    makes room on the floor. `looked` is how many steps the search took.
    """

    sequence: tuple[int, ...]
    freight: tuple[Freight, ...]
    short: int
    carried: int
    least: tuple[int, int]
    looked: int
    stuck: tuple[int, ...] = ()

    @property
    def is_proven(self) -> bool:
        """True where no order does with less."""
        return (self.short, self.carried) == self.least

    @property
    def needs_help(self) -> bool:
        """True where bricks must be brought or sent, or a floor has no room."""
        return bool(self.carried or self.stuck)


class Walk:
    """Does tasks one after another over the floors; tasks and floors as lists of numbers, for speed."""

    def __init__(self, tasks: Sequence[Task], floors: Floors) -> None:
        self.tasks, self.floors = tasks, floors
        self.stuffs = sorted({*floors.stock, *(stuff for one in tasks for stuff in one.net)})
        self.start = tuple(floors.stock.get(stuff, 0) for stuff in self.stuffs)
        self.net = [tuple(one.net.get(stuff, 0) for stuff in self.stuffs) for one in tasks]
        self.low = [tuple(one.low.get(stuff, 0) for stuff in self.stuffs) for one in tasks]
        self.mass = [floors.mass.get(kind, 0.0) for kind, _ in self.stuffs]
        self.on = {place: [i for i, stuff in enumerate(self.stuffs) if stuff[1] == place] for place in floors.most}
        self.peak = [dict(self._peaks(one)) for one in tasks]

    def _peaks(self, task: Task) -> Iterator[tuple[str, float]]:
        """How much more than before each floor carries [kg], at the worst moment at which bricks come to it."""
        now: dict[str, float] = {}
        worst: dict[str, float] = {}
        for one in task.moved:
            now[one.place] = now.get(one.place, 0.0) + one.count * self.floors.mass.get(one.kind, 0.0)
            if one.count > 0 and one.place in self.floors.most:
                worst[one.place] = max(worst.get(one.place, -float("inf")), now[one.place])
        yield from worst.items()

    def over(self, stock: tuple[int, ...], task: int) -> Iterator[tuple[str, float]]:
        """Floors that would carry too much, and by how much [kg]."""
        for place, more in self.peak[task].items():
            carried = sum(stock[i] * self.mass[i] for i in self.on[place]) + more
            if carried > self.floors.most[place] + _ROUNDING:
                yield place, carried - self.floors.most[place]

    def is_short(self, stock: tuple[int, ...], task: int) -> bool:
        """True where bricks run out."""
        return any(have + least < 0 for have, least in zip(stock, self.low[task], strict=True))

    def after(self, stock: tuple[int, ...], task: int) -> tuple[int, ...]:
        """What lies there when it is done."""
        return tuple(have + more for have, more in zip(stock, self.net[task], strict=True))

    def helped(self, stock: tuple[int, ...], task: int) -> tuple[int, ...] | None:
        """The least that must be brought (more than 0) or sent (less) for a task; None where no sending is enough."""
        change = [0] * len(stock)
        for place, over in self.over(stock, task):
            for i in sorted(self.on[place], key=lambda i: -self.mass[i] * (stock[i] + self.low[task][i])):
                if over <= _ROUNDING:
                    break
                count = min(max(0, stock[i]), _ceil(over / self.mass[i])) if self.mass[i] > 0 else 0
                change[i] -= count
                over -= count * self.mass[i]
            if over > _ROUNDING:
                return None
        for i, least in enumerate(self.low[task]):
            change[i] += max(0, -(stock[i] + change[i] + least))
        now = tuple(have + more for have, more in zip(stock, change, strict=True))
        return None if next(self.over(now, task), None) else tuple(change)

    def order(self, sequence: tuple[int, ...], least: tuple[int, int], looked: int) -> Order:
        """What this order takes. A task that no sending makes room for is done as if there were room."""
        stock, freight = self.start, []
        carried, debt, short, stuck = 0, [0] * len(stock), 0, []
        for at, task in enumerate(sequence):
            change = self.helped(stock, task)
            if change is None:
                stuck.append(task)
                change = (0,) * len(stock)
            freight += [Freight(at=at, kind=self.stuffs[i][0], place=self.stuffs[i][1], count=count)
                        for i, count in enumerate(change) if count]  # fmt: skip
            carried += sum(map(abs, change))
            debt = [old + new for old, new in zip(debt, change, strict=True)]
            short = max(short, sum(max(0, one) for one in debt))
            stock = self.after(tuple(have + more for have, more in zip(stock, change, strict=True)), task)
        return Order(sequence=sequence, freight=tuple(freight), short=short, carried=carried, least=least,
                     looked=looked, stuck=tuple(stuck))  # fmt: skip

    def is_hopeless(self, stock: tuple[int, ...], left: Sequence[int]) -> bool:
        """True where a task of those left can never be done without help, whatever goes before it."""
        if not left:
            return False
        gains = [sum(max(0, self.net[k][i]) for k in left) for i in range(len(stock))]
        for task in left:
            for i, have in enumerate(stock):
                if have + gains[i] - max(0, self.net[task][i]) + self.low[task][i] < 0:
                    return True
        for place, most in self.floors.most.items():
            on = self.on[place]
            worth = {k: sum(self.net[k][i] * self.mass[i] for i in on) for k in left}
            now = sum(stock[i] * self.mass[i] for i in on) + sum(min(0.0, one) for one in worth.values())
            for task in left:
                if place in self.peak[task] and now - min(0.0, worth[task]) + self.peak[task][place] > most + _ROUNDING:
                    return True
        return False

    def fewest_short(self) -> int:
        """Bricks that are short in any order: all kinds together at the end, or one where it is scarcest."""
        end = sum(max(0, -have - sum(one[i] for one in self.net)) for i, have in enumerate(self.start))
        return max([end, *(-self._best_left(i) for i in range(len(self.start)))])

    def least_sent(self) -> int:
        """Bricks that are sent off in any order: the last to come to a floor from which none is taken are too many."""
        sent = 0
        for place, most in self.floors.most.items():
            on = self.on[place]
            if any(one[i] < 0 for one in self.low for i in on) or not any(one[i] for one in self.net for i in on):
                continue
            end = sum((self.start[i] + sum(one[i] for one in self.net)) * self.mass[i] for i in on)
            heaviest = max(self.mass[i] for i in on)
            sent += max(0, _ceil((end - most) / heaviest)) if heaviest > 0 else 0
        return sent

    def _best_left(self, i: int) -> int:
        """The most that can be left of a stuff at the moment at which it is scarcest."""
        every = sum(one[i] for one in self.net)
        gains = sum(max(0, one[i]) for one in self.net)
        alone = [gains - max(0, net[i]) + low[i] for net, low in zip(self.net, self.low, strict=True)]
        return self.start[i] + min([every, *alone])


def _ceil(value: float) -> int:
    return int(-((-value + _ROUNDING) // 1))
