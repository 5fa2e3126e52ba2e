from collections.abc import Iterator

import pytest

from counterpoise.app import Texts, judge, move_piece, read, with_blanks
from counterpoise.app.houses import Houses
from counterpoise.app.room import room_of
from counterpoise.app.stations import stations_of
from counterpoise.app.where_written import where_written
from counterpoise.app.workspace import Workspace, index_of, write_figure
from counterpoise.checks import Verdict
from counterpoise.errors import BadDocument, Refused
from counterpoise.store import Conflict, Store
from counterpoise.units import METRES_PER_INCH, Style
from tests.eight_sets import eight_sets

AT = "2026-01-01T00:00:00+00:00"
US = Style("us")
MINIMAL = """counterpoise: house 1
name: Small Hall
units: us
sets:
  - {set: "1", distance: 2 ft, purchase: single}
  - {set: "2", distance: 3 ft, purchase: single}
"""


@pytest.fixture
def workspace() -> Iterator[Workspace]:
    store = Store("sqlite://")
    workspace = Workspace(store)
    workspace.begin(eight_sets(), at=AT)
    yield workspace
    store.close()


def test_a_move_changes_the_words_of_one_centre_and_keeps_every_comment(workspace: Workspace) -> None:
    before = workspace.now()
    after = workspace.move("5", 0, "2' SL", base=1, operation="a", at=AT)
    changed = [
        (a, b) for a, b in zip(before.texts.hang.splitlines(), after.texts.hang.splitlines(), strict=True) if a != b
    ]
    assert len(changed) == 1
    assert "2' SL" in changed[0][1]
    assert after.revision == 2
    assert workspace.may_take_back("5") == "header, 1' SL to 2' SL"


def test_undo_goes_back_move_by_move_and_then_no_further(workspace: Workspace) -> None:
    texts = [workspace.now().texts.hang]
    for number, centre in enumerate(("2' SL", "3' SL"), start=1):
        texts.append(workspace.move("5", 0, centre, base=number, operation=centre, at=AT).texts.hang)
    assert workspace.undo("5", base=3, operation="c", at=AT).texts.hang == texts[1]
    last = workspace.undo("5", base=4, operation="d", at=AT)
    assert last.texts.hang == texts[0]
    assert last.note == "set 5: header, 1' SL to 2' SL, taken back"
    assert workspace.may_take_back("5") == ""
    with pytest.raises(Refused, match="no change of set 5"):
        workspace.undo("5", base=5, operation="e", at=AT)


def test_what_is_taken_back_is_of_that_set_and_leaves_what_others_changed_since(workspace: Workspace) -> None:
    before = workspace.now().texts.hang
    workspace.move("5", 0, "2' SL", base=1, operation="a", at=AT)
    with_other = workspace.move("1", 0, "1' SR", base=2, operation="b", at=AT)
    assert workspace.may_take_back("2") == ""
    back = workspace.undo("5", base=3, operation="c", at=AT)
    places = {one.label: one.centre.text for one in read(back.texts)[2].hung}
    assert (places["5"], places["1"]) == ("1' SL", "1' SR")
    assert workspace.may_take_back("5") == ""
    assert workspace.may_take_back("1").endswith("to 1' SR")
    assert workspace.undo("1", base=4, operation="d", at=AT).texts.hang == before
    assert with_other.revision == 3


def test_a_set_that_was_changed_in_the_text_since_has_nothing_to_take_back(workspace: Workspace) -> None:
    moved = workspace.move("5", 0, "2' SL", base=1, operation="a", at=AT).texts.hang
    assert moved.count("2' SL") == 1
    workspace.rewrite("hang", moved.replace("2' SL", "3' SL"), base=2, operation="b", at=AT)
    assert workspace.may_take_back("5") == ""
    assert workspace.may_retype("hang") == 2
    assert workspace.retype("hang", base=3, operation="c", at=AT).text == moved
    assert workspace.may_retype("hang") == 0
    assert workspace.may_take_back("5").endswith("to 2' SL")
    with pytest.raises(Refused, match="not typed"):
        workspace.retype("hang", base=4, operation="d", at=AT)


def test_a_plan_and_the_whole_call_are_worked_out_once_for_a_state(workspace: Workspace) -> None:
    now = workspace.now()
    assert now.told.call() is workspace.now().told.call()
    assert now.told.plan("5") is workspace.now().told.plan("5")
    assert now.told.plan("none") is None
    moved = workspace.move("5", 0, "2' SL", base=1, operation="a", at=AT)
    assert moved.told.call() is not now.told.call()


def test_two_moves_of_one_piece_are_told_apart_in_words_of_the_trade(workspace: Workspace) -> None:
    workspace.move("5", 0, "2' SL", base=1, operation="a", at=AT)
    with pytest.raises(Conflict, match=r"Set 5, where header hangs, was changed meanwhile: its centre is at 2' SL"):
        workspace.move("5", 0, "3' SL", base=1, operation="b", at=AT)


@pytest.mark.parametrize(
    ("path", "said"),
    [("hung[4].centre", "set 5, where header hangs"), ("hung[4].trims.show", "set 5, where header hangs, trims, show"),
     ("sets[1].loft block.rating", "set 2, loft block, rating"), ("stage.loft blocks", "stage, loft blocks")],
)  # fmt: skip
def test_a_path_is_said_as_a_rigger_says_it(workspace: Workspace, path: str, said: str) -> None:
    texts = workspace.now().texts
    assert where_written(texts, "hang" if path.startswith("hung") else "house", path) == said


def test_a_move_off_the_batten_is_refused_and_nothing_is_kept(workspace: Workspace) -> None:
    with pytest.raises(BadDocument):
        workspace.move("5", 0, "9' SL", base=1, operation="a", at=AT)
    assert workspace.now().revision == 1


def test_a_move_against_an_old_revision_is_a_conflict(workspace: Workspace) -> None:
    workspace.move("5", 0, "2' SL", base=1, operation="a", at=AT)
    with pytest.raises(Conflict):
        workspace.move("5", 0, "3' SL", base=1, operation="b", at=AT)


def test_a_repeated_move_is_done_once(workspace: Workspace) -> None:
    for _ in range(2):
        assert workspace.move("5", 0, "2' SL", base=1, operation="a", at=AT).revision == 2


def test_a_hang_kept_earlier_goes_on_when_the_pages_start_again() -> None:
    store = Store("sqlite://")
    first = Workspace(store)
    first.begin(eight_sets(), at=AT)
    moved = first.move("5", 0, "2' SL", base=1, operation="a", at=AT)
    again = Workspace(store)
    again.begin(eight_sets(), at=AT)
    assert again.now().texts == moved.texts
    store.close()


def test_stations_are_whole_inches_as_far_as_the_piece_stays_on_the_batten(workspace: Workspace) -> None:
    found = stations_of(workspace.now(), "5", 0)
    # the header's picks reach 15 ft either way on a 42 ft batten: 6 ft of room either way, 145 inches
    assert len(found) == 145
    assert (found[0].words, found[72].words, found[-1].words) == ("6' SR", "CL", "6' SL")
    assert found[1].x - found[0].x == pytest.approx(METRES_PER_INCH)
    halves = stations_of(workspace.now(), "5", 0, 6)
    assert [one.words for one in halves[:3]] == ["6' SR", "5' 6\" SR", "5' SR"]
    assert len(halves) == 25
    near = stations_of(workspace.now(), "5", 0, 6, 0.16)  # it hangs at 1' SL: the half feet, and 6 inches either way
    assert len(near) == 25 + 10


@pytest.mark.parametrize("label", ["2", "3", "5"])
def test_a_station_is_to_the_last_digit_what_a_move_there_computes(workspace: Workspace, label: str) -> None:
    now = workspace.now()
    index = index_of(read(now.texts)[2], label, 0)
    stations = stations_of(now, label, 0)
    for station in stations[:: max(1, len(stations) // 6)]:
        moved = judge(move_piece(now.texts, index, station.words)).set_called(label)
        assert moved is not None
        assert station.result is not None
        assert [(row.key, row.value, row.limit) for row in station.result.rows] == [
            (row.key, row.value, row.limit) for row in moved.rows
        ]
        assert station.result.verdict is moved.verdict


def test_where_a_set_is_over_there_is_no_room_and_where_a_link_is_unknown_it_is_not_told(workspace: Workspace) -> None:
    result = workspace.now().result
    over, unknown = result.set_called("2"), result.set_called("7")
    assert over is not None
    assert over.verdict is Verdict.OVER
    assert room_of(result.house, over).says.startswith("none")
    assert unknown is not None
    assert room_of(result.house, unknown).is_unknown
    assert room_of(result.house, unknown).points == ()


def test_moves_of_two_people_to_two_sets_both_land(workspace: Workspace) -> None:
    workspace.move("5", 0, "2' SL", base=1, operation="a", at=AT)
    now = workspace.move("1", 0, "1' SR", base=1, operation="b", at=AT)  # this reader still saw revision 1
    places = {one.label: one.centre.text for one in read(now.texts)[2].hung}
    assert (places["5"], places["1"]) == ("2' SL", "1' SR")


def test_a_figure_is_written_in_every_set_that_lacks_it_and_every_comment_is_kept() -> None:
    text = MINIMAL.replace("units: us", "units: us  # by tape")
    space = Workspace(Store("sqlite://"))
    space.begin(with_blanks(Texts(house=text)), at=AT)
    low = next(one for one in space.now().result.unknowns if one.what == "low trim")
    assert low.paths == ("sets[0].low trim", "sets[1].low trim")
    now = write_figure(space, "house", low.paths, [None, None], "4 ft", operation="a", at=AT)
    assert [one.low_trim.text for one in read(now.texts)[0].sets] == ["4 ft", "4 ft"]
    assert "# by tape" in now.texts.house


def test_places_of_lines_are_written_with_commas_between() -> None:
    space = Workspace(Store("sqlite://"))
    space.begin(with_blanks(Texts(house=MINIMAL)), at=AT)
    now = write_figure(space, "house", ["sets[0].lines.at"], [None], "6' SR, CL, 6' SL", operation="a", at=AT)
    assert [one.at for one in read(now.texts)[0].sets[0].lines.at] == ["6' SR", "CL", "6' SL"]


def test_a_figure_that_somebody_wrote_meanwhile_is_not_written_over() -> None:
    space = Workspace(Store("sqlite://"))
    space.begin(with_blanks(Texts(house=MINIMAL)), at=AT)
    write_figure(space, "house", ["sets[0].low trim"], [None], "4 ft", operation="a", at=AT)
    with pytest.raises(Conflict, match="written meanwhile"):
        write_figure(space, "house", ["sets[0].low trim"], [None], "5 ft", operation="b", at=AT)
    assert read(space.now().texts)[0].sets[0].low_trim.text == "4 ft"


def test_a_figure_that_can_not_be_read_is_refused_and_nothing_is_kept() -> None:
    space = Workspace(Store("sqlite://"))
    space.begin(with_blanks(Texts(house=MINIMAL)), at=AT)
    with pytest.raises(BadDocument, match="unit"):
        write_figure(space, "house", ["sets[0].low trim"], [None], "4", operation="a", at=AT)
    assert space.text("house").number == 1


def test_a_house_that_was_changed_here_is_left_so_when_its_file_is_read_again() -> None:
    store = Store("sqlite://")
    for _ in range(2):
        space = Workspace(store)
        space.begin(with_blanks(Texts(house=MINIMAL)), at=AT)
        if space.text("house").number == 1:
            write_figure(space, "house", ["sets[0].low trim"], [None], "4 ft", operation="a", at=AT)
    assert read(space.now().texts)[0].sets[0].low_trim.text == "4 ft"


def test_a_second_house_of_the_same_name_gets_an_address_of_its_own() -> None:
    houses = Houses(Store("sqlite://"))
    assert [houses.take_in(MINIMAL, at=AT) for _ in range(2)] == ["small-hall", "small-hall-2"]
    assert houses.called("small-hall-2").now().result.house.name == "Small Hall"
    with pytest.raises(Refused, match="No house elsewhere"):
        houses.called("elsewhere")
