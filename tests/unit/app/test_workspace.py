from collections.abc import Iterator

import pytest

from counterpoise.app import judge, move_piece, read
from counterpoise.app.workspace import Workspace, index_of, room_of, stations_of
from counterpoise.checks import Verdict
from counterpoise.errors import BadDocument, Refused
from counterpoise.store import Conflict, Store
from counterpoise.units import METRES_PER_INCH, Style
from tests.eight_sets import eight_sets

AT = "2026-01-01T00:00:00+00:00"
US = Style("us")


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
    assert after.may_undo


def test_undo_goes_back_move_by_move_and_then_no_further(workspace: Workspace) -> None:
    texts = [workspace.now().texts.hang]
    for number, centre in enumerate(("2' SL", "3' SL"), start=1):
        texts.append(workspace.move("5", 0, centre, base=number, operation=centre, at=AT).texts.hang)
    assert workspace.undo(base=3, operation="c", at=AT).texts.hang == texts[1]
    last = workspace.undo(base=4, operation="d", at=AT)
    assert last.texts.hang == texts[0]
    assert not last.may_undo
    with pytest.raises(Refused, match="no move"):
        workspace.undo(base=5, operation="e", at=AT)


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
