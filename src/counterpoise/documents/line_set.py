"""A set as written: label, distance, purchase, and its parts from batten to steel."""

from __future__ import annotations

from dataclasses import dataclass

from counterpoise.documents import fields as f
from counterpoise.documents.known import Known
from counterpoise.documents.parts import (
    Arbor,
    Bags,
    Batten,
    Block,
    Condition,
    Guides,
    HandLine,
    LiftLines,
    Lock,
    Posted,
    Stops,
)
from counterpoise.units import Kind

COUNTERWEIGHT, HEMP, DEAD_HUNG = "counterweight", "hemp", "dead-hung"
_RATING = {"above_zero": True, "ranges": True}


@dataclass(frozen=True, slots=True, kw_only=True)
class LineSet:
    """A set. Its label alone must be written; what else is known makes more of it computed."""

    set_: str = f.written(f.text)
    key: str = f.written(f.text, default="")
    formerly: tuple[str, ...] = f.written(f.items(f.text), default=())  # labels it had, besides its key
    distance: Known = f.figure(Kind.LENGTH, signed=True)
    rigged: str = f.written(f.choice(COUNTERWEIGHT, HEMP, DEAD_HUNG), default=COUNTERWEIGHT)
    twin_of: str = f.written(f.text, default="")
    married: str = f.written(f.choice("yes", "no"), default="no")
    use: str = f.written(f.text, default="")
    rail: str = f.written(f.text, default="")
    purchase: str = f.written(f.choice("single", "double", "unknown"), default="unknown")
    hand_line: HandLine = f.written(f.either(HandLine, "travels"), default=HandLine())
    low_trim: Known = f.figure(Kind.LENGTH)
    high_trim: Known = f.figure(Kind.LENGTH)
    batten: Batten = f.block(Batten)
    lines: LiftLines = f.block(LiftLines)
    loft_block: Block = f.block(Block)
    head_block: Block = f.block(Block)
    arbor: Arbor = f.block(Arbor)
    guides: Guides | None = f.written(f.record(Guides), default=None)
    brick: str = f.written(f.text, default="")
    pipe_weight: Known = f.figure(Kind.COUNT)
    small_brick: str = f.written(f.text, default="")
    small_pipe_weight: Known | None = f.optional(Kind.COUNT)
    stops: Stops = f.block(Stops, none=Stops(top=None, bottom=None))
    tension_block: Known | None = f.part(Kind.FORCE, **_RATING)
    lock: Lock = f.written(f.record(Lock), default=Lock())
    bags: Bags | None = f.written(f.record(Bags), default=None)
    posted: tuple[Posted, ...] = f.written(f.items(f.record(Posted)), default=())
    condition: tuple[Condition, ...] = f.written(f.items(f.record(Condition)), default=())
    out_of_service: str = f.written(f.reason, default="")
    note: str = f.written(f.text, default="")
    line_of: int = 0
    home: str = ""  # the kind it was laid over, as in kinds.single
    stands: str = ""  # where more of it may be written: its kind, else itself, as in sets[3]

    @property
    def label(self) -> str:
        """What people call it."""
        return self.set_

    @property
    def former(self) -> tuple[str, ...]:
        """Labels it had in earlier numberings; a key is the first of them where nobody chose it."""
        return tuple(one for one in (self.key, *self.formerly) if one and one != self.set_)

    @property
    def permanent(self) -> str:
        """The key that stays when it is renumbered."""
        return self.key or self.set_
