"""Readers of words: as they are, one of a few, a day, a reason, a place along a batten."""

from __future__ import annotations

import difflib
from collections.abc import Callable
from datetime import date
from typing import Any

from counterpoise.documents.desk import Desk, Skip
from counterpoise.documents.tree import Node, Scalar
from counterpoise.errors import Unreadable
from counterpoise.units import place

Reader = Callable[[Node, Desk], Any]
_LONGEST = 10_000.0  # [m], that a length may have: no place is off such a batten
_SHORT = 3  # letters of a short form, as in DP
_NULLS = frozenset({"~", "null", "Null", "NULL"})  # YAML's own ways to say nothing
_YES = frozenset({"yes", "y", "true", "on", "1", "x"})
_NO = frozenset({"no", "n", "false", "off", "0", "-", "not", "in service", "ok"})


def telling(reader: Reader, **what: Any) -> Reader:
    """The reader with what it reads noted on it, so that a schema can be made of the fields that are declared."""
    noted: Any = reader
    noted.reads = what
    return reader


def scalar(node: Node, desk: Desk, wanted: str) -> Scalar:
    """The words of a node; a list or a map is noted, with what is wanted instead."""
    if not isinstance(node, Scalar):
        desk.refuse(node, node.path, "this is a list or a map.", f"Write {wanted} on one line.")
        raise Skip
    return node


def text(node: Node, desk: Desk) -> str:
    """Words as written."""
    said = scalar(node, desk, "words")
    if not said.text:
        desk.refuse(node, node.path, "nothing is written here.", "Write it, or take the line out.")
        raise Skip
    if said.text in _NULLS and not said.quoted:
        desk.refuse(node, node.path, "says nothing that can be read.",
                    "Write it; where it is not known or not asked for, take the line out.")  # fmt: skip
        raise Skip
    return said.text


def reason(node: Node, desk: Desk) -> str:
    """Words that say why; a bare yes or no says it of neither: no would take a set out of service."""
    said = text(node, desk)
    word = said.strip(" .!").lower()
    if word in _YES or word in _NO:
        mend = "Write why, as in `rope worn`." if word in _YES else "Take the line out, or write none."
        desk.refuse(node, node.path, "does not say why.", mend)
        raise Skip
    return said


def along_batten(node: Node, desk: Desk) -> str:
    """Words that say a place along a batten: how they are written, whatever its length."""
    said = text(node, desk)
    try:
        place(said, length=_LONGEST)
    except Unreadable as error:
        desk.refuse(node, node.path, f"{error.why}.".replace("..", "."), error.mend)
        raise Skip from None
    return said


def choice(*words: str) -> Reader:
    """One of a few words."""

    def one(node: Node, desk: Desk) -> str:
        said = text(node, desk)
        if said not in words:
            near = difflib.get_close_matches(said, words, n=1)
            near = near or [one for one in words if _shortens(said.lower(), one)]
            mend = f"Did you mean {near[0]}?" if len(near) == 1 else "Write the one of these that is so."
            desk.refuse(node, node.path, f"must be one of: {', '.join(words)}.", mend)
            raise Skip
        return said

    return telling(one, choice=words)


def _shortens(said: str, word: str) -> bool:
    """True of dbl, DP and D for double: the first letter, and of longer ones all others in their order."""
    letters = iter(word)
    return said[:1] == word[:1] and (len(said) <= _SHORT or all(one in letters for one in said))


def day(node: Node, desk: Desk) -> str:
    """A day as 2027-02-01, so that it can be told whether it has passed."""
    said = text(node, desk)
    try:
        date.fromisoformat(said)
    except ValueError:
        desk.refuse(node, node.path, "is not a day.", "Write it like 2027-02-01.")
        raise Skip from None
    return said
