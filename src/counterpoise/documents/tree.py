"""The tree of a document: maps, lists and raw words, each with its path, its place and its characters in the text."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

DEEPEST = 40  # maps and lists within one another
Plain = str | Mapping[str, "Plain"] | Sequence["Plain"]  # what a node holds, without its places


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
    quoted: bool = False  # written in quotes, and so meant as it stands


@dataclass(frozen=True, slots=True)
class Items:
    """A list. `flow`: written in brackets, which `start` and `end` then enclose; else only `start` is meant."""

    items: tuple[Node, ...]
    path: str
    line: int
    column: int
    start: int = 0
    end: int = 0
    flow: bool = False


@dataclass(frozen=True, slots=True)
class Fields:
    """A map; keys are words, in the order written. `home` is the kind it was laid over, where more may be written."""

    fields: dict[str, Node]
    keys: dict[str, Scalar]
    path: str
    line: int
    column: int
    home: str = ""
    home_line: int = 0
    start: int = 0
    end: int = 0
    flow: bool = False


Node = Scalar | Items | Fields


def plain(node: Node) -> Plain:
    """What a node holds, as words, lists and maps."""
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Items):
        return [plain(one) for one in node.items]
    return {name: plain(one) for name, one in node.fields.items()}


def scalars(node: Node) -> Iterator[Scalar]:
    """All words of a tree, the names of fields too."""
    if isinstance(node, Scalar):
        yield node
    elif isinstance(node, Items):
        for one in node.items:
            yield from scalars(one)
    else:
        for name, one in node.fields.items():
            yield node.keys[name]
            yield from scalars(one)


def found(node: Node, path: str) -> Node | None:
    """The node at a path; None where there is none, or where the path fits two.

    A step into a list is its number from 0, `sets[3]`, or a field that only one item has, `sets[set=14]`.
    """
    there = list(_at(node, path, first=True))
    return there[0] if len(there) == 1 else None


def _at(node: Node, rest: str, *, first: bool = False) -> Iterator[Node]:
    if not rest:
        yield node
    elif isinstance(node, Items):
        for number, one in enumerate(node.items):
            for step in _steps(number, one, rest):
                yield from _at(one, rest[len(step) :])
    elif isinstance(node, Fields) and (first or rest.startswith(".")):
        rest = rest if first else rest[1:]
        for name, one in node.fields.items():
            if name and rest.startswith(name) and rest[len(name) : len(name) + 1] in ("", ".", "["):
                yield from _at(one, rest[len(name) :])


def _steps(number: int, one: Node, rest: str) -> Iterator[str]:
    """The ways to name an item that `rest` begins with: names may hold dots and brackets, so they are never cut."""
    if rest.startswith(f"[{number}]"):
        yield f"[{number}]"
    for name, value in one.fields.items() if isinstance(one, Fields) else ():
        if isinstance(value, Scalar) and rest.startswith(f"[{name}={value.text}]"):
            yield f"[{name}={value.text}]"
