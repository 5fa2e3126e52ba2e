"""A set as rigged, in SI: what hangs, and, on a counterweight set, what balances it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from counterpoise.documents import LineSet
from counterpoise.rigging.bricks import BrickKind
from counterpoise.rigging.lines import Fleet
from counterpoise.rigging.made import Made
from counterpoise.rigging.pieces import RiggedCable, RiggedPiece
from counterpoise.statics import Beam, Line

if TYPE_CHECKING:
    from counterpoise.statics import Ladder


STEEP = 0.3  # of the drop: at most so far apart may lines lean; the batten then hangs level to a twentieth of the drop


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixed:
    """A permanent attachment: mass low, best, high [kg]; at one place, or spread evenly over (start, end) [m]."""

    name: str
    mass: tuple[float, float, float]
    x: float
    spread: tuple[float, float] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class RiggedBatten:
    """A batten and what hangs on it, to the loft blocks.

    Lengths [m] from the stage-right end or above the stage, masses [kg], forces [N].
    """

    key: str
    label: str
    purchase: int
    low: float
    high: float
    loft: float  # height of the loft blocks
    made: Made
    lines: tuple[Line, ...]
    line_mass: float  # of one lift line [kg/m]
    hardware_mass: float
    pieces: tuple[RiggedPiece, ...]
    out_of_service: str
    written: LineSet
    fixed: tuple[Fixed, ...] = ()
    cables: tuple[RiggedCable, ...] = ()
    pipe_doubt: float = 0.0  # largest departure of the pipe from its mass [kg]
    pipe_spreads: tuple[float, ...] = ()  # the same as a share, of the batten's own pipe and of each length of another
    hardware_doubt: float = 0.0  # largest departure of the hardware [kg]
    trim_doubts: tuple[float, ...] = ()  # of each line: how far its trim may be from what `lines` says [m]
    runs: tuple[float, ...] = ()  # along the batten from each line to its block [m]; () where all hang plumb
    towards: tuple[float, ...] = ()  # which way each line leaves its block: 1 toward stage left, -1; 0 where it ends
    blocks: tuple[float, ...] = ()  # where the loft block of each line stands [m]
    fleets: tuple[Fleet, ...] = ()  # of the lines of which a place across the stage is written
    twins: tuple[str, ...] = ()  # the sets that carry its pieces with it; any of them may take all, or none

    @property
    def beam(self) -> Beam | Ladder:
        """The batten as statics takes it."""
        return self.made.beam

    @property
    def batten_mass(self) -> float:
        """Pipe, chords or truss alone [kg]."""
        return self.made.mass

    @property
    def batten_doubt(self) -> float:
        """Largest departure of pipe and hardware together from their masses [kg]."""
        return self.pipe_doubt + self.hardware_doubt

    @property
    def bare_mass(self) -> tuple[float, float, float]:
        """Pipe, hardware and what is fixed to it: low, best, high [kg]."""
        bare = self.batten_mass + self.hardware_mass
        low, best, high = (sum(one.mass[i] for one in self.fixed) for i in range(3))
        return bare + low - self.batten_doubt, bare + best, bare + high + self.batten_doubt

    @property
    def taut(self) -> str:
        """The piece whose cable is too short for the travel, "" where none is: how hard that one pulls is not known."""
        return next((one.name for one in self.cables if one.is_taut(self.low) or one.is_taut(self.high)), "")

    @property
    def steep(self) -> int:
        """The line, from 1, that stands farthest apart where lines lean too far for what is computed of them; else 0.

        Runs then differ by more than 0.3 of the way from batten to blocks at high trim.
        """
        if not self.runs or max(self.runs) - min(self.runs) <= STEEP * (self.loft - self.high):
            return 0
        middle = sorted(self.runs)[len(self.runs) // 2]
        return max(range(len(self.runs)), key=lambda i: abs(self.runs[i] - middle)) + 1

    @property
    def steep_above(self) -> float:
        """The highest trim up to which what its lines do is computed [m]; high trim where that is all of it."""
        apart = max(self.runs) - min(self.runs) if self.runs else 0.0
        return min(self.high, self.loft - apart / STEEP)

    @property
    def clear(self) -> float:
        """The lowest batten height at which everything hangs free [m], within its travel."""
        return min(self.high, max([self.low, *(one.clear for one in self.pieces)]))


@dataclass(frozen=True, slots=True, kw_only=True)
class RiggedSet(RiggedBatten):
    """A counterweight set: the batten, and the arbor that balances it."""

    arbor_mass: float
    seat_low: float  # bottom of the stack above the stage with the batten at low trim
    usable_height: float
    plate_mass: float
    plate_thickness: float
    plate_every: float
    brick: BrickKind
    pipe_bricks: int
    stated_bricks: int | None
    hand_line_ratio: float  # force in the hand line per force at the batten: 1 or 2
    arbor_doubt: float = 0.0  # of the arbor without its stack [kg]
    small: BrickKind | None = None  # a smaller brick for the trim; it lies on top
    small_pipe_bricks: int = 0
    stated_small: int | None = None
    layer: int = 1  # bricks that lie side by side
    captive_plates: int = 0  # stay on the arbor whatever is on it
    arbors: tuple[str, ...] = ()  # the sets it is, where it is several whose hand lines are married
    arbor_weighed: str = ""  # how the weight of the arbor was found where nobody weighed it

    @property
    def abreast(self) -> int:
        """How many arbors take the same count of bricks."""
        return max(1, len(self.arbors))

    def seat(self, height: float) -> float:
        """Height of the bottom of the stack [m] with the batten at `height`."""
        return self.seat_low - (height - self.low) / self.purchase
