"""YAML text to a tree of maps, lists and raw words, each with its place.

Scalars are never interpreted here: `010`, `12E1` or `no` stay the words that were written, and the field that wants
a length reads them as one. Aliases, duplicate keys and absurd sizes are refused; the parser works event by event, so
a nested bomb meets the depth limit and not the interpreter's stack. Refused too is what loses or joins a part of a
figure without a word: a comma inside { }, a # right after a space, '' in single quotes, a tag, a figure over two lines.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import yaml

from counterpoise.documents.json_text import is_json, read_json
from counterpoise.documents.tree import DEEPEST, Fields, Items, Node, Scalar
from counterpoise.documents.yaml_mends import mend_for, without_questions
from counterpoise.errors import BadDocument, Problem
from counterpoise.units.notation import shown

__all__ = ["DEEPEST", "LARGEST", "Fields", "Items", "Node", "Scalar", "examine", "parse", "sourced"]
LARGEST = 20_000_000  # characters of text; a house of ten thousand sets is about 4 million
_LOADER = getattr(yaml, "CLoader", yaml.Loader)
_FOOT_MARK = re.compile(r"[\d½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞] ?'")
_FIGURE = re.compile(r"[~≈]?\s*[.\d½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]")
_NO_TEXT = re.compile("[^\\t\\n\\r -~\\x85\\xa0-\\ud7ff\\ue000-\\ufffd\\U00010000-\\U0010ffff]")  # YAML 1.2.2, 5.1
_LONGEST_FIGURE = 40  # characters
_LONGEST_UNIT = 4  # letters; a note that begins with a figure has longer words
_WORD = re.compile(r"[^\W\d_]+")
_NO_SPACE = re.compile(r"[^\s:{}\[\],'\"]+:[^\s:]")
_CUT_OFF = re.compile(r"[ \t]+(#[^\s#]\S*)")  # `12' #3`: YAML drops the #3, a rigger may have meant it

_NUMBER = re.compile(r"[~≈]?[ ]*[\d.,/½⅓⅔¼¾⅛⅜⅝⅞ -]+\Z")
_HASH = re.compile(r"[ \t]+#[ \t]*(?=[\r\n]|\Z)")  # `25 #`, and no comment in the comment


def parse(text: str, file: str) -> Fields:
    """The tree of a document in YAML or JSON.

    Raises:
        BadDocument: neither YAML nor JSON, not a map, an alias, a key twice, a figure cut in two, deeper than 40 or
            larger than 20 million characters.
    """
    tree, problems = examine(text, file)
    if problems:
        raise BadDocument(problems)
    return tree


def examine(text: str, file: str, what: str = "house") -> tuple[Fields, list[Problem]]:
    """The tree of a document, and what is wrong in its text where the tree still stands; `what` it is meant to be.

    Raises:
        BadDocument: no tree can be made: not YAML, not a map, an alias, too deep or too large.
    """
    if len(text) > LARGEST:
        raise _bad(file, 1, 1, "", f"the file has {len(text):,} characters; the most is {LARGEST:,}.",
                   "Name the house, show or hang file itself.")  # fmt: skip
    if is_json(text):
        tree, problems = read_json(text, file)
        whole = sourced(tree, "")
        assert isinstance(whole, Fields)
        return whole, problems
    begin = len(text) - len(text.removeprefix("\ufeff"))  # the parser does not count that mark of some editors
    builder = _Builder(file, text, begin, what=what)
    try:
        return _built(builder, text), builder.problems
    except BadDocument:
        plain, questions = without_questions(text, begin)
        if not questions:
            raise
        again = _Builder(file, plain, begin, questions, what=what)
        try:
            whole = _built(again, plain)
        except BadDocument as also:
            raise BadDocument([*again.problems, *also.problems]) from None
        if not again.problems:  # it was something else, and is gone with a ? in words
            raise
        return whole, again.problems


def _built(builder: _Builder, text: str) -> Fields:
    """The whole tree. Raises BadDocument where none can be made, in words for one who never heard of YAML."""
    file, begin = builder.file, builder.begin
    try:
        whole = sourced(builder.document(), "")
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
        said = " ".join(filter(None, [error.context, error.problem]))
        at = text[begin + mark.index :][:1] if mark else ""
        raise _bad(file, line, column, "", f"this is not YAML: {said}.", mend_for(said, at)) from error
    except (yaml.YAMLError, UnicodeEncodeError) as error:  # the second: half of a character that needs two
        found = _NO_TEXT.search(text)
        where, what = (found.start(), f"U+{ord(found[0]):04X}") if found else (0, "that YAML does not know")
        line, column = text.count("\n", 0, where) + 1, where - text.rfind("\n", 0, where)
        raise _bad(file, line, column, "", f"this is no text: it holds the character {what}.",
                   "Take it out, and save the file as plain UTF-8 text.") from error  # fmt: skip
    assert isinstance(whole, Fields)  # a map in, a map out
    return whole


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

    def __init__(self, file: str, text: str, begin: int, questions: frozenset[int] = frozenset(), *, what: str) -> None:
        self.file = file
        self._begins = f"Begin with `counterpoise: {what} 1`."
        self.begin = begin
        self.problems: list[Problem] = []
        self._text = text
        self._questions = questions  # where a letter stands for a ?
        self._events: Iterator[yaml.Event] = iter(())

    def document(self) -> Fields:
        self._events = yaml.parse(self._text[self.begin :], Loader=_LOADER)
        event = self._next()
        while isinstance(event, yaml.StreamStartEvent | yaml.DocumentStartEvent):
            event = self._next()
        if isinstance(event, yaml.StreamEndEvent):
            raise _bad(self.file, 1, 1, "", "the file is empty.", self._begins)
        root = self._node(event, "", 0)
        if not isinstance(root, Fields):
            mend = "Put a space after each colon." if _NO_SPACE.match(self._text[:200].strip("\ufeff \n")) else ""
            raise _bad(self.file, 1, 1, "", "the file is not a list of `field: value` lines.",
                       mend or self._begins)  # fmt: skip
        self._next()
        if not isinstance(self._next(), yaml.StreamEndEvent):
            raise _bad(self.file, 1, 1, "", "the file holds more than one document.", "Keep one; take `---` out.")
        return root

    def _next(self) -> yaml.Event:
        return next(self._events)

    def _node(self, event: yaml.Event, path: str, depth: int) -> Node:
        line, column, start = self._mark(event.start_mark)
        if depth > DEEPEST:
            raise _bad(self.file, line, column, path[:80], f"this is nested deeper than {DEEPEST}.", "Flatten it.")
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            raise _bad(self.file, line, column, path, "anchors and aliases (& and *) are not read.",
                       "Write a kind once under `kinds` and name it with `kind:`.")  # fmt: skip
        if tag := getattr(event, "tag", None):
            raise _bad(self.file, line, column, path, f"a tag ({tag[:40]}) is not read.",
                       "Take the ! and its word out, or put the value in double quotes.")  # fmt: skip
        if isinstance(event, yaml.ScalarEvent):
            end = self._mark(event.end_mark)[2]
            node = Scalar(event.value.strip(), path, line, column, start, end, quoted=bool(event.style))
            if start in self._questions:
                node = replace(node, text="?")
                self._refuse(
                    node,
                    path,
                    "says nothing that can be read.",
                    "If it is not known, write unknown; a ? that is meant goes in double quotes.",
                )
                return replace(node, text="unknown")
            if event.style == "'" and _FOOT_MARK.search(event.value):
                self._refuse(node, path, "inside single quotes '' stands for one ', so inches would be read as feet.",
                             "Write it in double quotes, or with ft and in.")  # fmt: skip
            if not event.style:  # plain: None from one parser, empty from the other
                self._look_behind(node)
            if _runs_over(node.text, event.style, self._mark(event.end_mark)[0] - line):
                self._refuse(node, path, "a figure runs over more than one line.", "Write it on one line.")
            return node
        if isinstance(event, yaml.SequenceStartEvent):
            items, end = self._items(path, depth)
            return Items(items, path, line, column, start, end, bool(event.flow_style))
        assert isinstance(event, yaml.MappingStartEvent)
        if self._text[start : start + 1] == "?" and not self._text[start + 1 : start + 2].strip():
            raise _bad(self.file, line, column, path, "a ? on its own is not read.",
                       "If it is not known, write unknown.")  # fmt: skip
        found, keys, end = self._fields(path, line, column, depth)
        return Fields(found, keys, path, line, column, start=start, end=end, flow=bool(event.flow_style))

    def _mark(self, mark: Any) -> tuple[int, int, int]:
        """Line and column from 1, and the offset into the text; every event of a parsed text has its marks."""
        return mark.line + 1, mark.column + 1, mark.index + self.begin

    def _look_behind(self, node: Scalar) -> None:
        if _NUMBER.match(node.text) and _HASH.match(self._text, node.end):
            self._refuse(node, node.path, "has a # behind a space, which begins a comment: it is lost.",
                         f"If pounds are meant, write {node.text}# or {node.text} lb, else take it out.")  # fmt: skip
        cut = _CUT_OFF.match(self._text, node.end)
        if cut is not None:
            self._refuse(node, node.path, f"what stands after it, {cut[1]}, would be lost as a comment.",
                         f"Put all of it in quotes if {cut[1]} belongs to it, else a space after the #.")  # fmt: skip

    def _refuse(self, node: Scalar, path: str, says: str, mend: str) -> None:
        self.problems += _bad(self.file, node.line, node.column, path, says, mend, shown(node.text)).problems

    def _items(self, path: str, depth: int) -> tuple[tuple[Node, ...], int]:
        found: list[Node] = []
        while not isinstance(event := self._next(), yaml.SequenceEndEvent):
            found.append(self._node(event, f"{path}[{len(found)}]", depth + 1))
        return tuple(found), self._mark(event.end_mark)[2]

    def _fields(self, path: str, line: int, column: int, depth: int) -> tuple[dict[str, Node], dict[str, Scalar], int]:
        found: dict[str, Node] = {}
        keys: dict[str, Scalar] = {}
        while not isinstance(event := self._next(), yaml.MappingEndEvent):
            key = self._node(event, path, depth + 1)
            if not isinstance(key, Scalar):
                raise _bad(self.file, line, column, path, "a field's name must be plain words.", "Rename it.")
            inner = f"{path}.{key.text}" if path else key.text
            node = self._node(self._next(), inner, depth + 1)
            if found and _is_tail(event, node):
                before = list(found)[-1]
                held = found[before]  # told where the value stands, so that what is left of it is not told as well
                at = replace(held, text=f"{held.text},{key.text}") if isinstance(held, Scalar) else key
                self._refuse(at, f"{path}.{before}".lstrip("."),
                             "inside { } a comma ends the value, so this number was cut in two.",
                             "Write it without the comma (1500 lb) or in quotes (\"1,500 lb\").")  # fmt: skip
            elif _has_no_space(event, key, node):
                self._refuse(key, inner, "there is no space after the colon.", "Write `name: value`.")
            elif key.text == "<<":
                self._refuse(key, inner, "merge keys (<<) are not read.",
                             "Write a kind once under `kinds` and name it with `kind:`.")  # fmt: skip
            elif key.text in found:
                self._refuse(key, inner, f"this field stands twice (also line {keys[key.text].line}).",
                             "Keep one of the two.")  # fmt: skip
            else:
                keys[key.text] = key
                found[key.text] = node
        return found, keys, self._mark(event.end_mark)[2]


def _is_tail(key: yaml.Event, node: Node) -> bool:
    """True for the second half of `{top: 1,500 lb}`: a plain word that starts with a figure, and nothing after it."""
    plain = isinstance(key, yaml.ScalarEvent) and not key.style and key.value[:1].isdigit()
    return plain and isinstance(node, Scalar) and node.start == node.end


def _has_no_space(key: yaml.Event, name: Scalar, node: Node) -> bool:
    """True for `{weight:12 lb}`, which is a name with a colon in it and nothing behind."""
    plain = isinstance(key, yaml.ScalarEvent) and not key.style and _NO_SPACE.match(name.text)
    return bool(plain) and isinstance(node, Scalar) and node.start == node.end


def _runs_over(text: str, style: str | None, breaks: int) -> bool:
    """True for what looks like a figure and is put together out of more than one line; | keeps its line breaks."""
    if style == ">":  # begins on the line of its sign, ends at the start of the next
        breaks -= 2
    if breaks <= 0 or style == "|" or len(text) > _LONGEST_FIGURE or not _FIGURE.match(text):
        return False
    return all(len(word) <= _LONGEST_UNIT for word in _WORD.findall(text.partition("@")[0]))
