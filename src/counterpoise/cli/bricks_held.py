"""Which sets their locks would not hold with the bricks that they are to get: judged by the rows of a check."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from counterpoise.checks import Check
    from counterpoise.planning.stock import StockPlan
    from counterpoise.rigging import RiggedHouse
    from counterpoise.units import Style

HOLDING = ("lock", "hand line", "tension block")  # what holds a set that is out of balance where it flies


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """Of the sets that share the stock, by label, the rows of lock, hand line and tension block that are not within.

    `over` are sets with a row that is over with what they get, in the order of the house; `with_best` are those of them
    of which none would be with the count that balances them best, where it fits the arbor. `open` are sets with a row
    that is unknown.
    """

    rows: Mapping[str, tuple[Check, ...]]
    over: tuple[str, ...]
    with_best: tuple[str, ...]
    open: tuple[str, ...]


def holding_of(house: RiggedHouse, found: StockPlan) -> Holding:
    """What holds each set over its flying range, with the stack that it gets."""
    from counterpoise.balance import fits
    from counterpoise.checks import Verdict
    from counterpoise.checks.limits import BALANCE, rows_of_part

    rows, over, best, unknown = {}, [], [], []
    for share in found.shares:
        rigged = house.set_called(share.label)
        if rigged is None:
            continue

        def not_within(judged: Sequence[Check]) -> tuple[Check, ...]:
            return tuple(row for row in judged if row.link in HOLDING and row.verdict is not Verdict.WITHIN
                         and (row.verdict is Verdict.OVER or not _is_signed_away(house, row)))  # fmt: skip

        bad = not_within(rows_of_part(house, rigged, share.stack, None, BALANCE))
        if not bad:
            continue
        rows[share.label] = bad
        if all(row.verdict is not Verdict.OVER for row in bad):
            unknown.append(share.label)
            continue
        over.append(share.label)
        wanted = not_within(rows_of_part(house, rigged, share.wanted, None, BALANCE))
        if fits(rigged, share.wanted) and all(row.verdict is not Verdict.OVER for row in wanted):
            best.append(share.label)
    return Holding(rows=rows, over=tuple(over), with_best=tuple(best), open=tuple(unknown))


def _is_signed_away(house: RiggedHouse, row: Check) -> bool:
    return any(one.covers(row.link, row.label) for one in house.not_checked)


def told_rows(rows: Sequence[Check], style: Style) -> Iterator[str]:
    """A line of a set's block for each row: how much there is to hold, how much of it may be held."""
    from counterpoise.checks import Verdict, figure_told

    for row in rows:
        mark = "OVER" if row.verdict is Verdict.OVER else "unknown"
        why = f": {row.lacks}" if row.lacks else ""
        yield (f"  {mark}: {row.link} {figure_told(row, style)}{why}, the most over its flying range; friction is not "
               "counted on")  # fmt: skip


def told_all(held: Holding, *, is_short: bool) -> Iterator[str]:
    """Below the stock: how many sets can not be held by their locks, and which of them more bricks would mend."""
    if held.over:
        stock = "With this stock " if is_short else ""
        says = f"{stock}{_many(held.over)} can not be held by {_its(held.over)}: {', '.join(held.over)}."
        yield says[:1].upper() + says[1:]
        if held.with_best:
            yield f"With the bricks that balance it best {_within(held)} within what {_its(held.with_best)} may hold."
    if held.open:
        yield f"Whether {_many(held.open)} can be held by {_its(held.open)} is not known: {', '.join(held.open)}."


def _many(labels: Sequence[str]) -> str:
    return f"{len(labels)} set{'s' if len(labels) > 1 else ''}"


def _its(labels: Sequence[str]) -> str:
    return "their locks" if len(labels) > 1 else "its lock"


def _within(held: Holding) -> str:
    if len(held.with_best) == len(held.over):
        return "each of them is" if len(held.over) > 1 else "it is"
    return f"{', '.join(held.with_best)} {'are' if len(held.with_best) > 1 else 'is'}"
