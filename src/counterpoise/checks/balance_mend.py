"""What would mend a set that is past its lock, in words: each alternative was computed, none is a rule of thumb."""

from __future__ import annotations

from collections.abc import Iterator

from counterpoise.balance import Proposals, Stack, best_stack, friction, proposals, stated_stack
from counterpoise.checks.arbor_rows import lock_limit_of
from counterpoise.checks.counts import balances_at
from counterpoise.rigging import RiggedHouse, RiggedSet, least
from counterpoise.units import Style, force, length, mass_up


def balance_mend(house: RiggedHouse, rigged: RiggedSet, style: Style, other: Stack | None) -> str:
    """Another count, a limit of travel, or the hold that is needed; "" where what the lock holds is not known.

    `other` is the count that keeps within all that rests on the count, None where none does.
    """
    limits = held_at_batten(house, rigged)
    if limits is None:
        return ""
    stack = stated_stack(rigged) or best_stack(rigged)
    found = proposals(rigged, stack, *limits, carries=least(rigged.written.arbor.rating, house.rules))
    said = []
    if other is not None:
        said.append(f"{count_said(rigged, stack, other, style)}, keep it within the lock from "
                    f"{length(rigged.clear, style)} to {length(rigged.high, style)}")  # fmt: skip
    if found.travel is not None:
        low, high = found.travel.low, found.travel.high
        ends = f"no higher than {length(high, style)}" if low <= rigged.clear else f"no lower than {length(low, style)}"
        said.append(f"with {stack.said} on let it fly {ends}")
    if other is None:
        said.append(" ".join(_hold(found, rigged, style)) if found.stack is None else
                    "no count keeps it within the lock and all else that rests on the count within")  # fmt: skip
    words = "; or ".join(said)
    hidden = friction(rigged, rigged.high, house.rules["friction"].value)
    about = f"Friction may hide {force(hidden, style)} either way; it is not counted on."
    return f"{words[:1].upper()}{words[1:]}. {about}" if words else ""


def count_said(rigged: RiggedSet, now: Stack, other: Stack, style: Style) -> str:
    """Another count, how much that is on the arbor, and where the set then balances."""
    more = other.mass(rigged) - now.mass(rigged)
    at = balances_at(rigged, other)
    balanced = "" if at is None else f", balanced with the batten at {length(at, style)}"
    return (f"{other.said} bricks, {mass_up(abs(more), style)} {'more' if more > 0 else 'less'} on the arbor"
            f"{balanced}")  # fmt: skip


def held_at_batten(house: RiggedHouse, rigged: RiggedSet) -> tuple[float, float] | None:
    """How arbor-heavy and how batten-heavy its lock may be asked to hold it [N at the batten]; None if not known."""
    lock, _ = lock_limit_of(house, rigged)
    if lock is None:
        return None
    block = rigged.written.tension_block
    counted = None if block is None else least(block, house.rules)
    down = lock if counted is None else min(lock, counted / 2)
    return lock / rigged.hand_line_ratio, down / rigged.hand_line_ratio


def _hold(found: Proposals, rigged: RiggedSet, style: Style) -> Iterator[str]:
    need = found.hold
    if need is None:
        return
    yield f"no count keeps it within the lock; with {found.least.said} on it needs a hold that can haul"
    ratio = rigged.hand_line_ratio
    sides = [("arbor-heavy", need.arbor), ("batten-heavy", need.batten)]
    yield " and ".join(f"{force(much * ratio, style)} at the hand line against {side}" for side, much in sides if much)
    yield "from " + ", and from ".join(
        f"{length(band.low, style)} to {length(band.high, style)}" for band in need.bands
    )
