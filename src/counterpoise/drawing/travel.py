"""Beside the batten: the out of balance over the travel with what the lock holds, and the stack on the arbor."""

from __future__ import annotations

import math
from collections.abc import Iterator

from counterpoise.balance import Stack, pipe_weight
from counterpoise.checks import SetResult
from counterpoise.documents import COUNTERWEIGHT
from counterpoise.drawing.lane import shown_height
from counterpoise.drawing.shapes import Picture, Shape, box, circle, line, path, words
from counterpoise.rigging import RiggedSet
from counterpoise.units import Style, length, signed_force

TOP, FOOT = 68.0, 392.0


def travel_picture(one: SetResult, style: Style, *, narrow: bool = False) -> Picture:
    """Height upward, batten-heavy to the left and arbor-heavy to the right; the stack beside it."""
    name = f"travel-{'narrow' if narrow else 'wide'}"
    rigged = one.rigged
    if rigged is None or one.stack is None or not one.balance:
        said = "Its balance cannot be told yet." if one.written.rigged == COUNTERWEIGHT else \
            f"A {one.written.rigged} set: no arbor to balance it."  # fmt: skip
        return Picture(name=name, width=358, height=30, title="No balance",
                       shapes=(words(0, 20, said, class_="label"),))  # fmt: skip
    shapes = [*_balance(one, rigged, style), *_stack(one, rigged)]
    return Picture(name=name, width=358, height=450, shapes=tuple(shapes), title="Out of balance, and the stack")


def _balance(one: SetResult, rigged: RiggedSet, style: Style) -> Iterator[Shape]:
    lock = next((row for row in one.rows if row.link == "lock"), None)
    held = (lock.limit or 0.0) / rigged.hand_line_ratio if lock is not None else 0.0
    ends = [abs(value) for _, span in one.balance for value in (span.low, span.high)]
    most = max([held * 1.25, *ends])
    middle, half = 160.0, 76.0

    def x(value: float) -> float:
        return middle + half * max(-1.0, min(1.0, value / min(most, 3.0 * held if held else most)))

    def y(height: float) -> float:
        return FOOT - (FOOT - TOP) * (height - rigged.low) / (rigged.high - rigged.low)

    yield words(0, 16, "out of balance over the travel", class_="label")
    if held:
        yield box(x(-held), TOP, x(held) - x(-held), FOOT - TOP, class_="band")
        yield words(middle, TOP - 12, "held by the lock", class_="label middle")
    yield line(middle, TOP - 6, middle, FOOT + 6, class_="hair")
    low = [(x(span.low), y(at)) for at, span in one.balance]
    high = [(x(span.high), y(at)) for at, span in one.balance]
    yield path([*low, *reversed(high)], closed=True, class_="likely")
    yield path([(x(span.best), y(at)) for at, span in one.balance], class_="curve")
    for at, name in _places(one, rigged):
        span = min(one.balance, key=lambda pair: abs(pair[0] - at))[1]
        yield circle(x(span.best), y(at), 4, class_="dot")
        yield words(0, y(at) + 1, f"{name} {length(at, style)}", class_="label")
        yield words(0, y(at) + 17, signed_force(span.best, style), class_="small")
    yield words(middle - 6, FOOT + 24, "batten-heavy", class_="label end")
    yield words(middle + 6, FOOT + 24, "arbor-heavy", class_="label")


def _places(one: SetResult, rigged: RiggedSet) -> list[tuple[float, str]]:
    at = shown_height(one)
    found = [(rigged.high, "storage"), (rigged.low, "in")]
    if rigged.high - at > 2.0 and at - rigged.low > 2.0:
        found.append((at, "show"))
    return found


def _stack(one: SetResult, rigged: RiggedSet) -> Iterator[Shape]:
    """Brick by brick from the seat, to scale in the arbor; pipe weight solid, plates as lines that stand out."""
    assert one.stack is not None  # the caller looked
    x, wide = 262.0, 84.0
    per_metre = (FOOT - TOP) / rigged.usable_height
    count = one.stack.plates(rigged)
    yield words(x, 16, f"arbor {one.label}", class_="label")
    yield words(x, 42, one.bricks, class_="count")
    yield words(x + 16 + 15 * len(one.bricks), 42, one.stack_basis if rigged.pieces else "", class_="label")
    yield box(x, TOP, wide, FOOT - TOP, class_="arbor")
    y, since, left = FOOT, 0.0, count
    for thickness, class_ in _layers(rigged, one.stack):
        if since and since + thickness > rigged.plate_every + 1e-9 and left > 1:
            y -= rigged.plate_thickness * per_metre
            yield line(x - 3, y, x + wide + 3, y, class_="plate")
            since, left = 0.0, left - 1
        y -= thickness * per_metre
        since += thickness
        if y < TOP:  # it does not fit: told, not drawn over what stands above
            yield words(x, TOP - 7, "does not fit", class_="small word-over")
            left = 0
            break
        yield box(x + 6, y + 1, wide - 12, max(1.0, thickness * per_metre - 1.6), class_=class_)
    if left:
        yield line(x - 3, y - 2, x + wide + 3, y - 2, class_="plate")
    yield words(x, FOOT + 24, f"pipe weight {pipe_weight(rigged).said}", class_="label")
    yield words(x, FOOT + 41, f"{count} plate{'' if count == 1 else 's'}, collar", class_="label")


def _layers(rigged: RiggedSet, stack: Stack) -> Iterator[tuple[float, str]]:
    """Each layer from the seat up, its thickness [m]: pipe weight, then the others, small ones last."""
    own = pipe_weight(rigged)
    low, few = min(own.bricks, stack.bricks), min(own.small, stack.small)
    thick, thin = rigged.brick.thickness, rigged.small.thickness if rigged.small else 0.0
    for count, thickness, class_ in ((low, thick, "pipe-weight"), (few, thin, "pipe-weight"),
                                     (stack.bricks - low, thick, "brick"),
                                     (stack.small - few, thin, "brick")):  # fmt: skip
        for _ in range(math.ceil(count / rigged.layer)):
            yield thickness, class_
