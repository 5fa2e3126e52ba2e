"""The foot of a page: what was checked, what was not, and who decides. Plain to see, and below the answer."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from htpy import Element, Node, a, dd, details, div, dl, dt, fragment, li, p, span, summary, ul

from counterpoise.checks import HouseResult, SetResult
from counterpoise.drawing import of_text, story
from counterpoise.units import Style
from counterpoise.web.frame import CAUTION
from counterpoise.web.words import left_open, without_figure, worst_of_each

SHOWN = 5  # links named before the rest is folded away


def house_foot(result: HouseResult) -> Element:
    """Under the house."""
    about = result.house.house.about
    return div(".foot")[_list([("bridge floors", _floors(result)), *left_open(result)]), p[CAUTION], about and p[about]]


def _floors(result: HouseResult) -> list[Node]:
    """The floor of each bridge, which is of no set."""
    style = Style(result.house.house.units)  # type: ignore[arg-type]  # the document allows just these two words
    return [a(".row", href=story(row))[f"{row.label}, bricks stored and people: {of_text(row, style)}, ",
                                       span(class_=f"word-{row.verdict.value}")[row.verdict.value]]
            for row in result.bridges]  # fmt: skip


def set_foot(result: HouseResult, one: SetResult, style: Style) -> Element:
    """Under a set."""
    lacking = without_figure(one)
    return div(".foot")[
        div(".stale")[_checked(one, style)],
        div(".stale")[_list([("posted and computed", _posted(one, style)),
                             ("not checked, no figure", [", ".join(lacking)] if lacking else [])])],
        _list(left_open(result)),
        p[CAUTION],
    ]  # fmt: skip


def _list(parts: Iterable[tuple[str, Sequence[Node]]]) -> Node:
    parts = [part for part in parts if part[1]]
    return parts and dl[[fragment[dt[name], dd[ul[[li[said] for said in lines]] if len(lines) > 1 else lines]]
               for name, lines in parts]]  # fmt: skip


def _checked(one: SetResult, style: Style) -> Node:
    """Every link that was held against a limit, each leading to how its figure came about."""
    rows = worst_of_each(one)
    if not rows:
        return p["Nothing could be checked yet."]
    names = ", ".join(row.link for row in rows[:SHOWN])
    more = len(rows) - SHOWN
    return details(".checked")[
        summary[span[f"checked, nearest its limit first: {names}{f' and {more} more' if more > 0 else ''}"]],
        ul[[li[a(href=story(row), data_story=row.key)[
            span[row.place], " ", span(class_=f"word-{row.verdict.value}")[of_text(row, style)]]] for row in rows]],
    ]  # fmt: skip


def _posted(one: SetResult, style: Style) -> list[str]:
    """Of a posted capacity and what is computed, which is nearer its limit, and the other beside it."""
    if one.posted is None:
        return []
    first, second = (f"{row.place}: {of_text(row, style)}" for row in one.posted)
    return [f"{first}, beside it {second}"]
