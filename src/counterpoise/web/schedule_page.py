"""The page that turns a line schedule into a house: paste or choose, see what was understood, answer, draw.

Nothing is kept on the way: the page holds the schedule and sends it anew with each answer.
"""

from __future__ import annotations

import base64
import binascii
from collections.abc import Callable
from datetime import UTC, datetime

from fastapi import APIRouter
from htpy import (
    Element,
    a,
    button,
    details,
    div,
    form,
    h1,
    header,
    input as field_of_form,
    label,
    link,
    p,
    span,
    summary,
    textarea,
)
from pydantic import BaseModel, ConfigDict, Field
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse

from counterpoise.app.line_schedule import ReadSchedule, Told, house_from_schedule, read_schedule
from counterpoise.errors import Misuse
from counterpoise.exchange import State
from counterpoise.web.answers import html_of
from counterpoise.web.frame import CAUTION, page, theme_button
from counterpoise.web.schedule_part import Answered, may_draw, schedule_part

_Answers = dict[str, str]


class Given(BaseModel):
    """A schedule and what the reader has answered so far."""

    model_config = ConfigDict(extra="forbid", strict=True)
    name: str = Field(default="pasted cells", min_length=1, max_length=200)  # of the file
    text: str = Field(default="", max_length=8_000_000)  # pasted, or
    file: str = Field(default="", max_length=11_000_000)  # base64 of a file's bytes
    sheet: str = Field(default="", max_length=200)
    columns: _Answers = Field(default_factory=dict, max_length=500)
    units: _Answers = Field(default_factory=dict, max_length=50)
    every: _Answers = Field(default_factory=dict, max_length=50)
    words: _Answers = Field(default_factory=dict, max_length=500)
    house: str = Field(default="", max_length=200)  # its name


def routes(draw: Callable[[str], str], clock: Callable[[], str] = lambda: datetime.now(UTC).isoformat()) -> APIRouter:
    """The page and its answers.

    Args:
        draw: takes the text of a house, keeps it and tells the address that shows it.
        clock: tells the time; its day is written into the house as the day of reading.
    """
    router = APIRouter()

    @router.get("/schedule")
    def look(request: Request) -> HTMLResponse:
        return html_of(schedule_page(), request=request)

    @router.post("/api/schedule")
    def told(given: Given) -> JSONResponse:
        found = _read(given)
        one = found.understood
        says = f"{len(one.sets)} sets understood, {len(one.of(State.NOT_UNDERSTOOD))} cells not understood."
        html = str(schedule_part(found, Answered(every=given.every, words=given.words, units=given.units)))
        return JSONResponse({"html": html, "may_draw": may_draw(one), "says": says})

    @router.post("/api/schedule/house")
    def house(given: Given) -> JSONResponse:
        return JSONResponse({"house": _house(given, clock())})

    @router.post("/api/schedule/draw")
    def drawn(given: Given) -> JSONResponse:
        return JSONResponse({"address": draw(_house(given, clock()))})

    return router


def _read(given: Given) -> ReadSchedule:
    data: bytes | str = given.text
    if given.file:
        try:
            data = base64.b64decode(given.file, validate=True)
        except binascii.Error:
            raise Misuse("The file did not arrive whole.", "Choose it again.") from None
    told = Told(sheet=given.sheet, columns=given.columns, units=given.units, every=given.every, words=given.words)
    return read_schedule(data, given.name, told)


def _house(given: Given, now: str) -> str:
    found = _read(given)
    if not may_draw(found.understood):
        raise Misuse("This schedule is not ready to be drawn.", "Answer what is asked beside it first.")
    return house_from_schedule(found.understood, given.house or "Unnamed house", read_on=now[:10])


def schedule_page() -> Element:
    """The whole page."""
    return page(
        "line schedule",
        link(rel="stylesheet", href="/static/schedule.css"),
        header(".top")[a(".plain", href="/")["← the house"], span(".grow"), p("#said.said", role="status"),
                       theme_button()],
        h1["From the line schedule"],
        p(".to.lead-in")["Paste the cells of your line schedule, or choose its file. Nothing is guessed: what cannot "
                         "be read is told, and what has no unit is asked about."],
        p(".named")[
            label(for_="house")["Name of the house"],
            field_of_form("#house", type="text", maxlength="200", autocomplete="off"),
        ],
        details("#giving", open=True)[
            summary["The schedule: its cells or its file"],
            form("#given")[
                label(for_="cells")["Cells, as copied from the spreadsheet"],
                textarea("#cells", rows="10", spellcheck="false", wrap="off"),
                div(".row")[
                    label(for_="file")["or its file"],
                    field_of_form("#file", type="file", accept=".xlsx,.xls,.xlsb,.ods,.csv,.tsv,.txt"),
                    button(".main", type="submit")["read it"],
                ],
            ],
        ],
        div("#schedule"),
        p(".foot")[CAUTION],
        scripts=("schedule.js",),
    )  # fmt: skip
