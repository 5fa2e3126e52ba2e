"""Every house that is kept here, and the two ways to begin another."""

from __future__ import annotations

from collections.abc import Iterable

from htpy import (
    Element,
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


def houses_page(names: Iterable[tuple[str, str, str]]) -> Element:
    """The list; below it a line schedule to paste or open, and a blank house."""
    return page(
        "houses",
        header(".top")[span(".grow"), theme_button()],
        h1(".page")["Houses kept here"],
        ul(".houses")[[li[a(href=address)[called]] for address, called, _ in names]],
        h2(".page")["Begin another"],
        _ways(),
        p(".foot")[CAUTION],
        scripts=("write.js",),
    )


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
