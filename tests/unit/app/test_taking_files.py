"""Which is shown where a file and the pages were both changed; what is told as kept is never lost."""

import pytest

from counterpoise.app import Texts, with_blanks
from counterpoise.app.houses import FIRST, Houses
from counterpoise.app.taking_files import Stands, Why
from counterpoise.app.workspace import Workspace, write_figure
from counterpoise.errors import BadDocument
from counterpoise.store import Store
from tests.eight_sets import eight_sets

AT = "2026-01-01T00:00:00+00:00"
HALL = """counterpoise: house 1
name: Small Hall
units: us
stage:
  loft blocks: 50 ft
  proscenium height: 22 ft
sets:
  - {set: "1", distance: 2 ft, purchase: single}
  - {set: "2", distance: 3 ft, purchase: single}
"""
HIGHER = HALL.replace("50 ft", "52 ft")


def opened(houses: Houses, house: str, *, from_files: bool = False) -> tuple[Why, str]:
    """Why the house stands as it does, and the height of its loft blocks as it is then shown."""
    found = houses.open_files(Texts(house=house), at=AT, from_files=from_files)
    text = houses.called(found.name).text("house").text
    return found.stands[0].why, next(line for line in text.splitlines() if "loft blocks" in line).strip()


def of_kind(stands: tuple[Stands, ...]) -> dict[str, Why]:
    return {one.kind: one.why for one in stands}


def wrote(houses: Houses, new: str, was: str, operation: str = "a") -> None:
    write_figure(houses.called(), "house", ["stage.loft blocks"], [was], new, operation=operation, at=AT)


@pytest.fixture
def houses() -> Houses:
    houses = Houses(Store("sqlite://"))
    assert opened(houses, HALL) == (Why.FIRST, "loft blocks: 50 ft")
    return houses


def test_a_file_that_is_named_is_shown_also_where_it_was_seen_before_another(houses: Houses) -> None:
    assert opened(houses, HIGHER) == (Why.TAKEN, "loft blocks: 52 ft")
    assert opened(houses, HALL) == (Why.TAKEN, "loft blocks: 50 ft")
    assert [one.number for one in houses.called().history("house")] == [3, 2, 1]


def test_what_the_pages_wrote_stays_shown_when_the_file_is_named_as_it_was(houses: Houses) -> None:
    wrote(houses, "51 ft", "50 ft")
    assert opened(houses, HALL) == (Why.WRITTEN, "loft blocks: 51 ft")


def test_an_old_file_never_goes_over_what_the_pages_wrote_unless_that_is_asked_for(houses: Houses) -> None:
    opened(houses, HIGHER)
    wrote(houses, "51 ft", "52 ft")
    assert opened(houses, HALL) == (Why.BOTH, "loft blocks: 51 ft")
    assert opened(houses, HALL, from_files=True) == (Why.ASKED, "loft blocks: 50 ft")


def test_what_a_file_went_over_stands_as_a_revision_and_can_be_kept_again(houses: Houses) -> None:
    wrote(houses, "51 ft", "50 ft")
    opened(houses, HIGHER, from_files=True)
    space = houses.called()
    notes = [(one.number, one.note) for one in space.history("house")]
    assert notes == [(3, "read from house.yaml"), (2, "stage, loft blocks: 51 ft"), (1, "read from house.yaml")]
    earlier = space.revision("house", 2)
    assert earlier is not None
    space.rewrite("house", earlier.text, base=3, operation="b", at=AT)
    assert opened(houses, HIGHER) == (Why.WRITTEN, "loft blocks: 51 ft")


def test_a_file_with_all_that_the_pages_wrote_and_more_is_taken(houses: Houses) -> None:
    wrote(houses, "51 ft", "50 ft")
    saved = houses.called().text("house").text
    assert opened(houses, saved.replace("distance: 3 ft", "distance: 4 ft"))[0] is Why.HAS
    assert 'set: "2", distance: 4 ft' in houses.called().text("house").text


def test_a_figure_that_the_pages_wrote_in_one_set_is_not_found_in_another(houses: Houses) -> None:
    write_figure(houses.called(), "house", ["sets[0].low trim"], [None], "4 ft", operation="a", at=AT)
    elsewhere = HALL.replace("distance: 3 ft,", "low trim: 4 ft, distance: 3 ft,")
    assert opened(houses, elsewhere)[0] is Why.BOTH


def test_a_line_that_was_taken_out_here_is_missed_in_a_file_that_has_it(houses: Houses) -> None:
    houses.called().rewrite("house", HALL.replace("  proscenium height: 22 ft\n", ""), base=1, operation="a", at=AT)
    assert opened(houses, HALL.replace("distance: 3 ft", "distance: 4 ft"))[0] is Why.BOTH


def test_a_text_that_was_saved_as_its_file_counts_as_read(houses: Houses) -> None:
    wrote(houses, "51 ft", "50 ft")
    saved = houses.called().text("house").text
    assert opened(houses, saved)[0] is Why.SAME
    assert opened(houses, saved.replace("51 ft", "53 ft")) == (Why.TAKEN, "loft blocks: 53 ft")


def test_a_house_named_alone_leaves_show_and_hang_as_they_are_kept() -> None:
    houses, texts = Houses(Store("sqlite://")), eight_sets()
    houses.open_files(texts, at=AT)
    found = houses.open_files(Texts(house=texts.house + "# looked at again\n"), at=AT)
    assert of_kind(found.stands) == {"house": Why.TAKEN, "show": Why.KEPT, "hang": Why.KEPT}
    assert houses.called().now().texts.show == texts.show
    assert houses.called().now().texts.hang == texts.hang


def test_a_show_and_a_hang_are_taken_after_a_house_alone_in_which_nothing_was_hung() -> None:
    houses, texts = Houses(Store("sqlite://")), eight_sets()
    houses.open_files(Texts(house=texts.house), at=AT)
    found = houses.open_files(texts, at=AT)
    assert of_kind(found.stands) == {"house": Why.SAME, "show": Why.TAKEN, "hang": Why.TAKEN}
    assert houses.called().now().texts == texts


def test_a_piece_moved_here_stays_moved_when_the_house_is_edited_in_its_file() -> None:
    houses, texts = Houses(Store("sqlite://")), eight_sets()
    houses.open_files(texts, at=AT)
    moved = houses.called().move("5", 0, "2' SL", base=1, operation="a", at=AT)
    edited = Texts(house=texts.house + "# edited\n", show=texts.show, hang=texts.hang)
    found = houses.open_files(edited, at=AT)
    assert of_kind(found.stands) == {"house": Why.TAKEN, "show": Why.SAME, "hang": Why.WRITTEN}
    assert houses.called().now().texts.hang == moved.texts.hang


def test_files_that_do_not_go_with_what_was_written_here_are_not_shown() -> None:
    houses, texts = Houses(Store("sqlite://")), eight_sets()
    houses.open_files(texts, at=AT)
    houses.called().move("5", 0, "2' SL", base=1, operation="a", at=AT)
    other = texts.show.replace("\nname: ", "\nname: Second ", 1)
    hang = texts.hang.replace("\nshow: ", "\nshow: Second ", 1)
    found = houses.open_files(Texts(house=texts.house, show=other, hang=hang), at=AT)
    assert of_kind(found.stands) == {"house": Why.SAME, "show": Why.MISFIT, "hang": Why.BOTH}
    assert houses.called().trouble() == ""
    assert houses.called().text("show").number == 1


def test_another_house_is_kept_beside_and_never_over_the_first(houses: Houses) -> None:
    found = houses.open_files(eight_sets(), at=AT)
    assert (found.name != FIRST, found.is_beside) == (True, True)
    assert houses.called().text("house").text == HALL
    assert houses.open_files(eight_sets(), at=AT).name == found.name


def test_a_house_renamed_here_is_found_by_the_name_in_its_file(houses: Houses) -> None:
    houses.called().rewrite("house", HALL.replace("Small Hall", "New Hall"), base=1, operation="a", at=AT)
    found = houses.open_files(Texts(house=HALL), at=AT)
    assert (found.name, found.called, found.is_beside) == (FIRST, "New Hall", False)


def mixed_up(store: Store) -> None:
    """A database as one was left when another house and its show were written over those that a hang was made for."""
    texts, space = eight_sets(), Workspace(store)
    space.begin(texts, at=AT)
    for kind, text in (("house", HALL), ("show", with_blanks(Texts(house=HALL)).show)):
        store.append(FIRST, kind, text, "read from its file", base=1, back=0, at=AT, operation=f"main/{kind}/file/x")


def test_three_files_bring_back_a_house_that_was_mixed_up_with_another() -> None:
    store, texts = Store("sqlite://"), eight_sets()
    mixed_up(store)
    houses = Houses(store)
    assert houses.called().trouble()
    assert houses.open_files(texts, at=AT).name == FIRST
    assert houses.called().now().texts == texts


def test_a_house_that_can_not_be_shown_is_mended_one_text_after_the_other() -> None:
    store, texts = Store("sqlite://"), eight_sets()
    mixed_up(store)
    space = Houses(store).called()
    for number, kind in enumerate(("house", "show")):
        assert space.trouble()
        space.rewrite(kind, getattr(texts, kind), base=2, operation=str(number), at=AT)
    assert space.now().texts == texts
    store.close()


def test_also_while_it_can_not_be_shown_no_text_is_kept_that_can_not_be_read() -> None:
    store = Store("sqlite://")
    mixed_up(store)
    space = Houses(store).called()
    for kind in ("house", "show", "hang"):
        before = space.text(kind).number
        with pytest.raises(BadDocument):
            space.rewrite(kind, "not a document", base=before, operation=kind, at=AT)
        assert space.text(kind).number == before
