"""Pages as they go out, and errors in the words they were raised with."""

from __future__ import annotations

from fastapi import FastAPI
from fastapi.exceptions import RequestValidationError
from htpy import Element
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, Response

from counterpoise.app.workspace import Now
from counterpoise.errors import BadDocument, CounterpoiseError, Refused
from counterpoise.store import Conflict
from counterpoise.web.speaking import in_words, rooted
from counterpoise.web.story_page import problem_page
from counterpoise.web.words import trade_words


class NotFound(Refused):
    """There is no such set or figure."""


def html_of(page: Element, status: int = 200, now: Now | None = None, request: Request | None = None) -> HTMLResponse:
    """A page, in the words of the house it speaks of and with the addresses of that house."""
    markup = str(page)
    if now is not None:
        markup = in_words(markup, now.result.speech())
    return HTMLResponse(markup if request is None else rooted(markup, root_of(request)), status_code=status)


def root_of(request: Request) -> str:
    """What stands before the addresses of a house's pages: nothing for the first."""
    house = request.path_params.get("house")
    return f"/house/{house}" if house else ""


def say_problems(app: FastAPI) -> None:
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
        return html_of(problem_page("This cannot be shown", says), status)

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
