"""The parts of a set as written, from batten to steel. A figure that is left out is unknown, never assumed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from counterpoise.documents import fields as f
from counterpoise.documents.known import Known
from counterpoise.units import Kind

# Wide bounds that only a slip of the pen passes: a sign or a unit left out, a fraction upside down.
_ELASTIC = (1e10, 2.5e11, "Steel is 29,000 ksi or 200,000 MPa.")
_SHARE = (0.05, 1.0, "Write the share of the strength that is left, like 80 %.")
_ALLOWED = (1e6, 1e9, "Write it like 21,000 psi or 145 MPa.")
_RATING = {"above_zero": True, "ranges": True}
_WEIGHT = {"ranges": True}
_SIZE = {"above_zero": True}
# From a hand line of hemp at its softest to a bar of steel 25 mm thick.
_STIFF = (1e3, 1e9, "Write what it takes to stretch it by its own length, like 446,000 lb or 1,500 kN.")
_SPAN = (0.3, 100.0, "Write how far apart the two supports are, like 20 ft or 6 m.")
_SLIDES = (0.01, 1.0, "Write what a shoe loses of the force it bears with, like 15 %.")
SIDE_LOADS = ("side to 45 degrees", "side to 90 degrees")


@dataclass(frozen=True, slots=True, kw_only=True)
class Attachment:
    """A permanent attachment. A track, a raceway, a light bar: it stays on the batten, whatever hangs."""

    attachment: str = f.written(f.text)
    weight: Known = f.figure(Kind.MASS, above_zero=True, **_WEIGHT)
    centre: Known = f.figure(Kind.LENGTH, along=True)
    spread_over: Known | None = f.optional(Kind.LENGTH, **_SIZE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Splice:
    """A splice. The share of the bending strength of the pipe beside it that is left there."""

    at: str = f.written(f.along_batten)
    strength: Known = f.figure(Kind.RATIO, above_zero=True, within=_SHARE)


@dataclass(frozen=True, slots=True, kw_only=True)
class PipeLength:
    """A length of another pipe. From here to there the batten is of this pipe and not of its own."""

    from_: str = f.written(f.along_batten)
    to: str = f.written(f.along_batten)
    pipe: str = f.written(f.text, default="")
    outside_diameter: Known = f.figure(Kind.LENGTH, **_SIZE)
    wall: Known = f.figure(Kind.LENGTH, **_SIZE)
    design_wall: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    weight: Known = f.figure(Kind.LINE_MASS, **_WEIGHT)
    modulus: Known = f.figure(Kind.STRESS, above_zero=True, within=_ELASTIC)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ladder:
    """A ladder. Two chords of the batten's pipe, `depth` apart between their middles, joined by spacers only."""

    depth: Known = f.figure(Kind.LENGTH, **_SIZE)
    spacers: tuple[str, ...] = f.written(f.items(f.along_batten), default=())
    every: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    spacer: str = f.written(f.text, default="")  # a pipe of the catalogue
    spacer_diameter: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    spacer_wall: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    strap_width: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    strap_thickness: Known | None = f.optional(Kind.LENGTH, **_SIZE)


@dataclass(frozen=True, slots=True, kw_only=True)
class TrussSpan:
    """A span of a maker's table. What it may carry between two supports that far apart."""

    span: Known = f.figure(Kind.LENGTH, above_zero=True, within=_SPAN)
    evenly: Known = f.figure(Kind.FORCE, **_RATING)
    at_centre: Known | None = f.optional(Kind.FORCE, **_RATING)
    at_thirds: Known | None = f.optional(Kind.FORCE, **_RATING)


@dataclass(frozen=True, slots=True, kw_only=True)
class Truss:
    """A maker's truss. By its section, or by the table that its maker prints for two supports.

    `both ways` is yes where its maker says that it carries as much bent upward, as it is over a line, as downward.
    """

    second_moment: Known = f.figure(Kind.SECOND_MOMENT, **_SIZE)
    allowed_moment: Known = f.figure(Kind.MOMENT, **_RATING)
    allowed_shear: Known | None = f.optional(Kind.FORCE, **_RATING)
    table: tuple[TrussSpan, ...] = f.written(f.items(f.record(TrussSpan)), default=())
    both_ways: str = f.written(f.choice("yes", "no"), default="no")


@dataclass(frozen=True, slots=True, kw_only=True)
class Batten:
    """A batten. Of pipe, unless it is a ladder or a maker's truss.

    Stiffness is from the nominal wall, strength from the design wall.
    """

    length: Known = f.figure(Kind.LENGTH, **_SIZE)
    pipe: str = f.written(f.text, default="")
    outside_diameter: Known = f.figure(Kind.LENGTH, **_SIZE)
    wall: Known = f.figure(Kind.LENGTH, **_SIZE)
    design_wall: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    weight: Known = f.figure(Kind.LINE_MASS, **_WEIGHT)
    modulus: Known = f.figure(Kind.STRESS, above_zero=True, within=_ELASTIC)
    allowed_stress: Known | None = f.optional(Kind.STRESS, above_zero=True, ranges=True, within=_ALLOWED)
    hardware: Known = f.figure(Kind.MASS, **_WEIGHT)
    lengths: tuple[PipeLength, ...] = f.written(f.items(f.record(PipeLength)), default=())
    splices: tuple[Splice, ...] = f.written(f.items(f.record(Splice)), default=())
    ladder: Ladder | None = f.written(f.record(Ladder), default=None)
    truss: Truss | None = f.written(f.record(Truss), default=None)
    attachments: tuple[Attachment, ...] = f.written(f.items(f.record(Attachment)), default=())


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A block. `rating_of` says what its maker rates: the pull in the line, or the resultant on the block."""

    rating: Known = f.figure(Kind.FORCE, **_RATING)
    rating_of: str = f.written(f.choice("line pull", "resultant", "unknown"), default="unknown")
    mounted: str = f.written(f.choice("upright", "underhung"), default="")
    diameter: Known | None = f.optional(Kind.LENGTH, **_SIZE)  # of the sheave, at the bottom of its groove
    bearing: str = f.written(f.choice("ball", "roller", "plain"), default="")
    shaft: Known | None = f.optional(Kind.FORCE, **_RATING)
    base: Known | None = f.optional(Kind.FORCE, **_RATING)
    upstage: Known | None = f.optional(Kind.LENGTH, signed=True)  # of the plane in which its batten flies
    impact: str = f.written(f.choice("included", "not included"), default="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Mule:
    """A mule block. Where it stands along the batten and upstage of the set, and how far it turns the line."""

    at: str = f.written(f.text)
    upstage: Known | None = f.optional(Kind.LENGTH)
    turn: Known = f.figure(Kind.ANGLE, above_zero=True)
    rating: Known = f.figure(Kind.FORCE, **_RATING)
    rating_of: str = f.written(f.choice("line pull", "resultant", "unknown"), default="unknown")


@dataclass(frozen=True, slots=True, kw_only=True)
class LineAt:
    """A lift line. Where it meets the batten, and what of it is not as in the other lines of its set."""

    at: str = f.written(f.along_batten)
    block_at: str = f.written(f.text, default="")  # left out: straight above
    length: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    trim_error: Known | None = f.optional(Kind.LENGTH, signed=True, ranges=True)
    loft_block: Block | None = f.written(f.record(Block), default=None)
    mule_blocks: tuple[Mule, ...] = f.written(f.items(f.record(Mule)), default=())
    rope: str = f.written(f.text, default="")
    stiffness: Known | None = f.optional(Kind.FORCE, **_RATING, within=_STIFF)
    breaking_strength: Known | None = f.optional(Kind.FORCE, **_RATING)
    termination: Known | None = f.optional(Kind.RATIO, **_RATING, within=_SHARE)
    trim_chain: Known | None = f.optional(Kind.FORCE, **_RATING)
    shackle: Known | None = f.optional(Kind.FORCE, **_RATING)
    turnbuckle: Known | None = f.optional(Kind.FORCE, **_RATING)
    seized: str = f.written(f.text, default="")  # in words, where its sheave does not turn


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftLines:
    """Lift lines of a set. All alike, but for what a line itself says; `at` is where each meets the batten."""

    at: tuple[LineAt, ...] = f.written(f.items(f.either(LineAt, "at")), default=())
    count: Known | None = f.optional(Kind.COUNT)  # where only their number is known
    rope: str = f.written(f.text, default="")
    diameter: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    weight: Known = f.figure(Kind.LINE_MASS)
    breaking_strength: Known = f.figure(Kind.FORCE, **_RATING)
    ends: str = f.written(f.text, default="")  # a termination of the catalogue
    termination: Known = f.figure(Kind.RATIO, **_RATING, within=_SHARE)
    stiffness: Known = f.figure(Kind.FORCE, **_RATING, within=_STIFF)
    head_block_from_end: Known = f.figure(Kind.LENGTH)
    chain: str = f.written(f.text, default="")  # a chain of the catalogue
    trim_chain: Known | None = f.part(Kind.FORCE, **_RATING)
    hitch: str = f.written(f.choice("straight", "choked", "doubled", "unknown"), default="")
    clamp: Known | None = f.optional(Kind.FORCE, **_RATING)
    shackle_size: str = f.written(f.text, default="")
    shackle: Known | None = f.part(Kind.FORCE, **_RATING)
    shackle_load: str = f.written(f.choice("in line", *SIDE_LOADS, "unknown"), default="")
    turnbuckle_size: str = f.written(f.text, default="")
    turnbuckle: Known | None = f.optional(Kind.FORCE, **_RATING)  # most sets trim by chain and have none


@dataclass(frozen=True, slots=True, kw_only=True)
class Arbor:
    """An arbor. `seat at low trim` is how high the bottom of its stack is when the batten is at low trim."""

    weight: Known = f.figure(Kind.MASS, **_WEIGHT)
    rating: Known = f.figure(Kind.FORCE, **_RATING)
    usable_height: Known = f.figure(Kind.LENGTH, **_SIZE)
    seat_at_low_trim: Known = f.figure(Kind.LENGTH)
    bricks_in_a_layer: Known | None = f.optional(Kind.COUNT, above_zero=True)
    plate_weight: Known = f.figure(Kind.MASS)
    plate_thickness: Known = f.figure(Kind.LENGTH)
    captive_plates: Known | None = f.optional(Kind.COUNT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Guides:
    """Guides of an arbor. What a shoe may bear on them, how far the shoes are apart, what is aside of the lift lines.

    Aside is measured in plan, whichever way, from where the lift lines pull on the arbor.
    """

    rating: Known = f.figure(Kind.FORCE, **_RATING)
    shoes_apart: Known = f.figure(Kind.LENGTH, **_SIZE)  # upper from lower
    load_aside: Known = f.figure(Kind.LENGTH, ranges=True)  # the middle of arbor and stack
    hand_line_aside: Known = f.figure(Kind.LENGTH, ranges=True)
    friction: Known | None = f.optional(Kind.RATIO, **_RATING, within=_SLIDES)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stops:
    """Stops of a set. Their ratings; a stop the house trims clear of is written none."""

    top: Known | None = f.part(Kind.FORCE, **_RATING)
    bottom: Known | None = f.part(Kind.FORCE, **_RATING)


@dataclass(frozen=True, slots=True, kw_only=True)
class HandLine:
    """A hand line. Which way it is tied, its rope, and what it may carry."""

    travels: str = f.written(f.choice("with the batten", "with the arbor"), default="")
    rope: str = f.written(f.text, default="")
    diameter: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    rating: Known | None = f.optional(Kind.FORCE, **_RATING)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lock:
    """A rope lock. What it may be asked to hold where that is not the rule of the house; it is never a brake."""

    hold: Known | None = f.optional(Kind.FORCE, **_RATING)
    note: str = f.written(f.text, default="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Bags:
    """The bags of a hemp set. What hangs on its lines at the rail, the pin each is tied to, and what its crew hauls."""

    weight: Known = f.figure(Kind.MASS, **_WEIGHT)
    pin: Known = f.figure(Kind.FORCE, **_RATING)
    hauls: Known = f.figure(Kind.FORCE, **_RATING)  # what its crew may haul


@dataclass(frozen=True, slots=True, kw_only=True)
class Posted:
    """A posted capacity. The figure of a maker, an engineer or the house, what it is a capacity of, and whose it is."""

    load: Known = f.figure(Kind.FORCE, **_RATING)
    counts: str = f.written(f.choice("what is hung", "batten and all", "unknown"), default="unknown")
    by: str = f.written(f.text, default="")
    on: str = f.written(f.text, default="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """A condition. What was found on a part of a set, and what that part may carry until it is put right."""

    part: str = f.written(f.text)
    line: Known | None = f.optional(Kind.COUNT)
    found: str = f.written(f.text)
    who: str = f.written(f.text)
    when: str = f.written(f.day)
    carries: Known | None = f.optional(Kind.FORCE, ranges=True)


Named = Mapping[str, Known]
