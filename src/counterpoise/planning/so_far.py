"""A way that is being looked for, up to an act: what it asked so far, and how it came here."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from counterpoise.balance import Stack
from counterpoise.planning.holds import Pull

NO_BRIDGE = -1
Cost = tuple[int, float, int, int]  # visits, then the peak [N], then times at bricks, then bricks handled


class Doing(NamedTuple):
    """What a visit is at: at whose bricks, on or off, large or small ones."""

    crew: int = NO_BRIDGE
    sign: int = 0  # 0 at a bridge: nobody there
    is_small: bool = False


ARRIVED, AT_PIECES = Doing(), Doing(sign=1)


class Node(NamedTuple):
    """Batten height [m], how much of what is to be done is done, the stack, and what the visit is at."""

    height: float
    done: int
    stack: Stack
    doing: Doing


@dataclass(frozen=True, slots=True, eq=False)
class SoFar:
    """A way so far: what it asked, the most either side was heavy, and how it came here."""

    cost: Cost
    arbor: Pull
    batten: Pull
    node: Node
    moved: tuple[tuple[int, int], ...]  # large and small bricks from each bridge, onto the arbor
    before: SoFar | None

    def on(
        self, node: Node, pulls: Sequence[Pull] = (), visits: int = 0, moved: tuple[tuple[int, int], ...] | None = None
    ) -> SoFar:
        """One act further, after these moments as well."""
        arbor = max([self.arbor, *pulls], key=lambda one: one.arbor)
        batten = max([self.batten, *pulls], key=lambda one: one.batten)
        more = 0 if moved is None else 1
        starts = 1 if more and self.node.doing.crew == NO_BRIDGE else 0
        cost = (
            self.cost[0] + visits,
            round(max(arbor.arbor, batten.batten), 3),
            self.cost[2] + starts,
            self.cost[3] + more,
        )
        return SoFar(cost, arbor, batten, node, self.moved if moved is None else moved, self)
