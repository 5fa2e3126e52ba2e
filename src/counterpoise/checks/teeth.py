"""Weights of a piece at which the proposed count of bricks changes: there its balance is worst."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from counterpoise.balance import Stack, best_stack, extremes, most_small_bricks, pipe_weight
from counterpoise.rigging import RiggedPiece, RiggedSet
from counterpoise.units import STANDARD_GRAVITY as GRAVITY

EITHER_SIDE = 1e-3  # [kg]
WORST = 2  # of the steps from one count to the next, the widest that are looked at; beside them the last


def teeth_below(rigged: RiggedSet, piece: RiggedPiece, kg: float) -> Iterator[float]:
    """Weights [kg] below `kg` on either side of where the count changes, the widest steps and the last one.

    While the piece hangs free its weight moves Δ alike at every height of the flying range, so the middle of its
    extremes runs straight with the weight, and the count changes where two counts leave as much on either side. As
    much as they differ, so far it is then from balance: half the step between the two.
    """
    if any(part.joins > rigged.clear for part in piece.parts):
        return
    stack = best_stack(rigged)
    low, high = extremes(rigged, stack)
    own, ratio = pipe_weight(rigged), rigged.purchase
    masses = sorted({Stack(large, small).mass(rigged) for large in range(own.bricks, stack.bricks + 2)
                     for small in range(own.small, most_small_bricks(rigged) + 1)})  # fmt: skip
    now = piece.mass[1] + (low + high) / 2 / GRAVITY - stack.mass(rigged) / ratio
    steps = [(more - less, now + (less + more) / 2 / ratio) for less, more in itertools.pairwise(masses)]
    below = [step for step in steps if EITHER_SIDE < step[1] < kg]
    wide = sorted(below, key=lambda step: (-round(step[0], 6), -step[1]))[:WORST]
    for at in {at for _, at in (*wide, *below[-1:])}:
        yield from (at - EITHER_SIDE, at + EITHER_SIDE)
