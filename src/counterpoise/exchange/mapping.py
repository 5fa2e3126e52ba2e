"""What the user has said about a schedule: what its columns hold, their units, and what holds for every set."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from counterpoise.errors import Misuse
from counterpoise.exchange.headings import FIELDS, UNITS_OF, unit_word
from counterpoise.exchange.said import Read
from counterpoise.exchange.sheet import Sheet, column_letters
from counterpoise.exchange.tables import Column, Table, letters_of
from counterpoise.exchange.values import read_value
from counterpoise.units import Kind

OTHER = ("note", "ignore")
_ALL_LENGTHS = ("distance", "batten length", "low trim", "high trim")
_STATED = re.compile(
    r"\b(dimensions?|measurements?|distances?|lengths?|heights?|trims?|loads?|weights?|capacit(?:y|ies)|swls?)\b"
    r"[^.;:]{0,30}?\b(?:in|are) (feet and inches|feet & inches|ft-in|feet|ft|inches|met(?:re|er)s|m|mm"
    r"|millimet(?:re|er)s"
    r"|centimet(?:re|er)s|cm|pounds|lbs?|kilograms|kilos|kgs?|kn)\b",
    re.IGNORECASE,
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """The unit of bare numbers of a field, and who says so."""

    unit: str
    why: str


def named_columns(told: Mapping[str, str]) -> dict[str, str]:
    """The user's words for columns, held against the fields there are.

    Raises:
        Misuse: a field that is not one, with the near name and all there are.
    """
    for said in told.values():
        if said not in FIELDS and said not in OTHER:
            near = difflib.get_close_matches(said, (*FIELDS, *OTHER), n=1)
            meant = f"Did you mean {near[0]}? " if near else ""
            raise Misuse(f'A column cannot hold "{said}".', f"{meant}It may hold: {', '.join((*FIELDS, *OTHER))}.")
    return {name.strip(): said for name, said in told.items()}


def lettered(named: Mapping[str, str], sheet: Sheet) -> dict[int, str]:
    """Those of the named columns that are named by a letter of the sheet."""
    letters = {column_letters(at).lower(): at for at in range(sheet.width)}
    return {letters[name.lower()]: said for name, said in named.items() if name.lower() in letters}


def all_found(named: Mapping[str, str], tables: Iterable[Table], sheet: Sheet) -> None:
    """Raise Misuse where the user names a column that is not there."""
    columns = [one for table in tables for one in table.columns]
    known = {one.text.lower() for one in columns if one.text}
    letters = {column_letters(at).lower() for at in range(sheet.width)}
    for name in named:
        if name.lower() not in known and name.lower() not in letters:
            there = [one.text for one in columns if one.text] or letters_of(tuple(columns))
            raise Misuse(f'There is no column "{name}".', _near(name, there))


def told_field(column: Column, named: Mapping[str, str], by_letter: Mapping[int, str]) -> str:
    """What the user says of a column, "" where nothing: its heading counts before its letter."""
    by_heading = {name.lower(): said for name, said in named.items()}
    return by_heading.get(column.text.lower()) or by_letter.get(column.at, "")


def told_units(units: Mapping[str, str]) -> dict[str, Unit]:
    """The user's units by field.

    Raises:
        Misuse: a field that has none, or a unit it cannot have.
    """
    found = {}
    for name, unit in units.items():
        kind = FIELDS[name].kind if name in FIELDS else None
        if kind not in UNITS_OF:
            having = [one.name for one in FIELDS.values() if one.kind in UNITS_OF]
            raise Misuse(f'"{name}" has no unit to tell.', _near(name, having))
        assert kind is not None
        known = unit_word(unit)
        if known not in UNITS_OF[kind]:
            raise Misuse(f'The unit of {name} cannot be "{unit}".', f"Say one of {', '.join(UNITS_OF[kind])}.")
        found[name] = Unit(unit=known, why="you said so")
    return found


def stated_units(sheet: Sheet) -> dict[str, Unit]:
    """Units that a line of words on the sheet states, as in "All dimensions in feet"; none where two lines differ."""
    found: dict[str, Unit] = {}
    differing = set()
    for at, row in enumerate(sheet.rows):
        texts = [text for text in row if text]
        if len(texts) > 2:
            continue
        for text in texts:
            for what, words in _STATED.findall(text):
                for name in _spoken_of(what.lower(), unit_word(words)):
                    said = Unit(unit=unit_word(words), why=f'row {at + 1} says "{text[:60]}"')
                    if found.setdefault(name, said).unit != said.unit:
                        differing.add(name)
    return {name: said for name, said in found.items() if name not in differing}


def _spoken_of(what: str, unit: str) -> tuple[str, ...]:
    """Fields that a word in such a line speaks of."""
    if unit in UNITS_OF[Kind.FORCE]:
        return ("posted",) if what.startswith(("load", "weight", "capacit", "swl")) else ()
    if what.startswith(("dimension", "measurement")):
        return _ALL_LENGTHS
    if what.startswith("length"):
        return ("batten length",)
    return ("distance",) if what.startswith("distance") else ("low trim", "high trim") if what[0] in "ht" else ()


def told_every(every: Mapping[str, str]) -> dict[str, str]:
    """What the user says of every set that does not say it itself, in the words of a house file.

    Raises:
        Misuse: a field that cannot be said so, or a value that cannot be read.
    """
    found: dict[str, str] = {}
    may = [name for name in FIELDS if name not in ("set", "distance", "use", "out of service", "lines at")]
    for name, text in every.items():
        if name not in may:
            raise Misuse(f'"{name}" cannot be told for every set.', _near(name, may))
        read = read_value(name, text, "")
        if read.why or not read.values or "twin of" in read.values or read.values.get("purchase") == "unknown":
            raise Misuse(f'{name} of every set: "{text}" {read.why or "is no value"}.', read.mend)
        found |= read.values
    return found


def told_words(words: Mapping[str, str]) -> dict[tuple[str, str], Read]:
    """What the user says that words of cells mean, by field and word in small letters.

    Args:
        words: by field and word, as in "purchase: 2P", a value of that field, or "note".

    Raises:
        Misuse: no such field, or a value that cannot be read.
    """
    found = {}
    for key, text in words.items():
        name, word = (part.strip() for part in (key.partition(":")[0], key.partition(":")[2]))
        if name not in FIELDS or name == "set" or not word:
            raise Misuse(f'"{key}" does not say a field and a word of its cells.',
                         'Write it like "purchase: 2P=double".')  # fmt: skip
        read = Read(note=word) if text == "note" else read_value(name, text, "")
        if read.why or not (read.values or read.note):
            raise Misuse(f'{name} where a cell says "{word}": "{text}" {read.why or "is no value"}.', read.mend)
        found[name, word.lower()] = replace(read, says="you said so")
    return found


def _near(word: str, known: Iterable[str]) -> str:
    names = list(known)
    near = difflib.get_close_matches(word, names, n=1)
    return f"Did you mean {near[0]}?" if near else f"It may be: {', '.join(names[:20])}."
