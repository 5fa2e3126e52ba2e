"""What no row looked at, said of itself beside what a person lists: nothing is within by not being looked at."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence, Set

from counterpoise.checks.rows import BRIDGE_FLOOR, Check
from counterpoise.checks.together import listed
from counterpoise.documents import COUNTERWEIGHT, DEAD_HUNG, LineSet
from counterpoise.rigging import RiggedHouse

NEARLY = 1e-6  # [m]
Judged = Sequence[tuple[LineSet, bool, Sequence[Check]]]  # each set whose pulls are computed, if it is loaded, its rows


def left_out(house: RiggedHouse, sets: Judged) -> tuple[str, ...]:
    """Things of which nothing was computed here, each with why and, where it is not all, of which sets."""
    return tuple(_left_out(house, sets))


def _left_out(house: RiggedHouse, sets: Judged) -> Iterator[str]:
    listed_ = {one.what for one in house.not_checked if not one.sets}
    order = {one.label: at for at, one in enumerate(house.house.sets)}

    def without(links: Sequence[str], words: str, why: str, asked: Callable[[LineSet, bool], bool]) -> Iterator[str]:
        if listed_.issuperset(links):
            return
        could = [one for one in sets if asked(one[0], one[1])]
        lacking = [one.label for one, _, rows in could if _lacks(one, links, rows)]
        if lacking:
            of = "" if len(lacking) == len(could) else f" of set{'s' * (len(lacking) > 1)} {listed(lacking, order)}"
            yield f"{words}{of} ({why})"

    if "sway and shock" not in listed_:
        yield "sway and shock"
    why = "the house has no rule for it" if house.house.rules.roll is None else "how far it hangs beside is not written"
    yield from without(("roll",), "roll", why, lambda _, loaded: loaded)
    yield from without(("sheave",), "ropes bent over their sheaves", "diameters are not written", _over_blocks)
    yield from without(("fleet angle",), "fleet angles", "where blocks stand across is not written", _over_blocks)
    yield from without(("loft block shaft", "loft block base", "head block shaft", "head block base"),
                       "shafts and bolts of blocks", "no figures of them are written", _over_blocks)  # fmt: skip
    if any(one.rigged == COUNTERWEIGHT for one, _, _ in sets):
        yield from without(("guides",), "guides", "no figures of them are written", _over_guides)
        yield "the tilt of arbors in their guides"
        yield "what hand lines add to head beams"
    yield from _pressed(house, {one.label for one, _, _ in sets}, order)
    yield from _way_up(house, {one.label for one, _, _ in sets}, order)
    if "attachments" not in listed_:
        yield "attachments, knots and welds"
    yield from _of_bridges(house, BRIDGE_FLOOR in listed_)


def _lacks(one: LineSet, links: Sequence[str], every: Sequence[Check]) -> bool:
    """True where there is no such row, or, of a link of each line, one for some lines only.

    A row of guides that are written waits for the balance, and is told of with that.
    """
    rows = [row for row in every if row.link in links]
    if "guides" in links and one.guides is not None:
        return False
    return not rows or (rows[0].link in ("sheave", "fleet angle") and len(rows) < len(one.lines.at))


def _pressed(house: RiggedHouse, computed: Set[str], order: dict[str, int]) -> Iterator[str]:
    """What lines that lean do besides what is computed of them."""
    lean = [one.label for one in house.battens if one.runs and one.label in computed]
    if lean:
        yield f"buckling up- or downstage of set{'s' * (len(lean) > 1)} {listed(lean, order)} (lines lean)"


def _way_up(house: RiggedHouse, computed: Set[str], order: dict[str, int]) -> Iterator[str]:
    """What is tipped up, bolted on, or leaves the deck bit by bit: a check judges a set where all of it hangs free."""
    found = [one.label for one in house.battens if one.label in computed and one.written.rigged != DEAD_HUNG
             and any(piece.clear > one.low + NEARLY for piece in one.pieces)]  # fmt: skip
    if found:
        yield (f"the way up of set{'s' * (len(found) > 1)} {listed(found, order)} until all hangs free (the steps "
               "judge it)")  # fmt: skip


def _over_blocks(one: LineSet, _loaded: bool) -> bool:
    return one.rigged != DEAD_HUNG


def _over_guides(one: LineSet, _loaded: bool) -> bool:
    return one.rigged == COUNTERWEIGHT


def _of_bridges(house: RiggedHouse, is_listed: bool) -> Iterator[str]:
    bare = [one.bridge for one in house.house.bridges if one.posting is None]
    if bare and not is_listed:
        yield f"the floor of {', '.join(bare)} (no posting is written)"
    if len(bare) < len(house.house.bridges):
        yield "heaps on a bridge"
