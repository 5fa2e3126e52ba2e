"""What to find out first: of each figure that is not known, what it would settle by itself."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from counterpoise.checks.link_rows import no_steel_input, steel_inputs
from counterpoise.checks.rows import Check, Input, Verdict, document_of, where, words_to_write
from counterpoise.checks.steel_waits import is_figure
from counterpoise.documents import NOT_WRITTEN, Known, LineSet
from counterpoise.rigging import PULLS, RiggedHouse

ALL = "in each set, or once in a kind they share (`kinds`)"
_NO_FIGURE = ("", "")  # what a row waits for that is no figure: nothing that is written settles it
_Key = tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Unknown:
    """A figure to find out: what, where it stands, and the sets whose verdict waits for it.

    `paths` are where it would be written, one for all sets of a kind or one for each; none where it is no one figure.
    `settles` are the sets whose verdict it would decide by itself, whichever way it may be.
    """

    what: str
    path: str
    where: str
    sets: tuple[str, ...]
    paths: tuple[str, ...] = ()
    settles: tuple[str, ...] = ()

    @property
    def document(self) -> str:
        """house, show or hang."""
        return document_of(self.path)


@dataclass(frozen=True, slots=True)
class Waiting:
    """A set as judged: whether its pulls are computed, its rows, and what is written of it."""

    label: str
    is_computed: bool
    rows: Sequence[Check]
    written: LineSet


@dataclass(slots=True)
class _Figure:
    """One figure, and what is gathered of it."""

    paths: dict[str, str] = field(default_factory=dict)  # path -> where
    sets: dict[str, None] = field(default_factory=dict)
    settles: list[str] = field(default_factory=list)
    alone: int = 0  # things that wait for it and nothing else
    share: float = 0.0


def unknowns_of(house: RiggedHouse, sets: Sequence[Waiting]) -> tuple[Unknown, ...]:
    """Figures to find out, the most telling first.

    First those that would by themselves decide the most sets; then the most links, as a rating that is all a row waits
    for; then by their share: a thing that waits for n figures is n-th part settled by each of them. Among equals the
    one comes first that is asked for first.
    """
    found: dict[_Key, _Figure] = {}
    for one in sets:
        waits = list(_waits(house, one, found))
        for keys in waits:
            whole = sum(keys.values()) or 1.0
            for key, weight in keys.items():
                if key != _NO_FIGURE:
                    found[key].share += weight / whole
                    found[key].alone += len(keys) == 1
        if waits and len({key for keys in waits for key in keys}) == 1 and _NO_FIGURE not in waits[0]:
            found[next(iter(waits[0]))].settles.append(one.label)
    ranked = sorted(found.items(), key=lambda each: (-len(each[1].settles), -each[1].alone, -round(each[1].share, 9)))
    return tuple(Unknown(what=what, path=next(iter(one.paths)), sets=tuple(one.sets), paths=_writable(one.paths),
                         where=next(iter(one.paths.values())) if len(one.paths) == 1 else ALL,
                         settles=tuple(one.settles))
                 for (what, _), one in ranked)  # fmt: skip


@dataclass(slots=True)
class _Asking:
    """What one set waits for, noted among all figures as it is found."""

    house: RiggedHouse
    one: Waiting
    found: dict[_Key, _Figure]

    def note(self, what: str, path: str, said: str) -> _Key:
        """A figure it waits for; what each set lacks itself is one thing to find out."""
        key = (what, "" if path.startswith("sets") else path)
        figure = self.found.setdefault(key, _Figure())
        figure.paths[path] = said
        figure.sets[self.one.label] = None
        return key

    def lacking(self, label: str, stage: str = "") -> dict[_Key, float]:
        """What a set lacks for its pulls, or for its balance as well."""
        return {self.note(each.what, each.path, _where(each.path, each.line)) if is_figure(each) else _NO_FIGURE: 1.0
                for each in self.house.missing_of(label) if stage in ("", each.waits)}  # fmt: skip

    def before_rows(self) -> Iterator[dict[_Key, float]]:
        """Of a set whose pulls are not computed all that is known to be open, though it has no rows yet."""
        before = self.lacking(self.one.label)
        for name, known in _ratings(self.one.written):
            if known.is_unknown:
                yield {**before, self.note(name, known.path, _where(known.path, known.line, known.text)): 1.0}
        for each in _steel(self.house, self.one):
            yield {**before, self.note(each.name, each.path, each.where): 1.0}
        for label in _beside(self.house, self.one.label):
            yield {**before, **self.lacking(label, PULLS)}
        if not before:
            yield {_NO_FIGURE: 1.0}  # its batten tips

    def of_row(self, row: Check) -> dict[_Key, float]:
        """The figures that a row waits for, each with its weight."""
        keys = {self.note(each.name, each.path, each.where): 1.0 if each.is_unknown else max(each.widens, 1e-6)
                for each in row.inputs if _would_tell(row, each)}  # fmt: skip
        for label in row.waits_for:
            keys |= self.lacking(label, PULLS)
        if not keys or (row.lacks and not row.waits_for and not row.is_told_by_figures):
            keys[_NO_FIGURE] = 1.0
        return keys


def _waits(house: RiggedHouse, one: Waiting, found: dict[_Key, _Figure]) -> Iterator[dict[_Key, float]]:
    """Each thing of a set that is open, as the figures that it waits for, with the weight of each."""
    asking = _Asking(house, one, found)
    pulls, every = asking.lacking(one.label, PULLS), asking.lacking(one.label)
    yield from (each for each in (pulls, every if every != pulls else {}) if each)
    if not one.is_computed:
        yield from asking.before_rows()
    seen: set[tuple[str, frozenset[_Key]]] = set()
    for row in one.rows:
        if row.verdict is Verdict.UNKNOWN:
            keys = asking.of_row(row)
            if (row.link, frozenset(keys)) not in seen:  # of several lines of a set the same figure is one thing
                seen.add((row.link, frozenset(keys)))
                yield keys


def _steel(house: RiggedHouse, one: Waiting) -> Iterable[Input]:
    """What the steel above a set lacks."""
    bay = house.bay_of(one.label)
    return [no_steel_input()] if bay is None else steel_inputs(house, one.written.rigged, bay)


def _beside(house: RiggedHouse, label: str) -> Iterator[str]:
    """Other sets on the same steel whose pulls are not known."""
    bay = house.bay_of(label)
    for other in bay.sets if bay is not None else ():
        if other != label and any(each.waits == PULLS for each in house.missing_of(other)):
            yield other


def _ratings(one: LineSet) -> Iterator[tuple[str, Known]]:
    """What its parts may carry: asked for as soon as its pulls are known."""
    lines = one.lines
    asked: list[tuple[str, Known | None]] = [
        ("trim chain rating", lines.trim_chain), ("shackle rating", lines.shackle),
        ("turnbuckle rating", lines.turnbuckle), ("breaking strength", lines.breaking_strength),
        ("termination", lines.termination), ("loft block rating", one.loft_block.rating),
        ("head block rating", one.head_block.rating),
    ]  # fmt: skip
    if one.rigged == "counterweight":
        asked += [("arbor rating", one.arbor.rating)]
    yield from ((name, known) for name, known in asked if known is not None)


def _where(path: str, line: int, text: str = NOT_WRITTEN) -> str:
    """The document and its line; the words to write where none stand there."""
    words = words_to_write(path) if text == NOT_WRITTEN else ""
    return f"{words}, {where(path, line)}" if words else where(path, line)


def _writable(paths: Iterable[str]) -> tuple[str, ...]:
    """Paths of the documents, where all are: those that only describe a place are none to write to."""
    found = tuple(paths)
    return found if all("." in path and "›" not in path and not path.startswith("rules") for path in found) else ()


def _would_tell(row: Check, figure: Input) -> bool:
    return figure.is_unknown or (
        row.limit is not None and not row.lacks and (figure.is_doubtful or figure.widens > 0.0)
    )
