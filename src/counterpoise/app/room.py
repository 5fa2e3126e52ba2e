"""Room left along a batten, from the rows that judge it."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from counterpoise.app.room_caps import Cap, caps_of
from counterpoise.checks import HouseResult, SetResult, Verdict
from counterpoise.drawing import RoomCurve
from counterpoise.loadpath import room_for
from counterpoise.rigging import RiggedHouse
from counterpoise.statics import Row
from counterpoise.units import place

ROOM_PLACES = 85  # places along the batten where room left is asked for
BY_COUNT = ("lock", "hand line", "tension block", "bottom stop")  # met by re-weighing, not by where a load hangs
OF_ANY_PLACE = ("arbor", "head block", "head block shaft", "head block base")  # met alike wherever a load hangs


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomAt:
    """Room for one more load at a place [m]: the force [N], and the link whose limit is met first."""

    x: float
    force: float
    link: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomLeft:
    """Room left at places; or, without any, the words why."""

    at: tuple[RoomAt, ...] = ()
    says: str = ""
    is_unknown: bool = False


def room_of(house: RiggedHouse, one: SetResult) -> RoomCurve:
    """Room left for one more load along the batten, wherever weights and trims may lie within their doubt."""
    length = one.batten.beam.length if one.batten is not None else 0.0
    found = room_at(house, one, [length * i / (ROOM_PLACES - 1) for i in range(ROOM_PLACES)])
    return RoomCurve(points=tuple((each.x, each.force) for each in found.at), says=found.says,
                     is_unknown=found.is_unknown)  # fmt: skip


def room_table(result: HouseResult, one: SetResult) -> RoomLeft:
    """Room left at both ends, at each line and midway between lines."""
    if one.batten is None:
        return room_at(result.house, one, [])
    lines = [line.x for line in one.batten.lines]
    middles = [(a + b) / 2 for a, b in itertools.pairwise(lines)]
    return room_at(result.house, one, sorted({0.0, *lines, *middles, one.batten.beam.length}))


def room_at(house: RiggedHouse, one: SetResult, xs: Sequence[float]) -> RoomLeft:
    """Room left for one more load at places along the batten [m]: hung there, no row but those of the count is over.

    The count of bricks is then the one that balances best: lock, hand line, tension block and bottom stop are met by
    it and are not looked at.
    """
    rigged = one.batten
    if one.out_of_service:
        return RoomLeft(says="none: out of service")
    if rigged is None or one.forces is None:
        return RoomLeft(says="not known: the set lacks a figure", is_unknown=True)
    broken = [row for row in one.rows if row.verdict is Verdict.OVER and (row.coefficients or row.limit)]
    over = max(broken, key=lambda row: row.use, default=None)
    if over is not None:
        return RoomLeft(says=f"none: {over.place} is over already")
    lacking = next((row for row in one.rows if row.link not in BY_COUNT and (row.limit is None or row.lacks)), None)
    if lacking is not None:
        return RoomLeft(says=f"not known: {lacking.link} has no figure", is_unknown=True)
    if one.written.rigged == "counterweight" and one.rigged is None:
        return RoomLeft(says="not known: its balance lacks a figure", is_unknown=True)
    told = [row for row in one.rows if row.coefficients and row.limit is not None and row.link not in OF_ANY_PLACE]
    rows = tuple(Row(coefficients=row.coefficients, constant=row.constant, limit=row.limit) for row in told
                 if row.limit is not None)  # fmt: skip
    sag = house.rules["sag"].value if any(row.link == "sag" for row in one.rows) else None
    tip = 2.0 * house.rules["sag"].value if any(row.link == "overhang" for row in one.rows) else None
    bending = next((row.limit for row in one.rows if row.link == "batten"), None)
    shear = next((row.limit for row in one.rows if row.key.endswith("/batten shear")), None)
    rooms = room_for(rigged, rows, bending, sag, xs, tip=tip, shear=shear, splices=_splices(one))
    if xs and not rooms and rigged.runs:
        return RoomLeft(says="not known: its lines lean, and how one more load moves it along is not computed",
                        is_unknown=True)  # fmt: skip
    if xs and not rooms:
        return RoomLeft(says="not known: too much is in doubt to look at every end of it", is_unknown=True)
    if len(xs) and all(each.which == "slack" and each.force <= 0.0 for each in rooms):
        return RoomLeft(says="not known: which lines carry hangs on what is in doubt", is_unknown=True)
    cap = min(caps_of(house, one, max((each.force for each in rooms), default=0.0)), key=lambda each: each.force,
              default=Cap("", float("inf")))  # fmt: skip
    return RoomLeft(at=tuple(
        RoomAt(x=each.x, force=cap.force, link=cap.link) if cap.force < each.force else
        RoomAt(x=each.x, force=each.force,
               link=told[each.which].place if isinstance(each.which, int) else NAMED.get(str(each.which), "batten"))
        for each in rooms))  # fmt: skip


NAMED = {
    "sag": "sag",
    "tips": "the batten would tip",
    "overhang": "overhang",
    "splice": "splice",
    "slack": "lines slack in part of what is in doubt",
    "None": "none met",
}


def _splices(one: SetResult) -> tuple[tuple[float, float], ...]:
    """Where each splice of its pipe stands [m], and what may stress it there [Pa]."""
    assert one.batten is not None  # the caller looked
    found = []
    for row in one.rows:
        if row.formula == "splice" and row.limit is not None:
            splice = one.written.batten.splices[int(row.key.rpartition("/")[2]) - 1]
            x = place(splice.at, length=one.batten.beam.length).best
            if x is not None:
                found.append((x, row.limit))
    return tuple(found)
