"""In which order sets are worked so that bricks never run out and no bridge floor carries more than its posting.

Where no order does without help, the same search says how few bricks must be brought up or sent off, where, and before
which task. The budget is a count of steps, not a time: the same question has the same answer on every machine.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from counterpoise.planning.floors import Floors, Order, Task, Walk

BUDGET = 20_000  # steps; about a second on a slow machine
_SMALL = 60  # sets for which help is looked for however small the budget is


def in_this_order(tasks: Sequence[Task], floors: Floors, sequence: Sequence[int]) -> Order:
    """What an order takes: each brick is brought or sent as late as it can be, and no more than must be."""
    walk = Walk(tasks, floors)
    return walk.order(tuple(sequence), (0, 0), 0)


def find_order(tasks: Sequence[Task], floors: Floors, budget: int = BUDGET) -> Order:
    """The order nearest the given one of those that take least: first bricks that are not there, then bricks carried.

    Args:
        tasks: in the order of the house.
        floors: what lies where at the start.
        budget: steps that the search may take, 1 or more.

    Returns:
        The best order found, and what no order can do without.
    """
    return _Search(tasks, floors, max(1, budget)).best()


@dataclass(frozen=True, slots=True)
class _Part:
    """A part of an order: the tasks done as bits, what lies there, and what it took so far."""

    done: int
    stock: tuple[int, ...]
    debt: tuple[int, ...]
    short: int
    carried: int
    sequence: tuple[int, ...]


class _Search:
    """First without any help, one task after another in the given order; then with the least help."""

    def __init__(self, tasks: Sequence[Task], floors: Floors, budget: int) -> None:
        self.walk, self.tasks, self.budget, self.looked = Walk(tasks, floors), tasks, budget, 0
        self.before = [sum(1 << k for k in one.after) for one in tasks]
        self.dead: set[int] = set()
        # a look at what is left costs as the number of sets and of kinds and places; a step is that for 60 sets
        self.effort = 1 + len(tasks) * len(self.walk.stuffs) // 60

    def best(self) -> Order:
        plain = self.walk.order(self._plain(), (0, 0), 0)
        if not plain.needs_help:
            return plain
        short, sent = self.walk.fewest_short(), self.walk.least_sent()
        if short + sent == 0:
            found = self._without_help()
            if found is not None:
                return self.walk.order(found, (0, 0), self.looked)
        is_sure = self.looked < self.budget  # that no order does without help
        least = (short, max(short + sent, 1 if is_sure and self.tasks else 0))
        plain = replace(plain, least=least, looked=self.looked)
        if (plain.short, plain.carried) == least and not plain.stuck:
            return plain
        helped, is_whole = self._with_help()
        if helped is None:
            return plain
        cost = (helped.short, helped.carried)
        return self.walk.order(helped.sequence, cost if is_whole else min(least, cost), self.looked)

    def _ready(self, done: int) -> Iterator[int]:
        return (k for k in range(len(self.tasks)) if not done >> k & 1 and self.before[k] & ~done == 0)

    def _plain(self) -> tuple[int, ...]:
        """The given order, but for what must come before."""
        if not any(self.before):
            return tuple(range(len(self.tasks)))
        done, found = 0, []
        while (task := next(self._ready(done), None)) is not None:
            found.append(task)
            done |= 1 << task
        return tuple(found)

    def _without_help(self) -> tuple[int, ...] | None:
        """The first order that needs no help; what lies there depends only on what is done, so a dead end is one."""
        path: list[int] = []
        stocks, todo = [self.walk.start], [self._fitting(0, self.walk.start)]
        done, whole = 0, (1 << len(self.tasks)) - 1
        while todo:
            if done == whole:
                return tuple(path)
            task = next(todo[-1], None)
            if task is None or self.looked >= self.budget:
                self.dead.add(done)
                todo.pop()
                stocks.pop()
                if path:
                    done &= ~(1 << path.pop())
                continue
            stock, now = self.walk.after(stocks[-1], task), done | 1 << task
            self.looked += self.effort
            left = [k for k in range(len(self.tasks)) if not now >> k & 1]
            if now in self.dead or self.walk.is_hopeless(stock, left):
                self.dead.add(now)
                continue
            path.append(task)
            stocks.append(stock)
            todo.append(self._fitting(now, stock))
            done = now
        return None

    def _fitting(self, done: int, stock: tuple[int, ...]) -> Iterator[int]:
        return (k for k in self._ready(done)
                if not self.walk.is_short(stock, k) and next(self.walk.over(stock, k), None) is None)  # fmt: skip

    def _with_help(self) -> tuple[_Part | None, bool]:
        """The parts of orders of each length, the cheapest kept; and whether none had to be left out."""
        if len(self.tasks) ** 2 > self.budget and len(self.tasks) > _SMALL:
            return None, False
        zero = (0,) * len(self.walk.start)
        parts = [_Part(0, self.walk.start, zero, 0, 0, ())]
        width = max(4, self.budget // max(1, len(self.tasks) ** 2))
        is_whole = len({one[0] for one in self.walk.stuffs}) <= 1  # which kind is sent off is not tried out
        for _ in self.tasks:
            found: dict[tuple[int, tuple[int, ...]], _Part] = {}
            for part in parts:
                for new in self._onward(part):
                    old = found.get((new.done, new.debt))
                    if old is None or _cost(new) < _cost(old):
                        found[new.done, new.debt] = new
            parts = sorted(found.values(), key=_cost)
            is_whole = is_whole and len(parts) <= width
            parts = parts[:width]
        return (parts[0] if parts else None), is_whole

    def _onward(self, part: _Part) -> Iterator[_Part]:
        for task in self._ready(part.done):
            self.looked += 1
            change = self.walk.helped(part.stock, task)
            if change is None:
                continue
            stock = tuple(have + more for have, more in zip(part.stock, change, strict=True))
            debt = tuple(old + new for old, new in zip(part.debt, change, strict=True))
            yield _Part(part.done | 1 << task, self.walk.after(stock, task), debt,
                        max(part.short, sum(max(0, one) for one in debt)),
                        part.carried + sum(map(abs, change)), (*part.sequence, task))  # fmt: skip


def _cost(part: _Part) -> tuple[int, int, tuple[int, ...]]:
    return part.short, part.carried, part.sequence
