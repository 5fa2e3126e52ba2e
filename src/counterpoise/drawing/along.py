"""One set along its batten: forces, sag, loads to drag, likely bands against limits, room left, on one axis."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import replace
from urllib.parse import quote

from counterpoise.checks import Check, SetResult, Verdict
from counterpoise.drawing.axis import Axis, RoomCurve, axis_of
from counterpoise.drawing.links import OnLine, on_line, printed_pull, unit_of, weakest, without_figure
from counterpoise.drawing.shapes import Picture, Shape, Value, box, circle, group, hatch, line, link, path, words
from counterpoise.rigging import RiggedBatten, RiggedPiece
from counterpoise.statics import Beam, Hanging
from counterpoise.units import METRES_PER_FOOT, Style, length, limit, mass

CARD = 24  # letters of a name on the card of a load
SAG_POINTS = 60
ALLOWED_SAG = 34.0  # units at which the allowed sag is drawn
LEANS = 0.05  # [m]; a line that runs less aside is not called leaning
WIDE_BARS = (
    "bar: what each line pulls at the best weights · bracket: least to most · dashed: what its weakest part may take",
    "figure: the most that it may come to; where it is over, at the best weights",
)
NARROW_BARS = ("bar: pull · bracket: least to most · dashed: limit",)
MOST_SAG = 84.0  # and the most that any of it is drawn: it runs into no figure


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
    bent, factor = _bent(one, rigged, axis)
    shapes = [hatch(f"along-{name}"), *_lines(one, rigged, axis, bent, style),
              *_batten(one, rigged, axis, bent, factor, style)]  # fmt: skip
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


def _lines(
    one: SetResult, rigged: RiggedBatten, axis: Axis, bent: list[tuple[float, float]], style: Style
) -> Iterator[Shape]:  # fmt: skip
    widths = _widths(one)
    for i, each in enumerate(rigged.lines):
        found, x, status = on_line(one, i + 1), axis.x(each.x), _status(one, i + 1)
        slack = found is not None and found.is_slack
        top = x + widths[i] * axis.per_metre  # where its loft block stands over the batten as it hangs
        yield line(top, 48, x, _on(bent, x), class_=f"lift lift-{'slack' if slack else status}", data_key=f"line-{i}")
        if found is not None:
            said = printed_pull(found, style)[0]
            text = words(x, 24, said, class_=f"force middle word-{status}", data_key=f"force-{i}")
            leans = abs(widths[i]) > LEANS and axis.name != "narrow"  # on a phone there is no room for the word
            named = f"line {i + 1}{' leans' if leans else ''}"
            more = words(x, 42, "slack" if slack else named, class_="label middle", data_key=f"force-word-{i}")
            yield link(story(found.row), box(x - 30, 2, 60, 48, class_="hit"), text, more, data_story=found.row.key)


def _widths(one: SetResult) -> tuple[float, ...]:
    """How far each line runs aside from batten to loft block, toward stage left [m]."""
    assert one.forces is not None  # the caller looked
    along = one.forces.best.along
    return along.widths if along is not None else (0.0,) * len(one.forces.best.tensions)


def _bent(one: SetResult, rigged: RiggedBatten, axis: Axis) -> tuple[list[tuple[float, float]], int]:
    """The batten as it bends, in one curve, and how many times it is enlarged.

    All of it is drawn against the level of its outermost carrying lines.
    """
    assert one.forces is not None  # the caller looked
    row = next((each for each in one.rows if each.link == "sag"), None)
    longest = rigged.beam.length / max(1, len(rigged.lines) - 1)
    allowed = row.limit if row is not None and row.limit else longest / 180
    answer = one.forces.best.answer
    bent = answer if isinstance(answer, Hanging) else answer.bottom
    carry = [rigged.lines[i].x for i in answer.carrying] or [rigged.lines[0].x]
    first, last = min(carry), max(carry)
    start, end = bent.deflection(first), bent.deflection(last)
    slope = (end - start) / (last - first) if last > first else 0.0
    stops = [rigged.beam.length * i / SAG_POINTS for i in range(SAG_POINTS + 1)]
    sags = [(bent.deflection(x) - start - slope * (x - first)) * axis.per_metre for x in stops]
    factor = round(ALLOWED_SAG / (allowed * axis.per_metre))
    factor = max(1, min(factor, int(MOST_SAG / max(map(abs, sags), default=1.0)) if any(sags) else factor))
    return [(axis.x(x), axis.batten + sag * factor) for x, sag in zip(stops, sags, strict=True)], factor


def _on(bent: list[tuple[float, float]], x: float) -> float:
    """Where the bent batten is at x."""
    for (left, high), (right, low) in itertools.pairwise(bent):
        if left <= x <= right:
            return high + (low - high) * (x - left) / (right - left)
    return bent[0][1] if x < bent[0][0] else bent[-1][1]


def _batten(
    one: SetResult, rigged: RiggedBatten, axis: Axis, bent: list[tuple[float, float]], factor: int, style: Style
) -> Iterator[Shape]:  # fmt: skip
    """The batten as it bends, its lines on it, and what is said of its sag."""
    row = next((each for each in one.rows if each.link == "sag"), None)
    yield line(axis.x(0), axis.batten, axis.x(rigged.beam.length), axis.batten, class_="hair")
    yield path(bent, class_="pipe", data_key="pipe")
    yield from _upper_chord(rigged, axis, bent)
    for i, each in enumerate(rigged.lines):
        x = axis.x(each.x)
        yield circle(x, _on(bent, x), 4, class_="pick", data_key=f"pick-{i}")
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
    said = piece.name if len(piece.name) <= CARD else f"{piece.name[: CARD - 1].rstrip()}…"
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
                  aria_valuemin=0, aria_valuemax=round(rigged.beam.length, 3), aria_valuenow=f"{centre:.4f}"),
              ]  # fmt: skip
    return group(*parts, transform=f"translate({x:.2f} 0)", data_key=f"load-{index}", class_="piece")


def _bars(one: SetResult, rigged: RiggedBatten, axis: Axis, style: Style) -> Iterator[Shape]:
    foot, tall = axis.bars_foot, axis.bars_foot - axis.bars_top
    narrow = axis.name == "narrow"
    said = NARROW_BARS if narrow else WIDE_BARS
    for row, heading in enumerate(said):
        yield words(axis.x(0), axis.bars_top - 14 - 18 * (len(said) - 1 - row), heading, class_="label")
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
    parts: list[Shape] = [words(axis.x(0), top - 16, _room_heading(room), class_="label")]
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


def _room_heading(room: RoomCurve | None) -> str:
    said = "room left: one more load here"
    return f"{said}; {room.says}" if room is not None and room.points and room.says else said


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
