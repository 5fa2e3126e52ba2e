"""Whether the stock has the bricks that a hang asks for, kind by kind."""

from __future__ import annotations

from dataclasses import dataclass

from counterpoise.balance import added
from counterpoise.checks.result import HouseResult


@dataclass(frozen=True, slots=True, kw_only=True)
class BrickCount:
    """Of one kind: how many the stacks ask for beside pipe weight, how many there are, where their count is not known.

    `is_about` is true where a weight on one of the sets is not one figure.
    """

    kind: str
    asked: int
    have: int
    unknown: tuple[str, ...]
    is_about: bool


def brick_counts(result: HouseResult) -> tuple[BrickCount, ...]:
    """Every kind of brick that a stack of the hang asks for."""
    asked: dict[str, int] = {}
    about: set[str] = set()
    for one in result.sets:
        if one.rigged is None or one.stack is None or not one.rigged.pieces or one.out_of_service:
            continue
        for kind, count in added(one.rigged, one.stack).items():
            asked[kind] = asked.get(kind, 0) + max(0, count)
            about |= {kind} if one.bricks.startswith("~") else set()
    written = {one.brick: one for one in result.house.house.bricks}
    return tuple(
        BrickCount(kind=kind, asked=count, have=sum(result.house.bricks[kind].stock.values()),
                   unknown=tuple(place for place, known in written[kind].stock.items() if known.best is None),
                   is_about=kind in about)
        for kind, count in asked.items() if count or kind in about
    )  # fmt: skip
