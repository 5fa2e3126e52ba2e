"""Rows of a table to sets: each cell goes to one place, and a row is a set only where it says so."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from counterpoise.exchange.agreeing import disagreeing
from counterpoise.exchange.decimals import Decimal
from counterpoise.exchange.headings import FIELDS
from counterpoise.exchange.said import CellSaid, Read, ScheduledSet, State, Value
from counterpoise.exchange.service import says_out_of_service
from counterpoise.exchange.sheet import Sheet, place
from counterpoise.exchange.tables import Table, repeats_heading
from counterpoise.exchange.taken import Above, Cell, Taken
from counterpoise.exchange.values import NOTHING_SAID, is_ditto, is_label, read_value

_LIKE_A_LABEL = re.compile(r"#?[A-Za-z]{0,4}[ .-]?\d{1,4} ?[A-Za-z]{0,2}\.?\Z")
_SHORTEST_WORD = 6  # letters of a label without a figure
_TOTAL = re.compile(r"(?:sub ?-?)?totals?\b|sums?\b|average\b|count\b|number of (?:sets|lines)\b", re.IGNORECASE)
_SEVERAL = re.compile(r"\d+[A-Za-z]?\s*(?:[-–/&+,]|to|and)\s*\d+[A-Za-z]?\Z")
_NOT_COUNTERWEIGHT = ("hemp", "dead-hung")
ASKED = ("purchase", "batten pipe")  # fields whose words are asked about


@dataclass(slots=True, kw_only=True)
class Book:
    """What has been read so far."""

    sheet: Sheet
    every: Mapping[str, str]
    words: Mapping[tuple[str, str], Read] = field(default_factory=dict)  # by field and word, as the user said
    cells: list[CellSaid] = field(default_factory=list)
    sets: list[ScheduledSet] = field(default_factory=list)
    silent: dict[str, int] = field(default_factory=dict)  # what stands where purchase is not said, "" where nothing
    # Field and word in small letters -> the word as it stands, and the labels of its sets.
    unread: dict[tuple[str, str], tuple[str, list[str]]] = field(default_factory=dict)
    waiting: dict[str, int] = field(default_factory=dict)  # field -> cells without a unit
    labels: dict[str, int] = field(default_factory=dict)  # label -> index in `sets`
    decimal: Decimal = Decimal.NOT_SAID  # what sets off decimals on the sheet
    read_before: dict[tuple[str, str, str, bool], Read] = field(default_factory=dict)

    def read(self, name: str, text: str, unit: str, *, is_number: bool = False) -> Read:
        """As `read_value`; a schedule says the same few things a thousand times."""
        key = (name, text, unit, is_number)
        if key not in self.read_before:
            told = self.words.get((name, text.lower()))
            decimal = Decimal.NUMBER if is_number else self.decimal
            self.read_before[key] = told or read_value(name, text, unit, decimal)
        return self.read_before[key]

    def settled(self) -> tuple[tuple[CellSaid, ...], tuple[ScheduledSet, ...]]:
        """Cells in the order of the sheet, and sets; a twin that names no set of the house is taken back."""
        lost = {}
        for i, one in enumerate(self.sets):
            twin = one.values.get("twin of")
            if twin is not None and (twin.words not in self.labels or twin.words == one.label):
                kept = {name: value for name, value in one.values.items() if name != "twin of"}
                self.sets[i] = replace(one, values=kept)
                lost[twin.place] = twin.words
        cells = [
            one._replace(state=State.NOT_UNDERSTOOD, became="", why=f"there is no set {lost[one.place]}",
                         mend="Write the label of a set of this schedule, as in twin of 12.")
            if one.place in lost else one
            for one in self.cells
        ]  # fmt: skip
        return tuple(sorted(cells, key=_where)), tuple(self.sets)


def read_table(book: Book, table: Table, taken: list[Taken]) -> None:
    """Read every row of a table into the book."""
    label = next((one for one in taken if one.field == "set"), None)
    above: dict[int, Above] = {}
    for row in range(table.first, table.end):
        texts = [book.sheet.rows[row][one.column.at] for one in taken]
        if any(texts):
            _row(book, table, taken, label, row, texts, above)


def _row(
    book: Book, table: Table, taken: list[Taken], label: Taken | None, row: int, texts: list[str],
    above: dict[int, Above],
) -> None:  # fmt: skip
    spoken = [text for text in texts if text]
    if repeats_heading(table, texts):
        return _keep(book, taken, row, State.NOTE, "the heading again")
    if _TOTAL.match(spoken[0]):
        return _keep(book, taken, row, State.NOTE, "a row of totals")
    if label is None:
        return _keep(book, taken, row, State.NOT_UNDERSTOOD, "no column holds the label of its set",
                     "Say which column holds it.")  # fmt: skip
    at = book.sheet.origin(row, label.column.at)
    said = book.sheet.rows[at[0]][at[1]].strip("#").rstrip(".").strip()
    if at[0] != row and said in book.labels:
        return _more(book, taken, row, said)
    why, mend = _no_set(book, taken, row, said, at)
    if why:
        return _keep(book, taken, row, State.NOT_UNDERSTOOD if mend else State.NOTE, why, mend)
    return _set(book, taken, row, said, place(*at), above)


def _no_set(book: Book, taken: list[Taken], row: int, said: str, at: tuple[int, int]) -> tuple[str, str]:
    """Why a row is no set, and the mend where it may have been meant as one; ("", "") where it is a set."""
    odd = book.sheet.odd.get(at)
    where = place(*at)
    if odd is not None:
        return f"its label cannot be read: {odd.why}", odd.mend
    others = [one for one in taken if one.field != "set" and book.sheet.rows[row][one.column.at]]
    figures = [one for one in others if one.field not in ("note", "use", "ignore")]
    if not said or is_ditto(said):
        return ("its row has no label", f"Write the set's label in {where}.") if figures else ("words of no set", "")
    if not others and (" " in said or not _LIKE_A_LABEL.match(said)):
        return "words of no set", ""
    bad = book.read("set", said, "")
    if bad.why:
        return bad.why, bad.mend
    if _SEVERAL.match(said):
        return "may be several sets", "Write a row for each; where they are flown as one, say so: twin of 12."
    short = len(said) <= _SHORTEST_WORD and " " not in said
    if not any(letter.isdigit() for letter in said) and not (short and _says(book, others, row)):
        return (
            "does not look like the label of a set",
            "If it is one, give it a short label, like FC, and its distance.",
        )
    if not is_label(said):
        return (
            "does not look like the label of a set",
            "Write its label alone, as in 12, 12A or FC; the rest in a note.",
        )
    if said in book.labels:
        first = book.sets[book.labels[said]].place
        return f"the label {said} stands already in {first}", "Give one of them another label, like H12 for a hemp set."
    return "", ""


def _says(book: Book, others: list[Taken], row: int) -> bool:
    """True where the row states a distance or how its set is rigged: words alone as a label are not enough."""
    cells = ((one, book.sheet.rows[row][one.column.at]) for one in others if one.field in ("distance", "purchase"))
    return any(not book.read(one.field, text, one.unit).why for one, text in cells)


def _keep(book: Book, taken: list[Taken], row: int, state: State, why: str, mend: str = "") -> None:
    """All cells of a row go to one place."""
    for one in taken:
        text = book.sheet.rows[row][one.column.at]
        if text and one.field != "ignore" and (row, one.column.at) not in book.sheet.merged:
            name = one.field if state is State.NOT_UNDERSTOOD else ""
            book.cells.append(CellSaid(place(row, one.column.at), row + 1, one.column.text, name, text, state, "", why,
                                       mend))  # fmt: skip


def _more(book: Book, taken: list[Taken], row: int, label: str) -> None:
    """A further row of a set whose label was merged downward: its words go to the set's note."""
    i = book.labels[label]
    words = [_worded(one, book.sheet.rows[row][one.column.at]) for one in taken
             if one.field not in ("ignore", "set") and book.sheet.rows[row][one.column.at]]  # fmt: skip
    book.sets[i] = replace(book.sets[i], notes=(*book.sets[i].notes, *words))
    for one in taken:
        text = book.sheet.rows[row][one.column.at]
        if text and one.field != "ignore" and (row, one.column.at) not in book.sheet.merged:
            book.cells.append(CellSaid(place(row, one.column.at), row + 1, one.column.text, "note", text, State.NOTE,
                                       "", f"a second row of set {label}", ""))  # fmt: skip


def _set(book: Book, taken: list[Taken], row: int, label: str, label_at: str, above: dict[int, Above]) -> None:
    reads: list[Cell] = []
    for one in taken:
        at = book.sheet.origin(row, one.column.at)
        text = book.sheet.rows[at[0]][at[1]]
        covered = (row, one.column.at) in book.sheet.merged and at == (row, one.column.at)
        if not text or covered or one.field == "ignore":
            continue
        read = _cell(book, one, at, text, above)
        reads.append(Cell(one.field, place(*at), text, read, one))
        word = above[one.column.at].text if is_ditto(text) and one.column.at in above else text
        _ask(book, one, at, row, word, label, read)
    if any(one.read.not_a_set for one in reads):
        return _keep(book, taken, row, State.NOTE, f"set {label} is moved by a machine: not a manual set")
    bad = disagreeing(one.read for one in reads)
    reads = [one._replace(read=bad[one.field]) if one.field in bad else one for one in reads]
    values = _values(reads)
    _fill(book, values, reads)
    notes = tuple(one.read.note for one in reads if one.read.note)
    book.labels[label] = len(book.sets)
    book.sets.append(ScheduledSet(label=label, place=label_at, row=row + 1, values=values, notes=notes))
    for each in reads:
        if each.where == place(row, each.taken.column.at):  # one merged downward was told in its first row
            said = label if each.field == "set" else ""
            book.cells.append(_told(each.taken, each.where, row, each.text, said, each.read))
        if each.read.waits:
            book.waiting[each.field] = book.waiting.get(each.field, 0) + 1
    return None


def _ask(book: Book, one: Taken, at: tuple[int, int], row: int, word: str, label: str, read: Read) -> None:
    """Remember a word that is not understood, so that it is asked once for all cells that say it."""
    asked = read.why or read.values.get("purchase") == "unknown"
    if asked and one.field in ASKED and at[0] == row and at not in book.sheet.odd:
        book.unread.setdefault((one.field, word.lower()), (word, []))[1].append(label)


def _values(reads: list[Cell]) -> dict[str, Value]:
    values: dict[str, Value] = {}
    # Its own column has the word on whether a set is in service; notes come after.
    for one in sorted(reads, key=lambda each: each.field in ("note", "use")):
        for name, words in one.read.values.items():
            if name != "set" and name not in values:
                values[name] = Value(words, one.where, one.text, one.read.si)
    counts = [one.taken.column.said.counts for one in reads if "posted" in one.read.values]
    if counts and counts[0] != "unknown":
        values["posted counts"] = Value(counts[0], values["posted"].place, values["posted"].text)
    return values


def _fill(book: Book, values: dict[str, Value], reads: list[Cell]) -> None:
    """What was told for every set goes where its cell is empty; a cell that says what is not understood keeps it."""
    spoken = {one.field for one in reads if one.read.why}
    rigged = values["rigged"].words if "rigged" in values else ""
    for name, words in book.every.items():
        unfit = (name == "purchase" and rigged in _NOT_COUNTERWEIGHT) or (name == "rigged" and "purchase" in values)
        cell = "purchase" if name == "rigged" else name
        told = book.read(name, words, "") if name in FIELDS else Read()
        unfit = unfit or bool(disagreeing([*(one.read for one in reads), told]))
        if name not in values and cell not in spoken and not unfit:
            values[name] = Value(words, "", "")
    if "purchase" not in values and "purchase" not in spoken and rigged not in _NOT_COUNTERWEIGHT:
        cells = (one for one in reads if one.field == "purchase" and one.read.says != NOTHING_SAID)
        said = next((one.text for one in cells), "")
        book.silent[said] = book.silent.get(said, 0) + 1


def _cell(book: Book, one: Taken, at: tuple[int, int], text: str, above: dict[int, Above]) -> Read:
    odd = book.sheet.odd.get(at)
    if odd is not None and not (one.field == "note" and odd.why.startswith("a date")):
        return Read(why=odd.why, mend=odd.mend)
    if one.field == "set":
        return Read(values={"set": text})
    if is_ditto(text):
        return _as_above(book, one, above)
    is_number = at in book.sheet.numbers
    above[one.column.at] = Above(text, place(*at), is_number)
    return _plain(book, one, text, is_number)


def _plain(book: Book, one: Taken, text: str, is_number: bool) -> Read:
    """A cell that says something by itself."""
    if one.field == "note" and says_out_of_service(text):
        return Read(values={"out of service": text}, says="it says so of the whole set")
    if one.field == "note":
        return Read(note=_worded(one, text))
    read = book.read(one.field, text, one.unit, is_number=is_number)
    told = (one.field, text.lower()) in book.words
    return replace(read, note=_worded(one, text)) if told and not read.values else read


def _as_above(book: Book, one: Taken, above: Mapping[int, Above]) -> Read:
    """A ditto mark stands for the last cell above it that says something; it is told which."""
    if one.column.at not in above:
        return Read(why="stands for what is above it, and nothing is", mend="Write it out.")
    there = above[one.column.at]
    if one.field == "distance":
        return Read(why=f"stands for {there.text} in {there.place}, and no two sets are at one distance",
                    mend="Write it out.")  # fmt: skip
    read = _plain(book, one, there.text, there.is_number)
    if read.why:
        return replace(read, why=f'stands for "{there.text}" in {there.place}, which {read.why}')
    return replace(read, says=f"as above: {there.text} in {there.place}")


def _worded(one: Taken, text: str) -> str:
    """Words for the note of a set, with the heading where that is not itself `Notes`."""
    plain = one.column.said.words.startswith(("note", "remark", "comment")) or not one.column.text
    return text if plain else f"{one.column.text}: {text}"


def _told(one: Taken, where: str, row: int, text: str, label: str, read: Read) -> CellSaid:
    """Where a cell of a set went."""
    heading = one.column.text
    if read.why:
        return CellSaid(where, row + 1, heading, one.field, text, State.NOT_UNDERSTOOD, "", read.why, read.mend)
    if not read.values and read.note:
        return CellSaid(where, row + 1, heading, "note", text, State.NOTE, "", "no field of a set: in its note", "")
    became = label or ", ".join(f"{name}: {words}" for name, words in read.values.items())
    return CellSaid(where, row + 1, heading, one.field, text, State.UNDERSTOOD, became, read.says, "")


def _where(one: CellSaid) -> tuple[int, int, str]:
    letters = one.place.rstrip("0123456789")
    return one.row, len(letters), letters
