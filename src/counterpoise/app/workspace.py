"""What a person does with a hang that is kept: see it, move a piece, take that back, write a figure."""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from counterpoise.app.judge import Texts, judge, read
from counterpoise.app.taking_back import TYPED, change_note, reversal_of
from counterpoise.app.taking_files import KINDS, Stands, called_in, take_files
from counterpoise.app.told import Told
from counterpoise.app.where_written import where_written
from counterpoise.checks import HouseResult
from counterpoise.documents import (
    Edit,
    Hang,
    Plain,
    apply_edits,
    edit_scalar,
    read_house,
    read_show,
    standing,
)
from counterpoise.errors import CounterpoiseError, Refused
from counterpoise.store import Conflict, Entry, Revision, Store

LISTS = (".lines.at", ".picks")
TRIES = 5  # times a change is made anew where others come between


@dataclass(frozen=True, slots=True)
class Now:
    """What stands: the revision of the hang, the texts, and all that follows from them."""

    revision: int
    texts: Texts
    result: HouseResult
    note: str
    told: Told


class Workspace:
    """One house, its show and its hang, kept in a store. The newest revision is judged once."""

    def __init__(self, store: Store, name: str = "main", today: Callable[[], date | None] = lambda: None) -> None:
        self._store, self._name, self._today = store, name, today
        self._seen: Now | None = None
        self._for: tuple[object, ...] = ()  # the revisions and the day for which it was judged
        self._lock = threading.Lock()

    def begin(self, texts: Texts, *, at: str, from_files: bool = False) -> tuple[Stands, ...]:
        """Take in house, show and hang as their files read; what was written here since a file was read stays.

        The rule, and what is told of each: `take_files`.
        """
        return take_files(self._store, self._name, texts, self._today(), at=at, from_files=from_files)

    def now(self) -> Now:
        """What stands. Raises BadDocument or Unproven where it cannot be judged, Refused where nothing is kept."""
        house, show, hang = (self._kept(kind) for kind in ("house", "show", "hang"))
        with self._lock:
            today = self._today()
            stands = (house.number, show.number, hang.number, today)
            if self._seen is None or self._for != stands:
                texts = Texts(house=house.text, show=show.text, hang=hang.text)
                result = judge(texts, today)
                self._seen = Now(hang.number, texts, result, hang.note, Told(result))
                self._for = stands
            return self._seen

    def text(self, kind: str) -> Revision:
        """The newest text of house, show or hang. Refused where there is none."""
        return self._kept(kind)

    def revision(self, kind: str, number: int) -> Revision | None:
        """An earlier text, None where there was none of this number."""
        return self._store.revision(self._name, kind, number)

    def history(self, kind: str) -> tuple[Entry, ...]:
        """How the text of house, show or hang came about, the newest revision first."""
        return self._store.history(self._name, kind)

    def called(self) -> str:
        """What the house calls itself, also where it cannot be judged."""
        house = self._store.latest(self._name, "house")
        return called_in(house.text if house is not None else "", self._name)

    def trouble(self) -> str:
        """Why what is kept cannot be shown, "" where it can."""
        try:
            self.now()
        except CounterpoiseError as error:
            return str(error)
        return ""

    def move(self, label: str, piece: int, centre: str, *, base: int, operation: str, at: str) -> Now:
        """Hang the set's piece number `piece` (from 0) at `centre`, in the words of the hang.

        Raises Conflict where the hang is no longer at `base`, BadDocument where the centre cannot be, Refused else.
        """
        kept = self._store.revision(self._name, "hang", base)
        if kept is None:
            raise Refused(f"There is no revision {base} of the hang", "Load the page again.")
        now = self.now()
        was = read(replace(now.texts, hang=kept.text))[2]
        hung = was.hung[index_of(was, label, piece)]

        def moved(text: str) -> str:
            # of two people each moves a piece of their own; the same one moved twice is shown to the second
            hang = read(replace(now.texts, hang=text))[2]
            at_now = next((i for i, one in enumerate(hang.hung) if (one.label, one.piece) == (label, hung.piece)), None)
            if at_now is None:
                raise Refused(f"{hung.piece} hangs no more on set {label}", "Look at what stands now.")
            stands = hang.hung[at_now].centre.text
            if stands != hung.centre.text:
                raise Refused(f"Set {label}, where {hung.piece} hangs, was changed meanwhile: its centre is at "
                              f"{stands} now", "Look at what stands now, then make the change again.")  # fmt: skip
            return apply_edits(text, [Edit(path=f"hung[{at_now}].centre", old=stands, new=centre)])

        note = change_note(label, hung.piece, hung.centre.text, centre)
        return self._change("hang", moved, note, operation=operation, at=at)

    def write(self, kind: str, edits: Sequence[Edit], *, note: str, operation: str, at: str) -> Now:
        """Write values into house, show or hang, every other character kept.

        Raises Conflict where something else stands there now than was seen, BadDocument where it cannot be read.
        """
        return self._change(kind, lambda text: apply_edits(text, edits, f"{kind}.yaml"), note,
                            operation=operation, at=at)  # fmt: skip

    def rewrite(self, kind: str, text: str, *, base: int, operation: str, at: str, note: str = TYPED) -> Revision:
        """Keep a whole text as the next revision. Raises Conflict where another was kept since `base`.

        BadDocument where it cannot be judged; where what is kept cannot be either, a house or a show need only be
        readable by itself, so that one document after the other can be mended.
        """
        texts = replace(self._texts(), **{kind: text})
        if self.trouble():
            _readable(texts, kind, self._today())
            return self._store.append(self._name, kind, text, note, base=base, operation=operation, at=at)
        texts = _renamed(texts, kind)
        judge(texts, self._today())
        hang = self._kept("hang")
        kept = self._store.append(self._name, kind, text, note, base=base, operation=operation, at=at)
        if texts.hang != hang.text and kind != "hang":  # the hang names its house and its show
            self._store.append(self._name, "hang", texts.hang, f"the {kind} has another name", base=hang.number,
                               operation=f"{operation}/hang", at=at)  # fmt: skip
        return kept

    def _change(self, kind: str, change: Callable[[str], str], note: str, *, operation: str, at: str) -> Now:
        """Make a change to the newest text; made anew where another change came between, once where it is repeated."""
        if self._store.done(self._name, kind, operation) is not None:
            return self.now()
        for _ in range(TRIES):
            newest = self._kept(kind)
            text = self._changed(change, newest)
            texts = replace(self.now().texts, **{kind: text})
            judge(texts, self._today())  # nothing is kept that cannot be judged
            try:
                self._store.append(self._name, kind, text, note, base=newest.number, operation=operation, at=at)
            except Conflict:
                continue
            return self.now()
        raise Refused("Too many others write here at this moment", "Make the change again.")

    def _changed(self, change: Callable[[str], str], newest: Revision) -> str:
        try:
            return change(newest.text)
        except Refused as error:
            raise Conflict(error.says, error.mend, newest.number) from None

    def may_take_back(self, label: str) -> str:
        """The last change of this set that can be taken back, in words; "" where there is none."""
        found = reversal_of(self._store, self._name, label)
        return found.says if found is not None else ""

    def undo(self, label: str, *, base: int, operation: str, at: str) -> Now:
        """Take back the last change of this set, and none of any other; again and again as far as they go."""
        if self._store.done(self._name, "hang", operation) is not None:
            return self.now()
        found = reversal_of(self._store, self._name, label)
        if found is None:
            raise Refused(f"There is no change of set {label} to take back", "What was typed as text is changed there.")
        judge(replace(self.now().texts, hang=found.text), self._today())
        self._store.append(self._name, "hang", found.text, found.note, base=base, operation=operation, at=at)
        return self.now()

    def may_retype(self, kind: str) -> int:
        """The revision that stood before the newest text was typed; 0 where the newest was not typed."""
        newest = self._store.latest(self._name, kind)
        return newest.back if newest is not None and newest.note == TYPED else 0

    def retype(self, kind: str, *, base: int, operation: str, at: str) -> Revision:
        """Keep the text again that stood before the newest was typed. Refused where it was not; else as `rewrite`."""
        before = self._store.revision(self._name, kind, self.may_retype(kind))
        if before is None:
            raise Refused(f"The newest text of the {kind} was not typed here", "Take a change back where it was made.")
        return self.rewrite(kind, before.text, base=base, operation=operation, at=at,
                            note=f"the text of revision {before.number} again")  # fmt: skip

    def _texts(self) -> Texts:
        """What is kept, "" for a document of which nothing is."""
        kept = {kind: self._store.latest(self._name, kind) for kind in KINDS}
        return Texts(**{kind: one.text if one is not None else "" for kind, one in kept.items()})

    def _kept(self, kind: str) -> Revision:
        found = self._store.latest(self._name, kind)
        if found is None:
            raise Refused(f"No {kind} is kept here yet", "Open the list of houses, or begin one there.")
        return found


def write_figure(
    workspace: Workspace, kind: str, paths: Sequence[str], seen: Sequence[str | None], value: str, *, operation: str,
    at: str,
) -> Now:  # fmt: skip
    """Write one figure at every path, over what was `seen` there; words with commas between become a list for a list.

    Raises Conflict where a figure has been written there meanwhile, BadDocument where it cannot be read.
    """
    new: Plain = [each.strip() for each in value.split(",")] if paths[0].endswith(LISTS) else value
    edits = []
    if len(seen) != len(paths):
        raise Refused("What was seen does not match the places to write to", "Load the page again.")
    now = standing(workspace.text(kind).text, paths, f"{kind}.yaml")
    texts = workspace.now().texts
    for path, old, before in zip(paths, now, seen, strict=True):
        if old != before:
            said = where_written(texts, kind, path)
            raise Conflict(f"{said[:1].upper()}{said[1:]}, was written meanwhile", "Load the page again.",
                           workspace.text(kind).number)  # fmt: skip
        if old is not None and not isinstance(new, str):  # the word unknown goes before a list can stand there
            edits += [Edit(path=path, old=old, new=None), Edit(path=path, new=new)]
        else:
            edits.append(Edit(path=path, old=old, new=new))
    where = where_written(texts, kind, paths[0])
    what = where.replace(", where ", ": ", 1) if len(paths) == 1 else f"{where} and {len(paths) - 1} more"
    return workspace.write(kind, edits, note=f"{what}: {value}", operation=operation, at=at)


def _readable(texts: Texts, kind: str, on: date | None) -> None:
    """Raises BadDocument where a text cannot be read, by itself; a hang not beside its house and its show."""
    if kind == "house":
        read_house(texts.house, texts.house_name)
    elif kind == "show":
        read_show(texts.show, texts.show_name)
    else:
        judge(texts, on)


def _renamed(texts: Texts, kind: str) -> Texts:
    """The hang with the name that its house or its show has now."""
    name = {"house": lambda: read_house(texts.house, texts.house_name).name,
            "show": lambda: read_show(texts.show, texts.show_name).name}.get(kind)  # fmt: skip
    if name is None or standing(texts.hang, [kind])[0] == name():
        return texts
    return replace(texts, hang=edit_scalar(texts.hang, kind, name(), texts.hang_name))


def index_of(hang: Hang, label: str, piece: int) -> int:
    """Where in the hang the set's piece number `piece` stands. Refused where there is none."""
    found = [index for index, one in enumerate(hang.hung) if one.label == label]
    if not 0 <= piece < len(found):
        raise Refused(f"Set {label} has no piece number {piece + 1}", "Load the page again.")
    return found[piece]
