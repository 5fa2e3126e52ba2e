"""Cells from pasted text, CSV and real spreadsheet files made here by other libraries; all of it invented."""

from __future__ import annotations

from datetime import date, datetime, time
from io import BytesIO
from zipfile import ZipFile

import pytest

from counterpoise.errors import BadDocument
from counterpoise.exchange import column_letters, place, read_cells
from tests.invented_schedules import new_book, saved


def only(data: bytes | str) -> tuple[tuple[str, ...], ...]:
    (sheet,) = read_cells(data, "invented")
    return sheet.rows


# --- text ---------------------------------------------------------------------------------------------------------


def test_pasted_cells_are_parted_by_tabs_and_keep_their_feet_and_inches() -> None:
    assert only("Line\tDist\n1\t12'-6\"\n") == (("Line", "Dist"), ("1", "12'-6\""))


def test_a_ditto_mark_does_not_swallow_the_cells_after_it() -> None:
    pasted = 'Line\tUse\tType\n1\tLegs\tSP\n2\t"\t"\n3\t"\tDP\n"\tx\ty'
    assert only(pasted)[2:] == (("2", '"', '"'), ("3", '"', "DP"), ('"', "x", "y"))


def test_a_pasted_cell_of_two_lines_comes_in_quotes_and_stays_one_cell() -> None:
    assert only('1\t"Legs\nblack"\tSP') == (("1", "Legs black", "SP"),)


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_csv_is_read_with_any_usual_separator(separator: str) -> None:
    # RFC 4180, 2.6 and 2.7: a cell with the separator stands in quotes, and a quote in it is doubled.
    text = f'Line{separator}Use\r\n1{separator}"Legs{separator if separator != chr(9) else ","} black"\r\n2{separator}"12"" pipe"\r\n'  # noqa: E501
    assert only(text)[1:] == (("1", f"Legs{separator if separator != chr(9) else ','} black"), ("2", '12" pipe'))


def test_a_file_with_semicolons_may_have_decimal_commas() -> None:
    assert only("Zug;Abstand\n1;0,45\n2;0,90\n")[1] == ("1", "0,45")


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"])
def test_every_unicode_encoding_of_a_spreadsheet_is_read(encoding: str) -> None:
    assert only("Bar,Dist\n1,12′\n".encode(encoding)) == (("Bar", "Dist"), ("1", "12′"))


def test_windows_text_is_read_and_told() -> None:
    (sheet,) = read_cells("Bar,Use\n1,Décor – ½\n".encode("cp1252"), "bars.csv")
    assert sheet.rows[1] == ("1", "Décor – ½")
    assert any("Windows-1252" in one for one in sheet.told)


@pytest.mark.parametrize(
    ("data", "says"),
    [(b"%PDF-1.7 ...", "PDF"), (b"<html><table>", "web page"), (b"", "no cell"), (b"\n\n ,, \n", "no cell"),
     (b"PK\x03\x04 broken", "damaged"), (b"\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIHDR", "neither"),
     (b"\xd0\xcf\x11\xe0 broken", "cannot be read")],
)  # fmt: skip
def test_what_is_no_table_is_refused_in_words(data: bytes, says: str) -> None:
    with pytest.raises(BadDocument, match=says):
        read_cells(data, "a file")


def test_columns_are_named_as_a_spreadsheet_names_them() -> None:
    # The names that another library gives its cells are the outside reference.
    page = new_book().active
    assert all(page.cell(1, at + 1).coordinate == f"{column_letters(at)}1" for at in range(0, 16384, 7))
    assert place(6, 1) == page.cell(7, 2).coordinate == "B7"


# --- spreadsheets --------------------------------------------------------------------------------------------------


def test_a_whole_number_has_no_decimal_point_and_a_fraction_keeps_its_digits() -> None:
    book = new_book()
    book.active.append([8.0, 12, 1.5, 0.1 + 0.2, 1200.0])
    assert only(saved(book)) == (("8", "12", "1.5", "0.3", "1200"),)


@pytest.mark.parametrize(
    ("value", "text", "meant"),
    [(date(2026, 1, 6), "2026-01-06", "1'-6\" or 6'-1\""), (datetime(2026, 6, 1), "2026-06-01", "1'-6\" or 6'-1\""),  # noqa: DTZ001
     (date(2026, 4, 20), "2026-04-20", "20'-4\"")],
)  # fmt: skip
def test_a_date_is_told_with_the_feet_and_inches_that_may_have_been_typed(value: date, text: str, meant: str) -> None:
    book = new_book()
    book.active.append(["x", value])
    (sheet,) = read_cells(saved(book), "bars.xlsx")
    assert sheet.rows == (("x", text),)
    assert sheet.odd[0, 1].why == f"a date stands here; was {meant} meant?"


def test_a_time_of_day_is_told() -> None:
    book = new_book()
    book.active.append([time(1, 6)])
    (sheet,) = read_cells(saved(book), "bars.xlsx")
    assert "time of day" in sheet.odd[0, 0].why


def test_errors_and_formulas_never_calculated_are_told_and_not_blank() -> None:
    book = new_book()
    page = book.active
    page.append(["Line", "Dist", "Sum"])
    page["B2"] = "=1+1"  # openpyxl writes no value beside a formula
    page["C2"] = "#REF!"
    page["C2"].data_type = "e"
    page["A3"] = "end"
    (sheet,) = read_cells(saved(book), "bars.xlsx")
    assert "never calculated" in sheet.odd[1, 1].why
    assert sheet.odd[1, 2].why.startswith("#REF!")
    assert all(sheet.rows[1][1:])


def test_a_formula_with_its_value_is_read_as_the_value() -> None:
    book = new_book()
    book.active["A1"] = "=4*3"
    buffer = BytesIO()
    with ZipFile(BytesIO(saved(book))) as old, ZipFile(buffer, "w") as new:
        for name in old.namelist():
            # Where a spreadsheet keeps the value it last calculated: ECMA-376 part 1, 18.3.1.96 (v).
            new.writestr(name, old.read(name).replace(b"<f>4*3</f><v></v>", b"<f>4*3</f><v>12</v>")
                                             .replace(b"<f>4*3</f><v />", b"<f>4*3</f><v>12</v>")
                                             .replace(b"<f>4*3</f><v/>", b"<f>4*3</f><v>12</v>"))  # fmt: skip
    (sheet,) = read_cells(buffer.getvalue(), "bars.xlsx")
    assert (sheet.rows, sheet.odd) == ((("12",),), {})


def test_a_merged_heading_speaks_for_its_columns_and_a_merged_value_for_its_rows() -> None:
    book = new_book()
    page = book.active
    page["B1"], page["A2"] = "Trim", "SP"
    page.merge_cells("B1:C1")
    page.merge_cells("A2:A4")
    page["C4"] = "x"
    (sheet,) = read_cells(saved(book), "bars.xlsx")
    assert (sheet.heading(0, 2), sheet.heading(1, 2)) == ("Trim", "")
    assert sheet.origin(3, 0) == (1, 0)
    assert sheet.origin(0, 2) == (0, 2)


def test_sheets_come_in_order_and_hidden_ones_are_marked() -> None:
    book = new_book()
    book.active.title = "Lines"
    book.active["C5"] = "here"
    old = book.create_sheet("Old")
    old.sheet_state, old["A1"] = "hidden", "x"
    sheets = read_cells(saved(book), "bars.xlsx")
    assert [(one.name, one.hidden) for one in sheets] == [("Lines", False), ("Old", True)]
    assert sheets[0].rows[4][2] == "here"


def test_a_sheet_of_stray_cells_at_its_far_end_is_refused_before_it_fills_the_memory() -> None:
    book = new_book()
    book.active["A1"], book.active["XFD1048576"] = "x", "y"
    with pytest.raises(BadDocument, match="XFD1048576"):
        read_cells(saved(book), "bars.xlsx")


def test_a_cell_far_beyond_any_sheet_is_refused_before_it_fills_the_memory() -> None:
    book = new_book()
    book.active["A1"], book.active["B9"] = "x", "y"
    buffer = BytesIO()
    with ZipFile(BytesIO(saved(book))) as old, ZipFile(buffer, "w") as new:
        for name in old.namelist():
            new.writestr(name, old.read(name).replace(b'r="B9"', b'r="B9999999999"'))
    with pytest.raises(BadDocument, match="B9999999999"):
        read_cells(buffer.getvalue(), "bars.xlsx")


def open_document(rows: str) -> bytes:
    """The smallest file of OpenDocument 1.3, parts 2 (packages) and 3 (9.1 tables), written by hand."""
    spaces = ("office", "table", "text")
    names = " ".join(f'xmlns:{one}="urn:oasis:names:tc:opendocument:xmlns:{one}:1.0"' for one in spaces)
    kind = "application/vnd.oasis.opendocument.spreadsheet"
    space = 'xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"'
    entry = f'<manifest:file-entry manifest:full-path="/" manifest:media-type="{kind}"/>'
    table = f'<table:table table:name="Bars">{rows}</table:table>'
    body = f"<office:body><office:spreadsheet>{table}</office:spreadsheet></office:body>"
    buffer = BytesIO()
    with ZipFile(buffer, "w") as packed:
        packed.writestr("mimetype", kind)
        packed.writestr("META-INF/manifest.xml", f"<manifest:manifest {space}>{entry}</manifest:manifest>")
        packed.writestr("content.xml", f"<office:document-content {names}>{body}</office:document-content>")
    return buffer.getvalue()


def open_row(*texts: str, rows: int = 1, columns: int = 1) -> str:
    cells = "".join(
        f'<table:table-cell table:number-columns-repeated="{columns}" office:value-type="string">'
        f"<text:p>{text}</text:p>"
        "</table:table-cell>"
        for text in texts
    )
    return f'<table:table-row table:number-rows-repeated="{rows}">{cells}</table:table-row>'


BLANK_TO_THE_END = (  # as spreadsheets write what lies below and beside the last cell
    '<table:table-row table:number-rows-repeated="1048574"><table:table-cell table:number-columns-repeated="16384"/>'
    "</table:table-row>"
)


def test_an_open_document_sheet_is_read_too() -> None:
    data = open_document(open_row("Bar", "Dist") + open_row("1", "2.5 m") + BLANK_TO_THE_END)
    (sheet,) = read_cells(data, "bars.ods")
    assert (sheet.name, sheet.rows) == ("Bars", (("Bar", "Dist"), ("1", "2.5 m")))
    assert any("merged" in one for one in sheet.told)


def test_one_cell_that_stands_for_a_hundred_million_is_refused_before_it_fills_the_memory() -> None:
    with pytest.raises(BadDocument, match="at most 4,000,000 cells"):
        read_cells(open_document(open_row("x", rows=100_000, columns=1_000)), "bars.ods")
