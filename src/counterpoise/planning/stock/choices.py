"""The stacks that sets may take beside their pipe weight, as ladders: so many large bricks, and small ones on top.

From pipe weight up: all that the arbor takes and the stock has, until one more only makes it too heavy. Where a plate
comes on between two rungs the ladder ends, and another begins.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from counterpoise.balance import HEIGHT_PLAY, Stack, added, extremes, fits, pipe_weight, smallest_mass
from counterpoise.planning.stock.allocation import Demand
from counterpoise.planning.stock.at_prices import SAME
from counterpoise.planning.stock.columns import Counts, Figures, Yes
from counterpoise.planning.stock.ladders import Ladders
from counterpoise.planning.stock.many_stacks import Arbors, masses_and_heights
from counterpoise.rigging import RiggedSet
from counterpoise.units import STANDARD_GRAVITY

_PLENTY = 10_000  # bricks of a kind


def demands(
    sets: Sequence[RiggedSet], stock: Mapping[str, int], only: Sequence[Stack | None] = ()
) -> list[Demand]:  # fmt: skip
    """What each may take of a stock by kind, and what that leaves in the middle of its flying range [N at the batten].

    Of a set for which `only` has a stack that is the only choice, whatever there is.
    """
    fixed = [*only, *[None] * (len(sets) - len(only))]
    ladders = iter(_ladders([one for one, stack in zip(sets, fixed, strict=True) if stack is None], stock))
    return [Demand(label=one.label, weights=_weights(one, stock),
                   ladders=next(ladders) if stack is None else _only(one, stack, stock))
            for one, stack in zip(sets, fixed, strict=True)]  # fmt: skip


def best_that_fits(rigged: RiggedSet, best: Stack) -> Stack:
    """The stack that balances a set best, or where that is too high for its arbor the nearest to it that is not."""
    if fits(rigged, best):
        return best
    own, kinds = pipe_weight(rigged), {one.name: _PLENTY for one in (rigged.brick, rigged.small) if one is not None}
    near = demands([rigged], kinds)[0].ladders.nearest()
    counts = near.counts[int(np.argmin(near.counts.sum(axis=1)))] // rigged.abreast
    return Stack(own.bricks + int(counts[0]), own.small + (int(counts[1]) if rigged.small else 0))


def _pull(rigged: RiggedSet) -> float:
    """Of a mass on the arbor, at the batten [N/kg]."""
    return STANDARD_GRAVITY / rigged.purchase


def _bare(rigged: RiggedSet) -> float:
    """Out of balance with pipe weight alone [N], in the middle."""
    return sum(extremes(rigged, pipe_weight(rigged))) / 2


def _weights(rigged: RiggedSet, stock: Mapping[str, int]) -> tuple[float, ...]:
    of_kind = {one.name: one.mass * _pull(rigged) / rigged.abreast
               for one in (rigged.brick, rigged.small) if one is not None}  # fmt: skip
    return tuple(of_kind.get(kind, 0.0) for kind in stock)


def _only(rigged: RiggedSet, stack: Stack, stock: Mapping[str, int]) -> Ladders:
    more = added(rigged, stack)
    counts = np.array([[max(0, more.get(kind, 0)) for kind in stock]], dtype=np.int64)
    left = _bare(rigged) + _pull(rigged) * (stack.mass(rigged) - pipe_weight(rigged).mass(rigged))
    return Ladders.fixed(counts, np.array([left]), smallest_mass(rigged) * _pull(rigged) / 2)


def _ladders(sets: Sequence[RiggedSet], stock: Mapping[str, int]) -> list[Ladders]:
    """Of each all that may be best for some stock: of two stacks as near, or of which that with less is nearer, one."""
    if not sets:
        return []
    wanted = _Wanted.of(sets, stock)
    cells = _cells(wanted)
    left, height = _as_stacked(wanted, cells)
    foot = cells.rungs == 0
    lifts = np.append(np.inf, left[1:] - left[:-1])  # what the last brick does, and a plate that comes with it
    lifts[foot] = np.append(np.inf, left[foot][1:] - left[foot][:-1])
    lifts[foot & (cells.large == 0)] = np.inf
    is_in = height <= wanted.arbors.usable[cells.owner] + HEIGHT_PLAY
    keep = np.flatnonzero((is_in & (left <= lifts / 2 + SAME)) | (foot & (cells.large == 0)))
    cells, left, lifts = cells.at(keep), left[keep], lifts[keep]
    starts = np.flatnonzero((cells.rungs == 0) | (lifts > wanted.step[cells.owner] + SAME))
    most = np.append(starts[1:], len(left)) - starts - 1 + cells.more[starts]
    at, owner = np.arange(len(starts)), cells.owner[starts]
    counts = np.zeros((len(starts), len(stock)), dtype=np.int64)
    counts[at, wanted.large_kind[owner]] = cells.large[starts] * wanted.abreast[owner]
    counts[at, wanted.kind[owner]] += cells.rungs[starts] * wanted.abreast[owner]
    whole = Ladders(foot=counts, left=left[starts], kind=wanted.kind[owner], by=wanted.abreast[owner],
                    step=wanted.step[owner], most=most, lightest=lifts[starts], spare=wanted.spare[owner],
                    floor=np.zeros(len(owner)), owner=owner,
                    starts=np.flatnonzero(np.diff(owner, prepend=-1)))  # fmt: skip
    return whole.split()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wanted:
    """What sets lack and take, one row a set: `kind` is that of the rungs, the small brick's where there is one.

    `bare` is what pipe weight leaves out of balance [N], `own` its mass [kg], `step` what a rung lifts, `large_step` a
    large brick.
    """

    arbors: Arbors
    bare: Figures
    own: Figures
    pull: Figures
    abreast: Counts
    large_kind: Counts
    kind: Counts
    has_small: Yes
    large_step: Figures
    step: Figures
    spare: Figures
    rounds: Counts  # of all kinds: one column a kind

    @classmethod
    def of(cls, sets: Sequence[RiggedSet], stock: Mapping[str, int]) -> _Wanted:
        kinds, arbors = {kind: at for at, kind in enumerate(stock)}, Arbors.of(sets)
        pull, abreast = np.array([_pull(one) for one in sets]), np.array([one.abreast for one in sets])
        has_small = np.array([one.small is not None for one in sets])
        rung_mass = np.where(has_small, arbors.small_mass, arbors.large_mass)
        own, _ = masses_and_heights(arbors, arbors.pipe, arbors.small_pipe)
        return cls(arbors=arbors, bare=np.array([_bare(one) for one in sets]), own=own, pull=pull, abreast=abreast,
                   large_kind=np.array([kinds[one.brick.name] for one in sets]),
                   kind=np.array([kinds[(one.small or one.brick).name] for one in sets]), has_small=has_small,
                   large_step=arbors.large_mass * pull, step=rung_mass * pull,
                   spare=np.array([smallest_mass(one) for one in sets]) * pull / 2,
                   rounds=np.array(list(stock.values())) // abreast[:, None])  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Cells:
    """Stacks, one row each: of which set, with how many large bricks below the rungs, on which rung.

    `more` are rungs above it that fit and bring no plate that weighs anything.
    """

    owner: Counts
    large: Counts
    rungs: Counts
    more: Counts

    def at(self, rows: Counts) -> _Cells:
        """Some of them."""
        return _Cells(self.owner[rows], self.large[rows], self.rungs[rows], self.more[rows])


def _cells(wanted: _Wanted) -> _Cells:
    """As far up as may be wanted if no plate came on; rung by rung only where one does, or the arbor is too low.

    Plates never get fewer as bricks are added, so between the first and the last rung nothing comes on where nothing
    has at the last.
    """
    each = np.arange(len(wanted.bare))
    below = _until(-wanted.bare, wanted.large_step, wanted.rounds[each, wanted.large_kind])
    owner, large = _counted(np.where(wanted.has_small, below, 0))
    step, none = wanted.step[owner], np.zeros_like(owner)
    most = _until(
        -wanted.bare[owner] - large * wanted.large_step[owner], step, wanted.rounds[owner, wanted.kind[owner]]
    )
    at_foot, _ = _as_stacked(wanted, _Cells(owner, large, none, none))
    at_top, height = _as_stacked(wanted, _Cells(owner, large, most, none))
    is_plain = (at_top - at_foot <= most * step + SAME) & (height <= wanted.arbors.usable[owner] + HEIGHT_PLAY)
    until = np.maximum(0.0, np.floor((step / 2 + SAME - at_foot) / step)).astype(np.int64)  # half a rung too heavy
    row, rungs = _counted(np.where(is_plain, 0, most))
    return _Cells(owner[row], large[row], rungs, np.where(is_plain, np.minimum(most, until), 0)[row])


def _until(lacks: Figures, step: Figures, there: Counts) -> Counts:
    """How many steps make up for what is lacking, of those that there are."""
    return np.minimum(there, np.maximum(0.0, np.ceil(lacks / step))).astype(np.int64)


def _counted(most: Counts) -> tuple[Counts, Counts]:
    """Of which row it is, and the count: every one from none to so many."""
    spread = most + 1
    first = np.cumsum(spread) - spread
    return np.repeat(np.arange(len(spread)), spread), np.arange(spread.sum()) - np.repeat(first, spread)


def _as_stacked(wanted: _Wanted, cells: _Cells) -> tuple[Figures, Figures]:
    """What each leaves out of balance [N at the batten], and how high it is [m]."""
    arbors, owner = wanted.arbors, cells.owner
    small = np.where(wanted.has_small[owner], cells.rungs, 0)
    bricks = cells.large + cells.rungs - small
    mass, height = masses_and_heights(arbors.at(owner), arbors.pipe[owner] + bricks, arbors.small_pipe[owner] + small)
    return wanted.bare[owner] + wanted.pull[owner] * (mass - wanted.own[owner]), height
