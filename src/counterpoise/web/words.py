"""Sentences that several pages say."""

from __future__ import annotations

from urllib.parse import quote

from counterpoise.checks import HouseResult, SetResult


def set_address(label: str) -> str:
    """The page of a set."""
    return f"/set/{quote(label, safe='')}"


def not_checked(result: HouseResult) -> str:
    """What the house and the hang knowingly leave open, who says so and until when."""
    if not result.not_checked:
        return "Not checked: what no figure above speaks of."
    said = [
        f"{one.thing} ({one.why}; {one.who}{', until ' + one.until if one.until else ''})" for one in result.not_checked
    ]
    return f"Not checked here: {'; '.join(said)}."


def checked(one: SetResult) -> str:
    """What was looked at for this set."""
    links = dict.fromkeys(row.link for row in one.rows)
    return f"Checked: {', '.join(links)}." if links else "Nothing could be checked yet."
