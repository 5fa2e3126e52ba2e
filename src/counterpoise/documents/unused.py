"""Kinds and own rows of the catalogue, each read where it stands: a slip in one that nothing names yet is told as well.

What names them reads the same figures again, and a problem is told once. Those that nothing names are kept, so that a
change in them is no change in silence.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from counterpoise import catalogue
from counterpoise.documents.desk import Desk, Skip
from counterpoise.documents.fields import quantity, record, source_called, text, unknown_field
from counterpoise.documents.known import Known
from counterpoise.documents.line_set import LineSet
from counterpoise.documents.tree import Fields, Node, Scalar

_LABEL = "a set of it"  # of a kind, which has none
Rows = Mapping[str, Mapping[str, Known]]  # "family, name" -> its figures


def read_kinds(kinds: Mapping[str, Fields], desk: Desk) -> tuple[dict[str, LineSet], list[Fields]]:
    """Every kind as a set of it would be, and the nodes made for that: they have to outlive the reading."""
    found, nodes = {}, []
    for name, node in kinds.items():
        if "set" in node.fields:
            desk.refuse(node.keys["set"], f"{node.path}.set", "a kind has no label.", "Write it in each set.")
        label = Scalar(_LABEL, f"{node.path}.set", node.line, node.column, 0, 0)
        whole = replace(node, fields={**node.fields, "set": label}, keys={**node.keys, "set": label})
        nodes.append(whole)
        try:
            found[name] = record(LineSet)(whole, desk)
        except Skip:
            continue
    return found, nodes


def read_rows(tree: Fields, desk: Desk) -> Rows:
    """Every row of the own catalogue, each figure as the family has it."""
    written = tree.fields.get("catalogue")
    found: dict[str, dict[str, Known]] = {}
    for family, rows in written.fields.items() if isinstance(written, Fields) else ():
        if family not in catalogue.families() or not isinstance(rows, Fields):
            continue
        for name, row in rows.fields.items():
            if isinstance(row, Fields):
                found[f"{family}, {name}"] = _row(family, row, desk)
    return found


def _row(family: str, row: Fields, desk: Desk) -> dict[str, Known]:
    kinds = catalogue.kinds_of(family)
    figures: dict[str, Known] = {}
    for word, node in row.fields.items():
        if word not in kinds and word not in ("source", "note"):
            unknown_field(word, kinds, row, desk)
            continue
        try:
            if word in kinds:
                figures[word] = quantity(kinds[word], ranges=True)(node, desk)
            else:
                said = text(node, desk)
                if word == "source":
                    source_called(said.removeprefix("@"), node, desk)
        except Skip:
            continue
    return figures


def unused_kinds(house_kinds: Mapping[str, LineSet], sets: Node | None) -> list[LineSet]:
    """Those that no set is of, by what each writes at `kind`."""
    items = getattr(sets, "items", ())
    named = {
        said.text for one in items if isinstance(one, Fields) and isinstance(said := one.fields.get("kind"), Scalar)
    }
    return [one for name, one in house_kinds.items() if name not in named]
