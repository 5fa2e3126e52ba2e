"""A rated hold of the house on a set: what it covers while the set stands and while it moves."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from counterpoise.documents import Hold
from counterpoise.planning.holds import Pull, lock_limit
from counterpoise.planning.needed import FALLING, RISING, Side, why_not
from counterpoise.rigging import RiggedHouse, RiggedSet

_ROUNDING = 1e-6  # [N]


def hold_called(house: RiggedHouse, name: str) -> Hold | None:
    """The hold of this name, None where the house has none."""
    return next((one for one in house.house.holds if one.hold == name), None)


def covers(house: RiggedHouse, rigged: RiggedSet, names: Sequence[str], one: Pull, *, moves: bool) -> bool:
    """True where what the lock does not hold either way is held by one of these holds alone.

    A park hold covers no move, a one-way hold one way only, and neither lock nor another hold is counted beside it.
    """
    holds = [each for name in names if (each := hold_called(house, name)) is not None]
    arbor, batten = lock_limit(house, rigged)
    does: Literal["park", "haul"] = "haul" if moves else "park"
    sides = (
        [Side(against=RISING, does=does, force=one.arbor, height=one.height)] if one.arbor > arbor + _ROUNDING else []
    )
    if one.batten > batten + _ROUNDING:
        sides.append(Side(against=FALLING, does=does, force=one.batten, height=one.height))
    return bool(holds) and all(any(not why_not(house, rigged, each, side) for each in holds) for side in sides)
