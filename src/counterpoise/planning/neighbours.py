"""Which set must be worked before its neighbour, because the piece of one cannot pass that of the other.

A piece is taken for a box: as thick as is written, as high as it is, across the whole stage. Bare battens, battens'
own thickness, swing and what lies beside each other along the battens are not looked at, and the call says so.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from counterpoise.planning.search import goal_height
from counterpoise.planning.space import Space, taken_up
from counterpoise.rigging import RiggedSet


@dataclass(frozen=True, slots=True, kw_only=True)
class Passage:
    """What a set takes up while it is worked, and before and after it."""

    set: str
    before: tuple[Space, ...] = ()
    on_the_way: tuple[Space, ...] = ()
    after: tuple[Space, ...] = ()


def hanging(rigged: RiggedSet, height: float | None = None) -> tuple[Space, ...]:
    """Its pieces at a batten height [m], at the end of its load-in by default; of unknown thickness none."""
    at = goal_height(rigged) if height is None else height
    return tuple(taken_up(rigged, rigged.pieces, at, at))


def passing(rigged: RiggedSet, heights: Iterable[float]) -> tuple[Space, ...]:
    """All that its pieces pass through between the lowest and the highest of the batten heights it is worked at [m]."""
    known = (rigged.low, *heights)
    return tuple(taken_up(rigged, rigged.pieces, min(known), max(known)))


def before_whom(passages: Sequence[Passage]) -> tuple[Mapping[int, frozenset[int]], tuple[tuple[int, int], ...]]:
    """For each set those that must be worked before it; and the pairs that foul whichever is worked first."""
    after: dict[int, set[int]] = {at: set() for at in range(len(passages))}
    either: list[tuple[int, int]] = []
    for i, one in enumerate(passages):
        for j in range(i + 1, len(passages)):
            other = passages[j]
            first, second = _is_fouled(one, other), _is_fouled(other, one)
            if first and second:
                either.append((i, j))
            elif first:
                after[i].add(j)
            elif second:
                after[j].add(i)
    return {at: frozenset(found) for at, found in after.items()}, tuple(either)


def _is_fouled(first: Passage, second: Passage) -> bool:
    """True where it fouls if the first is worked while the other stands as before, and the second after it."""
    return (any(a.fouls(b) for a in first.on_the_way for b in second.before)
            or any(a.fouls(b) for a in second.on_the_way for b in first.after))  # fmt: skip
