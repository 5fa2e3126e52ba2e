"""What people write down: text in, a written model out, each value with its place, its words and how it is known."""

from counterpoise.documents.hang import Hang, Hung
from counterpoise.documents.house import (
    Arbor,
    Batten,
    Bay,
    Block,
    Brick,
    Bridge,
    House,
    LineSet,
    Rules,
)
from counterpoise.documents.known import How, Known, Source
from counterpoise.documents.notes import NotChecked
from counterpoise.documents.reading import edit_scalar, read_hang, read_house, read_show
from counterpoise.documents.show import Piece, Show

__all__ = [
    "Arbor",
    "Batten",
    "Bay",
    "Block",
    "Brick",
    "Bridge",
    "Hang",
    "House",
    "How",
    "Hung",
    "Known",
    "LineSet",
    "NotChecked",
    "Piece",
    "Rules",
    "Show",
    "Source",
    "edit_scalar",
    "read_hang",
    "read_house",
    "read_show",
]
