"""What most sets of a schedule have alike, written once as a kind: the next missing figure is then written once too.

A set is of a kind only where it states each of its fields itself, alike or otherwise: nothing is given to a set that
its row does not say. Sets of one purchase alone share a kind, for what hangs on an arbor is another at double purchase.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from counterpoise.exchange import ScheduledSet, Value

_SHARED = ("purchase", "low trim", "high trim", "batten length", "batten pipe", "lines at", "line count",
           "arbor usable height", "pipe weight", "brick")  # fmt: skip
_FEWEST_SETS = 3
_FEWEST_FIELDS = 2  # besides the purchase, which alone makes no kind


@dataclass(frozen=True, slots=True, kw_only=True)
class UsualKind:
    """A kind, its values, and the rows of its sets. The place of a value says the first of its cells."""

    name: str
    values: Mapping[str, Value]
    rows: frozenset[int]

    def own(self, one: ScheduledSet) -> dict[str, Value]:
        """What one of its sets still writes itself."""
        return {name: value for name, value in one.values.items()
                if name not in self.values or _says(value) != _says(self.values[name])}  # fmt: skip


def usual_kinds(sets: Iterable[ScheduledSet]) -> tuple[UsualKind, ...]:
    """The kinds of a schedule, that of most sets first; none where its rows have too little alike."""
    groups: dict[str, list[ScheduledSet]] = {}
    for one in sets:
        if "rigged" not in one.values or one.values["rigged"].words == "counterweight":
            purchase = one.values["purchase"].words if "purchase" in one.values else ""
            groups.setdefault(purchase, []).append(one)
    found: list[UsualKind] = []
    for purchase, alike in sorted(groups.items(), key=lambda one: -len(one[1])):
        kind = _kind("usual" if not found else f"usual {purchase or 'of no purchase'}", alike)
        found += [kind] if kind is not None else []
    return tuple(found)


def _kind(name: str, sets: list[ScheduledSet]) -> UsualKind | None:
    shared = dict(_alike(sets))
    members = [one for one in sets if shared.keys() <= one.values.keys() and _mostly(one, shared)]
    if len(shared.keys() - {"purchase"}) < _FEWEST_FIELDS or len(members) < _FEWEST_SETS:
        return None
    values = {field: _first(field, value, members) for field, value in shared.items()}
    return UsualKind(name=name, values=values, rows=frozenset(one.row for one in members))


def _alike(sets: list[ScheduledSet]) -> Iterator[tuple[str, Value]]:
    """The fields that more than half of these sets say alike."""
    for field in _SHARED:
        said = [one.values[field] for one in sets if field in one.values]
        often = Counter(map(_says, said)).most_common(1)
        if often and often[0][1] >= _FEWEST_SETS and often[0][1] * 2 > len(sets):
            yield field, next(value for value in said if _says(value) == often[0][0])


def _mostly(one: ScheduledSet, shared: Mapping[str, Value]) -> bool:
    alike = sum(_says(one.values[field]) == _says(value) for field, value in shared.items())
    return alike * 2 > len(shared)


def _first(field: str, value: Value, members: list[ScheduledSet]) -> Value:
    """The value with the first of its cells and how many more say it."""
    places = [one.values[field].place for one in members if _says(one.values[field]) == _says(value)]
    more = f" and {len(places) - 1} more" if len(places) > 1 else ""
    return Value(value.words, f"{places[0]}{more}" if places and places[0] else "", value.words, value.si)


def _says(value: Value) -> tuple[str, bool]:
    """What it says, and whether the schedule says it or the user for every set."""
    return value.words, bool(value.place)
