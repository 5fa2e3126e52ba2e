"""Pages as they go out, and errors in the words they were raised with."""

from __future__ import annotations

import re
from pathlib import PurePath

from fastapi import FastAPI
from fastapi.exceptions import RequestValidationError
from htpy import Element
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, Response

from counterpoise.app.workspace import Now
from counterpoise.errors import BadDocument, CounterpoiseError, Problem, Refused
from counterpoise.store import Conflict
from counterpoise.web.speaking import in_words, rooted
from counterpoise.web.story_page import problem_page
from counterpoise.web.words import trade_words

_MAIN = re.compile('<main id="main" tabindex="-1">')  # as `frame.page` begins what is read
ELSEWHERE = (("/houses", "all houses"),)
MENDS = (("/text/house", "mend the house"), ("/text/show", "the show"), ("/text/hang", "the hang, each as text"),
         *ELSEWHERE)  # fmt: skip
PASSING = "What is written here goes when the program stops; serve a house file, or --db FILE, and it stays."


class NotFound(Refused):
    """There is no such set or figure."""


def html_of(page: Element, status: int = 200, now: Now | None = None, request: Request | None = None) -> HTMLResponse:
    """A page, in the words of the house it speaks of and with the addresses of that house."""
    markup = str(page)
    if now is not None:
        markup = in_words(markup, now.result.speech())
    if request is not None:
        markup = rooted(markup, root_of(request))
        if is_passing(request):
            markup = _MAIN.sub(lambda main: f'{main[0]}<p class="passing">{PASSING}</p>', markup, count=1)
    return HTMLResponse(markup, status_code=status)


def is_passing(request: Request) -> bool:
    """Whether what is written is in memory alone, and goes with the program."""
    return bool(getattr(request.app.state, "is_passing", False))


def kept_word(request: Request) -> str:
    """How a write that was taken is told: as kept only where it lasts."""
    return "Held until the program stops" if is_passing(request) else "Kept"


def root_of(request: Request) -> str:
    """What stands before the addresses of a house's pages: nothing for the first."""
    house = request.path_params.get("house")
    return f"/house/{house}" if house else ""


def _placed(one: Problem) -> dict[str, object]:
    """A problem with the document and the line that it stands at, for a page that leads there."""
    return {"document": PurePath(one.file).stem, "line": one.line, "says": str(one).partition("  ")[2]}


def say_problems(app: FastAPI) -> None:
    """Errors of ours in the words they were raised with; an API asks for JSON, a person for a page."""

    def said(request: Request, error: Exception) -> Response:
        status = 409 if isinstance(error, Conflict) else 404 if isinstance(error, NotFound) else 422
        says = [str(one) for one in error.problems] if isinstance(error, BadDocument) else [str(error)]
        if "/api/" in request.url.path:
            told: dict[str, object] = {"says": " ".join(says), "mend": ""}
            if isinstance(error, BadDocument):
                told = {"says": " ".join(map(trade_words, error.problems)), "mend": "", "where": says,
                        "problems": [_placed(one) for one in error.problems]}  # fmt: skip
            return JSONResponse(told, status_code=status)
        ways = ELSEWHERE if isinstance(error, NotFound) else MENDS
        return html_of(problem_page("This cannot be shown", says, ways=ways), status, request=request)

    def unclear(request: Request, error: Exception) -> Response:
        del request, error
        return JSONResponse({"says": "This request is not one the pages make.", "mend": "Load the page again."},
                            status_code=422)  # fmt: skip

    def absent(request: Request, error: Exception) -> Response:
        status = error.status_code if isinstance(error, HTTPException) else 500
        if "/api/" in request.url.path:
            return JSONResponse({"says": "There is nothing here.", "mend": ""}, status_code=status)
        return html_of(problem_page("There is nothing here", [f"This program has no page {request.url.path}."]), status)

    app.add_exception_handler(HTTPException, absent)
    app.add_exception_handler(CounterpoiseError, said)
    app.add_exception_handler(RequestValidationError, unclear)
