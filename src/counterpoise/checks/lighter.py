"""The most that the heaviest piece of a set may weigh where it hangs, found and verified by judging the set again."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from counterpoise.checks.limits import BALANCE, BATTEN, PARTS, rows_asked, rows_of_part, stack_of
from counterpoise.checks.rows import Check, Verdict
from counterpoise.loadpath import Forces, SteelPulls, forces_of
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedPiece, RiggedSet

LIGHTEST = 0.001  # [kg]; a piece that weighs nothing is none
CLOSE = 0.05  # [kg]; nearer than this a weight is not sought
ALL = "all"
_Is = Callable[[Sequence[Check]], bool]
_Excess = Callable[[Sequence[Check]], float | None]


@dataclass(slots=True)
class Lighter:
    """A set judged again with other weights of its heaviest piece; each weight once."""

    house: RiggedHouse
    rigged: RiggedBatten
    pulls: Mapping[str, SteelPulls]
    rows: Sequence[Check]
    tried: dict[tuple[float, str], tuple[Check, ...]] = field(default_factory=dict)

    @property
    def piece(self) -> RiggedPiece:
        """The heaviest."""
        return max(self.rigged.pieces, key=lambda one: one.mass[1])

    def most_for(self, key: str) -> float | None:
        """The most it may weigh for one row to be within [kg], the others as they may be; None where nothing helps."""
        now = next(one for one in self.rows if one.key == key)

        def excess(rows: Sequence[Check]) -> float | None:
            row = next((one for one in rows if one.key == key), None)
            return None if row is None or row.limit is None else row.value.high - row.limit

        past = None if now.limit is None else now.value.high - now.limit
        return self._most(lambda rows: _is_met(rows, key), excess, past, part=part_of(now))

    def most_of_all(self, below: float) -> float | None:
        """The most it may weigh, no more than `below`, for every row to be within; None where none is found."""
        if _is_within(self._at(below)):
            return below
        return self._most(_is_within, lambda _: None, None, below) if _is_within(self._at(LIGHTEST)) else None

    def governing(self, kg: float) -> Check | None:
        """The row that stands nearest its limit at a weight."""
        known = [row for row in self._at(kg) if row.limit]
        return max(known, key=lambda row: row.use, default=None)

    def _at(self, kg: float, part: str = ALL) -> tuple[Check, ...]:
        """The rows of one part of the set, or all, with its heaviest piece of that weight; none where it would tip."""
        if (kg, part) not in self.tried:
            pieces = tuple(one.weighing(kg) if one is self.piece else one for one in self.rigged.pieces)
            changed = replace(self.rigged, pieces=pieces)
            self.tried[kg, part] = tuple(self._rows(changed, part))
        return self.tried[kg, part]

    def _rows(self, changed: RiggedBatten, part: str) -> Sequence[Check]:
        stack = stack_of(changed)[0] if isinstance(changed, RiggedSet) and part != BATTEN else None
        if part == BALANCE:
            return rows_of_part(self.house, changed, stack, None, part)
        forces = forces_of(changed)
        if not isinstance(forces, Forces):
            return ()
        if part != ALL:
            return rows_of_part(self.house, changed, stack, forces, part)
        return rows_asked(self.house, changed, stack, forces, self.pulls)

    def _most(
        self, fits: _Is, excess: _Excess, above: float | None, top: float | None = None, part: str = ALL
    ) -> float | None:
        """Halved down, aimed by the straight line between two weights where there is a figure to aim by."""
        low, high = LIGHTEST, self.piece.mass[2] if top is None else top
        if not fits(self._at(low, part)):
            return None
        aims = True
        while high - low > CLOSE:
            wide, middle = high - low, (low + high) / 2
            below = excess(self._at(low, part))
            if aims and below is not None and above is not None and above > 0.0 > below:
                straight = low - below * wide / (above - below)
                middle = min(max(straight - CLOSE / 3, low + CLOSE / 4), high - CLOSE / 4)
            if not fits(self._at(middle, part)):
                high, above = middle, excess(self._at(middle, part))
            else:
                low, beyond = middle, middle + 2 * CLOSE / 3
                if aims and beyond < high and fits(self._at(beyond, part)):
                    low = beyond
                elif aims and beyond < high:  # the limit lies just above
                    high, above = beyond, excess(self._at(beyond, part))
            aims = high - low < wide / 2  # else halved, so that it always ends
        return low


def part_of(row: Check) -> str:
    """The part of a set that has a row, so that no more than that is judged again."""
    return next((part for part, formulas in PARTS.items() if row.formula in formulas), ALL)


def _is_met(rows: Sequence[Check], key: str) -> bool:
    """True where the row is there and within; one that carries nothing any more is no row."""
    return bool(rows) and all(one.verdict is Verdict.WITHIN for one in rows if one.key == key)


def _is_within(rows: Sequence[Check]) -> bool:
    return bool(rows) and all(row.verdict is Verdict.WITHIN for row in rows)
