"""What was read of a line schedule: what is asked, drawing it, what was not understood, and the rest folded away."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from htpy import (
    Element,
    Node,
    b,
    button,
    details,
    div,
    fragment,
    h2,
    label,
    li,
    option,
    p,
    section,
    select,
    span,
    summary,
    table,
    tbody,
    td,
    th,
    thead,
    tr,
    ul,
)

from counterpoise.app.line_schedule import ReadSchedule
from counterpoise.exchange import FIELDS, RIGGED, UNITS_OF, CellSaid, ColumnSaid, Lost, Question, State, Understood

_FEW = 3  # cells of a row that are shown
_MOST = 200  # rows of a list; the house file has all


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """What the reader has answered so far, as it may be taken back."""

    every: Mapping[str, str] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)
    units: Mapping[str, str] = field(default_factory=dict)


def may_draw(one: Understood) -> bool:
    """True where a house can be written: it has sets, and no answer is owed."""
    return bool(one.sets) and not any(each.must for each in one.questions)


def schedule_part(found: ReadSchedule, answered: Answered | None = None) -> Node:
    """What was read, drawn anew after each answer."""
    one = found.understood
    lost, notes = one.lost, [each for each in one.of(State.NOTE) if not each.field]
    where = f"{one.file}, sheet {one.sheet}" if one.sheet else one.file
    asked = sorted(one.questions, key=lambda each: not each.must)
    return fragment[
        h2[f"{where}: {_count(len(one.sets), 'set')} understood"],
        _other_sheets(one.sheet, found.others) if found.others else "",
        section(".asks", aria_label="questions")[[_question(each) for each in asked]] if asked else "",
        _said(answered or Answered()),
        _fold("columns", f"Columns: what each of the {len(one.columns)} holds", _columns(one.columns),
              is_open=_asks_of_columns(one)),
        _ready(one),
        _list(f"Not understood: {_count(sum(len(each.places) for each in lost), 'cell')}", list(map(_lost_line, lost))),
        _list(f"Look at: {len(one.remarks)}", [li[each.says, " ", span(".to")[each.mend]] for each in one.remarks]),
        _fold("notes", f"Kept, of no set: {_count(len(notes), 'cell')}", _kept(notes)) if notes else "",
        _fold("sets", f"Sets: {len(one.sets)}", _sets(one)) if one.sets else "",
        [p(".to")[f"Read so: {told}."] for told in one.told],
    ]  # fmt: skip


def _asks_of_columns(one: Understood) -> bool:
    """True where the reader should look at what the columns are taken for."""
    asked = any(each.about == "columns" or each.column for each in one.questions)
    return asked or any(each.is_strange for each in one.columns)


def _count(number: int, thing: str) -> str:
    return f"{number} {thing}{'s' if number != 1 else ''}"


def _other_sheets(now: str, others: tuple[str, ...]) -> Element:
    return p(".ask-one")[
        label(for_="sheet")["More sets stand on other sheets of this file."],
        select("#sheet", data_told="sheet")[
            [option(value=name, selected=name == now)[name] for name in (now, *others)]
        ],
    ]


def _question(one: Question) -> Element:
    says = f"{one.says[:1].upper()}{one.says[1:]}"
    weight = ".owed" if one.must else ""
    if one.about == "columns":
        return p(f".ask-one{weight}")[says, " Say it under Columns."]
    if one.column:
        choices = [option(value=each)[f"yes, {each}" if each == one.about else _choice(each)] for each in one.options]
        return label(f".ask-one{weight}")[
            span[says], select(data_told="columns", data_key=one.column)[
                option(value="", selected=True)["say which"], choices
            ],
        ]  # fmt: skip
    told = "words" if one.word else "every" if one.about == "purchase" else "units"
    key = f"{one.about}: {one.word}" if one.word else one.about
    choices = [option(value=each)[_choice(each)] for each in one.options]
    return label(f".ask-one{weight}")[
        span[says], select(data_told=told, data_key=key)[option(value="", selected=True)["say which"], choices]
    ]


def _choice(word: str) -> str:
    return "keep it as a note" if word == "note" else word


def _said(answered: Answered) -> Node:
    """Answers that were given, each with the way to take it back."""
    given = [_units_said(key, now) for key, now in answered.units.items()]
    given += [_every_said(key, now) for key, now in answered.every.items()]
    given += [_word_said(key, now) for key, now in answered.words.items()]
    return section(".answered", aria_label="what you said")[given] if given else ""


def _units_said(key: str, now: str) -> Element:
    kind = FIELDS[key].kind if key in FIELDS else None
    units = UNITS_OF.get(kind, ()) if kind is not None else ()
    return _answer("units", key, f"bare numbers of {key} are in", now, units)


def _every_said(key: str, now: str) -> Element:
    return _answer("every", key, f"where the cell is empty, {key} is", now, RIGGED[:2] if key == "purchase" else ())


def _word_said(key: str, now: str) -> Element:
    name, _, word = key.partition(": ")
    return _answer("words", key, f'"{word}" under {name} is', now, RIGGED if name == "purchase" else ("note",))


def _answer(told: str, key: str, says: str, now: str, options: tuple[str, ...]) -> Element:
    choices = [option(value=each, selected=each == now)[_choice(each)] for each in dict.fromkeys((now, *options))]
    return label(".ask-one")[
        span(".to")[f"You said: {says}"],
        select(data_told=told, data_key=key)[choices, option(value="")["take it back"]],
    ]


def _ready(one: Understood) -> Element:
    """The way on, and why it is closed where it is."""
    owed = sum(each.must for each in one.questions)
    why = f"First answer {'the question' if owed == 1 else f'the {owed} questions'} in bold above." if owed else ""
    why = why or ("" if one.sets else "No row states a set.")
    shut = not may_draw(one)
    return div(".ready")[
        button(".main", type="button", data_act="draw", disabled=shut, aria_describedby="why")["draw the house"],
        button(type="button", data_act="keep", disabled=shut, aria_describedby="why")["keep it as a file"],
        span("#why.to")[why],
    ]


def _list(heading: str, lines: list[Element]) -> Node:
    if not lines:
        return ""
    more = [li(".to")[f"and {len(lines) - _MOST} more"]] if len(lines) > _MOST else []
    return section(".told")[h2[heading], ul[lines[:_MOST], more]]


def _lost_line(one: Lost) -> Element:
    some = ", ".join(f'"{text}"' for text in one.texts[:_FEW]) + (" …" if len(one.texts) > _FEW else "")
    return li[b[one.where], " ", some, f" {one.why}. ", span(".to")[one.mend]]


def _fold(name: str, heading: str, inside: Node, *, is_open: bool = False) -> Element:
    return details(data_fold=name, open=is_open)[summary[heading], inside]


def _table(heads: tuple[str, ...], rows: Iterable[tuple[Node, ...]], more: int = 0) -> Element:
    """A table that stands on end where the page is narrow: each cell then tells its heading itself."""
    body = [tr[[td(data_head=head)[cell] for head, cell in zip(heads, row, strict=True)]] for row in rows]
    rest = [tr[td(colspan=str(len(heads)))[f"and {more} more"]]] if more > 0 else []
    return div(".scroll")[table[thead[tr[[th[head] for head in heads]]], tbody[body, rest]]]


def _columns(columns: tuple[ColumnSaid, ...]) -> Element:
    heads = ("column", "heading", "holds", "bare numbers in", "its first cells", "why")
    rows: list[tuple[Node, ...]] = [
        (each.letters, each.heading or "–", _field_choice(each), _unit_choice(each), " · ".join(each.first), each.why)
        for each in columns
    ]
    return _table(heads, rows)


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


def _kept(notes: list[CellSaid]) -> Element:
    rows: list[tuple[Node, ...]] = [(one.place, one.text, one.why) for one in notes[:_MOST]]
    return _table(("cell", "says", "why"), rows, max(0, len(notes) - _MOST))


def _sets(one: Understood) -> Element:
    """Each set in a line, as the house will have it."""
    names = [name for name in (*FIELDS, "rigged", "twin of") if any(name in each.values for each in one.sets)]
    rows: list[tuple[Node, ...]] = [
        (each.label, *(each.values[name].words if name in each.values else "" for name in names), "; ".join(each.notes))
        for each in one.sets[:_MOST]
    ]
    return _table(("set", *names, "note"), rows, max(0, len(one.sets) - _MOST))
