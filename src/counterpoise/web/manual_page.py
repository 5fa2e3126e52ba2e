"""Pages of the manual that the figures lead to: what is derived, conventions, words, limits."""

from __future__ import annotations

import re
from pathlib import Path

from htpy import Element, a, article, header, nav, p, span

from counterpoise.web.frame import CAUTION, page, theme_button
from counterpoise.web.written import written

PAGES = ("batten", "axial", "ladder", "load-path", "balance", "steps", "ranges", "conventions", "glossary", "limits")
_NAME = re.compile(r"[a-z-]+\.md\Z")


def manual_text(name: str) -> str | None:
    """The text of a page of the manual, None where there is none or it was not installed with the program."""
    here = Path(__file__).resolve()
    roots = (here.parents[1] / "docs", here.parents[3] / "docs")  # as installed; in a working copy
    places = [place / name for root in roots for place in (root / "theory", root) if _NAME.match(name)]
    found = next((one for one in places if one.is_file()), None)
    return found.read_text("utf-8") if found is not None else None


def manual_page(name: str, text: str) -> Element:
    """A page of the manual; below it the others."""
    title = next((line.lstrip("# ") for line in text.split("\n") if line.startswith("# ")), name)
    others = [one for one in PAGES if f"{one}.md" != name and manual_text(f"{one}.md") is not None]
    return page(
        title,
        header(".top")[a(".plain", href="/")["← the house"], span(".grow"), theme_button()],
        article(".theory")[written(text, _address)],
        nav(".others", aria_label="other pages")[[a(".plain", href=f"/theory/{one}.md")[one] for one in others]],
        p(".foot")[CAUTION],
    )


def _address(to: str) -> str:
    """Where a link of the manual leads here; "" for what is not shown, code and tests among it."""
    path, mark, heading = to.partition("#")
    name = path.rpartition("/")[2]
    return f"/theory/{name}{mark}{heading}" if manual_text(name) is not None else ""
