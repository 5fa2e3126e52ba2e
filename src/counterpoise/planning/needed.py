"""The hold without which a way cannot be gone: what it must do, how strong, from where to where, and who can do it.

A park hold never covers a move; a one-way hold never covers both signs; two holds never share one force.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from counterpoise.documents import Hold
from counterpoise.planning.felt import Felt
from counterpoise.planning.holds import Pull, lock_limit
from counterpoise.planning.tall import TallWay
from counterpoise.rigging import RiggedHouse, RiggedSet, least

_ROUNDING = 1e-6  # [N]
RISING: Literal["batten rising"] = "batten rising"  # what an arbor-heavy set does
FALLING: Literal["batten falling"] = "batten falling"


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """One instant of a way: batten height [m], bricks on, where they are changed just then, what is felt, if it moves.

    `is_within` says that the lock, or a stop where it stands on one, holds it.
    """

    height: float
    bricks: int
    place: str
    felt: Pull
    is_moving: bool
    is_within: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """What must be held one way: against the batten rising or falling, and the most of it as felt at the batten."""

    against: Literal["batten rising", "batten falling"]
    does: Literal["park", "haul"]
    force: float  # [N] at the batten
    height: float  # [m] where it is that much


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """The least hold of a way: what it holds, and the first and the last moment between which it stays on.

    `end` is the first moment from which lock and stops hold everything to the end; `low` and `high` are the batten
    heights between which it works [m].
    """

    sides: tuple[Side, ...]
    start: Moment
    end: Moment
    low: float
    high: float

    @property
    def does(self) -> str:
        """Haul where the set moves while it is out of balance, else park."""
        return "haul" if any(one.does == "haul" for one in self.sides) else "park"

    @property
    def against(self) -> str:
        """One way, or both."""
        return self.sides[0].against if len(self.sides) == 1 else "both"

    @property
    def force(self) -> float:
        """The largest of what it holds [N at the batten]."""
        return max(one.force for one in self.sides)


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """What the house has: holds that do all of it alone, pairs that do it together, and why each other one does not."""

    alone: tuple[str, ...]
    pairs: tuple[tuple[str, str], ...]
    cannot: tuple[tuple[str, str], ...]

    @property
    def chosen(self) -> tuple[str, ...]:
        """One that does it alone, else the first pair, else none."""
        return self.alone[:1] or (self.pairs[0] if self.pairs else ())


def moments(house: RiggedHouse, rigged: RiggedSet, way: TallWay) -> Iterator[Moment]:
    """Every instant of a way that is judged: each end and kink of a move, each brick, each thing hung or bolted on."""
    felt, bricks = Felt(house, rigged), rigged.pipe_bricks
    for k, here in enumerate(way.stations):
        if k and not here.is_event:
            yield from _moving(felt, bricks, way.stations[k - 1].height, here.height, here.hung)
        elif k:
            yield _standing(felt, bricks, here.height, here.hung, "")
        for change in (one for one in way.changes if one.station == k):
            step = 1 if change.after > change.before else -1
            for bricks in range(change.before + step, change.after + step, step):
                yield _standing(felt, bricks, here.height, here.hung, change.place)
    last = way.stations[-1]
    yield from _moving(felt, bricks, last.height, way.goal, last.hung)


def _moving(felt: Felt, bricks: int, start: float, end: float, hung: tuple[str, ...]) -> Iterator[Moment]:
    for one in felt.over(bricks, start, end, hung):
        yield Moment(height=one.height, bricks=bricks, place="", felt=one, is_moving=True, is_within=felt.is_held(one))


def _standing(felt: Felt, bricks: int, height: float, hung: tuple[str, ...], place: str) -> Moment:
    return Moment(height=height, bricks=bricks, place=place, felt=felt.pull(bricks, height, hung), is_moving=False,
                  is_within=felt.stands(bricks, height, hung))  # fmt: skip


def need_of(house: RiggedHouse, rigged: RiggedSet, way: TallWay) -> Need | None:
    """What must hold a way where lock and stops do not; None where they do throughout."""
    found = list(moments(house, rigged, way))
    beyond = [at for at, one in enumerate(found) if not one.is_within]
    if not beyond:
        return None
    first, last = beyond[0], beyond[-1]
    while first and found[first].is_moving and found[first - 1].is_moving:
        first -= 1  # it goes on before the move in which it is needed first, and stays on to the end of the last
    while last + 1 < len(found) and found[last].is_moving and found[last + 1].is_moving:
        last += 1
    work = [found[at] for at in beyond]
    held = found[first : last + 1]
    return Need(sides=tuple(_sides(house, rigged, work)), start=found[first], end=found[min(last + 1, len(found) - 1)],
                low=min(one.height for one in held), high=max(one.height for one in held))  # fmt: skip


def _sides(house: RiggedHouse, rigged: RiggedSet, work: Sequence[Moment]) -> Iterator[Side]:
    arbor, batten = lock_limit(house, rigged)
    up = [one for one in work if one.felt.arbor > arbor + _ROUNDING]
    down = [one for one in work if one.felt.batten > batten + _ROUNDING]
    if up:
        most = max(up, key=lambda one: one.felt.arbor)
        yield Side(against="batten rising", does=_kind(up), force=most.felt.arbor, height=most.height)
    if down:
        most = max(down, key=lambda one: one.felt.batten)
        yield Side(against="batten falling", does=_kind(down), force=most.felt.batten, height=most.height)


def _kind(work: Sequence[Moment]) -> Literal["park", "haul"]:
    return "haul" if any(one.is_moving for one in work) else "park"


# --- who can ---------------------------------------------------------------------------------------------------------


def path_ratio(rigged: RiggedSet, acts_on: str) -> float:
    """The force in a hold per force at the batten: 1 on the batten, r on the arbor, and what the hand line sees.

    Source: virtual work without friction; the arbor travels 1/r of the batten, the hand line as the house says.
    """
    return {"batten": 1.0, "arbor": float(rigged.purchase), "hand line": rigged.hand_line_ratio}[acts_on]


def limit_of(house: RiggedHouse, hold: Hold) -> float | None:
    """What a hold may be counted on for [N]: the least of it and its anchor; None where either is not known."""
    own = least(hold.rating, house.rules)
    anchor = None if hold.anchor_rating is None else least(hold.anchor_rating, house.rules)
    return None if own is None or anchor is None else min(own, anchor)


def why_not(house: RiggedHouse, rigged: RiggedSet, hold: Hold, side: Side) -> str:
    """Why a hold does not do this side of the need, "" where it does."""
    if hold.does == "park" and side.does == "haul":
        return "parks only, and the set moves"
    if hold.against not in (side.against, "both"):
        return f"does not hold the {side.against}"
    limit = limit_of(house, hold)
    if limit is None:
        return "its rating or that of its anchor is not known"
    if side.force * path_ratio(rigged, hold.acts_on) > limit + _ROUNDING:
        return "too weak"
    return ""


def offer_of(house: RiggedHouse, rigged: RiggedSet, need: Need) -> Offer:
    """Which of the house's holds can do it, alone or one for each way."""
    holds = [one for one in house.house.holds if one.count is None or one.count.best is None or one.count.best > 0]
    fails = {one.hold: [why_not(house, rigged, one, side) for side in need.sides] for one in holds}
    alone = tuple(name for name, why in fails.items() if not any(why))
    pairs = [] if len(need.sides) == 1 else [
        (a, b) for a, b in itertools.permutations(fails, 2) if a not in alone and b not in alone
        and not fails[a][0] and not fails[b][1]
    ]  # fmt: skip
    paired = {name for pair in pairs for name in pair}
    cannot = tuple((name, "; ".join(dict.fromkeys(filter(None, why)))) for name, why in fails.items()
                   if name not in alone and name not in paired)  # fmt: skip
    return Offer(alone=alone, pairs=tuple(pairs), cannot=cannot)
