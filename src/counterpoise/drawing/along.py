"""One set along its batten: forces, sag, loads to drag, likely bands against limits, room left, on one axis."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass, replace
from textwrap import shorten
from urllib.parse import quote

from counterpoise.checks import Check, SetResult, Verdict
from counterpoise.drawing.links import OnLine, on_line, printed_pull, unit_of, weakest, without_figure
from counterpoise.drawing.shapes import Picture, Shape, Value, box, circle, group, hatch, line, link, path, words
from counterpoise.rigging import RiggedBatten, RiggedPiece
from counterpoise.statics import Beam
from counterpoise.units import METRES_PER_FOOT, Style, length, limit, mass

SAG_POINTS = 60
ALLOWED_SAG = 34.0  # units at which the allowed sag is drawn
MOST_SAG = 84.0  # and the most that any of it is drawn: it runs into no figure


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomCurve:
    """Room left for one more load: (x [m], force [N]); or, without points, the words why there is no curve."""

    points: tuple[tuple[float, float], ...] = ()
    says: str = ""
    is_unknown: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """The common axis along the batten, and where each band of the picture stands."""

    name: str
    width: float
    left: float
    per_metre: float
    rows: int
    most: float  # force drawn at the top of the bars [N]

    batten: float = 148.0
    room_tall: float = 74.0  # of the room's field

    @property
    def bars_top(self) -> float:
        """Top of the bars' field."""
        return self.batten + 64 + 60 * self.rows + (48 if self.name == "narrow" else 32)

    @property
    def bars_foot(self) -> float:
        """Where the bars stand."""
        return self.bars_top + 112

    @property
    def room_top(self) -> float:
        """Top of the room's field."""
        return self.bars_foot + 82

    @property
    def room_foot(self) -> float:
        """Where the room's curve stands."""
        return self.room_top + self.room_tall

    def x(self, at: float) -> float:
        """Along the batten."""
        return self.left + at * self.per_metre


def axis_of(one: SetResult, rigged: RiggedBatten, *, narrow: bool) -> Axis:
    """The axis for a laptop or a phone. It rests on limits and weights, not on where a load hangs."""
    width, left = (358.0, 26.0) if narrow else (960.0, 46.0)
    lines = [found for i in range(len(rigged.lines)) if (found := on_line(one, i + 1)) is not None]
    limits, heavy = [found.most or 0.0 for found in lines], sum(found.pull.high for found in lines)
    most = max([1.0, 1.45 * max(limits, default=0.0), 0.0 if any(limits) else heavy / 2])
    return Axis(name="narrow" if narrow else "wide", width=width, left=left, most=most, rows=len(rigged.pieces),
                per_metre=(width - 2 * left) / rigged.beam.length)  # fmt: skip


def along_picture(
    one: SetResult, style: Style, *, narrow: bool = False, room: RoomCurve | None = None, axis: Axis | None = None
) -> Picture:
    """The picture. `axis` keeps the scale of an earlier one; a set without figures gets its sentence only."""
    rigged, name = one.batten, "narrow" if narrow else "wide"
    if rigged is None or one.forces is None:
        said = words(0, 24, "This set cannot be drawn until its figures are known.", class_="label")
        return Picture(name=name, width=358 if narrow else 960, height=40, title="No figures", shapes=(said,))
    axis = axis or axis_of(one, rigged, narrow=narrow)
    if room is not None and not room.points:
        axis = replace(axis, room_tall=40.0)  # a sentence stands there, no curve
    shapes = [hatch(f"along-{name}"), *_lines(one, rigged, axis, style), *_batten(one, rigged, axis, style)]
    for index, piece in enumerate(rigged.pieces):
        shapes.append(_load(piece, index, rigged, axis, style))
    shapes += [*_bars(one, rigged, axis, style), *_room(room, rigged, axis, style), *_scale(rigged, axis, style)]
    return Picture(name=f"along-{name}", width=axis.width, height=axis.room_foot + 42, shapes=tuple(shapes),
                   title=f"Set {one.label} along its batten",
                   data={"per-metre": axis.per_metre, "left": axis.left, "length": rigged.beam.length})  # fmt: skip


def _status(one: SetResult, number: int) -> str:
    row = weakest(one, number)
    if row is not None and row.verdict is Verdict.OVER:
        return "over"
    return (
        "unknown" if without_figure(one, number) or (row is not None and row.verdict is Verdict.UNKNOWN) else "within"
    )


def story(row: Check) -> str:
    """Where the derivation of a row is told."""
    return f"/explain/{quote(row.key, safe='/')}"


def _lines(one: SetResult, rigged: RiggedBatten, axis: Axis, style: Style) -> Iterator[Shape]:
    for i, each in enumerate(rigged.lines):
        found, x, status = on_line(one, i + 1), axis.x(each.x), _status(one, i + 1)
        slack = found is not None and found.is_slack
        yield line(x, 48, x, axis.batten, class_=f"lift lift-{'slack' if slack else status}", data_key=f"line-{i}")
        if found is not None:
            said = printed_pull(found, style)[0]
            text = words(x, 24, said, class_=f"force middle word-{status}", data_key=f"force-{i}")
            more = words(
                x, 42, "slack" if slack else f"line {i + 1}", class_="label middle", data_key=f"force-word-{i}"
            )
            yield link(story(found.row), box(x - 30, 2, 60, 48, class_="hit"), text, more, data_story=found.row.key)


def _batten(one: SetResult, rigged: RiggedBatten, axis: Axis, style: Style) -> Iterator[Shape]:
    """The batten as it bends: sag against the level of its carrying lines, enlarged by a stated factor."""
    row = next((each for each in one.rows if each.link == "sag"), None)
    assert one.forces is not None  # the caller looked
    longest = rigged.beam.length / max(1, len(rigged.lines) - 1)
    allowed = row.limit if row is not None and row.limit else longest / 180
    at = [rigged.beam.length * i / SAG_POINTS for i in range(SAG_POINTS + 1)]
    sags = [one.forces.best.sag(x) * axis.per_metre for x in at]
    factor = round(ALLOWED_SAG / (allowed * axis.per_metre))
    factor = max(1, min(factor, int(MOST_SAG / max(map(abs, sags), default=1.0)) if any(sags) else factor))
    points = [(axis.x(x), axis.batten + sag * factor) for x, sag in zip(at, sags, strict=True)]
    yield line(axis.x(0), axis.batten, axis.x(rigged.beam.length), axis.batten, class_="hair")
    yield path(points, class_="pipe", data_key="pipe")
    yield from _upper_chord(rigged, axis, points)
    for each in rigged.lines:
        yield circle(axis.x(each.x), axis.batten, 4, class_="pick")
    if row is not None:
        value, bound = row.printed(style)
        narrow = axis.name == "narrow"
        x, y = (axis.x(0), axis.bars_top - 32) if narrow else (axis.x(rigged.beam.length), axis.bars_top - 14)
        cls = f"label {'' if narrow else 'end'} word-{row.verdict.value}"
        text = words(x, y, f"sag drawn {factor} ×, largest {value} of {bound}", class_=cls, data_key="sag-word")
        start = axis.x(0) if narrow else x - 250
        yield link(story(row), box(start, y - 25, 250, 48, class_="hit"), text, data_story=row.key)


def _upper_chord(rigged: RiggedBatten, axis: Axis, lower: list[tuple[float, float]]) -> Iterator[Shape]:
    """The upper chord of a ladder and its spacers, as it bends with the lower one."""
    beam = rigged.beam
    if isinstance(beam, Beam):
        return
    deep = max(10.0, beam.depth * axis.per_metre)
    upper = [(x, y - deep) for x, y in lower]
    yield path(upper, class_="pipe", data_key="upper-chord")
    for at in beam.spacers:
        x, y = min(lower, key=lambda point: abs(point[0] - axis.x(at)))
        yield line(x, y - deep, x, y, class_="spacer")


def _load(piece: RiggedPiece, index: int, rigged: RiggedBatten, axis: Axis, style: Style) -> Shape:
    """A piece, drawn from its own centre so that only its place moves."""
    half = rigged.beam.length / 2
    centre = half + piece.hung.centre.number
    top = axis.batten + 64 + 60 * index
    said = shorten(piece.name, 24, placeholder="…") if " " in piece.name else piece.name[:24]
    at = piece.hung.centre.text.split("@")[0].strip()
    weight = mass(piece.mass[1], style)
    wide = max(150.0, 8.2 * len(said) + 24)
    parts: list[Shape] = []
    if piece.spread is not None:
        size = (piece.spread[1] - piece.spread[0]) * axis.per_metre
        parts.append(box(-size / 2, top - 8, size, 5, class_="spread"))
        low, high = -size / 2, size / 2
    else:
        offsets = [(x - centre) * axis.per_metre for x, _ in piece.points]
        low, high = min([-wide / 2, *offsets]), max([wide / 2, *offsets])
        parts.append(line(min(offsets), top - 6, max(offsets), top - 6, class_="pick-line"))
        parts += [line(x, axis.batten + 3, x, top - 6, class_="pick-line") for x in offsets]
    low, high = min(low, -wide / 2), max(high, wide / 2)
    x = axis.x(centre)
    aside = max(1.0, x - axis.width + wide / 2 + 1) if x + wide / 2 > axis.width else min(0.0, x - wide / 2 - 1)
    card = (box(-wide / 2, top, wide, 48, class_="load"), words(0, top + 20, said, class_="load-word middle"),
            words(0, top + 39, f"{weight} · {at}", class_="load-at middle", data_key=f"at-{index}"))  # fmt: skip
    parts += [group(*card, transform=f"translate({-aside:.2f} 0)", data_key=f"card-{index}"),
              box(low, top - 10, high - low, 60, class_="handle", role="slider", tabindex=0, data_load=index,
                  aria_label=f"{piece.name}, where its centre hangs", aria_valuetext=at,
                  aria_valuemin=0, aria_valuemax=round(rigged.beam.length, 3), aria_valuenow=round(centre, 3)),
              ]  # fmt: skip
    return group(*parts, transform=f"translate({x:.2f} 0)", data_key=f"load-{index}", class_="piece")


def _bars(one: SetResult, rigged: RiggedBatten, axis: Axis, style: Style) -> Iterator[Shape]:
    foot, tall = axis.bars_foot, axis.bars_foot - axis.bars_top
    narrow = axis.name == "narrow"
    heading = "pull, band, limit of the weakest link" if narrow else \
        "pull in each line, the band it may lie in, limit of the weakest link"  # fmt: skip
    yield words(axis.x(0), axis.bars_top - 14, heading, class_="label")
    yield line(axis.x(0), foot, axis.x(rigged.beam.length), foot, class_="hair")
    half = 10 if narrow else 14
    for i, each in enumerate(rigged.lines):
        found, x = on_line(one, i + 1), axis.x(each.x)
        if found is None:
            continue

        def y(value: float) -> float:
            return foot - min(1.12, value / axis.most) * tall

        status = _status(one, i + 1)
        fill: dict[str, Value] = {"fill": f"url(#hatch-along-{axis.name})"} if status == "over" else {"fill": ""}
        yield box(x - half, y(found.pull.best), 2 * half, foot - y(found.pull.best), class_=f"bar bar-{status}",
                  data_key=f"bar-{i}", **fill)  # fmt: skip
        low, high = y(found.pull.low), y(found.pull.high)
        ends = [(x - 5, low), (x + 5, low), (x, low), (x, high), (x - 5, high), (x + 5, high)]
        yield path(ends, class_="whisker", data_key=f"whisker-{i}")
        if found.most is not None:
            yield line(x - 24, y(found.most), x + 24, y(found.most), class_="limit", data_key=f"limit-{i}")
        yield from _bound(found, i, x, foot, style, f"small middle word-{status}", narrow=narrow)


def _bound(
    found: OnLine, i: int, x: float, foot: float, style: Style, cls: str, *, narrow: bool
) -> Iterator[Shape]:  # fmt: skip
    """Below a bar its figure of its limit, and of which link."""
    pull, bound = printed_pull(found, style)
    pull = pull.removesuffix(unit_of(style))
    known = found.most is not None
    if narrow:
        yield words(x, foot + 17, pull, class_=cls, data_key=f"pull-{i}")
        told = f"of {bound.removesuffix(unit_of(style))}" if known else "no figure"
        yield words(x, foot + 34, told, class_=cls, data_key=f"bound-{i}")
    else:
        said = f"{pull} of {bound}" if known else f"{pull}, no figure"
        yield words(x, foot + 17, said, class_=cls, data_key=f"bound-{i}")
        yield words(x, foot + 34, found.row.link, class_="label middle", data_key=f"weak-{i}")


def _room(room: RoomCurve | None, rigged: RiggedBatten, axis: Axis, style: Style) -> Iterator[Shape]:
    foot, top = axis.room_foot, axis.room_top
    parts: list[Shape] = [words(axis.x(0), top - 16, "room left: one more load here", class_="label")]
    if room is not None and room.points:
        most = max(force_ for _, force_ in room.points) or 1.0
        parts.append(line(axis.x(0), top, axis.x(rigged.beam.length), top, class_="dashed"))
        parts.append(words(axis.x(rigged.beam.length), top - 8, limit(most, style), class_="label end"))
        curve = [(axis.x(x), foot - (foot - top) * value / most) for x, value in room.points]
        parts += [path([(axis.x(0), foot), *curve, (axis.x(rigged.beam.length), foot)], closed=True, class_="room")]
        for best in _peaks(room, rigged):
            x, value = best
            y = foot - (foot - top) * value / most
            parts.append(words(axis.x(x), min(y + 18, foot - 6), limit(value, style), class_="small middle on-band"))
    elif room is not None:
        cls = "word-unknown" if room.is_unknown else "word-over"
        parts.append(words(axis.x(0), top + 30, room.says, class_=f"small {cls}"))
    yield group(*parts, class_="stale")


def _peaks(room: RoomCurve, rigged: RiggedBatten) -> Iterator[tuple[float, float]]:
    """At each inner line, and midway between lines: where one looks first."""
    at = [one.x for one in rigged.lines]
    mids = [(a + b) / 2 for a, b in itertools.pairwise(at)]
    for want in mids if len(mids) < 6 else mids[::2]:
        yield min(room.points, key=lambda point: abs(point[0] - want))


def _scale(rigged: RiggedBatten, axis: Axis, style: Style) -> Iterator[Shape]:
    """Distances from the centre line, stage right to the left as the crew stands."""
    y, half = axis.room_foot, rigged.beam.length / 2
    yield line(axis.x(0), y, axis.x(rigged.beam.length), y, class_="hair")
    step = METRES_PER_FOOT * (5 if half > 3 else 2) if style.system == "us" else (2.0 if half > 3 else 0.5)
    step *= 2 if axis.name == "narrow" else 1
    count = int(half / step + 1e-9)
    for i in range(-count, count + 1):
        x = axis.x(half + i * step)
        side = " SR" if i < 0 else " SL" if i > 0 else ""
        text = "CL" if i == 0 else length(abs(i) * step, style).replace(' 0"', "").replace(".00", "") + side
        yield line(x, y, x, y + 5, class_="hair")
        yield words(x, y + 21, text, class_="label middle")
