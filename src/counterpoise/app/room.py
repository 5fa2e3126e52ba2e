"""Room left along a batten, from the rows that judge it."""

from __future__ import annotations

from counterpoise.checks import SetResult, Verdict
from counterpoise.drawing import RoomCurve
from counterpoise.loadpath import room_for
from counterpoise.rigging import RiggedHouse
from counterpoise.statics import Row

ROOM_PLACES = 85  # places along the batten where room left is asked for
_BALANCE = ("lock", "tension block", "top stop", "bottom stop")  # met by re-weighing, not by where a load hangs


def room_of(house: RiggedHouse, one: SetResult) -> RoomCurve:
    """Room left for one more load along the batten, wherever weights and trims may lie within their doubt."""
    rigged = one.batten
    if rigged is None or one.forces is None:
        return RoomCurve(says="not known: the set lacks a figure", is_unknown=True)
    broken = [row for row in one.rows if row.verdict is Verdict.OVER and (row.coefficients or row.limit)]
    over = max(broken, key=lambda row: row.use, default=None)
    if over is not None:
        return RoomCurve(says=f"none: {over.place} is over already")
    lacking = next((row for row in one.rows if row.link not in _BALANCE and (row.limit is None or row.lacks)), None)
    if lacking is not None:
        return RoomCurve(says=f"not known: {lacking.link} has no figure", is_unknown=True)
    rows = tuple(Row(coefficients=row.coefficients, constant=row.constant, limit=row.limit)
                 for row in one.rows if row.coefficients and row.limit is not None)  # fmt: skip
    bending = next((row.limit for row in one.rows if row.link == "batten"), None)
    xs = [rigged.beam.length * i / (ROOM_PLACES - 1) for i in range(ROOM_PLACES)]
    sag = house.rules["sag"].value if any(row.link == "sag" for row in one.rows) else None
    tip = 2.0 * house.rules["sag"].value if any(row.link == "overhang" for row in one.rows) else None
    shear = next((row.limit for row in one.rows if row.key.endswith("/batten shear")), None)
    rooms = room_for(rigged, rows, bending, sag, xs, tip=tip, shear=shear)
    if not rooms:
        return RoomCurve(says="not known: too many figures are in doubt to look at every end of them", is_unknown=True)
    return RoomCurve(points=tuple((one.x, one.force) for one in rooms))
