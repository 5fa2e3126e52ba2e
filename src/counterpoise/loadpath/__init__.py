"""The set as rigged, and its stack, to the force in every line, link, block and beam."""

from counterpoise.loadpath.forces import Forces, Tipping, forces_of, loads_of
from counterpoise.loadpath.links import Link, SteelPulls, links_of, steel_pulls

__all__ = ["Forces", "Link", "SteelPulls", "Tipping", "forces_of", "links_of", "loads_of", "steel_pulls"]
