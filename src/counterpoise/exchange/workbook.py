"""Spreadsheet files to cells as text, through calamine; what a spreadsheet bent on the way is told and not used.

Calamine gives '' for an error and for a formula that was never calculated. Both are found in the XML of an xlsx file;
in the other formats they look blank.
"""

from __future__ import annotations

import re
import zipfile
import zlib
from datetime import date, datetime, time, timedelta
from io import BytesIO
from typing import TYPE_CHECKING

from counterpoise.exchange.sheet import Odd, Sheet, in_one_line, place, squared
from counterpoise.exchange.text_cells import refused

if TYPE_CHECKING:
    from python_calamine import CalamineSheet

LARGEST_INSIDE = 200_000_000  # bytes a packed file may unfold to
MOST_CELLS = 4_000_000  # of one sheet, blank ones too: rows times columns
_MEND = "Open it in a spreadsheet and save it again as xlsx or CSV."
_CELL = re.compile(rb"<(?:\w+:)?c\s([^>]*?)(?:/>|>(.*?)</(?:\w+:)?c>)", re.DOTALL)
_AT = re.compile(rb'\br="([A-Za-z]{1,12})([0-9]{1,18})"')
_FORMULA = re.compile(rb"<(?:\w+:)?f\b")
_VALUE = re.compile(rb"<(?:\w+:)?(?:v>[^<]|is>)")
_SHEET = re.compile(rb"<(?:\w+:)?sheet\s[^>]*>")
_ID = re.compile(rb'\w+:id="([^"]*)"')
_TARGET = re.compile(rb"<(?:\w+:)?Relationship\s[^>]*>")
_ODS_TABLE = re.compile(rb"<table:table [^>]*>(.*?)</table:table>", re.DOTALL)
_ODS_ROW = re.compile(rb"<table:table-row([^>]*?)(?:/>|>(.*?)</table:table-row>)", re.DOTALL)
_ODS_CELL = re.compile(rb"<table:(?:covered-)?table-cell([^>]*)>")
_REPEATED = re.compile(rb'number-(?:rows|columns)-repeated="([0-9]{1,9})"')
_ERROR = re.compile(rb"v>([^<]*)<")


def sheets_of_workbook(data: bytes, file: str) -> tuple[Sheet, ...]:
    """All sheets of a file, hidden ones too and marked so.

    Raises:
        BadDocument: not a spreadsheet, locked, damaged, or larger than can be meant.
    """
    import python_calamine as calamine

    peeked = _peek(data, file) if data[:2] == b"PK" else {}
    try:
        with calamine.CalamineWorkbook.from_filelike(BytesIO(data)) as book:
            return tuple(
                _sheet(
                    book.get_sheet_by_index(i),
                    file,
                    peeked.get(i, {}),
                    one.visible != calamine.SheetVisibleEnum.Visible,
                )
                for i, one in enumerate(book.sheets_metadata)
                if str(one.typ).endswith("WorkSheet")
                if str(one.typ).endswith("WorkSheet")
            )
    except calamine.PasswordError:
        raise refused(file, "this file is locked with a password.", "Save a copy without one.") from None
    except (calamine.CalamineError, calamine.ZipError, OSError, ValueError) as error:
        said = " ".join(str(error).split())[:120]
        raise refused(file, f"this spreadsheet cannot be read ({said}).", _MEND) from None


def _sheet(read: CalamineSheet, file: str, errors: dict[tuple[int, int], Odd], hidden: bool) -> Sheet:
    odd = dict(errors)
    rows: list[list[str]] = []
    numbers: set[tuple[int, int]] = set()
    for at, row in enumerate(read.to_python(skip_empty_area=False)):
        texts = []
        for column, value in enumerate(row):
            if isinstance(value, str):
                texts.append(in_one_line(value))
            elif isinstance(value, float) and not isinstance(value, bool):
                numbers.add((at, column))
                texts.append(f"{value:.0f}" if value.is_integer() and abs(value) < 1e15 else f"{value:.12g}")
            else:
                text, why = _bent(value)
                texts.append(text)
                if why is not None:
                    odd[at, column] = why
        rows.append(texts)
    for (row_at, column), why in errors.items():
        if row_at < len(rows) and column < len(rows[row_at]) and not rows[row_at][column]:
            rows[row_at][column] = why.why.partition(" ")[0] if why.why.startswith("#") else "="
    width = max(map(len, rows), default=0)
    merged = {
        (row_at, column): top
        for top, end in read.merged_cell_ranges or ()
        if (end[0] - top[0] + 1) * (end[1] - top[1] + 1) <= MOST_CELLS
        for row_at in range(top[0], min(end[0] + 1, len(rows)))
        for column in range(top[1], min(end[1] + 1, width))
        if (row_at, column) != top
    }
    cells = squared(rows)
    kept = {at: top for at, top in merged.items() if at[0] < len(cells) and at[1] < len(cells[0])}
    told = () if read.merged_cell_ranges is not None else ("this format does not tell which cells are merged",)
    return Sheet(file=file, name=read.name, rows=cells, odd=odd, merged=kept, numbers=frozenset(numbers), hidden=hidden,
                 told=told)  # fmt: skip


def _bent(value: int | float | bool | time | date | datetime | timedelta) -> tuple[str, Odd | None]:
    """Text of a value that is neither words nor a plain number, and why it is not to be trusted."""
    if isinstance(value, bool):
        return ("yes" if value else "no"), None
    if isinstance(value, int):
        return str(value), None
    if isinstance(value, date):  # a datetime is one too
        text = value.strftime("%Y-%m-%d")
        return text, Odd(why=f"a date stands here{_was(value)}",
                         mend="Format the cell as text and write it anew.")  # fmt: skip
    return str(value), Odd(why="a time of day stands here", mend="Format the cell as text and write it anew.")


def _was(day: date) -> str:
    """What people type that a spreadsheet turns into this date: 1-6 for 1'-6"."""
    pairs = {(day.month, day.day), (day.day, day.month)}
    meant = [f"{feet}'-{inches}\"" for feet, inches in sorted(pairs) if inches < 12]
    return f"; was {' or '.join(meant)} meant?" if meant else ""


def _peek(data: bytes, file: str) -> dict[int, dict[tuple[int, int], Odd]]:
    """What calamine shows as blank though something stands there, by sheet; refuses what would fill the memory."""
    try:
        with zipfile.ZipFile(BytesIO(data)) as packed:
            if sum(one.file_size for one in packed.infolist()) > LARGEST_INSIDE:
                raise refused(file, f"this file unfolds to more than {LARGEST_INSIDE:,} bytes.", _MEND)
            names = set(packed.namelist())
            if "content.xml" in names:
                for table in _ODS_TABLE.findall(packed.read("content.xml")):
                    _within_reach(*_ods_reach(table), file)
            if "xl/workbook.xml" not in names:
                return {}
            paths = _paths(packed.read("xl/workbook.xml"), packed.read("xl/_rels/workbook.xml.rels"))
            return {i: _look(packed.read(path), file) for i, path in enumerate(paths) if path in names}
    except (
        zipfile.BadZipFile,
        zlib.error,
        KeyError,
        EOFError,
        OSError,
        RuntimeError,
        NotImplementedError,
        ValueError,
    ) as error:
        raise refused(file, f"this spreadsheet is damaged ({str(error)[:80]}).", _MEND) from None


def _paths(book: bytes, relations: bytes) -> list[str]:
    """Where each sheet of a workbook stands in the packed file, in order."""
    where = {}
    for one in _TARGET.findall(relations):
        found, target = re.search(rb'\bId="([^"]*)"', one), re.search(rb'\bTarget="([^"]*)"', one)
        if found and target:
            path = target[1].decode("utf-8", "replace")
            where[found[1]] = path.removeprefix("/") if path.startswith("/") else f"xl/{path}"
    keys = (_ID.search(one) for one in _SHEET.findall(book))
    return [where.get(key[1], "") if key else "" for key in keys]


def _look(xml: bytes, file: str) -> dict[tuple[int, int], Odd]:
    found: dict[tuple[int, int], Odd] = {}
    rows = columns = 0
    for attributes, inside in _CELL.findall(xml):
        at = _AT.search(attributes)
        if at is None:
            continue
        row, column = int(at[2]) - 1, _column(at[1].upper())
        rows, columns = max(rows, row + 1), max(columns, column + 1)
        if b't="e"' in attributes:
            said = _ERROR.search(inside)
            text = said[1].decode("utf-8", "replace") if said else "#ERROR"
            found[row, column] = Odd(why=f"{text} is an error of the spreadsheet",
                                     mend="Mend the formula, or write the figure itself.")  # fmt: skip
        elif inside and _FORMULA.search(inside) and not _VALUE.search(inside):
            found[row, column] = Odd(why="the formula here was never calculated",
                                     mend="Open the file in a spreadsheet, save it and read it again.")  # fmt: skip
    _within_reach(rows, columns, file)
    return found


def _within_reach(rows: int, columns: int, file: str) -> None:
    if rows * columns > MOST_CELLS:
        last = place(rows - 1, columns - 1)
        raise refused(file, f"a sheet reaches to {last}; at most {MOST_CELLS:,} cells are read.",
                      "Delete the blank rows and columns with stray cells in them.")  # fmt: skip


def _ods_reach(table: bytes) -> tuple[int, int]:
    """Rows and columns up to the last cell with a value; in this format one cell may stand for a million alike."""
    rows = columns = at = 0
    for attributes, inside in _ODS_ROW.findall(table):
        at += _repeated(attributes)
        column = 0
        for said in _ODS_CELL.findall(inside):
            column += _repeated(said)
            if b"value" in said or b"formula" in said:
                rows, columns = at, max(columns, column)
    return rows, columns


def _repeated(attributes: bytes) -> int:
    found = _REPEATED.search(attributes)
    return int(found[1]) if found else 1


def _column(letters: bytes) -> int:
    at = 0
    for letter in letters:
        at = at * 26 + letter - 64
    return at - 1
