"""What may turn out to be right where a weight is not known well: bricks more or fewer after the set was felt."""

from __future__ import annotations

import math

from counterpoise.balance import Stack, fits, on_batten, out_of_balance, slant, smallest_mass
from counterpoise.planning.holds import NEAR, heights_between, lock_limit, pull
from counterpoise.planning.replay import in_reach
from counterpoise.planning.state import State
from counterpoise.planning.windows import places
from counterpoise.rigging import RiggedHouse, RiggedSet
from counterpoise.units import STANDARD_GRAVITY


def is_certain(rigged: RiggedSet) -> bool:
    """True where every piece is known well."""
    return all(one.is_certain for one in rigged.pieces)


def is_felt_where_loaded(house: RiggedHouse, rigged: RiggedSet, stack: Stack, height: float, goal: float) -> bool:
    """True where a float at a height leaves the set within the lock all the way from there to another [m].

    What a float leaves is half the smallest brick either way there, and what the travel adds. On the deck, or partly on
    it, a set tells nothing of its weight.
    """
    if any(one.clear > height + NEAR for one in rigged.pieces):
        return False
    less, more = _changes(rigged, stack, height, (height, goal))
    arbor, batten = lock_limit(house, rigged)
    half = _half(rigged)
    return half + more <= arbor and half - less <= batten


def in_doubt(
    house: RiggedHouse, rigged: RiggedSet, state: State, reached: float, bridge: str, goal: float
) -> tuple[int, int]:
    """How many bricks more, and how many fewer, may turn out to be right; 0 where a brick might be one too many.

    A brick is moved only where the set was felt half a brick heavy or more, so it leaves half a brick the other way at
    most where it was felt; that and the change over all that it flies from then on, to `reached`, where the arbor is in
    reach of the bridge, and to `goal`, where it ends [m], is to be within the lock.
    """
    on = state.sets[rigged.label]
    felt = pull(rigged, on.stack, on.height, on.pieces(rigged))
    half = _half(rigged)
    less, more_so = _changes(rigged, on.stack, on.height, (reached, on.height, goal))
    arbor, batten = lock_limit(house, rigged)
    crew = next((one for one in places(house) if one.name == bridge), None)
    kind = rigged.small or rigged.brick
    stock = state.stock.get(kind.name, {}).get(bridge, 0) // rigged.abreast
    more = fewer = 0
    if crew is None:
        return 0, 0
    if half + more_so <= arbor:
        while more < min(stock, math.floor(felt.batten / half / 2 + 0.5)):
            before, after = _with_more(rigged, on.stack, more), _with_more(rigged, on.stack, more + 1)
            if not fits(rigged, after) or not in_reach(rigged, crew, before, after, reached):
                break
            more += 1
    if half - less <= batten:
        while fewer < min(_may_come_off(rigged, on.stack), math.floor(felt.arbor / half / 2 + 0.5)):
            before, after = _with_more(rigged, on.stack, -fewer), _with_more(rigged, on.stack, -fewer - 1)
            if not in_reach(rigged, crew, before, after, reached):
                break
            fewer += 1
    return more, fewer


def _half(rigged: RiggedSet) -> float:
    """Half the smallest brick, as felt at the batten [N]."""
    return STANDARD_GRAVITY * smallest_mass(rigged) / rigged.purchase / 2


def _changes(rigged: RiggedSet, stack: Stack, here: float, to: tuple[float, ...]) -> tuple[float, float]:
    """The least and the most by which the arbor is heavier anywhere between these heights than here [N].

    What leaning ropes pull more than hangs is felt here too, but not known: of the change it may be all or nothing.
    """
    now = out_of_balance(rigged, stack, here)
    low, high = min(here, *to), max(here, *to)
    spans = [out_of_balance(rigged, stack, at) for at in heights_between(low, high, rigged.pieces, rigged.cables)]
    changes = [change for one in spans for change in (one.low - now.low, one.high - now.high)]
    heavy, (_, most) = on_batten(rigged, here, rigged.pieces)[2], slant(rigged, here)
    hidden = STANDARD_GRAVITY * heavy * (most - 1.0)
    return min(changes) - hidden, max(changes) + hidden


def _with_more(rigged: RiggedSet, stack: Stack, count: int) -> Stack:
    """With so many more of the smallest brick that it takes."""
    return Stack(stack.bricks, stack.small + count) if rigged.small else Stack(stack.bricks + count)


def _may_come_off(rigged: RiggedSet, stack: Stack) -> int:
    """Of the smallest brick, how many are on beyond pipe weight."""
    return stack.small - rigged.small_pipe_bricks if rigged.small else stack.bricks - rigged.pipe_bricks
