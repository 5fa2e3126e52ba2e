"""Bricks for all sets of a hang from the stock of the house: by size and place, what is left, and what to ask for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from counterpoise.balance import Stack, best_stack, pipe_weight, stated_stack
from counterpoise.planning.stock.allocation import Allocation, Demand, allocate
from counterpoise.planning.stock.choices import added, best_that_fits, demands
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

    `wanted` is the best that its arbor takes, `ideal` the best if it took any. `balance` is the middle of its out of
    balance over the flying range [N at the batten], + arbor-heavy: what bricks can change. The change over the travel
    comes on top. `is_stated` is true where the hang says the count.
    """

    label: str
    stack: Stack
    wanted: Stack
    ideal: Stack
    taken: tuple[Taken, ...]
    balance: float
    is_stated: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class StockPlan:
    """Every set that carries something, what is left by kind and place, and what to ask for by kind.

    `short` is what is missing, beside what is known to be there, for every set to have the best that its arbor takes;
    with it `shares` is the least bad answer, of which `allocation` says how good it is proven to be, or empty where
    even the stated counts can not be had. `unknown` are the kinds and places whose count is not known, the place empty
    where none is written: nothing is taken from there. `left_out` are sets that get nothing here, and why.
    """

    shares: tuple[Share, ...]
    left: Mapping[str, Mapping[str, int]]
    short: Mapping[str, int]
    allocation: Allocation | None
    unknown: tuple[tuple[str, str], ...]
    left_out: Mapping[str, str]


def share_stock(house: RiggedHouse) -> StockPlan:
    """Bricks for every set that carries something, from all places together.

    Sets whose hand lines are married are one, and get whole rounds from one place each. Counts that the hang states are
    kept. Where there is enough every other set has the best that its arbor takes. Else the largest out of balance is
    made least, then the sum of what is beyond half a set's smallest brick. Bridges give first, in the order of the
    house.
    """
    house = house.as_one
    have = {name: sum(brick.stock.values()) for name, brick in house.bricks.items()}
    left_out = _left_out(house)
    sets = [one for one in house.sets if one.label not in left_out and (one.pieces or one.stated_bricks is not None)]
    stated = [stated_stack(one) for one in sets]
    ideal = [told or best_stack(one) for one, told in zip(sets, stated, strict=True)]
    wanted = [told or best_that_fits(one, best) for one, told, best in zip(sets, stated, ideal, strict=True)]
    short = _short(sets, wanted, house.bricks)
    told_short = _short([one for one, told in zip(sets, stated, strict=True) if told],
                        [told for told in stated if told], house.bricks)  # fmt: skip
    only = stated if short else wanted
    found = allocate(_demands(sets, house.bricks, only), list(have.values())) if sets and not told_short else None
    left = {name: dict(house.bricks[name].stock) for name in have}
    shares = _shares(house, sets, found, left) if found else {}
    return StockPlan(
        shares=tuple(replace(shares[one.label], wanted=best, ideal=full)
                     for one, best, full in zip(sets, wanted, ideal, strict=True) if found),
        left=left, short=short, allocation=found, unknown=_unknown(house), left_out=left_out,
    )  # fmt: skip


_ARBOR = "counterweight"


def _left_out(house: RiggedHouse) -> dict[str, str]:
    """Sets with an arbor that carry something, whose balance is not computed or that are not to be used; and why."""
    computed = {one.label: one for one in house.sets}
    found: dict[str, str] = {}
    for label in dict.fromkeys(each.label for each in house.hang.hung):
        one = computed.get(label)
        if one is None:
            found |= {label: "its balance is not known"} if _has_arbor(house, label) else {}
        elif one.out_of_service:
            found[label] = "out of service"
        elif one.steep:
            found[label] = f"line {one.steep} leans too far to compute its balance"
        elif one.taut:
            found[label] = f"the cable of {one.taut} is too short: what then hangs is not known"
    return found


def _has_arbor(house: RiggedHouse, label: str) -> bool:
    """True of a counterweight set that is not part of a married one."""
    return any(one.label == label and one.rigged == _ARBOR for one in house.house.sets) and not any(
        label in one.arbors for one in house.sets)  # fmt: skip


def _unknown(house: RiggedHouse) -> tuple[tuple[str, str], ...]:
    """Kinds and places of which nobody wrote how many lie there."""
    found = [(one.brick, place) for one in house.house.bricks for place, count in one.stock.items()
             if count.best is None]  # fmt: skip
    return (*found, *((one.brick, "") for one in house.house.bricks if not one.stock))


def _demands(sets: Sequence[RiggedSet], bricks: Mapping[str, BrickKind], only: Sequence[Stack | None]) -> list[Demand]:
    """What each may take; of arbors abreast, whole rounds from one place each."""
    found: dict[str, Demand] = {}
    for abreast in {one.abreast for one in sets}:
        some = [(one, stack) for one, stack in zip(sets, only, strict=True) if one.abreast == abreast]
        found |= {each.label: each for each in demands([one for one, _ in some], _in_rounds(bricks, abreast),
                                                       [stack for _, stack in some])}  # fmt: skip
    return [found[one.label] for one in sets]


def _in_rounds(bricks: Mapping[str, BrickKind], abreast: int) -> dict[str, int]:
    """By kind how many there are, counting at each place only whole rounds for so many arbors."""
    return {name: sum(there // abreast * abreast for there in brick.stock.values()) for name, brick in bricks.items()}


def _short(sets: Sequence[RiggedSet], wanted: Sequence[Stack], bricks: Mapping[str, BrickKind]) -> dict[str, int]:
    """By kind, how many are missing for every set to have what it wants; for arbors abreast, of whole rounds."""
    found: dict[str, int] = {}
    for least in {1, *(one.abreast for one in sets)}:
        have = _in_rounds(bricks, least)
        for one, stack in zip(sets, wanted, strict=True):
            for name, count in added(one, stack).items():
                have[name] -= max(0, count) if one.abreast >= least else 0
        found |= {name: max(found.get(name, 0), -count) for name, count in have.items() if count < 0}
    return {name: found[name] for name in bricks if name in found}


def _shares(
    house: RiggedHouse, sets: Sequence[RiggedSet], found: Allocation, left: dict[str, dict[str, int]]
) -> dict[str, Share]:  # fmt: skip
    """By set; those with arbors abreast take first, so that their rounds are whole."""
    order = sorted(range(len(sets)), key=lambda at: -sets[at].abreast)
    counts = [dict(zip(left, each, strict=True)) for each in found.counts]
    return {sets[at].label: _share(house, sets[at], counts[at], found.balance[at], left) for at in order}


def _share(
    house: RiggedHouse, rigged: RiggedSet, counts: Mapping[str, int], balance: float, left: dict[str, dict[str, int]]
) -> Share:  # fmt: skip
    own, stated = pipe_weight(rigged), stated_stack(rigged)
    small = counts.get(rigged.small.name, 0) if rigged.small else 0
    stack = stated or Stack(
        own.bricks + counts[rigged.brick.name] // rigged.abreast, own.small + small // rigged.abreast
    )
    taken = [Taken(kind=name, place=place, count=here) for name, count in counts.items()
             for place, here in _from_places(house, left[name], count, rigged.abreast)]  # fmt: skip
    return Share(label=rigged.label, stack=stack, wanted=stack, ideal=stack, taken=tuple(taken), balance=balance,
                 is_stated=stated is not None)  # fmt: skip


def _from_places(house: RiggedHouse, left: dict[str, int], count: int, abreast: int) -> Iterator[tuple[str, int]]:
    """Whole rounds from each place, bridges first; what then is missing one by one."""
    bridges = [one.name for one in house.bridges if one.name in left]
    given: dict[str, int] = {}
    for by in (abreast, 1):
        for place in [*bridges, *(each for each in left if each not in bridges)]:
            here = min(count, left[place]) // by * by
            if here > 0:
                given[place] = given.get(place, 0) + here
                left[place] -= here
                count -= here
    yield from given.items()
