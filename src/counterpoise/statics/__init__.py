"""Statics of a batten or a truss on lines that only pull: numbers in, numbers out, SI throughout.

What serves ladder trusses, makers' trusses, splices, leaning lines, doubts and friction is imported when it is first
asked for: a check of plain battens starts without it. Chances and many cases at once load numpy: `statics.chances`,
`statics.many`.
"""

import importlib
from typing import TYPE_CHECKING

from counterpoise.statics.hanging import Hanging, Tips
from counterpoise.statics.model import Beam, Line, Load, PointLoad, Segment, SpreadLoad
from counterpoise.statics.path import Path, Piece, follow
from counterpoise.statics.proof import Unproven
from counterpoise.statics.room import Limits, Room, Row, room_left
from counterpoise.statics.sections import Section, pipe
from counterpoise.statics.slack import hang

if TYPE_CHECKING:
    from counterpoise.statics.axial import Bridle, Legs, Raked, Run, breast_pull, bridle_legs, rest_along
    from counterpoise.statics.doubts import (
        TRIM_TOLERANCE,
        TRIM_TOLERANCE_SOURCE,
        Doubt,
        at_factors,
        tilted,
        trimmed,
        weighing,
    )
    from counterpoise.statics.extreme_search import Extreme
    from counterpoise.statics.friction import Band, pull_beyond, seized, sticking
    from counterpoise.statics.hanger import Hanger, hang_ladder
    from counterpoise.statics.hung_ladder import Chord, EndForces, HangingLadder, MemberForces, SpacerForces
    from counterpoise.statics.ladder import Bar, ChordLoads, Ladder, own_weight
    from counterpoise.statics.ladder_limits import LadderLimits
    from counterpoise.statics.ladder_ranges import Judged, LadderExtremes, extremes_on_ladder
    from counterpoise.statics.ladder_response import response_on_ladder
    from counterpoise.statics.ladder_room import room_on_ladder
    from counterpoise.statics.makers_truss import LoadTable, MakersTruss, SectionUse, TableRow
    from counterpoise.statics.many_places import Response, response
    from counterpoise.statics.ranges import Extremes, extremes
    from counterpoise.statics.splices import (
        Axial,
        Pressed,
        SegmentStress,
        Splice,
        SpliceMoment,
        Strength,
        StrengthSegment,
        euler_loads,
        greatest_moment_between,
        greatest_shear,
        pressed,
        segment_stresses,
        splice_moments,
    )

__all__ = [
    "TRIM_TOLERANCE",
    "TRIM_TOLERANCE_SOURCE",
    "Axial",
    "Band",
    "Bar",
    "Beam",
    "Bridle",
    "Chord",
    "ChordLoads",
    "Doubt",
    "EndForces",
    "Extreme",
    "Extremes",
    "Hanger",
    "Hanging",
    "HangingLadder",
    "Judged",
    "Ladder",
    "LadderExtremes",
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
    "Pressed",
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
    "at_factors",
    "breast_pull",
    "bridle_legs",
    "euler_loads",
    "extremes",
    "extremes_on_ladder",
    "follow",
    "greatest_moment_between",
    "greatest_shear",
    "hang",
    "hang_ladder",
    "own_weight",
    "pipe",
    "pressed",
    "pull_beyond",
    "response",
    "response_on_ladder",
    "rest_along",
    "room_left",
    "room_on_ladder",
    "segment_stresses",
    "seized",
    "splice_moments",
    "sticking",
    "tilted",
    "trimmed",
    "weighing",
]

if not TYPE_CHECKING:  # or every name that is misspelt would pass the type checker
    _LATER = {
        "axial": "Bridle Legs Raked Run breast_pull bridle_legs rest_along",
        "doubts": "TRIM_TOLERANCE TRIM_TOLERANCE_SOURCE Doubt at_factors tilted trimmed weighing",
        "extreme_search": "Extreme",
        "friction": "Band pull_beyond seized sticking",
        "hanger": "Hanger hang_ladder",
        "hung_ladder": "Chord EndForces HangingLadder MemberForces SpacerForces",
        "ladder": "Bar ChordLoads Ladder own_weight",
        "ladder_limits": "LadderLimits",
        "ladder_ranges": "Judged LadderExtremes extremes_on_ladder",
        "ladder_response": "response_on_ladder",
        "ladder_room": "room_on_ladder",
        "makers_truss": "LoadTable MakersTruss SectionUse TableRow",
        "many_places": "Response response",
        "ranges": "Extremes extremes",
        "splices": "Axial Pressed SegmentStress Splice SpliceMoment Strength StrengthSegment euler_loads "
        "greatest_moment_between greatest_shear pressed segment_stresses splice_moments",
    }

    def __getattr__(name):
        for module, names in _LATER.items():
            if name in names.split():
                return getattr(importlib.import_module(f"{__name__}.{module}"), name)
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
