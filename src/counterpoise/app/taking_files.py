"""Files that are named when the pages start, beside what is kept of the same house: which is shown, and why.

The rule, for each document: a file is taken as the next revision wherever it reads otherwise than the newest, unless
the pages have written there since a file was last read and the file has it not. Then what they wrote stays, for it was
told as kept.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from difflib import SequenceMatcher
from enum import Enum
from hashlib import sha256
from pathlib import Path

from counterpoise.app.judge import Texts, judge, with_blanks
from counterpoise.documents import read_house, standing
from counterpoise.errors import CounterpoiseError
from counterpoise.store import Revision, Store

KINDS = ("house", "show", "hang")
READ = "read from "  # how the note of a revision begins that was taken from a file
BLANK = "nothing hung yet"
MOST_READ = 20  # readings of a house file that are looked through for its name


class Why(Enum):
    """Why the newest revision is what is shown."""

    FIRST = "nothing was kept of it before"
    SAME = "the file reads the same"
    TAKEN = "the file reads otherwise than when it was last read, and nothing was written here since"
    HAS = "the file has what was written here since, and more"
    WRITTEN = "it was written here since the file was read; the file is as it was"
    BOTH = "it was written here since a file was last read, and the file reads otherwise too"
    MISFIT = "the file reads otherwise, but can not stand beside what was written here in the others"
    INSTEAD = "what was kept can not be shown; the file can"
    ASKED = "the file was asked for, whatever was kept"
    KEPT = "no file of it is named"


_TAKES = frozenset({Why.FIRST, Why.TAKEN, Why.HAS, Why.INSTEAD, Why.ASKED})


@dataclass(frozen=True, slots=True, kw_only=True)
class Stands:
    """What is shown of one document; `file` is the name it was called by, "" where none was."""

    kind: str
    number: int
    why: Why
    file: str


def take_files(
    store: Store, workspace: str, texts: Texts, on: date | None, *, at: str, from_files: bool = False
) -> tuple[Stands, ...]:  # fmt: skip
    """Take in what is newer in files, keep what was written here since, and tell which of the two each document is.

    Args:
        store, workspace: where they are kept.
        texts: as the files read, judged before; a house alone leaves show and hang as they are kept.
        on: the day to judge on.
        at: when, as the caller's clock says.
        from_files: take the files whatever was written; that stays as an earlier revision.

    Raises BadDocument where files that were asked for can not stand beside what is kept of the others.
    """
    kept = {kind: store.latest(workspace, kind) for kind in KINDS}
    named = _named(texts)
    filled = with_blanks(texts)
    files = {kind: getattr(filled, kind) for kind in KINDS if kind in named or kept[kind] is None}
    whys = {kind: _why(store, workspace, kind, files.get(kind), from_files=from_files) for kind in KINDS}
    whys = _fitting(filled, kept, whys, files, on, from_files=from_files)
    return tuple(
        _stand(store, workspace, kind, files.get(kind, ""), whys[kind], named.get(kind, ""), at=at) for kind in KINDS
    )


def home_of(store: Store, house: str, first: str) -> str | None:
    """Under which name a house of this text is kept: where it is called so now, else where a file of it was read.

    `first` is looked at before all others. None where no such house is kept.
    """
    called = read_house(house).name
    spaces = sorted(store.workspaces(), key=lambda name: name != first)
    now = (name for name in spaces if _called(store.latest(name, "house")) == called)
    return next(now, None) or next((name for name in spaces if called in _called_before(store, name)), None)


def called_in(text: str, otherwise: str) -> str:
    """What a house calls itself in a text that may be unreadable."""
    try:
        said = standing(text, ["name"])[0]
    except CounterpoiseError:
        said = None
    return said if isinstance(said, str) and said.strip() else otherwise


def as_it_came(note: str) -> bool:
    """Whether a revision of this note holds nothing that a person wrote in the pages."""
    return note == BLANK or note.startswith(READ)


def _called(house: Revision | None) -> str:
    return called_in(house.text, "") if house is not None else ""


def _called_before(store: Store, workspace: str) -> set[str]:
    read = [one.number for one in store.history(workspace, "house") if one.note.startswith(READ)][:MOST_READ]
    return {_called(store.revision(workspace, "house", number)) for number in read}


def _named(texts: Texts) -> dict[str, str]:
    if texts.is_house_alone:
        return {"house": texts.house_name}
    return {"house": texts.house_name, "show": texts.show_name, "hang": texts.hang_name}


def _why(store: Store, workspace: str, kind: str, file: str | None, *, from_files: bool) -> Why:
    newest = store.latest(workspace, kind)
    if newest is None:
        return Why.FIRST
    if file is None:
        return Why.KEPT
    if newest.text == file:
        return Why.SAME
    if from_files:
        return Why.ASKED
    number = next((one.number for one in store.history(workspace, kind) if as_it_came(one.note)), 0)
    if number == newest.number:
        return Why.TAKEN
    read = store.revision(workspace, kind, number)
    if read is not None and read.text == file:
        return Why.WRITTEN
    return Why.HAS if read is not None and _has_all(file, read.text, newest.text) else Why.BOTH


def _has_all(file: str, read: str, now: str) -> bool:
    """Whether every line that was written since a file was read stands in the new file, beside a line as it was.

    A doubt, as where a neighbour on both sides was edited too, is a no.
    """
    was, stands, new = (text.splitlines() for text in (read, now, file))
    same = [(at, at + size) for at, _, size in SequenceMatcher(None, stands, new).get_matching_blocks() if size]
    written = [(low, high) for tag, _, _, low, high in SequenceMatcher(None, was, stands).get_opcodes()
               if tag != "equal"]  # fmt: skip
    return all(any(_holds(block, low, high, len(stands)) for block in same) for low, high in written)


def _holds(block: tuple[int, int], low: int, high: int, lines: int) -> bool:
    """Whether a run of equal lines has those from `low` to `high` and one beside; of lines taken out, both sides."""
    before, after = block[0] < low or low == 0, block[1] > high or high == lines
    if not block[0] <= low <= high <= block[1]:
        return False
    return before and after if low == high else before or after


def _fitting(
    texts: Texts, kept: Mapping[str, Revision | None], whys: Mapping[str, Why], files: Mapping[str, str],
    on: date | None, *, from_files: bool,
) -> dict[str, Why]:  # fmt: skip
    """The same where house, show and hang go together so; else what is kept, else the files."""
    newest = {kind: one.text for kind, one in kept.items() if one is not None}
    mixed = replace(texts, **{kind: files[kind] if whys[kind] in _TAKES else newest[kind] for kind in KINDS})
    if from_files:
        judge(mixed, on)
    if mixed == texts or _fits(mixed, on):
        return dict(whys)
    if len(newest) == len(KINDS) and _fits(replace(texts, **newest), on):
        return {kind: Why.MISFIT if why in _TAKES else why for kind, why in whys.items()}
    if len(files) == len(KINDS):
        return {kind: Why.INSTEAD if why in {Why.WRITTEN, Why.BOTH} else why for kind, why in whys.items()}
    return dict(whys)  # a house alone, beside a show and a hang that fit neither: they are not blanked, but mended


def _fits(texts: Texts, on: date | None) -> bool:
    try:
        judge(texts, on)
    except CounterpoiseError:
        return False
    return True


def _stand(store: Store, workspace: str, kind: str, file: str, why: Why, name: str, *, at: str) -> Stands:
    newest = store.latest(workspace, kind)
    now = newest.number if newest is not None else 0
    # a file that reads as what was written here counts as read: edited next, it is taken
    is_read = why is Why.SAME and newest is not None and not as_it_came(newest.note)
    if why in _TAKES or is_read:
        mark = sha256(file.encode("utf-8", "surrogatepass")).hexdigest()[:16]
        note = f"{READ}{Path(name).name}" if name else BLANK
        now = store.append(workspace, kind, file, note, base=now, at=at,
                           operation=f"{workspace}/{kind}/file/{now}/{mark}").number  # fmt: skip
    return Stands(kind=kind, number=now, why=why, file=name)
