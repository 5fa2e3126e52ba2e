"""The last change of a set that still stands, and how it is taken back without touching any other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from counterpoise.documents import Edit, Plain, apply_edits, standing
from counterpoise.store import Revision, Store

TAKEN = ", taken back"
TYPED = "text changed"
MOST = 200  # revisions that are looked through


@dataclass(frozen=True, slots=True)
class Reversal:
    """What is taken back, in words: "header, CL to 2' SL"; how that is told when it is done; and the text then."""

    says: str
    note: str
    text: str


def change_note(label: str, what: str, before: str = "", after: str = "") -> str:
    """How a change of a set is noted: "set 5: header, CL to 2' SL"."""
    return f"set {label}: {what}" + (f", {before} to {after}" if after else "")


def reversal_of(store: Store, workspace: str, label: str) -> Reversal | None:
    """The newest change of this set that stands; None where there is none, or it was touched since by other means."""
    newest = store.latest(workspace, "hang")
    found = _last_change(store, workspace, label, newest) if newest is not None else None
    if newest is None or found is None:
        return None
    before, after = found
    says = after.note.removeprefix(f"set {label}: ")
    if after.number == newest.number:
        text: str | None = before.text
    else:
        text = _without(label, before.text, after.text, newest.text)
    if text is None:
        return None
    return Reversal(says, f"set {label}: {says}{TAKEN}", text)


def _last_change(store: Store, workspace: str, label: str, newest: Revision) -> tuple[Revision, Revision] | None:
    """The revisions before and after it. A change that was taken back is passed over with what took it back."""
    passed, after = 0, newest
    for number in range(newest.number - 1, max(0, newest.number - MOST), -1):
        before = store.revision(workspace, "hang", number)
        if before is None:
            return None
        if after.note.startswith(f"set {label}: "):
            if after.note.endswith(TAKEN):
                passed += 1
            elif passed:
                passed -= 1
            else:
                return before, after
        after = before
    return None


def _without(label: str, before: str, after: str, now: str) -> str | None:
    """The text that stands now with the set hung as before; None where it hangs no more as that change left it."""
    was, then, there = (_hung(text, label) for text in (before, after, now))
    if [each for _, each in there] != [each for _, each in then]:
        return None
    if len(there) == len(was) + 1 and [each for _, each in then[:-1]] == [each for _, each in was]:
        at, entry = there[-1]
        return apply_edits(now, [Edit(path=f"hung[{at}]", old=entry, new=None)])
    if len(there) != len(was):
        return None
    edits = [edit for (at, new), (_, old) in zip(there, was, strict=True) for edit in _edits(f"hung[{at}]", new, old)]
    return apply_edits(now, edits)


def _hung(text: str, label: str) -> list[tuple[int, Mapping[str, Plain]]]:
    hung = standing(text, ["hung"])[0]
    entries = hung if isinstance(hung, list) else []
    return [(at, one) for at, one in enumerate(entries) if isinstance(one, dict) and one.get("set") == label]


def _edits(path: str, new: Mapping[str, Plain], old: Mapping[str, Plain]) -> Iterator[Edit]:
    for name in dict.fromkeys((*new, *old)):
        stands, was = new.get(name), old.get(name)
        if isinstance(stands, dict) and isinstance(was, dict):
            yield from _edits(f"{path}.{name}", stands, was)
        elif stands != was:
            yield Edit(path=f"{path}.{name}", old=stands, new=was)
