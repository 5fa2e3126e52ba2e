"""The hang as written: this show in this house, which piece on which set, where, and at which trims."""

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
    centre: Known = f.written(f.along())
    trims: Mapping[str, Known] = f.written(f.named(f.quantity(Kind.LENGTH, ranges=True)), factory=dict)
    line_of: int = 0

    @property
    def label(self) -> str:
        """The set it hangs on, as people call it."""
        return self.set_


@dataclass(frozen=True, slots=True, kw_only=True)
class Hang:
    """A hang. Names the house and the show it joins."""

    counterpoise: str = f.written(f.text)
    house: str = f.written(f.text)
    show: str = f.written(f.text)
    about: str = f.written(f.text, default="")
    hung: tuple[Hung, ...] = f.written(f.items(f.record(Hung)))
    stated_bricks: Mapping[str, Known] = f.written(f.named(f.quantity(Kind.COUNT)), factory=dict)
    not_checked_here: tuple[NotChecked, ...] = f.written(f.items(f.record(NotChecked)), default=())
