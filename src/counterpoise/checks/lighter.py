"""The most that one piece of a set may weigh where it hangs, found and verified by judging the set again."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from counterpoise.balance import stated_stack
from counterpoise.checks.limits import BALANCE, BATTEN, PARTS, rows_asked, rows_of_part, stack_of
from counterpoise.checks.link_rows import HEAD_BLOCK
from counterpoise.checks.rows import Check, Verdict
from counterpoise.checks.teeth import teeth_below
from counterpoise.loadpath import Forces, SteelPulls, Tipping, forces_of
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedPiece, RiggedSet
from counterpoise.units import Direction, Kind, Style, printed_as

LIGHTEST = 0.001  # [kg]; a piece that weighs nothing is none
CLOSE = 0.05  # [kg]; nearer than this a weight is not sought
ALL = "all"
STEPS = 40  # printed figures below the one that was found which are looked at: more than a brick
SHARES = (1 / 3, 2 / 3)  # of a weight, at which a promise "at most" is looked at besides
_Is = Callable[[Sequence[Check]], bool]
_Excess = Callable[[Sequence[Check]], float | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Promise:
    """A weight as it is printed [kg] that was judged to be within, and whether all that is less was too."""

    kg: float
    words: str
    holds_below: bool


@dataclass(slots=True)
class Lighter:
    """A set judged again with other weights of its pieces, or without one; each once."""

    house: RiggedHouse
    rigged: RiggedBatten
    pulls: Mapping[str, SteelPulls]
    rows: Sequence[Check]
    tried: dict[tuple[str, float, str], tuple[Check, ...]] = field(default_factory=dict)
    hung: dict[tuple[str, float], Forces | Tipping] = field(default_factory=dict)

    def most_for(self, key: str, piece: RiggedPiece) -> float | None:
        """The most it may weigh for one row to be within [kg], the others as they may be; None where nothing helps."""
        now = next(one for one in self.rows if one.key == key)

        def excess(rows: Sequence[Check]) -> float | None:
            row = next((one for one in rows if one.key == key), None)
            return None if row is None or row.limit is None else row.value.high - row.limit

        past = None if now.limit is None else now.value.high - now.limit
        return self._most(piece, lambda rows: is_met(rows, key), excess, past, part=part_of(now))

    def most_of_all(self, below: float, piece: RiggedPiece) -> float | None:
        """The most it may weigh, no more than `below`, for every row to be within; None where none is found."""
        if is_within(self.weighing(piece, below)):
            return below
        if not is_within(self.weighing(piece, LIGHTEST)):
            return None
        return self._most(piece, is_within, lambda _: None, None, below)

    def promise(
        self, piece: RiggedPiece, most: float, style: Style, fits: _Is | None = None, steps: int = STEPS
    ) -> Promise | None:
        """The greatest printed weight no more than `most` [kg] with which the set fits, and whether less does too.

        `steps` printed weights are looked at, from the greatest down. None where none fits; by default a set fits
        where every row is within.
        """
        fits = is_within if fits is None else fits
        found = self.printed(piece, most, style, fits, steps=steps)
        if found is None:
            return None
        kg, words = found
        below = all(fits(self.weighing(piece, less)) for less in (LIGHTEST, *(share * kg for share in SHARES)))
        part = ALL if self._may_head_block_be_met(piece, kg) else BALANCE
        return Promise(kg=kg, words=words, holds_below=below and self._holds_at_teeth(piece, kg, fits, part))

    def promise_for(self, row: Check, piece: RiggedPiece, kg: float, words: str) -> Promise:
        """A printed weight with which a row is met [kg], and whether it is with less."""
        part = part_of(row)
        below = all(is_met(self.weighing(piece, less, part), row.key)
                    for less in (LIGHTEST, *(share * kg for share in SHARES)))  # fmt: skip
        rests = row.formula in PARTS[BALANCE] or row.link in HEAD_BLOCK
        if below and rests:
            below = self._holds_at_teeth(piece, kg, lambda rows: is_met(rows, row.key), part)
        return Promise(kg=kg, words=words, holds_below=below)

    def printed(
        self, piece: RiggedPiece, most: float, style: Style, fits: _Is, part: str = ALL, steps: int = STEPS
    ) -> tuple[float, str] | None:
        """The greatest weight no more than `most` [kg] that fits as it is printed, and as it is printed."""
        form = printed_as(Kind.MASS, style, Direction.DOWN)
        first = form.steps(most)
        for count in range(first, max(0, first - steps), -1):
            kg = count * form.step / form.factor
            if fits(self.weighing(piece, kg, part)):
                return kg, form.print_steps(count)
        return None

    def governing(self, piece: RiggedPiece, kg: float) -> Check | None:
        """The row that stands nearest its limit at a weight."""
        known = [row for row in self.weighing(piece, kg) if row.limit]
        return max(known, key=lambda row: row.use, default=None)

    def weighing(self, piece: RiggedPiece, kg: float, part: str = ALL) -> tuple[Check, ...]:
        """The rows of one part of the set, or all, with a piece of that weight; none where it would tip."""
        if (piece.name, kg, part) not in self.tried:
            pieces = tuple(one.weighing(kg) if one is piece else one for one in self.rigged.pieces)
            changed = replace(self.rigged, pieces=pieces)

            def forces() -> Forces | Tipping:
                if (piece.name, kg) not in self.hung:
                    self.hung[piece.name, kg] = forces_of(changed)
                return self.hung[piece.name, kg]

            self.tried[piece.name, kg, part] = tuple(self._rows(changed, part, forces))
        return self.tried[piece.name, kg, part]

    def without(self, gone: Sequence[RiggedPiece], part: str = ALL) -> tuple[Check, ...]:
        """The rows with these pieces and their cable off."""
        names = {one.name for one in gone}
        changed = replace(self.rigged, pieces=tuple(one for one in self.rigged.pieces if one.name not in names),
                          cables=tuple(one for one in self.rigged.cables if one.name not in names))  # fmt: skip
        return tuple(self._rows(changed, part, lambda: forces_of(changed)))

    def _holds_at_teeth(self, piece: RiggedPiece, kg: float, fits: _Is, part: str) -> bool:
        """True where it fits on both sides of where the count of bricks changes below a weight."""
        if not isinstance(self.rigged, RiggedSet) or stated_stack(self.rigged) is not None:
            return True  # with a count that is stated nothing jumps
        return all(fits(self.weighing(piece, less, part)) for less in teeth_below(self.rigged, piece, kg))

    def _may_head_block_be_met(self, piece: RiggedPiece, kg: float) -> bool:
        """True where the hand line with as much as the lock may hold, by both its legs, may bring it to its limit."""
        rows = self.weighing(piece, kg)
        lock = next((row.limit for row in rows if row.link == "lock"), None)
        return any(row.limit is None or lock is None or row.value.high + 2.0 * lock > row.limit
                   for row in rows if row.link in HEAD_BLOCK)  # fmt: skip

    def _rows(self, changed: RiggedBatten, part: str, forces_now: Callable[[], Forces | Tipping]) -> Sequence[Check]:
        stack = stack_of(changed)[0] if isinstance(changed, RiggedSet) and part != BATTEN else None
        if part == BALANCE:
            return rows_of_part(self.house, changed, stack, None, part)
        forces = forces_now()
        if not isinstance(forces, Forces):
            return ()
        if part != ALL:
            return rows_of_part(self.house, changed, stack, forces, part)
        return rows_asked(self.house, changed, stack, forces, self.pulls)

    def _most(
        self, piece: RiggedPiece, fits: _Is, excess: _Excess, above: float | None, top: float | None = None,
        part: str = ALL,
    ) -> float | None:  # fmt: skip
        """Halved down, aimed by the straight line between two weights where there is a figure to aim by."""
        low, high = LIGHTEST, piece.mass[2] if top is None else top
        if not piece.mass[1] or not fits(self.weighing(piece, low, part)):
            return None
        aims = True
        while high - low > CLOSE:
            wide, middle = high - low, (low + high) / 2
            below = excess(self.weighing(piece, low, part))
            if aims and below is not None and above is not None and above > 0.0 > below:
                straight = low - below * wide / (above - below)
                middle = min(max(straight - CLOSE / 3, low + CLOSE / 4), high - CLOSE / 4)
            if not fits(self.weighing(piece, middle, part)):
                high, above = middle, excess(self.weighing(piece, middle, part))
            else:
                low, beyond = middle, middle + 2 * CLOSE / 3
                if aims and beyond < high and fits(self.weighing(piece, beyond, part)):
                    low = beyond
                elif aims and beyond < high:  # the limit lies just above
                    high, above = beyond, excess(self.weighing(piece, beyond, part))
            aims = high - low < wide / 2  # else halved, so that it always ends
        return low


def part_of(row: Check) -> str:
    """The part of a set that has a row, so that no more than that is judged again."""
    return next((part for part, formulas in PARTS.items() if row.formula in formulas), ALL)


def is_met(rows: Sequence[Check], key: str) -> bool:
    """True where the row is there and within; one that carries nothing any more is no row."""
    return bool(rows) and all(one.verdict is Verdict.WITHIN for one in rows if one.key == key)


def is_within(rows: Sequence[Check]) -> bool:
    """True where there are rows, and all are within."""
    return bool(rows) and all(row.verdict is Verdict.WITHIN for row in rows)
