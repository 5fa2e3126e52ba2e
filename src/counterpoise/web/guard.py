"""What every answer carries, and what every write must show before it is looked at."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from urllib.parse import urlsplit

from starlette.requests import Request
from starlette.responses import JSONResponse, Response

LARGEST_WRITE = 64 * 1024  # bytes; a move is some hundred
LARGEST_TEXT = 12 * 1024 * 1024  # bytes of a schedule or of a whole document; a file grows by a third on the way
LARGE = ("/api/schedule", "/api/schedule/house", "/api/schedule/draw", "/api/text")
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; "
    "connect-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}


def refusal_of_host(request: Request, hosts: frozenset[str] | None) -> str:
    """Why a request is not for us: a page elsewhere may have bound its own name to this machine."""
    try:
        name = urlsplit(f"//{request.headers.get('host', '')}").hostname or ""
    except ValueError:  # brackets that are no address
        name = ""
    return "" if hosts is None or name in hosts else "This program does not answer to that name."


def refusal_of_write(request: Request) -> str:
    """Why a write is not taken: from another page, not JSON, or too long. "" where it is."""
    scheme, _, netloc = request.headers.get("origin", "").partition("://")
    if scheme not in {"http", "https"} or netloc != request.headers.get("host"):
        return "A change is taken only from a page of this program."
    if request.headers.get("content-type", "").split(";")[0].strip().lower() != "application/json":
        return "A change is sent as JSON."
    size = request.headers.get("content-length", "")
    most = LARGEST_TEXT if request.url.path.endswith(LARGE) else LARGEST_WRITE
    if not size.isascii() or not size.isdigit() or int(size) > most:
        return f"A change says its length, at most {most:,} bytes."
    return ""


def guard(
    hosts: frozenset[str] | None,
) -> Callable[[Request, Callable[[Request], Awaitable[Response]]], Awaitable[Response]]:
    """The middleware that holds both."""

    async def guarded(request: Request, go_on: Callable[[Request], Awaitable[Response]]) -> Response:
        says = refusal_of_host(request, hosts)
        if not says and request.method not in {"GET", "HEAD"}:
            says = refusal_of_write(request)
        if says:
            response: Response = JSONResponse({"says": says, "mend": ""}, status_code=403)
        else:
            response = await go_on(request)
        for name, value in HEADERS.items():
            response.headers[name] = value
        if not request.url.path.startswith("/static/"):
            response.headers["Cache-Control"] = "no-store"
        return response

    return guarded
