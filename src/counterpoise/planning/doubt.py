"""What may turn out to be right where a weight is not known well: bricks more or fewer after the set was felt."""

from __future__ import annotations

import math

from counterpoise.balance import Stack, fits, out_of_balance, smallest_mass
from counterpoise.planning.holds import heights_between, lock_limit, pull
from counterpoise.planning.replay import in_reach
from counterpoise.planning.state import State
from counterpoise.rigging import RiggedHouse, RiggedSet
from counterpoise.units import STANDARD_GRAVITY


def is_certain(rigged: RiggedSet) -> bool:
    """True where every piece is known well."""
    return all(one.is_certain for one in rigged.pieces)


def in_doubt(house: RiggedHouse, rigged: RiggedSet, state: State, reached: float, bridge: str) -> tuple[int, int]:
    """How many bricks more, and how many fewer, may turn out to be right; 0 where a brick might be one too many.

    A brick is moved only where the set was felt half a brick heavy or more, so it leaves half a brick the other way at
    most where it was felt, and that and the change over the travel at `reached`, where the arbor is in reach [m].
    """
    on = state.sets[rigged.label]
    felt = pull(rigged, on.stack, on.height, on.pieces(rigged))
    each = STANDARD_GRAVITY * smallest_mass(rigged) / rigged.purchase
    here = out_of_balance(rigged, on.stack, on.height)
    spans = [
        out_of_balance(rigged, on.stack, height)
        for height in heights_between(reached, on.height, rigged.pieces, rigged.cables)
    ]
    changes = [change for one in spans for change in (one.low - here.low, one.high - here.high)]
    arbor, batten = lock_limit(house, rigged)
    crew = next((one for one in house.bridges if one.name == bridge), None)
    kind = rigged.small or rigged.brick
    stock = state.stock.get(kind.name, {}).get(bridge, 0) // rigged.abreast
    more = fewer = 0
    if each / 2 + max(changes) <= arbor:
        while crew is not None and more < min(stock, math.floor(felt.batten / each + 0.5)):
            before, after = _with_more(rigged, on.stack, more), _with_more(rigged, on.stack, more + 1)
            if not fits(rigged, after) or not in_reach(rigged, crew, before, after, reached):
                break
            more += 1
    if each / 2 - min(changes) <= batten:
        fewer = min(math.floor(felt.arbor / each + 0.5), _may_come_off(rigged, on.stack))
    return more, fewer


def _with_more(rigged: RiggedSet, stack: Stack, count: int) -> Stack:
    """With so many more of the smallest brick that it takes."""
    return Stack(stack.bricks, stack.small + count) if rigged.small else Stack(stack.bricks + count)


def _may_come_off(rigged: RiggedSet, stack: Stack) -> int:
    """Of the smallest brick, how many are on beyond pipe weight."""
    return stack.small - rigged.small_pipe_bricks if rigged.small else stack.bricks - rigged.pipe_bricks
