"""A line schedule becomes a house file that the reader of houses takes, with every value sourced; all invented."""

from __future__ import annotations

from pathlib import Path

import pytest

from counterpoise.app.line_schedule import (
    ReadSchedule,
    Told,
    house_from_schedule,
    keep_new_house,
    read_schedule,
    read_schedule_file,
)
from counterpoise.documents import How, read_house
from counterpoise.errors import Misuse, Refused
from counterpoise.exchange import read_cells, understand
from tests import invented_schedules as invented


def found(data: bytes | str, **told: dict[str, str]) -> ReadSchedule:
    return read_schedule(data, "bars.xlsx", Told(**told))  # type: ignore[arg-type]


def house_text(data: bytes | str, **told: dict[str, str]) -> str:
    return house_from_schedule(found(data, **told).understood, "Alder Yard", read_on="2026-11-25")


@pytest.mark.parametrize(
    "data",
    [invented.us_59(), invented.uk_bars(), invented.metric(), invented.two_deep(), invented.side_by_side(),
     invented.prose(), invented.mixed_units()],
    ids=["us", "uk", "metric", "two deep", "side by side", "prose", "mixed"],
)  # fmt: skip
def test_the_house_that_is_written_is_read_back_set_for_set(data: bytes | str) -> None:
    read = found(data).understood
    house = read_house(house_text(data))
    assert [one.label for one in house.sets] == [one.label for one in read.sets]
    for written, stated in zip(house.sets, read.sets, strict=True):
        distance = stated.values.get("distance")
        assert written.distance.best == (distance.si if distance else None)
        assert written.note == "; ".join(stated.notes)


def test_every_figure_names_the_schedule_as_its_source() -> None:
    house = read_house(house_text(invented.uk_bars()))
    one = house.sets[1]
    for figure in (one.distance, one.batten.length, one.posted[0].load):
        assert figure.source is not None
        assert (figure.source.how, figure.source.when) == (How.DOCUMENTED, "read 2026-11-25")
        assert figure.source.what == "line schedule bars.xlsx, sheet Flybars"


def test_a_posted_load_is_written_with_what_it_counts_and_no_more_than_its_heading_says() -> None:
    text = invented.pasted(("Line", "Dist", "Net load", "Type"), ("1", "1'", "600 lb", "SP"))
    one = read_house(house_text(text)).sets[0]
    assert (one.posted[0].counts, one.posted[0].load.text) == ("what is hung", "600 lb @schedule")
    assert read_house(house_text(invented.mixed_units())).sets[0].posted[0].counts == "unknown"


def test_hemp_dead_hung_and_twins_are_written_so() -> None:
    house = read_house(house_text(invented.uk_bars()))
    sets = {one.label: one for one in house.sets}
    assert (sets["H1"].rigged, sets["4"].rigged, sets["6"].twin_of) == ("hemp", "dead-hung", "3")
    assert house.stage.distances_from == "setting line"
    assert "Winch" in house.about


def test_what_was_told_for_every_set_is_not_passed_off_as_the_schedules_word() -> None:
    text = invented.pasted(("Line", "Dist"), ("1", "1'"))
    one = read_house(house_text(text, every={"high trim": "60 ft", "purchase": "single"})).sets[0]
    assert one.high_trim.source is not None
    assert (one.high_trim.source.how, one.purchase) == (How.ASSUMED, "single")


def test_the_parts_of_a_set_are_written_where_a_house_has_them() -> None:
    heads = ("Line", "Dist", "Pipe", "Lines at", "Arbor usable height", "Pipe weight (bricks)", "Brick", "Notes")
    row = ("1", "1'", "1-1/2 sch 40", "20' SR CL 20' SL", "8'", "12", "full", "DO NOT USE")
    house = read_house(house_text(invented.pasted(heads, row)))
    one = house.sets[0]
    assert (one.batten.pipe, [line.at for line in one.lines.at]) == ("1-1/2 in schedule 40", ["20' SR", "CL", "20' SL"])
    # NIST SP 811, B.8: a foot is 0.3048 m.
    assert one.arbor.usable_height.best == pytest.approx(8 * 0.3048)
    assert one.pipe_weight.best == 12
    assert (one.brick, house.bricks[0].brick, house.bricks[0].weight.best) == ("full", "full", None)
    assert one.out_of_service == "DO NOT USE"


@pytest.mark.parametrize(
    ("text", "what"),
    [("counterpoise: house 1\nname: x\n", "house"), ("\ufeff# by us\n\ncounterpoise: show 1\n", "show"),
     ('{"counterpoise": "hang 1"}', "hang")],
)  # fmt: skip
def test_a_document_is_not_read_as_cells(text: str, what: str) -> None:
    for data in (text, text.encode("utf-8")):
        with pytest.raises(Misuse, match=f"is a {what} already"):
            read_schedule(data, "alder.yaml", Told())


def test_what_was_not_understood_stands_beside_its_set_as_a_comment() -> None:
    text = house_text(invented.prose())
    assert "# not understood: B10 'by the wall': cannot be read as a length" in text
    assert "# not understood: A5 '5'" in text


@pytest.mark.parametrize(
    "nasty",
    ['x: y', "- {a: b}", "# no comment", "a\x07b\u2028c", "'", '"', "&x *x", "100 %", "yes", "null", "…🎭", "key: \\n",
     "@schedule", "`", "|", ">", "!!str", "trailing:", "=cmd()", "a # b"],
)  # fmt: skip
def test_no_word_of_a_cell_becomes_a_field_of_the_house(nasty: str) -> None:
    text = house_text(invented.pasted(("Line", "Dist", "Use", "Notes"), ("1", "1'", nasty, f"n {nasty}")))
    one = read_house(text).sets[0]
    clean = " ".join("".join(sign if sign.isprintable() else " " for sign in nasty).split())
    assert one.use == ("" if nasty == '"' else clean)  # a ditto with nothing above it says nothing
    assert one.note == f"n {clean}"


def test_the_sheet_with_most_sets_is_taken_hidden_ones_aside_and_the_others_are_told() -> None:
    assert found(invented.uk_bars()).understood.sheet == "Flybars"
    old = read_schedule(invented.uk_bars(), "bars.xlsx", Told(sheet="2009"))
    assert len(old.understood.sets) == 20
    assert any("hidden" in one.says for one in old.understood.remarks)
    with pytest.raises(Misuse, match=r"no sheet .* has Flybars, 2009"):
        read_schedule(invented.uk_bars(), "bars.xlsx", Told(sheet="2010"))


def test_a_house_file_that_is_there_is_never_written_over(tmp_path: Path) -> None:
    path = tmp_path / "house.yaml"
    keep_new_house(path, "one")
    with pytest.raises(Refused, match="already there"):
        keep_new_house(path, "two")
    assert path.read_text("utf-8") == "one"


def test_a_file_is_read_by_its_bytes(tmp_path: Path) -> None:
    path = tmp_path / "plot.dat"
    path.write_bytes(invented.uk_bars())
    assert len(read_schedule_file(path, Told()).understood.sets) == 6


def test_units_for_printing_are_those_of_most_lengths() -> None:
    assert read_house(house_text(invented.metric())).units == "metric"
    assert read_house(house_text(invented.us_59())).units == "us"
    (sheet,) = read_cells(invented.us_59(), "x")
    assert "units: metric" in house_from_schedule(understand(sheet), "x", units="metric")
