"""Invented line schedules of many shapes, and what each states; a value nobody states is never read."""

from __future__ import annotations

import time
from datetime import date

import pytest

from counterpoise.errors import Misuse
from counterpoise.exchange import ScheduledSet, State, Understood, place, read_cells, understand
from tests import invented_schedules as invented


def read(data: bytes | str, **told: dict[str, str]) -> Understood:
    return understand(read_cells(data, "invented")[0], **told)


def words(one: ScheduledSet) -> dict[str, str]:
    return {name: value.words for name, value in one.values.items()}


def lost(one: Understood) -> dict[str, str]:
    return {each.place: each.why for each in one.of(State.NOT_UNDERSTOOD)}


def by_label(one: Understood) -> dict[str, dict[str, str]]:
    return {each.label: words(each) for each in one.sets}


def test_an_american_schedule_of_59_sets_is_understood_to_the_last_cell() -> None:
    found = read(invented.us_59())
    assert [one.label for one in found.sets] == [str(i) for i in range(1, 60)]
    assert lost(found) == {}
    assert found.questions == ()
    assert words(found.sets[0]) == {"distance": "2'-2\"", "purchase": "single", "use": "House curtain",
                                    "low trim": "4'-0\"", "high trim": "77'-0\""}  # fmt: skip
    assert found.sets[1].values["use"].words == "House curtain"  # the ditto
    assert found.sets[6].notes == ("Arbor: 10'", "restricted depth")
    # 18 in + 59 x 8 in = 490 in; 0.0254 m to the inch exactly (international yard and pound agreement, 1959).
    assert found.sets[58].values["distance"].si == pytest.approx(490 * 0.0254)


def test_a_british_plot_of_hemp_and_counterweight_bars_is_understood() -> None:
    found = read(invented.uk_bars())
    bars = by_label(found)
    assert list(bars) == ["1", "2", "3", "H1", "4", "6"]
    assert bars["2"] == {"distance": "1 ft 6 in", "purchase": "single", "batten length": "12 m", "posted": "250 kg"}
    assert bars["3"]["posted"] == "300kg"
    assert found.sets[2].notes == ("posted as 300kg UDL",)
    assert (bars["H1"]["rigged"], bars["H1"]["posted"]) == ("hemp", "unknown")
    assert bars["4"]["rigged"] == "dead-hung"
    assert bars["6"]["twin of"] == "3"
    assert found.datum == "setting line"
    assert lost(found) == {}


def test_a_bar_on_a_winch_is_kept_as_a_note_and_is_no_set() -> None:
    found = read(invented.uk_bars())
    assert "5" not in by_label(found)
    assert {one.place for one in found.prose if "not a manual set" in one.why} == {"A10", "B10", "C10", "D10", "E10"}


def test_a_metric_schedule_takes_its_unit_from_its_title_and_reads_decimal_commas() -> None:
    found = read(invented.metric())
    assert by_label(found)["1"] == {"distance": "0.45 m", "purchase": "single", "posted": "400 kg", "line count": "5",
                                    "high trim": "18.5 m", "low trim": "1.2 m"}  # fmt: skip
    assert by_label(found)["3"]["purchase"] == "double"
    assert 'row 2 says "All dimensions in metres' in next(one.why for one in found.columns if one.field == "distance")


def test_a_heading_two_rows_deep_with_merged_groups_and_units_is_one_heading() -> None:
    found = read(invented.two_deep())
    assert [(one.field, one.unit) for one in found.columns] == [
        ("set", ""), ("distance", "ft"), ("purchase", ""), ("low trim", ""), ("high trim", ""), ("posted", "lb"),
        ("use", "")]  # fmt: skip
    assert by_label(found)["2"] == {"distance": "2.25 ft", "purchase": "single", "low trim": "4'", "high trim": "60'",
                                    "posted": "1200 lb", "use": "Legs"}  # fmt: skip
    assert found.sets[1].notes == ("Use: or border",)


def test_without_a_heading_nothing_is_read_and_it_is_asked_what_the_columns_are() -> None:
    found = read(invented.no_heading())
    assert found.sets == ()
    assert [one.about for one in found.questions] == ["columns"]
    assert [one.first for one in found.columns][1] == ("1'-6\"", "2'-0\"", "2'-6\"")
    assert all(one.state is State.NOT_UNDERSTOOD for one in found.cells)


def test_columns_without_a_heading_are_read_as_the_user_names_them() -> None:
    found = read(invented.no_heading(), columns={"A": "set", "B": "distance", "c": "purchase", "D": "use"})
    assert by_label(found)["3"] == {"distance": "2'-6\"", "purchase": "double", "use": "Legs"}
    assert found.questions == ()


def test_headings_of_another_tongue_are_known_once_the_user_names_them() -> None:
    text = invented.pasted(("Zugliste",), ("Zug", "Abstand (m)", "Bemerkung"), ("1", "0.45", "frei"))
    assert [one.about for one in read(text).questions] == ["columns"]
    found = read(text, columns={"Zug": "set", "Abstand (m)": "distance"})
    assert by_label(found) == {"1": {"distance": "0.45 m"}}
    assert found.sets[0].notes == ("Bemerkung: frei",)


def test_a_number_without_a_unit_is_asked_about_and_never_read() -> None:
    found = read(invented.bare_numbers())
    assert [(one.about, one.cells) for one in found.questions] == [("distance", 2), ("posted", 2)]
    assert lost(found) == dict.fromkeys(("B2", "B3", "D2", "D4"), "is a number without a unit")
    assert by_label(found)["3"] == {"distance": '30"', "purchase": "single"}


def test_the_answer_to_a_question_is_taken() -> None:
    found = read(invented.bare_numbers(), units={"distance": "ft", "posted": "kg"})
    assert found.questions == ()
    assert by_label(found)["1"] == {"distance": "1.5 ft", "purchase": "single", "posted": "600 kg"}
    assert by_label(found)["2"]["posted"] == "600 lbs"  # a cell that says its own unit keeps it


def test_two_halves_beside_each_other_are_two_tables() -> None:
    found = read(invented.side_by_side())
    assert [(one.label, one.values["distance"].words) for one in found.sets] == [
        ("1", "1'"), ("2", "2'"), ("3", "3'"), ("4", "4'"), ("5", "5'")]  # fmt: skip
    assert found.sets[3].values["use"].words == "Border"


def test_rows_between_the_sets_are_told_and_a_slip_is_not_understood() -> None:
    found = read(invented.prose())
    assert list(by_label(found)) == ["1", "5", "6", "7", "8", "9"]
    assert [one.text for one in found.prose] == [
        "Lines 2 to 4 lost to the new electric bridge, see the drawing", "FC", "0'-6\"", "motorised"]  # fmt: skip
    why = lost(found)
    assert "stands already in A4" in why["A5"]
    assert why["B6"] == "its row has no label"
    assert "label of a set" in why["A8"]
    assert "single, double, hemp" in why["C10"]
    assert set(why) == {"A5", "B5", "C5", "B6", "C6", "A8", "B8", "B10", "C10",
                        "A13", "D13", "A14", "B14", "A15", "B15"}  # fmt: skip
    assert why["A13"] == "may be several sets"
    assert any("Set 6 at 3'-0\" comes after set 5 at 4'-0\"" in one.says for one in found.remarks)


def test_a_set_downstage_of_the_plaster_line_has_a_distance_below_zero() -> None:
    found = by_label(read(invented.prose()))
    assert (found["8"]["distance"], found["9"]["distance"]) == ("-1'-6\"", "-2'")


def test_units_may_differ_from_cell_to_cell() -> None:
    found = by_label(read(invented.mixed_units()))
    assert [one["distance"] for one in found.values()] == ["1.5 ft", "0.75 m", "1050mm", "4' 6\""]
    assert [one["posted"] for one in found.values()] == ["1,200 lb", "500 kg", "2.2 kN", "600 lb"]


def test_a_date_where_feet_and_inches_were_typed_is_not_understood() -> None:
    book = invented.new_book()
    book.active.append(["Line", "Distance (ft-in)", "Type"])
    book.active.append([1, date(2026, 1, 6), "SP"])
    found = read(invented.saved(book))
    assert lost(found) == {"B2": "a date stands here; was 1'-6\" or 6'-1\" meant?"}


@pytest.mark.parametrize(
    ("cell", "purchase"),
    [("SP", "single"), ("S/P", "single"), ("single", "single"), ("1:1", "single"), ("DP", "double"), ("2:1", "double"),
     ("Double purchase", "double"), ("CWT SP", "single"), ("hemp", None), ("CWT", None), ("DH", None)],
)  # fmt: skip
def test_purchase_is_read_in_any_of_its_words(cell: str, purchase: str | None) -> None:
    one = read(invented.pasted(("Line", "Dist", "Purchase"), ("1", "1'", cell))).sets[0]
    assert words(one).get("purchase") == purchase
    assert purchase or words(one)["rigged"] in ("hemp", "counterweight", "dead-hung")


def test_a_counterweight_set_that_says_no_purchase_is_asked_about_and_takes_the_answer() -> None:
    text = invented.pasted(("Line", "Dist", "Type"), ("1", "1'", "CWT"), ("2", "2'", "hemp"), ("3", "3'", "DP"))
    asked = read(text).questions
    assert [(one.about, one.must, one.cells) for one in asked] == [("purchase", False, 1)]
    told = by_label(read(text, every={"purchase": "single"}))
    assert (told["1"]["purchase"], told["3"]["purchase"]) == ("single", "double")
    assert "purchase" not in told["2"]


def test_a_column_called_type_that_holds_something_else_is_a_note() -> None:
    found = read(invented.pasted(("Line", "Dist", "Type"), ("1", "1'", "Border"), ("2", "2'", "Legs")))
    assert found.columns[2].field == "note"
    assert "do not say how a set is rigged" in found.columns[2].why


def test_a_second_column_of_the_same_field_is_kept_and_told() -> None:
    found = read(invented.pasted(("Line", "Dist (ft)", "Dist (m)"), ("1", "10", "3.05")))
    assert found.columns[2].field == "note"
    assert "column B holds that already" in found.columns[2].why
    assert read(invented.pasted(("Line", "Dist (ft)", "Dist (m)"), ("1", "10", "3.05")),
                columns={"Dist (m)": "distance"}).sets[0].values["distance"].words == "3.05 m"  # fmt: skip


def test_trims_the_wrong_way_round_are_not_understood() -> None:
    found = read(invented.pasted(("Line", "Dist", "Low trim", "High trim"), ("1", "1'", "60'", "4'")))
    assert "is not below high trim" in lost(found)["C2"]
    assert words(found.sets[0]) == {"distance": "1'"}


def test_a_column_can_be_left_out_or_kept_as_a_note() -> None:
    text = invented.pasted(("Line", "Dist", "Load", "Spare"), ("1", "1'", "600", "x"))
    found = read(text, columns={"Load": "note", "D": "ignore"})
    assert found.sets[0].notes == ("Load: 600",)
    assert found.questions[0].about == "purchase"
    assert "D2" not in {one.place for one in found.cells}


@pytest.mark.parametrize(
    ("told", "says"),
    [({"columns": {"Dits": "distance"}}, 'no column "Dits".*Did you mean Dist'),
     ({"columns": {"Dist": "distanse"}}, 'cannot hold "distanse".*Did you mean distance'),
     ({"units": {"distance": "kg"}}, "cannot be"), ({"units": {"purchase": "ft"}}, "no unit"),
     ({"every": {"purchase": "spring"}}, "hemp"), ({"every": {"distance": "1 ft"}}, "every set")],
)  # fmt: skip
def test_words_of_the_user_that_fit_nothing_are_refused_with_the_near_name(
    told: dict[str, dict[str, str]], says: str
) -> None:
    with pytest.raises(Misuse, match=says):
        read(invented.bare_numbers(), **told)


@pytest.mark.parametrize(
    "data",
    [invented.us_59(), invented.uk_bars(), invented.metric(), invented.two_deep(), invented.no_heading(),
     invented.bare_numbers(), invented.side_by_side(), invented.prose(), invented.mixed_units()],
    ids=["us", "uk", "metric", "two deep", "no heading", "bare", "side by side", "prose", "mixed"],
)  # fmt: skip
def test_every_cell_goes_to_exactly_one_place(data: bytes | str) -> None:
    sheet = read_cells(data, "invented")[0]
    found = understand(sheet)
    filled = [place(row, column) for row, texts in enumerate(sheet.rows) for column, text in enumerate(texts) if text]
    headings = [at for one in found.columns for at in one.heading_at]
    assert sorted([*headings, *(one.place for one in found.cells)]) == sorted(filled)
    assert all(one.why and one.mend for one in found.of(State.NOT_UNDERSTOOD))


def test_five_thousand_sets_are_read_in_about_a_second() -> None:
    rows = [(str(i), f"{i / 8} ft", "SP", f"{200 + i} kg") for i in range(1, 5001)]
    text = invented.pasted(("Line", "Dist", "Type", "SWL"), *rows)
    begun = time.process_time()
    assert len(read(text).sets) == 5000
    assert time.process_time() - begun < 3.0  # 0.6 s on two slow cores; the rest is for a busy machine
