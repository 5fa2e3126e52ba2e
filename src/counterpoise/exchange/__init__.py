"""What is read back: the line schedule that a house keeps as a spreadsheet, a CSV file or pasted cells."""

from counterpoise.exchange.asking import RIGGED
from counterpoise.exchange.cells import LARGEST, read_cells
from counterpoise.exchange.headings import FIELDS, UNITS_OF, Field
from counterpoise.exchange.said import (
    CellSaid,
    ColumnSaid,
    Lost,
    Question,
    Remark,
    ScheduledSet,
    State,
    Understood,
    Value,
)
from counterpoise.exchange.schedule import understand
from counterpoise.exchange.sheet import Odd, Sheet, column_letters, in_one_line, place

__all__ = [
    "FIELDS",
    "LARGEST",
    "RIGGED",
    "UNITS_OF",
    "CellSaid",
    "ColumnSaid",
    "Field",
    "Lost",
    "Odd",
    "Question",
    "Remark",
    "ScheduledSet",
    "Sheet",
    "State",
    "Understood",
    "Value",
    "column_letters",
    "in_one_line",
    "place",
    "read_cells",
    "understand",
]
