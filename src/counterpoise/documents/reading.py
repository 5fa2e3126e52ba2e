"""Text in, a checked document out; kinds are merged here, and what one place says of another is held against it."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from counterpoise.documents.fields import Desk, Skip, record
from counterpoise.documents.hang import Hang
from counterpoise.documents.house import House, SourceNote
from counterpoise.documents.known import How, Source
from counterpoise.documents.show import Show
from counterpoise.documents.text import Fields, Items, Node, Scalar, parse
from counterpoise.errors import BadDocument, Unreadable
from counterpoise.units import place

LARGEST_LABEL = 24  # characters of a set's label: it is shouted across a stage


def read_house(text: str, file: str = "house.yaml") -> House:
    """A house from its text. Raises BadDocument with every problem found."""
    tree, desk = _open(text, file, "house")
    tree = _merge_kinds(tree, desk)
    house: House = _decode(House, tree, desk)
    _check_house(house, tree, desk)
    return _done(house, desk)


def read_show(text: str, file: str = "show.yaml") -> Show:
    """A show from its text. Raises BadDocument with every problem found."""
    tree, desk = _open(text, file, "show")
    show: Show = _decode(Show, tree, desk)
    _twice((one.piece for one in show.pieces), "piece", _lines(tree, "pieces"), desk)
    for index, one in enumerate(show.pieces):
        if bool(one.picks) == (one.spread_over is not None):
            desk.refuse(_lines(tree, "pieces")[index], f"pieces[{index}] {one.piece}",
                        "a piece has either picks or a length it is spread over.",
                        "Write `picks: [6' SR, 6' SL]` or `spread over: 40 ft`.")  # fmt: skip
    return _done(show, desk)


def read_hang(text: str, house: House, show: Show, file: str = "hang.yaml") -> Hang:
    """A hang from its text, held against its house and its show. Raises BadDocument with every problem found."""
    tree, desk = _open(text, file, "hang")
    hang: Hang = _decode(Hang, tree, desk)
    lines = _lines(tree, "hung")
    for index, one in enumerate(hang.hung):
        at = f"hung[{index}]"
        _must_be(one.label, [s.label for s in house.sets], "set", lines[index], f"{at}.set", f"{house.name} has", desk)
        _must_be(one.piece, [p.piece for p in show.pieces], "piece", lines[index], f"{at}.piece",
                 f"{show.name} has", desk)  # fmt: skip
    for label in hang.stated_bricks:
        _must_be(label, [s.label for s in house.sets], "set", None, "stated bricks", f"{house.name} has", desk)
    _names_match(hang, house, show, tree, desk)
    _on_the_pipe(hang, house, show, lines, desk)
    return _done(hang, desk)


def edit_scalar(text: str, path: str, new: str, file: str = "hang.yaml") -> str:
    """The text with the one value at `path` replaced and every other character kept, comments too.

    Raises BadDocument where the text has no such value.
    """
    node: Node | None = parse(text, file)
    for step in path.replace("[", ".[").split("."):
        if isinstance(node, Fields):
            node = node.fields.get(step)
        elif isinstance(node, Items) and step.startswith("[") and int(step[1:-1]) < len(node.items):
            node = node.items[int(step[1:-1])]
        else:
            node = None
    if not isinstance(node, Scalar):
        desk = Desk(file=file, sources={}, problems=[])
        desk.refuse(None, path, "there is no single value here to change.", "Open the file and look for it.")
        raise BadDocument(tuple(desk.problems))
    return text[: node.start] + _as_yaml(new) + text[node.end :]


def _as_yaml(words: str) -> str:
    plain = words and words[0] not in "'\"[]{}&*!|>%@`#,?:- " and ": " not in words and " #" not in words
    return words if plain and not set(words) & set("[]{},\n") else "'" + words.replace("'", "''") + "'"


def _open(text: str, file: str, what: str) -> tuple[Fields, Desk]:
    tree = parse(text, file)
    desk = Desk(file=file, sources={}, problems=[])
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
        desk.refuse(named, "sources", "this must be a map of `name: {how, what, who, when}`.", "Indent the lines below.")
    return Fields({k: v for k, v in tree.fields.items() if k != "sources"}, tree.keys, "", 1, 1), desk


def _add_source(name: str, node: Node, desk: Desk) -> None:
    try:
        note: SourceNote = record(SourceNote)(node, desk, None)
    except Skip:
        return
    desk.sources[name] = Source(name=name, how=How(note.how), what=note.what, who=note.who, when=note.when)


def _decode(shape: type[Any], tree: Fields, desk: Desk) -> Any:
    try:
        return record(shape)(tree, desk, None)
    except Skip:
        raise BadDocument(tuple(desk.problems)) from None


def _done(document: Any, desk: Desk) -> Any:
    if desk.problems:
        raise BadDocument(tuple(sorted(desk.problems, key=lambda one: (one.line, one.column))))
    return document


def _lines(tree: Fields, name: str) -> tuple[Node, ...]:
    node = tree.fields.get(name)
    return node.items if isinstance(node, Items) else ()


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
        _must_be(getattr(said, "text", "this"), kinds, "kind", said, said.path, "`kinds` has", desk)
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


def _twice(names: Iterable[str], what: str, lines: tuple[Node, ...], desk: Desk) -> None:
    seen: set[str] = set()
    for name, node in zip(names, lines, strict=False):
        if name in seen:
            desk.refuse(node, node.path, f"{what} {name} stands twice.", "Give each its own name.")
        seen.add(name)


def _must_be(said: str, names: Iterable[str], what: str, node: Node | None, path: str, has: str, desk: Desk) -> None:
    names = list(names)
    if said in names:
        return
    near = difflib.get_close_matches(said, names, n=1)
    listed = ", ".join(names[:12]) + (" and more" if len(names) > 12 else "")
    mend = f"Did you mean {near[0]}?" if near else f"{has[0].upper()}{has[1:]}: {listed or 'none'}."
    desk.refuse(node, path, f"there is no {what} {said}.", mend)


def _check_house(house: House, tree: Fields, desk: Desk) -> None:
    lines = _lines(tree, "sets")
    _twice((one.label for one in house.sets), "set", lines, desk)
    bricks = [one.brick for one in house.bricks]
    for index, one in enumerate(house.sets):
        node, at = lines[index], f"sets {one.label}"
        _must_be(one.brick, bricks, "brick", node, f"{at} › brick", "`bricks` has", desk)
        if len(one.label) > LARGEST_LABEL:
            desk.refuse(node, at, f"the label has {len(one.label)} characters.", f"Use at most {LARGEST_LABEL}.")
        if one.low_trim.best is not None and one.high_trim.best is not None and one.low_trim.best >= one.high_trim.best:
            desk.refuse(node, f"{at} › high trim", f"high trim {one.high_trim.text} is not above low trim "
                        f"{one.low_trim.text}.", "Give both heights above the stage floor.")  # fmt: skip
        _check_lines(one, node, at, desk)


def _check_lines(one: Any, node: Node, at: str, desk: Desk) -> None:
    if one.batten.length.best is None:
        return
    if len(one.lines.at) < 2:
        desk.refuse(node, f"{at} › lines › at", "a batten hangs on two lines or more.", "List where each meets it.")
    places = []
    for said in one.lines.at:
        try:
            places.append(place(said, length=one.batten.length.best).best or 0.0)
        except Unreadable as error:
            desk.refuse(node, f"{at} › lines › at", f"{said}: {error.why}.".replace("..", "."), error.mend)
    if any(after - before < 0.001 for before, after in zip(places, places[1:], strict=False)):
        desk.refuse(node, f"{at} › lines › at", "the lines are not in order from stage right to stage left.",
                    "List each once, from stage right.")  # fmt: skip


def _names_match(hang: Hang, house: House, show: Show, tree: Fields, desk: Desk) -> None:
    for field, said, name in (("house", hang.house, house.name), ("show", hang.show, show.name)):
        if said != name:
            desk.refuse(tree.fields[field], field, f"the hang is for {said}, but the {field} given is {name}.",
                        f"Give the {field} file it was made for, or change the line.")  # fmt: skip


def _on_the_pipe(hang: Hang, house: House, show: Show, lines: tuple[Node, ...], desk: Desk) -> None:
    for index, one in enumerate(hang.hung):
        line_set, piece = house.set_called(one.label), show.piece_called(one.piece)
        if line_set is None or piece is None or one.centre.best is None or line_set.batten.length.best is None:
            continue
        half = line_set.batten.length.best / 2
        reach = [pick.number for pick in piece.picks if pick.best is not None]
        if piece.spread_over is not None and piece.spread_over.best is not None:
            reach = [-piece.spread_over.best / 2, piece.spread_over.best / 2]
        if any(abs(one.centre.best + at) > half + 1e-6 for at in reach):
            desk.refuse(lines[index], f"hung[{index}].centre",
                        f"{one.piece} centred at {one.centre.text} reaches past the end of set {one.label}'s batten "
                        f"({line_set.batten.length.text}).", "Move its centre, or its picks.")  # fmt: skip
