"""Bricks for all sets of a hang from the stock of the house: by size and place, what is left, and what to ask for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from counterpoise.balance import Stack, added, best_stack, extremes, fits, pipe_weight, stated_stack
from counterpoise.documents import COUNTERWEIGHT
from counterpoise.planning.stock.allocation import Allocation, Demand, allocate
from counterpoise.planning.stock.choices import best_that_fits, demands
from counterpoise.rigging import BrickKind, RiggedHouse, RiggedSet


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """So many of one kind from one place."""

    kind: str
    place: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """What one set gets: the whole stack, what comes from where, and what that leaves.

    `wanted` is the best stack that its arbor takes, or what the hang states. `better` is one that would leave it less
    out of balance than what it gets, None where there is none, and `why` what is in its way: "stated", the "arbor" or
    the "stock". `balance` is the middle of its out of balance over the flying range [N at the batten], + arbor-heavy:
    what bricks can change. The change over the travel comes on top. `fits` is false where what the hang states, or pipe
    weight alone, is higher than the arbor takes.
    """

    label: str
    stack: Stack
    wanted: Stack
    better: Stack | None
    why: str
    taken: tuple[Taken, ...]
    balance: float
    is_stated: bool
    fits: bool


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
    wanted = [told or best_that_fits(one, best_stack(one)) for one, told in zip(sets, stated, strict=True)]
    short = _short(sets, wanted, house.bricks)
    told_short = _short([one for one, told in zip(sets, stated, strict=True) if told],
                        [told for told in stated if told], house.bricks)  # fmt: skip
    only = stated if short else wanted
    found = allocate(_demands(sets, house.bricks, only), list(have.values())) if sets and not told_short else None
    left = {name: dict(house.bricks[name].stock) for name in have}
    shares = _shares(house, sets, wanted, found, left) if found else {}
    return StockPlan(shares=tuple(shares[one.label] for one in sets if shares), left=left, short=short,
                     allocation=found, unknown=_unknown(house), left_out=left_out)  # fmt: skip


_SAME = 1e-6  # [N]


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
    return any(one.label == label and one.rigged == COUNTERWEIGHT for one in house.house.sets) and not any(
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
    house: RiggedHouse, sets: Sequence[RiggedSet], wanted: Sequence[Stack], found: Allocation,
    left: dict[str, dict[str, int]],
) -> dict[str, Share]:  # fmt: skip
    """By set; those with arbors abreast take first, so that their rounds are whole."""
    shares = {}
    for at in sorted(range(len(sets)), key=lambda at: -sets[at].abreast):
        counts = dict(zip(left, found.counts[at], strict=True))
        taken = [Taken(kind=name, place=place, count=here) for name, count in counts.items()
                 for place, here in _from_places(house, left[name], count, sets[at].abreast)]  # fmt: skip
        shares[sets[at].label] = _share(sets[at], wanted[at], counts, found.balance[at], taken)
    return shares


def _share(
    rigged: RiggedSet, wanted: Stack, counts: Mapping[str, int], balance: float, taken: Sequence[Taken]
) -> Share:  # fmt: skip
    own, stated = pipe_weight(rigged), stated_stack(rigged)
    small = counts.get(rigged.small.name, 0) if rigged.small else 0
    stack = stated or Stack(
        own.bricks + counts[rigged.brick.name] // rigged.abreast, own.small + small // rigged.abreast
    )
    better = min((wanted, best_stack(rigged)), key=lambda one: abs(_middle(rigged, one)))
    is_better = abs(_middle(rigged, better)) < abs(balance) - _SAME
    why = "stated" if stated else "arbor" if not fits(rigged, better) and stack == wanted else "stock"
    if why == "stock" and is_better and not fits(rigged, better):
        better = wanted
    return Share(label=rigged.label, stack=stack, wanted=wanted, better=better if is_better else None,
                 why=why if is_better else "", taken=tuple(taken), balance=balance, is_stated=stated is not None,
                 fits=fits(rigged, stack))  # fmt: skip


def _middle(rigged: RiggedSet, stack: Stack) -> float:
    """Of its out of balance over the flying range [N]."""
    return sum(extremes(rigged, stack)) / 2


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
