"""The set as rigged, and its stack, to the force in every line, link, block and beam."""

from counterpoise.loadpath.forces import Forces, Tipping, forces_of
from counterpoise.loadpath.hangs import Hangs, chord_loads
from counterpoise.loadpath.link import Link
from counterpoise.loadpath.links import links_of
from counterpoise.loadpath.loads import Loads, loads_of
from counterpoise.loadpath.room import room_for
from counterpoise.loadpath.sheave import bending_efficiency
from counterpoise.loadpath.steel import SteelPulls, are_pulls_known, beams_of, places_of, steel_pulls, whole_pulls

__all__ = [
    "Forces",
    "Hangs",
    "Link",
    "Loads",
    "SteelPulls",
    "Tipping",
    "are_pulls_known",
    "beams_of",
    "bending_efficiency",
    "chord_loads",
    "forces_of",
    "links_of",
    "loads_of",
    "places_of",
    "room_for",
    "steel_pulls",
    "whole_pulls",
]
