"""Every house that is kept here, and the two ways to begin another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from htpy import (
    Element,
    Node,
    a,
    button,
    form,
    h1,
    h2,
    header,
    input as field_of_form,
    label,
    li,
    option,
    p,
    section,
    select,
    span,
    ul,
)

from counterpoise.web.frame import CAUTION, page, theme_button
from counterpoise.web.writing_page import DOCUMENTS


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """A house by its address, with what it calls itself and why it cannot be shown, "" where it can."""

    address: str
    called: str
    trouble: str = ""


def houses_page(houses: Sequence[Listed], *, lasts: bool = True) -> Element:
    """The list; below it a line schedule to paste or open, and a blank house."""
    return page(
        "houses",
        header(".top")[span(".grow"), theme_button()],
        h1(".page")["Houses kept here" if lasts else "Houses here"],
        ul(".houses")[[li[_listed(one)] for one in houses]] if houses else p["None yet."],
        h2(".page")["Begin another"],
        _ways(),
        p(".foot")[CAUTION],
        scripts=("write.js",),
    )


def _listed(one: Listed) -> Node:
    """Its name; beside a house that cannot be shown, why not and where it is mended."""
    if not one.trouble:
        return a(href=one.address)[one.called]
    texts: list[Node] = [[a(".plain", href=f"{one.address}text/{kind}")[f"the {kind}"], " "] for kind in DOCUMENTS]
    return [a(href=one.address)[one.called], p(".refused")[f"cannot be shown: {one.trouble}"],
            p["mend it as text: ", texts]]  # fmt: skip


def _ways() -> Element:
    """From what is written already, or from nothing but the count of its sets."""
    return section(".ways")[
        section[
            p[a(href="/schedule")["from its line schedule"]],
            p(".to")["Paste the sheet every house owns, or open it as xlsx, ods or csv: it is drawn within a minute, "
                     "and what was not understood is shown before anything is kept."],
        ],
        form("#blank.hang-form")[
            p["blank"],
            p(".to")["So many sets of one kind. Every figure to find out is asked for in its place, the most telling "
                     "first; the stage, the steel and the rest are written in its text."],
            label[span["its name"], field_of_form(type="text", name="name", required=True, maxlength="120",
                                                  autocomplete="off")],
            label[span["how many sets"], field_of_form(type="number", name="sets", min="1", max="999", required=True)],
            label[span["most of them are"], select(name="purchase")[
                option(value="single")["single purchase"], option(value="double")["double purchase"]]],
            label[span["units"], select(name="units")[
                option(value="us")["feet and pounds"], option(value="metric")["metres and kilograms"]]],
            button(type="submit")["begin it"],
            p(".answer", role="status"),
        ],
    ]  # fmt: skip
