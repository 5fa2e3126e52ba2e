"""From which bridge each set is worked, where more than one reaches it, so that no bridge runs out or is overloaded."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from counterpoise.planning.floors import Floors, Stuff, Task
from counterpoise.planning.order import BUDGET

_Cost = tuple[int, float, int]  # bricks short, mass too much on the floors at the end [kg], sets not worked as proposed


def choose_bridges(ways: Sequence[Sequence[Task]], floors: Floors, budget: int = BUDGET) -> tuple[int, ...]:
    """Which of its ways each set takes, for a call in which all sets take bricks, or all give them back.

    Args:
        ways: of each set the ways in which it can be worked, the proposed one first; one bridge a way.
        floors: what lies where at the start.
        budget: steps that the search may take.

    Returns:
        The place of the way in the list of each set: fewest bricks short, then least overload, then fewest changes.

    Sets are not split between two bridges; a better mix of that kind is not looked for.
    """
    return _Choice(ways, floors, budget).best()


class _Choice:
    """Large sets first; a branch is left where it is no better than the best so far, for nothing gets less later."""

    def __init__(self, ways: Sequence[Sequence[Task]], floors: Floors, budget: int) -> None:
        self.ways, self.floors, self.budget = ways, floors, budget
        self.open = sorted((at for at, one in enumerate(ways) if len(one) > 1),
                           key=lambda at: -max(sum(map(abs, way.net.values())) for way in ways[at]))  # fmt: skip
        self.chosen = [0] * len(ways)
        # bricks that are only taken leave every floor lighter than it is, and no order of ways changes that
        self.gives = all(count >= 0 for one in ways for way in one for count in way.net.values())
        self.stock = dict(floors.stock)
        for at, one in enumerate(ways):
            if at not in self.open:
                self._put(one[0].net, 1)

    def best(self) -> tuple[int, ...]:
        found = self._greedy()
        if found[0][:2] == (0, 0.0):
            return found[1]
        self.found, self.looked = found, 0
        self._deeper(0, 0)
        return self.found[1]

    def _put(self, net: Mapping[Stuff, int], sign: int) -> None:
        for stuff, count in net.items():
            self.stock[stuff] = self.stock.get(stuff, 0) + sign * count

    def _cost(self, changed: int) -> _Cost:
        short = sum(max(0, -count) for count in self.stock.values())
        if not self.gives:
            return short, 0.0, changed
        carried: dict[str, float] = {}
        for (kind, place), count in self.stock.items():
            carried[place] = carried.get(place, 0.0) + max(0, count) * self.floors.mass.get(kind, 0.0)
        over = sum(max(0.0, mass - self.floors.most.get(place, mass)) for place, mass in carried.items())
        return short, round(over, 6), changed

    def _greedy(self) -> tuple[_Cost, tuple[int, ...]]:
        """As proposed while that goes; else the way that costs least at once, on the fullest floor."""
        plain = list(self.chosen)
        for at in self.open:
            self._put(self.ways[at][0].net, 1)
        cost = self._cost(0)
        for at in self.open:
            self._put(self.ways[at][0].net, -1)
        if cost[:2] == (0, 0.0):
            return cost, tuple(plain)
        changed = 0
        for at in self.open:
            plain[at] = min(range(len(self.ways[at])), key=lambda way: (*self._tried(at, way), way))
            changed += plain[at] > 0
            self._put(self.ways[at][plain[at]].net, 1)
        cost = self._cost(changed)
        for at in self.open:
            self._put(self.ways[at][plain[at]].net, -1)
        return cost, tuple(plain)

    def _tried(self, at: int, way: int) -> tuple[int, float, int]:
        net = self.ways[at][way].net
        self._put(net, 1)
        short, over, _ = self._cost(0)
        room = min((self.stock[stuff] for stuff in net), default=0)
        self._put(net, -1)
        return short, over, -room

    def _deeper(self, depth: int, changed: int) -> None:
        self.looked += 1
        cost = self._cost(changed)
        if self.looked > self.budget or cost >= self.found[0]:
            return
        if depth == len(self.open):
            self.found = (cost, tuple(self.chosen))
            return
        at = self.open[depth]
        for way in sorted(range(len(self.ways[at])), key=lambda way: (*self._tried(at, way), way)):
            self.chosen[at] = way
            self._put(self.ways[at][way].net, 1)
            self._deeper(depth + 1, changed + (way > 0))
            self._put(self.ways[at][way].net, -1)
            if self.found[0][:2] == (0, 0.0) or self.looked > self.budget:
                break
        self.chosen[at] = 0
