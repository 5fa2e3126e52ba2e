"""Reads trees into frozen records by what each field declares, collecting every problem before it stops.

A record is a dataclass whose fields carry a reader: `weight: Known = written(quantity(Kind.MASS))`. The field's name
with spaces for underscores is the word in the file. What a record does not know is refused with the near name.
"""

from __future__ import annotations

import dataclasses
import difflib
from collections.abc import Callable, Mapping
from dataclasses import MISSING, dataclass, field
from datetime import date
from typing import Any

from counterpoise.documents.known import Known, Source
from counterpoise.documents.text import Fields, Items, Node, Scalar
from counterpoise.errors import Problem, Unreadable
from counterpoise.units import Form, Kind, Reading, from_centre, read


@dataclass
class Desk:
    """Where a document is being read: its file, the sources it names, and the problems found so far."""

    file: str
    sources: dict[str, Source]
    problems: list[Problem]
    made: dict[int, Fields] = field(default_factory=dict)  # id of a record that was read -> where it stands

    def node_of(self, one: object) -> Fields:
        """Where a record that was read here stands.

        One that could not be read is left out of its list, so counting along the list would point at a neighbour.
        """
        return self.made[id(one)]

    def refuse(self, node: Node | None, path: str, says: str, mend: str) -> None:
        """Note a problem and go on; the document is refused at the end with all of them."""
        line, column = (node.line, node.column) if node else (1, 1)
        value = node.text if isinstance(node, Scalar) else None
        self.problems.append(
            Problem(file=self.file, line=line, column=column, path=path, value=value, says=says, mend=mend)
        )


class Skip(Exception):
    """A value could not be read; its problem is noted already."""


Reader = Callable[[Node, Desk], Any]


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


def _word(name: str) -> str:
    return name.rstrip("_").replace("_", " ")


def _scalar(node: Node, desk: Desk, wanted: str) -> Scalar:
    if not isinstance(node, Scalar):
        desk.refuse(node, node.path, "this is a list or a map.", f"Write {wanted} on one line.")
        raise Skip
    return node


def text(node: Node, desk: Desk) -> str:
    """Words as written."""
    scalar = _scalar(node, desk, "words")
    if not scalar.text:
        desk.refuse(node, node.path, "nothing is written here.", "Write it, or take the line out.")
        raise Skip
    return scalar.text


def choice(*words: str) -> Reader:
    """One of a few words."""

    def one(node: Node, desk: Desk) -> str:
        said = text(node, desk)
        if said not in words:
            near = difflib.get_close_matches(said, words, n=1)
            mend = f"Did you mean {near[0]}?" if near else ""
            desk.refuse(node, node.path, f"must be one of: {', '.join(words)}.", mend or f"Write {words[0]}.")
            raise Skip
        return said

    return one


def quantity(kind: Kind, *, above_zero: bool = False, ranges: bool = False) -> Reader:
    """A quantity in the notation of the documents; a range only where both its ends are carried through."""
    return _known(lambda said: read(said, kind), above_zero, ranges)


def between(reader: Reader, low: float, high: float, mend: str) -> Reader:
    """What `reader` reads, refused outside low..high [SI]: a slip of the pen that would pass anything."""

    def one(node: Node, desk: Desk) -> Known:
        found: Known = reader(node, desk)
        ends = [end for end in (found.low, found.high) if end is not None]
        if any(not low <= end <= high for end in ends):
            desk.refuse(node, node.path, "can hardly be meant.", mend)
            raise Skip
        return found

    return one


def blank(kind: Kind, path: str) -> Known:
    """What a rating is before anybody has written it: unknown. A part that a set does not have is written none."""
    return Known(text="nothing is written", kind=kind, low=None, best=None, high=None, form=Form.UNKNOWN, source=None,
                 path=path, line=0)  # fmt: skip


def day(node: Node, desk: Desk) -> str:
    """A day as 2027-02-01, so that it can be told whether it has passed."""
    said = text(node, desk)
    try:
        date.fromisoformat(said)
    except ValueError:
        desk.refuse(node, node.path, "is not a day.", "Write it like 2027-02-01.")
        raise Skip from None
    return said


def along() -> Reader:
    """A distance from a centre line, to stage left positive [m]: `6' SL`, `CL`, `12' SR`."""
    return _known(from_centre, False, False)


def _known(reader: Callable[[str], Reading], above_zero: bool, ranges: bool) -> Reader:
    def one(node: Node, desk: Desk) -> Known:
        scalar = _scalar(node, desk, "the figure with its unit")
        try:
            found = reader(scalar.text)
        except Unreadable as error:
            desk.refuse(node, node.path, f"{error.why}.".replace("..", "."), error.mend)
            raise Skip from None
        if above_zero and found.low is not None and found.low <= 0.0:
            desk.refuse(node, node.path, "must be more than zero.", "Write unknown where it is not known.")
            raise Skip
        if found.form is Form.RANGE and not ranges:
            desk.refuse(node, node.path, "a range is not carried through here.",
                        "Write the one figure, with ~ in front if it is an estimate, or unknown.")  # fmt: skip
            raise Skip
        source = desk.sources.get(scalar.block)
        if found.source:
            source = _source(found.source, node, desk)
        return Known(text=scalar.text, kind=found.kind, low=found.low, best=found.best, high=found.high,
                     form=found.form, source=source, path=node.path, line=node.line)  # fmt: skip

    return one


def _source(name: str, node: Node, desk: Desk) -> Source | None:
    if name in desk.sources:
        return desk.sources[name]
    near = difflib.get_close_matches(name, desk.sources, n=1)
    mend = f"Did you mean @{near[0]}?" if near else f"Add {name} under `sources`."
    desk.refuse(node, node.path, f"no source is called {name}.", mend)
    return None


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
                continue
        return tuple(found)

    return many


def named(reader: Reader) -> Reader:
    """A map from names to values."""

    def many(node: Node, desk: Desk) -> Mapping[str, Any]:
        if not isinstance(node, Fields):
            desk.refuse(node, node.path, "this must be a map of `name: value` lines.", "Indent the lines below it.")
            raise Skip
        found = {}
        for name, one in node.fields.items():
            try:
                found[name] = reader(one, desk)
            except Skip:
                continue
        return found

    return many


def record(shape: type[Any]) -> Reader:
    """A record of declared fields; `source` in it holds for every value within."""

    def one(node: Node, desk: Desk) -> Any:
        if not isinstance(node, Fields):
            desk.refuse(node, node.path, f"this must be the fields of a {_noun(shape)}.", "Write `field: value` lines.")
            raise Skip
        if isinstance(said := node.fields.get("source"), Scalar):
            _source(said.text.removeprefix("@"), said, desk)
        return _fill(shape, node, desk)

    return one


def _noun(shape: type[Any]) -> str:
    return (shape.__doc__ or shape.__name__).split(".")[0].lower().removeprefix("a ").removeprefix("an ")


def _fill(shape: type[Any], node: Fields, desk: Desk) -> Any:
    known = {_word(one.name): one for one in dataclasses.fields(shape) if "reader" in one.metadata}
    for name in node.fields:
        if name not in known and name != "source":
            _unknown_field(name, known, node, desk)
    values: dict[str, Any] = {}
    complete = True
    for word, one in known.items():
        try:
            values |= _value_of(one, word, node, desk)
        except Skip:
            complete = False
    if not complete:
        raise Skip
    if any(one.name == "line_of" for one in dataclasses.fields(shape)):
        values["line_of"] = node.line
    made = shape(**values)
    desk.made[id(made)] = node
    return made


def _value_of(one: dataclasses.Field[Any], word: str, node: Fields, desk: Desk) -> dict[str, Any]:
    """The field's value by its name; empty where its default holds."""
    inner, path = node.fields.get(word), f"{node.path}.{word}".lstrip(".")
    if inner is None:
        if not _optional(one):
            desk.refuse(node, path, f"{word} is missing.", _missing_mend(one))
            raise Skip
        if isinstance(one.default, Known):
            return {one.name: dataclasses.replace(one.default, path=path, line=node.line)}
        return {}
    if isinstance(inner, Scalar) and inner.text == "none" and _optional(one):
        return {one.name: one.metadata["none"]} if "none" in one.metadata else {}
    return {one.name: one.metadata["reader"](inner, desk)}


def _optional(one: dataclasses.Field[Any]) -> bool:
    return one.default is not MISSING or one.default_factory is not MISSING


def _missing_mend(one: dataclasses.Field[Any]) -> str:
    return "Write it; write unknown where it is not known." if "Known" in str(one.type) else "Write it."


def _unknown_field(name: str, known: Mapping[str, Any], node: Fields, desk: Desk) -> None:
    near = difflib.get_close_matches(name, known, n=1, cutoff=0.5)
    inner = f"{node.path}.{name}".lstrip(".")
    mend = f"Did you mean `{near[0]}`?" if near else f"Known here: {', '.join(known)}."
    desk.refuse(node.keys[name], inner, f"`{name}` is not a field here.", mend)
