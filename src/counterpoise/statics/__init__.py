"""Statics of a batten on lines that only pull: numbers in, numbers out, SI throughout."""

from counterpoise.statics.hanging import Hanging, Tips
from counterpoise.statics.model import Beam, Line, Load, PointLoad, Segment, SpreadLoad
from counterpoise.statics.path import Path, Piece, follow
from counterpoise.statics.proof import Unproven
from counterpoise.statics.response import Response, response
from counterpoise.statics.room import Limits, Room, Row, room_left
from counterpoise.statics.sections import Section, pipe
from counterpoise.statics.slack import hang

__all__ = [
    "Beam",
    "Hanging",
    "Limits",
    "Line",
    "Load",
    "Path",
    "Piece",
    "PointLoad",
    "Response",
    "Room",
    "Row",
    "Section",
    "Segment",
    "SpreadLoad",
    "Tips",
    "Unproven",
    "follow",
    "hang",
    "pipe",
    "response",
    "room_left",
]
