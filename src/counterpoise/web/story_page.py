"""How a figure came about: its formula, the numbers put in, what it rests on, and how well each is known."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

from htpy import Element, Node, a, b, button, div, h2, header, i, li, p, pre, section, span, table, tbody, td, tr, ul

from counterpoise.checks import Derivation
from counterpoise.drawing import COMES_TO, Working
from counterpoise.web.frame import CAUTION, page, theme_button
from counterpoise.web.words import set_address

_NAME = re.compile(r"[a-z-]+\.md\Z")


def story_part(told: Derivation, workings: Sequence[Working] = (), *, closes: bool = True) -> Element:
    """The story as a part of the set's page."""
    rows = [tr[td[one.name], td[one.words], td[one.how.value], td[one.source or one.path]] for one in told.inputs]
    return div(".story")[
        closes and button(".close", type="button", data_act="close")["close"],
        p(".to")[told.place],
        p(".figure")[f"{told.value} of {told.limit} ", b(class_=f"word-{told.verdict}")[told.verdict]],
        p[told.formula],
        [_sum(one, told.value if at == 0 and one.says == COMES_TO else told.limit) for at, one in enumerate(workings)],
        h2["what it rests on"],
        table[tbody[rows]],
        p(".to")["Derived in ", _theory(told.theory), (f". Known as well as the worst of these: {told.how.value}. "
                 "What is carried is told rounded up, a limit rounded down.")],
    ]  # fmt: skip


def _theory(path: str) -> Node:
    """Where it is derived, as a link where the text is at hand."""
    name = path.rpartition("/")[2]
    return a(href=f"/theory/{name}")[path] if theory_text(name) is not None else path


def theory_text(name: str) -> str | None:
    """The text of a page of theory, None where it was not installed with the program."""
    here = Path(__file__).resolve()
    places = (here.parents[1] / "theory", here.parents[3] / "docs" / "theory")  # as installed; in a working copy
    known = [one / name for one in places if _NAME.match(name) and (one / name).is_file()]
    return known[0].read_text("utf-8") if known else None


def theory_page(name: str, text: str) -> Element:
    """A page of theory, as it is written."""
    return page(
        name,
        header(".top")[a(".plain", href="/")["← the house"], span(".grow"), theme_button()],
        pre(".theory")[text],
        p(".foot")[CAUTION],
    )


def _sum(one: Working, told: str) -> Node:
    """The arithmetic, a number a line."""
    lines = [li[span[f"{step.sign} {step.says}".strip()], b[step.figure]] for step in one.steps]
    total = li(".total")[span[f"= told as {told}"], b[one.figure]]
    return [h2[one.says], one.note and p[_with_code(one.note)], ul(".sum")[lines, total]]


def _with_code(said: str) -> list[Node]:
    """Words of a document, in backquotes, set apart."""
    return [i[part] if at % 2 else part for at, part in enumerate(said.split("`"))]


def story_page(told: Derivation, label: str | None, workings: Sequence[Working] = ()) -> Element:
    """The story as a page of its own; `label` is None for a figure that is of no set."""
    back = a(".plain", href=set_address(label))[f"← set {label}"] if label else a(".plain", href="/")["← the house"]
    return page(
        told.place,
        header(".top")[back, span(".grow"), theme_button()],
        section[story_part(told, workings, closes=False)],
        p(".foot")[CAUTION],
    )


def problem_page(heading: str, says: list[str], mend: str = "") -> Element:
    """What is wrong, each thing on its line."""
    lines: list[Node] = [p(".refused")[one] for one in says]
    return page(heading, p[a(".plain", href="/")["← the house"]], section[p(".to")[heading], lines, mend and p[mend]])
