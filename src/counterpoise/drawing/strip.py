"""All lanes of a wide house at a glance, above a window that shows some of them."""

from __future__ import annotations

from counterpoise.checks import HouseResult
from counterpoise.drawing.frame import frame_of
from counterpoise.drawing.shapes import Picture, Shape, box, hatch, line, words
from counterpoise.drawing.status import status_of

WINDOW = {True: 358.0, False: 1400.0}  # what a phone and a laptop show at once


def strip_picture(result: HouseResult, *, narrow: bool) -> Picture | None:
    """A tick for each set, told by its line; None where the whole house is seen anyway. The page moves the window."""
    frame = frame_of(result, narrow=narrow)
    seen = WINDOW[narrow]
    if frame.width <= seen:
        return None
    name = f"strip-{frame.name}"
    shapes: list[Shape] = [hatch(name), line(0, 40, seen, 40, class_="hair")]
    every = max(1, len(result.sets) // (8 if narrow else 30))
    for index, one in enumerate(result.sets):
        x, status = frame.lanes[one.label] / frame.width * seen, status_of(one)
        parts = [box(x - 3, 16, 6, 24, class_="solid", fill=f"url(#hatch-{name})")] if status == "over" else \
            [line(x, 22, x, 40, class_="lift")]  # fmt: skip
        if status == "out":
            parts.append(line(x - 4, 26, x + 4, 36, class_="struck"))
        shapes.append(Shape("g", {"class": f"lane-tick is-{status}"}, tuple(parts)))
        if index % every == 0:
            shapes.append(words(x, 12, one.label, class_="label tiny middle"))
    shapes.append(box(1, 14, seen * seen / frame.width, 32, class_="seen", data_part="seen"))
    return Picture(name=name, width=seen, height=48, title="All sets; a touch shows those", shapes=tuple(shapes))
