"""How a figure came about: its formula, the numbers put in, what it rests on, and how well each is known."""

from __future__ import annotations

from collections.abc import Sequence

from htpy import Element, Node, a, b, button, div, h2, header, li, p, section, span, table, tbody, td, tr, ul

from counterpoise.checks import Derivation
from counterpoise.checks.explain import FORMULAS
from counterpoise.drawing import COMES_TO, Working
from counterpoise.web.frame import CAUTION, page, theme_button
from counterpoise.web.manual_page import manual_text
from counterpoise.web.words import set_address, with_code
from counterpoise.web.written import slug


def story_part(told: Derivation, workings: Sequence[Working] = (), *, closes: bool = True) -> Element:
    """The story as a part of the set's page."""
    rows = [tr[td[one.name], td[one.words], td[one.how.value], td[with_code(one.source or one.path)]]
            for one in told.inputs]  # fmt: skip
    return div(".story")[
        closes and button(".close", type="button", data_act="close")["close"],
        p(".to")[told.place],
        p(".figure")[f"{told.value} of {told.limit} ", b(class_=f"word-{told.verdict}")[told.verdict]],
        p[told.formula],
        [_sum(one, told.value if at == 0 and one.says == COMES_TO else told.limit) for at, one in enumerate(workings)],
        h2["what it rests on"],
        table[tbody[rows]],
        p(".to")["Derived in ", _theory(told), (f". Known as well as the worst of these: {told.how.value}. "
                 "What is carried is told rounded up, a limit rounded down.")],
    ]  # fmt: skip


def _theory(told: Derivation) -> Node:
    """Where it is derived, as a link to the heading of its formula where the text is at hand."""
    name = told.theory.rpartition("/")[2]
    if manual_text(name) is None:
        return told.theory
    formula = next((key for key, said in FORMULAS.items() if said == (told.formula, told.theory)), "")
    heading = f"#{slug(formula)}" if formula else ""
    return a(".theory-link", href=f"/theory/{name}{heading}")[f"{name.removesuffix('.md')}, {formula}"]


def _sum(one: Working, told: str) -> Node:
    """The arithmetic, a number a line."""
    lines = [li[span[f"{step.sign} {step.says}".strip()], b[step.figure]] for step in one.steps]
    total = li(".total")[span[f"= told as {told}"], b[one.figure]]
    return [h2[one.says], one.note and p[with_code(one.note)], ul(".sum")[lines, total]]


def story_page(told: Derivation, label: str | None, workings: Sequence[Working] = ()) -> Element:
    """The story as a page of its own; `label` is None for a figure that is of no set."""
    back = a(".plain", href=set_address(label))[f"← set {label}"] if label else a(".plain", href="/")["← the house"]
    return page(
        told.place,
        header(".top")[back, span(".grow"), theme_button()],
        section[story_part(told, workings, closes=False)],
        p(".foot")[CAUTION],
    )


def problem_page(heading: str, says: list[str], mend: str = "", ways: Sequence[tuple[str, str]] = ()) -> Element:
    """What is wrong, each thing on its line; `ways` are addresses where it is mended, with their words."""
    lines: list[Node] = [p(".refused")[one] for one in says]
    return page(
        heading,
        header(".top")[a(".plain", href="/")["← the house"], span(".grow"), theme_button()],
        section[
            p(".to")[heading], lines, mend and p[mend],
            ways and p[[[a(".plain", href=address)[words], " "] for address, words in ways]],
        ],
    )  # fmt: skip
