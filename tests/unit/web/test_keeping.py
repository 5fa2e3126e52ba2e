"""What the pages say of where a write is kept, and that they open whatever a database holds."""

import json
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from counterpoise.app.houses import FIRST
from counterpoise.store import Store
from counterpoise.web import create_app
from tests.eight_sets import eight_sets

AT = "2026-01-01T00:00:00+00:00"
ORIGIN = {"origin": "http://localhost"}
BANNER = '<main id="main" tabindex="-1"><p class="passing">What is written here goes when the program stops; '
PAGES = ("/", "/set/5", "/text/house", "/text/hang", "/houses", "/schedule", "/load-in")


def pages(store: Store, *, is_new: bool = True) -> TestClient:
    app = create_app(store, eight_sets() if is_new else None, clock=lambda: AT)
    return TestClient(app, base_url="http://localhost", follow_redirects=False)


def written(client: TestClient) -> str:
    said = client.post("/api/text", headers=ORIGIN, json={
        "document": "house", "base": 1, "text": eight_sets().house + "# written\n", "operation": "a" * 20})  # fmt: skip
    assert said.status_code == 200
    moved = client.post("/api/set/5/move", headers=ORIGIN, json={
        "piece": 0, "centre": "2' SL", "base": 1, "operation": "b" * 20})  # fmt: skip
    return str(said.json()["says"] + moved.json()["says"])


def test_every_page_over_memory_says_that_nothing_lasts_and_no_write_is_told_as_kept() -> None:
    client = pages(Store("sqlite://"))
    for address in PAGES:
        said = client.get(address)
        assert (said.status_code, BANNER in said.text) == (200, True), address
    assert "Kept" not in written(client)
    assert "as it is kept" not in client.get("/text/house").text


def test_over_a_file_a_write_is_told_as_kept_and_it_is(tmp_path: Path) -> None:
    store = Store.in_file(tmp_path / "house.db")
    client = pages(store)
    for address in PAGES:
        assert "when the program stops" not in client.get(address).text
    assert written(client).count("Kept as revision 2") == 2
    store.close()
    again = pages(Store.in_file(tmp_path / "house.db"), is_new=False)
    assert "# written" in again.get("/text/house/file").text
    assert "2&#39; SL" in again.get("/text/hang").text
    assert "kept in house.db" in again.get("/text/house").text


def test_every_revision_is_listed_below_its_text_and_opened_to_be_kept_again() -> None:
    client = pages(Store("sqlite://"))
    written(client)
    said = client.get("/text/house").text
    assert "all 2 revisions" in said
    assert 'href="/text/house?revision=1"' in said
    first = client.get("/text/house?revision=1").text
    assert "# written" not in first
    assert 'data-revision="2"' in first  # what it is kept over
    assert client.get("/text/house?revision=3").status_code == 404


@pytest.mark.parametrize("kind", ["house", "show", "hang"])
@pytest.mark.parametrize("text", ["", "[", "name: nothing else\n", "counterpoise: house 9\n", "\x00\udc80"[:1]])
def test_the_list_and_the_texts_open_whatever_the_database_holds(kind: str, text: str) -> None:
    store = Store("sqlite://")
    pages(store)
    store.append(FIRST, kind, text, "", base=1, at=AT, operation="x")
    client = pages(store, is_new=False)
    listed = client.get("/houses")
    assert listed.status_code == 200
    assert "cannot be shown" in listed.text
    shown = client.get("/")
    assert shown.status_code == 422
    for address in ("/text/house", "/text/show", "/text/hang"):
        assert f'href="{address}"' in shown.text
        assert f'href="{address}"' in listed.text
        assert client.get(address).status_code == 200
    earlier = store.revision(FIRST, kind, 1)
    assert earlier is not None
    mended = client.post("/api/text", headers=ORIGIN, json={
        "document": kind, "base": 2, "text": earlier.text, "operation": "a" * 20})  # fmt: skip
    assert mended.status_code == 200, json.dumps(mended.json())
    assert client.get("/").status_code == 200


def test_a_house_of_which_a_document_is_missing_gets_one_as_text() -> None:
    store, texts = Store("sqlite://"), eight_sets()
    for kind in ("house", "show"):
        store.append(FIRST, kind, getattr(texts, kind), "", base=0, at=AT, operation=kind)
    client = pages(store, is_new=False)
    assert client.get("/text/hang").status_code == 200
    said = client.post("/api/text", headers=ORIGIN, json={
        "document": "hang", "base": 0, "text": texts.hang, "operation": "a" * 20})  # fmt: skip
    assert said.json()["revision"] == 1
    assert client.get("/").status_code == 200


def test_an_empty_database_opens_at_the_list_and_a_house_begun_there_is_kept() -> None:
    store = Store("sqlite://")
    client = pages(store, is_new=False)
    assert client.get("/").headers["location"] == "/houses"
    assert "None yet" in client.get("/houses").text
    assert client.get("/set/1").status_code == 404
    begun = client.post("/api/houses", headers=ORIGIN, json={
        "name": "Own Hall", "sets": 3, "units": "us", "purchase": "single"}).json()  # fmt: skip
    assert client.get(begun["address"]).status_code == 200
    assert "Own Hall" in client.get("/houses").text


def test_what_is_wrong_in_a_text_comes_with_the_document_and_the_line_that_it_stands_at() -> None:
    store, texts = Store("sqlite://"), eight_sets()
    client = pages(store)
    wrong = texts.house.replace("high trim:", "hihg trim:", 1)
    answer = client.post("/api/text", headers=ORIGIN, json={
        "document": "house", "base": 1, "text": wrong, "operation": "b" * 20})  # fmt: skip
    assert answer.status_code == 422
    (told,) = [one for one in answer.json()["problems"] if "hihg" in one["says"]]
    assert told["document"] == "house"
    assert "hihg trim" in wrong.splitlines()[told["line"] - 1]
