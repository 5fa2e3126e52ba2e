"""What is written once and holds for many: kinds of set, and rows of the catalogue; laid under what a set says itself.

Works on the tree, before any field is read: a figure that comes from a kind or from the catalogue is read by the same
reader as one that stands in the set, and keeps the place where it does stand.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from counterpoise import catalogue
from counterpoise.documents.desk import Desk
from counterpoise.documents.known import How, Source
from counterpoise.documents.named import must_be
from counterpoise.documents.text import Fields, Items, Node, Scalar

# Where a word names a row of the catalogue: the families it may be of, and row field -> field here.
_PIPE = {name: name for name in ("outside diameter", "wall", "design wall", "weight", "modulus")}
_Names = Mapping[str, tuple[tuple[str, ...], Mapping[str, str]]]
PIPE_ROWS: _Names = {"pipe": (("pipe", "tube"), _PIPE)}
LADDER_ROWS: _Names = {"spacer": (("pipe", "tube"), {"outside diameter": "spacer diameter", "wall": "spacer wall"})}
LINE_ROWS: _Names = {
    "rope": (("wire rope", "fibre rope"),
             {name: name for name in ("diameter", "weight", "breaking strength", "stiffness")}),
    "ends": (("termination",), {"termination": "termination"}),
    "chain": (("chain",), {"rating": "trim chain"}),
    "shackle size": (("shackle",), {"rating": "shackle"}),
    "turnbuckle size": (("turnbuckle",), {"rating": "turnbuckle"}),
}  # fmt: skip
# What a line may say of its own rope; that of all lines gives the rest.
LINE_AT_ROWS: _Names = {"rope": (("wire rope", "fibre rope"), {n: n for n in ("breaking strength", "stiffness")})}
TAKEOFF_ROWS: _Names = {
    "cloth": (("cloth",), {"weight": "per area"}),
    "board": (("board",), {"weight": "per area"}),
    "lumber": (("lumber",), {"weight": "per length"}),
    "pipe": (("pipe", "tube"), {"weight": "per length"}),
    "cable": (("cable",), {"weight": "per length"}),
    "fixture": (("fixture",), {"weight": "each"}),
}
_FIGURE = re.compile(r"[~≈\d.,\s]*\Z")  # a bare number is a rating without its unit
_FEW = 6  # rows named where none is near
CABLE_ROWS: _Names = {"cable": (("cable",), {"weight": "weight"})}


@dataclass
class Shelf:
    """The rows that a document may name: its own first, then those published. Each is made into a node once."""

    own: dict[str, dict[str, Fields]]  # family -> name -> its figures
    made: dict[tuple[str, str], Fields | None] = field(default_factory=dict)
    laid: dict[int, tuple[Node, Fields]] = field(default_factory=dict)  # a part of a kind is laid over its rows once

    def row(self, families: tuple[str, ...], name: str, desk: Desk) -> Fields | None:
        """The figures of a row by its name, None where no family has it."""
        for family in families:
            own = self.own.get(family, {}).get(name)
            if own is not None:
                return own
            key = (family, name)
            if key not in self.made:
                self.made[key] = _published(family, name, desk)
            found = self.made[key]
            if found is not None:
                return found
        return None

    def near(self, families: tuple[str, ...], name: str) -> list[str]:
        """Names that may have been meant."""
        own = difflib.get_close_matches(name, [one for family in families for one in self.own.get(family, {})])
        return list(dict.fromkeys([*own, *(one for family in families for one in catalogue.near(family, name))]))


def shelf_of(tree: Fields, desk: Desk) -> Shelf:
    """The rows a house writes itself under `catalogue`, from its makers' sheets."""
    written = tree.fields.get("catalogue")
    own: dict[str, dict[str, Fields]] = {}
    if written is None:
        return Shelf(own)
    if not isinstance(written, Fields):
        desk.refuse(
            written, "catalogue", "this must be a map of families.", "Write `pipe:` and below it `name: {...}`."
        )
        return Shelf(own)
    for family, rows in written.fields.items():
        must_be(family, catalogue.families(), "family", written.keys[family], rows.path, "the catalogue has", desk)
        if not isinstance(rows, Fields):
            desk.refuse(rows, rows.path, "this must be a map of rows.", "Write `name: {...}` below it.")
            continue
        for name, row in rows.fields.items():
            if isinstance(row, Fields):
                own.setdefault(family, {})[name] = row
            else:
                desk.refuse(row, row.path, "this must be the figures of one row.", "Write `field: value` lines.")
    return Shelf(own)


def _published(family: str, name: str, desk: Desk) -> Fields | None:
    found = catalogue.find(family, name)
    if found is None:
        return None
    path = f"catalogue › {family} › {found.name}"
    fields: dict[str, Node] = {}
    for word, figure in found.values.items():
        source = f"catalogue/{family}/{found.name}/{word}"
        desk.sources[source] = Source(name=source, how=How(figure.how), what=figure.source)
        fields[word] = Scalar(figure.text, f"{path} › {word}", 0, 1, 0, 0, source)
    return Fields(fields, {}, path, 0, 1)


def merge_kinds(tree: Fields, desk: Desk) -> tuple[Fields, dict[str, Fields]]:
    """Each set laid over the kind it names, and over the rows it names: maps merge, lists and words replace.

    Returns:
        The house without its kinds, and each kind over the rows it names.
    """
    kinds, sets = tree.fields.get("kinds"), tree.fields.get("sets")
    if kinds is not None and not isinstance(kinds, Fields):
        desk.refuse(kinds, "kinds", "this must be a map of kinds.", "Write `name:` and its fields below it, indented.")
    named = kinds.fields if isinstance(kinds, Fields) else {}
    for one in named.values():
        if not isinstance(one, Fields):
            desk.refuse(one, one.path, "this must be the fields of a kind of set.", "Write `field: value` lines.")
    shelf = shelf_of(tree, desk)
    rest = {name: node for name, node in tree.fields.items() if name not in ("kinds", "catalogue")}
    if isinstance(sets, Items):
        rest["sets"] = replace(
            sets, items=tuple(_with_rows(_with_kind(one, named, desk), shelf, desk) for one in sets.items)
        )
    whole = {name: laid for name, one in named.items() if isinstance(laid := _with_rows(one, shelf, desk), Fields)}
    return replace(tree, fields=rest), whole


def _with_kind(one: Node, kinds: Mapping[str, Node], desk: Desk) -> Node:
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
    return replace(upper, fields=merged, keys={**under.keys, **upper.keys},
                   home=under.home or under.path, home_line=under.home_line or under.line)  # fmt: skip


def _with_rows(one: Node, shelf: Shelf, desk: Desk) -> Node:
    if not isinstance(one, Fields):
        return one
    changed = {}
    batten, lines = one.fields.get("batten"), one.fields.get("lines")
    if isinstance(batten, Fields):
        changed["batten"] = _once(batten, shelf, desk, _lay_batten)
    if isinstance(lines, Fields):
        changed["lines"] = _once(lines, shelf, desk, _lay_lines)
    return replace(one, fields=one.fields | changed) if changed else one


def _once(node: Fields, shelf: Shelf, desk: Desk, lay: object) -> Fields:
    kept = shelf.laid.get(id(node))
    if kept is None:
        kept = (node, lay(node, shelf, desk))  # type: ignore[operator]
        shelf.laid[id(node)] = kept  # holds the node too, so that its id stays its own
    return kept[1]


def _lay_batten(batten: Fields, shelf: Shelf, desk: Desk) -> Fields:
    batten = lay_rows(batten, PIPE_ROWS, shelf, desk)
    changed: dict[str, Node] = {}
    ladder, lengths = batten.fields.get("ladder"), batten.fields.get("lengths")
    if isinstance(ladder, Fields):
        changed["ladder"] = lay_rows(ladder, LADDER_ROWS, shelf, desk)
    if isinstance(lengths, Items):
        changed["lengths"] = _each(lengths, PIPE_ROWS, shelf, desk)
    return replace(batten, fields=batten.fields | changed) if changed else batten


def _lay_lines(lines: Fields, shelf: Shelf, desk: Desk) -> Fields:
    lines = lay_rows(lines, LINE_ROWS, shelf, desk)
    at = lines.fields.get("at")
    return (
        replace(lines, fields=lines.fields | {"at": _each(at, LINE_AT_ROWS, shelf, desk)})
        if isinstance(at, Items)
        else lines
    )


def _each(items: Items, names: _Names, shelf: Shelf, desk: Desk) -> Items:
    return replace(items, items=tuple(lay_rows(one, names, shelf, desk) if isinstance(one, Fields) else one
                                      for one in items.items))  # fmt: skip


def lay_rows(node: Fields, names: _Names, shelf: Shelf, desk: Desk) -> Fields:
    """A map with the figures of the rows it names; what it writes itself stays."""
    found = dict(node.fields)
    _size_for_rating(node, names, shelf, desk)
    for word, (families, figures) in names.items():
        said = node.fields.get(word)
        if not isinstance(said, Scalar) or said.text in ("none", "unknown"):
            continue
        row = shelf.row(families, said.text, desk)
        if row is None:
            says = f"the catalogue has no {' or '.join(families)} of that name."
            desk.refuse(said, said.path, says, _other_rows(families, said.text, shelf))
            continue
        for theirs, ours in figures.items():
            if theirs in row.fields and ours not in found:
                found[ours] = row.fields[theirs]
    return replace(node, fields=found) if len(found) > len(node.fields) else node


def _other_rows(families: tuple[str, ...], name: str, shelf: Shelf) -> str:
    """What to write in place of a name that no row has: near names, and where all rows are told."""
    near = shelf.near(families, name)[:3]
    if near:
        mend = f"Did you mean {near[0]}?" + (f" Near too: {'; '.join(near[1:])}." if near[1:] else "")
    else:
        first = [row.name for family in families for row in catalogue.rows(family)][:_FEW]
        mend = f"It has: {'; '.join(first)}; and more. Write one of them, or the figures here."
    quoted = [f'"{one}"' if " " in one else one for one in families]
    return f"{mend} All rows: counterpoise catalogue {', or '.join(quoted)}."


def _size_for_rating(node: Fields, names: _Names, shelf: Shelf, desk: Desk) -> None:
    """`trim chain: 1/4"` gives the size of a chain where its rating belongs: note which field takes the size."""
    for word, (families, figures) in names.items():
        said = node.fields.get(figures.get("rating", ""))
        if not isinstance(said, Scalar) or word in node.fields or _FIGURE.match(said.text):
            continue
        row = next((one for family in families if (one := catalogue.find(family, said.text)) is not None), None)
        rows = [row.name] if row is not None else shelf.near(families, said.text)[:3]
        if rows:
            others = f" (or {'; '.join(rows[1:])})" if rows[1:] else ""
            desk.hints[said.path] = f"If that is its size, write `{word}: {rows[0]}`{others}; here its rating belongs."


def expand_pieces(tree: Fields, desk: Desk) -> Fields:
    """The pieces of a show with the weights of the rows that their takeoffs and cables name."""
    shelf = shelf_of(tree, desk)
    pieces = tree.fields.get("pieces")
    rest = {name: node for name, node in tree.fields.items() if name != "catalogue"}
    if isinstance(pieces, Items):
        rest["pieces"] = replace(pieces, items=tuple(_piece(one, shelf, desk) for one in pieces.items))
    return replace(tree, fields=rest)


def _piece(one: Node, shelf: Shelf, desk: Desk) -> Node:
    if not isinstance(one, Fields):
        return one
    changed: dict[str, Node] = {}
    for word, names in (("takeoff", TAKEOFF_ROWS), ("cables", CABLE_ROWS)):
        items = one.fields.get(word)
        if isinstance(items, Items):
            changed[word] = _each(items, names, shelf, desk)
    return replace(one, fields=one.fields | changed) if changed else one
