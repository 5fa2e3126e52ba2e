"""A sheet of cells as text, each at the place that a spreadsheet names: B7."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache


@dataclass(frozen=True, slots=True, kw_only=True)
class Odd:
    """Why a cell cannot be taken at its word, and what to do."""

    why: str
    mend: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet. Rows and columns are counted from 0 inside and named from 1 and A towards people."""

    file: str
    name: str  # "" for text
    rows: tuple[tuple[str, ...], ...]  # all of one width, beginning at A1
    odd: Mapping[tuple[int, int], Odd] = field(default_factory=dict)
    merged: Mapping[tuple[int, int], tuple[int, int]] = field(default_factory=dict)  # covered cell -> its top left
    numbers: frozenset[tuple[int, int]] = frozenset()  # cells that the file holds as numbers with decimals
    hidden: bool = False
    told: tuple[str, ...] = ()  # how it was read, where a reader may want to know

    @property
    def width(self) -> int:
        """Number of columns."""
        return len(self.rows[0]) if self.rows else 0

    def heading(self, row: int, column: int) -> str:
        """Words of a cell; a merged one speaks for every cell it covers."""
        top = self.merged.get((row, column))
        return self.rows[top[0]][top[1]] if top else self.rows[row][column]

    def origin(self, row: int, column: int) -> tuple[int, int]:
        """The cell that speaks for this one among data: one merged downward speaks for its rows, not for its columns.

        A remark that was merged across a row is one remark, not a value of each column.
        """
        top = self.merged.get((row, column))
        return top if top and top[1] == column else (row, column)


@lru_cache(maxsize=1024)
def column_letters(column: int) -> str:
    """Name of a column counted from 0: 0 is A, 26 is AA."""
    letters, rest = "", column + 1
    while rest:
        rest, last = divmod(rest - 1, 26)
        letters = chr(ord("A") + last) + letters
    return letters


def place(row: int, column: int) -> str:
    """Name of a cell; both counted from 0."""
    return f"{column_letters(column)}{row + 1}"


def in_one_line(text: str) -> str:
    """Words of a cell on one line, without signs that are not for reading: line breaks, bells, marks of no width."""
    if not text.isprintable():
        text = "".join(sign if sign.isprintable() else " " for sign in text)
    return " ".join(text.split())


def squared(rows: list[list[str]]) -> tuple[tuple[str, ...], ...]:
    """Rows of one width, without the blank rows and columns at the end."""
    while rows and not any(rows[-1]):
        rows.pop()
    width = max((max((i + 1 for i, text in enumerate(row) if text), default=0) for row in rows), default=0)
    return tuple((*row[:width], *("",) * (width - len(row))) for row in rows)
