"""Results to pictures: shapes first, then a player that writes them."""

from counterpoise.drawing.along import Axis, RoomCurve, along_picture, axis_of, story
from counterpoise.drawing.chain import chain_picture
from counterpoise.drawing.house import house_legend, house_picture, surprise_picture
from counterpoise.drawing.ink import sheet
from counterpoise.drawing.lane import shown_height
from counterpoise.drawing.links import of_text
from counterpoise.drawing.shapes import Picture, keyed, svg, svg_file
from counterpoise.drawing.status import felt, status_of
from counterpoise.drawing.strip import strip_picture
from counterpoise.drawing.travel import travel_picture
from counterpoise.drawing.working import COMES_TO, Working, workings_of

__all__ = [
    "COMES_TO",
    "Axis",
    "Picture",
    "RoomCurve",
    "Working",
    "along_picture",
    "axis_of",
    "chain_picture",
    "felt",
    "house_legend",
    "house_picture",
    "keyed",
    "of_text",
    "sheet",
    "shown_height",
    "status_of",
    "story",
    "strip_picture",
    "surprise_picture",
    "svg",
    "svg_file",
    "travel_picture",
    "workings_of",
]
