"""Where the crew reaches the arbor: batten heights at which bricks can be changed, by place and by count.

The loader works on the top of the stack, so a window moves with every brick. Knows nothing of balance.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from counterpoise.balance import Stack, best_stack, stated_stack
from counterpoise.planning.holds import NEAR
from counterpoise.rigging import RiggedBridge, RiggedHouse, RiggedPiece, RiggedSet

_FOOT = 0.3048  # [m]: where the pull of a set changes along the way, whole feet above low trim are stops too
_INCH = 0.0254  # [m]: a window is entered at a whole inch where one lies in it


def places(house: RiggedHouse) -> tuple[RiggedBridge, ...]:
    """The bridges, then the rails at which bricks can be handled: those whose floor and reach are written."""
    rails = (
        RiggedBridge(name=one.rail, floor=one.floor.best, reach_low=one.floor.best + one.reach_from.best,
                     reach_high=one.floor.best + one.reach_to.best, most=None, people=0)
        for one in house.house.rails
        if one.floor is not None and one.reach_from is not None and one.reach_to is not None
        and one.floor.best is not None and one.reach_from.best is not None and one.reach_to.best is not None
    )  # fmt: skip
    known = {one.name for one in house.bridges}
    return (*house.bridges, *(one for one in rails if one.name not in known))


def stack_of(rigged: RiggedSet, count: int) -> Stack:
    """The stack of this many bricks, pipe weight's small ones left out of the count: large ones first.

    Where the wanted stack has small ones on top, they come after its large ones: they go on last and come off first.
    """
    own = rigged.small_pipe_bricks
    if rigged.small is None:
        return Stack(count, own)
    wanted = wanted_on(rigged)
    large = max(wanted.bricks, rigged.pipe_bricks)
    return Stack(large, own + count - large) if wanted.small > own and count > large else Stack(count, own)


def count_of(rigged: RiggedSet, stack: Stack) -> int:
    """The count for which `stack_of` gives this stack, or the nearest to it where none does."""
    return stack.bricks + max(0, stack.small - rigged.small_pipe_bricks)


def wanted_on(rigged: RiggedSet) -> Stack:
    """What the hang states, else what balances best over the flying range."""
    return stated_stack(rigged) or best_stack(rigged)


def windows_of(rigged: RiggedSet, place: RiggedBridge, most: int) -> dict[int, tuple[float, float]]:
    """For each count from pipe weight up the batten heights [m] at which the crew there puts one brick more on it.

    Counts are those of `stack_of`.

    Before that brick and after it the top of the stack lies within the reach; it comes off again at the same heights.
    Counts for which there is no such height are left out. Source: seat(h) = seat at low trim - (h - low)/r;
    docs/theory/steps.md.
    """
    counts = range(rigged.pipe_bricks, most + 1)
    tops = {count: rigged.seat_low + stack_of(rigged, count).height(rigged) for count in counts}
    found = {}
    for count in counts[:-1]:
        low = rigged.low + rigged.purchase * (tops[count + 1] - place.reach_high)
        high = rigged.low + rigged.purchase * (tops[count] - place.reach_low)
        if max(low, rigged.low) <= min(high, rigged.high) + NEAR:
            found[count] = max(low, rigged.low), min(high, rigged.high)
    return found


def tied_at(rigged: RiggedSet, piece: RiggedPiece) -> float:
    """Where a piece is tied on [m]: at low trim, or where one that stands upright and is taller stands on the deck."""
    upright = [part.clear for part in piece.parts if part.cloth is None and part.tipped is None]
    return max([rigged.low, *upright])


@dataclass(frozen=True, slots=True, kw_only=True)
class Join:
    """A section bolted on: what it is called, its piece, its number from the top, the batten height [m]."""

    name: str
    piece: str
    number: int
    height: float


def joins_of(rigged: RiggedSet) -> tuple[Join, ...]:
    """The sections that are bolted on as the wall rises, lowest height first; what joins at low trim hangs at once."""
    found = [Join(name=f"section {number} of {one.name}", piece=one.name, number=number, height=part.joins)
             for one in rigged.pieces for number, part in enumerate(one.parts, start=1)
             if part.joins > rigged.low + NEAR]  # fmt: skip
    return tuple(sorted(found, key=lambda one: one.height))


def hung_with(rigged: RiggedSet, hung: Iterable[str], names: Iterable[str]) -> tuple[str, ...]:
    """What hangs with these hung as well; all the lights of a piece and its rest are that piece."""
    now = [*hung, *names]
    for piece in rigged.pieces:
        units = piece.units if piece.lights else {}
        if units and set(units) <= set(now):
            at = min(now.index(name) for name in units)
            now = [*(name for name in now[:at] if name not in units), piece.name,
                   *(name for name in now[at:] if name not in units)]  # fmt: skip
    return tuple(now)


def hung_without(rigged: RiggedSet, hung: Iterable[str], names: Sequence[str]) -> tuple[str, ...]:
    """What hangs with these struck; a piece of which a light is struck is then its other lights and its rest."""
    left: list[str] = []
    for name in hung:
        piece = next((one for one in rigged.pieces if one.name == name and one.lights), None)
        units = tuple(piece.units) if piece is not None else ()
        left += [name] if not any(unit in names for unit in units) else units
    return tuple(name for name in left if name not in names)


def units_of(hung: Container[str], piece: RiggedPiece) -> tuple[str, ...]:
    """The lights and the rest of a piece that hang, each by its name; none where it has no lights."""
    return tuple(name for name in (piece.units if piece.lights else ()) if piece.name in hung or name in hung)


def hung_pieces(rigged: RiggedSet, hung: Container[str]) -> tuple[RiggedPiece, ...]:
    """The pieces of these names, each with the sections that are on: those not bolted on yet are left out."""
    off = {(one.piece, one.number) for one in joins_of(rigged) if one.name not in hung}
    found = (one if one.name in hung else one.with_units(hung) for one in rigged.pieces
             if one.name in hung or any(name in hung for name in (one.units if one.lights else ())))  # fmt: skip
    if not off:
        return tuple(found)
    return tuple(replace(one, parts=tuple(part for number, part in enumerate(one.parts, start=1)
                                          if (one.name, number) not in off)) for one in found)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """A stop that may be made on the way out [m], what hangs when it is left, and what of that is hung just there."""

    height: float
    hung: tuple[str, ...]
    hang: tuple[str, ...] = ()

    @property
    def is_event(self) -> bool:
        """True where a piece is hung or a section bolted on."""
        return bool(self.hang)


def stations_of(
    rigged: RiggedSet, windows: Iterable[Mapping[int, tuple[float, float]]], goal: float
) -> tuple[Station, ...]:
    """The stops worth trying from low trim up: before and after each event, the goal, and where each window opens.

    Between two changes of its pull a set without lift-line weight, cloth or cable weighs the same everywhere, so the
    lowest height of each window there is as good as any: the search over these stops is then exact. Where the pull
    runs, whole feet within the windows are added.
    """
    ties: dict[float, list[str]] = {rigged.low: []}
    for one in rigged.pieces:
        ties.setdefault(tied_at(rigged, one), []).append(one.name)
    for each in joins_of(rigged):
        ties.setdefault(each.height, []).append(each.name)
    heights = sorted({goal, *_openings(rigged, windows, goal)} | set(ties))
    found: list[Station] = []
    hung: tuple[str, ...] = ()
    for height in _apart([at for at in heights if rigged.low - NEAR <= at <= rigged.high + NEAR]):
        hang = tuple(name for at, names in ties.items() if abs(at - height) <= 4 * NEAR for name in names)
        found.append(Station(height=height, hung=hung))
        if hang:
            hung = (*hung, *hang)
            found.append(Station(height=height, hung=hung, hang=hang))
    return tuple(found)


def _apart(heights: Sequence[float]) -> Iterator[float]:
    last = -math.inf
    for height in heights:
        if height - last > 4 * NEAR:
            yield height
            last = height


def _openings(rigged: RiggedSet, windows: Iterable[Mapping[int, tuple[float, float]]], goal: float) -> Iterator[float]:
    edges = sorted({rigged.low, rigged.high, *(tied_at(rigged, one) for one in rigged.pieces),
                    *(at for one in rigged.pieces for at in one.changes if rigged.low < at < rigged.high)})  # fmt: skip
    runs = rigged.line_mass > 0.0 or bool(rigged.cables) or any(one.off_the_floor for one in rigged.pieces)
    for each in windows:
        single = list(each.values())
        whole = max((low for low, _ in single), default=0.0), min((high for _, high in single), default=0.0)
        for start, end in itertools.pairwise(edges):
            last = end - 4 * NEAR if end < rigged.high else end
            if single and max(start, whole[0]) <= min(last, whole[1]):
                yield _on_the_inch(max(start, whole[0]), min(last, whole[1]))
                continue
            yield from (_on_the_inch(max(start, low), min(last, high)) for low, high in single
                        if max(start, low) <= min(last, high))  # fmt: skip
        if runs:
            feet = range(math.floor((max(goal, rigged.low) - rigged.low) / _FOOT) + 1)
            at = (rigged.low + count * _FOOT for count in feet)
            yield from (height for height in at if any(low <= height <= high for low, high in single))


def _on_the_inch(low: float, high: float) -> float:
    """The first whole inch of a window, or its low end where none lies in it: not at the very edge of a reach."""
    inch = math.ceil(low / _INCH - 1e-6) * _INCH
    return inch if low <= inch <= high else low
