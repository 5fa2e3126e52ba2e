"""What the picture along a batten is drawn on: one axis for all its bands, and the curve of room left."""

from __future__ import annotations

from dataclasses import dataclass

from counterpoise.checks import SetResult
from counterpoise.drawing.links import on_line
from counterpoise.rigging import RiggedBatten


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomCurve:
    """Room left for one more load: (x [m], force [N]), and what it leaves out; or no points, and why there are none."""

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
        return self.batten + 64 + 60 * self.rows + (48 if self.name == "narrow" else 50)

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
