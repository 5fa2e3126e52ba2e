"""The house as written: sources, stage, bridges, bricks, rules, steel, and every set down to its last link."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from counterpoise.documents import fields as f
from counterpoise.documents.known import Known
from counterpoise.documents.notes import NotChecked
from counterpoise.units import Kind

_mass, _length, _count = (f.quantity(kind) for kind in (Kind.MASS, Kind.LENGTH, Kind.COUNT))
_weight = f.quantity(Kind.MASS, ranges=True)
_size = f.quantity(Kind.LENGTH, above_zero=True)
_rating = f.quantity(Kind.FORCE, above_zero=True, ranges=True)
_factor = f.quantity(Kind.RATIO, above_zero=True, ranges=True)
_stress = f.quantity(Kind.STRESS, above_zero=True, ranges=True)
# Wide bounds that only a slip of the pen passes: a sign or a unit left out, a fraction upside down.
_design_factor = f.between(_factor, 1.0, 100.0, "Write the factor itself, like 8.")
_share_left = f.between(_factor, 0.05, 1.0, "Write the share of the strength that is left, like 80 %.")
_of_span = f.between(_factor, 0.0005, 0.1, "Write the share of the span, like 1/180.")
_spread = f.between(_factor, 0.01, 1.0, "Write how far an estimate may be out, like 20 %.")
_hold = f.between(_rating, 10.0, 5_000.0, "Write what the rope lock may be asked to hold, like 50 lb.")
_allowed = f.between(_stress, 1e6, 1e9, "Write it like 21,000 psi or 145 MPa.")
_elastic = f.between(f.quantity(Kind.STRESS, above_zero=True), 1e10, 2.5e11, "Steel is 29,000 ksi or 200,000 MPa.")
_NOT_WRITTEN = f.blank(Kind.FORCE, "")  # a part that a set does not have is written none


@dataclass(frozen=True, slots=True, kw_only=True)
class SourceNote:
    """A source. How it is known, what it is, who and when."""

    how: str = f.written(f.choice("measured", "documented", "assumed"))
    what: str = f.written(f.text)
    who: str = f.written(f.text, default="")
    when: str = f.written(f.text, default="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A stage. Heights are above the stage floor."""

    proscenium_height: Known | None = f.written(_size, default=None)
    loft_blocks: Known = f.written(_size)


@dataclass(frozen=True, slots=True, kw_only=True)
class Brick:
    """A brick. `weight` is the mean as weighed, `spread` the largest departure of one brick from it."""

    brick: str = f.written(f.text)
    weight: Known = f.written(f.quantity(Kind.MASS, above_zero=True, ranges=True))
    spread: Known | None = f.written(_mass, default=None)
    thickness: Known = f.written(_size)
    stock: Mapping[str, Known] = f.written(f.named(_count))


@dataclass(frozen=True, slots=True, kw_only=True)
class Bridge:
    """A bridge. `reach` is the band, measured from its floor, in which a loader works on the top of the stack."""

    bridge: str = f.written(f.text)
    floor: Known = f.written(_length)
    reach_from: Known = f.written(_length)
    reach_to: Known = f.written(_length)
    length: Known | None = f.written(_size, default=None)
    width: Known | None = f.written(_size, default=None)
    posting: Known | None = f.written(f.quantity(Kind.FLOOR_LOAD), default=None)
    people: Known | None = f.written(_count, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """Rules of the house. Adopted by a named person on a date; one left out is a default, not adopted."""

    adopted_by: str = f.written(f.text, default="")
    adopted_on: str = f.written(f.text, default="")
    lock_hold: Known | None = f.written(_hold, default=None)
    lift_line_factor: Known | None = f.written(_design_factor, default=None)
    batten_stress: Known | None = f.written(_allowed, default=None)
    sag: Known | None = f.written(_of_span, default=None)
    plate_every: Known | None = f.written(f.quantity(Kind.LENGTH, above_zero=True, ranges=True), default=None)
    estimate_spread: Known | None = f.written(_spread, default=None)
    person: Known | None = f.written(_weight, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bay:
    """A bay of the loft steel. Allowances are vertical, summed over all sets in the bay; one loft beam a line."""

    bay: str = f.written(f.text)
    sets: tuple[str, ...] = f.written(f.items(f.text))
    loft_beam: Known = f.written(_rating)
    head_beam: Known = f.written(_rating)
    impact: str = f.written(f.choice("included", "add 25 %", "unknown"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Batten:
    """A batten of pipe. Stiffness from the nominal wall, strength from the design wall."""

    length: Known = f.written(_size)
    outside_diameter: Known = f.written(_size)
    wall: Known = f.written(_size)
    design_wall: Known | None = f.written(_size, default=None)
    weight: Known = f.written(f.quantity(Kind.LINE_MASS, ranges=True))
    modulus: Known = f.written(_elastic)
    hardware: Known = f.written(_weight)


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftLines:
    """Lift lines of a set. All alike; `at` is where each meets the batten, from its centre or an end."""

    at: tuple[str, ...] = f.written(f.items(f.text))
    weight: Known = f.written(f.quantity(Kind.LINE_MASS))
    breaking_strength: Known = f.written(_rating)
    termination: Known = f.written(_share_left)
    stiffness: Known = f.written(_rating)
    head_block_from_end: Known = f.written(_length)
    trim_chain: Known | None = f.written(_rating, default=_NOT_WRITTEN, none=None)
    shackle: Known | None = f.written(_rating, default=_NOT_WRITTEN, none=None)
    turnbuckle: Known | None = f.written(_rating, default=None)  # most sets trim by chain and have none


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A block. `rating_of` says what its maker rates: the pull in the line, or the resultant on the block."""

    rating: Known = f.written(_rating)
    rating_of: str = f.written(f.choice("line pull", "resultant"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Arbor:
    """An arbor. `seat at low trim` is how high the bottom of its stack is when the batten is at low trim."""

    weight: Known = f.written(_weight)
    rating: Known = f.written(_rating)
    usable_height: Known = f.written(_size)
    seat_at_low_trim: Known = f.written(_size)
    plate_weight: Known = f.written(_mass)
    plate_thickness: Known = f.written(_length)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stops:
    """Stops of a set. Their ratings; a stop the house trims clear of is written none."""

    top: Known | None = f.written(_rating, default=_NOT_WRITTEN, none=None)
    bottom: Known | None = f.written(_rating, default=_NOT_WRITTEN, none=None)


UNWRITTEN_STOPS = Stops(top=f.blank(Kind.FORCE, "stops.top"), bottom=f.blank(Kind.FORCE, "stops.bottom"))


@dataclass(frozen=True, slots=True, kw_only=True)
class LineSet:
    """A set. Label, distance from the plaster line, purchase, and its parts from batten to steel."""

    set_: str = f.written(f.text)
    key: str = f.written(f.text, default="")
    distance: Known = f.written(_length)
    purchase: str = f.written(f.choice("single", "double"))
    hand_line: str = f.written(f.choice("with the batten", "with the arbor"))
    low_trim: Known = f.written(_length)
    high_trim: Known = f.written(_length)
    batten: Batten = f.written(f.record(Batten))
    lines: LiftLines = f.written(f.record(LiftLines))
    loft_block: Block = f.written(f.record(Block))
    head_block: Block = f.written(f.record(Block))
    arbor: Arbor = f.written(f.record(Arbor))
    brick: str = f.written(f.text)
    pipe_weight: Known = f.written(_count)
    stops: Stops = f.written(f.record(Stops), default=UNWRITTEN_STOPS, none=Stops(top=None, bottom=None))
    tension_block: Known | None = f.written(_rating, default=_NOT_WRITTEN, none=None)
    out_of_service: str = f.written(f.text, default="")
    note: str = f.written(f.text, default="")
    line_of: int = 0

    @property
    def label(self) -> str:
        """What people call it."""
        return self.set_

    @property
    def permanent(self) -> str:
        """The key that stays when it is renumbered."""
        return self.key or self.set_


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """A house. Everything written down about it; what depends on it is computed."""

    counterpoise: str = f.written(f.text)
    name: str = f.written(f.text)
    about: str = f.written(f.text, default="")
    units: str = f.written(f.choice("us", "metric"))
    stage: Stage = f.written(f.record(Stage))
    bricks: tuple[Brick, ...] = f.written(f.items(f.record(Brick)))
    bridges: tuple[Bridge, ...] = f.written(f.items(f.record(Bridge)), default=())
    rules: Rules = f.written(f.record(Rules), default=Rules())
    steel: tuple[Bay, ...] = f.written(f.items(f.record(Bay)), default=())
    sets: tuple[LineSet, ...] = f.written(f.items(f.record(LineSet)))
    not_checked_here: tuple[NotChecked, ...] = f.written(f.items(f.record(NotChecked)), default=())

    def set_called(self, label: str) -> LineSet | None:
        """The set with this label, None where there is none."""
        return next((one for one in self.sets if one.label == label), None)
