"""Statics of a batten on lines that only pull: numbers in, numbers out, SI throughout."""

from counterpoise.statics.hang_ladder import Hanger, hang_ladder
from counterpoise.statics.hanging import Hanging, Tips
from counterpoise.statics.hung_ladder import Chord, HangingLadder, MemberForces, SpacerForces
from counterpoise.statics.ladder import Bar, ChordLoads, Ladder, own_weight
from counterpoise.statics.model import Beam, Line, Load, PointLoad, Segment, SpreadLoad
from counterpoise.statics.path import Path, Piece, follow
from counterpoise.statics.proof import Unproven
from counterpoise.statics.response import Response, response
from counterpoise.statics.room import Limits, Room, Row, room_left
from counterpoise.statics.sections import Section, pipe
from counterpoise.statics.slack import hang

__all__ = [
    "Bar",
    "Beam",
    "Chord",
    "ChordLoads",
    "Hanger",
    "Hanging",
    "HangingLadder",
    "Ladder",
    "Limits",
    "Line",
    "Load",
    "MemberForces",
    "Path",
    "Piece",
    "PointLoad",
    "Response",
    "Room",
    "Row",
    "Section",
    "Segment",
    "SpacerForces",
    "SpreadLoad",
    "Tips",
    "Unproven",
    "follow",
    "hang",
    "hang_ladder",
    "own_weight",
    "pipe",
    "response",
    "room_left",
]
