"""The pages and their small API over one workspace."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import UTC, date, datetime
from importlib.resources import files
from pathlib import Path

from fastapi import APIRouter, FastAPI
from fastapi.staticfiles import StaticFiles
from htpy import fragment
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, RedirectResponse, Response

from counterpoise.app import Texts
from counterpoise.app.demo import blank_house
from counterpoise.app.houses import FIRST, Houses, address_of
from counterpoise.app.stations import stations_of
from counterpoise.app.workspace import Now, Workspace, write_figure
from counterpoise.checks import SetResult, explain
from counterpoise.drawing import sheet, workings_of
from counterpoise.errors import Refused
from counterpoise.store import Revision, Store
from counterpoise.units import Style
from counterpoise.web.answers import NotFound, html_of, kept_word, root_of, say_problems
from counterpoise.web.bodies import Back, Blank, Hang, Move, Retype, Rewrite, Write
from counterpoise.web.call_page import call_page
from counterpoise.web.guard import guard
from counterpoise.web.hang_part import hang
from counterpoise.web.house_page import house_page, travel_table
from counterpoise.web.houses_page import Listed, houses_page
from counterpoise.web.manual_page import manual_page, manual_text
from counterpoise.web.schedule_page import routes as schedule_routes
from counterpoise.web.set_page import EVERY, NEAR, response_table, set_page, set_sheet, take_back_words
from counterpoise.web.speaking import in_words, rooted, table_in_words
from counterpoise.web.step_page import step_page
from counterpoise.web.story_page import story_page, story_part
from counterpoise.web.writing_page import DOCUMENTS, Written, text_page

LOCAL = frozenset({"localhost", "127.0.0.1", "::1"})


def create_app(
    store: Houses | Store | str | Path | None, texts: Texts | None = None, *, hosts: frozenset[str] | None = LOCAL,
    clock: Callable[[], str] = lambda: datetime.now(UTC).isoformat(timespec="seconds"),
) -> FastAPI:  # fmt: skip
    """The pages as an application.

    Args:
        store: where changes are kept: houses or a Store of them, the path of an SQLite file, or None for memory only.
        texts: house, show and hang as their files read; None for what is kept. `take_files` tells which is shown.
        hosts: names this program answers to; None for any.
        clock: tells the time that is written beside a change.
    """
    houses = store if isinstance(store, Houses) else _houses(store, clock)
    if texts is not None:
        houses.open_files(texts, at=clock())
    app = FastAPI(title="counterpoise", docs_url=None, redoc_url=None, openapi_url=None)
    app.state.is_passing = not houses.file
    app.middleware("http")(guard(hosts))
    app.add_middleware(GZipMiddleware, minimum_size=1000)
    static = Path(str(files("counterpoise.web").joinpath("static")))
    app.mount("/static", StaticFiles(directory=static), name="static")
    say_problems(app)
    _list(app, houses, clock)
    app.include_router(schedule_routes(lambda text: address_of(houses.take_in(text, at=clock())), clock))
    for prefix in ("", "/house/{house}"):  # the first house, and each of the others
        router = APIRouter(prefix=prefix)
        _show(router, houses)
        _answer(router, houses, clock)
        app.include_router(router)
    return app


def serve(houses: Houses, port: int = 8500, host: str = "127.0.0.1") -> None:
    """Serve the pages until stopped. Only this machine reaches them unless another `host` is given."""
    import uvicorn

    hosts = LOCAL if host in LOCAL else None
    uvicorn.run(create_app(houses, hosts=hosts), host=host, port=port, log_level="warning", server_header=False)


def _houses(store: Store | str | Path | None, clock: Callable[[], str]) -> Houses:
    kept = store if isinstance(store, Store) else Store.in_file(store) if store else Store("sqlite://")
    return Houses(kept, today=lambda: date.fromisoformat(clock()[:10]))


def _list(app: FastAPI, houses: Houses, clock: Callable[[], str]) -> None:
    """What is not of one house."""

    @app.get("/houses")
    def kept(request: Request) -> HTMLResponse:
        listed = [Listed(address=address_of(name), called=called, trouble=houses.called(name).trouble())
                  for name, called in houses.names()]  # fmt: skip
        return html_of(houses_page(listed, lasts=bool(houses.file)), request=request)

    @app.post("/api/houses")
    def begin(asked: Blank) -> JSONResponse:
        text = blank_house(json.dumps(asked.name, ensure_ascii=False), asked.units, asked.sets, asked.purchase)
        return JSONResponse({"address": address_of(houses.take_in(text, at=clock()))})

    @app.get("/theory/{name}")
    def theory(request: Request, name: str) -> HTMLResponse:
        text = manual_text(name)
        if text is None:
            raise NotFound(f"There is no page {name} of the manual here", "It stands with the source of this program.")
        return html_of(manual_page(name, text), request=request)

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
    try:
        return houses.called(request.path_params.get("house", FIRST))
    except Refused as error:
        raise NotFound(error.says, error.mend) from None


def _show(router: APIRouter, houses: Houses) -> None:
    """What is looked at."""

    @router.get("/")
    def house(request: Request) -> Response:
        if "house" not in request.path_params and not houses.has_first():
            return RedirectResponse("/houses", status_code=303)
        now = _of(request, houses).now()
        return html_of(house_page(now), now=now, request=request)

    @router.get("/set/{label:path}")
    def one_set(request: Request, label: str) -> HTMLResponse:
        workspace = _of(request, houses)
        now = workspace.now()
        shown = set_page(now, _set(now, label), workspace.may_take_back(label))
        return html_of(shown, now=now, request=request)

    @router.get("/load-in")
    def load_in(request: Request) -> HTMLResponse:
        now = _of(request, houses).now()
        return html_of(call_page(now), now=now, request=request)

    @router.get("/load-in/step")
    def step(request: Request, n: int = 1) -> HTMLResponse:
        now = _of(request, houses).now()
        return html_of(step_page(now, n), now=now, request=request)

    @router.get("/explain/{key:path}")
    def story(request: Request, key: str, part: bool = False) -> HTMLResponse:
        now = _of(request, houses).now()
        told = explain(now.result, key)
        if told is None:
            raise NotFound(f"There is no figure {key}", "It may have gone with a change; look at its set.")
        label = next((one.label for one in now.result.sets for row in one.rows if row.key == key), None)
        workings = workings_of(now.result, key)
        shown = story_part(told, workings) if part else story_page(told, label, workings)
        return html_of(shown, now=now, request=request)

    @router.get("/text/{kind}")
    def text(request: Request, kind: str, revision: int | None = None) -> HTMLResponse:
        if kind not in DOCUMENTS:
            raise NotFound(f"There is no document {kind}", "There are a house, a show and a hang.")
        shown = text_page(_written(_of(request, houses), kind, revision, houses.file))
        return html_of(shown, request=request)

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
    def response(
        request: Request, label: str, piece: int, layout: str = "wide", fine: bool = False
    ) -> JSONResponse:  # fmt: skip
        now = _of(request, houses).now()
        one, style = _set(now, label), _style(now)
        stations = stations_of(now, label, piece, EVERY[style.system], NEAR if fine else 0.0)
        return _table(response_table(one, stations, style, narrow=layout == "narrow"), now)

    @router.get("/api/set/{label:path}/now")
    def stands(request: Request, label: str) -> JSONResponse:
        return _sheet(_of(request, houses), label, request)

    @router.post("/api/set/{label:path}/move")
    def move(request: Request, label: str, asked: Move) -> JSONResponse:
        workspace = _of(request, houses)
        workspace.move(label, asked.piece, asked.centre, base=asked.base, operation=asked.operation, at=clock())
        return _sheet(workspace, label, request)

    @router.post("/api/set/{label:path}/undo")
    def undo(request: Request, label: str, asked: Back) -> JSONResponse:
        workspace = _of(request, houses)
        _set(workspace.now(), label)
        workspace.undo(label, base=asked.base, operation=asked.operation, at=clock())
        return _sheet(workspace, label, request)

    @router.post("/api/write")
    def write(request: Request, asked: Write) -> JSONResponse:
        workspace = _of(request, houses)
        write_figure(
            workspace, asked.document, asked.paths, asked.seen, asked.value, operation=asked.operation, at=clock()
        )
        said = asked.paths[0].rpartition(".")[2]
        kept = workspace.text(asked.document).number
        told = f"{kept_word(request)}: {said} {asked.value}, revision {kept} of the {asked.document}."
        return JSONResponse({"says": told})

    @router.post("/api/set/{label:path}/hang")
    def hang_piece(request: Request, label: str, asked: Hang) -> JSONResponse:
        workspace = _of(request, houses)
        _set(workspace.now(), label)
        words = asked.model_dump(exclude={"operation"})
        now = hang(workspace, label, words, operation=asked.operation, at=clock())
        return JSONResponse({"says": f"{kept_word(request)} as revision {now.revision}: {now.note}."})

    @router.post("/api/text/undo")
    def typed(request: Request, asked: Retype) -> JSONResponse:
        workspace = _of(request, houses)
        kept = workspace.retype(asked.document, base=asked.base, operation=asked.operation, at=clock())
        return _retyped(request, workspace, kept)

    @router.post("/api/text")
    def text(request: Request, asked: Rewrite) -> JSONResponse:
        workspace = _of(request, houses)
        kept = workspace.rewrite(asked.document, asked.text, base=asked.base, operation=asked.operation, at=clock())
        return _retyped(request, workspace, kept)


def _retyped(request: Request, workspace: Workspace, kept: Revision) -> JSONResponse:
    trouble = workspace.trouble()
    more = f" It still cannot be shown: {trouble}" if trouble else ""
    return JSONResponse({"revision": kept.number, "says": f"{kept_word(request)} as revision {kept.number}.{more}"})


def _written(workspace: Workspace, kind: str, revision: int | None, file: str) -> Written:
    """A document's text, whether or not it can be judged. Raises NotFound where there is no such revision."""
    history = workspace.history(kind)
    newest = history[0].number if history else 0
    number = newest if revision is None else revision
    kept = workspace.revision(kind, number)
    if kept is None and number:
        raise NotFound(f"There is no revision {number} of the {kind}", "Open one from the list below its text.")
    return Written(called=workspace.called(), kind=kind, text=kept.text if kept is not None else "", number=number,
                   newest=newest, back=workspace.may_retype(kind), history=history, file=file)  # fmt: skip


def _sheet(workspace: Workspace, label: str, request: Request) -> JSONResponse:
    now = workspace.now()
    speech = now.result.speech()
    html = rooted(in_words(str(fragment[set_sheet(now, _set(now, label))]), speech), root_of(request))
    told = f"{kept_word(request)} as revision {now.revision}: {now.note}."
    return JSONResponse({"revision": now.revision, "back": speech(take_back_words(workspace.may_take_back(label))),
                         "html": html, "says": speech(told)})  # fmt: skip


def _table(table: object, now: Now) -> JSONResponse:
    return JSONResponse(table_in_words(table, now.result.speech()))


def _set(now: Now, label: str) -> SetResult:
    found = now.result.set_called(label)
    if found is None:
        raise NotFound(f"There is no set {label} in this house", "Open one from the house.")
    return found


def _style(now: Now) -> Style:
    return Style(now.result.house.house.units)  # type: ignore[arg-type]  # the document allows just these two words
