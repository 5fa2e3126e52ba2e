"""The house as one picture: a lane for each set, piece above its number, arbor below, heights on one scale."""

from __future__ import annotations

import math
from collections.abc import Iterator
from textwrap import wrap

from counterpoise.balance import out_of_balance
from counterpoise.checks import HouseResult, SetResult, Verdict
from counterpoise.drawing.frame import ROW, Frame, frame_of
from counterpoise.drawing.lane import lane_shapes, shown_height
from counterpoise.drawing.shapes import Picture, Shape, box, group, hatch, line, path, words
from counterpoise.drawing.status import felt, status_of
from counterpoise.units import METRES_PER_FOOT, Style, force, length

TOLD_WIDTH, MOST_TOLD = 96, 124  # characters of a line written above a lane, and of one that has room for more
TOLD_LETTER = 7.6  # as wide as one of them is at most, on the whole
LONG_LABEL = 15  # characters beyond which a height is named in two rows


def house_picture(
    result: HouseResult, *, narrow: bool = False, mark: str = "", told: tuple[str, ...] = (), legend: bool = True
) -> Picture:
    """The house.

    Args:
        result: the whole hang.
        narrow: for a phone.
        mark: label of the set that the first sentence speaks of.
        told: lines written above its lane.
        legend: write what the lines mean at the foot; a page says it beside the picture, where it wraps.
    """
    said = [] if narrow else _said(result, mark, told, _letters(frame_of(result, narrow=narrow), mark))
    frame = frame_of(result, narrow=narrow, rows=len(said))
    style = Style(result.house.house.units)  # type: ignore[arg-type]  # the document allows just these two words
    above = Shape("clipPath", {"id": f"above-{frame.name}"}, (box(0, 0, frame.width, frame.floor),))
    shapes = [hatch(frame.name), Shape("defs", {}, (above,)), *_marked(frame, mark), *_ground(result, frame)]
    shapes += [lane_shapes(one, frame, style, is_told=one.label == mark) for one in result.sets]
    shapes += [*_axis(result, frame, style), *_told(frame, mark, said)]
    if not narrow:
        shapes.append(_readout(result, frame, mark, style))
    if legend:
        shapes += _legend(result, frame)
    height = frame.height + (24.0 + ROW if legend else 0.0)
    return Picture(name=frame.name, width=frame.width, height=height, title="The house, a lane for each set",
                   shapes=tuple(shapes), data={"scale": frame.scale, "name": frame.name, "wall": frame.wall_top,
                         "wall-foot": frame.wall_bottom},
                   is_roomy=narrow or frame.width > 1400.0)  # fmt: skip


def _marked(frame: Frame, mark: str) -> Iterator[Shape]:
    x = frame.lanes.get(mark)
    if x is not None:
        yield box(x - 15, 2, 30, frame.wall_bottom + 2, class_="mark")


def _ground(result: HouseResult, frame: Frame) -> Iterator[Shape]:
    """What all sets share: grid, proscenium, floor, stops, and the reach of each bridge."""
    stage, right = result.house.house.stage, frame.width - 6
    narrow = frame.name == "narrow"
    label = "label tiny end" if narrow else "label end"

    def across(y: float, said: str, cls: str = "hair") -> Iterator[Shape]:
        yield line(frame.left - 4, y, right, y, class_=cls)
        whole = said.replace("|", " ")
        rows = said.split("|") if "|" in said and (narrow or len(whole) > LONG_LABEL) else wrap(whole, LONG_LABEL)
        for i, row in enumerate(rows):
            yield words(frame.left - 8, y + 4 + 15 * (i - (len(rows) - 1) / 2), row, class_=label)

    loft = stage.loft_blocks
    said = "unknown" if loft.is_unknown else loft.text.split("@")[0].strip()
    yield from across(frame.grid, f"loft blocks|{said}", "strong")
    if stage.proscenium_height is not None and stage.proscenium_height.best is not None:
        said = stage.proscenium_height.text.split("@")[0].strip()
        yield from across(frame.y(stage.proscenium_height.best), f"proscenium|{said}", "dashed")
    yield from across(frame.floor, "floor" if narrow else "stage floor", "strong")
    between = 11.0 if frame.crowded else 0.0  # the two rows of numbers
    yield words(frame.left - 8, frame.numbers - 3 + between, "set", class_=label)
    yield words(frame.left - 8, frame.counts - 1 + between, "bricks", class_=label)
    for bridge in result.house.bridges:
        top, bottom = frame.wall_y(bridge.reach_high), frame.wall_y(bridge.reach_low)
        top = max(top, frame.wall_top)
        yield box(frame.left - 4, top, right - frame.left + 4, bottom - top, class_="band")
        yield from across(frame.wall_y(bridge.floor), bridge.name.replace(" ", "|"))
    yield from across(frame.wall_top, "top|stop", "strong")
    yield from across(frame.wall_bottom, "bottom|stop", "strong")
    yield line(frame.left - 4, frame.grid, frame.left - 4, frame.floor, class_="hair")


def _axis(result: HouseResult, frame: Frame, style: Style) -> Iterator[Shape]:
    y = frame.wall_bottom + 24
    if frame.stretch is None:
        return
    known = [one.distance.best or 0.0 for one in result.house.house.sets]
    x0 = frame.lanes[result.sets[0].label] - known[0] * frame.stretch * frame.scale
    step = METRES_PER_FOOT * 2 if style.system == "us" else 0.5
    count = math.floor(known[-1] / step + 1e-9)
    while count > 14:
        step, count = step * 2, count // 2
    yield line(x0, y, max(frame.lanes.values()), y, class_="hair")
    for i in range(count + 1):
        x = x0 + i * step * frame.stretch * frame.scale
        said = result.house.house.stage.distances_from if i == 0 else length(i * step, style)
        yield line(x, y, x, y + 5, class_="hair")
        yield words(x, y + 20, said, class_="label middle")


def house_legend(result: HouseResult, *, narrow: bool = False) -> tuple[str, str]:
    """What the lines of the picture mean, and how it is drawn."""
    frame = frame_of(result, narrow=narrow)
    drawn = "lanes drawn evenly"
    if frame.stretch is not None:
        drawn = f"upstage of the {result.house.house.stage.distances_from}, {frame.stretch:.1f} × wider than high"
    marks = (
        "bricks: what balances it best · felt: at the best weights · solid: pipe weight · "
        "shaded: in reach of the bridge · hatched: over · "
        "dotted: unknown · struck: out of service"
    )
    return marks, f"{drawn} · pull a batten along its line to try it; nothing is kept"


def _legend(result: HouseResult, frame: Frame) -> Iterator[Shape]:
    marks, drawn = house_legend(result, narrow=frame.name == "narrow")
    y = frame.height + 8
    if frame.name == "narrow":
        yield words(frame.left, y, drawn.partition(" · ")[0], class_="label")
        return
    yield words(frame.left - 4, y, marks, class_="label")
    yield words(frame.left - 4, y + ROW, drawn.partition(" · pull")[0], class_="label")


def _letters(frame: Frame, mark: str) -> int:
    """How many characters a line above this lane may have: it goes to the side that has more room."""
    x = frame.lanes.get(mark, 0.0)
    return max(TOLD_WIDTH, min(MOST_TOLD, int((max(x, frame.width - x) - 22) / TOLD_LETTER)))


def _said(result: HouseResult, mark: str, told: tuple[str, ...], letters: int) -> list[tuple[str, str]]:
    """The marked set's name and what is to be said of it, row by row, each with its class."""
    one = result.set_called(mark)
    if not told or one is None or one.rigged is None:
        return []
    mends = [row for each in told[2:] for row in wrap(each, letters)]
    name = told[0] if len(told[0]) <= TOLD_WIDTH else f"{told[0][: TOLD_WIDTH - 1]}…"
    return [(name, "told strong-word"), *((row, f"told word-{status_of(one)}") for row in told[1:2]),
            *((row, "told word-accent") for row in (mends if len(mends) < 3 else []))]  # fmt: skip


def _told(frame: Frame, mark: str, rows: list[tuple[str, str]]) -> Iterator[Shape]:
    """What is said of the marked set, on the clear paper above its lane."""
    if not rows:
        return
    x, end = _beside(frame, mark, TOLD_LETTER * max(len(said) for said, _ in rows))
    y = frame.grid - 42 - ROW * (len(rows) - 1)
    yield group(*(words(x, y + ROW * i, said, class_=f"{cls}{end}") for i, (said, cls) in enumerate(rows)),
                data_part="told")  # fmt: skip


def _beside(frame: Frame, label: str, wide: float) -> tuple[float, str]:
    """Where words stand that are said of a lane, on the side where they have room."""
    x = frame.lanes[label]
    return (x - 22, " end") if x + 22 + wide > frame.width and x > frame.width / 2 else (x + 22, "")


def _readout(result: HouseResult, frame: Frame, mark: str, style: Style) -> Shape:
    """What the rail feels where the marked set is drawn; the page writes here while a batten is pulled."""
    one = result.set_called(mark)
    x, end, said, where = 0.0, "", "", ""
    if one is not None and one.rigged is not None and one.stack is not None:
        at = shown_height(one)
        x, end = _beside(frame, mark, 340.0)
        said = felt(out_of_balance(one.rigged, one.stack, at).best, style)
        where = f"set {mark} at {length(at, style)}: "
    parts = (Shape("tspan", {"data-part": "readout-where"}, words=where),
             Shape("tspan", {"data-part": "readout", "class": "strong-word"}, words=said),
             Shape("tspan", {"data-part": "readout-kept"}, words=""))  # fmt: skip
    return Shape("text", {"x": x, "y": frame.grid - 18, "class": "readout readouts", "data-part": "readout-line",
                          "text-anchor": "end" if end else "start"}, parts)  # fmt: skip


def surprise_picture(one: SetResult, equal: float, style: Style) -> Picture:
    """The lines of one batten: what each carries at the best figures, the tick of an equal share, the limit dashed."""
    rows = [row for row in one.rows if row.link == "loft block" and row.limit is not None]
    most = max([equal, *(max(row.value.best, row.limit or 0.0) for row in rows)])
    tall, foot, step = 56.0, 90.0, 58.0
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
        said = force(row.value.best, style).split(" ")[0]  # as high as the bar, and as the sentence beside it says
        cls = "small middle word-over" if over else "small middle"
        shapes.append(words(x, _clear(foot - high, share, limit), said, class_=cls))
        shapes.append(words(x, foot + 15, str(row.line), class_="label middle"))
    width = step * len(rows) + 12
    return Picture(name="surprise", width=width, height=110, shapes=tuple(shapes),
                   title="Each line's real force, an equal share as a tick, the limit dashed")  # fmt: skip


def _clear(top: float, *ticks: float) -> float:
    """Where a figure stands above its bar without a tick through it."""
    at = top - 5
    for tick in sorted(ticks, reverse=True):
        if at - 13 < tick < at + 6:
            at = tick - 5
    return at
