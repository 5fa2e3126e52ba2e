"""Results as pictures that stand alone: a file, or the cell of a notebook."""

from __future__ import annotations

from dataclasses import replace

from counterpoise.app.room import room_of
from counterpoise.checks import HouseResult, SetResult, surprise_of
from counterpoise.drawing import along_picture, caption_of, house_picture, svg_file, told_of
from counterpoise.units import Style


def house_file(result: HouseResult, *, dark: bool = False) -> str:
    """The house as an SVG document, in the house's own words."""
    surprise = surprise_of(result)
    mark = surprise.label if surprise else ""
    drawn = house_picture(result, mark=mark, told=told_of(result, _style(result)))
    return svg_file(replace(drawn, caption=_spoken(result, caption_of(result))), dark=dark)


def set_file(result: HouseResult, one: SetResult, *, dark: bool = False) -> str:
    """One set along its batten as an SVG document."""
    drawn = along_picture(one, _style(result), room=room_of(result.house, one))
    return svg_file(replace(drawn, caption=_spoken(result, caption_of(result, one))), dark=dark)


def _spoken(result: HouseResult, caption: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(map(result.speech(), caption))


def _style(result: HouseResult) -> Style:
    return Style("metric" if result.house.units == "metric" else "us")
