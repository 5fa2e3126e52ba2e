"""Sentences that several pages say."""

from __future__ import annotations

from urllib.parse import quote

from counterpoise.checks import HouseResult, SetResult
from counterpoise.drawing import of_text
from counterpoise.units import Style


def set_address(label: str) -> str:
    """The page of a set."""
    return f"/set/{quote(label, safe='')}"


def not_checked(result: HouseResult) -> str:
    """What the house and the hang knowingly leave open, who says so and until when."""
    left = f"Not computed here: {'; '.join(result.left_out)}." if result.left_out else ""
    if not result.not_checked:
        return left or "Not checked: what no figure above speaks of."
    said = [
        f"{one.thing} ({one.why}; {one.who}{', until ' + one.until if one.until else ''})" for one in result.not_checked
    ]
    return f"Not checked here: {'; '.join(said)}. {left}".strip()


def bridges(result: HouseResult) -> str:
    """The floor of each bridge, which is of no set."""
    style = Style(result.house.house.units)  # type: ignore[arg-type]  # the document allows just these two words
    told = [f"{row.label}, bricks stored and people: {of_text(row, style)}, {row.verdict.value}"
            for row in result.bridges]  # fmt: skip
    return f"Bridges: {'; '.join(told)}." if told else ""


def checked(one: SetResult) -> str:
    """What was held against a limit for this set, and what was not for want of a figure."""
    links = dict.fromkeys(row.link for row in one.rows)
    open_ = dict.fromkeys(row.link for row in one.rows if row.limit is None or row.lacks)
    done = [link for link in links if link not in open_]
    said = f"Checked: {', '.join(done)}." if done else "Nothing could be checked yet."
    return f"{said} Not checked for want of a figure: {', '.join(open_)}." if open_ else said
