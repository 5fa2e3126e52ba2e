"""A sheet to the sets it states: understood, kept as a note, or not understood, and never guessed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from counterpoise.exchange.asking import questions_of_words
from counterpoise.exchange.decimals import decimal_of
from counterpoise.exchange.guessing import holds_places, questions_of_columns
from counterpoise.exchange.headings import FIELDS, NOT_KNOWN, UNITS_OF, Heading
from counterpoise.exchange.mapping import (
    Unit,
    all_found,
    lettered,
    named_columns,
    stated_units,
    told_every,
    told_field,
    told_units,
    told_words,
)
from counterpoise.exchange.remarks import remarks_on
from counterpoise.exchange.rows import Book, read_table
from counterpoise.exchange.said import CellSaid, ColumnSaid, Question, State, Understood
from counterpoise.exchange.sheet import Sheet, column_letters, place
from counterpoise.exchange.tables import Column, Table, tables_of
from counterpoise.exchange.taken import Taken
from counterpoise.exchange.values import read_value
from counterpoise.units import Kind

_PIPES = ("batten", "pipe", "barrel", "batten type", "pipe type")
_LOOSE = ("type", "kind", "system", "operation", "mechanism", "line type", "bar type", "set type")


def understand(
    sheet: Sheet,
    columns: Mapping[str, str] | None = None,
    units: Mapping[str, str] | None = None,
    every: Mapping[str, str] | None = None,
    words: Mapping[str, str] | None = None,
) -> Understood:
    """What a sheet says of the sets of a house.

    Args:
        sheet: its cells.
        columns: what the user says of columns, by heading or by letter: a field of FIELDS, "note" or "ignore".
        units: the unit of a field's bare numbers, of UNITS_OF.
        every: values for all sets whose cell is empty, each with its unit; a cell that says what is not understood is
            not one of them.
        words: what words of cells mean, by field and word, as in "purchase: 2P": a value of the field, or "note".

    Returns:
        The sets, and of every other cell where it went and why. A question that must be answered keeps figures back.

    Raises:
        Misuse: the user's words name a column, a field or a unit that is not there.
    """
    named = named_columns(columns or {})
    by_letter = lettered(named, sheet)
    tables = tables_of(sheet, by_letter, {name.lower(): field for name, field in named.items()})
    all_found(named, tables, sheet)
    stated, told, for_all = stated_units(sheet), told_units(units or {}), told_every(every or {})
    book = Book(sheet=sheet, every=for_all, words=told_words(words or {}))
    said: list[ColumnSaid] = []
    guesses: list[Question] = []
    columns_of = [(table, _taken(sheet, table, named, by_letter, told, stated)) for table in tables]
    book.decimal = decimal_of(_figures(sheet, columns_of))
    for table, taken in columns_of:
        said += [_column_said(sheet, table, one) for one in taken if one.column.text or _first_cells(sheet, table, one)]
        guesses += questions_of_columns(sheet, table, taken)
        read_table(book, table, taken)
    _rest(book, tables)
    cells, sets = book.settled()
    guessed = {one.about for one in guesses}
    asked = (one for one in _questions(sheet, tables, said, book, for_all) if one.must or one.about not in guessed)
    questions = (*guesses, *asked)
    remarks = remarks_on(sheet, tables, said, sets, cells)
    return Understood(file=sheet.file, sheet=sheet.name, columns=tuple(said) or tuple(_bare_columns(sheet)), sets=sets,
                      cells=cells, remarks=remarks, questions=questions, every=for_all, told=sheet.told)  # fmt: skip


def _figures(sheet: Sheet, columns_of: list[tuple[Table, list[Taken]]]) -> Iterator[str]:
    """The cells of figures that people have typed: a number of the spreadsheet is no matter of points and commas."""
    for table, taken in columns_of:
        at = [one.column.at for one in taken if one.field in FIELDS and FIELDS[one.field].kind in UNITS_OF]
        for row in range(table.first, table.end):
            yield from (sheet.rows[row][one] for one in at if (row, one) not in sheet.numbers)


def _taken(
    sheet: Sheet, table: Table, named: Mapping[str, str], by_letter: Mapping[int, str], told: Mapping[str, Unit],
    stated: Mapping[str, Unit],
) -> list[Taken]:  # fmt: skip
    """What each column of a table is taken for: the user's word first, then its heading; a field only once."""
    wanted = {one.at: told_field(one, named, by_letter) for one in table.columns}
    by_user = {field: column_letters(at) for at, field in reversed(wanted.items()) if field in FIELDS}
    found: list[Taken] = []
    has: dict[str, str] = {}
    for column in table.columns:
        field, why = wanted[column.at], "you said so"
        if not field:
            field, why = _by_heading(sheet, table, column)
        before = by_user.get(field, has.get(field, "")) if not wanted[column.at] else has.get(field, "")
        if field in FIELDS and before:
            field, why = "note", f"{why}, but column {before} holds that already"
        if field in FIELDS:
            has[field] = column_letters(column.at)
        unit, by = _unit_of(field, column.said, told, stated)
        told_so = bool(wanted[column.at])
        found.append(Taken(column=column, field=field, unit=unit, why=f"{why}{by}", told=told_so))
    return found


def _by_heading(sheet: Sheet, table: Table, column: Column) -> tuple[str, str]:
    said = column.said
    if said.field == "line count" and holds_places(sheet, table, column.at):
        return "lines at", f'"{column.text}" lists the places of the lift lines'
    if said.field == "purchase" and said.words in _LOOSE:
        texts = [sheet.rows[row][column.at] for row in range(table.first, table.end) if sheet.rows[row][column.at]]
        if texts and sum(not read_value("purchase", text, "").why for text in texts) * 2 < len(texts):
            return "note", f'most cells under "{column.text}" do not say how a set is rigged'
    if said.field == "batten pipe" and said.words in _PIPES:
        texts = [sheet.rows[row][column.at] for row in range(table.first, table.end) if sheet.rows[row][column.at]]
        if sum(not read_value("batten pipe", text, "").why for text in texts) * 2 < len(texts) or not texts:
            return "note", f'"{column.text}" may mean several things, and most cells under it name no pipe'
    return said.field, said.why


def _unit_of(field: str, said: Heading, told: Mapping[str, Unit], stated: Mapping[str, Unit]) -> tuple[str, str]:
    """The unit of bare numbers, and who says so: the user, the heading, a line of words on the sheet."""
    kind = FIELDS[field].kind if field in FIELDS else None
    if kind is None or kind not in UNITS_OF:
        return "", ""
    if field in told:
        return told[field].unit, f"; in {told[field].unit}, {told[field].why}"
    if said.unit in UNITS_OF[kind]:
        return said.unit, f"; in {said.unit}, by its heading"
    if field in stated:
        return stated[field].unit, f"; in {stated[field].unit}, {stated[field].why}"
    return "", ""


def _column_said(sheet: Sheet, table: Table, one: Taken) -> ColumnSaid:
    return ColumnSaid(letters=column_letters(one.column.at), heading=one.column.text, heading_at=one.column.heading_at,
                      field=one.field, unit=one.unit, why=one.why, datum=_datum(one),
                      first=_first_cells(sheet, table, one), is_strange=NOT_KNOWN in one.why)  # fmt: skip


def _datum(one: Taken) -> str:
    words = one.column.text.lower()
    known = ("plaster line", ("plaster", "pl", "p.l.")), ("setting line", ("setting", "sl", "s.l."))
    parts = words.replace("(", " ").replace(")", " ").split()
    return (
        next((line for line, names in known if any(name in parts for name in names)), "")
        if one.field == "distance"
        else ""
    )


def _first_cells(sheet: Sheet, table: Table, one: Taken) -> tuple[str, ...]:
    return _first(sheet, one.column.at, table.first, table.end)


def _bare_columns(sheet: Sheet) -> list[ColumnSaid]:
    return [ColumnSaid(letters=column_letters(at), heading="", heading_at=(), field="", unit="",
                       why="no row looks like a heading", first=_first(sheet, at, 0, len(sheet.rows)))
            for at in range(sheet.width)]  # fmt: skip


def _first(sheet: Sheet, column: int, begin: int, end: int) -> tuple[str, ...]:
    found: list[str] = []
    for row in range(begin, end):
        if sheet.rows[row][column]:
            found.append(sheet.rows[row][column][:30])
            if len(found) == 3:
                break
    return tuple(found)


def _rest(book: Book, tables: tuple[Table, ...]) -> None:
    """Cells that stand in no table: kept as words about the house, or not understood where there is no table."""
    sheet = book.sheet
    heads = {at for table in tables for one in table.columns for at in one.heading_at}
    covered = {row for table in tables for row in range(table.first, table.end)}
    why = "stands above the table" if tables else "no row looks like a heading, so no column has a meaning"
    state = State.NOTE if tables else State.NOT_UNDERSTOOD
    mend = "" if tables else "Say what each column holds."
    for row, texts in enumerate(sheet.rows):
        if row in covered:
            continue
        for column, text in enumerate(texts):
            at = place(row, column)
            if text and (row, column) not in sheet.merged and at not in heads:
                book.cells.append(CellSaid(at, row + 1, "", "", text, state, "", why, mend))


def _questions(
    sheet: Sheet, tables: tuple[Table, ...], said: list[ColumnSaid], book: Book, every: Mapping[str, str]
) -> list[Question]:
    found = []
    fields = {one.field for one in said}
    filled = sum(map(bool, (text for row in sheet.rows for text in row)))
    if not tables:
        found.append(Question(about="columns", says="no row looks like a heading; which column holds what?",
                              options=tuple(FIELDS), cells=filled))  # fmt: skip
    elif "set" not in fields:
        found.append(Question(about="columns", says="no column holds the label of a set; which one does?",
                              options=tuple(dict.fromkeys(one.letters for one in said)), cells=filled))  # fmt: skip
    for name, cells in book.waiting.items():
        options = UNITS_OF[FIELDS[name].kind or Kind.LENGTH]
        many = {"posted": "posted loads", "distance": "distances"}.get(name, f"{name}s")
        says = f"are {many} in {', '.join(options[:-1])} or {options[-1]}? Numbers without a unit: {cells}."
        found.append(Question(about=name, says=says, options=options, cells=cells))
    found += questions_of_words(book, every)
    return found
