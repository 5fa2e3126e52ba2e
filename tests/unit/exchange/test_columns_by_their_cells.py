"""What a column may hold by its cells is asked and never taken; ditto marks, rows left out, and the one line of a row.

The words are common practice, no source. All schedules are invented.
"""

from __future__ import annotations

import pytest

from counterpoise.exchange import Question, State, Understood, read_cells, understand
from tests import invented_schedules as invented


def read(data: bytes | str, **told: dict[str, str]) -> Understood:
    return understand(read_cells(data, "invented")[0], **told)


def columns(found: Understood) -> dict[str, str]:
    return {one.heading: one.field for one in found.columns}


def sheet_of(*rows: tuple[str, ...]) -> str:
    return invented.pasted(*rows)


HEADS = ("Line #", "Mode", "Where", "Rigger's", "Stuff")
ROWS = (
    ("1", "S", "1'-6\"", "20'SR CL 20'SL", "750#"),
    ("2", "S", "2'-2\"", '"', "750#"),
    ("3", "D/P", "3'", '"', "1000 lb"),
    ("4", "S", "3'-8\"", "", "?"),
)


def guessed(found: Understood) -> dict[str, Question]:
    return {one.about: one for one in found.questions if one.column}


# --- headings -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("heading", "field"),
    [
        ("Dist. fm PL", "distance"),
        ("Dist fr PL", "distance"),
        ("S/D purch", "purchase"),
        ("SP/DP Purchase", "purchase"),
        ("Purch.", "purchase"),
        ("Capy", "posted"),
        ("Max. capy", "posted"),
        ("Permanent hang", "use"),
        ("Perm. hang", "use"),
        ("Pipe # lines", "line count"),  # `Pipe` merged over `len.`, `type` and `# lines`
    ],
)
def test_short_words_of_headings_are_known(heading: str, field: str) -> None:
    text = sheet_of(("Line #", "Length of pipe", heading), ("1", "42'", "x"), ("2", "42'", "x"))
    assert columns(read(text))[heading] == field


def test_pickups_are_places_where_the_cells_say_places_and_a_count_where_they_say_counts() -> None:
    for cells, field in (
        (("18'SR CL 18'SL", '"', "9'SR 9'SL"), "lines at"),
        (("5", "5", "6"), "line count"),
    ):
        rows = ((str(i), f"{i}'", cell) for i, cell in enumerate(cells, 1))
        assert columns(read(sheet_of(("Line", "Dist", "Pickups"), *rows)))["Pickups"] == field


# --- columns whose heading says nothing ---------------------------------------------------------------------------


def test_columns_are_asked_about_by_their_cells_and_nothing_is_taken() -> None:
    text = sheet_of(("Line #", "Length of pipe", *HEADS[1:]), *((one[0], "42'", *one[1:]) for one in ROWS))
    found = read(text)
    assert {name: one.column for name, one in guessed(found).items()} == {
        "purchase": "C", "distance": "D", "lines at": "E", "posted": "F",
    }  # fmt: skip
    assert all(set(one.values) <= {"set", "batten length"} for one in found.sets)
    assert guessed(found)["purchase"].says == 'is column C ("Mode") the purchase? 4 cells say S, D/P.'
    assert found.questions[0].column
    assert not any(one.must for one in guessed(found).values())


def test_who_asks_about_a_column_does_not_ask_about_its_empty_cells_too() -> None:
    text = sheet_of(("Line", "Dist", "Mode"), ("1", "1'", "S"), ("2", "2'", "D"), ("3", "3'", "S"))
    assert [(one.about, one.column) for one in read(text).questions] == [("purchase", "C")]
    yes = read(text, columns={"C": "purchase"})
    assert [one.values["purchase"].words for one in yes.sets] == ["single", "double", "single"]
    assert yes.questions == ()
    no = read(text, columns={"C": "note"})
    assert [(one.about, one.column) for one in no.questions] == [("purchase", "")]


@pytest.mark.parametrize(
    "cells",
    [
        ("5'", "3'", "9'", "2'", "7'"),  # lengths that do not rise from row to row: no distances
        ("legs", "S", "border", "cyc", "D"),  # words, and two letters among them
        ("SP", "", "", "", ""),  # one cell speaks for no column
    ],
)
def test_a_column_that_does_not_speak_for_itself_is_not_asked_about(cells: tuple[str, ...]) -> None:
    rows = ((str(i), "42'", cell) for i, cell in enumerate(cells, 1))
    found = read(sheet_of(("Line", "Length of pipe", "Mode"), *rows))
    assert guessed(found) == {}


# --- ditto marks --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("mark", ['"', "do", "Ditto", "do.", '-"-', "\u3003", "same"])
def test_a_ditto_stands_for_the_cell_above_that_says_something_and_names_it(mark: str) -> None:
    text = sheet_of(("Line", "Dist", "Pipe", "Notes"), ("1", "1'", "2 in sch 40", "see log"), ("2", "2'", "", ""),
                    ("3", "3'", mark, mark))  # fmt: skip
    found = read(text)
    assert found.sets[2].values["batten pipe"].words == "2 in schedule 40"
    assert found.sets[2].notes == ("see log",)
    assert {one.place: one.why for one in found.cells if one.row == 4}["C4"] == "as above: 2 in sch 40 in C2"


def test_a_ditto_of_what_is_not_understood_says_which_cell_it_stands_for() -> None:
    text = sheet_of(("Line", "Dist", "Batten pipe"), ("1", "1'", "1 1/2 S40"), ("2", "2'", '"'))
    found = read(text)
    assert {one.place: one.why for one in found.of(State.NOT_UNDERSTOOD)} == {
        "C2": "is no pipe of the catalogue",
        "C3": 'stands for "1 1/2 S40" in C2, which is no pipe of the catalogue',
    }
    assert [(one.word, one.cells) for one in found.questions if one.about == "batten pipe"] == [("1 1/2 S40", 2)]


def test_no_two_sets_stand_at_one_distance_by_a_ditto() -> None:
    found = read(sheet_of(("Line", "Dist", "Type"), ("1", "1'", "SP"), ("2", '"', "SP")))
    assert [one.why for one in found.of(State.NOT_UNDERSTOOD)] == [
        "stands for 1' in B2, and no two sets are at one distance"
    ]


# --- rows of which no set was made --------------------------------------------------------------------------------

BAD = sheet_of(
    ("Line", "Dist", "Type", "Notes"),
    ("1", "1'", "SP", "2 sets tied, see 2"),
    ("2", "2'", "SP", "married to 1"),
    ("2", "3'", "SP", "no. on the wall"),
    ("20-21", "4'", "SP", ""),
)


def test_a_row_that_is_no_set_is_told_in_one_line_and_left_out_by_name() -> None:
    found = read(BAD)
    assert [one.where for one in found.lost] == ["row 4, A4 to D4", "row 5, A5 to C5"]
    assert [one.row for one in found.left_out] == [4, 5]
    said = [one.says for one in found.remarks]
    assert "Row 4 is left out of the house: 2 in A4 stands twice." in said
    assert "Row 5 is left out of the house: 20-21 in A5 may be several sets." in said


def test_notes_of_sets_that_are_tied_are_to_be_looked_at() -> None:
    said = [one.says for one in read(BAD).remarks]
    assert 'D2 beside set 1 says "2 sets tied, see 2", and no set is read as a twin by it.' in said
    assert 'D3 beside set 2 says "married to 1", and no set is read as a twin by it.' in said


def test_more_than_11_inches_are_asked_back_and_not_told_to_be_written() -> None:
    found = read(sheet_of(("Line", "Dist", "Type"), ("1", "15'-14\"", "SP"), ("2", "2'-2", "SP")))
    first, second = (one.mend for one in found.of(State.NOT_UNDERSTOOD))
    assert first == "Did you mean 16 ft 2 in?"  # 14 in is 1 ft 2 in
    assert "2'-2\"" in second
