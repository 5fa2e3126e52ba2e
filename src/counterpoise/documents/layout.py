"""Where things stand in a text: the end of a value, its line, the comments around it; and changes made all at once."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from counterpoise.documents.tree import Fields, Items, Node, Scalar, scalars

_COMMENT = re.compile(r"(?:(?<=\s)|(?<![^\n]))#[^\r\n]*")
_LINE_END = re.compile(r"\r\n|\n|\r")


@dataclass(frozen=True, slots=True)
class Change:
    """Characters from `start` to `end` of a text that give way to `new`."""

    start: int
    end: int
    new: str


def applied(text: str, changes: Iterable[Change]) -> str:
    """The text with all changes made; they do not overlap. Two at one place stand in the order given."""
    parts, at = [], 0
    for one in sorted(changes, key=lambda one: one.start):
        parts += [text[at : one.start], one.new]
        at = one.end
    return "".join([*parts, text[at:]])


def end_of(node: Node, text: str) -> int:
    """The offset behind the last character of a value, without the blanks and comments that follow it."""
    if isinstance(node, Scalar):
        return node.start + len(text[node.start : node.end].rstrip())
    if node.flow:
        return node.end
    inner = node.items if isinstance(node, Items) else tuple(node.fields.values())
    return end_of(inner[-1], text) if inner else node.start


def line_start(text: str, at: int) -> int:
    """The offset of the first character of the line."""
    return max(text.rfind("\n", 0, at), text.rfind("\r", 0, at)) + 1


def line_end(text: str, at: int) -> int:
    """The offset behind the last character of the line, before its break."""
    found = _LINE_END.search(text, at)
    return found.start() if found else len(text)


def past_break(text: str, at: int) -> int:
    """The offset behind the line break that stands here."""
    found = _LINE_END.match(text, at)
    return found.end() if found else at


def break_of(text: str) -> str:
    """The line break of the file."""
    found = _LINE_END.search(text)
    return found.group() if found else "\n"


def comments(text: str, tree: Fields, start: int, end: int) -> list[str]:
    """The comments between two offsets: what begins with a # and stands in no word."""
    words = sorted((one.start, one.end) for one in scalars(tree) if one.end > start and one.start < end)
    told, at = [], start
    for begin, behind in [*words, (end, end)]:
        while (found := _COMMENT.search(text, at)) is not None and found.start() < min(begin, end):
            told.append(found.group())
            at = found.end()
        at = max(at, behind)
    return told


def comma_after(text: str, at: int) -> int | None:
    """The offset of a comma, with nothing but blanks and comments before it; None where something else comes."""
    while at < len(text):
        if text[at] == ",":
            return at
        if text[at] == "#":
            at = line_end(text, at)
        elif not text[at].isspace():
            return None
        else:
            at += 1
    return None


def indent_of(node: Fields | Items) -> str:
    """What stands before the lines of a map or list that is written one below the other."""
    if isinstance(node, Items):
        return " " * (node.column - 1)
    return " " * (next(iter(node.keys.values())).column - 1)
