"""The stack that balances one set best over the heights at which it flies."""

from __future__ import annotations

import math
from collections.abc import Callable

from counterpoise.balance.stack import Stack, pipe_weight
from counterpoise.balance.travel import out_of_balance
from counterpoise.rigging import RiggedSet
from counterpoise.units.constants import STANDARD_GRAVITY as GRAVITY

_CLOSE = 1e-6  # [m]


def best_stack(rigged: RiggedSet) -> Stack:
    """The stack whose largest out of balance over the flying range is least; of two that tie, that of fewer bricks.

    The flying range is from where every piece hangs free of the deck to high trim, with the heights between at which a
    cable changes its slope. A set without pieces keeps its pipe weight. The counts are never below pipe weight, and
    small bricks, which are for the trim, are never more than weigh a large one. Whether it fits the arbor and stands
    at the deck is judged by the limits and by the replay, not here.
    """
    own = pipe_weight(rigged)
    if not rigged.pieces:
        return own
    low, high = extremes(rigged, own)
    at_pipe = own.mass(rigged)

    # Between these heights Δ runs straight, and each brick moves all of them alike: the least of the largest is where
    # the middle of the two extremes is nearest zero.
    def gained(stack: Stack) -> float:
        return GRAVITY * (stack.mass(rigged) - at_pipe) / rigged.purchase

    def largest(stack: Stack) -> float:
        return round(max(abs(low + gained(stack)), abs(high + gained(stack))), 6)

    def is_light(stack: Stack) -> bool:
        return (low + high) / 2 + gained(stack) < 0.0

    near = [stack for small in range(own.small, most_small_bricks(rigged) + 1)
            for stack in _either_side(Stack(own.bricks, small), is_light)]  # fmt: skip
    return min(near, key=lambda stack: (largest(stack), stack.count, stack))


def extremes(rigged: RiggedSet, stack: Stack) -> tuple[float, float]:
    """The least and the most out of balance over the flying range [N], weights at their best."""
    found = [out_of_balance(rigged, stack, height).best for height in balancing_heights(rigged)]
    return min(found), max(found)


def balances_between(rigged: RiggedSet, stack: Stack, low: float, high: float) -> float | None:
    """Where it balances between two heights of which Δ runs straight, or, where lines lean, steadily; None: nowhere.

    Where it balances at all of them it is the lower.
    """
    at_low, at_high = (out_of_balance(rigged, stack, height).best for height in (low, high))
    if at_low == at_high:
        return None if at_low else low
    if at_low * at_high > 0.0:
        return None
    if not rigged.runs:
        return low + (high - low) * at_low / (at_low - at_high)
    while high - low > _CLOSE:
        middle = (low + high) / 2.0
        is_there = out_of_balance(rigged, stack, middle).best * at_low <= 0.0
        low, high = (low, middle) if is_there else (middle, high)
    return (low + high) / 2.0


def most_small_bricks(rigged: RiggedSet) -> int:
    """Small bricks on an arbor at most, pipe weight's included: beyond it no more than weigh a large one."""
    if rigged.small is None:
        return rigged.small_pipe_bricks
    return rigged.small_pipe_bricks + math.floor(rigged.brick.mass / rigged.small.mass + 1e-9)


def balancing_heights(rigged: RiggedSet) -> list[float]:
    """The heights over which a set is balanced [m]: free of the deck to high trim, and where a cable changes slope."""
    free, kinks = rigged.clear, (at for cable in rigged.cables for at in cable.changes)
    return sorted({free, rigged.high, *(at for at in kinks if free < at < rigged.high)})


def _either_side(least: Stack, is_light: Callable[[Stack], bool]) -> tuple[Stack, Stack]:
    """The last stack that is too light and the first that is not, by large bricks alone; both from `least` up."""
    low, high = least.bricks, least.bricks + 1
    while is_light(Stack(high, least.small)):
        low, high = high, 2 * high
    while high - low > 1:
        between = (low + high) // 2
        low, high = (between, high) if is_light(Stack(between, least.small)) else (low, between)
    return Stack(low, least.small), Stack(high, least.small)
