"""Statics of a batten or a truss on lines that only pull: numbers in, numbers out, SI throughout.

What serves ladder trusses, makers' trusses, splices and leaning lines is imported when it is first asked for: a check
of plain battens starts without it.
"""

import importlib
from typing import TYPE_CHECKING

from counterpoise.statics.hanging import Hanging, Tips
from counterpoise.statics.model import Beam, Line, Load, PointLoad, Segment, SpreadLoad
from counterpoise.statics.path import Path, Piece, follow
from counterpoise.statics.proof import Unproven
from counterpoise.statics.response import Response, response
from counterpoise.statics.room import Limits, Room, Row, room_left
from counterpoise.statics.sections import Section, pipe
from counterpoise.statics.slack import hang

if TYPE_CHECKING:
    from counterpoise.statics.axial import Bridle, Legs, Raked, Run, breast_pull, bridle_legs, rest_along
    from counterpoise.statics.hanger import Hanger, hang_ladder
    from counterpoise.statics.hung_ladder import Chord, HangingLadder, MemberForces, SpacerForces
    from counterpoise.statics.ladder import Bar, ChordLoads, Ladder, own_weight
    from counterpoise.statics.ladder_limits import LadderLimits
    from counterpoise.statics.ladder_response import response_on_ladder
    from counterpoise.statics.ladder_room import room_on_ladder
    from counterpoise.statics.makers_truss import LoadTable, MakersTruss, SectionUse, TableRow
    from counterpoise.statics.splices import (
        Axial,
        SegmentStress,
        Splice,
        SpliceMoment,
        Strength,
        StrengthSegment,
        euler_loads,
        greatest_moment_between,
        greatest_shear,
        segment_stresses,
        splice_moments,
    )

__all__ = [
    "Axial",
    "Bar",
    "Beam",
    "Bridle",
    "Chord",
    "ChordLoads",
    "Hanger",
    "Hanging",
    "HangingLadder",
    "Ladder",
    "LadderLimits",
    "Legs",
    "Limits",
    "Line",
    "Load",
    "LoadTable",
    "MakersTruss",
    "MemberForces",
    "Path",
    "Piece",
    "PointLoad",
    "Raked",
    "Response",
    "Room",
    "Row",
    "Run",
    "Section",
    "SectionUse",
    "Segment",
    "SegmentStress",
    "SpacerForces",
    "Splice",
    "SpliceMoment",
    "SpreadLoad",
    "Strength",
    "StrengthSegment",
    "TableRow",
    "Tips",
    "Unproven",
    "breast_pull",
    "bridle_legs",
    "euler_loads",
    "follow",
    "greatest_moment_between",
    "greatest_shear",
    "hang",
    "hang_ladder",
    "own_weight",
    "pipe",
    "response",
    "response_on_ladder",
    "rest_along",
    "room_left",
    "room_on_ladder",
    "segment_stresses",
    "splice_moments",
]

if not TYPE_CHECKING:  # or every name that is misspelt would pass the type checker
    _LATER = {
        "axial": "Bridle Legs Raked Run breast_pull bridle_legs rest_along",
        "hanger": "Hanger hang_ladder",
        "hung_ladder": "Chord HangingLadder MemberForces SpacerForces",
        "ladder": "Bar ChordLoads Ladder own_weight",
        "ladder_limits": "LadderLimits",
        "ladder_response": "response_on_ladder",
        "ladder_room": "room_on_ladder",
        "makers_truss": "LoadTable MakersTruss SectionUse TableRow",
        "splices": "Axial SegmentStress Splice SpliceMoment Strength StrengthSegment euler_loads "
        "greatest_moment_between greatest_shear segment_stresses splice_moments",
    }

    def __getattr__(name):
        for module, names in _LATER.items():
            if name in names.split():
                return getattr(importlib.import_module(f"{__name__}.{module}"), name)
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
