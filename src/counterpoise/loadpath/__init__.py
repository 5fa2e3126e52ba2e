"""The set as rigged, and its stack, to the force in every line, link, block and beam."""

from counterpoise.loadpath.forces import Forces, Tipping, forces_of
from counterpoise.loadpath.hangs import Hangs, chord_loads
from counterpoise.loadpath.links import Link, SteelPulls, links_of, steel_pulls
from counterpoise.loadpath.loads import Loads, loads_of
from counterpoise.loadpath.room import room_for

__all__ = [
    "Forces",
    "Hangs",
    "Link",
    "Loads",
    "SteelPulls",
    "Tipping",
    "chord_loads",
    "forces_of",
    "links_of",
    "loads_of",
    "room_for",
    "steel_pulls",
]
