"""Bricks for all sets of a hang from the stock of the house: by size and place, what is left, and what to ask for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from counterpoise.balance import Stack, best_stack, pipe_weight, stated_stack
from counterpoise.planning.stock.allocation import Allocation, allocate
from counterpoise.planning.stock.choices import added, demand
from counterpoise.rigging import BrickKind, RiggedHouse, RiggedSet


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
    have = {name: sum(house.bricks[name].stock.values()) for name in kinds}
    sets = [one for one in house.sets if one.pieces and not one.out_of_service]
    wanted = [stated_stack(one) or best_stack(one) for one in sets]
    short = _short(sets, wanted, house.bricks)
    demands = [demand(one, have) for one in sets]
    stated = [stack.count for one, stack in zip(sets, wanted, strict=True) if one.stated_bricks is not None]
    shares_out = bool(demands) and not (stated and _stated_short(sets, house.bricks))
    found = allocate(demands, list(have.values())) if shares_out else None
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
