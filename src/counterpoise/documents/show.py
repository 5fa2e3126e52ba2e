"""The show as written: pieces that travel from house to house."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from counterpoise.documents import fields as f
from counterpoise.documents.known import Known
from counterpoise.units import Kind

_SIZE = {"above_zero": True}
_FULLNESS = (0.0, 3.0, "Write what is added to the width, like 50 %. 1.5 is 150 %, two and a half times the width.")
FREE, OFF_THE_FLOOR, TIPPED_UP, IN_SECTIONS = "free", "off the floor", "tipped up", "in sections"


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """A line of a takeoff. Cloth, board, lumber, pipe or cable by its size, fixtures and other things by their count.

    `cloth`, `board`, `lumber`, `pipe`, `cable` and `fixture` name a row of the catalogue, which gives the weight per
    area, per length or of one; or that weight is written here.
    """

    what: str = f.written(f.text, default="")
    cloth: str = f.written(f.text, default="")
    board: str = f.written(f.text, default="")
    lumber: str = f.written(f.text, default="")
    pipe: str = f.written(f.text, default="")
    cable: str = f.written(f.text, default="")
    fixture: str = f.written(f.text, default="")
    width: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    height: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    fullness: Known | None = f.optional(Kind.RATIO, within=_FULLNESS)  # what is added
    length: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    count: Known | None = f.optional(Kind.COUNT)
    per_area: Known | None = f.optional(Kind.AREA_MASS, above_zero=True, ranges=True)
    per_length: Known | None = f.optional(Kind.LINE_MASS, above_zero=True, ranges=True)
    each: Known | None = f.optional(Kind.MASS, above_zero=True, ranges=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A section of a piece, bolted on below the others as they rise."""

    part: str = f.written(f.text, default="")
    weight: Known = f.figure(Kind.MASS, above_zero=True, ranges=True)
    height: Known = f.figure(Kind.LENGTH, **_SIZE)
    balance_height: Known = f.figure(Kind.LENGTH, **_SIZE)  # of its centre of gravity above its foot
    joins_at: Known | None = f.optional(Kind.LENGTH, **_SIZE)  # batten height; left out: once those above hang free


@dataclass(frozen=True, slots=True, kw_only=True)
class Cable:
    """Electric cable from the batten to a fixed box. Its weight on the batten changes as that flies."""

    cable: str = f.written(f.text, default="")
    count: Known | None = f.optional(Kind.COUNT)
    length: Known = f.figure(Kind.LENGTH, **_SIZE)
    weight: Known = f.figure(Kind.LINE_MASS, ranges=True)
    box: Known = f.figure(Kind.LENGTH)  # its height above the stage: near the grid, or near the deck
    at: Known | None = f.optional(Kind.LENGTH, along=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Clamps:
    """The clamps of a piece. What pipe they go on."""

    fit_from: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    fit_to: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    rating: Known | None = f.optional(Kind.FORCE, above_zero=True, ranges=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """What a piece asks of the place where it hangs."""

    distance: Known | None = f.optional(Kind.LENGTH, ranges=True, signed=True)
    upstage_of: tuple[str, ...] = f.written(f.items(f.text), default=())
    downstage_of: tuple[str, ...] = f.written(f.items(f.text), default=())
    masks: tuple[str, ...] = f.written(f.items(f.text), default=())
    clear_by: Known | None = f.optional(Kind.LENGTH)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A piece. Hung on picks that share its weight equally, or spread evenly over a length.

    `picks` are from its own centre. `comes` says how its weight comes on as the batten rises: it hangs free at once;
    cloth off the floor; a wall tipped up from its foot; in sections bolted on. It weighs what is written, or what its
    takeoff comes to.
    """

    piece: str = f.written(f.text)
    key: str = f.written(f.text, default="")
    weight: Known = f.figure(Kind.MASS, above_zero=True, ranges=True)
    takeoff: tuple[Taken, ...] = f.written(f.items(f.record(Taken)), default=())
    picks: tuple[Known, ...] = f.written(f.items(f.along()), default=())
    spread_over: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    centre_of_gravity: Known | None = f.optional(Kind.LENGTH, along=True)  # from its own centre
    balance_height: Known = f.figure(Kind.LENGTH, **_SIZE)  # of its centre of gravity above its foot
    height: Known = f.figure(Kind.LENGTH, **_SIZE)
    ties: Known | None = f.optional(Kind.LENGTH)  # from the batten down to its top
    thickness: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    beside: Known | None = f.optional(Kind.LENGTH, signed=True)  # of its weight, upstage of the pipe's axis
    below: Known | None = f.optional(Kind.LENGTH)  # of its weight, below the pipe's axis
    comes: str = f.written(f.choice(FREE, OFF_THE_FLOOR, TIPPED_UP, IN_SECTIONS), default=FREE)
    sections: tuple[Part, ...] = f.written(f.items(f.record(Part)), default=())
    lands: Known | None = f.optional(Kind.LENGTH)  # batten height below which it stands on deck or set again
    cables: tuple[Cable, ...] = f.written(f.items(f.record(Cable)), default=())
    clamps: Clamps | None = f.written(f.record(Clamps), default=None)
    wishes: Wishes | None = f.written(f.record(Wishes), default=None)
    looks: str = f.written(f.choice("cloth", "solid", "lamps", "sound"), default="solid")
    note: str = f.written(f.text, default="")
    line_of: int = 0
    stands: str = ""  # as in pieces[3]


@dataclass(frozen=True, slots=True, kw_only=True)
class Show:
    """A show. Its pieces, each with how well its weight is known."""

    counterpoise: str = f.written(f.text)
    name: str = f.written(f.text)
    about: str = f.written(f.text, default="")
    pieces: tuple[Piece, ...] = f.written(f.items(f.record(Piece)))
    own_rows: Mapping[str, Mapping[str, Known]] = field(default_factory=dict)  # of its catalogue

    def piece_called(self, name: str) -> Piece | None:
        """The piece of this name, None where there is none."""
        return next((one for one in self.pieces if one.piece == name), None)
