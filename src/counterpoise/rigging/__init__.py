"""House, show and hang become each set as rigged: SI numbers, each still holding the words it came from."""

from counterpoise.rigging.bricks import BrickKind, RiggedBridge, plates_for
from counterpoise.rigging.lines import Fleet
from counterpoise.rigging.made import Made, Stretch
from counterpoise.rigging.missing import BALANCE, PULLS, Missing
from counterpoise.rigging.pieces import RiggedCable, RiggedPart, RiggedPiece
from counterpoise.rigging.rig import RiggedHouse, rig
from counterpoise.rigging.rules import Rule, doubt, is_guess, least, most
from counterpoise.rigging.sets import Fixed, RiggedBatten, RiggedSet
from counterpoise.rigging.stacking import plates_on, stack_doubt, stack_height, stack_mass
from counterpoise.rigging.truss_table import TableSays, table_says
from counterpoise.rigging.twins import twins_of

__all__ = [
    "BALANCE",
    "PULLS",
    "BrickKind",
    "Fixed",
    "Fleet",
    "Made",
    "Missing",
    "RiggedBatten",
    "RiggedBridge",
    "RiggedCable",
    "RiggedHouse",
    "RiggedPart",
    "RiggedPiece",
    "RiggedSet",
    "Rule",
    "Stretch",
    "TableSays",
    "doubt",
    "is_guess",
    "least",
    "most",
    "plates_for",
    "plates_on",
    "rig",
    "stack_doubt",
    "stack_height",
    "stack_mass",
    "table_says",
    "twins_of",
]
