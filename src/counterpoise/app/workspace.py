"""What a person does with a hang that is kept: see it, move a piece, take that back, ask how far one may go."""

from __future__ import annotations

import math
import threading
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from hashlib import sha256

from counterpoise.app.judge import Texts, judge, read
from counterpoise.checks import HouseResult, SetResult, hung_on, judge_again, neighbours_of
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
from counterpoise.errors import Refused
from counterpoise.rigging import RiggedBatten
from counterpoise.store import Conflict, Revision, Store
from counterpoise.units import METRES_PER_INCH, from_centre

LISTS = (".lines.at", ".picks")
TRIES = 5  # times a change is made anew where others come between


@dataclass(frozen=True, slots=True)
class Now:
    """What stands: the revision of the hang, the texts, and all that follows from them."""

    revision: int
    texts: Texts
    result: HouseResult
    may_undo: bool
    note: str


@dataclass(frozen=True, slots=True)
class Station:
    """A place the centre of a piece may take: in words, in metres from the stage-right end, and the set as it would be.

    `result` is None where the batten would tip.
    """

    words: str
    x: float
    result: SetResult | None


class Workspace:
    """One house, its show and its hang, kept in a store. The newest revision is judged once."""

    def __init__(self, store: Store, name: str = "main", today: Callable[[], date | None] = lambda: None) -> None:
        self._store, self._name, self._today = store, name, today
        self._seen: Now | None = None
        self._for: tuple[object, ...] = ()  # the revisions and the day for which it was judged
        self._lock = threading.Lock()

    def begin(self, texts: Texts, *, at: str) -> None:
        """Take in house and show as they now read; the hang only where none is kept, for moves may stand in it.

        A house or show that reads as it did when it was taken in before is left as it was changed here since.
        """
        for kind, text in (("house", texts.house), ("show", texts.show), ("hang", texts.hang)):
            kept = self._store.latest(self._name, kind)
            if kept is None or (kind != "hang" and kept.text != text):
                mark = sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:16]
                self._store.append(self._name, kind, text, "read from its file", base=kept.number if kept else 0,
                                   back=0, at=at, operation=f"{self._name}/{kind}/file/{mark}")  # fmt: skip

    def now(self) -> Now:
        """What stands. Raises BadDocument or Unproven where it cannot be judged, Refused where nothing is kept."""
        house, show, hang = (self._kept(kind) for kind in ("house", "show", "hang"))
        with self._lock:
            today = self._today()
            stands = (house.number, show.number, hang.number, today)
            if self._seen is None or self._for != stands:
                texts = Texts(house=house.text, show=show.text, hang=hang.text)
                self._seen = Now(hang.number, texts, judge(texts, today), hang.back > 0, hang.note)
                self._for = stands
            return self._seen

    def text(self, kind: str) -> Revision:
        """The newest text of house, show or hang. Refused where there is none."""
        return self._kept(kind)

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
            return apply_edits(text, [Edit(path=f"hung[{at_now}].centre", old=hung.centre.text, new=centre)])

        return self._change("hang", moved, f"set {label}: moved to {centre}", operation=operation, at=at)

    def write(self, kind: str, edits: Sequence[Edit], *, note: str, operation: str, at: str) -> Now:
        """Write values into house, show or hang, every other character kept.

        Raises Conflict where something else stands there now than was seen, BadDocument where it cannot be read.
        """
        return self._change(kind, lambda text: apply_edits(text, edits, f"{kind}.yaml"), note,
                            operation=operation, at=at)  # fmt: skip

    def rewrite(self, kind: str, text: str, *, base: int, operation: str, at: str) -> Now:
        """Keep a whole text as the next revision. Raises Conflict where another was kept since `base`."""
        texts = _renamed(replace(self.now().texts, **{kind: text}), kind)
        judge(texts, self._today())
        hang = self._kept("hang")
        self._store.append(self._name, kind, text, "text changed", base=base, operation=operation, at=at)
        if texts.hang != hang.text and kind != "hang":  # the hang names its house and its show
            self._store.append(self._name, "hang", texts.hang, f"the {kind} has another name", base=hang.number,
                               operation=f"{operation}/hang", at=at)  # fmt: skip
        return self.now()

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

    def undo(self, *, base: int, operation: str, at: str) -> Now:
        """Take the last move back; again and again as far as the moves of this hang go."""
        kept = self._store.revision(self._name, "hang", base)
        before = self._store.revision(self._name, "hang", kept.back) if kept and kept.back else None
        if before is None:
            raise Refused("There is no move to take back")
        self._store.append(self._name, "hang", before.text, "took the last move back", base=base,
                           operation=operation, at=at, back=before.back)  # fmt: skip
        return self.now()

    def _kept(self, kind: str) -> Revision:
        found = self._store.latest(self._name, kind)
        if found is None:
            raise Refused(f"No {kind} is kept here yet", "Start the pages with a house, a show and a hang.")
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
    for path, old, before in zip(paths, now, seen, strict=True):
        if old != before:
            raise Conflict(f"{path} was written meanwhile", "Load the page again.", workspace.text(kind).number)
        if old is not None and not isinstance(new, str):  # the word unknown goes before a list can stand there
            edits += [Edit(path=path, old=old, new=None), Edit(path=path, new=new)]
        else:
            edits.append(Edit(path=path, old=old, new=new))
    what = paths[0] if len(paths) == 1 else f"{paths[0]} and {len(paths) - 1} more"
    return workspace.write(kind, edits, note=f"{what}: {value}", operation=operation, at=at)


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


def stations_of(now: Now, label: str, piece: int) -> list[Station]:
    """The set as it would be with the centre of one piece at every whole inch (metric: centimetre) that its batten has.

    Each is the full answer of the engine, so that what a page looks up is what a release computes.
    """
    hung = list(hung_on(now.result, label))
    batten = now.result.house.batten_called(label)
    if batten is None:
        raise Refused(f"Set {label} lacks a figure", "Find it out first.")
    if not 0 <= piece < len(hung):
        raise Refused(f"Set {label} has no piece number {piece + 1}", "Load the page again.")
    low, high = _reach(batten, piece)
    pulls = neighbours_of(now.result, label)
    where, what = hung[piece]
    found = []
    for words in _places(now.result.house.units, low, high):
        read_ = from_centre(words)
        centre = read_.best or 0.0
        hung[piece] = (replace(where, centre=replace(where.centre, text=words, low=centre, best=centre, high=centre,
                                                     form=read_.form, source=None)), what)  # fmt: skip
        one = judge_again(now.result, label, hung, pulls)
        found.append(Station(words, batten.beam.length / 2 + centre, one if one.forces is not None else None))
    return found


def _reach(rigged: RiggedBatten, piece: int) -> tuple[float, float]:
    """How far the centre may go either way of the batten's centre with all of the piece on the batten [m]."""
    one, half = rigged.pieces[piece], rigged.beam.length / 2
    centre = one.hung.centre.number
    spread = one.written.spread_over
    if spread is not None:
        return -half + spread.number / 2, half - spread.number / 2
    offsets = [x - half - centre for x, _ in one.points]
    return -half - min(offsets), half - max(offsets)


def _places(units: str, low: float, high: float) -> list[str]:
    step = METRES_PER_INCH if units == "us" else 0.01
    first, last = math.ceil(low / step - 1e-6), math.floor(high / step + 1e-6)
    return [_words(units, n) for n in range(first, last + 1)]


def _words(units: str, n: int) -> str:
    """A place as the hang writes it: `CL`, `1' 3" SL`, `0.38 m SR`."""
    if n == 0:
        return "CL"
    side = "SL" if n > 0 else "SR"
    if units != "us":
        return f"{float(Fraction(abs(n), 100)):.2f} m {side}"
    feet, inches = divmod(abs(n), 12)
    parts = ([f"{feet}'"] if feet else []) + ([f'{inches}"'] if inches else [])
    return " ".join([*parts, side])
