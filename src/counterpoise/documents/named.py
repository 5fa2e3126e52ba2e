"""Names in documents: none stands twice, each is one of those known, and a wrong one is told with the near one."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Mapping

from counterpoise.documents.desk import Desk
from counterpoise.documents.house import House
from counterpoise.documents.notes import NotChecked
from counterpoise.documents.text import Node

_MOST_NAMES = 12  # of what there is, told where a name is none of it


def twice(named: Iterable[tuple[object, str]], what: str, desk: Desk) -> None:
    """Note a problem at each record whose name stood before."""
    seen: set[str] = set()
    for one, name in named:
        if name in seen:
            node = desk.node_of(one)
            desk.refuse(node, node.path, f"{what} {name} stands twice.", "Give each its own name.")
        seen.add(name)


def must_be(said: str, names: Iterable[str], what: str, node: Node | None, path: str, has: str, desk: Desk) -> None:
    """Note a problem where a name is none of those known, with the near one."""
    names = names if isinstance(names, Mapping) else list(names)
    if said in names:
        return
    names = list(names)
    # a wrong set that is named as near is worse than none: labels are short, and 99 is not 9
    near = [] if what == "set" else difflib.get_close_matches(said, names, n=1)
    listed = ", ".join(names[:_MOST_NAMES]) + (" and more" if len(names) > _MOST_NAMES else "")
    mend = f"Did you mean {near[0]}?" if near else f"{has[0].upper()}{has[1:]}: {listed or 'none'}."
    desk.refuse(node, path, f"there is no {what} {said}.", mend)


def set_must_be(said: str, house: House, node: Node | None, path: str, desk: Desk, *, times: int = 1) -> None:
    """Note a problem where no set has this label, with the new label of a set that was renumbered.

    `times` is how many lines of the document name it, where it is told once for all.
    """
    if house.set_called(said) is not None:
        return
    lines = f" ({times} lines name it)" if times > 1 else ""
    now = next((one.label for one in house.sets if said in one.former), "")
    if now:
        whole = f"counterpoise renumber HOUSE {desk.file} {said}={now} --write"
        desk.refuse(node, path, f"set {said} is called {now} now{lines}.", f"Write {now}; for the whole file: {whole}")
        return
    labels = [one.label for one in house.sets]
    few = ", ".join(labels[:_MOST_NAMES]) + (" and more" if len(labels) > _MOST_NAMES else "")
    desk.refuse(node, path, f"there is no set {said}{lines}.", f"This house has: {few or 'none'}.")


def check_notes(notes: Iterable[NotChecked], labels: Iterable[str], has: str, desk: Desk) -> None:
    """Sets of what is not checked are those there are."""
    for one in notes:
        node = desk.node_of(one)
        for label in one.sets:
            must_be(label, labels, "set", node.fields["sets"], f"{node.path}.sets", has, desk)
