"""One lane of the house: lines, batten, piece, number and word above; arbor and stack below."""

from __future__ import annotations

from urllib.parse import quote

from counterpoise.balance import Stack, pipe_weight
from counterpoise.checks import SetResult
from counterpoise.documents import COUNTERWEIGHT, HEMP
from counterpoise.drawing.frame import Frame
from counterpoise.drawing.shapes import Shape, Value, box, circle, group, line, link, path, words
from counterpoise.drawing.status import SAID, status_of
from counterpoise.rigging import RiggedBatten, RiggedPiece, RiggedSet
from counterpoise.units import Style, length


def shown_height(one: SetResult) -> float:
    """Where the batten is drawn [m]: at its show trim, else any trim of its piece, else stored at high trim."""
    rigged = one.batten
    if rigged is None:
        return 0.0
    for piece in rigged.pieces:
        trims = dict(piece.trims)
        if trims:
            return min(rigged.high, max(rigged.low, trims.get("show", next(iter(trims.values())))))
    return rigged.high


def lane_shapes(one: SetResult, frame: Frame, style: Style, *, is_told: bool) -> Shape:
    """Everything that stands in one set's lane."""
    x, status = frame.lanes[one.label], status_of(one)
    parts: list[Shape] = []
    if one.batten is None:
        parts += [
            line(x, frame.grid, x, frame.grid + 40, class_="lift"),
            circle(x, frame.grid + 44, 4, class_="batten unknown"),
        ]
    else:
        parts += _above(one, one.batten, frame, x, style, [] if is_told else _name(one, frame, x))
    if one.rigged is not None:
        parts += _below(one, one.rigged, frame, x)
    elif one.written.rigged == COUNTERWEIGHT:
        parts += _unknown_arbor(one, frame, x)
    elif one.written.rigged == HEMP:
        parts += _bags(frame, x)
    parts.append(_number(one, frame, x))
    return group(*parts, class_=f"lane is-{status}", data_set=one.label)


def _above(
    one: SetResult, rigged: RiggedBatten, frame: Frame, x: float, style: Style, name: list[Shape]
) -> list[Shape]:
    at = shown_height(one)
    y = frame.y(at)
    moving: list[Shape] = [*name]
    for piece in rigged.pieces:
        moving += _piece(piece, frame, x, y, over=status_of(one) == "over")
    moving.append(circle(x, y, 4.5, class_="batten"))
    if one.out_of_service:
        moving.append(line(x - 10, y - 9, x + 10, y + 9, class_="struck"))
    shapes = [line(x, frame.grid, x, y - 4.5, class_="lift", data_part="lift")]
    if one.rigged is None:  # nothing to pull: it does not fly, or what it weighs on its arbor is not known
        return [*shapes, *moving]
    # a wide field to take hold of, that is also the slider for the keyboard
    half = frame.half
    handle = box(x - half, y - 24, 2 * half, 48, class_="handle", role="slider", tabindex=0,
                 aria_orientation="vertical",
                 aria_label=f"batten of set {one.label}", aria_valuemin=round(rigged.low, 3),
                 aria_valuemax=round(rigged.high, 3), aria_valuenow=round(at, 3), aria_valuetext=length(at, style),
                 data_set=one.label)  # fmt: skip
    clipped = group(group(*moving, data_part="batten"), clip_path=f"url(#above-{frame.name})")
    return [*shapes, clipped, group(handle, data_part="hold")]


def _piece(piece: RiggedPiece, frame: Frame, x: float, y: float, *, over: bool) -> list[Shape]:
    tall = piece.height * frame.scale
    if piece.looks == "cloth":
        count = max(2, round(tall / 7))
        points = [(x + (3.2 if i % 2 else -3.2) * (i > 0), y + 5 + (tall - 5) * i / count) for i in range(count + 1)]
        return [path(points, class_="cloth")]
    if piece.looks == "lamps":
        bulb = max(2.2, min(4.0, tall / 4))
        return [circle(x + dx, y + 10, bulb, class_="lamp") for dx in (-2 * bulb - 1, 0, 2 * bulb + 1)]
    fill: dict[str, Value] = {"fill": f"url(#hatch-{frame.name})"} if over else {}
    return [box(x - 7, y + 4, 14, max(4.0, tall - 4), class_="solid", **fill)]


def _below(one: SetResult, rigged: RiggedSet, frame: Frame, x: float) -> list[Shape]:
    """The arbor where it now is: the stack inside to scale, its pipe weight solid."""
    seat, tall = frame.wall_y(rigged.seat(shown_height(one))), rigged.usable_height * frame.scale
    top = seat - tall
    wide = 15.0
    inside: list[Shape] = [box(x - wide / 2, top, wide, tall, class_="arbor")]
    if one.stack is not None:
        own = pipe_weight(rigged)
        pipe = Stack(min(own.bricks, one.stack.bricks), min(own.small, one.stack.small)).height(rigged) * frame.scale
        stack = min(tall, one.stack.height(rigged) * frame.scale)
        inside.append(box(x - wide / 2 + 2.5, seat - stack, wide - 5, stack, class_="stack"))
        inside.append(box(x - wide / 2 + 2.5, seat - pipe, wide - 5, pipe, class_="pipe-weight"))
    return [line(x, frame.wall_top, x, top, class_="lift", data_part="purchase"),
            group(*inside, data_part="arbor", data_x=x, data_top=top)]  # fmt: skip


def _unknown_arbor(one: SetResult, frame: Frame, x: float) -> list[Shape]:
    """An arbor of which too little is known, dotted half way down its wall; two lines to it on double purchase."""
    middle = (frame.wall_top + frame.wall_bottom) / 2
    apart = (-2.0, 2.0) if one.written.purchase == "double" else (0.0,)
    return [*(line(x + dx, frame.wall_top, x + dx, middle - 20, class_="lift") for dx in apart),
            box(x - 7.5, middle - 20, 15, 40, class_="arbor unknown")]  # fmt: skip


def _bags(frame: Frame, x: float) -> list[Shape]:
    """The lines of a hemp set down to the rail, with their bags."""
    foot = frame.wall_bottom - 8
    bag = [(x - 5, foot - 16), (x + 5, foot - 16), (x + 7, foot), (x - 7, foot), (x - 5, foot - 16)]
    return [line(x + dx, frame.wall_top, x + dx, foot - 16, class_="lift") for dx in (-4.0, 0.0, 4.0)] + [
        path(bag, class_="arbor")
    ]


def _name(one: SetResult, frame: Frame, x: float) -> list[Shape]:
    """What hangs there, beside the batten, where the next lane leaves room for it."""
    said = ", ".join(one.hung)
    if not said:
        return []
    right = min([at for at in frame.lanes.values() if at > x + 1], default=frame.width)
    if right - x < 7.2 * len(said) + 28:
        return []
    return [words(x + 14, frame.y(shown_height(one)) + 5, said, class_="label halo")]


def _fitted(label: str, frame: Frame) -> str:
    """A label as far as its lane has room for it; the whole of it is read aloud, and stands on its page."""
    most = max(3, int(2.0 * frame.half * (2.0 if frame.crowded else 1.0) / 13.0))
    return label if len(label) <= most else f"{label[: most - 1]}…"


def _number(one: SetResult, frame: Frame, x: float) -> Shape:
    status = status_of(one)
    names = ", ".join(one.hung)
    says = f"set {one.label}{', ' + names if names else ''}, {'out of service' if status == 'out' else status}"
    bricks = one.bricks
    size = "tiny" if frame.name == "narrow" else "small"
    tight = " tight" if frame.tight and not frame.crowded else ""
    half = frame.half
    lower = frame.lower(one.label)
    if frame.tight:  # upright, read from below
        word = words(0, 0, SAID[status], class_=f"small end word-{status}",
                     transform=f"translate({x + 5:.2f} {frame.words:.2f}) rotate(-90)")  # fmt: skip
    else:
        word = words(x, frame.floor + 49, SAID[status], class_=f"{size} middle word-{status}")
    parts = [box(x - half, frame.floor + 4, 2 * half, frame.wall_top - frame.floor - 22, class_="hit"),
             words(x, frame.numbers + lower, _fitted(one.label, frame), class_=f"number{tight} middle word-{status}"),
             word,
             words(x, frame.counts + lower, bricks, class_=f"bricks{tight} middle")]  # fmt: skip
    return link(f"/set/{quote(one.label, safe='')}", *parts, aria_label=says)
