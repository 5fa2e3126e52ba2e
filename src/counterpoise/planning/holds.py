"""What pulls on a set as it stands or moves, and what holds it: stops, lock, and the deck under a standing piece.

Rule 1: standing on a stop and being set free are judged apart. Rule 2: heavier and lighter than told are both judged.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from counterpoise.balance import Stack, out_of_balance
from counterpoise.documents import Known
from counterpoise.rigging import RiggedCable, RiggedHouse, RiggedPiece, RiggedSet, least

NEAR = 1e-6  # [m]: two heights that differ by less are one height
_ROUNDING = 1e-6  # [N]: noise of floats, far below anything a scale shows


@dataclass(frozen=True, slots=True)
class Pull:
    """How heavy either side may be at one height [N], felt at the batten and 0 or more."""

    arbor: float
    batten: float
    height: float

    @property
    def worst(self) -> float:
        """The larger of the two."""
        return max(self.arbor, self.batten)


def stands_on_deck(piece: RiggedPiece, rigged: RiggedSet, height: float) -> bool:
    """True where the batten is just as high as a piece that is too tall for low trim, so that the deck carries it.

    With taut ties such a piece puts on the batten what the arbor asks for, from nothing to all of itself.
    """
    upright = all(part.tipped is None for part in piece.parts)  # tipped up, it puts its share on whatever is asked
    return upright and not piece.off_the_floor and piece.clear > rigged.low + NEAR and abs(height - piece.clear) <= NEAR


def pull(rigged: RiggedSet, stack: Stack, height: float, pieces: tuple[RiggedPiece, ...]) -> Pull:
    """How heavy either side may be, with the weights and bricks anywhere within what is known of them.

    A piece that stands on the deck with taut ties is lifted before the set is arbor-heavy, and let down before it is
    batten-heavy. Below its own height it is anywhere between nothing and all of its weight.
    """
    arbor = out_of_balance(rigged, stack, height, pieces).high
    aloft = tuple(one for one in pieces if not stands_on_deck(one, rigged, height))
    batten = -out_of_balance(rigged, stack, height, aloft).low
    return Pull(max(0.0, arbor), max(0.0, batten), height)


def heights_between(
    start: float, end: float, pieces: Iterable[RiggedPiece], cables: Iterable[RiggedCable] = ()
) -> tuple[float, ...]:
    """The heights at which the out of balance may be worst between two: both ends, and where a piece leaves the deck.

    Between them it is a straight line. A tall piece lets go all at once, so just below and just above its height are
    asked as well: at its height it stands on the deck, an inch above all of it hangs.
    """
    low, high = min(start, end), max(start, end)
    changes = {change for one in pieces for change in one.changes} | {at for one in cables for at in one.changes}
    kinks = {at for at in changes if low < at < high + NEAR}
    below = {each - 2 * NEAR for each in kinks if each - 2 * NEAR > low}
    above = {at + 2 * NEAR for at in changes if low - NEAR <= at < high - 2 * NEAR}
    return tuple(sorted({low, high, *(each for each in kinks if each < high), *below, *above}))


def pulls_over(
    rigged: RiggedSet, stack: Stack, start: float, end: float, pieces: tuple[RiggedPiece, ...]
) -> tuple[Pull, ...]:
    """How heavy either side may be at each height that matters from one to another, as if there were no stop."""
    return tuple(pull(rigged, stack, height, pieces) for height in heights_between(start, end, pieces, rigged.cables))


def lock_limit(house: RiggedHouse, rigged: RiggedSet) -> tuple[float, float]:
    """How arbor-heavy and how batten-heavy the set may be on its lock alone [N at the batten].

    Arbor-heavy: the lock, or the hand line where its rating is less and known. Batten-heavy: that, or half the tension
    block's hold-down where that is less and known. Each no more than an inspection left it to carry. A second hold has
    no rating in the house and adds nothing.
    """
    own, line, block = rigged.written.lock.hold, rigged.written.hand_line.rating, rigged.written.tension_block
    lock = house.rules["lock hold"].value if own is None else least(own, house.rules) or 0.0  # unknown holds nothing
    pulled = None if line is None else least(line, house.rules)
    lock = min(lock, math.inf if pulled is None else pulled, as_found(house, rigged, "lock"),
               as_found(house, rigged, "hand line"))  # fmt: skip
    counted = None if block is None else least(block, house.rules)
    down = min(lock, (math.inf if counted is None else counted) / 2, as_found(house, rigged, "tension block") / 2)
    return lock / rigged.hand_line_ratio, down / rigged.hand_line_ratio


def as_found(house: RiggedHouse, rigged: RiggedSet, part: str) -> float:
    """What inspections leave a part to carry [N]: all where none found anything, nothing where they do not say."""
    left = math.inf
    for one in rigged.written.condition:
        if one.part == part:
            left = min(left, (None if one.carries is None else least(one.carries, house.rules)) or 0.0)
    return left


def within_lock(house: RiggedHouse, rigged: RiggedSet, one: Pull) -> bool:
    """True where the lock alone holds it either way."""
    arbor, batten = lock_limit(house, rigged)
    return one.arbor <= arbor + _ROUNDING and one.batten <= batten + _ROUNDING


@dataclass(frozen=True, slots=True)
class Standing:
    """How a set stands: by the lock, by a stop, or not at all.

    `by` is "lock", "top stop" or "bottom stop". `over` is how much is too much [N at the batten], 0 where it stands,
    infinite where the stop's rating is unknown. `force` is what goes into the stop [N], 0 on the lock.
    """

    pull: Pull
    by: str
    over: float
    force: float = 0.0

    @property
    def is_unknown(self) -> bool:
        """True where it would rest on a stop of unknown rating."""
        return math.isinf(self.over)


def standing(
    house: RiggedHouse, rigged: RiggedSet, stack: Stack, height: float, pieces: tuple[RiggedPiece, ...]
) -> Standing:
    """What holds a locked set as it stands, and by how much it is too much.

    What the lock alone would hold counts as held by it, stop or no stop. On its top stop the arbor holds batten-heavy,
    on its bottom stop arbor-heavy, with r times the out of balance into the stop; the other way there is the lock only.
    """
    felt = pull(rigged, stack, height, pieces)
    arbor, batten = lock_limit(house, rigged)
    over_arbor, over_batten = felt.arbor - arbor, felt.batten - batten
    if max(over_arbor, over_batten) <= _ROUNDING:
        return Standing(felt, "lock", 0.0)
    stops = rigged.written.stops
    if abs(height - rigged.low) <= NEAR and over_arbor <= _ROUNDING and stops.top is not None:
        return _on_stop(house, rigged, felt, "top stop", stops.top, felt.batten)
    if abs(height - rigged.high) <= NEAR and over_batten <= _ROUNDING and stops.bottom is not None:
        return _on_stop(house, rigged, felt, "bottom stop", stops.bottom, felt.arbor)
    return Standing(felt, "lock", max(over_arbor, over_batten))


def _on_stop(house: RiggedHouse, rigged: RiggedSet, felt: Pull, name: str, rating: Known, heavy: float) -> Standing:
    force = rigged.purchase * heavy
    counted, found = least(rating, house.rules), as_found(house, rigged, name)
    if counted is not None or found < math.inf:
        counted = min(math.inf if counted is None else counted, found)
    if counted is None:
        listed = any(one.covers(name, rigged.label) for one in house.not_checked)
        return Standing(felt, name, 0.0 if listed else math.inf, force)
    over = (force - counted) / rigged.purchase
    return Standing(felt, name, over if over > _ROUNDING else 0.0, force)
