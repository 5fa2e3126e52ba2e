"""The pages and their small API over one workspace."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import UTC, date, datetime
from importlib.resources import files
from pathlib import Path

from fastapi import APIRouter, FastAPI
from fastapi.exceptions import RequestValidationError
from fastapi.staticfiles import StaticFiles
from htpy import Element, fragment
from starlette.exceptions import HTTPException
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, Response

from counterpoise.app import Texts
from counterpoise.app.demo import blank_house
from counterpoise.app.houses import FIRST, Houses
from counterpoise.app.workspace import Now, Workspace, stations_of, write_figure
from counterpoise.checks import SetResult, explain
from counterpoise.drawing import sheet, workings_of
from counterpoise.errors import BadDocument, CounterpoiseError, Refused
from counterpoise.store import Conflict, Store
from counterpoise.units import Style
from counterpoise.web.bodies import Back, Blank, Hang, Move, Rewrite, Write
from counterpoise.web.call_page import call_page
from counterpoise.web.guard import guard
from counterpoise.web.hang_part import hang
from counterpoise.web.house_page import house_page, travel_table
from counterpoise.web.houses_page import houses_page
from counterpoise.web.schedule_page import routes as schedule_routes
from counterpoise.web.set_page import response_table, set_page, set_sheet
from counterpoise.web.speaking import in_words, rooted, table_in_words
from counterpoise.web.story_page import problem_page, story_page, story_part, theory_page, theory_text
from counterpoise.web.words import trade_words
from counterpoise.web.writing_page import DOCUMENTS, text_page

LOCAL = frozenset({"localhost", "127.0.0.1", "::1"})


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
    houses = Houses(kept, today=lambda: date.fromisoformat(clock()[:10]))
    houses.called_new(FIRST).begin(texts, at=clock())
    app = FastAPI(title="counterpoise", docs_url=None, redoc_url=None, openapi_url=None)
    app.middleware("http")(guard(hosts))
    app.add_middleware(GZipMiddleware, minimum_size=1000)
    static = Path(str(files("counterpoise.web").joinpath("static")))
    app.mount("/static", StaticFiles(directory=static), name="static")
    _say_problems(app)
    _list(app, houses, clock)
    app.include_router(schedule_routes(lambda text: f"/house/{houses.take_in(text, at=clock())}/", clock))
    for prefix in ("", "/house/{house}"):  # the first house, and each of the others
        router = APIRouter(prefix=prefix)
        _show(router, houses)
        _answer(router, houses, clock)
        app.include_router(router)
    return app


def serve(texts: Texts, port: int = 8500, db: str | Path | None = None, host: str = "127.0.0.1") -> None:
    """Serve the pages until stopped. Only this machine reaches them unless another `host` is given."""
    import uvicorn

    hosts = LOCAL if host in LOCAL else None
    uvicorn.run(create_app(db, texts, hosts=hosts), host=host, port=port, log_level="warning", server_header=False)


def _list(app: FastAPI, houses: Houses, clock: Callable[[], str]) -> None:
    """What is not of one house."""

    @app.get("/houses")
    def kept() -> HTMLResponse:
        named = [("/" if name == FIRST else f"/house/{name}/", called, name) for name, called in houses.names()]
        return _html(houses_page(named))

    @app.post("/api/houses")
    def begin(asked: Blank) -> JSONResponse:
        text = blank_house(json.dumps(asked.name, ensure_ascii=False), asked.units, asked.sets, asked.purchase)
        return JSONResponse({"address": f"/house/{houses.take_in(text, at=clock())}/"})

    @app.get("/theory/{name}")
    def theory(name: str) -> HTMLResponse:
        text = theory_text(name)
        if text is None:
            raise NotFound(f"There is no page of theory {name} here", "It stands with the source of this program.")
        return _html(theory_page(name, text))

    @app.get("/drawing.css")
    def ink() -> Response:
        return Response(sheet(), media_type="text/css")

    @app.get("/favicon.ico")
    def icon() -> Response:
        return Response(
            files("counterpoise.web").joinpath("static", "icon.svg").read_bytes(), media_type="image/svg+xml"
        )


def _of(request: Request, houses: Houses) -> Workspace:
    """The house that an address names, the first where it names none."""
    return houses.called(request.path_params.get("house", FIRST))


def _show(router: APIRouter, houses: Houses) -> None:
    """What is looked at."""

    @router.get("/")
    def house(request: Request) -> HTMLResponse:
        now = _of(request, houses).now()
        return _html(house_page(now), now=now, request=request)

    @router.get("/set/{label:path}")
    def one_set(request: Request, label: str) -> HTMLResponse:
        now = _of(request, houses).now()
        return _html(set_page(now, _set(now, label)), now=now, request=request)

    @router.get("/load-in")
    def load_in(request: Request) -> HTMLResponse:
        now = _of(request, houses).now()
        return _html(call_page(now), now=now, request=request)

    @router.get("/explain/{key:path}")
    def story(request: Request, key: str, part: bool = False) -> HTMLResponse:
        now = _of(request, houses).now()
        told = explain(now.result, key)
        if told is None:
            raise NotFound(f"There is no figure {key}", "It may have gone with a change; look at its set.")
        label = next((one.label for one in now.result.sets for row in one.rows if row.key == key), None)
        workings = workings_of(now.result, key)
        shown = story_part(told, workings) if part else story_page(told, label, workings)
        return _html(shown, now=now, request=request)

    @router.get("/text/{kind}")
    def text(request: Request, kind: str) -> HTMLResponse:
        workspace = _of(request, houses)
        if kind not in DOCUMENTS:
            raise NotFound(f"There is no document {kind}", "There are a house, a show and a hang.")
        kept = workspace.text(kind)
        return _html(text_page(workspace.now(), kind, kept.text, kept.number), request=request)

    @router.get("/text/{kind}/file")
    def file(request: Request, kind: str) -> Response:
        if kind not in DOCUMENTS:
            raise NotFound(f"There is no document {kind}", "There are a house, a show and a hang.")
        kept = _of(request, houses).text(kind).text
        return Response(kept, media_type="application/yaml",
                        headers={"Content-Disposition": f'attachment; filename="{kind}.yaml"'})  # fmt: skip


def _answer(router: APIRouter, houses: Houses, clock: Callable[[], str]) -> None:
    """What the pages ask for, and what they change."""

    @router.get("/api/house/travel")
    def travel(request: Request) -> JSONResponse:
        now = _of(request, houses).now()
        return _table(travel_table(now.result), now)

    @router.get("/api/set/{label:path}/response")
    def response(request: Request, label: str, piece: int, layout: str = "wide") -> JSONResponse:
        now = _of(request, houses).now()
        one = _set(now, label)
        table = response_table(one, stations_of(now, label, piece), _style(now), narrow=layout == "narrow")
        return _table(table, now)

    @router.get("/api/set/{label:path}/now")
    def stands(request: Request, label: str) -> JSONResponse:
        return _sheet(_of(request, houses).now(), label, request)

    @router.post("/api/set/{label:path}/move")
    def move(request: Request, label: str, asked: Move) -> JSONResponse:
        now = _of(request, houses).move(label, asked.piece, asked.centre, base=asked.base, operation=asked.operation,
                                        at=clock())  # fmt: skip
        return _sheet(now, label, request)

    @router.post("/api/set/{label:path}/undo")
    def undo(request: Request, label: str, asked: Back) -> JSONResponse:
        now = _of(request, houses).undo(base=asked.base, operation=asked.operation, at=clock())
        return _sheet(now, label, request)

    @router.post("/api/write")
    def write(request: Request, asked: Write) -> JSONResponse:
        workspace = _of(request, houses)
        write_figure(
            workspace, asked.document, asked.paths, asked.seen, asked.value, operation=asked.operation, at=clock()
        )
        said = asked.paths[0].rpartition(".")[2]
        kept = workspace.text(asked.document).number
        return JSONResponse({"says": f"Kept: {said} {asked.value}, revision {kept} of the {asked.document}."})

    @router.post("/api/set/{label:path}/hang")
    def hang_piece(request: Request, label: str, asked: Hang) -> JSONResponse:
        workspace = _of(request, houses)
        _set(workspace.now(), label)
        words = asked.model_dump(exclude={"operation"})
        now = hang(workspace, label, words, operation=asked.operation, at=clock())
        return JSONResponse({"says": f"Kept as revision {now.revision}: {now.note}."})

    @router.post("/api/text")
    def text(request: Request, asked: Rewrite) -> JSONResponse:
        workspace = _of(request, houses)
        workspace.rewrite(asked.document, asked.text, base=asked.base, operation=asked.operation, at=clock())
        return JSONResponse({"revision": workspace.text(asked.document).number})


def _sheet(now: Now, label: str, request: Request) -> JSONResponse:
    html = rooted(in_words(str(fragment[set_sheet(now, _set(now, label))]), now.result.speech()), _root(request))
    return JSONResponse({"revision": now.revision, "may_undo": now.may_undo, "html": html,
                         "says": f"Kept as revision {now.revision}: {now.note}."})  # fmt: skip


def _html(page: Element, status: int = 200, now: Now | None = None, request: Request | None = None) -> HTMLResponse:
    """A page, in the words of the house it speaks of and with the addresses of that house."""
    markup = str(page)
    if now is not None:
        markup = in_words(markup, now.result.speech())
    return HTMLResponse(markup if request is None else rooted(markup, _root(request)), status_code=status)


def _root(request: Request) -> str:
    """What stands before the addresses of a house's pages: nothing for the first."""
    house = request.path_params.get("house")
    return f"/house/{house}" if house else ""


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
        if "/api/" in request.url.path:
            told: dict[str, object] = {"says": " ".join(says), "mend": ""}
            in_text = request.url.path.endswith("/api/text")  # where the line is sought by its number
            if isinstance(error, BadDocument) and not in_text:
                told = {"says": " ".join(map(trade_words, error.problems)), "mend": "", "where": says}
            return JSONResponse(told, status_code=status)
        return _html(problem_page("This cannot be shown", says), status)

    def unclear(request: Request, error: Exception) -> Response:
        del request, error
        return JSONResponse({"says": "This request is not one the pages make.", "mend": "Load the page again."},
                            status_code=422)  # fmt: skip

    def absent(request: Request, error: Exception) -> Response:
        status = error.status_code if isinstance(error, HTTPException) else 500
        if "/api/" in request.url.path:
            return JSONResponse({"says": "There is nothing here.", "mend": ""}, status_code=status)
        return _html(problem_page("There is nothing here", [f"This program has no page {request.url.path}."]), status)

    app.add_exception_handler(HTTPException, absent)
    app.add_exception_handler(CounterpoiseError, said)
    app.add_exception_handler(RequestValidationError, unclear)
