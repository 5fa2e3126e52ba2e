"""What became of a schedule: every cell is understood, kept as a note, or not understood, and says why."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum
from typing import NamedTuple


class State(Enum):
    """Where a cell went. There is no fourth place."""

    UNDERSTOOD = "understood"
    NOTE = "kept as a note"
    NOT_UNDERSTOOD = "not understood"


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """What a cell became: values by field of the set, words for its note, or why neither."""

    values: Mapping[str, str] = field(default_factory=dict)
    si: float | None = None  # of a figure that is known, in SI
    note: str = ""
    says: str = ""  # how it was read, where that is not plain
    why: str = ""  # why it was not understood
    mend: str = ""
    waits: bool = False  # for the answer which unit its column has
    not_a_set: bool = False  # moved by a machine: no set of a manual house


class CellSaid(NamedTuple):
    """One cell with something in it."""

    place: str  # "B7"
    row: int  # from 1
    heading: str  # of its column, "" outside a table
    field: str  # what the column is taken for, "" outside a table
    text: str
    state: State
    became: str  # words of the house file, "" where it became none
    why: str
    mend: str


class Value(NamedTuple):
    """A value of a set, in the words of a house file, and the cell it came from."""

    words: str
    place: str  # "" where it was told for every set
    text: str
    si: float | None = None  # of a figure that is known, in SI


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnSaid:
    """What a column is taken for."""

    letters: str
    heading: str
    heading_at: tuple[str, ...]  # places of the heading's cells
    field: str  # a field of FIELDS, "note" or "ignore"
    unit: str  # of its bare numbers, "" where none is stated
    why: str
    datum: str = ""  # what a distance is counted from, where its heading says so
    first: tuple[str, ...] = ()  # its first values, for a reader who has to say what it is
    is_strange: bool = False  # its heading is no word that is known, and nobody said what it holds


@dataclass(frozen=True, slots=True, kw_only=True)
class ScheduledSet:
    """A set as a row states it. What the row does not state is not here."""

    label: str
    place: str
    row: int  # from 1
    values: Mapping[str, Value]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Remark:
    """Something a reader should look at; nothing was changed for it."""

    says: str
    mend: str
    place: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What has to be answered before figures can be read: `about` a field, or "columns".

    With a `word`, what that word means in the cells that say it; with a `column`, whether that column holds the field;
    without either, about all cells that are empty.
    """

    about: str
    says: str
    options: tuple[str, ...]
    cells: int  # how many cells wait for it
    must: bool = True  # False where a house can be written without the answer
    word: str = ""
    column: str = ""  # its letters


class Lost(NamedTuple):
    """Cells of one row that were not understood for one reason."""

    row: int  # from 1
    places: tuple[str, ...]
    texts: tuple[str, ...]
    why: str
    mend: str

    @property
    def where(self) -> str:
        """The one cell, or the row with its first and last."""
        first, last = self.places[0], self.places[-1]
        return first if first == last else f"row {self.row}, {first} to {last}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Understood:
    """A sheet that was read. Each cell is in `cells` once, or a heading of `columns`, or was told to be ignored."""

    file: str
    sheet: str
    columns: tuple[ColumnSaid, ...]
    sets: tuple[ScheduledSet, ...]
    cells: tuple[CellSaid, ...]
    remarks: tuple[Remark, ...]
    questions: tuple[Question, ...]
    every: Mapping[str, str]  # what was told for every set that does not say it itself
    told: tuple[str, ...]  # how the cells were read

    def of(self, state: State) -> tuple[CellSaid, ...]:
        """The cells that went there."""
        return tuple(one for one in self.cells if one.state is state)

    @property
    def lost(self) -> tuple[Lost, ...]:
        """What was not understood, once for each row and reason."""
        found: dict[tuple[int, str, str], list[CellSaid]] = {}
        for one in self.of(State.NOT_UNDERSTOOD):
            # cells outside a table have no column and stay apart
            found.setdefault((one.row, one.why, one.mend if one.field else one.place), []).append(one)
        return tuple(Lost(cells[0].row, tuple(one.place for one in cells), tuple(one.text for one in cells),
                          cells[0].why, cells[0].mend) for cells in found.values())  # fmt: skip

    @property
    def left_out(self) -> tuple[Lost, ...]:
        """Rows that may have been meant as sets, and of which no set was made."""
        rows = {one.row for one in self.sets}
        return tuple(one for one in self.lost if len(one.places) > 1 and one.row not in rows)

    @property
    def datum(self) -> str:
        """What the distances are counted from, by their headings; "" where none says it or they differ."""
        said = {one.datum for one in self.columns if one.field == "distance"}
        return said.pop() if len(said) == 1 else ""

    @property
    def prose(self) -> tuple[CellSaid, ...]:
        """Words that belong to no set: titles, remarks between rows, totals."""
        return tuple(one for one in self.cells if one.state is State.NOTE and not one.field)
