"""Cells that leave a doubt: not understood and told, never made sure of on the way.

Schedules as people keep them: common practice, no source.
"""

from __future__ import annotations

from io import BytesIO

import openpyxl  # type: ignore[import-untyped]
import pytest

from counterpoise.exchange import CellSaid, State, Understood, read_cells, understand


def read(*rows: str, between: str = ";") -> Understood:
    return understand(read_cells("\n".join(rows).replace(";", between), "lines.csv")[0])


def values(found: Understood, name: str) -> list[str]:
    return [one.values[name].words if name in one.values else "" for one in found.sets]


def lost(found: Understood) -> dict[str, CellSaid]:
    return {one.place: one for one in found.of(State.NOT_UNDERSTOOD)}


# Service


@pytest.mark.parametrize("word", ["no", "N", "No.", "0", "-", "false", "in service", "OK"])
def test_a_plain_no_under_out_of_service_leaves_the_set_in_service(word: str) -> None:
    found = read("Set;Dist;Out of service", f"1;1 ft;{word}")
    assert values(found, "out of service") == [""]
    assert not lost(found)


@pytest.mark.parametrize("word", ["No (repaired)", "no, back since May", "repaired", "not any more", "yes?", "no?"])
def test_more_than_a_plain_no_is_not_understood(word: str) -> None:
    found = read("Set;Dist;Out of service", f"1;1 ft;{word}")
    assert values(found, "out of service") == [""]
    assert "does not say plainly" in lost(found)["C2"].why


@pytest.mark.parametrize(("word", "why"), [("y", "the line schedule says so"), ("rope worn", "rope worn"),
                                           ("not in use", "not in use")])  # fmt: skip
def test_what_says_so_takes_the_set_out_of_service(word: str, why: str) -> None:
    assert values(read("Set;Dist;Out of service", f"1;1 ft;{word}"), "out of service") == [why]


# Points and commas


def test_a_sheet_with_decimal_commas_sets_off_thousands_with_points() -> None:
    found = read("Set;Dist (m);SWL (kg)", "1;1,5;1.000", "2;2,5;250,5", "3;3,5;1.200 kg", "4;4,125;1.000,5")
    assert values(found, "posted") == ["1,000 kg", "250.5 kg", "1,200 kg", "1,000.5 kg"]
    assert values(found, "distance") == ["1.5 m", "2.5 m", "3.5 m", "4.125 m"]


def test_a_sheet_with_decimal_points_sets_off_thousands_with_commas() -> None:
    found = read("Set;Dist (ft);SWL (lb)", "1;1.5;1,000", "2;2.125;1,250 lb")
    assert values(found, "posted") == ["1,000 lb", "1,250 lb"]
    assert values(found, "distance") == ["1.5 ft", "2.125 ft"]


@pytest.mark.parametrize(
    "rows", [("1;1.2;1.000", "2;2,5;1,000"), ("1;1.250;1.000",), ("1;1.5;1.000",), ("1;1,5;1,000",)]
)
def test_what_may_be_a_thousand_or_one_is_never_one_kilogram(rows: tuple[str, ...]) -> None:
    """Where the sheet says both or nothing, or what would be a thousandth of a kilogram."""
    found = read("Set;Dist (m);SWL (kg)", *rows)
    assert set(values(found, "posted")) == {""}
    cell = lost(found)["C2"]
    assert (cell.why, cell.mend) == ("may be a thousand or a decimal", "Write 1000 kg or 1 kg.")


def test_metres_to_the_millimetre_are_read_where_no_cell_says_what_the_point_is() -> None:
    """A thousand metres upstage is no stage."""
    assert values(read("Set;Dist (m);SWL", "1;1.250;300 kg", "2;2.500 m;"), "distance") == ["1.250 m", "2.500 m"]


def test_a_number_of_a_spreadsheet_is_no_matter_of_points_and_commas() -> None:
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    for row in (["Set", "Dist (m)", "SWL (kg)"], [1, 1.125, 250.5], [2, "2,5", 1200], [3, "3,75", "1.200"]):
        sheet.append(row)
    data = BytesIO()
    book.save(data)
    found = understand(read_cells(data.getvalue(), "lines.xlsx")[0])
    assert values(found, "distance") == ["1.125 m", "2.5 m", "3.75 m"]
    assert values(found, "posted") == ["250.5 kg", "1200 kg", "1,200 kg"]


# Marks of doubt


@pytest.mark.parametrize("word", ["SP?", "SP*", "hemp?", "? SP", "DP†", "twin of 2?"])
def test_a_mark_of_doubt_behind_a_purchase_is_not_read_away_but_asked_about(word: str) -> None:
    found = read("Set;Dist;Purch", f"1;1 ft;{word}", "2;2 ft;DP")
    assert not {"purchase", "rigged", "twin of"} & set(found.sets[0].values)
    assert "C2" in lost(found)
    assert word in [one.word for one in found.questions]


@pytest.mark.parametrize(
    ("cell", "why"),
    [("250 kg @ centre", "words behind an @"), ("300 kg @mid", "words behind an @"), ("250/300 kg", "two figures"),
     ("300 kg (point load)", "at a point"), ("300 kg (per line)", "at a point or of a part"),
     ("300 kg (?)", "in doubt"), ("300 kg (est)", "in doubt"), ("300 kg (TBC)", "in doubt")],
)  # fmt: skip
def test_a_load_at_a_point_and_a_load_in_doubt_are_not_that_of_the_set(cell: str, why: str) -> None:
    found = read("Set;Dist;SWL", f"1;1 ft;{cell}", "2;2 ft;300 kg (UDL)", "3;3 ft;500 kg UDL")
    assert values(found, "posted") == ["", "300 kg", "500 kg"]
    assert why in lost(found)["C2"].why


# Labels


@pytest.mark.parametrize("label", ["?", "-", "n/a", "TBD", "Spare", "*13 = out", "14*", "12?", "X = spare"])
def test_what_is_no_label_makes_no_set_and_its_row_is_told(label: str) -> None:
    found = read("Set;Dist;Purch", "1;1 ft;SP", f"{label};2 ft;SP")
    assert [one.label for one in found.sets] == ["1"]
    assert any("Row 3 is left out" in one.says for one in found.remarks)


@pytest.mark.parametrize("label", ["12", "12A", "H3", "FC", "FOH 1", "1.5", "A"])
def test_what_looks_like_a_label_makes_a_set(label: str) -> None:
    assert [one.label for one in read("Set;Dist;Purch", f"{label};2 ft;SP", "99;3 ft;SP").sets] == [label, "99"]


@pytest.mark.parametrize(("cell", "words"), [("5'-2", "5 ft 2 in"), ("2'4", "2 ft 4 in"), ("2' 4", "2 ft 4 in")])
def test_inches_without_their_mark_are_read_in_a_column_of_feet_and_inches(cell: str, words: str) -> None:
    assert values(read("Set;Dist (ft-in);Purch", f"1;{cell};SP"), "distance") == [words]
    assert values(read("Set;Dist (ft-in);Purch", "1;2'.4;SP"), "distance") == [""]


def test_places_of_lines_with_words_behind_an_at_sign_are_not_read_without_them() -> None:
    found = read("Set;Dist;Lines at", "1;1 ft;20' SR, CL, 20' SL @ 5 ft", "2;2 ft;20' SR, CL, 20' SL")
    assert values(found, "lines at") == ["", "20' SR, CL, 20' SL"]
    assert "words behind an @" in lost(found)["C2"].why
