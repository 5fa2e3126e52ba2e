"""Beside the batten: the out of balance over the travel with what the lock holds, and the stack on the arbor."""

from __future__ import annotations

import math
from collections.abc import Iterator

from counterpoise.balance import Span, Stack, flying_heights, pipe_weight
from counterpoise.checks import Check, SetResult
from counterpoise.documents import COUNTERWEIGHT
from counterpoise.drawing.lane import shown_height
from counterpoise.drawing.shapes import Picture, Shape, box, circle, line, path, words
from counterpoise.drawing.widths import width_of
from counterpoise.rigging import RiggedSet
from counterpoise.units import Style, length, signed_force

TOP, FOOT = 86.0, 392.0
SECOND_SIZE = 17.0  # how much lower all begins where a second size of brick is named above the arbor
BESIDE = 96.0  # from the arbor to the edge of the picture
BEST = 1.0  # [N]; less than this between the least and the most is not seen


def judged_heights(one: SetResult) -> tuple[float, float] | None:
    """Between which batten heights the lock row is judged [m]; None where the set has no such row."""
    lock = _lock(one)
    if lock is None or one.rigged is None:
        return None
    heights = flying_heights(one.rigged)
    return min(heights), max(heights)


def beyond_lock_at_low_trim(one: SetResult) -> Span | None:
    """Δ at low trim [N] where that is below what the lock row judges and more than the lock may hold; else None."""
    judged, lock = judged_heights(one), _lock(one)
    if judged is None or lock is None or lock.limit is None or one.rigged is None or not one.balance:
        return None
    span = one.balance[0][1]
    most = lock.limit / one.rigged.hand_line_ratio
    return span if judged[0] > one.rigged.low and abs(span.best) > most else None


def _lock(one: SetResult) -> Check | None:
    return next((row for row in one.rows if row.link == "lock"), None)


def travel_picture(one: SetResult, style: Style, *, narrow: bool = False, final: Stack | None = None) -> Picture:
    """Height upward, batten-heavy to the left and arbor-heavy to the right; the stack beside it.

    `final` is the stack that the steps end with, drawn where it is another than the one that all else is judged with.
    """
    name = f"travel-{'narrow' if narrow else 'wide'}"
    rigged = one.rigged
    if rigged is None or one.stack is None or not one.balance:
        said = "Its balance cannot be told yet." if one.written.rigged == COUNTERWEIGHT else \
            f"A {one.written.rigged} set: no arbor to balance it."  # fmt: skip
        return Picture(name=name, width=358, height=30, title="No balance",
                       shapes=(words(0, 20, said, class_="label"),))  # fmt: skip
    stack = final or one.stack
    top = TOP + (SECOND_SIZE if stack.small else 0.0)
    shapes = [*_balance(one, rigged, style, top), *_stack(one, rigged, stack, top)]
    return Picture(name=name, width=358, height=468, shapes=tuple(shapes), title="Out of balance, and the stack")


def _balance(one: SetResult, rigged: RiggedSet, style: Style, top: float) -> Iterator[Shape]:
    lock, judged = _lock(one), judged_heights(one)
    held = (lock.limit or 0.0) / rigged.hand_line_ratio if lock is not None else 0.0
    ends = [abs(value) for _, span in one.balance for value in (span.low, span.high)]
    most = max([held * 1.25, *ends])
    middle, half = 170.0, 74.0

    def x(value: float) -> float:
        return middle + half * max(-1.0, min(1.0, value / min(most, 3.0 * held if held else most)))

    def y(height: float) -> float:
        return FOOT - (FOOT - top) * (height - rigged.low) / (rigged.high - rigged.low)

    yield words(0, 16, "out of balance over the travel", class_="label")
    if held and judged is not None:
        low, high = y(judged[0]), y(judged[1])
        yield box(x(-held), high, x(held) - x(-held), low - high, class_="band")
        yield words(0, 36, "held by the lock where shaded:", class_="label")
        yield words(0, 53, f"judged {length(judged[0], style)} to {length(judged[1], style)}", class_="label")
        if low < FOOT - 1.0:
            yield line(x(-held), low, x(held), low, class_="dashed")
    yield line(middle, top - 6, middle, FOOT + 6, class_="hair")
    least = [(x(span.low), y(at)) for at, span in one.balance]
    most_ = [(x(span.high), y(at)) for at, span in one.balance]
    yield path([*least, *reversed(most_)], closed=True, class_="likely")
    yield path([(x(span.best), y(at)) for at, span in one.balance], class_="curve")
    for at, name in _places(one, rigged):
        span = min(one.balance, key=lambda pair: abs(pair[0] - at))[1]
        yield circle(x(span.best), y(at), 4, class_="dot")
        yield words(0, y(at) + 1, f"{name} {length(at, style)}", class_="label")
        yield words(0, y(at) + 17, signed_force(span.best, style), class_="small")
    yield words(middle - 6, FOOT + 24, "batten-heavy", class_="label end")
    yield words(middle + 6, FOOT + 24, "arbor-heavy", class_="label")
    yield words(0, FOOT + 56, "figures: at the best weights", class_="label")
    if any(span.high - span.low > BEST for _, span in one.balance):
        yield words(0, FOOT + 73, "tinted: what they may come to", class_="label")


def _places(one: SetResult, rigged: RiggedSet) -> list[tuple[float, str]]:
    at = shown_height(one)
    found = [(rigged.high, "high trim"), (rigged.low, "low trim")]
    if rigged.high - at > 2.0 and at - rigged.low > 2.0:
        found.append((at, "show"))
    return found


def _stack(one: SetResult, rigged: RiggedSet, stack: Stack, top: float) -> Iterator[Shape]:
    """Brick by brick from the seat, to scale in the arbor; pipe weight solid, plates as lines that stand out."""
    is_other = stack != one.stack
    x, wide = 262.0, 84.0
    per_metre = (FOOT - top) / rigged.usable_height
    count = stack.plates(rigged)
    yield words(x, 16, f"arbor {one.label if len(one.label) < 9 else one.label[:7] + '…'}", class_="label")
    said = (_both(stack) if is_other else one.bricks).replace("+", " + ")
    yield words(x, 44, said, class_="count" if width_of(said, "count") <= BESIDE else "count tight")
    if stack.small and rigged.small is not None:
        yield words(x, 63, _second(stack.small, rigged.small.name), class_="label")
    basis = "planned" if is_other else one.stack_basis if rigged.pieces else ""
    yield words(x, top - 23, basis, class_="label")
    if is_other:
        yield words(x + wide, FOOT + 58, f"balanced best by {one.bricks}", class_="label end")
    yield box(x, top, wide, FOOT - top, class_="arbor")
    y, since, left = FOOT, 0.0, count
    for thickness, class_ in _layers(rigged, stack):
        if since and since + thickness > rigged.plate_every + 1e-9 and left > 1:
            y -= rigged.plate_thickness * per_metre
            yield line(x - 3, y, x + wide + 3, y, class_="plate")
            since, left = 0.0, left - 1
        y -= thickness * per_metre
        since += thickness
        if y < top:  # it does not fit: told, not drawn over what stands above
            yield words(x, top - 7, "does not fit", class_="small word-over")
            left = 0
            break
        yield box(x + 6, y + 1, wide - 12, max(1.0, thickness * per_metre - 1.6), class_=class_)
    if left:
        yield line(x - 3, y - 2, x + wide + 3, y - 2, class_="plate")
    yield words(x, FOOT + 24, f"pipe weight {pipe_weight(rigged).said}", class_="label")
    yield words(x, FOOT + 41, f"{count} plate{'' if count == 1 else 's'}, collar", class_="label")


def _both(stack: Stack) -> str:
    return f"{stack.bricks}+{stack.small}" if stack.small else f"{stack.bricks}"


def _second(count: int, name: str) -> str:
    """How many of the second size lie on top, by the name that the house gives them, as far as there is room."""
    if width_of(said := f"{count} {name} on top", "label") <= BESIDE:
        return said
    if width_of(said := f"{count} {name}", "label") <= BESIDE:
        return said
    while width_of(f"{said}…", "label") > BESIDE:
        said = said[:-1].rstrip()
    return f"{said}…"


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
