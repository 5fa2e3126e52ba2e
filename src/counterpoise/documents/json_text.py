"""JSON text to the same tree that YAML gives: raw words, each with its place.

Read by a reader of its own, since YAML takes a pair of surrogates, a line separator inside a string, or the word null
for something else than JSON does. A number stays the characters that were written, and the field it stands in judges
them as it would judge the bare word: 12 is a count, and no length.
"""

from __future__ import annotations

import bisect
import json
import re

from counterpoise.documents.tree import DEEPEST, Fields, Items, Node, Scalar
from counterpoise.errors import BadDocument, Problem

_BEGINS = re.compile(r'\ufeff?[ \t\r\n]*\{[ \t\r\n]*["}]')
_BLANK = re.compile(r"[ \t\r\n]*")
_WORD = re.compile(r"-?[0-9][0-9.eE+-]*|[A-Za-z]+")
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?\Z")
_MENDS = {
    "null": 'Leave the field out, or write "none" or "unknown".',
    "true": 'Write the word that the field asks for, like "yes".',
    "false": 'Write the word that the field asks for, like "no".',
}


def is_json(text: str) -> bool:
    """True for a text that begins as a JSON object does: a brace, then a quoted name."""
    return _BEGINS.match(text) is not None


def read_json(text: str, file: str) -> tuple[Fields, list[Problem]]:
    """The tree of a JSON object, and what is wrong in it where the tree still stands.

    Raises:
        BadDocument: not JSON, or too deep.
    """
    reader = _Reader(text, file)
    node, end = reader.value(reader.skip(1 if text.startswith("\ufeff") else 0), "", 0)
    end = reader.skip(end)
    if end < len(text):
        raise reader.bad(end, "", "something stands after the last brace.", "Keep one object in the file.")
    assert isinstance(node, Fields)  # a text that is_json begins with a brace
    return node, reader.problems


class _Reader:
    """Reads values from an offset on, each with the offset behind it; recursion is bounded by DEEPEST."""

    def __init__(self, text: str, file: str) -> None:
        self.problems: list[Problem] = []
        self._text, self._file, self._decoder = text, file, json.JSONDecoder()
        self._lines = [0, *(found.end() for found in re.finditer(r"\r\n|\n|\r", text))]

    def place(self, at: int) -> tuple[int, int]:
        """Line and column from 1."""
        line = bisect.bisect_right(self._lines, at)
        return line, at - self._lines[line - 1] + 1

    def bad(self, at: int, path: str, says: str, mend: str, value: str | None = None) -> BadDocument:
        line, column = self.place(at)
        return BadDocument(
            (Problem(file=self._file, line=line, column=column, path=path[:80], value=value, says=says, mend=mend),)
        )

    def skip(self, at: int) -> int:
        """The offset of what stands next."""
        found = _BLANK.match(self._text, at)
        return found.end() if found else at

    def value(self, at: int, path: str, depth: int) -> tuple[Node, int]:
        """The value at an offset, and the offset behind it."""
        if depth > DEEPEST:
            raise self.bad(at, path, f"this is nested deeper than {DEEPEST}.", "Flatten it.")
        sign = self._text[at : at + 1]
        if sign == "{":
            return self._fields(at, path, depth)
        if sign == "[":
            return self._items(at, path, depth)
        if sign == '"':
            return self._string(at, path)
        return self._bare(at, path)

    def _string(self, at: int, path: str) -> tuple[Scalar, int]:
        try:
            words, end = self._decoder.raw_decode(self._text, at)
        except json.JSONDecodeError as error:
            said = error.msg.removesuffix(" starting at").removesuffix(" at").lower()
            raise self.bad(
                at, path, f"this is not JSON: {said}.", 'Close the quote; write \\" for an inch mark.'
            ) from None
        if any("\ud800" <= sign <= "\udfff" for sign in words):
            raise self.bad(at, path, "half a character is written here.", "Write the character itself.")
        return Scalar(words.strip(), path, *self.place(at), at, end, quoted=True), end

    def _bare(self, at: int, path: str) -> tuple[Scalar, int]:
        found = _WORD.match(self._text, at)
        if found is None:
            what = f"{self._text[at]} stands where a value is to be" if at < len(self._text) else "it ends too early"
            raise self.bad(at, path, f"this is not JSON: {what}.", "Check commas, quotes and brackets near here.")
        word = found.group()
        node = Scalar(word, path, *self.place(at), at, found.end())
        if word in _MENDS:
            self.problems += self.bad(at, path, "is no word of a document.", _MENDS[word], word).problems
        elif not _NUMBER.match(word):
            raise self.bad(at, path, "is not JSON.", f'Put it in quotes: "{word}".', word)
        return node, found.end()

    def _items(self, at: int, path: str, depth: int) -> tuple[Items, int]:
        items: list[Node] = []
        begin, at = at, self.skip(at + 1)
        while self._text[at : at + 1] != "]":
            if items:
                at = self._past(",", at, path)
            node, at = self.value(at, f"{path}[{len(items)}]", depth + 1)
            items.append(node)
            at = self.skip(at)
        return Items(tuple(items), path, *self.place(begin), begin, at + 1, True), at + 1

    def _fields(self, at: int, path: str, depth: int) -> tuple[Fields, int]:
        fields: dict[str, Node] = {}
        keys: dict[str, Scalar] = {}
        begin, at = at, self.skip(at + 1)
        while self._text[at : at + 1] != "}":
            if fields:
                at = self._past(",", at, path)
            if self._text[at : at + 1] != '"':
                raise self.bad(at, path, "this is not JSON: the name of a field is to be in quotes.",
                               "Check commas, quotes and braces near here.")  # fmt: skip
            key, at = self._string(at, path)
            inner = f"{path}.{key.text}" if path else key.text
            node, at = self.value(self._past(":", self.skip(at), inner), inner, depth + 1)
            if key.text in keys:
                twice = f"this field stands twice (also line {keys[key.text].line})."
                self.problems += self.bad(key.start, inner, twice, "Keep one of the two.", key.text).problems
            else:
                keys[key.text], fields[key.text] = key, node
            at = self.skip(at)
        return Fields(fields, keys, path, *self.place(begin), start=begin, end=at + 1, flow=True), at + 1

    def _past(self, sign: str, at: int, path: str) -> int:
        if self._text[at : at + 1] != sign:
            raise self.bad(at, path, f"this is not JSON: a {sign} is missing here.",
                           "Check commas, quotes and brackets near here.")  # fmt: skip
        return self.skip(at + 1)
