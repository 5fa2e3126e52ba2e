"""The show as written: pieces that travel from house to house."""

from __future__ import annotations

from dataclasses import dataclass

from counterpoise.documents import fields as f
from counterpoise.documents.known import Known
from counterpoise.units import Kind

_size = f.quantity(Kind.LENGTH, above_zero=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A piece. Hung on picks that share its weight equally, or spread evenly over a length.

    `picks` are from its own centre. `comes: off the floor` is cloth whose weight arrives as it leaves the deck.
    """

    piece: str = f.written(f.text)
    weight: Known = f.written(f.quantity(Kind.MASS, above_zero=True, ranges=True))
    picks: tuple[Known, ...] = f.written(f.items(f.along()), default=())
    spread_over: Known | None = f.written(_size, default=None)
    height: Known = f.written(_size)
    comes: str = f.written(f.choice("free", "off the floor"), default="free")
    looks: str = f.written(f.choice("cloth", "solid", "lamps"), default="solid")
    line_of: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Show:
    """A show. Its pieces, each with how well its weight is known."""

    counterpoise: str = f.written(f.text)
    name: str = f.written(f.text)
    about: str = f.written(f.text, default="")
    pieces: tuple[Piece, ...] = f.written(f.items(f.record(Piece)))

    def piece_called(self, name: str) -> Piece | None:
        """The piece of this name, None where there is none."""
        return next((one for one in self.pieces if one.piece == name), None)
