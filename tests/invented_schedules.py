"""Line schedules of houses that do not exist, each of another shape; what they state is beside them in the tests."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from typing import Any

import openpyxl  # type: ignore[import-untyped]


def new_book() -> Any:
    """An empty spreadsheet with one page."""
    return openpyxl.Workbook()


def saved(book: Any) -> bytes:
    """The bytes of its file."""
    buffer = BytesIO()
    book.save(buffer)
    return buffer.getvalue()


def pasted(*rows: Sequence[str]) -> str:
    """Rows as a spreadsheet puts them on the clipboard."""
    return "\n".join("\t".join(row) for row in rows)


def us_59() -> str:
    """An American house of 59 single-purchase sets, with a title, page headings that come again, and dittos."""
    heading = ("Line #", "Dist from PL", "Type", "Permanent use", "Low trim", "High trim", "Arbor", "Notes")
    rows: list[Sequence[str]] = [("Alder Yard: line schedule",), (), heading]
    for i in range(1, 60):
        inches = 18 + 8 * i
        use = "House curtain" if i == 1 else ('"' if i == 2 else "Electric" if i % 10 == 0 else "")
        if i == 31:
            rows += [(), heading]
        rows.append((str(i), f"{inches // 12}'-{inches % 12}\"", "SP", use, "4'-0\"", "77'-0\"", "10'",
                     "restricted depth" if i == 7 else ""))  # fmt: skip
    return pasted(*rows, ("Total", "59 sets"))


def uk_bars() -> bytes:
    """A British house: bars in feet and inches by hemp and counterweight, loads in kilograms, as a real spreadsheet."""
    book = new_book()
    page = book.active
    page.title = "Flybars"
    page["A1"] = "Birch Hall flying plot"
    page.merge_cells("A1:G1")
    page.append([])
    page.append(["Bar", "Distance from setting line (ft-in)", "CWT/Hemp", "Bar length", "SWL (kg)", "Use", "Notes"])
    page.append([1, "0-9", "CWT SP", "12 m", 250, "House tabs", None])
    page.append([2, "1-6", "CWT SP", "12 m", 250, None, "usually not used"])
    page.append([3, "2-3", "CWT DP", "12 m", "300kg UDL", None, None])
    page.append([None, None, None, None, None, None, "gap for the bridge"])
    page.append(["H1", "3-0", "Hemp", "10 m", "TBC", None, None])
    page.append([4, "3-9", "Dead hung", "12 m", 400, "LX bar", None])
    page.append([5, "4-6", "Winch", "12 m", 500, None, None])
    page.append([6, "5-3", "twin of 3", "12 m", 250, None, None])
    old = book.create_sheet("2009")
    old.sheet_state = "hidden"
    old.append(["Bar", "Distance (m)", "Type"])
    for i in range(20):
        old.append([i + 1, i / 4, "SP"])
    return saved(book)


def metric() -> str:
    """A metric house as CSV with semicolons and decimal commas; the title says the unit of the lengths."""
    return (
        "Erlenhof;;;;\nAll dimensions in metres, loads in kg;;;;\n"
        "Set;Distance;Purchase;Max load;High trim;Low trim;Lines\n"
        "1;0,45;1:1;400;18,5;1,2;5\n2;0,9;1:1;400;18,5;1,2;5\n3;1,35;2:1;300;18,5;1,2;6\n"
    )


def two_deep() -> bytes:
    """A heading two rows deep, with merged groups and a row of units; labels merged over two rows of uses."""
    book = new_book()
    page = book.active
    page.append(["Line", "Dist. from PL", "Rigging", "Trim", None, "Capacity", "Use"])
    page.append([None, "ft", None, "Low", "High", "lbs", None])
    page.merge_cells("D1:E1")
    page.append([1, 1.5, "SP", "4'", "60'", 1200, "Valance"])
    page.append([2, 2.25, "SP", "4'", "60'", 1200, "Legs"])
    page.append([None, None, None, None, None, None, "or border"])
    page.append([3, 3, "DP", "4'", "60'", 900, None])
    page.merge_cells("A4:A5")
    page.merge_cells("C3:C4")
    return saved(book)


def no_heading() -> str:
    """Figures and nothing that says what they are."""
    return pasted(("1", "1'-6\"", "SP", "Valance"), ("2", "2'-0\"", "SP", ""), ("3", "2'-6\"", "DP", "Legs"))


def bare_numbers() -> str:
    """Numbers whose unit nobody states."""
    return pasted(("Line", "Dist", "Type", "Load"), ("1", "1.5", "SP", "600"), ("2", "2", "SP", "600 lbs"),
                  ("3", "30\"", "SP", "500"))  # fmt: skip


def side_by_side() -> str:
    """Two halves of a house beside each other, as they are printed to fit one page."""
    heading = ("Line", "Dist", "Use")
    return pasted((*heading, "", *heading), ("1", "1'", "Valance", "", "4", "4'", "Border"),
                  ("2", "2'", "", "", "5", "5'", ""), ("3", "3'", "Legs", "", "", "", ""))  # fmt: skip


def prose() -> str:
    """Remarks between the rows, a label twice, a row with no label, several sets in a row, and bricks below."""
    return pasted(
        ("Line", "Distance", "Type", "Notes"),
        ("1", "1'-6\"", "SP", ""),
        ("Lines 2 to 4 lost to the new electric bridge, see the drawing",),
        ("5", "4'-0\"", "SP", "heavy"),
        ("5", "4'-6\"", "SP", ""),
        ("", "5'-0\"", "SP", ""),
        ("FC", "0'-6\"", "motorised", ""),
        ("Grid height", "72'", "", ""),
        ("6", "3'-0\"", "SP", ""),
        ("7", "by the wall", "spring", ""),
        ("8", "-1'-6\"", "SP", ""),
        ("9", "2' DS", "SP", ""),
        ("10-12", "", "", "lost to the bridge"),
        ("Brick", "Weight"),
        ("Full", "24 lb"),
    )


def mixed_units() -> str:
    """A column in feet with some cells in metres and millimetres, loads in pounds and kilograms."""
    return pasted(
        ("L/S", "US of PL (ft)", "SP/DP", "Max load (lbs)"),
        ("1", "1.5", "SP", "1,200"),
        ("2", "0.75 m", "SP", "500 kg"),
        ("3", "1050mm", "DP", "2.2 kN"),
        ("4", "4' 6\"", "SP", "600#"),
    )
