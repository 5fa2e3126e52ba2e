"""Bricks for all sets of a hang from the stock of the house: by size and place, what is left, and what to ask for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from counterpoise.balance import Stack, best_stack, extremes, fits, pipe_weight, smallest_mass, stated_stack
from counterpoise.planning.allocation import Allocation, Demand, allocate
from counterpoise.planning.ladders import Ladders
from counterpoise.rigging import BrickKind, RiggedHouse, RiggedSet
from counterpoise.units import STANDARD_GRAVITY


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """So many of one kind from one place."""

    kind: str
    place: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """What one set gets: the whole stack, what would balance it best, what comes from where, and what that leaves.

    `balance` is the middle of its out of balance over the flying range [N at the batten], + arbor-heavy: what bricks
    can change. The change over the travel comes on top. `is_stated` is true where the hang says the count.
    """

    label: str
    stack: Stack
    wanted: Stack
    taken: tuple[Taken, ...]
    balance: float
    is_stated: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class StockPlan:
    """Every set that carries something, what is left by kind and place, and what to ask for by kind.

    `short` is what is missing for every set to have what balances it best; with it `shares` is the least bad answer, of
    which `allocation` says how good it is proven to be, or empty where even the stated counts can not be had.
    `unknown` are the kinds and places whose count is not known: nothing is taken from there. `left_out` are sets
    whose balance can not be computed.
    """

    shares: tuple[Share, ...]
    left: Mapping[str, Mapping[str, int]]
    short: Mapping[str, int]
    allocation: Allocation | None
    unknown: tuple[tuple[str, str], ...]
    left_out: tuple[str, ...]


def share_stock(house: RiggedHouse) -> StockPlan:
    """Bricks for every set that carries something, from all places together.

    Sets whose hand lines are married are one. The largest out of balance is made least, then the sum of what is beyond
    half a set's smallest brick. Counts that the hang states are kept. Bridges give first, in the order of the house.
    """
    house = house.as_one
    kinds = list(house.bricks)
    have = [sum(house.bricks[name].stock.values()) for name in kinds]
    sets = [one for one in house.sets if one.pieces and not one.out_of_service]
    wanted = [stated_stack(one) or best_stack(one) for one in sets]
    short = _short(sets, wanted, house.bricks)
    demands = [_demand(one, kinds, have) for one in sets]
    stated = [stack.count for one, stack in zip(sets, wanted, strict=True) if one.stated_bricks is not None]
    found = allocate(demands, have) if demands and not (stated and _stated_short(sets, house.bricks)) else None
    left = {name: dict(house.bricks[name].stock) for name in kinds}
    shares = []
    for at, (one, best) in enumerate(zip(sets, wanted, strict=True) if found else ()):
        counts = dict(zip(kinds, found.counts[at], strict=True)) if found else {}
        shares.append(_share(house, one, best, counts, found.balance[at] if found else 0.0, left))
    carrying = {each.label for each in house.hang.hung}
    computed = {one.label for one in house.sets}
    out = tuple(one.label for one in house.house.sets if one.label in carrying - computed and one.rigged == _ARBOR)
    unknown = tuple((one.brick, place) for one in house.house.bricks for place, count in one.stock.items()
                    if count.best is None)  # fmt: skip
    return StockPlan(shares=tuple(shares), left=left, short=short, allocation=found, unknown=unknown, left_out=out)


_ARBOR = "counterweight"


def _short(sets: Sequence[RiggedSet], wanted: Sequence[Stack], bricks: Mapping[str, BrickKind]) -> dict[str, int]:
    """By kind, how many are missing for every set to have what it wants."""
    need = dict.fromkeys(bricks, 0)
    for one, stack in zip(sets, wanted, strict=True):
        for name, count in added(one, stack).items():
            need[name] += max(0, count)
    missing = {name: count - sum(bricks[name].stock.values()) for name, count in need.items()}
    return {name: count for name, count in missing.items() if count > 0}


def _stated_short(sets: Sequence[RiggedSet], bricks: Mapping[str, BrickKind]) -> bool:
    """True where the counts that the hang states are more than there are."""
    stated = [(one, stack) for one in sets if (stack := stated_stack(one)) is not None]
    return bool(_short([one for one, _ in stated], [stack for _, stack in stated], bricks))


def added(rigged: RiggedSet, stack: Stack) -> dict[str, int]:
    """By kind, how many of a stack are beside pipe weight, on all arbors; below 0 where some of that is to come off."""
    own = pipe_weight(rigged)
    more = {rigged.brick.name: (stack.bricks - own.bricks) * rigged.abreast}
    if rigged.small is not None:
        more[rigged.small.name] = (stack.small - own.small) * rigged.abreast
    return more


def _demand(rigged: RiggedSet, kinds: Sequence[str], have: Sequence[int]) -> Demand:
    """Every stack that the set may take, with what it leaves out of balance in the middle of its flying range."""
    own = pipe_weight(rigged)
    per_mass = STANDARD_GRAVITY / rigged.purchase
    bare = sum(extremes(rigged, own)) / 2
    stated = stated_stack(rigged)
    stacks = [stated] if stated is not None else _stacks(rigged, bare, _abreast(rigged, kinds, have))
    counts = np.zeros((len(stacks), len(kinds)), dtype=np.int64)
    for at, stack in enumerate(stacks):
        for name, count in added(rigged, stack).items():
            counts[at, kinds.index(name)] = max(0, count)
    left = np.array([bare + per_mass * (stack.mass(rigged) - own.mass(rigged)) for stack in stacks])
    weights = dict.fromkeys(kinds, 0.0) | {
        brick.name: brick.mass * per_mass for brick in (rigged.brick, rigged.small) if brick is not None
    }
    spare = smallest_mass(rigged) * per_mass / 2
    return Demand(label=rigged.label, weights=tuple(weights.values()), ladders=Ladders.fixed(counts, left, spare))


def _abreast(rigged: RiggedSet, kinds: Sequence[str], have: Sequence[int]) -> dict[str, int]:
    """By kind, how many rounds of one brick on each arbor there are."""
    return {kind: count // rigged.abreast for kind, count in zip(kinds, have, strict=True)}


def _stacks(rigged: RiggedSet, bare: float, have: Mapping[str, int]) -> list[Stack]:
    """From pipe weight up: all that the arbor takes and the stock has, until one more only makes it too heavy."""
    own = pipe_weight(rigged)
    per_mass = STANDARD_GRAVITY / rigged.purchase
    found = []
    most_small = have.get(rigged.small.name, 0) if rigged.small else 0
    for large in range(have[rigged.brick.name] + 1):
        for small in range(most_small + 1):
            stack = Stack(own.bricks + large, own.small + small)
            left = bare + per_mass * (stack.mass(rigged) - own.mass(rigged))
            if not fits(rigged, stack) and large + small > 0:
                break
            found.append(stack)
            if left >= 0.0:
                break
        if bare + per_mass * large * rigged.brick.mass >= 0.0:
            break
    return found


def _share(
    house: RiggedHouse, rigged: RiggedSet, wanted: Stack, counts: Mapping[str, int], balance: float,
    left: dict[str, dict[str, int]],
) -> Share:  # fmt: skip
    own = pipe_weight(rigged)
    stated = stated_stack(rigged)
    small = counts.get(rigged.small.name, 0) if rigged.small else 0
    stack = stated or Stack(
        own.bricks + counts[rigged.brick.name] // rigged.abreast, own.small + small // rigged.abreast
    )
    taken = []
    places = [one.name for one in house.bridges]
    for name, count in counts.items():
        for place in [*places, *(each for each in left[name] if each not in places)]:
            here = min(count, left[name].get(place, 0))
            if here > 0:
                taken.append(Taken(kind=name, place=place, count=here))
                left[name][place] -= here
                count -= here
    return Share(label=rigged.label, stack=stack, wanted=wanted, taken=tuple(taken), balance=balance,
                 is_stated=stated is not None)  # fmt: skip
