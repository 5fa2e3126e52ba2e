"""The page that turns a line schedule into a house: paste or choose, see what was understood, answer, draw.

Nothing is kept on the way: the page holds the schedule and sends it anew with each answer.
"""

from __future__ import annotations

import base64
import binascii
from collections.abc import Callable, Iterable
from datetime import UTC, datetime

from fastapi import APIRouter
from htpy import (
    Element,
    Node,
    a,
    button,
    div,
    form,
    fragment,
    h1,
    h2,
    header,
    input as field_of_form,
    label,
    li,
    link,
    option,
    p,
    select,
    span,
    table,
    tbody,
    td,
    textarea,
    th,
    thead,
    tr,
    ul,
)
from pydantic import BaseModel, ConfigDict, Field
from starlette.responses import HTMLResponse, JSONResponse

from counterpoise.app.line_schedule import ReadSchedule, Told, house_from_schedule, read_schedule
from counterpoise.errors import Misuse
from counterpoise.exchange import FIELDS, UNITS_OF, CellSaid, ColumnSaid, Question, State, Understood
from counterpoise.web.frame import CAUTION, page, theme_button

_MOST = 200  # rows of a list; the house file has all
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
    house: str = Field(default="", max_length=200)  # its name


def routes(draw: Callable[[str], str], clock: Callable[[], str] = lambda: datetime.now(UTC).isoformat()) -> APIRouter:
    """The page and its answers.

    Args:
        draw: takes the text of a house, keeps it and tells the address that shows it.
        clock: tells the time; its day is written into the house as the day of reading.
    """
    router = APIRouter()

    @router.get("/schedule")
    def look() -> HTMLResponse:
        return HTMLResponse(str(schedule_page()))

    @router.post("/api/schedule")
    def told(given: Given) -> JSONResponse:
        found = _read(given)
        one = found.understood
        says = f"{len(one.sets)} sets understood, {len(one.of(State.NOT_UNDERSTOOD))} cells not understood."
        html = str(fragment[schedule_part(found)])
        return JSONResponse({"html": html, "may_draw": may_draw(one), "says": says})

    @router.post("/api/schedule/house")
    def house(given: Given) -> JSONResponse:
        return JSONResponse({"house": _house(given, clock())})

    @router.post("/api/schedule/draw")
    def drawn(given: Given) -> JSONResponse:
        return JSONResponse({"address": draw(_house(given, clock()))})

    return router


def may_draw(one: Understood) -> bool:
    """True where a house can be written: it has sets, and no answer is owed."""
    return bool(one.sets) and not any(each.must for each in one.questions)


def _read(given: Given) -> ReadSchedule:
    data: bytes | str = given.text
    if given.file:
        try:
            data = base64.b64decode(given.file, validate=True)
        except binascii.Error:
            raise Misuse("The file did not arrive whole.", "Choose it again.") from None
    told = Told(sheet=given.sheet, columns=given.columns, units=given.units, every=given.every)
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
        p(".to")["Paste the cells of your line schedule, or choose its file. Nothing is guessed: what cannot be read "
                 "is told, and what has no unit is asked about."],
        form("#given")[
            label(for_="cells")["Cells, as copied from the spreadsheet"],
            textarea("#cells", rows="12", spellcheck="false", wrap="off"),
            div(".row")[
                label(for_="file")["or its file"],
                field_of_form("#file", type="file", accept=".xlsx,.xls,.xlsb,.ods,.csv,.tsv,.txt"),
                label(for_="house")["Name of the house"],
                field_of_form("#house", type="text", maxlength="200"),
                button(type="submit")["read it"],
            ],
        ],
        div("#ready.row", hidden=True)[
            button(type="button", data_act="draw")["draw the house"],
            button(type="button", data_act="keep")["keep it as a file"],
        ],
        div("#schedule"),
        p(".to")[CAUTION],
        scripts=("schedule.js",),
    )  # fmt: skip


def schedule_part(found: ReadSchedule) -> Node:
    """What was read, drawn anew after each answer."""
    one = found.understood
    lost, notes = one.of(State.NOT_UNDERSTOOD), [each for each in one.of(State.NOTE) if not each.field]
    where = f"{one.file}, sheet {one.sheet}" if one.sheet else one.file
    return fragment[
        h2[f"{where}: {len(one.sets)} set{'s' if len(one.sets) != 1 else ''} understood"],
        [p(".to")[f"Read so: {told}."] for told in one.told],
        _other_sheets(one.sheet, found.others) if found.others else "",
        div(".asks")[[_question(each, one) for each in one.questions]],
        h2["Columns"], _columns(one.columns),
        h2[f"Not understood: {len(lost)}"],
        _cells(lost, _lost_line, ("cell", "says", "why", "what to do")) if lost else "",
        fragment[h2["Look at"], ul[[li[f"{each.says} {each.mend}"] for each in one.remarks]]] if one.remarks else "",
        fragment[h2[f"Kept, of no set: {len(notes)}"], _cells(notes, _note_line, ("cell", "says", "why"))]
        if notes
        else "",
        h2["Sets"], _sets(one),
    ]  # fmt: skip


def _other_sheets(now: str, others: tuple[str, ...]) -> Element:
    return p[
        label(for_="sheet")["More sets stand on other sheets of this file: "],
        select("#sheet", data_told="sheet")[
            [option(value=name, selected=name == now)[name] for name in (now, *others)]
        ],
    ]


def _question(one: Question, of: Understood) -> Element:
    cls = ".word-unknown" if one.must else ".to"
    if one.about == "columns":
        return p(cls)[f"{one.says[:1].upper()}{one.says[1:]} Say it in the table below."]
    told = "every" if one.about == "purchase" else "units"
    now = of.every.get(one.about, "")
    choices = [option(value=each, selected=each == now)[each] for each in one.options]
    chosen = select(data_told=told, data_key=one.about)[option(value="")["say which"], choices]
    return p(cls)[label[f"{one.says[:1].upper()}{one.says[1:]} ", chosen]]


def _columns(columns: tuple[ColumnSaid, ...]) -> Element:
    heads = ("column", "heading", "its first cells", "holds", "bare numbers in", "why")
    rows = [
        tr[
            td[each.letters], td[each.heading or "–"], td[" · ".join(each.first)],
            td[_field_choice(each)], td[_unit_choice(each)], td[each.why],
        ]
        for each in columns
    ]  # fmt: skip
    return div(".scroll")[table[thead[tr[[th[head] for head in heads]]], tbody[rows]]]


def _field_choice(one: ColumnSaid) -> Element:
    names = [*FIELDS, "note", "ignore"]
    choices = [option(value=name, selected=name == one.field)[name] for name in names]
    blank = [] if one.field else [option(value="", selected=True)["say what"]]
    return select(data_told="columns", data_key=one.heading or one.letters,
                  aria_label=f"column {one.letters} holds")[[*blank, *choices]]  # fmt: skip


def _unit_choice(one: ColumnSaid) -> Node:
    kind = FIELDS[one.field].kind if one.field in FIELDS else None
    units = UNITS_OF.get(kind) if kind is not None else None
    if units is None:
        return ""
    choices = [option(value=unit, selected=unit == one.unit)[unit] for unit in units]
    blank = [] if one.unit else [option(value="", selected=True)["not said"]]
    return select(data_told="units", data_key=one.field,
                  aria_label=f"unit of column {one.letters}")[[*blank, *choices]]  # fmt: skip


def _cells(cells: Iterable[CellSaid], line: Callable[[CellSaid], tuple[str, ...]], heads: tuple[str, ...]) -> Element:
    every = list(cells)
    rows = [tr[[td[words] for words in line(one)]] for one in every[:_MOST]]
    more = [tr[td(colspan=str(len(heads)))[f"and {len(every) - _MOST} more"]]] if len(every) > _MOST else []
    return div(".scroll")[table[thead[tr[[th[head] for head in heads]]], tbody[rows, more]]]


def _lost_line(one: CellSaid) -> tuple[str, ...]:
    return one.place, one.text, one.why, one.mend


def _note_line(one: CellSaid) -> tuple[str, ...]:
    return one.place, one.text, one.why


def _sets(one: Understood) -> Element:
    """Each set in a line, as the house will have it."""
    names = [name for name in (*FIELDS, "rigged", "twin of") if any(name in each.values for each in one.sets)]
    rows = [
        tr[td[each.label], [td[each.values[name].words if name in each.values else ""] for name in names],
           td["; ".join(each.notes)]]
        for each in one.sets[:_MOST]
    ]  # fmt: skip
    more = [tr[td(colspan="2")[f"and {len(one.sets) - _MOST} more"]]] if len(one.sets) > _MOST else []
    return div(".scroll")[table[thead[tr[th["set"], [th[name] for name in names], th["note"]]], tbody[rows, more]]]
