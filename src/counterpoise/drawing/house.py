"""The house as one picture: a lane for each set, piece above its number, arbor below, heights on one scale."""

from __future__ import annotations

import math
from collections.abc import Iterator
from textwrap import wrap

from counterpoise.balance import out_of_balance
from counterpoise.checks import HouseResult, SetResult, Verdict
from counterpoise.drawing.frame import Frame, frame_of
from counterpoise.drawing.lane import lane_shapes, shown_height
from counterpoise.drawing.shapes import Picture, Shape, box, group, hatch, line, path, words
from counterpoise.drawing.status import felt, status_of
from counterpoise.units import METRES_PER_FOOT, Style, length

TOLD_WIDTH = 34  # characters of a line written beside a batten


def house_picture(result: HouseResult, *, narrow: bool = False, mark: str = "", told: tuple[str, ...] = ()) -> Picture:
    """The house.

    Args:
        result: the whole hang.
        narrow: for a phone.
        mark: label of the set that the first sentence speaks of.
        told: lines written beside it.
    """
    frame = frame_of(result, narrow=narrow)
    style = Style(result.house.house.units)  # type: ignore[arg-type]  # the document allows just these two words
    above = Shape("clipPath", {"id": f"above-{frame.name}"}, (box(0, 0, frame.width, frame.floor),))
    shapes = [hatch(frame.name), Shape("defs", {}, (above,)), *_marked(frame, mark), *_ground(result, frame)]
    shapes += [lane_shapes(one, frame, style, is_told=one.label == mark) for one in result.sets]
    shapes += [*_axis(result, frame, style), *_told(result, frame, mark, told),
               _readout(result, frame, mark, style)]  # fmt: skip
    return Picture(name=frame.name, width=frame.width, height=frame.height, title="The house, a lane for each set",
                   shapes=tuple(shapes), data={"scale": frame.scale, "name": frame.name},
                   is_roomy=narrow or frame.width > 1400.0)  # fmt: skip


def _marked(frame: Frame, mark: str) -> Iterator[Shape]:
    x = frame.lanes.get(mark)
    if x is not None:
        yield box(x - 15, 6, 30, frame.wall_bottom - 2, class_="mark")


def _ground(result: HouseResult, frame: Frame) -> Iterator[Shape]:
    """What all sets share: grid, proscenium, floor, stops, and the reach of each bridge."""
    stage, right = result.house.house.stage, frame.width - 6
    narrow = frame.name == "narrow"
    label = "label tiny end" if narrow else "label end"

    def across(y: float, said: str, cls: str = "hair") -> Iterator[Shape]:
        yield line(frame.left - 4, y, right, y, class_=cls)
        rows = said.split("|") if narrow else [said.replace("|", " ")]
        for i, row in enumerate(rows):
            yield words(frame.left - 8, y + 4 + 13 * (i - (len(rows) - 1) / 2), row, class_=label)

    loft = stage.loft_blocks
    said = "unknown" if loft.is_unknown else loft.text.split("@")[0].strip()
    yield from across(frame.grid, f"loft blocks|{said}", "strong")
    if stage.proscenium_height is not None and stage.proscenium_height.best is not None:
        said = stage.proscenium_height.text.split("@")[0].strip()
        yield from across(frame.y(stage.proscenium_height.best), f"proscenium|{said}", "dashed")
    yield from across(frame.floor, "stage|floor", "strong")
    yield words(frame.left - 8, frame.floor + 28, "set", class_=label)
    yield words(frame.left - 8, frame.floor + (120 if frame.tight else 72), "bricks", class_=label)
    for bridge in result.house.bridges:
        top, bottom = frame.wall_y(bridge.reach_high), frame.wall_y(bridge.reach_low)
        top = max(top, frame.wall_top)
        yield box(frame.left - 4, top, right - frame.left + 4, bottom - top, class_="band")
        yield from across(frame.wall_y(bridge.floor), bridge.name.replace(" ", "|"))
        if not narrow:
            yield words(right - 4, top + 15, "reach of its crew", class_="label end halo")
    yield from across(frame.wall_top, "arbors" if narrow else "top stop", "strong")
    yield from across(frame.wall_bottom, "bottom|stop", "strong")
    yield line(frame.left - 4, frame.grid, frame.left - 4, frame.floor, class_="hair")


def _axis(result: HouseResult, frame: Frame, style: Style) -> Iterator[Shape]:
    y, right = frame.wall_bottom + 24, frame.width - 6
    if frame.name == "narrow":
        yield words(frame.left, y, "lanes drawn evenly", class_="label")
        return
    says = "lanes drawn evenly"
    if frame.stretch is not None:
        known = [one.distance.best or 0.0 for one in result.house.house.sets]
        x0 = frame.lanes[result.sets[0].label] - known[0] * frame.stretch * frame.scale
        step = METRES_PER_FOOT * 2 if style.system == "us" else 0.5
        count = math.floor(known[-1] / step + 1e-9)
        while count > 14:
            step, count = step * 2, count // 2
        yield line(x0, y, max(frame.lanes.values()), y, class_="hair")
        for i in range(count + 1):
            x = x0 + i * step * frame.stretch * frame.scale
            yield line(x, y, x, y + 5, class_="hair")
            yield words(
                x,
                y + 20,
                result.house.house.stage.distances_from if i == 0 else length(i * step, style),
                class_="label middle",
            )
        says = f"upstage of the {result.house.house.stage.distances_from} · drawn {frame.stretch:.1f} × wider than high"
    legend = "pipe-weight bricks solid · within plain · over hatched · unknown dotted · out of service struck through"
    yield words(frame.left - 4, y + 38, legend, class_="label")
    yield words(right, y + 38, f"{says} · pull a batten along its line", class_="label end")


def _told(result: HouseResult, frame: Frame, mark: str, told: tuple[str, ...]) -> Iterator[Shape]:
    """The marked set's name and what is to be said of it, beside its batten."""
    one = result.set_called(mark)
    if not told or one is None or one.rigged is None or frame.name == "narrow":
        return
    left = frame.lanes[mark] > frame.width - 330
    x, y = frame.lanes[mark] + (-22 if left else 22), frame.y(shown_height(one)) + 30
    rows = [(told[0], "told strong-word"), *((row, f"told word-{status_of(one)}") for row in told[1:2]),
            *((row, "told word-accent") for said in told[2:] for row in wrap(said, TOLD_WIDTH))]  # fmt: skip
    y = min(y, frame.floor - 19 * (len(rows) - 1) - 12)  # the last of them stands above the stage floor
    wide = 7.6 * max(len(said) for said, _ in rows) + 12
    yield box(x - wide + 6 if left else x - 6, y - 17, wide, 19 * len(rows) + 4, class_="told-ground")
    for i, (said, cls) in enumerate(rows):
        yield words(x, y + 19 * i, said, class_=f"{cls} end" if left else cls)


def _readout(result: HouseResult, frame: Frame, mark: str, style: Style) -> Shape:
    """What the rail feels where the marked set is drawn; the page writes here while a batten is pulled."""
    one = result.set_called(mark)
    x = y = 0.0
    side = "start"
    said = where = ""
    if one is not None and one.rigged is not None and one.stack is not None:
        at = shown_height(one)
        side = "end" if frame.lanes[mark] > frame.width / 2 else "start"
        x, y = (
            frame.lanes[mark] + (-16 if side == "end" else 16),
            frame.wall_y(one.rigged.seat(at) + one.rigged.usable_height),
        )
        said = felt(out_of_balance(one.rigged, one.stack, at).best, style)
        where = f"set {mark} at {length(at, style)}"
    return group(words(x, y + 16, said, class_="readout strong-word", data_part="readout", text_anchor=side),
                 words(x, y + 35, where, class_="readout", data_part="readout-where",
                       text_anchor=side), class_="readouts")  # fmt: skip


def surprise_picture(one: SetResult, equal: float, style: Style) -> Picture:
    """The lines of one batten: what each really carries, the tick of an equal share, the limit dashed."""
    rows = [row for row in one.rows if row.link == "loft block" and row.limit is not None]
    most = max([equal, *(max(row.value.best, row.limit or 0.0) for row in rows)])
    tall, foot, step = 62.0, 86.0, 58.0
    shapes: list[Shape] = [hatch("surprise"), line(8, foot, step * len(rows) + 4, foot, class_="strong")]
    for i, row in enumerate(rows):
        x, high = 34 + step * i, tall * row.value.best / most
        over = row.verdict is Verdict.OVER
        fill = {"fill": "url(#hatch-surprise)"} if over else {}
        shapes.append(box(x - 9, foot - high, 18, high, class_=f"bar bar-{row.verdict.value}", **fill))
        limit = foot - tall * (row.limit or 0.0) / most
        shapes.append(line(x - 22, limit, x + 22, limit, class_="limit"))
        share = foot - tall * equal / most
        shapes.append(path([(x - 16, share), (x + 16, share)], class_="share"))
        said = row.printed(style)[0]
        shapes.append(words(x, foot - high - 5, said, class_=f"small middle {'word-over' if over else ''}"))
        shapes.append(words(x, foot + 15, str(row.line), class_="label middle"))
    width = step * len(rows) + 12
    return Picture(name="surprise", width=width, height=106, shapes=tuple(shapes),
                   title="Each line's real force, an equal share as a tick, the limit dashed")  # fmt: skip
