"""What is felt of one set at any height and count, asked once for all counts; and whether lock and stops hold it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from counterpoise.balance import Stack, out_of_balance
from counterpoise.planning.holds import NEAR, Pull, heights_between, lock_limit, standing, stands_on_deck
from counterpoise.planning.windows import Station, hung_pieces, stack_of
from counterpoise.rigging import RiggedHouse, RiggedPiece, RiggedSet

_ROUNDING = 1e-6  # [N]


@dataclass(frozen=True, slots=True)
class Hop:
    """From one stop to the next with one count: the most either side is heavy, and whether lock and stops hold it."""

    arbor: Pull
    batten: Pull
    is_within: bool

    @property
    def peak(self) -> float:
        """The larger of the two [N]."""
        return max(self.arbor.arbor, self.batten.batten)

    @property
    def beyond(self) -> float:
        """The larger of the two where that is not held [N], else 0."""
        return 0.0 if self.is_within else self.peak

    def then(self, other: Hop) -> Hop:
        """Both, one after the other."""
        arbor = other.arbor if other.arbor.arbor > self.arbor.arbor + NEAR else self.arbor
        batten = other.batten if other.batten.batten > self.batten.batten + NEAR else self.batten
        return Hop(arbor, batten, self.is_within and other.is_within)


class Felt:
    """One set. What is on the batten is asked once for each height, and what each count adds once for all heights."""

    def __init__(self, house: RiggedHouse, rigged: RiggedSet) -> None:
        self.house, self.rigged = house, rigged
        self._limit = lock_limit(house, rigged)
        self._base: dict[tuple[float, tuple[str, ...]], tuple[float, float]] = {}
        self._gains: dict[int, tuple[float, float]] = {}
        self._on: dict[tuple[str, ...], tuple[RiggedPiece, ...]] = {}

    def pull(self, bricks: int, height: float, hung: tuple[str, ...]) -> Pull:
        """As `holds.pull`, with these pieces on."""
        key = height, hung
        if key not in self._base:
            pieces = self._pieces(hung)
            aloft = tuple(one for one in pieces if not stands_on_deck(one, self.rigged, height))
            self._base[key] = (out_of_balance(self.rigged, Stack(0), height, pieces).high,
                               out_of_balance(self.rigged, Stack(0), height, aloft).low)  # fmt: skip
        high, low = self._base[key]
        more_high, more_low = self._gained(bricks)
        return Pull(max(0.0, high + more_high), max(0.0, -(low + more_low)), height)

    def over(self, bricks: int, start: float, end: float, hung: tuple[str, ...]) -> Iterator[Pull]:
        """As `holds.pulls_over`, in the order of the move."""
        heights = heights_between(start, end, self._pieces(hung), self.rigged.cables)
        for height in heights if start <= end else reversed(heights):
            yield self.pull(bricks, height, hung)

    def is_held(self, one: Pull) -> bool:
        """True where the lock alone holds it either way."""
        return one.arbor <= self._limit[0] + _ROUNDING and one.batten <= self._limit[1] + _ROUNDING

    def stands(self, bricks: int, height: float, hung: tuple[str, ...]) -> bool:
        """True where lock and stops hold it as it stands. A stop of unknown rating is the replay's to refuse."""
        felt = self.pull(bricks, height, hung)
        if self.is_held(felt):
            return True
        if abs(height - self.rigged.low) > NEAR and abs(height - self.rigged.high) > NEAR:
            return False
        found = standing(self.house, self.rigged, stack_of(self.rigged, bricks), height, self._pieces(hung))
        return found.over == 0 or found.is_unknown

    def moved(self, bricks: int, start: float, end: float, hung: tuple[str, ...]) -> Hop:
        """A move, judged as if no stop existed."""
        found = [Hop(one, one, self.is_held(one)) for one in self.over(bricks, start, end, hung)]
        whole = found[0]
        for one in found[1:]:
            whole = whole.then(one)
        return whole

    def between(self, before: Station, here: Station, bricks: int) -> Hop:
        """From one stop to the next: a move, or something hung or bolted on while it stands."""
        if not here.is_event:
            return self.moved(bricks, before.height, here.height, here.hung)
        return self._stood(bricks, before).then(self._stood(bricks, here))

    def _stood(self, bricks: int, here: Station) -> Hop:
        felt = self.pull(bricks, here.height, here.hung)
        return Hop(felt, felt, self.stands(bricks, here.height, here.hung))

    def _pieces(self, hung: tuple[str, ...]) -> tuple[RiggedPiece, ...]:
        if hung not in self._on:
            self._on[hung] = hung_pieces(self.rigged, hung)
        return self._on[hung]

    def _gained(self, bricks: int) -> tuple[float, float]:
        if bricks not in self._gains:
            none, some = (out_of_balance(self.rigged, stack, self.rigged.low, ())
                          for stack in (Stack(0), stack_of(self.rigged, bricks)))  # fmt: skip
            self._gains[bricks] = some.high - none.high, some.low - none.low
        return self._gains[bricks]
