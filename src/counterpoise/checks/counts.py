"""Another count of bricks with which everything that rests on the count is within."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from counterpoise.balance import (
    Stack,
    balances_between,
    best_stack,
    extremes,
    fits,
    flying_heights,
    most_small_bricks,
    pipe_weight,
    stated_stack,
)
from counterpoise.checks.arbor_rows import lock_limit_of
from counterpoise.checks.limits import BALANCE, PARTS, rows_asked, rows_of_part
from counterpoise.checks.link_rows import HEAD_BLOCK
from counterpoise.checks.rows import Check, Verdict
from counterpoise.loadpath import Forces, SteelPulls, forces_of
from counterpoise.rigging import RiggedHouse, RiggedSet
from counterpoise.units import STANDARD_GRAVITY as GRAVITY

ABOVE_BEST = 6  # large bricks above the count that balances best which are looked at


def other_count(house: RiggedHouse, rigged: RiggedSet, pulls: Mapping[str, SteelPulls]) -> Stack | None:
    """The count that balances best with which no row that rests on the count is worse than within; None if none.

    Args:
        house: the house.
        rigged: the set.
        pulls: what sets put on the steel they share.

    A row whose limit is not known, or of which something is not computed, stays so and settles nothing. Pipe weight
    stays on, and no stack is higher than the arbor takes.
    """
    now = stated_stack(rigged) or best_stack(rigged)
    forces: Forces | None = None
    for stack in _near(house, rigged, now):
        if not _clears(house, rows_of_part(house, rigged, stack, None, BALANCE)):
            continue
        if forces is None:
            found = forces_of(rigged)
            if not isinstance(found, Forces):
                return None
            forces = found
        asked = rows_asked(house, rigged, stack, forces, pulls)
        if _clears(house, [row for row in asked if rests_on_count(row)]):
            return stack
    return None


def rests_on_count(row: Check) -> bool:
    """True of a row that another count of bricks changes."""
    return row.formula in PARTS[BALANCE] or row.link in HEAD_BLOCK


def balances_at(rigged: RiggedSet, stack: Stack) -> float | None:
    """The lowest height of its flying range at which it balances with a stack on [m]; None where it nowhere does."""
    found = (balances_between(rigged, stack, low, high) for low, high in pairwise(flying_heights(rigged)))
    return next((at for at in found if at is not None), None)


def _clears(house: RiggedHouse, rows: Sequence[Check]) -> bool:
    return bool(rows) and all(
        row.verdict is Verdict.WITHIN or (row.verdict is Verdict.UNKNOWN and (
            row.limit is None or row.lacks or any(one.covers(row.link, row.label) for one in house.not_checked)))
        for row in rows)  # fmt: skip


def _near(house: RiggedHouse, rigged: RiggedSet, now: Stack) -> Iterator[Stack]:
    """Other counts that its lock might hold, the one that balances best first."""
    own, most = pipe_weight(rigged), most_small_bricks(rigged)
    top = max(now.bricks, best_stack(rigged).bricks) + ABOVE_BEST
    every = [Stack(large, small) for large in range(own.bricks, top + 1) for small in range(own.small, most + 1)]
    low, high = extremes(rigged, now)
    lock, mass = lock_limit_of(house, rigged)[0], now.mass(rigged)

    def off(stack: Stack) -> float:
        more = GRAVITY * (stack.mass(rigged) - mass) / rigged.purchase
        return round(max(high + more, -low - more), 6)

    near = [(off(stack), stack.count, stack) for stack in every if stack != now and fits(rigged, stack)]
    held = [one for one in near if lock is None or one[0] * rigged.hand_line_ratio <= lock * (1.0 + 1e-9)]
    yield from (stack for _, _, stack in sorted(held))
