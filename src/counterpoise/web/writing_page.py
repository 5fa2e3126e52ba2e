"""Writing: a figure that is asked for, in its place; and the whole text of a document."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import PurePath

from htpy import (
    Element,
    Node,
    a,
    button,
    datalist,
    details,
    form,
    header,
    input as field_of_form,
    label,
    li,
    option,
    p,
    select,
    span,
    summary,
    textarea,
    ul,
)

from counterpoise.app.workspace import Now
from counterpoise.checks import Unknown
from counterpoise.documents import standing
from counterpoise.store import Entry
from counterpoise.web.asking import Asked, asked_as, for_which
from counterpoise.web.frame import CAUTION, page, theme_button

DOCUMENTS = ("house", "show", "hang")


def asked_here(now: Now, unknowns: Iterable[Unknown], heading: str, *, is_open: bool) -> Node:
    """A field for each figure that can be written here, the most telling first; folded away where most is known."""
    wanted = [one for one in unknowns if one.paths]
    if not wanted:
        return None
    return details(".ask", open=is_open)[summary[heading], [_field(now, one) for one in wanted]]


def _field(now: Now, one: Unknown) -> Element:
    seen = standing(getattr(now.texts, one.document), one.paths)
    house, name = now.result.house.house, f"ask-{one.paths[0]}"
    asked = asked_as(one.paths[0], house)
    return form(".asked", data_document=one.document, data_paths=json.dumps(one.paths), data_seen=json.dumps(seen))[
        label(for_=name)[one.what, span[f" {for_which(one, house.sets)}"], asked.like and span(".like")[asked.like]],
        _entry(asked, name, _stands(seen[0])),
        button(type="submit")["write"],
        p(".answer", role="status"),
    ]


def _entry(asked: Asked, name: str, stands: str) -> Node:
    """What it is written into: the few words it can be, or a line, with published sizes to begin with."""
    if asked.choices:
        return select(id=name, name="value")[option(value="")["choose"],
                                             [option(value=word)[word] for word in asked.choices]]  # fmt: skip
    sizes = f"sizes-{name}"
    return [
        field_of_form(type="text", id=name, name="value", autocomplete="off", maxlength="200", placeholder=stands,
                      list=sizes if asked.sizes else None),
        datalist(id=sizes)[[option(value=size) for size in asked.sizes]] if asked.sizes else None,
    ]  # fmt: skip


def _stands(words: object) -> str:
    """What is written there now, as far as it is: an estimate that is to be weighed, say."""
    return f"now {words}" if isinstance(words, str) and words != "unknown" else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """A document as it is kept: of which house, which of its revisions is shown, and those there are."""

    called: str
    kind: str
    text: str
    number: int  # of the revision that is shown; 0 where nothing is kept yet
    newest: int
    back: int  # the revision before a typed one, 0 for none
    history: Sequence[Entry]
    file: str  # where it is kept, "" for memory alone


def text_page(one: Written) -> Element:
    """A document as it is kept, to change and to keep; of an earlier revision, to keep it again."""
    kind = one.kind
    return page(
        f"{kind} as text",
        header(".top")[
            a(".plain", href="/")[f"← {one.called}"],
            [a(".plain", href=f"/text/{other}")[f"the {other}"] for other in DOCUMENTS if other != kind],
            a(".plain", href=f"/text/{kind}/file", download=f"{kind}.yaml")["save as a file"],
            span(".grow"), theme_button(),
        ],
        p(".lead.note")[_told(one)],
        form("#text", data_kind=kind, data_revision=str(one.newest))[
            textarea(name="text", spellcheck="false", aria_label=f"text of the {kind}",
                     autocapitalize="off")[one.text],
            p[
                button(type="submit")["keep as the next revision" if one.file else "take as the next revision"],
                _take_back(one),
                span("#said", role="status"),
            ],
        ],
        _history(one),
        p(".foot")[CAUTION],
        scripts=("write.js",),
    )  # fmt: skip


def _told(one: Written) -> str:
    """Which text it is, and what a person may do with it."""
    if one.number != one.newest:
        return (f"The {one.kind} as revision {one.number} had it; what stands now is revision {one.newest}. "
                f"Kept from here, it stands again as revision {one.newest + 1}.")  # fmt: skip
    where = f"is kept in {PurePath(one.file).name}" if one.file else "stands"
    file = " The file it was read from is not changed." if one.file else ""
    return (f"The {one.kind}, revision {one.number}, as it {where}: every word and comment of it.{file} "
            "What cannot be read is told with its line, and is not taken until it can.")  # fmt: skip


def _take_back(one: Written) -> Node:
    if not one.back or one.number != one.newest:
        return None
    return button(type="button", data_act="retype")[f"take back what was typed: the text of revision {one.back} again"]


def _history(one: Written) -> Node:
    """Every revision there was: what was read from files and what was written here, each to open and keep again."""
    if len(one.history) < 2:
        return None
    return details(".revisions")[
        summary[f"all {len(one.history)} revisions, the newest first"],
        ul[[li[_revision(one, each)] for each in one.history]],
    ]


def _revision(one: Written, each: Entry) -> Node:
    said = f"{each.number}: {each.note}, {each.at[:16].replace('T', ' ')}"
    return said if each.number == one.number else a(href=f"/text/{one.kind}?revision={each.number}")[said]
