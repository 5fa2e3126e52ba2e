"""Where things stand on the sheet of a house: a lane for each set, and one scale of heights above and below."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from counterpoise.checks import HouseResult

LEAST_LANE = 24.0  # a lane that is narrower can neither be read nor hit
LEAST_TOUCH_LANE = 48.0
ROW = 19.0  # of words
TIGHT_LANE = 60.0  # below this the word of a lane stands upright
CROWDED_LANE = 34.0  # below this every other number stands lower: side by side they would run together
CLEAR = 48.0  # paper above the grid for what is felt while a batten is pulled; beside it it would cross its neighbours


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Where things stand on the sheet: lanes by label, and two scales of one size, above and below the numbers."""

    name: str
    width: float
    height: float
    left: float
    scale: float  # units in a metre, for heights
    floor: float  # y of the stage floor
    grid: float  # y of the loft blocks
    wall_top: float  # y of the top of the arbor wall
    wall_high: float  # height above the stage drawn at wall_top [m]
    wall_low: float
    lanes: dict[str, float]
    tight: bool  # lanes are too narrow for a word across
    crowded: bool  # and for two numbers side by side
    half: float  # of the width of a lane that is taken hold of
    stretch: float | None  # how much wider than high distances are drawn; None where lanes are drawn evenly

    def y(self, height: float) -> float:
        """Above the stage floor."""
        return self.floor - height * self.scale

    @property
    def numbers(self) -> float:
        """The foot of the upper row of set numbers."""
        return self.floor + 32.0

    @property
    def words(self) -> float:
        """Where the upright words of the lanes end, read from below."""
        return self.floor + (66.0 if self.crowded else 42.0)

    @property
    def counts(self) -> float:
        """The foot of the upper row of brick counts."""
        return self.floor + (157.0 if self.crowded else 125.0 if self.tight else 73.0)

    def lower(self, label: str) -> float:
        """How much lower the number and the count of this lane stand."""
        return 22.0 * (list(self.lanes).index(label) % 2) if self.crowded else 0.0

    def wall_y(self, height: float) -> float:
        """On the arbor wall."""
        return self.wall_top + (self.wall_high - height) * self.scale

    @property
    def wall_bottom(self) -> float:
        """The lowest an arbor comes."""
        return self.wall_y(self.wall_low)


def frame_of(result: HouseResult, *, narrow: bool, rows: int = 0) -> Frame:
    """The frame for a laptop, or for a phone where lanes are drawn evenly and the picture scrolls sideways.

    `rows` are those that are said of one set, above the grid.
    """
    left = 82.0 if narrow else 112.0
    width = 358.0 if narrow else 1400.0
    loft = result.house.house.stage.loft_blocks.best or 18.0
    rigged = [one.rigged for one in result.sets if one.rigged is not None]
    high = max([one.seat_low + one.usable_height for one in rigged], default=loft)
    low = min([one.seat(one.high) for one in rigged], default=0.0)
    scale = (520.0 if narrow else 610.0) / (loft + high - low)
    grid = 26.0 if narrow else CLEAR + ROW * rows
    floor = grid + loft * scale
    lanes, stretch = _lanes(result, left, width, scale, narrow=narrow)
    width = max(width, max(lanes.values(), default=0.0) + (26.0 if narrow else 24.0))
    apart = min((after - before for before, after in itertools.pairwise(lanes.values())), default=width)
    tight, crowded = apart < TIGHT_LANE, apart < CROWDED_LANE
    wall_top = floor + (202.0 if crowded else 150.0 if tight else 100.0)
    height = wall_top + (high - low) * scale + (14.0 if narrow else 50.0 if stretch is not None else 14.0)
    return Frame(name="narrow" if narrow else "wide", width=width, height=height, left=left, scale=scale, floor=floor,
                 grid=grid, wall_top=wall_top, wall_high=high, wall_low=low, lanes=lanes, tight=tight,
                 crowded=crowded, half=min(24.0, max(12.0, apart / 2)),
                 stretch=stretch)  # fmt: skip


def _lanes(
    result: HouseResult, left: float, width: float, scale: float, *, narrow: bool
) -> tuple[dict[str, float], float | None]:
    labels = [one.label for one in result.sets]
    places = [one.distance.best for one in result.house.house.sets]
    least = LEAST_TOUCH_LANE if narrow else LEAST_LANE
    known = [at for at in places if at is not None]
    gaps = [after - before for before, after in itertools.pairwise(known)]
    room = width - left - 90.0
    evenly = width - left - 30.0
    if narrow or len(known) < len(places) or not gaps or min(gaps) <= 0.0 or room * min(gaps) / known[-1] < least:
        even = max(least, 0.0 if narrow else evenly / max(1, len(labels)))
        return {label: left + even * (i + 0.5) for i, label in enumerate(labels)}, None
    per_metre = room / known[-1]
    return {label: left + 24.0 + at * per_metre for label, at in zip(labels, known, strict=True)}, per_metre / scale
