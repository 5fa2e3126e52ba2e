"""A column and what it is taken for, and what became of its cells in a row."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from counterpoise.exchange.said import Read
from counterpoise.exchange.tables import Column


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """A column and what it is taken for."""

    column: Column
    field: str
    unit: str
    why: str
    told: bool = False  # the user said so


class Above(NamedTuple):
    """The last cell of a column that said something by itself."""

    text: str
    place: str
    is_number: bool = False  # the file holds it as a number


class Cell(NamedTuple):
    """A cell of a set and what it became."""

    field: str
    where: str
    text: str
    read: Read
    taken: Taken
