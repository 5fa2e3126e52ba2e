"""What most sets have alike is written once as a kind, and no set is given what its row does not say; all invented."""

from __future__ import annotations

from counterpoise.app.line_schedule import Told, house_from_schedule, read_schedule
from counterpoise.documents import House, LineSet, read_house
from counterpoise.documents.text import parse
from counterpoise.documents.tree import Fields, Items, Scalar
from tests import invented_schedules as invented

HEADS = ("Line", "Dist", "Type", "Batten length", "Pipe", "Low trim", "High trim", "Lines")
PIPE = "1-1/2 sch 40"
ROWS = (
    ("1", "1'", "SP", "42'", PIPE, "4'", "58'", "5"),
    ("2", "2'", "SP", "42'", PIPE, "4'", "58'", "5"),
    ("3", "3'", "SP", "42'", PIPE, "4'", "50'", "5"),  # one field of its own
    ("4", "4'", "SP", "42'", PIPE, "", "58'", "5"),  # one field is not stated
    ("5", "5'", "DP", "42'", PIPE, "4'", "58'", "5"),  # another purchase
    ("6", "6'", "SP", "42'", PIPE, "4'", "58'", "5"),
    ("7", "7'", "hemp", "42'", PIPE, "4'", "58'", "5"),
    ("8", "8'", "SP", "42'", "long", "4'", "58'", "5"),  # one cell is not understood
)


def text_of(*rows: tuple[str, ...]) -> str:
    read = read_schedule(invented.pasted(HEADS, *rows), "plot.tsv", Told())
    return house_from_schedule(read.understood, "Alder Yard")


def kinds_in(text: str) -> dict[str, str]:
    """Label to kind."""
    found: dict[str, str] = {}
    sets = parse(text, "house.yaml").fields["sets"]
    for one in sets.items if isinstance(sets, Items) else ():
        assert isinstance(one, Fields)
        words = {name: said.text for name, said in one.fields.items() if isinstance(said, Scalar)}
        found[words["set"]] = words.get("kind", "")
    return found


def stated(house: House) -> dict[str, tuple[object, ...]]:
    def of(one: LineSet) -> tuple[object, ...]:
        return (one.purchase, one.rigged, one.batten.length.best, one.batten.pipe, one.low_trim.best,
                one.high_trim.best, one.lines.count.best if one.lines.count else None)  # fmt: skip

    return {one.label: of(one) for one in house.sets}


def test_sets_that_state_the_same_share_a_kind_and_those_that_do_not_stay_apart() -> None:
    assert kinds_in(text_of(*ROWS)) == {
        "1": "usual", "2": "usual", "3": "usual", "4": "", "5": "", "6": "usual", "7": "", "8": "",
    }  # fmt: skip


def test_with_a_kind_each_set_says_what_its_row_says_and_no_more() -> None:
    together = stated(read_house(text_of(*ROWS)))
    apart = {label: said for one in ROWS for label, said in stated(read_house(text_of(one))).items()}
    assert "kinds:" not in text_of(ROWS[0])
    assert together == apart
    assert together["4"][4] is None
    assert together["8"][3] == ""


def test_a_value_of_a_kind_names_its_first_cell_and_how_many_more_say_it() -> None:
    text = text_of(*ROWS)
    assert "  usual:  # 4 sets; write here what is so for all of them\n" in text
    assert "    high trim: 58' @schedule  # G2 and 2 more\n" in text
    house = read_house(text)
    high = next(one for one in house.sets if one.label == "1").high_trim
    assert high.source is not None
    assert high.source.name == "schedule"


def test_a_figure_written_once_into_the_kind_is_that_of_its_sets_alone() -> None:
    text = text_of(*ROWS).replace("    purchase: single  #", "    arbor: {weight: 80 lb}\n    purchase: single  #", 1)
    weights = {one.label: one.arbor.weight.best for one in read_house(text).sets}
    assert {label for label, weight in weights.items() if weight is not None} == {"1", "2", "3", "6"}


def test_rows_with_little_alike_make_no_kind() -> None:
    rows = [(str(i), f"{i}'", "SP", f"{30 + i}'", "", f"{i}'", f"{50 + i}'", "5") for i in range(1, 6)]
    assert isinstance(parse(text_of(*rows), "house.yaml"), Fields)
    assert "kinds:" not in text_of(*rows)


def test_double_purchase_sets_have_a_kind_of_their_own() -> None:
    double = [(str(i), f"{i}'", "DP", "40'", PIPE, "4'", "40'", "5") for i in range(11, 15)]
    found = kinds_in(text_of(*ROWS[:3], *double))
    assert {found[label] for label in ("1", "2", "3")} == {"usual single"}
    assert {found[one[0]] for one in double} == {"usual"}


def test_a_row_that_is_left_out_stands_in_what_the_house_says_about_itself() -> None:
    house = read_house(text_of(*ROWS, ("20-21", "9'", "SP", "42'", PIPE, "4'", "58'", "5")))
    assert house.about == "left out, not understood: row 10 (20-21, 9', SP): may be several sets"
