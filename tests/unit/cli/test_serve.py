"""What `serve` keeps, where, what it shows, and that it says so; the server itself is stood in for."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from counterpoise import web
from counterpoise.app.houses import Houses
from counterpoise.cli import main
from counterpoise.store import Store
from tests.eight_sets import eight_sets

ORIGIN = {"origin": "http://localhost"}
HIGH = "loft blocks: 62 ft"  # as the house of eight sets has it
Visit = Callable[[TestClient], object]


class Served:
    """`serve` with a visitor in place of the server: what it printed, and what the visitor brought back."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
        self._monkeypatch, self._capsys = monkeypatch, capsys
        self.code = -1

    def __call__(self, *words: str | Path, visit: Visit = lambda client: client.get("/").status_code) -> object:
        brought: list[object] = []

        def stand_in(houses: Houses, port: int = 0) -> None:
            with TestClient(web.create_app(houses), base_url="http://localhost") as client:
                brought.append(visit(client))

        self._monkeypatch.setattr(web, "serve", stand_in)
        self.code = main(["serve", *map(str, words), "--port", "8733"])
        said = self._capsys.readouterr()
        self.said = " ".join((said.out + said.err).split())
        return brought[0] if brought else None


@pytest.fixture
def serve(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Served:
    monkeypatch.setattr("counterpoise.cli.serve._needs_free", lambda port: None)
    return Served(monkeypatch, capsys)


@pytest.fixture
def three(tmp_path: Path) -> Iterator[list[Path]]:
    texts = eight_sets()
    assert texts.house.count(HIGH) == 1
    paths = [tmp_path / f"{kind}.yaml" for kind in ("house", "show", "hang")]
    for path in paths:
        path.write_text(getattr(texts, path.stem), "utf-8")
    yield paths
    assert [path.read_text("utf-8") for path in paths[1:]] == [texts.show, texts.hang]  # no file is ever changed


def codes(client: TestClient) -> list[int]:
    return [client.get(address).status_code for address in ("/", "/text/house", "/text/hang", "/houses")]


def loft_blocks(client: TestClient) -> str:
    text = client.get("/text/house/file").text
    return next(line for line in text.splitlines() if "loft blocks:" in line).strip()


def write(client: TestClient) -> str:
    body = {"document": "house", "paths": ["stage.loft blocks"], "seen": [HIGH.partition(": ")[2]], "value": "61 ft",
            "operation": "a" * 20}  # fmt: skip
    return str(client.post("/api/write", headers=ORIGIN, json=body).json()["says"])


def test_a_database_without_files_shows_its_own_houses_and_never_gets_the_demo(
    serve: Served, three: list[Path], tmp_path: Path
) -> None:
    db = tmp_path / "own.db"
    serve(*three, "--db", db)
    found = serve("--db", db, visit=codes)
    assert found == [200, 200, 200, 200]
    name = next(line for line in three[0].read_text().splitlines() if line.startswith("name: ")).removeprefix("name: ")
    assert f"{name}: http://127.0.0.1:8733/" in serve.said
    store = Store.in_file(db)
    assert [one.number for one in store.history("main", "house")] == [1]
    assert store.workspaces() == ("main",)


def test_a_new_database_without_files_opens_empty_and_says_so(serve: Served, tmp_path: Path) -> None:
    serve("--db", tmp_path / "new.db")
    assert "No house is kept there yet" in serve.said
    assert Store.in_file(tmp_path / "new.db").workspaces() == ()


def test_what_is_told_as_kept_is_there_again_without_any_option(serve: Served, three: list[Path]) -> None:
    said = serve(*three, visit=write)
    assert str(said).startswith("Kept: loft blocks 61 ft")
    assert f"Kept in {three[0].with_name('house.kept.db')}" in serve.said
    assert serve(*three, visit=loft_blocks) == "loft blocks: 61 ft"
    assert "written in the pages since" in serve.said
    assert "--from-files" in serve.said
    assert HIGH in three[0].read_text()


def test_nothing_of_a_database_is_left_beside_it_when_the_pages_stop(serve: Served, three: list[Path]) -> None:
    serve(*three)
    assert sorted(path.name for path in three[0].parent.glob("house.kept*")) == ["house.kept.db"]


def test_the_demo_says_on_the_terminal_and_in_its_answers_that_it_keeps_nothing(serve: Served) -> None:
    said = serve(visit=write)
    assert str(said).startswith("Held until the program stops: ")
    assert "gone then" in serve.said
    assert "Kept in" not in serve.said


def test_where_nothing_can_be_made_beside_the_house_that_is_said_and_it_is_shown_all_the_same(
    serve: Served, three: list[Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("counterpoise.cli.serve.beside", lambda house: house.parent / "absent" / "house.kept.db")
    assert serve(*three) == 200
    assert "NOT KEPT" in serve.said
    assert "--db FILE" in serve.said


def test_a_file_beside_the_house_that_can_not_be_used_is_not_passed_over(serve: Served, three: list[Path]) -> None:
    three[0].with_name("house.kept.db").write_text("what was kept, and is damaged now " * 100)
    assert serve(*three) is None
    assert serve.code == 73
    assert "house.kept.db" in serve.said
    assert "--db FILE" in serve.said


def test_of_two_files_of_a_house_the_one_that_is_named_is_shown_and_that_is_told(
    serve: Served, three: list[Path], tmp_path: Path
) -> None:
    other, db = tmp_path / "other.yaml", tmp_path / "own.db"
    other.write_text(three[0].read_text().replace(HIGH, "loft blocks: 63 ft"))
    assert serve(three[0], "--db", db, visit=loft_blocks) == HIGH
    assert serve(other, "--db", db, visit=loft_blocks) == "loft blocks: 63 ft"
    assert "revision 2, taken from" in serve.said
    assert serve(three[0], "--db", db, visit=loft_blocks) == HIGH
    assert "revision 3, taken from" in serve.said


def test_a_file_that_is_not_shown_is_told_with_the_way_to_see_it(
    serve: Served, three: list[Path], tmp_path: Path
) -> None:
    other, db = tmp_path / "other.yaml", tmp_path / "own.db"
    other.write_text(three[0].read_text().replace(HIGH, "loft blocks: 63 ft"))
    serve(three[0], "--db", db, visit=write)
    assert serve(other, "--db", db, visit=loft_blocks) == "loft blocks: 61 ft"
    assert f"NOT SHOWN: {other}" in serve.said
    assert serve(other, "--db", db, "--from-files", visit=loft_blocks) == "loft blocks: 63 ft"
    earlier = serve("--db", db, visit=lambda client: client.get("/text/house?revision=2").text)
    assert "  loft blocks: 61 ft\n" in str(earlier)


def test_another_house_is_told_with_its_own_address(serve: Served, three: list[Path], tmp_path: Path) -> None:
    other, db = tmp_path / "other.yaml", tmp_path / "own.db"
    other.write_text('counterpoise: house 1\nname: Other Hall\nunits: us\nsets:\n  - {set: "1"}\n')
    serve(*three, "--db", db)
    assert serve(other, "--db", db, visit=lambda client: client.get("/house/other-hall/").status_code) == 200
    assert "http://127.0.0.1:8733/house/other-hall/" in serve.said
    assert "another house" in serve.said


def test_files_are_asked_for_only_where_files_are_named(serve: Served) -> None:
    serve("--from-files")
    assert serve.code == 64
