"""Three texts in, the whole hang judged: what the command line, the pages and the sheets all begin with."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from counterpoise.checks import HouseResult, check
from counterpoise.documents import Hang, House, Show, edit_scalar, read_hang, read_house, read_show
from counterpoise.errors import BadDocument, Problem
from counterpoise.rigging import rig


@dataclass(frozen=True, slots=True, kw_only=True)
class Texts:
    """The three documents as text, and what each is called when something in it must be mended."""

    house: str
    show: str
    hang: str
    house_name: str = "house.yaml"
    show_name: str = "show.yaml"
    hang_name: str = "hang.yaml"

    def with_hang(self, hang: str) -> Texts:
        """The same house and show with another hang."""
        return replace(self, hang=hang)


def read(texts: Texts) -> tuple[House, Show, Hang]:
    """The written documents. Raises BadDocument with the problems of house and show together, then of the hang."""
    problems: list[Problem] = []
    house: House | None = None
    show: Show | None = None
    try:
        house = read_house(texts.house, texts.house_name)
    except BadDocument as error:
        problems += error.problems
    try:
        show = read_show(texts.show, texts.show_name)
    except BadDocument as error:
        problems += error.problems
    if house is None or show is None:
        raise BadDocument(tuple(problems))
    return house, show, read_hang(texts.hang, house, show, texts.hang_name)


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
