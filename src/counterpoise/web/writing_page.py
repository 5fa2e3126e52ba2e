"""Writing: a figure that is asked for, in its place; and the whole text of a document."""

from __future__ import annotations

import json
from collections.abc import Iterable

from htpy import (
    Element,
    Node,
    a,
    button,
    details,
    form,
    h1,
    header,
    input as field_of_form,
    label,
    li,
    p,
    span,
    summary,
    textarea,
    ul,
)

from counterpoise.app import Texts
from counterpoise.app.workspace import Now
from counterpoise.checks import Unknown
from counterpoise.documents import standing
from counterpoise.web.frame import CAUTION, page, theme_button

LINES = ".lines.at"  # a list, written as words with commas between
DOCUMENTS = ("house", "show", "hang")


def asked_here(texts: Texts, unknowns: Iterable[Unknown], heading: str, *, is_open: bool) -> Node:
    """A field for each figure that can be written here, the most telling first; folded away where most is known."""
    wanted = [one for one in unknowns if one.paths]
    if not wanted:
        return None
    return details(".ask", open=is_open)[summary[heading], [_field(texts, one) for one in wanted]]


def _field(texts: Texts, one: Unknown) -> Element:
    seen = standing(getattr(texts, one.document), one.paths)
    name = f"ask-{one.paths[0]}"
    where = f"for {len(one.sets)} sets" if len(one.sets) > 1 else f"for set {one.sets[0]}"
    example = "as in 20' SR, 10' SR, CL, 10' SL, 20' SL" if one.paths[0].endswith(LINES) else _stands(seen[0])
    return form(".asked", data_document=one.document, data_paths=json.dumps(one.paths), data_seen=json.dumps(seen))[
        label(for_=name)[one.what, span[f" {where}"]],
        field_of_form(type="text", id=name, name="value", autocomplete="off", maxlength="200", placeholder=example),
        button(type="submit")["write"],
        p(".answer", role="status"),
    ]


def _stands(words: object) -> str:
    """What is written there now, as far as it is: an estimate that is to be weighed, say."""
    return f"now {words}" if isinstance(words, str) and words != "unknown" else ""


def text_page(now: Now, kind: str, text: str, number: int) -> Element:
    """A document as it is kept, to change and to keep."""
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
            p[button(type="submit")["keep as the next revision"], span("#said", role="status")],
        ],
        p(".foot")[CAUTION],
        scripts=("write.js",),
    )  # fmt: skip


def houses_page(names: Iterable[tuple[str, str, str]]) -> Element:
    """Every house that is kept here."""
    return page(
        "houses",
        header(".top")[span(".grow"), theme_button()],
        h1(".page")["Houses kept here"],
        ul(".houses")[
            [li[a(href=address)[called]] for address, called, _ in names],
            li[a(href="/schedule")["+ draw another from its line schedule"]],
        ],
        p(".foot")[CAUTION],
    )
