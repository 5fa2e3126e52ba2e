"""Figures of a plan in the words and units of the house."""

from counterpoise import units
from counterpoise.balance import friction, slide_of
from counterpoise.planning.holds import Pull, lock_limit
from counterpoise.rigging import RiggedHouse, RiggedSet


def style(house: RiggedHouse) -> units.Style:
    """The units of the house."""
    return units.Style("metric" if house.units == "metric" else "us")


def height(house: RiggedHouse, value: float) -> str:
    """A height or a length [m]."""
    return units.length(value, style(house))


def force(house: RiggedHouse, value: float) -> str:
    """A force [N], rounded up."""
    return units.force(value, style(house))


def signed(house: RiggedHouse, value: float) -> str:
    """An out of balance [N] with its sign, + arbor-heavy."""
    return units.signed_force(value, style(house))


def mass_up(house: RiggedHouse, value: float) -> str:
    """A mass [kg], rounded up."""
    return units.mass_up(value, style(house))


def mass_down(house: RiggedHouse, value: float) -> str:
    """A mass that must not be exceeded [kg], rounded down."""
    return units.mass_down(value, style(house))


def heavy(house: RiggedHouse, one: Pull) -> str:
    """Which side is heavy and by how much: "arbor-heavy 150 lb". Both sides where either may be."""
    sides = [("arbor-heavy", one.arbor), ("batten-heavy", one.batten)]
    said = [f"{name} {force(house, value)}" for name, value in sides if value > 0.5]
    return " or ".join(said) or "in balance"


def lock(house: RiggedHouse, rigged: RiggedSet, one: Pull) -> str:
    """What the lock may hold of this out of balance, rounded down."""
    arbor, batten = lock_limit(house, rigged)
    return units.limit(arbor if one.arbor - arbor > one.batten - batten else batten, style(house))


def limit(house: RiggedHouse, value: float) -> str:
    """A force that must not be exceeded [N], rounded down."""
    return units.limit(value, style(house))


def friction_beside(house: RiggedHouse, rigged: RiggedSet) -> str:
    """How far what the rail feels may be off, with the rule that it rests on."""
    rule = house.rules["friction"]
    hidden = max(friction(rigged, height, rule.value) for height in (rigged.low, rigged.high))
    guides = rigged.written.guides
    slides = f"; guides {guides.friction.text}" if guides and guides.friction and slide_of(rigged) else ""
    return (f"What the rail feels may be off by {force(house, hidden)} of friction ({rule.words}{slides}); it is not "
            "counted on.")  # fmt: skip
