"""Bricks and the bridges they are moved on."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from counterpoise.documents import Brick, Bridge
from counterpoise.rigging.rules import Rule, doubt
from counterpoise.units import STANDARD_GRAVITY as GRAVITY


@dataclass(frozen=True, slots=True, kw_only=True)
class BrickKind:
    """A kind of brick: mean mass [kg], largest departure from it [kg], thickness [m], stock by place."""

    name: str
    mass: float
    spread: float
    thickness: float
    stock: Mapping[str, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class RiggedBridge:
    """A bridge: floor height, and the heights between which its crew works on the top of a stack [m above stage].

    `most` is the mass its whole floor may carry by its posting [kg], None where that is not known.
    """

    name: str
    floor: float
    reach_low: float
    reach_high: float
    most: float | None
    people: int


def plates_for(runs: Iterable[tuple[int, float]], every: float) -> int:
    """Plates on a stack: one on top, and one between wherever the next layer would leave more than `every` [m].

    Args:
        runs: the stack from its seat up: how many layers, and how thick each is [m].
        every: the largest height without a plate [m]. 24 in is common practice.

    A layer thicker than the rule stands between two plates.
    """
    plates, since = 0, 0.0  # since the last plate, or the seat
    for layers, thickness in runs:
        fit = max(0, math.floor((every - since) / thickness + 1e-9)) if thickness else layers
        if layers <= fit or (since == 0.0 and layers == 1):
            since += layers * thickness
            continue
        between = max(1, math.floor(every / thickness + 1e-9))
        first = fit if since else between
        more = math.ceil((layers - first) / between)
        plates += more
        since = (layers - first - (more - 1) * between) * thickness
    return plates + (since > 0.0)


def brick_kind(one: Brick, rules: Mapping[str, Rule]) -> BrickKind | None:
    """A brick in SI, None where a figure of it is not known."""
    if one.weight.best is None or one.thickness.best is None or (one.spread is not None and one.spread.best is None):
        return None
    spread = doubt(one.weight, rules) + (one.spread.number if one.spread else 0.0)
    stock = {where: round(count.best) for where, count in one.stock.items() if count.best is not None}
    return BrickKind(name=one.brick, mass=one.weight.best, spread=spread, thickness=one.thickness.best, stock=stock)


def rigged_bridge(one: Bridge, bricks: tuple[Brick, ...]) -> RiggedBridge | None:
    """A bridge in SI, None where its floor or its reach is not known."""
    if one.floor.best is None or one.reach_from.best is None or one.reach_to.best is None:
        return None
    parts = (one.length, one.width, one.posting)
    known = [part.best for part in parts if part is not None and part.best is not None]
    most = known[0] * known[1] * known[2] / GRAVITY if len(known) == 3 and not _crowd_unknown(one, bricks) else None
    people = round(one.people.best) if one.people and one.people.best is not None else 0
    return RiggedBridge(name=one.bridge, floor=one.floor.best, reach_low=one.floor.best + one.reach_from.best,
                        reach_high=one.floor.best + one.reach_to.best, most=most, people=people)  # fmt: skip


def _crowd_unknown(one: Bridge, bricks: tuple[Brick, ...]) -> bool:
    """True where its people, its stock or a brick's weight are written unknown: then no floor is judged."""
    people = one.people is not None and one.people.is_unknown
    return people or any(count.is_unknown or each.weight.is_unknown
                         for each in bricks for where, count in each.stock.items() if where == one.bridge)  # fmt: skip
