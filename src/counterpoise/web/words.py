"""Sentences that several pages say."""

from __future__ import annotations

from urllib.parse import quote

from htpy import Node, i

from counterpoise.checks import Check, HouseResult, SetResult, Verdict
from counterpoise.checks.result import FITS
from counterpoise.errors import Problem


def set_address(label: str) -> str:
    """The page of a set."""
    return f"/set/{quote(label, safe='')}"


HOLD_UNKNOWN = "unknown: hold until it is found out"
FIRST_COUNT = "unknown: a first count only"


def promise_of(one: SetResult) -> str:
    """Of a set whose check says unknown, what is to be made of its steps; "" of every other.

    Its word is the one of the call, of its page and of the sheet: nothing is promised of it.
    """
    if one.verdict is not Verdict.UNKNOWN or one.out_of_service:
        return ""
    return HOLD_UNKNOWN if one.hold == "unknown" else FIRST_COUNT


def with_code(said: str) -> list[Node]:
    """Words of a document, in backquotes, set apart."""
    return [i[part] if at % 2 else part for at, part in enumerate(said.split("`"))]


def trade_words(one: Problem) -> str:
    """A problem as one says it to who just wrote it: what was written and what is wrong, without file and path."""
    said = str(one).partition("  ")[2]
    return said.removeprefix(f"{one.path}: ") if one.path else said


def left_open(result: HouseResult) -> list[tuple[str, list[str]]]:
    """What the house and the hang knowingly leave open, who says so and until when; and what is not computed."""
    open_ = [
        f"{one.thing}: {one.why}; {one.who}{', until ' + one.until if one.until else ''}" for one in result.not_checked
    ]
    if not open_ and not result.left_out:
        open_ = ["what no figure above speaks of"]
    return [("not checked here", open_), ("not computed here", list(result.left_out))]


def worst_of_each(one: SetResult) -> list[Check]:
    """Of each link that was held against a limit, the row nearest it; the nearest of all first, sizes that fit last."""
    done = [row for row in one.rows if row.limit is not None and not row.lacks]
    worst: dict[str, Check] = {}
    for row in sorted(done, key=lambda row: (row.link in FITS, -row.use)):
        worst.setdefault(row.link, row)
    return list(worst.values())


def without_figure(one: SetResult) -> list[str]:
    """The links that could not be held against a limit, for want of a figure."""
    return list(dict.fromkeys(row.link for row in one.rows if row.limit is None or row.lacks))
