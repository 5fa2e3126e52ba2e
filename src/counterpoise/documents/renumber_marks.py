"""What a renumbering writes besides labels: the key of a set, its former labels, and which numbering it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from counterpoise.documents.edits import written_like
from counterpoise.documents.json_text import is_json
from counterpoise.documents.layout import Change, break_of, end_of, indent_of, line_end
from counterpoise.documents.tree import Fields, Items, Scalar
from counterpoise.documents.writing import json_words, yaml_words


@dataclass(slots=True)
class Marks:
    """Changes of a text, how many words they add, and what is told of each with its line."""

    changes: list[Change] = field(default_factory=list)
    words: int = 0
    told: list[tuple[int, str, str]] = field(default_factory=list)  # line, path, what


def maps(tree: Fields, name: str) -> Iterator[Fields]:
    """The maps of a list."""
    held = tree.fields.get(name)
    for one in held.items if isinstance(held, Items) else ():
        if isinstance(one, Fields):
            yield one


def word(one: Fields, name: str) -> str:
    """The words of a field, "" where it has none."""
    said = one.fields.get(name)
    return said.text if isinstance(said, Scalar) else ""


def former_of(one: Fields) -> list[str]:
    """The labels that a set had, its key among them."""
    held = one.fields.get("formerly")
    listed = [said.text for said in (held.items if isinstance(held, Items) else ()) if isinstance(said, Scalar)]
    return [said for said in (word(one, "key"), *listed) if said and said != word(one, "set")]


def history(text: str, tree: Fields, labels: Mapping[str, str]) -> Marks:
    """The former label of each set that changes: as its key where it has none, else among its former labels."""
    marks = Marks()
    for one in maps(tree, "sets"):
        said = one.fields.get("set")
        if not isinstance(said, Scalar) or labels.get(said.text, said.text) == said.text:
            continue
        if "key" not in one.fields:
            _beside(text, one, said, "key", written_like(text, said, said.text), marks)
            marks.words += 2
            told = f"the permanent key {said.text} is written, so that its history stays"
        elif said.text in former_of(one) or said.text == word(one, "key"):
            continue
        else:
            _keep_former(text, one, said, marks)
            told = f"its former label {said.text} is kept"
        marks.told.append((said.line, "sets", told))
    return marks


def _keep_former(text: str, one: Fields, said: Scalar, marks: Marks) -> None:
    words = json_words(said.text) if is_json(text) else yaml_words(said.text)
    held = one.fields.get("formerly")
    if not isinstance(held, Items):
        _beside(text, one, said, "formerly", f"[{words}]", marks)
        marks.words += 2
        return
    marks.words += 1
    if held.flow:
        at = end_of(held.items[-1], text) if held.items else held.start + 1
        marks.changes.append(Change(at, at, f", {words}" if held.items else words))
    else:
        at = line_end(text, end_of(held, text))
        marks.changes.append(Change(at, at, f"{break_of(text)}{indent_of(held)}- {words}"))


def numbering(text: str, tree: Fields, beside: str, number: int) -> Marks:
    """The numbering that the labels are of, written over the former one or behind the field `beside`."""
    marks = Marks()
    held, near = tree.fields.get("numbering"), tree.fields[beside]
    if isinstance(held, Scalar):
        if held.text != str(number):
            marks.changes.append(Change(held.start, end_of(held, text), written_like(text, held, str(number))))
        else:
            return marks
    elif isinstance(near, Scalar):
        words = json_words(str(number)) if is_json(text) else str(number)
        _beside(text, tree, near, "numbering", words, marks)
        marks.words += 2
    marks.told.append((near.line, "numbering", f"its labels are those of numbering {number}"))
    return marks


def _beside(text: str, one: Fields, said: Scalar, name: str, words: str, marks: Marks) -> None:
    """A field behind another: on the same line inside brackets, else on a line of its own."""
    end = end_of(said, text)
    if one.flow:
        new = f'"{name}": {words}' if is_json(text) else f"{name}: {words}"
        marks.changes.append(Change(end, end, f", {new}"))
    else:
        end = line_end(text, end)
        marks.changes.append(Change(end, end, f"{break_of(text)}{indent_of(one)}{name}: {words}"))
