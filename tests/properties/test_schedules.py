"""Laws of reading a schedule: whatever its cells say, none of them is lost, and what is written is read back."""

from __future__ import annotations

from hypothesis import given, settings, strategies as st

from counterpoise.app.line_schedule import house_from_schedule
from counterpoise.documents import read_house
from counterpoise.errors import BadDocument
from counterpoise.exchange import Sheet, place, read_cells, understand
from counterpoise.exchange.sheet import in_one_line, squared

_HEADINGS = ("Line", "Dist (ft)", "Distance", "Type", "Use", "SWL (kg)", "Low trim", "High trim", "Out of service",
             "# lines", "Batten length", "Notes", "Spare", "", "Line")  # fmt: skip
_CELLS = st.one_of(
    st.sampled_from(("", "", "1", "2", "3A", "SP", "DP", "hemp", "CWT", "winch", "twin of 1", "1'-6\"", "60'",
                     '"', "2.5 m", "0,75", "1-6", "-2'", "600#", "250kg UDL", "~3 m", "1..2 m", "TBC", "-", "n/a",
                     "Total", "Bridge", "unknown", "none", "0", "1'-6\" (moved)", "5 lines", "yes")),
    st.text(max_size=12),
)  # fmt: skip


@st.composite
def sheets(draw: st.DrawFn) -> Sheet:
    width = draw(st.integers(1, 7))
    headings = [draw(st.sampled_from(_HEADINGS)) for _ in range(width)]
    rows = draw(st.lists(st.lists(_CELLS, min_size=width, max_size=width), max_size=8))
    cells = [[in_one_line(text) for text in row] for row in (headings, *rows)]
    return Sheet(file="invented", name="", rows=squared(cells))


@given(sheets())
@settings(max_examples=300, deadline=None)
def test_no_cell_is_lost_and_none_is_told_twice(sheet: Sheet) -> None:
    found = understand(sheet)
    filled = [place(row, at) for row, texts in enumerate(sheet.rows) for at, text in enumerate(texts) if text]
    headings = [at for one in found.columns for at in one.heading_at]
    assert sorted([*headings, *(one.place for one in found.cells)]) == sorted(filled)


@given(sheets())
@settings(max_examples=300, deadline=None)
def test_the_house_of_any_schedule_is_read_back_set_for_set(sheet: Sheet) -> None:
    found = understand(sheet)
    if found.sets:
        house = read_house(house_from_schedule(found, "invented"))
        assert [one.label for one in house.sets] == [one.label for one in found.sets]
        for written, stated in zip(house.sets, found.sets, strict=True):
            said = stated.values.get("distance")
            assert written.distance.best == (said.si if said else None)


@given(st.one_of(st.binary(max_size=200), st.text(max_size=200)))
@settings(max_examples=300, deadline=None)
def test_bytes_of_any_kind_are_read_or_refused_in_words(data: bytes | str) -> None:
    told = "a table"
    try:
        sheets = read_cells(data, "invented")
    except BadDocument as error:
        told = error.problems[0].mend
        sheets = ()
    assert told
    assert all(len(row) == one.width for one in sheets for row in one.rows)
