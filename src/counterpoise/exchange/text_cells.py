"""Text to cells: pasted from a spreadsheet, or a CSV file of any of the usual encodings and separators.

A quotation mark opens a quoted cell only where one closes it again; alone it stays what it is on a schedule, an inch
mark or a ditto, and cannot swallow the rest of the file.
"""

from __future__ import annotations

import re

from counterpoise.errors import BadDocument, Problem
from counterpoise.exchange.sheet import Sheet, in_one_line, squared

_NAMES = {"\t": "tabs", ";": "semicolons", ",": "commas"}
_BREAK = re.compile(r"\r\n|\r|\n")
_NOT_TABLES = {
    "%PDF": "a PDF", "{\\rt": "a word processor's text", "<htm": "a web page", "<!do": "a web page", "<?xm": "XML",
}  # fmt: skip


def sheet_of_text(data: bytes | str, file: str) -> Sheet:
    """The one sheet of a text.

    Raises:
        BadDocument: it is no table in text: a PDF, a web page, or bytes of another kind.
    """
    text, told = (data.removeprefix("\ufeff"), "") if isinstance(data, str) else _decoded(data, file)
    kind = next((what for mark, what in _NOT_TABLES.items() if text.lstrip()[:4].lower() == mark.lower()), None)
    if kind is not None:
        raise refused(file, f"this is {kind}, not a table.", "Select the table there, copy it and paste the cells.")
    separator = _separator(text)
    how = f"cells are parted by {_NAMES[separator]}" if separator != "\t" else ""
    rows = [[in_one_line(cell) for cell in row] for row in _rows(text, separator)]
    return Sheet(file=file, name="", rows=squared(rows), told=tuple(filter(None, (told, how))))


def refused(file: str, says: str, mend: str) -> BadDocument:
    """The error for a file that holds no cells."""
    return BadDocument((Problem(file=file, line=0, column=0, path="", value=None, says=says, mend=mend),))


def _decoded(data: bytes, file: str) -> tuple[str, str]:
    """The text, and which encoding was taken where that is not certain."""
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return _strictly(data, "utf-16", file), ""
    if b"\0" in data[:200]:  # UTF-16 without its mark: every other byte of plain letters is nothing
        encoding = "utf-16-le" if data[1:2] == b"\0" else "utf-16-be"
        return _strictly(data, encoding, file), ""
    try:
        return data.decode("utf-8-sig"), ""
    except UnicodeDecodeError:
        return _strictly(data, "cp1252", file), "the text is not UTF-8 and was read as Windows-1252"


def _strictly(data: bytes, encoding: str, file: str) -> str:
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError:
        raise refused(
            file, "this is neither a spreadsheet nor text.", "Save it as xlsx, ods or CSV in UTF-8."
        ) from None
    if "\0" in text:
        raise refused(file, "this is neither a spreadsheet nor text.", "Save it as xlsx, ods or CSV in UTF-8.")
    return text


def _separator(text: str) -> str:
    """What parts the cells: a tab before a semicolon before a comma, if half of the first lines have it.

    In this order, for a file with semicolons may have decimal commas, and a pasted cell may have either.
    """
    lines = [line for line in _BREAK.split(text[:20_000]) if line.strip()][:60]
    for one in _NAMES:
        if sum(one in line for line in lines) * 2 >= max(len(lines), 1):
            return one
    return max(_NAMES, key=lambda one: sum(one in line for line in lines))


def _rows(text: str, separator: str) -> list[list[str]]:
    inside = '[^"\t]' if separator == "\t" else '[^"]'  # a tab within a pasted cell: two dittos, not one quoted cell
    quoted = re.compile(rf'"((?:{inside}|"")*)"[ ]*(?={re.escape(separator)}|\r|\n|\Z)')
    plain = re.compile(rf"[^{re.escape(separator)}\r\n]*")
    rows: list[list[str]] = [[]]
    at = 0
    while True:
        found = quoted.match(text, at) if text.startswith('"', at) else None
        if found and not (found[1] and not found[1].strip()):
            rows[-1].append(found[1].replace('""', '"'))
        else:
            found = plain.match(text, at)
            assert found is not None  # it matches nothing at all too
            rows[-1].append(found.group())
        at = found.end()
        if at >= len(text):
            return rows
        if text[at] == separator:
            at += 1
        else:
            at += 2 if text.startswith("\r\n", at) else 1
            rows.append([])
