"""Results to pictures: shapes first, then a player that writes them."""

from counterpoise.checks.told import CAUTION
from counterpoise.checks.working import COMES_TO, Working, workings_of
from counterpoise.drawing.along import along_picture, story
from counterpoise.drawing.axis import Axis, RoomCurve, axis_of
from counterpoise.drawing.chain import chain_picture
from counterpoise.drawing.house import house_legend, house_picture, surprise_picture
from counterpoise.drawing.ink import sheet
from counterpoise.drawing.lane import shown_height
from counterpoise.drawing.links import bears_resultant, of_text
from counterpoise.drawing.shapes import Picture, keyed, svg, svg_file
from counterpoise.drawing.status import felt, status_of
from counterpoise.drawing.strip import strip_picture
from counterpoise.drawing.telling import caption_of, reason_of, sentence_of, told_of
from counterpoise.drawing.travel import beyond_lock_at_low_trim, judged_heights, travel_picture

__all__ = [
    "CAUTION",
    "COMES_TO",
    "Axis",
    "Picture",
    "RoomCurve",
    "Working",
    "along_picture",
    "axis_of",
    "bears_resultant",
    "beyond_lock_at_low_trim",
    "caption_of",
    "chain_picture",
    "felt",
    "house_legend",
    "house_picture",
    "judged_heights",
    "keyed",
    "of_text",
    "reason_of",
    "sentence_of",
    "sheet",
    "shown_height",
    "status_of",
    "story",
    "strip_picture",
    "surprise_picture",
    "svg",
    "svg_file",
    "told_of",
    "travel_picture",
    "workings_of",
]
