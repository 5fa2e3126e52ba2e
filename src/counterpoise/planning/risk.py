"""A set let go, in plain words and the units of the house, for a risk file."""

from __future__ import annotations

import math
from collections.abc import Iterator

from counterpoise.balance import Stack
from counterpoise.planning import tell
from counterpoise.planning.let_go import LetGo, let_go
from counterpoise.rigging import RiggedHouse, RiggedSet
from counterpoise.units import METRES_PER_FOOT, NEWTONS_PER_POUND_FORCE, STANDARD_GRAVITY

FRICTION = (0.02, 0.04)  # of what hangs: 1 to 2 % for each of two quarter turns on ball bearings; common practice


def told_let_go(
    house: RiggedHouse, rigged: RiggedSet, stack: Stack, start: float, *, is_struck: bool = False
) -> tuple[str, ...]:
    """The lines of a risk file on one set let go at a batten height [m], with its pieces or without them."""
    pieces = () if is_struck else rigged.pieces
    free = let_go(rigged, stack, start, pieces)
    with_friction = [let_go(rigged, stack, start, pieces, friction=share) for share in FRICTION]
    return tuple(_lines(house, rigged, stack, free, with_friction, is_struck=is_struck))


def _lines(
    house: RiggedHouse, rigged: RiggedSet, stack: Stack, free: LetGo, slowed: list[LetGo], *, is_struck: bool
) -> Iterator[str]:
    side = "arbor-heavy" if free.is_arbor_heavy else "batten-heavy"
    at = tell.height(house, free.start)
    yield f"Set {rigged.label}, let go at {at} with {stack.said} on{_hung(rigged, free.start, is_struck=is_struck)}."
    if abs(free.balance) < 0.5:
        yield "In balance: nothing drives it. Friction is not counted on."
        return
    yield f"{side[0].upper()}{side[1:]} {tell.force(house, abs(free.balance))}; moving {_mass(house, free.moved)}."
    if free.start == free.end:
        yield f"The arbor is on its {'bottom' if free.is_arbor_heavy else 'top'} stop: it stays while that holds."
        return
    way = ("rises", "falls") if free.is_arbor_heavy else ("falls", "rises")
    yield f"The batten {way[0]}, the arbor {way[1]}: {_rate(house, abs(free.acceleration))} at first."
    yield from _struck(house, free)
    yield _end(house, rigged, free)
    yield from _with_friction(house, slowed)
    yield "Not counted: rope stretch, inertia of sheaves, air, what breaks. Weights at their best figure."
    yield "Nobody stops it by hand. Shout, get clear, do not grab the rope."


def _hung(rigged: RiggedSet, start: float, *, is_struck: bool) -> str:
    """What hangs on it there, and what stands on the deck with slack ties."""
    pieces = () if is_struck else rigged.pieces
    stands = [one.name for one in pieces if all(part.share(start)[0] == 0.0 for part in one.parts)]
    hangs = [one.name for one in pieces if one.name not in stands]
    said = f" and {' and '.join(hangs)} hung" if hangs or not stands else ""
    if not pieces:
        return " and nothing hung"
    return said + (f", {' and '.join(stands)} standing on the deck" if stands else "")


def _struck(house: RiggedHouse, free: LetGo) -> Iterator[str]:
    for one in free.strikes:
        yield (f"{one.name} strikes the deck with the batten at {tell.height(house, one.height)}, at "
               f"{_speed(house, one.speed)}, with {_energy(house, one.energy)} in all that moves. What of it goes into "
               "the deck is lost to the rest, and what breaks is not told.")  # fmt: skip


def _end(house: RiggedHouse, rigged: RiggedSet, free: LetGo) -> str:
    if not free.is_stopped:
        return f"Near {tell.height(house, free.end)} it has spent itself, then it swings back."
    fall = free.energy / (STANDARD_GRAVITY * free.moving)
    arbor = "" if rigged.purchase == 1 else f", the arbor at {_speed(house, free.arbor_speed)}"
    says = f"It is at {tell.height(house, free.end)} after {free.time:.1f} s at {_speed(house, free.speed)}{arbor}, "
    return f"{says}with {_energy(house, free.energy)}: as if all that moves had dropped {tell.height(house, fall)}."


def _with_friction(house: RiggedHouse, slowed: list[LetGo]) -> Iterator[str]:
    low, high = (f"{share:.0%}".rstrip("%") for share in FRICTION)
    said = f"With friction of {low} to {high} % of what hangs (ball bearings; common practice, no source): "
    speeds = [max([one.speed, *(each.speed for each in one.strikes)]) for one in slowed]
    if not any(speeds):
        yield f"{said}it may not start by itself. Do not count on it."
        return
    energies = [one.most_energy for one in slowed]
    yield (f"{said}{_speed(house, min(speeds))} to {_speed(house, max(speeds))}, "
           f"{_energy(house, min(energies))} to {_energy(house, max(energies))}.")  # fmt: skip


def _speed(house: RiggedHouse, value: float) -> str:
    return f"{_up(value, 0.1)} m/s" if house.units == "metric" else f"{_up(value / METRES_PER_FOOT, 1)} ft/s"


def _rate(house: RiggedHouse, value: float) -> str:
    return f"{value:.1f} m/s²" if house.units == "metric" else f"{value / METRES_PER_FOOT:.1f} ft/s²"


def _mass(house: RiggedHouse, value: float) -> str:
    return tell.mass_up(house, value)


def _energy(house: RiggedHouse, value: float) -> str:
    if house.units == "metric":
        return f"{_up(value, 10)} J"
    return f"{_up(value / (METRES_PER_FOOT * NEWTONS_PER_POUND_FORCE), 10)} ft lb"


def _up(value: float, step: float) -> str:
    """Rounded up to a step, noise in the last bits left out."""
    steps = math.ceil(value / step - 1e-6)
    return f"{steps * step:,.1f}" if step < 1 else f"{steps * step:,.0f}"
