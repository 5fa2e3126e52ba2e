"""Three texts in, the whole hang judged: what the command line, the pages and the sheets all begin with."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from datetime import date

from counterpoise.checks import HouseResult, check
from counterpoise.documents import Hang, House, Show, edit_scalar, read_hang, read_house, read_show
from counterpoise.errors import BadDocument, Problem
from counterpoise.rigging import rig

NOTHING_HUNG = "counterpoise: show 1\nname: nothing hung\npieces: []\n"


@dataclass(frozen=True, slots=True, kw_only=True)
class Texts:
    """The three documents as text, and what each is called when something in it must be mended; or a house alone."""

    house: str
    show: str = ""
    hang: str = ""
    house_name: str = "house.yaml"
    show_name: str = "show.yaml"
    hang_name: str = "hang.yaml"

    @property
    def is_house_alone(self) -> bool:
        """True where there is neither a show nor a hang."""
        return not self.show and not self.hang

    def with_hang(self, hang: str) -> Texts:
        """The same house and show with another hang."""
        return replace(self, hang=hang)


def read(texts: Texts) -> tuple[House, Show, Hang]:
    """The written documents. Raises BadDocument with the problems of house and show together, then of the hang.

    Without a show and a hang the house is read alone, with nothing hung.
    """
    if texts.is_house_alone:
        house = read_house(texts.house, texts.house_name)
        show = read_show(NOTHING_HUNG)
        return house, show, Hang(counterpoise="hang 1", house=house.name, show=show.name, hung=())
    problems: list[Problem] = []
    try:
        house = read_house(texts.house, texts.house_name)
    except BadDocument as error:
        problems += error.problems
    try:
        show = read_show(texts.show, texts.show_name)
    except BadDocument as error:
        problems += error.problems
    if problems:
        raise BadDocument(tuple(problems))
    return house, show, read_hang(texts.hang, house, show, texts.hang_name)


def with_blanks(texts: Texts) -> Texts:
    """A house alone with a show and a hang in which nothing hangs yet, so that pieces can be written into them."""
    if not texts.is_house_alone:
        return texts
    house = read_house(texts.house, texts.house_name)
    hang = f"counterpoise: hang 1\nhouse: {json.dumps(house.name)}\nshow: nothing hung\nhung: []\n"
    return replace(texts, show=NOTHING_HUNG, hang=hang)


def judge(texts: Texts, on: date | None = None) -> HouseResult:
    """Everything computed for a hang on a day, after which what was left unchecked until then is asked for again.

    Raises BadDocument, or Unproven where statics cannot prove its answer.
    """
    return check(rig(*read(texts)), on)


def move_piece(texts: Texts, index: int, centre: str) -> Texts:
    """The texts with the centre of the hang's piece number `index` (from 0) changed, comments kept.

    Raises BadDocument where the new centre cannot be read or leaves the batten.
    """
    changed = texts.with_hang(edit_scalar(texts.hang, f"hung[{index}].centre", centre, texts.hang_name))
    read(changed)
    return changed
