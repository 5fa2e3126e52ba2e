"""YAML text to a tree of maps, lists and raw words, each with its place.

Scalars are never interpreted here: `010`, `12E1` or `no` stay the words that were written, and the field that wants
a length reads them as one. Aliases, duplicate keys and absurd sizes are refused; the parser works event by event, so
a nested bomb meets the depth limit and not the interpreter's stack. Two traps of the notation are refused, since both
lose a part of a figure without a word: a comma inside { }, and a # right after a space.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

import yaml

from counterpoise.errors import BadDocument, Problem

LARGEST = 20_000_000  # characters of text; a house of ten thousand sets is about 4 million
DEEPEST = 40
_LOADER = getattr(yaml, "CLoader", yaml.Loader)
_FOOT_MARK = re.compile(r"\d'")
_CUT_OFF = re.compile(r"[ \t]+(#[^\s#]\S*)")  # `12' #3`: YAML drops the #3, a rigger may have meant it


@dataclass(frozen=True, slots=True)
class Scalar:
    """Raw words at a place; `start` and `end` are offsets into the text, for edits that keep everything else."""

    text: str
    path: str
    line: int
    column: int
    start: int
    end: int
    block: str = ""  # the source that the nearest `source:` around it names


@dataclass(frozen=True, slots=True)
class Items:
    """A list."""

    items: tuple[Node, ...]
    path: str
    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Fields:
    """A map; keys are words, in the order written."""

    fields: dict[str, Node]
    keys: dict[str, Scalar]
    path: str
    line: int
    column: int


Node = Scalar | Items | Fields


def parse(text: str, file: str) -> Fields:
    """The tree of a document.

    Raises:
        BadDocument: not YAML, not a map, an alias, a key twice, a figure cut in two, deeper than 40 or larger than
            20 million characters.
    """
    tree, problems = examine(text, file)
    if problems:
        raise BadDocument(problems)
    return tree


def examine(text: str, file: str) -> tuple[Fields, list[Problem]]:
    """The tree of a document, and what is wrong in its text where the tree still stands.

    Raises:
        BadDocument: no tree can be made: not YAML, not a map, an alias, too deep or too large.
    """
    if len(text) > LARGEST:
        raise _bad(file, 1, 1, "", f"the file has {len(text):,} characters; the most is {LARGEST:,}.",
                   "Name the house, show or hang file itself.")  # fmt: skip
    try:
        # the parser does not count the mark that some editors put at the start of a file
        begin = len(text) - len(text.removeprefix("\ufeff"))
        builder = _Builder(file, text, begin, yaml.parse(text[begin:], Loader=_LOADER))
        tree = builder.document()
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
        said = " ".join(filter(None, [error.context, error.problem]))
        raise _bad(file, line, column, "", f"this is not YAML: {said}.",
                   "Check indentation (spaces, no tabs), colons and quotes near here.") from error  # fmt: skip
    except yaml.YAMLError as error:
        raise _bad(file, 1, 1, "", f"this is not YAML text: {' '.join(str(error).split())}.",
                   "Save the file as plain UTF-8 text.") from error  # fmt: skip
    whole = sourced(tree, "")
    assert isinstance(whole, Fields)  # a map in, a map out
    return whole, builder.problems


def sourced(node: Node, block: str) -> Node:
    """The node with every scalar told which `source:` holds for it: its own map's, else that of the map around.

    Done before kinds are merged: what a set writes over its kind is not vouched for by the kind's source.
    """
    if isinstance(node, Scalar):
        return replace(node, block=block)
    if isinstance(node, Items):
        return replace(node, items=tuple(sourced(one, block) for one in node.items))
    if isinstance(said := node.fields.get("source"), Scalar):
        block = said.text.removeprefix("@")
    return replace(node, fields={name: sourced(one, block) for name, one in node.fields.items()})


def _bad(file: str, line: int, column: int, path: str, says: str, mend: str, value: str | None = None) -> BadDocument:
    return BadDocument((Problem(file=file, line=line, column=column, path=path, value=value, says=says, mend=mend),))


class _Builder:
    """Builds the tree from parser events; recursion is bounded by DEEPEST."""

    def __init__(self, file: str, text: str, begin: int, events: Iterator[yaml.Event]) -> None:
        self._file = file
        self._text = text
        self._begin = begin
        self._events = events
        self.problems: list[Problem] = []

    def document(self) -> Fields:
        event = self._next()
        while isinstance(event, yaml.StreamStartEvent | yaml.DocumentStartEvent):
            event = self._next()
        if isinstance(event, yaml.StreamEndEvent):
            raise _bad(self._file, 1, 1, "", "the file is empty.", "Begin with `counterpoise: house 1`.")
        root = self._node(event, "", 0)
        if not isinstance(root, Fields):
            raise _bad(self._file, 1, 1, "", "the file is not a list of `field: value` lines.",
                       "Begin with `counterpoise: house 1`.")  # fmt: skip
        self._next()
        if not isinstance(self._next(), yaml.StreamEndEvent):
            raise _bad(self._file, 1, 1, "", "the file holds more than one document.", "Keep one; take `---` out.")
        return root

    def _next(self) -> yaml.Event:
        return next(self._events)

    def _node(self, event: yaml.Event, path: str, depth: int) -> Node:
        line, column, start = self._mark(event.start_mark)
        if depth > DEEPEST:
            raise _bad(self._file, line, column, path[:80], f"this is nested deeper than {DEEPEST}.", "Flatten it.")
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            raise _bad(self._file, line, column, path, "anchors and aliases (& and *) are not read.",
                       "Write a kind once under `kinds` and name it with `kind:`.")  # fmt: skip
        if isinstance(event, yaml.ScalarEvent):
            node = Scalar(event.value.strip(), path, line, column, start, self._mark(event.end_mark)[2])
            if event.style == "'" and _FOOT_MARK.search(event.value):
                self._refuse(node, path, "inside single quotes '' stands for one ', so inches would be read as feet.",
                             "Write it in double quotes, or with ft and in.")  # fmt: skip
            if not event.style:  # plain: None from one parser, empty from the other
                self._look_behind(node)
            return node
        if isinstance(event, yaml.SequenceStartEvent):
            return self._items(path, line, column, depth)
        return self._fields(path, line, column, depth)

    def _mark(self, mark: Any) -> tuple[int, int, int]:
        """Line and column from 1, and the offset into the text; every event of a parsed text has its marks."""
        return mark.line + 1, mark.column + 1, mark.index + self._begin

    def _look_behind(self, node: Scalar) -> None:
        cut = _CUT_OFF.match(self._text, node.end)
        if cut is not None:
            self._refuse(node, node.path, f"what stands after it, {cut[1]}, would be lost as a comment.",
                         f"Put all of it in quotes if {cut[1]} belongs to it, else a space after the #.")  # fmt: skip

    def _refuse(self, node: Scalar, path: str, says: str, mend: str) -> None:
        self.problems += _bad(self._file, node.line, node.column, path, says, mend, node.text).problems

    def _items(self, path: str, line: int, column: int, depth: int) -> Items:
        found: list[Node] = []
        while not isinstance(event := self._next(), yaml.SequenceEndEvent):
            found.append(self._node(event, f"{path}[{len(found)}]", depth + 1))
        return Items(tuple(found), path, line, column)

    def _fields(self, path: str, line: int, column: int, depth: int) -> Fields:
        found: dict[str, Node] = {}
        keys: dict[str, Scalar] = {}
        while not isinstance(event := self._next(), yaml.MappingEndEvent):
            key = self._node(event, path, depth + 1)
            if not isinstance(key, Scalar):
                raise _bad(self._file, line, column, path, "a field's name must be plain words.", "Rename it.")
            inner = f"{path}.{key.text}" if path else key.text
            node = self._node(self._next(), inner, depth + 1)
            if found and _is_tail(event, node):
                before = list(found)[-1]
                self._refuse(key, f"{path}.{before}".lstrip("."),
                             "inside { } a comma ends the value, so this number was cut in two.",
                             "Write it without the comma (1500 lb) or in quotes (\"1,500 lb\").")  # fmt: skip
            elif key.text in found:
                self._refuse(key, inner, f"this field stands twice (also line {keys[key.text].line}).",
                             "Keep one of the two.")  # fmt: skip
            else:
                keys[key.text] = key
                found[key.text] = node
        return Fields(found, keys, path, line, column)


def _is_tail(key: yaml.Event, node: Node) -> bool:
    """True for the second half of `{top: 1,500 lb}`: a plain word that starts with a figure, and nothing after it."""
    plain = isinstance(key, yaml.ScalarEvent) and not key.style and key.value[:1].isdigit()
    return plain and isinstance(node, Scalar) and node.start == node.end
