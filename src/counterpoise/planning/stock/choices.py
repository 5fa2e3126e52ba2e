"""The stacks that a set may take beside its pipe weight, as ladders: so many large bricks, and small ones on top.

From pipe weight up: all that the arbor takes and the stock has, until one more only makes it too heavy. Where a plate
comes on between two rungs the ladder ends, and another begins.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from counterpoise.balance import HEIGHT_PLAY, Stack, extremes, pipe_weight, smallest_mass, stated_stack
from counterpoise.planning.stock.allocation import Demand
from counterpoise.planning.stock.at_prices import SAME
from counterpoise.planning.stock.columns import Counts, Figures
from counterpoise.planning.stock.ladders import Ladders
from counterpoise.planning.stock.many_stacks import masses_and_heights
from counterpoise.rigging import RiggedSet
from counterpoise.units import STANDARD_GRAVITY


def added(rigged: RiggedSet, stack: Stack) -> dict[str, int]:
    """By kind, how many of a stack are beside pipe weight, on all arbors; below 0 where some of that is to come off."""
    own = pipe_weight(rigged)
    more = {rigged.brick.name: (stack.bricks - own.bricks) * rigged.abreast}
    if rigged.small is not None:
        more[rigged.small.name] = (stack.small - own.small) * rigged.abreast
    return more


def demand(rigged: RiggedSet, stock: Mapping[str, int]) -> Demand:
    """What a set may take of a stock by kind, and what that leaves in the middle of its flying range [N at the batten].

    A count that the hang states is its only choice, whatever there is.
    """
    pull = STANDARD_GRAVITY / rigged.purchase  # of a mass on the arbor [N/kg]
    weights = dict.fromkeys(stock, 0.0) | {
        brick.name: brick.mass * pull / rigged.abreast for brick in (rigged.brick, rigged.small) if brick is not None
    }
    bare = sum(extremes(rigged, pipe_weight(rigged))) / 2
    stated = stated_stack(rigged)
    found = _only(rigged, stated, stock, bare, pull) if stated is not None else _ladders(rigged, stock, bare, pull)
    return Demand(label=rigged.label, weights=tuple(weights.values()), ladders=found)


def _only(rigged: RiggedSet, stack: Stack, stock: Mapping[str, int], bare: float, pull: float) -> Ladders:
    more = added(rigged, stack)
    counts = np.array([[max(0, more.get(kind, 0)) for kind in stock]], dtype=np.int64)
    left = bare + pull * (stack.mass(rigged) - pipe_weight(rigged).mass(rigged))
    return Ladders.fixed(counts, np.array([left]), smallest_mass(rigged) * pull / 2)


def _ladders(rigged: RiggedSet, stock: Mapping[str, int], bare: float, pull: float) -> Ladders:
    """All that may be best for some stock: of two stacks that are as near, or nearer with less, only the lower."""
    climbed = rigged.small or rigged.brick
    large, rungs = _cells(rigged, stock, bare, pull)
    left, height = _as_stacked(rigged, large, rungs, bare, pull)
    foot = rungs == 0
    lifts = np.diff(left, prepend=np.nan)  # what the last brick does, and a plate that comes with it
    lifts[foot] = np.diff(left[foot], prepend=-np.inf)
    fits = height <= rigged.usable_height + HEIGHT_PLAY
    keep = np.flatnonzero((fits & (left <= lifts / 2 + SAME)) | (foot & (large == 0)))
    large, rungs, left, lifts = large[keep], rungs[keep], left[keep], lifts[keep]
    step = climbed.mass * pull
    starts = np.flatnonzero((rungs == 0) | (lifts > step + SAME))
    most = np.diff(np.append(starts, len(left))) - 1
    kinds = list(stock)
    counts = np.zeros((len(starts), len(kinds)), dtype=np.int64)
    counts[:, kinds.index(rigged.brick.name)] = large[starts] * rigged.abreast
    counts[:, kinds.index(climbed.name)] += rungs[starts] * rigged.abreast
    return Ladders.of_one(counts, left[starts], kind=kinds.index(climbed.name), by=rigged.abreast, step=step, most=most,
                          lightest=lifts[starts], spare=smallest_mass(rigged) * pull / 2)  # fmt: skip


def _cells(rigged: RiggedSet, stock: Mapping[str, int], bare: float, pull: float) -> tuple[Counts, Counts]:
    """Counts of large bricks, and of rungs on each: as far up as may be wanted if no plate came on."""
    rounds = {kind: count // rigged.abreast for kind, count in stock.items()}
    if rigged.small is None:
        rungs = np.arange(1 + _until(-bare, rigged.brick.mass * pull, rounds[rigged.brick.name]))
        return np.zeros_like(rungs), rungs
    large = np.arange(1 + _until(-bare, rigged.brick.mass * pull, rounds[rigged.brick.name]))
    lacks = -bare - large * (rigged.brick.mass * pull)
    spread = 1 + np.clip(np.ceil(lacks / (rigged.small.mass * pull)), 0, rounds[rigged.small.name]).astype(np.int64)
    ends = np.cumsum(spread)
    return np.repeat(large, spread), np.arange(ends[-1]) - np.repeat(ends - spread, spread)


def _until(lack: float, step: float, there: int) -> int:
    return int(min(there, max(0.0, np.ceil(lack / step))))


def _as_stacked(rigged: RiggedSet, large: Counts, rungs: Counts, bare: float, pull: float) -> tuple[Figures, Figures]:
    """What each leaves out of balance [N at the batten], and how high it is [m]."""
    own = pipe_weight(rigged)
    on_top = (own.bricks + large, own.small + rungs) if rigged.small else (own.bricks + rungs, 0 * rungs)
    mass, height = masses_and_heights(rigged, *on_top)
    return bare + pull * (mass - own.mass(rigged)), height
