"""Renumbering sets as one change: every place that names them, in the house, its hangs and logs, shown beforehand.

A set keeps its history by its permanent key: where none is written, the label it had becomes one.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from counterpoise.documents.edits import written_like
from counterpoise.documents.house_agreement import LARGEST_LABEL
from counterpoise.documents.json_text import is_json
from counterpoise.documents.layout import Change, applied, break_of, end_of, indent_of, line_end
from counterpoise.documents.text import parse
from counterpoise.documents.tree import Fields, Items, Node, Scalar, scalars
from counterpoise.errors import Refused


@dataclass(frozen=True, slots=True, kw_only=True)
class Touched:
    """A place that a renumbering changes. `says` goes on from the place: "12 becomes 12A"."""

    file: str
    line: int
    path: str
    says: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}  {self.path}: {self.says}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Renumbered:
    """The texts as they read after it, and every place that changed."""

    house: str
    hangs: tuple[str, ...]
    touched: tuple[Touched, ...]


def renumber(
    house: str, hangs: Sequence[str], labels: Mapping[str, str], *, file: str = "house.yaml", files: Sequence[str] = ()
) -> Renumbered:  # fmt: skip
    """The texts with sets renumbered, all at once: two labels may change places. Comments and all else stay.

    Args:
        house: the text of the house.
        hangs: texts of its hangs and logs.
        labels: old label to new one; for a set that the house has renumbered already, its key to the label it has.
        file, files: what the texts are called in what is told.

    Raises:
        Refused: a label that no set has, one that two sets would have, or a hang or log of another house.
        BadDocument: a text has no tree.
    """
    tree = parse(house, file)
    _require_sound(tree, labels)
    touched: list[Touched] = []
    changes = _relabelled(house, tree, _in_house(tree), labels, file, touched)
    keys = _keys(house, tree, labels, file, touched)
    new_house = _held(applied(house, [*changes, *keys]), tree, labels, len(keys), file)
    new_hangs = []
    for number, text in enumerate(hangs):
        name = files[number] if number < len(files) else f"hang {number + 1}"
        hang = parse(text, name)
        _require_of(hang, tree, name)
        changes = _relabelled(text, hang, _places(hang), labels, name, touched)
        new_hangs.append(_held(applied(text, changes), hang, labels, 0, name))
    return Renumbered(house=new_house, hangs=tuple(new_hangs), touched=tuple(touched))


def _require_sound(tree: Fields, labels: Mapping[str, str]) -> None:
    there = dict.fromkeys(one.text for one in _words(tree, "sets", "set"))
    for old, new in labels.items():
        if old not in there and _by_key(tree).get(old) != new:
            near = difflib.get_close_matches(old, there, n=1)
            mend = f"Did you mean {near[0]}?" if near else f"The house has {', '.join([*there][:12])}."
            raise Refused(f'There is no set "{old}"', mend)
        if not new.strip() or new != new.strip() or len(new) > LARGEST_LABEL or not new.isprintable():
            raise Refused(f'"{new}" is no label', f"Use 1 to {LARGEST_LABEL} characters.")
    after: dict[str, list[str]] = {}
    for one in there:
        after.setdefault(labels.get(one, one), []).append(one)
    twice = [_clash(new, old) for new, old in after.items() if len(old) > 1]
    if twice:
        raise Refused("; ".join(twice), "Renumber the set that has that label too, or choose another.")


def _clash(new: str, old: list[str]) -> str:
    """Which sets would be called alike."""
    moved = [one for one in old if one != new]
    sets = f"set {moved[0]}" if len(moved) == 1 else f"sets {', '.join(moved)}"
    has = ", and set " + new + " has that label already" if new in old else ""
    return f"{sets[0].upper()}{sets[1:]} would be called {new}{has}"


def _by_key(tree: Fields) -> dict[str, str]:
    """Key to label, of the sets that have a key."""
    pairs = ((one.fields.get("key"), one.fields.get("set")) for one in _maps(tree, "sets"))
    return {key.text: said.text for key, said in pairs if isinstance(key, Scalar) and isinstance(said, Scalar)}


def _require_of(hang: Fields, house: Fields, file: str) -> None:
    said, name = hang.fields.get("house"), house.fields.get("name")
    if not isinstance(said, Scalar) or not isinstance(name, Scalar) or said.text != name.text:
        of = said.text if isinstance(said, Scalar) else "no house"
        mine = name.text if isinstance(name, Scalar) else "the house given"
        raise Refused(f"{file} is for {of}, not for {mine}", "Name the hangs and logs of this house.")


def _held(changed: str, before: Fields, labels: Mapping[str, str], keys: int, file: str) -> str:
    """The changed text, where it is read back with the labels that were wanted and as many other words as before."""
    after = parse(changed, file)
    wanted = [labels.get(one.text, one.text) for one in _places(before)]
    words = sum(1 for _ in scalars(before)) + 2 * keys
    if [one.text for one in _places(after)] != wanted or sum(1 for _ in scalars(after)) != words:
        raise Refused(f"The labels cannot be written in {file}", "Write `set: label` on a line of its own.")
    return changed


def _places(tree: Fields) -> Iterator[Scalar]:
    """Every word of a house, a hang or a log that is the label of a set."""
    if "done" in tree.fields:
        return _words(tree, "done", "set")
    return _in_hang(tree) if "hung" in tree.fields else _in_house(tree)


def _in_house(tree: Fields) -> Iterator[Scalar]:
    """Every word of a house that is the label of a set."""
    yield from _words(tree, "sets", "set")
    yield from _words(tree, "sets", "twin of")
    kinds = tree.fields.get("kinds")
    for kind in kinds.fields.values() if isinstance(kinds, Fields) else ():
        if isinstance(kind, Fields) and isinstance(said := kind.fields.get("twin of"), Scalar):
            yield said
    yield from _listed(tree, "steel", "sets")
    yield from _listed(tree, "not checked here", "sets")


def _in_hang(tree: Fields) -> Iterator[Scalar]:
    """Every word of a hang that is the label of a set; names of fields among them."""
    yield from _words(tree, "hung", "set")
    for name in ("stated bricks", "stated small bricks", "preset"):
        if isinstance(held := tree.fields.get(name), Fields):
            yield from held.keys.values()
    cues = tree.fields.get("cues")
    for cue in cues.items if isinstance(cues, Items) else ():
        if isinstance(cue, Fields):
            yield from _words(cue, "moves", "set")
    yield from _listed(tree, "not checked here", "sets")


def _words(tree: Fields, name: str, word: str) -> Iterator[Scalar]:
    """The field of each map of a list."""
    for one in _maps(tree, name):
        if isinstance(said := one.fields.get(word), Scalar):
            yield said


def _listed(tree: Fields, name: str, word: str) -> Iterator[Scalar]:
    """The words of a list in each map of a list."""
    for one in _maps(tree, name):
        inner = one.fields.get(word)
        yield from (said for said in (inner.items if isinstance(inner, Items) else ()) if isinstance(said, Scalar))


def _maps(tree: Fields, name: str) -> Iterator[Fields]:
    held = tree.fields.get(name)
    for one in held.items if isinstance(held, Items) else ():
        if isinstance(one, Fields):
            yield one


def _relabelled(
    text: str, tree: Fields, places: Iterator[Scalar], labels: Mapping[str, str], file: str, touched: list[Touched]
) -> list[Change]:  # fmt: skip
    changes = []
    for one in places:
        new = labels.get(one.text, one.text)
        if new != one.text:
            changes.append(Change(one.start, end_of(one, text), written_like(text, one, new)))
            says = f"{one.text} becomes {new}"
            touched.append(Touched(file=file, line=one.line, path=_told(tree, one), says=says))
    return changes


def _told(tree: Fields, one: Scalar) -> str:
    """The path in words: `hung, header`, `steel, A`."""
    top, _, rest = one.path.partition("[")
    held = tree.fields.get(top)
    item = held.items[int(rest.partition("]")[0])] if isinstance(held, Items) and rest else None
    first = next(iter(item.fields.items()), None) if isinstance(item, Fields) else None
    if first is None or not isinstance(first[1], Scalar) or first[1] is one:
        first = _name_of(item, one)
    return f"{top}, {first[1].text}" if first and isinstance(first[1], Scalar) else top


def _name_of(item: Node | None, one: Scalar) -> tuple[str, Node] | None:
    """Another word that tells which item it is: what hangs there."""
    for word in ("piece", "bay", "what", "cue", "n"):
        if isinstance(item, Fields) and isinstance(said := item.fields.get(word), Scalar) and said is not one:
            return word, said
    return None


def _keys(
    text: str, tree: Fields, labels: Mapping[str, str], file: str, touched: list[Touched]
) -> list[Change]:  # fmt: skip
    """The permanent keys that are written, behind the label, for sets that had none."""
    changes = []
    for one in _maps(tree, "sets"):
        said = one.fields.get("set")
        if not isinstance(said, Scalar) or labels.get(said.text, said.text) == said.text or "key" in one.fields:
            continue
        end = end_of(said, text)
        if one.flow:
            word = '"key"' if is_json(text) else "key"
            changes.append(Change(end, end, f", {word}: {written_like(text, said, said.text)}"))
        else:
            end = line_end(text, end)
            changes.append(
                Change(end, end, f"{break_of(text)}{indent_of(one)}key: {written_like(text, said, said.text)}")
            )
        says = f"the permanent key {said.text} is written, so that its history stays"
        touched.append(Touched(file=file, line=said.line, path="sets", says=says))
    return changes
