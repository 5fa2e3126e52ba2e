"""Writing: a figure that is asked for, in its place; and the whole text of a document."""

from __future__ import annotations

import json
from collections.abc import Iterable

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
    option,
    p,
    select,
    span,
    summary,
    textarea,
)

from counterpoise.app.workspace import Now
from counterpoise.checks import Unknown
from counterpoise.documents import standing
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


def text_page(now: Now, kind: str, text: str, number: int, *, back: int = 0) -> Element:
    """A document as it is kept, to change and to keep; `back` is the revision before a typed one, 0 for none."""
    return page(
        f"{kind} as text",
        header(".top")[
            a(".plain", href="/")[f"← {now.result.house.name}"],
            [a(".plain", href=f"/text/{other}")[f"the {other}"] for other in DOCUMENTS if other != kind],
            a(".plain", href=f"/text/{kind}/file", download=f"{kind}.yaml")["save as a file"],
            span(".grow"), theme_button(),
        ],
        p(".lead.note")[f"The {kind}, revision {number}, as it is kept: every word and comment of it. "
                        "What cannot be read is told with its line, and nothing is kept until it can."],
        form("#text", data_kind=kind, data_revision=str(number))[
            textarea(name="text", spellcheck="false", aria_label=f"text of the {kind}", autocapitalize="off")[text],
            p[
                button(type="submit")["keep as the next revision"],
                button(type="button", data_act="retype")[f"take back what was typed: the text of revision {back} again"]
                if back else None,
                span("#said", role="status"),
            ],
        ],
        p(".foot")[CAUTION],
        scripts=("write.js",),
    )  # fmt: skip
