"""Reads trees into frozen records by what each field declares, collecting every problem before it stops.

A record is a dataclass whose fields carry a reader: `weight: Known = written(quantity(Kind.MASS))`. The field's name
with spaces for underscores is the word in the file. What a record does not know is refused with the near name.
"""

from __future__ import annotations

import dataclasses
import difflib
import re
from collections.abc import Callable, Mapping
from dataclasses import MISSING, field
from typing import Any

from counterpoise.documents.desk import Desk, Skip
from counterpoise.documents.figures import along, between, blank, quantity, source_called
from counterpoise.documents.text import Fields, Items, Node, Scalar
from counterpoise.documents.word_fields import Reader, along_batten, choice, day, reason, telling, text
from counterpoise.units import Kind

__all__ = [
    "Reader", "along", "along_batten", "between", "blank", "block", "choice", "day", "either", "figure", "items",
    "named", "optional", "part", "quantity", "reason", "record", "source_called", "text", "unknown_field",
    "word_of", "written",
]  # fmt: skip


def written(
    reader: Reader, *, default: Any = MISSING, factory: Callable[[], Any] | None = None, none: Any = MISSING
) -> Any:
    """A dataclass field read by `reader`; with a default it may be left out.

    `none` is what the word none stands for, where that is something else than leaving it out.
    """
    if none is not MISSING:
        return field(default=default, metadata={"reader": reader, "none": none})
    if factory is not None:
        return field(default_factory=factory, metadata={"reader": reader})
    if default is MISSING:
        return field(metadata={"reader": reader})
    return field(default=default, metadata={"reader": reader})


def figure(kind: Kind, **how: Any) -> Any:
    """A dataclass field for a quantity; one that is left out is unknown, with the place where it would stand.

    `how` is what `quantity` takes, and `within=(low, high, mend)` for bounds that only a slip of the pen passes.
    """
    return field(metadata={"reader": _reader(kind, how), "blank": kind})


def part(kind: Kind, **how: Any) -> Any:
    """As `figure`, for the rating of a part that a set may not have: it is then written none."""
    return field(metadata={"reader": _reader(kind, how), "blank": kind, "none": None})


def optional(kind: Kind, **how: Any) -> Any:
    """As `figure`, for one that is asked for by nothing: None where it is left out."""
    return field(default=None, metadata={"reader": _reader(kind, how)})


def block(shape: type[Any], *, none: Any = MISSING) -> Any:
    """A dataclass field for a record; one that is left out holds its unknown figures all the same."""
    metadata = {"reader": record(shape), "blank": shape}
    return field(metadata=metadata if none is MISSING else metadata | {"none": none})


def _reader(kind: Kind, how: dict[str, Any]) -> Reader:
    bounds = how.pop("within", None)
    plain = along() if how.pop("along", False) else quantity(kind, **how)
    return between(plain, *bounds) if bounds else plain


def word_of(name: str) -> str:
    """The word in a file for a field of a record."""
    return name.rstrip("_").replace("_", " ")


def items(reader: Reader) -> Reader:
    """A list; what cannot be read is noted and left out."""

    def many(node: Node, desk: Desk) -> tuple[Any, ...]:
        if not isinstance(node, Items):
            desk.refuse(node, node.path, "this must be a list.", "Write [one, two] or a line with - for each.")
            raise Skip
        found = []
        for one in node.items:
            try:
                found.append(reader(one, desk))
            except Skip:
                desk.lost.add(id(node))
        return tuple(found)

    return telling(many, items=reader)


def named(reader: Reader) -> Reader:
    """A map from names to values."""

    def many(node: Node, desk: Desk) -> Mapping[str, Any]:
        if not isinstance(node, Fields):
            desk.refuse(node, node.path, "this must be a map of `name: value` lines.",
                        "Write it like {show: 20 ft}, or with a line for each below it, indented.")  # fmt: skip
            raise Skip
        found = {}
        for name, one in node.fields.items():
            try:
                found[name] = reader(one, desk)
            except Skip:
                desk.lost.add(id(node))
        return found

    return telling(many, named=reader)


def either(shape: type[Any], word: str) -> Reader:
    """A record, or on one line just its field `word`."""
    whole = record(shape)

    def one(node: Node, desk: Desk) -> Any:
        if isinstance(node, Scalar):
            node = Fields({word: node}, {word: node}, node.path, node.line, node.column)
            return _fill(shape, node, desk)  # a node made here may stand where another stood
        return whole(node, desk)

    return telling(one, record=shape, word=word)


def record(shape: type[Any]) -> Reader:
    """A record of declared fields; `source` in it holds for every value within."""

    def one(node: Node, desk: Desk) -> Any:
        if not isinstance(node, Fields):
            desk.refuse(node, node.path, f"this must be the fields of {_noun(shape)}.", "Write `field: value` lines.")
            raise Skip
        seen = desk.read.get((id(node), shape), MISSING)
        if seen is not MISSING:
            return _again(seen)
        if isinstance(said := node.fields.get("source"), Scalar):
            source_called(said.text.removeprefix("@"), said, desk)
        try:
            made = _fill(shape, node, desk)
        except Skip:
            desk.read[id(node), shape] = None
            raise
        desk.read[id(node), shape] = made
        return made

    return telling(one, record=shape)


def _again(seen: Any) -> Any:
    """What was read before; where that could not be read its problems are noted already."""
    if seen is None:
        raise Skip
    return seen


def _noun(shape: type[Any]) -> str:
    """What a record is, with its article: the first words of what it says of itself."""
    said = re.split(r"[.:,]", shape.__doc__ or shape.__name__)[0].removesuffix(" as written")
    words = f"{said[:1].lower()}{said[1:]}"
    return words if words.startswith(("a ", "an ", "the ", "what ")) else f"the {words}"


def _fill(shape: type[Any], node: Fields, desk: Desk) -> Any:
    known = {word_of(one.name): one for one in dataclasses.fields(shape) if "reader" in one.metadata}
    for name in node.fields:
        if name not in known and name != "source":
            unknown_field(name, known, node, desk)
    values: dict[str, Any] = {}
    complete = True
    for word, one in known.items():
        try:
            values |= _value_of(one, word, node, desk)
        except Skip:
            desk.lost.add(id(node.fields.get(word)))
            complete = complete and _may_do_without(one, word, node, desk, values)
    if not complete:
        raise Skip
    names = {one.name for one in dataclasses.fields(shape)}
    values |= {
        name: at
        for name, at in (("line_of", node.line), ("home", node.home), ("stands", node.home or node.path))
        if name in names
    }
    made = shape(**values)
    desk.made[id(made)] = node
    return made


def _value_of(one: dataclasses.Field[Any], word: str, node: Fields, desk: Desk) -> dict[str, Any]:
    """The field's value by its name; empty where its default holds."""
    inner, path = node.fields.get(word), f"{node.path}.{word}".lstrip(".")
    if inner is None:
        if "blank" in one.metadata:
            return {one.name: _unwritten(one.metadata["blank"], word, node, desk)}
        if not _optional(one):
            desk.refuse(node, path, f"{word} is missing.", "Write it.")
            raise Skip
        return {}
    if isinstance(inner, Scalar) and inner.text == "none" and (_optional(one) or "none" in one.metadata):
        return {one.name: one.metadata["none"]} if "none" in one.metadata else {}
    return {one.name: one.metadata["reader"](inner, desk)}


def _may_do_without(
    one: dataclasses.Field[Any], word: str, node: Fields, desk: Desk, values: dict[str, Any]
) -> bool:  # fmt: skip
    """True where the rest of a record is still read, so that all its problems are told at once."""
    if "blank" in one.metadata:
        values[one.name] = _unwritten(one.metadata["blank"], word, node, desk)
        return True
    return _optional(one)


def _unwritten(what: Kind | type[Any], word: str, node: Fields, desk: Desk) -> Any:
    """An unknown figure, or a record of them, at the place where it would be written for all sets of its kind."""
    path, line = f"{node.home or node.path}.{word}".lstrip("."), node.home_line or node.line
    if isinstance(what, Kind):
        return blank(what, path, line)
    return _fill(what, Fields({}, {}, path, line, 1), desk)


def _optional(one: dataclasses.Field[Any]) -> bool:
    return one.default is not MISSING or one.default_factory is not MISSING


def unknown_field(name: str, known: Mapping[str, Any], node: Fields, desk: Desk) -> None:
    """Note a field that is none of those known here, with the near one."""
    near = difflib.get_close_matches(name, known, n=1, cutoff=0.5)
    inner = f"{node.keys[name].path}.{name}".lstrip(".")  # in a kind it is told there, once for all its sets
    mend = f"Did you mean `{near[0]}`?" if near else f"Known here: {', '.join(known)}."
    value = node.fields.get(name)
    if isinstance(value, Scalar) and not value.text:
        mend += f" If `{name}` goes on from what stands before: in {{ }} a comma ends a value, so put it all in quotes."
    desk.refuse(node.keys[name], inner, f"`{name}` is not a field here.", mend)
