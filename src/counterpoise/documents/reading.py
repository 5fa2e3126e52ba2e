"""Text in, a checked document out; kinds are merged here, and single values edited in place."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

from counterpoise.documents.agreement import check_hang, check_house, check_show, must_be
from counterpoise.documents.fields import Desk, Skip, record
from counterpoise.documents.hang import Hang
from counterpoise.documents.house import House, SourceNote
from counterpoise.documents.known import How, Source
from counterpoise.documents.show import Show
from counterpoise.documents.text import Fields, Items, Node, Scalar, examine, parse
from counterpoise.errors import BadDocument


def read_house(text: str, file: str = "house.yaml") -> House:
    """A house from its text. Raises BadDocument with every problem found."""
    tree, desk = _open(text, file, "house")
    tree = _merge_kinds(tree, desk)
    house: House = _decode(House, tree, desk)
    check_house(house, desk)
    _done(desk)
    return house


def read_show(text: str, file: str = "show.yaml") -> Show:
    """A show from its text. Raises BadDocument with every problem found."""
    tree, desk = _open(text, file, "show")
    show: Show = _decode(Show, tree, desk)
    check_show(show, desk)
    _done(desk)
    return show


def read_hang(text: str, house: House, show: Show, file: str = "hang.yaml") -> Hang:
    """A hang from its text, held against its house and its show. Raises BadDocument with every problem found."""
    tree, desk = _open(text, file, "hang")
    hang: Hang = _decode(Hang, tree, desk)
    check_hang(hang, house, show, tree, desk)
    _done(desk)
    return hang


def edit_scalar(text: str, path: str, new: str, file: str = "hang.yaml") -> str:
    """The text with the one value at `path` replaced and every other character kept, comments too.

    Raises BadDocument where the text has no such value.
    """
    node = _found(parse(text, file), path)
    if node is None:
        raise _no_such_value(file, path)
    gap = " " if node.start == node.end else ""  # nothing stands after the colon yet
    changed = text[: node.start] + gap + _as_yaml(new) + text[node.end :]
    again = _found(parse(changed, file), path)
    if again is None or again.text != new.strip():
        raise _bad_edit(file, node, path, new)
    return changed


def _found(node: Node | None, path: str) -> Scalar | None:
    for step in path.replace("[", ".[").split("."):
        if isinstance(node, Fields):
            node = node.fields.get(step)
        elif isinstance(node, Items) and step[1:-1].isdigit() and int(step[1:-1]) < len(node.items):
            node = node.items[int(step[1:-1])]
        else:
            return None
    return node if isinstance(node, Scalar) else None


def _no_such_value(file: str, path: str) -> BadDocument:
    desk = Desk(file=file, sources={}, problems=[])
    desk.refuse(None, path, "there is no single value here to change.", "Open the file and look for it.")
    return _all_of(desk)


def _bad_edit(file: str, node: Scalar, path: str, new: str) -> BadDocument:
    desk = Desk(file=file, sources={}, problems=[])
    desk.refuse(node, path, f"{new!r} can not be written here.", "Write plain words on one line.")
    return _all_of(desk)


def _quoted(words: str) -> str:
    """In single quotes; in double ones where a foot mark stands in it, which single ones would write as inches."""
    return json.dumps(words, ensure_ascii=False) if "'" in words else f"'{words}'"


def _as_yaml(words: str) -> str:
    """Plain where that is certain to be read back as it is, else in quotes."""
    plain = words[:1].isalnum() or words[:1] == "~"
    risky = set(words) & set("[]{},\n\t") or ": " in words or " #" in words or words.endswith(":")
    return words if plain and not risky and words == words.strip() else _quoted(words)


def _open(text: str, file: str, what: str) -> tuple[Fields, Desk]:
    tree, problems = examine(text, file)
    desk = Desk(file=file, sources={}, problems=problems)
    said = tree.fields.get("counterpoise")
    if not isinstance(said, Scalar) or said.text != f"{what} 1":
        value = f"it says {said.text}" if isinstance(said, Scalar) else "it does not say what it is"
        desk.refuse(said or tree, "counterpoise", f"this is to be a {what} document, but {value}.",
                    f"Begin the file with `counterpoise: {what} 1`.")  # fmt: skip
        raise BadDocument(tuple(desk.problems))
    named = tree.fields.get("sources")
    if isinstance(named, Fields):
        for name, node in named.fields.items():
            _add_source(name, node, desk)
    elif named is not None:
        desk.refuse(
            named, "sources", "this must be a map of `name: {how, what, who, when}`.", "Indent the lines below."
        )
    return Fields({k: v for k, v in tree.fields.items() if k != "sources"}, tree.keys, "", 1, 1), desk


def _add_source(name: str, node: Node, desk: Desk) -> None:
    try:
        note: SourceNote = record(SourceNote)(node, desk)
    except Skip:
        return
    desk.sources[name] = Source(name=name, how=How(note.how), what=note.what, who=note.who, when=note.when)


def _decode(shape: type[Any], tree: Fields, desk: Desk) -> Any:
    try:
        return record(shape)(tree, desk)
    except Skip:
        raise _all_of(desk) from None


def _done(desk: Desk) -> None:
    if desk.problems:
        raise _all_of(desk)


def _all_of(desk: Desk) -> BadDocument:
    """Every problem once, in the order of the file: what is wrong in a kind would else be told for each of its sets."""
    return BadDocument(sorted(dict.fromkeys(desk.problems), key=lambda one: (one.line, one.column)))


def _merge_kinds(tree: Fields, desk: Desk) -> Fields:
    """Each set laid over the kind it names: maps merge, lists and words replace, `none` removes."""
    kinds, sets = tree.fields.get("kinds"), tree.fields.get("sets")
    named = kinds.fields if isinstance(kinds, Fields) else {}
    rest = {name: node for name, node in tree.fields.items() if name != "kinds"}
    if isinstance(sets, Items):
        rest["sets"] = replace(sets, items=tuple(_with_kind(one, named, desk) for one in sets.items))
    return replace(tree, fields=rest)


def _with_kind(one: Node, kinds: dict[str, Node], desk: Desk) -> Node:
    if not isinstance(one, Fields) or "kind" not in one.fields:
        return one
    said = one.fields["kind"]
    own = replace(one, fields={name: node for name, node in one.fields.items() if name != "kind"})
    kind = kinds.get(said.text) if isinstance(said, Scalar) else None
    if kind is None:
        must_be(getattr(said, "text", "this"), kinds, "kind", said, said.path, "`kinds` has", desk)
        return own
    merged = _over(kind, own)
    assert isinstance(merged, Fields)
    return replace(merged, path=one.path, line=one.line, column=one.column)


def _over(under: Node, upper: Node) -> Node:
    if not isinstance(under, Fields) or not isinstance(upper, Fields):
        return upper
    merged = dict(under.fields)
    for name, node in upper.fields.items():
        merged[name] = _over(merged[name], node) if name in merged else node
    return replace(upper, fields=merged, keys={**under.keys, **upper.keys})
