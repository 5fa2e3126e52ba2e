"""The house's own words: the same sentence for people who say bar, cradle and weight as for those who do not.

Sentences are made in US words throughout. Here, at the very end, a house that says so gets its own; names that stand in
its documents, what is in backticks and the keys of figures stay as they are.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from counterpoise.documents.hang import Hang
from counterpoise.documents.house import House

# What is said in the United Kingdom, longest first where one is part of another. Trade words on both sides; sources:
# published pages of crew training and of houses on both sides, common practice.
UK: Mapping[str, str] = {
    "brick weight": "weight of one weight",
    "pipe weight": "bar weight",
    "pipe-weight": "bar-weight",
    "batten load": "bar load",
    "batten": "bar",
    "arbor": "cradle",
    "brick": "weight",
    "low trim": "low dead",
    "high trim": "high dead",
    "loading bridge": "loading gallery",
    "bridge": "gallery",
}
WORDS: Mapping[str, Mapping[str, str]] = {"us": {}, "uk": UK}
_CODE = r"`[^`]*`|Key: [^\n]*"
_SHORTEST_NAME = 2  # a name of one letter or figure is a label, and no trade word is hidden in it


class Speech:
    """Turns a sentence into the words of a house. The same house and hang give the same words."""

    def __init__(self, house: House, hang: Hang | None = None) -> None:
        self._parts: re.Pattern[str] | None
        self._words = WORDS[house.words]
        if not self._words:
            self._parts = None
            return
        kept = sorted({name for name in _names(house, hang) if len(name) >= _SHORTEST_NAME}, key=len, reverse=True)
        names = "|".join(map(re.escape, kept))
        words = "|".join(sorted(map(re.escape, self._words), key=len, reverse=True))
        parts = [_CODE, *([rf"(?<!\w)(?:{names})(?!\w)"] if names else []), rf"\b(?P<word>{words})(?P<many>s?)\b"]
        self._parts = re.compile("|".join(parts), re.IGNORECASE)

    def __call__(self, said: str) -> str:
        """The sentence in the house's words."""
        return self._parts.sub(self._one, said) if self._parts is not None else said

    def _one(self, found: re.Match[str]) -> str:
        word = found["word"]
        if word is None:
            return found[0]
        ours = self._words[word.lower()] + found["many"]
        return ours[0].upper() + ours[1:] if word[0].isupper() else ours


def _names(house: House, hang: Hang | None) -> Iterable[str]:
    """Every name that people gave: sets, bricks, bridges, rails, holds, bays, pieces, trims, and who and what."""
    yield from (house.name, house.about)
    for one in house.sets:
        yield from (one.label, one.use, one.note, one.out_of_service)
    yield from (one.brick for one in house.bricks)
    yield from (one.bridge for one in house.bridges)
    yield from (one.rail for one in house.rails)
    yield from (one.hold for one in house.holds)
    yield from (one.bay for one in house.steel)
    for note in (*house.not_checked_here, *(hang.not_checked_here if hang else ())):
        yield from (note.why, note.who)
    if hang is not None:
        yield hang.show
        yield from (one.piece for one in hang.hung)
        yield from (name for one in hang.hung for name in one.trims)
