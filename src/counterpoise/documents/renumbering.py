"""Renumbering sets as one change: every place that names them, in the house, its hangs and logs, shown beforehand.

A set keeps its history by its permanent key: where none is written, the label it had becomes one.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from counterpoise.documents.edits import written_like
from counterpoise.documents.house_agreement import LARGEST_LABEL
from counterpoise.documents.layout import Change, applied, end_of
from counterpoise.documents.numbering import pairs, passed_on, told
from counterpoise.documents.renumber_marks import Marks, former_of, history, maps, numbering, word
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
    names = [files[at] if at < len(files) else f"hang {at + 1}" for at in range(len(hangs))]
    trees = [parse(text, name) for text, name in zip(hangs, names, strict=True)]
    for each, name in zip(trees, names, strict=True):
        _require_of(each, tree, name)
    is_done = _is_done(tree, trees, labels)
    if not is_done:
        _require_sound(tree, labels)
    for each, name in zip(trees, names, strict=True):
        _require_certain(each, tree, labels if is_done else {}, name)
    touched: list[Touched] = []
    number = _numbered(tree) + (not is_done and _passes_on(tree, labels))
    is_marked = bool(passed_on(_sets(tree, {} if is_done else labels)))
    new_house = house if is_done else _new_house(house, tree, labels, number if is_marked else 0, file, touched)
    new_hangs = []
    for text, each, name in zip(hangs, trees, names, strict=True):
        changes = _relabelled(text, each, _places(each), labels, name, touched)
        marks = numbering(text, each, "house", number) if is_marked else Marks()
        _tell(marks, name, touched)
        new_hangs.append(_held(applied(text, [*changes, *marks.changes]), each, labels, marks.words, name))
    return Renumbered(house=new_house, hangs=tuple(new_hangs), touched=tuple(touched))


def _new_house(
    text: str, tree: Fields, labels: Mapping[str, str], number: int, file: str, touched: list[Touched]
) -> str:  # fmt: skip
    """The house with new labels, the history of each set, and which numbering it is where that has to be told."""
    changes = _relabelled(text, tree, _in_house(tree), labels, file, touched)
    marks = [history(text, tree, labels)]
    if number > 1 and "name" in tree.fields:
        marks.append(numbering(text, tree, "name", number))
    for one in marks:
        _tell(one, file, touched)
        changes += one.changes
    return _held(applied(text, changes), tree, labels, sum(one.words for one in marks), file)


def _tell(marks: Marks, file: str, touched: list[Touched]) -> None:
    touched += [Touched(file=file, line=line, path=path, says=says) for line, path, says in marks.told]


def _numbered(tree: Fields) -> int:
    """The numbering that the labels of a document are of; of a house that says none the first, else none."""
    said = tree.fields.get("numbering")
    if isinstance(said, Scalar) and said.text.isdecimal():
        return int(said.text)
    return 1 if "sets" in tree.fields else 0


def _sets(tree: Fields, labels: Mapping[str, str]) -> list[tuple[str, list[str]]]:
    """The label of each set after a renumbering, and those it had before."""
    found = []
    for one in maps(tree, "sets"):
        old = word(one, "set")
        new = labels.get(old, old)
        found.append((new, [was for was in (*former_of(one), old) if was != new]))
    return found


def _passes_on(tree: Fields, labels: Mapping[str, str]) -> bool:
    """True where a label that changes hands was, or is then, that of another set."""
    there = {word(one, "set") for one in maps(tree, "sets")}
    moved = {label for old, new in labels.items() if old in there and old != new for label in (old, new)}
    return not moved.isdisjoint(passed_on(_sets(tree, labels)))


def _is_done(tree: Fields, hangs: Sequence[Fields], labels: Mapping[str, str]) -> bool:
    """True where the house has been renumbered so already, and what is named with it is older than that."""
    former = {(was, new) for new, had in _sets(tree, {}) for was in had}
    older = all(_numbered(each) < _numbered(tree) for each in hangs)
    return bool(hangs) and older and all(one in former for one in labels.items())


def _require_certain(hang: Fields, house: Fields, labels: Mapping[str, str], file: str) -> None:
    """A label that is another set's now, in a hang or log of an earlier numbering: which is meant, it has to say."""
    if _numbered(hang) == _numbered(house):
        return
    passed = passed_on(_sets(house, {}))
    names = dict.fromkeys(part for one in _places(hang) for part in (one.text, *one.text.split("+")))
    doubtful = {was: passed[was] for was in names if was in passed and was not in labels}
    if doubtful:
        raise Refused(f"{file} does not say which sets it means: {told(doubtful)}",
                      f"Where it is older, name these too: {pairs(doubtful)}. Else write `numbering: "
                      f"{_numbered(house)}` in it.")  # fmt: skip


def _require_sound(tree: Fields, labels: Mapping[str, str]) -> None:
    there = dict.fromkeys(one.text for one in _words(tree, "sets", "set"))
    former = {(was, now) for now, had in _sets(tree, {}) for was in had}
    for old, new in labels.items():
        if old not in there and (old, new) not in former:
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


def _require_of(hang: Fields, house: Fields, file: str) -> None:
    said, name = hang.fields.get("house"), house.fields.get("name")
    if not isinstance(said, Scalar) or not isinstance(name, Scalar) or said.text != name.text:
        of = said.text if isinstance(said, Scalar) else "no house"
        mine = name.text if isinstance(name, Scalar) else "the house given"
        raise Refused(f"{file} is for {of}, not for {mine}", "Name the hangs and logs of this house.")


def _held(changed: str, before: Fields, labels: Mapping[str, str], more: int, file: str) -> str:
    """The changed text, where it is read back with the labels that were wanted and as many more words as are meant."""
    after = parse(changed, file)
    wanted = [_new_label(one.text, labels) for one in _places(before)]
    words = sum(1 for _ in scalars(before)) + more
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
    for name in ("stated bricks", "stated small bricks", "stated bags", "preset"):
        if isinstance(held := tree.fields.get(name), Fields):
            yield from held.keys.values()
    cues = tree.fields.get("cues")
    for cue in cues.items if isinstance(cues, Items) else ():
        if isinstance(cue, Fields):
            yield from _words(cue, "moves", "set")
    yield from _listed(tree, "not checked here", "sets")


def _words(tree: Fields, name: str, word: str) -> Iterator[Scalar]:
    """The field of each map of a list."""
    for one in maps(tree, name):
        if isinstance(said := one.fields.get(word), Scalar):
            yield said


def _listed(tree: Fields, name: str, word: str) -> Iterator[Scalar]:
    """The words of a list in each map of a list."""
    for one in maps(tree, name):
        inner = one.fields.get(word)
        yield from (said for said in (inner.items if isinstance(inner, Items) else ()) if isinstance(said, Scalar))


def _relabelled(
    text: str, tree: Fields, places: Iterator[Scalar], labels: Mapping[str, str], file: str, touched: list[Touched]
) -> list[Change]:  # fmt: skip
    changes = []
    for one in places:
        new = _new_label(one.text, labels)
        if new != one.text:
            changes.append(Change(one.start, end_of(one, text), written_like(text, one, new)))
            says = f"{one.text} becomes {new}"
            touched.append(Touched(file=file, line=one.line, path=_told(tree, one), says=says))
    return changes


def _new_label(said: str, labels: Mapping[str, str]) -> str:
    """What a set is called then; of married sets that a log names as one, 14+15, each."""
    if said in labels or "+" not in said:
        return labels.get(said, said)
    return "+".join(labels.get(one, one) for one in said.split("+"))


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
    for name in ("piece", "bay", "what", "cue", "n"):
        if isinstance(item, Fields) and isinstance(said := item.fields.get(name), Scalar) and said is not one:
            return name, said
    return None
