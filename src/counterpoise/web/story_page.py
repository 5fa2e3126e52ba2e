"""How a figure came about: its formula, what it rests on, and how well each is known."""

from __future__ import annotations

from htpy import Element, Node, a, b, button, div, p, section, table, tbody, td, tr

from counterpoise.checks import Derivation
from counterpoise.web.frame import page
from counterpoise.web.words import set_address


def story_part(told: Derivation, *, closes: bool = True) -> Element:
    """The story as a part of the set's page."""
    rows = [tr[td[one.name], td[one.words], td[one.how.value], td[one.source or one.path]] for one in told.inputs]
    cls = f"word-{told.verdict}"
    return div(".story")[
        closes and button(".close", type="button", data_act="close")["close"],
        p(".to")[told.place],
        p(".figure")[f"{told.value} of {told.limit} ", b(class_=cls)[told.verdict]],
        p[told.formula],
        p(".to")[f"Derived in {told.theory}. Known as well as the worst of these: {told.how.value}."],
        table[tbody[rows]],
    ]


def story_page(told: Derivation, label: str) -> Element:
    """The story as a page of its own."""
    return page(
        told.place, p[a(".plain", href=set_address(label))[f"← set {label}"]], section[story_part(told, closes=False)]
    )


def problem_page(heading: str, says: list[str], mend: str = "") -> Element:
    """What is wrong, each thing on its line."""
    lines: list[Node] = [p(".refused")[one] for one in says]
    return page(heading, p[a(".plain", href="/")["← the house"]], section[p(".to")[heading], lines, mend and p[mend]])
