from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from counterpoise.errors import Refused
from counterpoise.store import Conflict, Store

AT = "2026-01-01T00:00:00+00:00"


@pytest.fixture(params=["file", "memory"])
def store(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Store]:
    store = Store(f"sqlite:///{tmp_path / 'kept.db'}" if request.param == "file" else "sqlite://")
    yield store
    store.close()


def test_nothing_is_latest_before_anything_was_stored(store: Store) -> None:
    assert store.latest("w", "hang") is None


def test_the_latest_text_comes_back_to_the_letter(store: Store) -> None:
    text = "# a comment\r\n  ½ ″ \u2028 'quoted' \"twice\"\n"
    store.append("w", "hang", text, "first", base=0, operation="a", at=AT)
    latest = store.latest("w", "hang")
    assert latest is not None
    assert (latest.number, latest.text, latest.note, latest.at, latest.back) == (1, text, "first", AT, 0)


def test_a_write_against_an_old_base_is_a_conflict_and_changes_nothing(store: Store) -> None:
    store.append("w", "hang", "one", "", base=0, operation="a", at=AT)
    store.append("w", "hang", "two", "", base=1, operation="b", at=AT)
    with pytest.raises(Conflict) as caught:
        store.append("w", "hang", "mine", "", base=1, operation="c", at=AT)
    assert caught.value.latest == 2
    latest = store.latest("w", "hang")
    assert latest is not None
    assert latest.text == "two"


def test_a_repeated_operation_is_answered_as_the_first_time_even_after_others(store: Store) -> None:
    first = store.append("w", "hang", "one", "", base=0, operation="a", at=AT)
    store.append("w", "hang", "two", "", base=1, operation="b", at=AT)
    assert store.append("w", "hang", "one", "", base=0, operation="a", at="later") == first
    latest = store.latest("w", "hang")
    assert latest is not None
    assert latest.number == 2


def test_documents_of_other_kinds_and_workspaces_count_for_themselves(store: Store) -> None:
    store.append("w", "hang", "one", "", base=0, operation="a", at=AT)
    assert store.append("w", "show", "s", "", base=0, operation="b", at=AT).number == 1
    assert store.append("v", "hang", "h", "", base=0, operation="c", at=AT).number == 1


def test_of_many_who_write_at_once_against_one_base_one_wins(store: Store) -> None:
    def write(name: int) -> bool:
        try:
            store.append("w", "hang", str(name), "", base=0, operation=str(name), at=AT)
        except Conflict:
            return False
        return True

    with ThreadPoolExecutor(8) as pool:
        assert sum(pool.map(write, range(16))) == 1


@pytest.mark.parametrize("name", ["house.db", "50 % ?a=b#c.db", "Bühne.db"])
def test_any_name_of_a_file_will_do(tmp_path: Path, name: str) -> None:
    Store.in_file(tmp_path / name).close()
    assert (tmp_path / name).is_file()


def test_a_file_that_can_not_be_used_is_refused_with_its_name(tmp_path: Path) -> None:
    other = tmp_path / "list.txt"
    other.write_text("this is no database, and long enough to be seen as none " * 40)
    for path in (other, tmp_path / "absent" / "house.db"):
        with pytest.raises(Refused, match=path.name):
            Store.in_file(path)


def test_a_file_keeps_what_was_stored_for_the_next_start(tmp_path: Path) -> None:
    url = f"sqlite:///{tmp_path / 'kept.db'}"
    before = Store(url)
    before.append("w", "hang", "one", "", base=0, operation="a", at=AT)
    before.close()
    after = Store(url)
    latest = after.latest("w", "hang")
    after.close()
    assert latest is not None
    assert latest.text == "one"


def test_the_history_of_a_document_is_told_newest_first_and_without_its_texts(store: Store) -> None:
    assert store.history("w", "hang") == ()
    for number in range(3):
        store.append("w", "hang", str(number), f"note {number}", base=number, operation=str(number), at=AT)
    store.append("w", "show", "", "other", base=0, operation="x", at=AT)
    assert [(one.number, one.note, one.at) for one in store.history("w", "hang")] == [
        (3, "note 2", AT), (2, "note 1", AT), (1, "note 0", AT)]  # fmt: skip


def test_a_store_tells_its_file_and_memory_has_none(tmp_path: Path) -> None:
    assert Store("sqlite://").file == Store("sqlite:///:memory:").file == ""
    assert Store.in_file(tmp_path / "house.db").file == str(tmp_path / "house.db")
