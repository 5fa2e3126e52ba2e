"""YAML text to a tree of maps, lists and raw words, each with its place.

Scalars are never interpreted here: `010`, `12E1` or `no` stay the words that were written, and the field that wants
a length reads them as one. Aliases, duplicate keys and absurd sizes are refused; the parser works event by event, so
a nested bomb meets the depth limit and not the interpreter's stack.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import yaml

from counterpoise.errors import BadDocument, Problem

LARGEST = 20_000_000  # characters of text; a house of ten thousand sets is about 4 million
DEEPEST = 40
_LOADER = getattr(yaml, "CLoader", yaml.Loader)


@dataclass(frozen=True, slots=True)
class Scalar:
    """Raw words at a place; `start` and `end` are offsets into the text, for edits that keep everything else."""

    text: str
    path: str
    line: int
    column: int
    start: int
    end: int


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
        BadDocument: not YAML, not a map, an alias, a key twice, deeper than 40 or larger than 20 million characters.
    """
    if len(text) > LARGEST:
        raise _bad(file, 1, 1, "", f"the file has {len(text):,} characters; the most is {LARGEST:,}.",
                   "Name the house, show or hang file itself.")  # fmt: skip
    try:
        tree = _Builder(file, yaml.parse(text, Loader=_LOADER)).document()
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
        said = " ".join(filter(None, [error.context, error.problem]))
        raise _bad(file, line, column, "", f"this is not YAML: {said}.",
                   "Check indentation (spaces, no tabs), colons and quotes near here.") from error  # fmt: skip
    except yaml.YAMLError as error:
        raise _bad(file, 1, 1, "", f"this is not YAML text: {' '.join(str(error).split())}.",
                   "Save the file as plain UTF-8 text.") from error  # fmt: skip
    return tree


def _bad(file: str, line: int, column: int, path: str, says: str, mend: str, value: str = "") -> BadDocument:
    return BadDocument((Problem(file=file, line=line, column=column, path=path, value=value, says=says, mend=mend),))


class _Builder:
    """Builds the tree from parser events; recursion is bounded by DEEPEST."""

    def __init__(self, file: str, events: Iterator[yaml.Event]) -> None:
        self._file = file
        self._events = events

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
        line, column = event.start_mark.line + 1, event.start_mark.column + 1
        if depth > DEEPEST:
            raise _bad(self._file, line, column, path[:80], f"this is nested deeper than {DEEPEST}.", "Flatten it.")
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            raise _bad(self._file, line, column, path, "anchors and aliases (& and *) are not read.",
                       "Write a kind once under `kinds` and name it with `kind:`.")  # fmt: skip
        if isinstance(event, yaml.ScalarEvent):
            return Scalar(event.value.strip(), path, line, column, event.start_mark.index, event.end_mark.index)
        if isinstance(event, yaml.SequenceStartEvent):
            return self._items(path, line, column, depth)
        return self._fields(path, line, column, depth)

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
            if key.text[:1].isdigit() and found and key.text.lstrip("0123456789,. ") and not key.text.isalnum():
                raise _bad(self._file, key.line, key.column, path,
                           "inside { } a comma ends the value, so this number was cut in two.",
                           "Write it without the comma (1500 lb) or in quotes (\"1,500 lb\").", key.text)  # fmt: skip
            if key.text in found:
                first = keys[key.text].line
                raise _bad(self._file, key.line, key.column, inner, f"this field stands twice (also line {first}).",
                           "Keep one of the two.")  # fmt: skip
            keys[key.text] = key
            found[key.text] = self._node(self._next(), inner, depth + 1)
        return Fields(found, keys, path, line, column)
