"""What people write down: text in, a written model out, each value with its place, its words and how it is known.

What edits, compares and describes documents is imported when it is first asked for: a check starts without it.
"""

import importlib
from typing import TYPE_CHECKING

from counterpoise.documents.hang import Cue, Hang, Hung, Move
from counterpoise.documents.house import Bay, Brick, Bridge, FireCurtain, Hold, House, Rail, Rules, Stage
from counterpoise.documents.known import NOT_WRITTEN, How, Known, Source, worst
from counterpoise.documents.line_set import COUNTERWEIGHT, DEAD_HUNG, HEMP, LineSet
from counterpoise.documents.log import Done, Log
from counterpoise.documents.log_cut import LogSoFar
from counterpoise.documents.notes import NotChecked
from counterpoise.documents.parts import (
    SIDE_LOADS,
    Arbor,
    Attachment,
    Bags,
    Batten,
    Block,
    Condition,
    Guides,
    HandLine,
    Ladder,
    LiftLines,
    LineAt,
    Lock,
    Mule,
    PipeLength,
    Posted,
    Splice,
    Stops,
    Truss,
    TrussSpan,
)
from counterpoise.documents.reading import (
    kind_of,
    read_hang,
    read_hang_alone,
    read_house,
    read_log,
    read_log_so_far,
    read_show,
)
from counterpoise.documents.show import (
    FREE,
    IN_SECTIONS,
    OFF_THE_FLOOR,
    TIPPED_UP,
    Cable,
    Clamps,
    Part,
    Piece,
    Show,
    Taken,
    Wishes,
)
from counterpoise.documents.speech import Speech
from counterpoise.documents.tree import Plain

if TYPE_CHECKING:
    from counterpoise.documents.as_json import from_json, to_json
    from counterpoise.documents.difference import Difference
    from counterpoise.documents.differences import diff
    from counterpoise.documents.edits import Edit, add, apply_edits, by_name, edit_scalar, remove, rename, standing
    from counterpoise.documents.renumbering import Renumbered, Touched, renumber
    from counterpoise.documents.schema import schema_of

__all__ = [
    "COUNTERWEIGHT",
    "DEAD_HUNG",
    "FREE",
    "HEMP",
    "IN_SECTIONS",
    "NOT_WRITTEN",
    "OFF_THE_FLOOR",
    "SIDE_LOADS",
    "TIPPED_UP",
    "Arbor",
    "Attachment",
    "Bags",
    "Batten",
    "Bay",
    "Block",
    "Brick",
    "Bridge",
    "Cable",
    "Clamps",
    "Condition",
    "Cue",
    "Difference",
    "Done",
    "Edit",
    "FireCurtain",
    "Guides",
    "HandLine",
    "Hang",
    "Hold",
    "House",
    "How",
    "Hung",
    "Known",
    "Ladder",
    "LiftLines",
    "LineAt",
    "LineSet",
    "Lock",
    "Log",
    "LogSoFar",
    "Move",
    "Mule",
    "NotChecked",
    "Part",
    "Piece",
    "PipeLength",
    "Plain",
    "Posted",
    "Rail",
    "Renumbered",
    "Rules",
    "Show",
    "Source",
    "Speech",
    "Splice",
    "Stage",
    "Stops",
    "Taken",
    "Touched",
    "Truss",
    "TrussSpan",
    "Wishes",
    "add",
    "apply_edits",
    "by_name",
    "diff",
    "edit_scalar",
    "from_json",
    "kind_of",
    "read_hang",
    "read_hang_alone",
    "read_house",
    "read_log",
    "read_log_so_far",
    "read_show",
    "remove",
    "rename",
    "renumber",
    "schema_of",
    "standing",
    "to_json",
    "worst",
]

if not TYPE_CHECKING:  # or every name that is misspelt would pass the type checker
    _LATER = {
        "as_json": "from_json to_json",
        "difference": "Difference",
        "differences": "diff",
        "edits": "Edit add apply_edits by_name edit_scalar remove rename standing",
        "renumbering": "Renumbered Touched renumber",
        "schema": "schema_of",
    }

    def __getattr__(name):
        for module, names in _LATER.items():
            if name in names.split():
                return getattr(importlib.import_module(f"{__name__}.{module}"), name)
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
