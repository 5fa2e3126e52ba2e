"""The one way to cells: by what the bytes are, not by what the file is called."""

from __future__ import annotations

from counterpoise.exchange.sheet import Sheet
from counterpoise.exchange.text_cells import refused, sheet_of_text
from counterpoise.exchange.workbook import sheets_of_workbook

LARGEST = 20_000_000  # bytes; a schedule of five thousand sets is about half a million


def read_cells(data: bytes | str, name: str) -> tuple[Sheet, ...]:
    """Every cell of a spreadsheet or a text as text.

    Args:
        data: bytes of a file (xlsx, xls, xlsb, ods, CSV), or the text of pasted cells.
        name: what the reader calls it, for messages.

    Returns:
        The sheets, in order, hidden ones marked; at least one. A whole number has no decimal point; a date stays a
        date in text and is marked odd, and so are errors and formulas never calculated (in xlsx only; in other
        formats those look blank). Merged cells are known for xlsx and xls.

    Raises:
        BadDocument: too large, empty, or not a table.
    """
    if len(data) > LARGEST:
        raise refused(name, f"this has {len(data):,} bytes; the most is {LARGEST:,}.", "Take the schedule out alone.")
    packed = isinstance(data, bytes) and data[:4] in (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")
    sheets = sheets_of_workbook(data, name) if packed and isinstance(data, bytes) else (sheet_of_text(data, name),)
    if not any(one.rows for one in sheets):
        raise refused(name, "no cell in it has anything in it.", "Name the file with the schedule, or paste its cells.")
    return sheets
