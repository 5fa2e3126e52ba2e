"""What changed between two readings of a house, a show or a hang, in trade words, each figure in the words it has.

Sets are matched by their permanent key, pieces by key or name, other things by the name they bear. What a kind changes
for all its sets is told once. A figure that says the same in other words is told as rewritten, not as changed.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Sequence

from counterpoise.documents.comparing import records, sources_of
from counterpoise.documents.difference import Difference, Form, labels_said
from counterpoise.documents.differing_unused import unused_differences
from counterpoise.documents.hang import Hang, Hung
from counterpoise.documents.house import House
from counterpoise.documents.show import Show
from counterpoise.errors import Misuse

Document = House | Show | Hang


def diff(before: Document, after: Document) -> tuple[Difference, ...]:
    """What changed from one document to the other, of the same kind, in the order in which it stands.

    Args:
        before, after: two houses, two shows or two hangs.

    Returns:
        Every difference; none where both say the same in the same words.

    Raises:
        Misuse: the two are not of one kind.
    """
    found = list(sources_of(before, after))
    if isinstance(before, House) and isinstance(after, House):
        before = _relabelled(before, after)
        found += [*records(before, after, "", "", leave=("sets", "numbering")), *_sets(before, after)]
        found += unused_differences(before, after, tuple(found))
    elif isinstance(before, Show) and isinstance(after, Show):
        found += records(before, after, "", "", leave=())
        found += unused_differences(before, after, tuple(found))
    elif isinstance(before, Hang) and isinstance(after, Hang):
        found += [*records(before, after, "", "", leave=("hung", "numbering")), *_hung(before, after)]
    else:
        raise Misuse("These are documents of two kinds.", "Give two houses, two shows or two hangs.")
    return tuple(found)


def _relabelled(before: House, after: House) -> House:
    """The house as it was with the labels of now wherever a set is named, so that a renumbering is told once."""
    now = {one.permanent: one.label for one in after.sets}
    new = {one.label: now.get(one.permanent, one.label) for one in before.sets}

    def listed(labels: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(new.get(label, label) for label in labels)

    return dataclasses.replace(
        before,
        sets=tuple(dataclasses.replace(one, twin_of=new.get(one.twin_of, one.twin_of)) for one in before.sets),
        steel=tuple(dataclasses.replace(bay, sets=listed(bay.sets)) for bay in before.steel),
        not_checked_here=tuple(dataclasses.replace(one, sets=listed(one.sets)) for one in before.not_checked_here),
    )


def _sets(before: House, after: House) -> Iterator[Difference]:
    old, new = ({one.permanent: one for one in house.sets} for house in (before, after))
    own: list[Difference] = []
    homes: list[str] = []
    for key, one in new.items():
        was = old.get(key)
        if was is None:
            yield Difference(form=Form.ADDED, where=f"set {one.label}", what="", sets=(one.label,))
            continue
        if was.label != one.label:
            yield Difference(form=Form.RENUMBERED, where=f"set {one.label}", what="label", before=f"set {was.label}",
                             after=one.label, sets=(one.label,))  # fmt: skip
        if was.home != one.home:
            yield Difference(form=Form.CHANGED, where=f"set {one.label}", what="kind", sets=(one.label,),
                             before=was.home.removeprefix("kinds."), after=one.home.removeprefix("kinds."))  # fmt: skip
        for each in records(was, one, f"set {one.label}", "", leave=("set_", "key", "formerly")):
            own.append(dataclasses.replace(each, sets=(one.label,)))
            homes.append(one.home if one.home == was.home else "")
    yield from _by_kind(own, homes, after)
    for key, one in old.items():
        if key not in new:
            yield Difference(form=Form.REMOVED, where=f"set {one.label}", what="", sets=(one.label,))


def _by_kind(own: Sequence[Difference], homes: Sequence[str], house: House) -> Iterator[Difference]:
    """What is alike for sets of one kind is told once: of the kind where it is written there, else of those sets."""
    alike: dict[tuple[str, ...], list[str]] = {}
    for one, home in zip(own, homes, strict=True):
        alike.setdefault(_likeness(one, home), []).extend(one.sets)
    order = [each.label for each in house.sets]
    for one, home in zip(own, homes, strict=True):
        labels = alike.pop(_likeness(one, home), None)
        if labels is None:
            continue
        if len(labels) == 1:
            yield one
            continue
        said, rest = labels_said(labels, order), one.where.removeprefix(f"set {one.sets[0]}")
        kind = home.removeprefix("kinds.") if _is_of_kind(one, home, labels, house) else ""
        where = f"kind {kind} ({said})" if kind else said
        yield dataclasses.replace(one, where=where + rest, sets=tuple(labels), kind=kind)


def _is_of_kind(one: Difference, home: str, labels: Sequence[str], house: House) -> bool:
    """A figure knows where it stands; a word does not, and is taken for the kind's where all sets of it share it."""
    if one.path.startswith(("sets[", "kinds.")):
        return one.path.startswith(f"{home}.")
    return len(labels) == sum(1 for each in house.sets if each.home == home)


def _likeness(one: Difference, home: str) -> tuple[str, ...]:
    """Differences that are one when they are told; a set of no kind speaks for itself."""
    rest = one.where.removeprefix(f"set {one.sets[0]}")
    written = home if one.path.startswith(f"{home}.") else "sets"
    return (home or one.where, written if home else "", rest, one.form, one.what, one.before, one.after)


def _hung(before: Hang, after: Hang) -> Iterator[Difference]:
    """Pieces by name and set; one that left a set and came to another has moved."""
    old = {(one.piece, one.label): one for one in before.hung}
    new = {(one.piece, one.label): one for one in after.hung}
    came = [one for key, one in new.items() if key not in old]
    for key, was in old.items():
        one = new.get(key)
        if one is None:
            one = next((each for each in came if each.piece == was.piece), None)
            yield _moved(was, one)
            if one is None:
                continue
            came.remove(one)
        yield from records(was, one, f"hung: {one.piece} on set {one.label}", "", leave=("piece", "set_"),
                            sets=(one.label,))  # fmt: skip
    for one in came:
        yield Difference(form=Form.ADDED, where="hung", what=f"{one.piece} on set {one.label}", after=one.centre.text,
                         sets=(one.label,))  # fmt: skip


def _moved(was: Hung, now: Hung | None) -> Difference:
    if now is None:
        return Difference(form=Form.REMOVED, where="hung", what=f"{was.piece} on set {was.label}",
                          before=was.centre.text, sets=(was.label,))  # fmt: skip
    return Difference(form=Form.MOVED, where="hung", what=was.piece, before=f"set {was.label}",
                      after=f"set {now.label}", sets=(was.label, now.label))  # fmt: skip
