"""What a column may hold, by its cells, where its heading says nothing: asked, and never taken.

A column of S and D, of lengths that rise from row to row, of loads, of pipes or of places along a batten says by itself
what it is likely to be. Source of the words: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import pairwise

from counterpoise.exchange.headings import FIELDS
from counterpoise.exchange.parts import read_pipe, read_places
from counterpoise.exchange.said import Question
from counterpoise.exchange.sheet import Sheet, column_letters
from counterpoise.exchange.tables import Table
from counterpoise.exchange.taken import Taken
from counterpoise.exchange.values import is_ditto, read_value

_SHOWN = 4  # cells in a question
_FEWEST = 3  # cells that speak for a column
_SHARE = 0.7  # of its cells that have to say such a thing
_RISING = 0.9  # of the steps from row to row that go upstage


def questions_of_columns(sheet: Sheet, table: Table, taken: list[Taken]) -> Iterator[Question]:
    """One question for each field that no column holds and the cells of one seem to state."""
    held = {one.field for one in taken}
    asked: set[int] = set()
    for name, fits in _FITS.items():
        if name in held:
            continue
        for one in taken:
            texts = _cells(sheet, table, one)
            if one.field == "note" and not one.told and one.column.at not in asked and fits(texts):
                asked.add(one.column.at)
                yield _question(name, one, texts)
                break


def holds_places(sheet: Sheet, table: Table, at: int) -> bool:
    """True for a column of places along a batten, whatever it is called."""
    texts = [sheet.rows[row][at] for row in range(table.first, table.end)]
    return _most([text for text in texts if text and not is_ditto(text)], lambda text: not read_places(text).why, 1)


def _question(name: str, one: Taken, texts: list[str]) -> Question:
    letters = column_letters(one.column.at)
    called = f' ("{one.column.text}")' if one.column.text else ""
    different = list(dict.fromkeys(texts))
    some = ", ".join(different[:_SHOWN])
    says = f"is column {letters}{called} {_THING.get(name, FIELDS[name].says)}? {len(texts)} cells say {some}"
    more = " and more" if len(different) > _SHOWN else ""
    return Question(about=name, says=f"{says}{more}.", options=(name, "note"), cells=len(texts), must=False,
                    column=letters)  # fmt: skip


def _cells(sheet: Sheet, table: Table, one: Taken) -> list[str]:
    """Its cells with something in them, a ditto mark as what it stands for."""
    found: list[str] = []
    for row in range(table.first, table.end):
        text = sheet.rows[row][one.column.at]
        if text and not (is_ditto(text) and not found):
            found.append(found[-1] if is_ditto(text) else text)
    return found


def _most(texts: list[str], fits: Callable[[str], bool], fewest: int = _FEWEST) -> bool:
    return len(texts) >= fewest and sum(map(fits, texts)) >= _SHARE * len(texts)


def _rigged(texts: list[str]) -> bool:
    def says(text: str) -> bool:
        read = read_value("purchase", text, "")
        return bool(read.values) and not read.why

    return _most(texts, says)


def _rising(texts: list[str]) -> bool:
    metres = [found.si for text in texts if (found := read_value("distance", text, "ft-in")).si is not None]
    steps = [after > before for before, after in pairwise(metres)]
    return len(metres) >= max(_FEWEST, _SHARE * len(texts)) and sum(steps) >= _RISING * len(steps)


def _loads(texts: list[str]) -> bool:
    return _most(texts, lambda text: read_value("posted", text, "").si is not None)


def _pipes(texts: list[str]) -> bool:
    return _most(texts, lambda text: not read_pipe(text).why)


def _places(texts: list[str]) -> bool:
    return _most(texts, lambda text: not read_places(text).why)


_FITS: dict[str, Callable[[list[str]], bool]] = {
    "purchase": _rigged, "distance": _rising, "lines at": _places, "batten pipe": _pipes, "posted": _loads,
}  # fmt: skip
_THING = {"purchase": "the purchase"}
