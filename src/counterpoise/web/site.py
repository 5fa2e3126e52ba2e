"""The pages and their small API over one workspace."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime
from importlib.resources import files
from pathlib import Path

from fastapi import FastAPI
from fastapi.exceptions import RequestValidationError
from fastapi.staticfiles import StaticFiles
from htpy import Element, fragment
from pydantic import BaseModel, ConfigDict, Field
from starlette.exceptions import HTTPException
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, Response

from counterpoise.app import Texts
from counterpoise.app.workspace import Now, Workspace, stations_of
from counterpoise.checks import SetResult, explain
from counterpoise.errors import BadDocument, CounterpoiseError, Refused
from counterpoise.store import Conflict, Store
from counterpoise.units import Style
from counterpoise.web.guard import guard
from counterpoise.web.house_page import house_page, travel_table
from counterpoise.web.set_page import response_table, set_page, set_sheet
from counterpoise.web.speaking import in_words, table_in_words
from counterpoise.web.story_page import problem_page, story_page, story_part

LOCAL = frozenset({"localhost", "127.0.0.1", "::1"})


class _Body(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True)


class Back(_Body):
    """Take the last move back."""

    base: int = Field(ge=1)
    operation: str = Field(min_length=16, max_length=64, pattern="^[0-9a-zA-Z-]+$")


class Move(Back):
    """Hang a piece elsewhere along its batten."""

    piece: int = Field(ge=0, le=999)
    centre: str = Field(min_length=1, max_length=60)


class NotFound(Refused):
    """There is no such set or figure."""


def create_app(
    store: Store | str | Path | None, texts: Texts, *, hosts: frozenset[str] | None = LOCAL,
    clock: Callable[[], str] = lambda: datetime.now(UTC).isoformat(timespec="seconds"),
) -> FastAPI:  # fmt: skip
    """The pages as an application.

    Args:
        store: where changes are kept: a Store, the path of an SQLite file, or None for memory only.
        texts: house, show and hang to begin with; a hang kept earlier goes on.
        hosts: names this program answers to; None for any.
        clock: tells the time that is written beside a change.
    """
    kept = store if isinstance(store, Store) else Store.in_file(store) if store else Store("sqlite://")
    workspace = Workspace(kept, today=lambda: date.fromisoformat(clock()[:10]))
    workspace.begin(texts, at=clock())
    app = FastAPI(title="counterpoise", docs_url=None, redoc_url=None, openapi_url=None)
    app.middleware("http")(guard(hosts))
    app.add_middleware(GZipMiddleware, minimum_size=1000)
    static = Path(str(files("counterpoise.web").joinpath("static")))
    app.mount("/static", StaticFiles(directory=static), name="static")
    _say_problems(app)
    _show(app, workspace)
    _answer(app, workspace, clock)
    return app


def serve(texts: Texts, port: int = 8500, db: str | Path | None = None, host: str = "127.0.0.1") -> None:
    """Serve the pages until stopped. Only this machine reaches them unless another `host` is given."""
    import uvicorn

    hosts = LOCAL if host in LOCAL else None
    uvicorn.run(create_app(db, texts, hosts=hosts), host=host, port=port, log_level="warning", server_header=False)


def _show(app: FastAPI, workspace: Workspace) -> None:
    """What is looked at."""

    @app.get("/")
    def house() -> HTMLResponse:
        now = workspace.now()
        return _html(house_page(now), now=now)

    @app.get("/set/{label:path}")
    def one_set(label: str) -> HTMLResponse:
        now = workspace.now()
        return _html(set_page(now, _set(now, label)), now=now)

    @app.get("/explain/{key:path}")
    def story(key: str, part: bool = False) -> HTMLResponse:
        now = workspace.now()
        told = explain(now.result, key)
        if told is None:
            raise NotFound(f"There is no figure {key}", "It may have gone with a change; look at its set.")
        label = next(one.label for one in now.result.sets for row in one.rows if row.key == key)
        return _html(story_part(told) if part else story_page(told, label), now=now)

    @app.get("/favicon.ico")
    def icon() -> Response:
        return Response(
            files("counterpoise.web").joinpath("static", "icon.svg").read_bytes(), media_type="image/svg+xml"
        )


def _answer(app: FastAPI, workspace: Workspace, clock: Callable[[], str]) -> None:
    """What the pages ask for, and what they change."""

    @app.get("/api/house/travel")
    def travel() -> JSONResponse:
        now = workspace.now()
        return _table(travel_table(now.result), now)

    @app.get("/api/set/{label:path}/response")
    def response(label: str, piece: int, layout: str = "wide") -> JSONResponse:
        now = workspace.now()
        one = _set(now, label)
        table = response_table(one, stations_of(now, label, piece), _style(now), narrow=layout == "narrow")
        return _table(table, now)

    @app.get("/api/set/{label:path}/now")
    def stands(label: str) -> JSONResponse:
        return _sheet(workspace.now(), label)

    @app.post("/api/set/{label:path}/move")
    def move(label: str, asked: Move) -> JSONResponse:
        now = workspace.move(label, asked.piece, asked.centre, base=asked.base, operation=asked.operation, at=clock())
        return _sheet(now, label)

    @app.post("/api/set/{label:path}/undo")
    def undo(label: str, asked: Back) -> JSONResponse:
        return _sheet(workspace.undo(base=asked.base, operation=asked.operation, at=clock()), label)


def _sheet(now: Now, label: str) -> JSONResponse:
    html = in_words(str(fragment[set_sheet(now, _set(now, label))]), now.result.speech())
    return JSONResponse({"revision": now.revision, "may_undo": now.may_undo, "html": html,
                         "says": f"Kept as revision {now.revision}: {now.note}."})  # fmt: skip


def _html(page: Element, status: int = 200, now: Now | None = None) -> HTMLResponse:
    """A page, in the words of the house it speaks of."""
    markup = str(page)
    return HTMLResponse(markup if now is None else in_words(markup, now.result.speech()), status_code=status)


def _table(table: object, now: Now) -> JSONResponse:
    return JSONResponse(table_in_words(table, now.result.speech()))


def _set(now: Now, label: str) -> SetResult:
    found = now.result.set_called(label)
    if found is None:
        raise NotFound(f"There is no set {label} in this house", "Open one from the house.")
    return found


def _style(now: Now) -> Style:
    return Style(now.result.house.house.units)  # type: ignore[arg-type]  # the document allows just these two words


def _say_problems(app: FastAPI) -> None:
    """Errors of ours in the words they were raised with; an API asks for JSON, a person for a page."""

    def said(request: Request, error: Exception) -> Response:
        status = 409 if isinstance(error, Conflict) else 404 if isinstance(error, NotFound) else 422
        says = [str(one) for one in error.problems] if isinstance(error, BadDocument) else [str(error)]
        if request.url.path.startswith("/api/"):
            return JSONResponse({"says": " ".join(says), "mend": ""}, status_code=status)
        return _html(problem_page("This cannot be shown", says), status)

    def unclear(request: Request, error: Exception) -> Response:
        del request, error
        return JSONResponse({"says": "This request is not one the pages make.", "mend": "Load the page again."},
                            status_code=422)  # fmt: skip

    def absent(request: Request, error: Exception) -> Response:
        status = error.status_code if isinstance(error, HTTPException) else 500
        if request.url.path.startswith("/api/"):
            return JSONResponse({"says": "There is nothing here.", "mend": ""}, status_code=status)
        return _html(problem_page("There is nothing here", [f"This program has no page {request.url.path}."]), status)

    app.add_exception_handler(HTTPException, absent)
    app.add_exception_handler(CounterpoiseError, said)
    app.add_exception_handler(RequestValidationError, unclear)
