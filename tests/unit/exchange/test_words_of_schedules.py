"""Words that people write in schedules: rigging, answers about them, parts of a set, and what notes say of service.

The words are common practice, no source. All schedules are invented.
"""

from __future__ import annotations

import pytest

from counterpoise.errors import Misuse
from counterpoise.exchange import State, Understood, read_cells, understand
from counterpoise.exchange.service import says_out_of_service
from tests import invented_schedules as invented


def read(data: bytes | str, **told: dict[str, str]) -> Understood:
    return understand(read_cells(data, "invented")[0], **told)


def of(found: Understood, name: str) -> list[str]:
    """What each set says of a field, "" where nothing."""
    return [one.values[name].words if name in one.values else "" for one in found.sets]


def column(heading: str, *cells: str) -> str:
    rows = [(str(i), f"{i}'", cell) for i, cell in enumerate(cells, 1)]
    return invented.pasted(("Line", "Dist", heading), *rows)


# --- rigging ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("cell", ["Sgl", "sgl.", "S/P", "S.P.", "1-1", "Single pur.", "SGL PURCH"])
def test_single_purchase_is_read_in_short_words_too(cell: str) -> None:
    assert of(read(column("Purchase", cell)), "purchase") == ["single"]


@pytest.mark.parametrize("cell", ["Dbl", "dbl.", "D.P.", "D/P", "2-1", "double pur.", "twice", "Dbl Purch", "cwt dbl"])
def test_double_purchase_is_read_in_short_words_too(cell: str) -> None:
    assert of(read(column("Purchase", cell)), "purchase") == ["double"]


SAID = column("Purchase", "SP", "2P", "2P", "", "-", "spring", "CWT", "?")


def test_an_answer_for_all_sets_goes_to_empty_cells_alone() -> None:
    told = of(read(SAID, every={"purchase": "single"}), "purchase")
    assert told == ["single", "", "", "single", "single", "", "single", "unknown"]


def test_an_answer_for_all_sets_leaves_a_figure_that_is_not_understood() -> None:
    found = read(column("Batten length", "42'", "long", ""), every={"batten length": "40 ft"})
    assert of(found, "batten length") == ["42'", "", "40 ft"]


def test_the_question_about_all_says_how_many_are_empty_and_how_many_say_something_else() -> None:
    about_all = next(one for one in read(SAID).questions if not one.word)
    assert about_all.cells == 3
    assert about_all.says == (
        "3 of 8 sets do not say single or double purchase: 2 are empty, 1 says CWT. What are they? "
        "Asked by themselves: 4 that say what is not understood."
    )


def test_each_word_that_is_not_understood_is_asked_about_once_with_its_choices() -> None:
    asked = [one for one in read(SAID).questions if one.word]
    assert [(one.word, one.cells) for one in asked] == [("2P", 2), ("spring", 1), ("?", 1)]
    assert asked[0].says == '2 cells say "2P" under purchase (sets 2, 3): what is it?'
    assert asked[0].options == ("single", "double", "hemp", "dead-hung", "note")
    assert not any(one.must for one in asked)


def test_the_answer_about_a_word_goes_to_every_cell_that_says_it() -> None:
    told = {"purchase: 2p": "double", "purchase: spring": "note", "purchase: ?": "hemp"}
    found = read(SAID, words=told)
    assert of(found, "purchase") == ["single", "double", "double", "", "", "", "", ""]
    assert found.sets[5].notes == ("Purchase: spring",)
    assert of(found, "rigged")[7] == "hemp"
    assert found.of(State.NOT_UNDERSTOOD) == ()
    assert [one.word for one in found.questions] == [""]


@pytest.mark.parametrize(
    ("told", "says"), [({"2P": "double"}, "field and a word"), ({"purchase: 2P": "thrice"}, "neither single, double")]
)
def test_an_answer_about_a_word_that_says_nothing_is_refused(told: dict[str, str], says: str) -> None:
    with pytest.raises(Misuse, match=says):
        read(SAID, words=told)


# --- headings that stand on each other ----------------------------------------------------------------------------


def stacked(*, down: bool, title: bool = True) -> bytes:
    """Eleven columns with `Trim` over `Low` and `High`; the other headings reach down, or stand in one of the rows."""
    book = invented.new_book()
    page = book.active
    if title:
        page.append(["Alder Yard line sets"])
        page.merge_cells("A1:K1")
    first = 2 if title else 1
    names = [
        "Line",
        "Dist from PL",
        "Type",
        "Use",
        None,
        None,
        "Batten length",
        "Lift lines",
        "SWL (lb)",
        "Arbor",
        "Notes",
    ]
    page.append([*names[:4], "Trim", None, *names[6:]] if down else [*[None] * 4, "Trim", None, *[None] * 5])
    page.append([*[None] * 4, "Low", "High", *[None] * 5] if down else [*names[:4], "Low", "High", *names[6:]])
    page.merge_cells(start_row=first, end_row=first, start_column=5, end_column=6)
    for at in (1, 2, 3, 4, 7, 8, 9, 10, 11) if down else ():
        page.merge_cells(start_row=first, end_row=first + 1, start_column=at, end_column=at)
    for i in (1, 2):
        page.append([i, f"{i}'-0\"", "SP", "Border", "4'", "60'", "42'", 5, 800, "8'", "x"])
    return invented.saved(book)


@pytest.mark.parametrize("down", [True, False])
@pytest.mark.parametrize("title", [True, False])
def test_headings_that_stand_on_each_other_are_joined_and_are_one_table(*, down: bool, title: bool) -> None:
    found = read(stacked(down=down, title=title))
    assert [one.heading for one in found.columns] == [
        "Line", "Dist from PL", "Type", "Use", "Trim Low", "Trim High", "Batten length", "Lift lines", "SWL (lb)",
        "Arbor", "Notes"]  # fmt: skip
    assert of(found, "high trim") == ["60'", "60'"]
    assert not any("tables" in one.says for one in found.remarks)


def test_a_merged_title_over_the_headings_is_no_heading() -> None:
    book = invented.new_book()
    for row in (["Line sets"], ["Line", "Dist", "Type"], [1, "1'", "SP"]):
        book.active.append(row)
    book.active.merge_cells("A1:C1")
    found = read(invented.saved(book))
    assert [one.heading for one in found.columns] == ["Line", "Dist", "Type"]
    assert [one.text for one in found.prose] == ["Line sets"]


# --- parts of a set -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("heading", ["Pipe", "Pipe size", "Batten"])
@pytest.mark.parametrize("cell", ["1-1/2 sch 40", '1.5" Sch. 40', "1½ in schedule 40", "1-1/2 sch 40 black iron pipe"])
def test_the_pipe_of_the_batten_is_read_by_the_names_of_the_catalogue(heading: str, cell: str) -> None:
    assert of(read(column(heading, cell)), "batten pipe") == ["1-1/2 in schedule 40"]


def test_a_pipe_that_the_catalogue_has_not_is_asked_about_with_the_near_ones() -> None:
    found = read(column("Pipe size", "1-1/2 sch 40", "1-1/2 sch 44"))
    assert of(found, "batten pipe") == ["1-1/2 in schedule 40", ""]
    (asked,) = (one for one in found.questions if one.about == "batten pipe")
    assert asked.options[0] == "1-1/2 in schedule 40"
    told = read(column("Pipe size", "1-1/2 sch 44"), words={"batten pipe: 1-1/2 sch 44": "1-1/2 in schedule 40"})
    assert of(told, "batten pipe") == ["1-1/2 in schedule 40"]


def test_a_column_called_batten_that_names_no_pipe_is_a_note() -> None:
    found = read(column("Batten", "A", "B"))
    assert found.columns[2].field == "note"
    assert "several things" in found.columns[2].why


@pytest.mark.parametrize(
    "cell", ["20' SR, 10' SR, CL, 10' SL", "20' SR 10' SR CL 10' SL", "10′ SL; CL; 10′ SR; 20′ SR"]
)
def test_places_of_lines_are_read_from_stage_right(cell: str) -> None:
    assert of(read(column("Lines at", cell)), "lines at") == ["20' SR, 10' SR, CL, 10' SL"]


@pytest.mark.parametrize(
    ("cell", "says"),
    [("10', 20'", "not a distance from the centre"), ("CL", "one place"), ("CL, CL, 5' SL", "twice"),
     ("20 SR, CL", "20 SR")],
)  # fmt: skip
def test_places_that_say_no_side_or_no_unit_are_not_understood(cell: str, says: str) -> None:
    (lost,) = read(column("Lines at", cell)).of(State.NOT_UNDERSTOOD)
    assert says in lost.why


def test_places_that_are_not_as_many_as_the_lines_or_lie_beside_the_batten_are_not_understood() -> None:
    heads = ("Line", "Dist", "Lines at", "Lift lines", "Batten length")
    rows = (("1", "1'", "20' SR, 20' SL", "3", "42'"), ("2", "2'", "22' SR, CL", "2", "42'"),
            ("3", "3'", "21' SR, CL", "2", "42'"))  # fmt: skip
    found = read(invented.pasted(heads, *rows))
    assert of(found, "lines at") == ["", "", "21' SR, CL"]
    assert [one.why for one in found.of(State.NOT_UNDERSTOOD)] == [
        "lists 2 lines, and the number of lines is 3", "reaches past the end of a batten of 42'"]  # fmt: skip


def test_arbor_height_pipe_weight_and_brick_are_read() -> None:
    heads = ("Line", "Dist", "Arbor usable height", "Pipe weight (bricks)", "Brick")
    one = read(invented.pasted(heads, ("1", "1'", "8'-6\"", "12 bricks", "full"))).sets[0]
    assert {name: value.words for name, value in one.values.items() if name != "distance"} == {
        "arbor usable height": "8'-6\"", "pipe weight": "12", "brick": "full"}  # fmt: skip


def test_a_pipe_weight_in_pounds_is_no_number_of_bricks() -> None:
    assert len(read(column("Pipe weight (bricks)", "350 lb")).of(State.NOT_UNDERSTOOD)) == 1
    assert read(column("Pipe weight", "350 lb")).sets[0].notes == ("Pipe weight: 350 lb",)


def test_a_field_that_is_not_there_is_refused_with_all_that_are() -> None:
    with pytest.raises(Misuse, match="batten pipe, lines at, arbor usable height, pipe weight, brick, note, ignore"):
        read(column("Pipe", "x"), columns={"Pipe": "tube of the bar"})


# --- out of service, and hung otherwise ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    "words",
    ["DO NOT USE", "Do not use!", "OUT OF SERVICE", "out of service since May 2024", "OOS", "O.O.S.",
     "set is out of order", "restricted depth; DO NOT USE", "** DO NOT USE **", "Tagged out"],
)  # fmt: skip
def test_plain_words_in_a_note_put_a_set_out_of_service(words: str) -> None:
    found = read(column("Notes", words))
    assert of(found, "out of service") == [words]
    assert found.sets[0].notes == ()
    assert found.remarks == ()


@pytest.mark.parametrize(
    "words",
    ["line 3 out of service!", "do not use above 500 lb", "was out of service, repaired",
     "OOS until 2020, back in use now", "do not use without a second loader"],
)  # fmt: skip
def test_words_about_service_that_are_not_plain_stay_a_note_and_are_shown(words: str) -> None:
    found = read(column("Notes", words))
    assert of(found, "out of service") == [""]
    assert found.sets[0].notes == (words,)
    assert [words in one.says for one in found.remarks] == [True]


def test_words_that_only_resemble_them_say_nothing_of_service() -> None:
    assert not any(map(says_out_of_service, ("moose", "use with care", "service bay", "not in use by the school band")))


def test_its_own_column_has_the_word_on_why_a_set_is_out_of_service() -> None:
    found = read(invented.pasted(("Line", "Dist", "Notes", "Out of service"), ("1", "1'", "DO NOT USE", "bent pipe")))
    assert of(found, "out of service") == ["bent pipe"]


def test_the_use_of_a_set_may_be_that_it_is_not_to_be_used() -> None:
    found = read(column("Use", "DO NOT USE"))
    assert of(found, "out of service") == ["DO NOT USE"]


@pytest.mark.parametrize("words", ["dead hung", "dead-hung from grid", "old hemp set", "spot line"])
def test_a_note_of_hemp_or_of_a_dead_hung_batten_is_shown(words: str) -> None:
    found = read(column("Notes", words))
    assert of(found, "rigged") == [""]
    assert len(found.remarks) == 1


def test_a_set_that_is_read_as_hemp_already_is_not_shown_for_it() -> None:
    text = invented.pasted(("Line", "Dist", "Type", "Notes"), ("1", "1'", "hemp", "hemp, by the rail"))
    assert read(text).remarks == ()
