"""The hang as written: this show in this house, which piece on which set, where, at which trims, on which cues."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from counterpoise.documents import fields as f
from counterpoise.documents.known import Known
from counterpoise.documents.notes import NotChecked
from counterpoise.units import Kind


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung:
    """A piece on a set. `centre` is where its own centre meets the batten, from the batten's centre."""

    piece: str = f.written(f.text)
    set_: str = f.written(f.text)
    centre: Known = f.figure(Kind.LENGTH, along=True)
    trims: Mapping[str, Known] = f.written(f.named(f.quantity(Kind.LENGTH, ranges=True)), factory=dict)
    note: str = f.written(f.text, default="")
    line_of: int = 0

    @property
    def label(self) -> str:
        """The set it hangs on, as people call it."""
        return self.set_


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """A move of a cue. The set that goes, to which of its trims, and how fast."""

    set_: str = f.written(f.text)
    to: str = f.written(f.text)
    in_: str = f.written(f.text, default="")  # "5 s", "slow": as the rail is told

    @property
    def label(self) -> str:
        """The set that moves."""
        return self.set_


@dataclass(frozen=True, slots=True, kw_only=True)
class Cue:
    """A cue. What moves on it."""

    cue: str = f.written(f.text)
    light: str = f.written(f.text, default="")
    moves: tuple[Move, ...] = f.written(f.items(f.record(Move)))
    note: str = f.written(f.text, default="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Hang:
    """A hang. Names the house and the show it joins."""

    counterpoise: str = f.written(f.text)
    house: str = f.written(f.text)
    show: str = f.written(f.text)
    numbering: Known | None = f.optional(Kind.COUNT, above_zero=True)  # of the house, that its labels are of
    house_revision: str = f.written(f.text, default="")
    about: str = f.written(f.text, default="")
    hung: tuple[Hung, ...] = f.written(f.items(f.record(Hung)))
    stated_bricks: Mapping[str, Known] = f.written(f.named(f.quantity(Kind.COUNT)), factory=dict)
    stated_small_bricks: Mapping[str, Known] = f.written(f.named(f.quantity(Kind.COUNT)), factory=dict)
    stated_bags: Mapping[str, Known] = f.written(f.named(f.quantity(Kind.MASS, ranges=True)), factory=dict)
    preset: Mapping[str, str] = f.written(f.named(f.text), factory=dict)
    cues: tuple[Cue, ...] = f.written(f.items(f.record(Cue)), default=())
    not_checked_here: tuple[NotChecked, ...] = f.written(f.items(f.record(NotChecked)), default=())
