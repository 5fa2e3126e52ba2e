"""Quantities at the door: what people write is read into SI here, and computed figures are printed here."""

from counterpoise.units.constants import (
    KG_PER_OUNCE,
    KG_PER_POUND,
    METRES_PER_FOOT,
    METRES_PER_INCH,
    NEWTONS_PER_POUND_FORCE,
    STANDARD_GRAVITY,
)
from counterpoise.units.kinds import Kind
from counterpoise.units.notation import Form, shown
from counterpoise.units.places import from_centre, place
from counterpoise.units.printing import (
    Direction,
    Format,
    Style,
    force,
    length,
    limit,
    mass,
    mass_down,
    mass_up,
    pair,
    printed_as,
    signed_force,
    small_length,
    stress,
)
from counterpoise.units.reading import Reading, read

__all__ = [
    "KG_PER_OUNCE",
    "KG_PER_POUND",
    "METRES_PER_FOOT",
    "METRES_PER_INCH",
    "NEWTONS_PER_POUND_FORCE",
    "STANDARD_GRAVITY",
    "Direction",
    "Form",
    "Format",
    "Kind",
    "Reading",
    "Style",
    "force",
    "from_centre",
    "length",
    "limit",
    "mass",
    "mass_down",
    "mass_up",
    "pair",
    "place",
    "printed_as",
    "read",
    "shown",
    "signed_force",
    "small_length",
    "stress",
]
