"""Sets whose hand lines are married: moved together, one voice, so that for balance and steps they are as one set.

What each of them carries of a shared piece is not known all the same: with one of them fouled it may be all of it. So
nothing here adds a rating: of every part that holds them the weakest one counts, as if it were alone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from counterpoise.documents import Hang, House, Hung, Known, LineSet, Piece
from counterpoise.rigging.arbor import arbor_of
from counterpoise.rigging.bricks import BrickKind
from counterpoise.rigging.build import batten_of
from counterpoise.rigging.rules import Rule, least
from counterpoise.rigging.sets import RiggedSet

_SAME = 1e-6  # [m, kg]

# What must be alike, or the crew cannot put the same count on each arbor from the same place.
_ALIKE: Mapping[str, str] = {
    "purchase": "purchase", "low": "low trim", "high": "high trim", "loft": "loft blocks", "seat_low": "arbor seat",
    "usable_height": "usable height", "plate_thickness": "plate thickness", "plate_mass": "plate weight",
    "layer": "bricks in a layer", "captive_plates": "captive plates", "hand_line_ratio": "hand line",
    "pipe_bricks": "pipe weight", "small_pipe_bricks": "small pipe weight",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Married:
    """Sets that are moved as one: their labels, and the one they are, or why they cannot be taken for one."""

    labels: tuple[str, ...]
    one: RiggedSet | None
    why: str = ""

    @property
    def label(self) -> str:
        """What they are called together: "14+15"."""
        return "+".join(self.labels)


def married_sets(
    sets: Sequence[LineSet], house: House, hang: Hang, bricks: Mapping[str, BrickKind], rules: Mapping[str, Rule],
    hung: Sequence[tuple[Hung, Piece]],
) -> Married:  # fmt: skip
    """Sets of which no figure is lacking as the one they are; all that hangs on any of them hangs on the first."""
    labels = tuple(one.label for one in sets)
    each = []
    for number, one in enumerate(sets):
        batten = batten_of(one, house, rules, hung if number == 0 else ())
        each.append(arbor_of(batten, one, house, hang, bricks, rules))
    differs = next(_differences(each), "")
    if differs:
        why = f"the {differs} of sets {' and '.join(labels)} is not alike, so that no count is the same on each"
        return Married(labels=labels, one=None, why=why)
    stated = {(one.stated_bricks, one.stated_small) for one in each if one.stated_bricks is not None}
    if len(stated) > 1:
        why = f"the hang states other counts for sets {' and '.join(labels)}"
        return Married(labels=labels, one=None, why=why)
    found = _as_one(each, rules)
    if stated:
        count, small = next(iter(stated))
        found = replace(found, stated_bricks=count, stated_small=small)
    return Married(labels=labels, one=found)


def _differences(each: Sequence[RiggedSet]) -> Iterator[str]:
    first = each[0]
    for one in each[1:]:
        for name, words in _ALIKE.items():
            if abs(getattr(one, name) - getattr(first, name)) > _SAME:
                yield words
        if one.brick.name != first.brick.name or (one.small and one.small.name) != (first.small and first.small.name):
            yield "brick"
        if one.out_of_service or first.out_of_service:
            yield "service"


def _as_one(each: Sequence[RiggedSet], rules: Mapping[str, Rule]) -> RiggedSet:
    """Their weights together, on the places of the first; arbors abreast take bricks by turns."""
    first, rest = each[0], each[1:]
    count = len(each)
    fixed = [attached.mass for one in rest for attached in one.fixed]
    lines = sum(len(one.lines) * one.line_mass for one in each)
    return replace(
        first, label="+".join(one.label for one in each), arbors=tuple(one.label for one in each),
        made=replace(first.made, mass=sum(one.made.mass for one in each)), line_mass=lines / len(first.lines),
        hardware_mass=sum(one.hardware_mass for one in each) + sum(best for _, best, _ in fixed),
        hardware_doubt=sum(one.hardware_doubt for one in each) + sum(high - best for _, best, high in fixed),
        pipe_doubt=sum(one.pipe_doubt for one in each), arbor_mass=sum(one.arbor_mass for one in each),
        arbor_doubt=sum(one.arbor_doubt for one in each), plate_mass=first.plate_mass * count,
        brick=_abreast(first.brick, count), small=_abreast(first.small, count) if first.small else None,
        written=_weakest([one.written for one in each], rules), twins=(),
    )  # fmt: skip


def _abreast(kind: BrickKind, count: int) -> BrickKind:
    """One brick on each arbor as one: what lies loose is as many of these as there are whole rounds."""
    stock = {place: there // count for place, there in kind.stock.items()}
    return replace(kind, mass=kind.mass * count, spread=kind.spread * count, stock=stock)


def _weakest(each: Sequence[LineSet], rules: Mapping[str, Rule]) -> LineSet:
    """The first set with the weakest of every part that may have to hold all of them, and what was found on any."""

    def of(part: Callable[[LineSet], Known | None]) -> Known | None:
        return _least_of([part(one) for one in each], rules)

    first = each[0]
    stops = replace(first.stops, top=of(lambda one: one.stops.top), bottom=of(lambda one: one.stops.bottom))
    own = [one.lock.hold for one in each if one.lock.hold is not None]
    held = rules["lock hold"].value
    by_rule = len(own) < len(each) and all((least(one, rules) or 0.0) >= held for one in own)
    ratings = [one.hand_line.rating for one in each if one.hand_line.rating is not None]
    return replace(
        first, set_="+".join(one.label for one in each), stops=stops, tension_block=of(lambda one: one.tension_block),
        lock=replace(first.lock, hold=None if by_rule or not own else _least_of(own, rules)),
        hand_line=replace(first.hand_line, rating=_least_of(ratings, rules) if ratings else None),
        condition=tuple(found for one in each for found in one.condition), twin_of="",
    )  # fmt: skip


def _least_of(parts: Iterable[Known | None], rules: Mapping[str, Rule]) -> Known | None:
    """None where one of them has no such part; else the one that may be counted on least, an unknown before any."""
    found = list(parts)
    if any(one is None for one in found):
        return None
    known = [one for one in found if one is not None]
    return min(known, key=lambda one: -1.0 if (counted := least(one, rules)) is None else counted)
