"""Which numbering of the sets the labels of a hang or a log are of, where a label was another set's before.

A label that no set has any more is told with its new one. A label that has gone to another set would be taken for that
set without a word: so a document that names one has to say that its labels are those of now.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from counterpoise.documents.desk import Desk
from counterpoise.documents.house import House
from counterpoise.documents.known import Known
from counterpoise.documents.tree import Fields


def passed_on(sets: Iterable[tuple[str, Sequence[str]]]) -> dict[str, list[str]]:
    """Labels that one set had and another has, each with what those that had it are called now.

    Args:
        sets: the label of each, and the labels it had before.
    """
    sets = list(sets)
    now = {label for label, _ in sets}
    found: dict[str, list[str]] = {}
    for label, former in sets:
        for one in former:
            if one in now and one != label:
                found.setdefault(one, []).append(label)
    return found


def check_numbering(
    labels: Iterable[str], said: Known | None, house: House, tree: Fields, what: str, desk: Desk
) -> None:  # fmt: skip
    """A label that was another set's before is read only where the document says its labels are those of now."""
    if said is not None and said.best == house.numbered:
        return
    passed = passed_on((one.label, one.former) for one in house.sets)
    doubtful = {label: passed[label] for label in dict.fromkeys(labels) if label in passed}
    if doubtful:
        desk.refuse(tree.fields.get("numbering", tree), "numbering", f"{told(doubtful)}: this {what} "
                    "does not say whether it was written before or after.",
                    f"Where it means the sets as they are called now, write `numbering: {house.numbered}` in it; where "
                    f"it is older: counterpoise renumber HOUSE {desk.file} {pairs(doubtful)} --write")  # fmt: skip


def told(passed: Mapping[str, Sequence[str]]) -> str:
    """Which labels went from one set to another."""
    return "; ".join(f"what was set {was} is called {' or '.join(now)} now, and another set is called {was}"
                     for was, now in passed.items())  # fmt: skip


def pairs(passed: Mapping[str, Sequence[str]]) -> str:
    """The renumbering that brings a document which names them up to date."""
    return " ".join(f"{was}={now[0]}" for was, now in passed.items())
