"""From a line schedule to a house: the command as a process, the page as requests; schedules are invented."""

import base64
import json
import os
import subprocess
import sys
import threading
from collections.abc import Awaitable, Callable
from importlib.resources import files
from pathlib import Path

import jsonschema
import pytest
import uvicorn
from fastapi import FastAPI
from playwright.sync_api import expect, sync_playwright
from starlette.requests import Request
from starlette.responses import Response
from starlette.staticfiles import StaticFiles
from starlette.testclient import TestClient

from counterpoise.documents import read_house
from counterpoise.drawing import sheet
from counterpoise.web.guard import HEADERS, LARGE, LARGEST_TEXT
from counterpoise.web.schedule_page import routes
from tests import invented_schedules as invented


def run(folder: Path, *words: str | Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "counterpoise", "schedule", *map(str, words)],
        check=False, capture_output=True, text=True, encoding="utf-8", timeout=60, cwd=folder, stdin=subprocess.DEVNULL,
        env={**os.environ, "PYTHONIOENCODING": "utf-8"},
    )  # fmt: skip


def kept(folder: Path, data: bytes | str, name: str = "plot.tsv") -> Path:
    path = folder / name
    path.write_bytes(data if isinstance(data, bytes) else data.encode("utf-8"))
    return path


# --- the command ----------------------------------------------------------------------------------------------------


def test_a_schedule_that_is_understood_becomes_a_house_and_ends_with_0(tmp_path: Path) -> None:
    done = run(tmp_path, kept(tmp_path, invented.us_59()), "--name", "Alder Yard")
    assert (done.returncode, done.stderr) == (0, "")
    assert '"Dist from PL" is a word for the distance from the plaster line' in done.stdout
    assert "Not understood: nothing." in done.stdout
    house = read_house((tmp_path / "house.yaml").read_text("utf-8"))
    assert (house.name, len(house.sets)) == ("Alder Yard", 59)


def test_a_schedule_with_slips_is_written_without_them_and_ends_with_2(tmp_path: Path) -> None:
    done = run(tmp_path, kept(tmp_path, invented.prose()), "--out", "alder.yaml")
    assert done.returncode == 2
    assert "the label 5 stands already in A4" in done.stdout
    assert read_house((tmp_path / "alder.yaml").read_text("utf-8")).set_called("7") is not None


def test_without_units_nothing_is_written_and_the_words_to_answer_with_are_printed(tmp_path: Path) -> None:
    path = kept(tmp_path, invented.bare_numbers())
    asked = run(tmp_path, path)
    assert asked.returncode == 2
    assert '--units "distance=ft"' in asked.stdout
    assert not (tmp_path / "house.yaml").exists()
    answered = run(tmp_path, path, "--units", "distance=ft", "--column", "Load=note")
    assert answered.returncode == 0
    assert "Written: house.yaml" in answered.stdout


def test_a_house_that_is_there_is_not_written_over_and_it_ends_with_73(tmp_path: Path) -> None:
    (tmp_path / "house.yaml").write_text("mine", "utf-8")
    done = run(tmp_path, kept(tmp_path, invented.us_59()))
    assert done.returncode == 73
    assert "already there" in done.stderr
    assert (tmp_path / "house.yaml").read_text("utf-8") == "mine"


def test_what_it_prints_as_data_is_what_its_schema_says(tmp_path: Path) -> None:
    done = run(tmp_path, kept(tmp_path, invented.uk_bars(), "plot.xlsx"), "--json")
    schema = json.loads(files("counterpoise.cli").joinpath("schemas", "schedule-1.json").read_text("utf-8"))
    data = json.loads(done.stdout)
    jsonschema.validate(data, schema)
    assert [one["set"] for one in data["sets"]] == ["1", "2", "3", "H1", "4", "6"]


def test_a_house_is_no_line_schedule_and_one_line_says_so(tmp_path: Path) -> None:
    path = kept(tmp_path, "# mine\ncounterpoise: house 1\nname: Alder Yard\nsets:\n  - set: 1\n", "alder.yaml")
    done = run(tmp_path, path)
    assert (done.returncode, done.stdout) == (64, "")
    assert done.stderr.strip().splitlines() == [
        "alder.yaml is a house already, and no line schedule. Check it: counterpoise check FILE."]  # fmt: skip


def test_a_word_that_is_not_understood_is_answered_by_itself(tmp_path: Path) -> None:
    path = kept(tmp_path, invented.pasted(("Line", "Dist", "Purchase"), ("1", "1'", "2P"), ("2", "2'", "")))
    asked = run(tmp_path, path, "--every", "purchase=single", "--out", "asked.yaml")
    assert '--word "purchase: 2P=single" (or double, hemp, dead-hung, note)' in asked.stdout
    assert [one.purchase for one in read_house((tmp_path / "asked.yaml").read_text("utf-8")).sets] == [
        "unknown", "single"]  # fmt: skip
    told = run(tmp_path, path, "--every", "purchase=single", "--word", "purchase: 2P=double")
    assert told.returncode == 0
    assert [one.purchase for one in read_house((tmp_path / "house.yaml").read_text("utf-8")).sets] == [
        "double", "single"]  # fmt: skip


@pytest.mark.parametrize(
    ("words", "code"),
    [(["none.xlsx"], 66), (["bad.xlsx"], 65), (["plot.tsv", "--column", "Dist"], 64),
     (["plot.tsv", "--units", "distance=furlong"], 64), (["plot.tsv", "--sheet", "Bars"], 64)],
)  # fmt: skip
def test_a_call_or_a_file_that_is_wrong_ends_with_its_own_code(tmp_path: Path, words: list[str], code: int) -> None:
    kept(tmp_path, b"PK\x03\x04 no zip", "bad.xlsx")
    kept(tmp_path, invented.us_59())
    done = run(tmp_path, *words)
    assert done.returncode == code
    assert "fault" not in done.stderr


# --- the page in a browser -----------------------------------------------------------------------------------------


class Site:
    """The page with the policy and the static files that the program serves, on a free port."""

    def __init__(self, drawn: list[str]) -> None:
        def draw(text: str) -> str:
            drawn.append(text)
            return "/schedule?drawn"

        async def kept(request: Request, go_on: Callable[[Request], Awaitable[Response]]) -> Response:
            response = await go_on(request)
            response.headers.update(HEADERS)
            return response

        app = FastAPI()
        app.middleware("http")(kept)
        app.mount("/static", StaticFiles(directory=str(files("counterpoise.web").joinpath("static"))))
        app.include_router(routes(draw))
        app.add_route("/drawing.css", lambda _: Response(sheet(), media_type="text/css"))
        self._server = uvicorn.Server(uvicorn.Config(app, port=0, log_level="error"))
        self._thread = threading.Thread(target=self._server.run, daemon=True)

    def __enter__(self) -> str:
        self._thread.start()
        while not self._server.started:
            assert self._thread.is_alive()
            self._thread.join(0.02)
        return f"http://127.0.0.1:{self._server.servers[0].sockets[0].getsockname()[1]}"

    def __exit__(self, *_: object) -> None:
        self._server.should_exit = True
        self._thread.join(10)


@pytest.mark.browser
def test_a_reader_pastes_answers_what_is_asked_and_draws_the_house(
    chromium_path: str, drawn: list[str], tmp_path: Path
) -> None:
    path = kept(tmp_path, invented.uk_bars(), "birch.xlsx")
    complaints: list[str] = []
    with Site(drawn) as address, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium_path, args=["--no-sandbox", "--disable-gpu"])
        page = browser.new_page()
        page.on("console", lambda said: complaints.append(said.text) if said.type in {"error", "warning"} else None)
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.goto(f"{address}/schedule")
        page.locator("#cells").fill(invented.bare_numbers())
        page.get_by_role("button", name="read it").click()
        expect(page.locator(".asks")).to_contain_text("Are distances in")
        expect(page.get_by_role("button", name="draw the house")).to_be_disabled()
        expect(page.locator("#why")).to_have_text("First answer the 2 questions in bold above.")
        page.locator(".asks select[data-key=distance]").select_option("ft")
        expect(page.locator(".asks")).not_to_contain_text("Are distances in")
        page.locator(".asks select[data-key=posted]").select_option("lb")
        expect(page.locator("#why")).to_have_text("")
        page.locator("#house").fill("Alder Yard")
        page.get_by_role("button", name="draw the house").click()
        page.wait_for_url("**/schedule?drawn")
        page.locator("#file").set_input_files(path)
        page.get_by_role("button", name="read it").click()
        expect(page.locator("#schedule h2").first).to_have_text("birch.xlsx, sheet Flybars: 6 sets understood")
        with page.expect_download() as download:
            page.get_by_role("button", name="keep it as a file").click()
        text = Path(download.value.path()).read_text("utf-8")
        browser.close()
    assert complaints == []
    assert read_house(drawn[0]).name == "Alder Yard"
    assert (read_house(text).name, len(read_house(text).sets)) == ("birch", 6)


@pytest.mark.browser
@pytest.mark.parametrize("width", [390, 1400])
def test_the_page_fits_its_window_and_every_control_is_48_px_high(
    chromium_path: str, drawn: list[str], width: int
) -> None:
    # 44 px at the least: WCAG 2.2, 2.5.5; 48 for a hand in a glove is the house's own figure.
    with Site(drawn) as address, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium_path, args=["--no-sandbox", "--disable-gpu"])
        page = browser.new_page(viewport={"width": width, "height": 844})
        page.goto(f"{address}/schedule")
        page.locator("#cells").fill(invented.us_59() + "\n60\t50'-0\"\t2P")
        page.get_by_role("button", name="read it").click()
        expect(page.locator(".asks")).to_contain_text('1 cell says "2P"')
        assert page.evaluate("document.documentElement.scrollHeight") < 2000
        for fold in page.locator("#schedule summary").all():
            fold.click()
        assert page.evaluate("document.documentElement.scrollWidth") == width
        heights = page.evaluate("""[...document.querySelectorAll("button, select, summary, input, .plain")]
            .filter((one) => one.offsetParent).map((one) => one.getBoundingClientRect().height)""")
        browser.close()
    assert len(heights) > 10
    assert min(heights) >= 48


# --- the page -------------------------------------------------------------------------------------------------------


@pytest.fixture
def drawn() -> list[str]:
    return []


@pytest.fixture
def client(drawn: list[str]) -> TestClient:
    def draw(text: str) -> str:
        drawn.append(text)
        return "/"

    app = FastAPI()
    app.include_router(routes(draw, lambda: "2026-11-25T10:00:00+00:00"))
    return TestClient(app)


def test_the_page_has_no_script_or_style_of_its_own(client: TestClient) -> None:
    page = client.get("/schedule").text
    assert "<textarea" in page
    assert 'src="/static/schedule.js"' in page
    assert "<style" not in page
    assert " style=" not in page
    assert "onclick" not in page


def test_pasted_cells_are_shown_with_what_was_and_was_not_understood(client: TestClient) -> None:
    told = client.post("/api/schedule", json={"text": invented.prose()}).json()
    assert told["may_draw"] is True
    assert "stands already in A4" in told["html"]
    assert 'data-told="columns" data-key="Distance"' in told["html"]


def test_a_file_is_read_and_its_house_is_drawn(client: TestClient, drawn: list[str]) -> None:
    given = {"name": "plot.xlsx", "file": base64.b64encode(invented.uk_bars()).decode(), "house": "Birch Hall"}
    assert "6 sets understood" in client.post("/api/schedule", json=given).json()["html"]
    assert client.post("/api/schedule/draw", json=given).json() == {"address": "/"}
    house = read_house(drawn[0])
    assert (house.name, len(house.sets)) == ("Birch Hall", 6)
    assert client.post("/api/schedule/house", json=given).json()["house"] == drawn[0]


def test_a_question_keeps_the_house_from_being_drawn_until_it_is_answered(client: TestClient) -> None:
    given = {"text": invented.bare_numbers()}
    told = client.post("/api/schedule", json=given).json()
    assert told["may_draw"] is False
    assert 'data-told="units" data-key="distance"' in told["html"]
    answered = {**given, "units": {"distance": "ft", "posted": "lb"}}
    assert client.post("/api/schedule", json=answered).json()["may_draw"] is True


def test_questions_and_columns_come_first_then_drawing_and_the_rest_is_folded(client: TestClient) -> None:
    html = client.post("/api/schedule", json={"text": invented.bare_numbers()}).json()["html"]
    order = ['class="asks"', 'data-fold="columns"', 'data-act="draw"', "Not understood:", 'data-fold="sets"']
    assert sorted(order, key=html.index) == order
    assert html.count("<details") == 2
    assert " open" not in html
    assert 'data-act="draw" disabled aria-describedby="why"' in html


def test_the_columns_stand_open_where_they_are_asked_about(client: TestClient) -> None:
    html = client.post("/api/schedule", json={"text": invented.no_heading()}).json()["html"]
    assert 'data-fold="columns" open' in html


def test_a_word_is_answered_on_the_page_and_the_answer_can_be_taken_back(client: TestClient) -> None:
    given = {"text": invented.pasted(("Line", "Dist", "Purchase"), ("1", "1'", "2P"))}
    assert 'data-told="words" data-key="purchase: 2P"' in client.post("/api/schedule", json=given).json()["html"]
    told = client.post("/api/schedule", json={**given, "words": {"purchase: 2P": "double"}}).json()
    assert "0 cells not understood" in told["says"]
    assert "take it back" in told["html"]


def test_words_of_a_cell_are_never_markup(client: TestClient) -> None:
    text = invented.pasted(("Line", "Dist", "<b>Spare</b>"), ("1", "1'", "<script>alert(1)</script>"))
    html = client.post("/api/schedule", json={"text": text}).json()["html"]
    assert "<script" not in html
    assert "<b>" not in html


def test_what_the_page_may_send_is_bounded_and_named(client: TestClient) -> None:
    assert set(LARGE) >= {"/api/schedule", "/api/schedule/house", "/api/schedule/draw"}
    assert LARGEST_TEXT == 12 * 1024 * 1024
    assert client.post("/api/schedule", json={"text": "x" * 8_000_001}).status_code == 422
    assert client.post("/api/schedule", json={"text": "x", "more": 1}).status_code == 422
