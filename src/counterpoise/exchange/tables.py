"""Where on a sheet the tables are: heading rows, one or two deep, repeated, several below or beside each other."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from counterpoise.exchange.headings import FIELDS, Heading, heading, unit_word
from counterpoise.exchange.sheet import Sheet, column_letters, place

_MAIN = frozenset({"set", "distance"})
_DEEPEST = 3  # heading rows that are joined


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column of one table."""

    at: int  # from 0
    text: str  # its heading, "" where it has none
    said: Heading
    heading_at: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A run of rows under one heading, and the columns it has."""

    columns: tuple[Column, ...]
    heading_rows: tuple[int, ...]  # from 0; none where the sheet has no heading
    first: int  # first row of its data, from 0
    end: int  # row after its last


def tables_of(sheet: Sheet, named: Mapping[int, str], called: Mapping[str, str]) -> tuple[Table, ...]:
    """The tables of a sheet, from top to bottom and from left to right.

    Args:
        sheet: the cells.
        named: columns that the user has named, from 0, with their field; a sheet without a heading is then a table
            from its first row on.
        called: headings that the user has named, in small letters, with their field; they make a row a heading too.

    Returns:
        None at all where no row looks like a heading and no column was named.
    """
    found: list[tuple[tuple[int, ...], list[Column]]] = []
    row = 0
    while row < len(sheet.rows):
        rows, columns = _heading_at(sheet, row, called)
        if rows and not (found and _same(found[-1][1], columns)):
            found.append((rows, columns))
        row = rows[-1] + 1 if rows else row + 1
    if not found and named:
        columns = [Column(at=at, text="", said=heading(""), heading_at=()) for at in range(sheet.width)]
        found = [((), columns)]
    tables = []
    for i, (rows, columns) in enumerate(found):
        end = found[i + 1][0][0] if i + 1 < len(found) else len(sheet.rows)
        for part in _side_by_side(columns):
            first = rows[-1] + 1 if rows else 0
            tables.append(Table(columns=tuple(part), heading_rows=rows, first=first, end=end))
    return tuple(tables)


def repeats_heading(table: Table, texts: list[str]) -> bool:
    """True for a row that says the heading again, as at the top of a printed page."""
    pairs = [(one.text.lower(), text.lower()) for one, text in zip(table.columns, texts, strict=True) if text]
    return len(pairs) > 1 and all((text and (text == said or text in said.split(" "))) or text == said
                                  for said, text in pairs)  # fmt: skip


def _heading_at(sheet: Sheet, row: int, called: Mapping[str, str]) -> tuple[tuple[int, ...], list[Column]]:
    """Rows of the heading that begins here, and its columns; no rows where none does."""
    texts = [text for text in sheet.rows[row] if text]
    if not texts or sum(text[0].isdigit() for text in texts) * 2 > len(texts):
        return (), []  # figures: a row of data
    one = _columns(sheet, (row,), called)
    if row + 1 < len(sheet.rows):
        stacked = _stacked(sheet, row, called)
        if stacked:
            return stacked
        below = [sheet.rows[row + 1][at] for at in range(sheet.width)]
        if _is_units(below) or not any(re.search(r"\d", text) for text in below):
            two, alone = (_columns(sheet, rows, called) for rows in ((row, row + 1), (row + 1,)))
            more = _is_units(below) or _fields(two) > _fields(one)
            if more and _fields(two) > _fields(alone) and _counts(two):
                return (row, row + 1), two
    return ((row,), one) if _counts(one) else ((), [])


def _stacked(sheet: Sheet, row: int, called: Mapping[str, str]) -> tuple[tuple[int, ...], list[Column]] | None:
    """Heading rows joined by merged cells: one that reaches down beside the others, or a group over some of them."""
    rows = [row]
    while rows[-1] + 1 < len(sheet.rows) and len(rows) < _DEEPEST and _joined(sheet, row, rows[-1]):
        rows.append(rows[-1] + 1)
    if len(rows) == 1:
        return None
    columns = _columns(sheet, tuple(rows), called)
    fewer = _fields(columns) < max(_fields(_columns(sheet, (one,), called)) for one in rows)
    return (tuple(rows), columns) if _counts(columns) and not fewer else None


def _joined(sheet: Sheet, first: int, row: int) -> bool:
    """True where the row below belongs to the heading: a cell of it reaches down, or groups some of its columns."""
    below = [at for at in range(sheet.width) if sheet.rows[row + 1][at] and (row + 1, at) not in sheet.merged]
    down = [at for at in range(sheet.width) if (top := sheet.merged.get((row + 1, at))) and first <= top[0] <= row]
    if not below:
        return False
    if len(down) > 1:
        return True
    figures = any(re.search(r"\d", sheet.rows[row + 1][at]) for at in below)
    grouped = {at for at in below if (row, at) in sheet.merged or (row, at + 1) in sheet.merged}
    return not figures and (bool(down) or (bool(grouped) and len(grouped) < len(below)))


def _columns(sheet: Sheet, rows: tuple[int, ...], called: Mapping[str, str]) -> list[Column]:
    columns = []
    for at in range(sheet.width):
        places, texts = [], []
        for row in rows:
            text = sheet.heading(row, at)
            if sheet.rows[row][at] and (row, at) not in sheet.merged:
                places.append(place(row, at))
            if text and text not in texts:
                bare_unit = len(rows) > 1 and row == rows[-1] and unit_word(text)
                texts.append(f"({text.strip('()[]')})" if bare_unit else text)
        joined = " ".join(texts)
        said = heading(joined) if len(joined) <= 60 else heading("")
        if joined.lower() in called:
            field = called[joined.lower()]
            said = replace(said, field=field if field in FIELDS else "note", why="you said so")
        columns.append(Column(at=at, text=joined, said=said, heading_at=tuple(places)))
    return columns


def _is_units(texts: list[str]) -> bool:
    said = [text for text in texts if text]
    return bool(said) and all(unit_word(text) or text in "#-–" for text in said) and any(unit_word(t) for t in said)


def _fields(columns: list[Column]) -> int:
    return len({one.said.field for one in columns} - {"note"})


def _counts(columns: list[Column]) -> bool:
    """True where the words are those of a heading: the label or the distance of a set, and one field more.

    One word alone may be a remark. A set of notes in trade words (`line`, `out`) has no distance beside it.
    """
    fields = {one.said.field for one in columns} - {"note"}
    notes = any(one.said.field == "note" and one.text.lower().startswith(("note", "remark")) for one in columns)
    return bool(fields & _MAIN) and len(fields) + notes >= 2


def _same(one: list[Column], other: list[Column]) -> bool:
    return [each.text for each in one] == [each.text for each in other]


def _side_by_side(columns: list[Column]) -> Iterator[list[Column]]:
    """One table, or several where the heading of the label comes again with another field after it."""
    labels = [i for i, one in enumerate(columns) if one.said.field == "set"]
    first = columns[labels[0]].said.words if labels else ""
    again = [i for i in labels if columns[i].said.words == first]
    starts = [0, *again[1:]]
    parts = [columns[start:end] for start, end in zip(starts, [*starts[1:], len(columns)], strict=True)]
    if len(parts) > 1 and all(_fields(part) > 1 for part in parts):
        yield from parts
    else:
        yield columns


def letters_of(columns: tuple[Column, ...]) -> list[str]:
    """Names of the columns."""
    return [column_letters(one.at) for one in columns]
