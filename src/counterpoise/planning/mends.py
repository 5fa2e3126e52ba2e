"""The smallest change that clears a set which is over: each is tried out by the full engine before it is told.

Nothing is moved here; a person reads what would clear it and decides.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from counterpoise.checks import (
    Change,
    Check,
    HouseResult,
    Lighter,
    SetResult,
    Verdict,
    balances_at,
    hung_on,
    judge_changed,
    neighbours_of,
    other_count,
    rests_on_count,
)
from counterpoise.documents import COUNTERWEIGHT, IN_SECTIONS, Hung, Known, Piece
from counterpoise.planning.pick_room import has_room, kept_off
from counterpoise.rigging import RiggedBatten, RiggedSet
from counterpoise.units import METRES_PER_FOOT, Form, Style, length

NEAREST_SETS = 8  # other sets that are tried, the nearest first
MOST_PIECES = 6  # of a set, the heaviest, that are made lighter
HALF_FOOT = 0.5 * METRES_PER_FOOT
NO_WORSE = 1e-6  # of a load that was over before
_Hung = tuple[Hung, Piece]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mend:
    """A change that clears what is over: in words, and what of the set's verdict is left then."""

    kind: str  # "bricks", "less weight", "move", "two picks", "other set"
    says: str
    verdict: Verdict  # of the set, and of the one a piece goes to, the worst


def mends_of(result: HouseResult, label: str) -> tuple[Mend, ...]:
    """At most one change of each kind, the smallest found; none where nothing tried clears it.

    Args:
        result: the whole hang.
        label: of a set that is over.

    Tried are: another count of bricks; less weight of each piece; each piece moved along the batten by half feet; a
    single pick spread over two; each piece on another set that is empty, where it hangs at the same place. Where the
    hang states a count that a change leaves wrong, it is tried with the count that balances the rest. No pick is put
    nearer to an end or a splice than a clamp is wide. A change clears
    it where nothing of the set is over any more, nothing of the set a piece goes to, and elsewhere nothing that was
    not before, or more than it was: twins and sets on the same steel are judged with it. Unproven states count as not
    clear.
    """
    one = result.set_called(label)
    if one is None or one.verdict is not Verdict.OVER or one.batten is None or not one.batten.pieces:
        return ()
    tries = _Tries(result, one)
    found = (tries.bricks, _lighter(tries), _moved(tries), _on_two_picks(tries), _elsewhere(tries))
    return tuple(each for each in found if each is not None)


@dataclass(frozen=True)
class _Tries:
    """A set that is over, and what changes of it come to."""

    result: HouseResult
    one: SetResult

    @cached_property
    def hung(self) -> tuple[_Hung, ...]:
        """What it carries, of twins on whichever of them it hangs."""
        return hung_on(self.result, self.one.label)

    @cached_property
    def bricks(self) -> Mend | None:
        """Another count alone, the one that balances it best."""
        one = self.one
        stack = None if one.rigged is None else \
            other_count(self.result.house, one.rigged, neighbours_of(self.result, one.label))  # fmt: skip
        found = None if stack is None else self.verdict_of(Change(stated={one.label: stack}))
        if one.rigged is None or stack is None or found is None:
            return None
        at = balances_at(one.rigged, stack)
        where = "" if at is None else f"; it then balances with the batten at {length(at, self.style)}"
        return Mend(kind="bricks", says=f"Have {stack.said} bricks on{where}.", verdict=found)

    @property
    def batten(self) -> RiggedBatten:
        """As it is rigged."""
        assert self.one.batten is not None  # the caller looked
        return self.one.batten

    @property
    def half(self) -> float:
        """Half of its batten [m]."""
        return self.batten.beam.length / 2

    @property
    def style(self) -> Style:
        """The units of the house."""
        return Style("metric" if self.result.house.units == "metric" else "us")

    def with_piece(self, index: int, where: Hung, piece: Piece) -> dict[str, Sequence[_Hung]]:
        """What hangs on the sets concerned with one piece hung otherwise."""
        home = self.hung[index][0].label
        changed = [(where, piece) if at == index else each for at, each in enumerate(self.hung)]
        labels = {home, where.label}
        return {label: [each for each in changed if each[0].label == label] for label in labels}

    def mend(self, kind: str, says: str, hung: Mapping[str, Sequence[_Hung]], to: str = "") -> Mend | None:
        """The change as a mend, where it clears the set with the count as it is, or with the one that balances it."""
        found = self.verdict_of(Change(hung=hung), to)
        if found is not None:
            return Mend(kind=kind, says=f"{says}.", verdict=found)
        label = self.one.label
        is_stated = label in self.result.house.hang.stated_bricks
        if not is_stated or self.bricks is not None or not self._is_by_count(hung):
            return None
        anew = Change(hung=hung, stated={label: None})
        stack = judge_changed(self.result, anew, beside=False).sets[label].stack
        found = None if stack is None else self.verdict_of(replace(anew, stated={label: stack}), to)
        if found is None or stack is None:
            return None
        return Mend(kind=kind, says=f"{says}, with {stack.said} bricks on set {label}.", verdict=found)

    def verdict_of(self, change: Change, to: str = "") -> Verdict | None:
        """What is left of the set's verdict; None where the change does not clear it, or puts over something else."""
        first = judge_changed(self.result, change, beside=False)
        own, there = first.sets[self.one.label], first.sets.get(to)
        judged = [own, *([there] if there is not None else [])]
        if any(each.verdict is Verdict.OVER or not each.rows for each in judged):
            return None
        others = [each for each in first.sets.values() if each not in judged]
        if any(not self._is_no_worse(each) for each in others):
            return None
        beside = judge_changed(self.result, change).beside
        if _worse(beside, [row for each in self.result.sets for row in each.rows]):
            return None
        return max((each.verdict for each in judged), key=_badness)

    def _is_no_worse(self, each: SetResult) -> bool:
        """True of a set that a change touches besides, where nothing of it is over that was not."""
        was = self.result.set_called(each.label)
        if was is None or (was.rows and not each.rows and each.verdict is Verdict.OVER):
            return False
        return not _worse(each.rows, was.rows)

    def _is_by_count(self, hung: Mapping[str, Sequence[_Hung]]) -> bool:
        """True where all that is left over of the set rests on its count of bricks."""
        own = judge_changed(self.result, Change(hung=hung), beside=False).sets[self.one.label]
        return bool(own.rows) and not own.out_of_service and all(
            rests_on_count(row) for row in own.rows if row.verdict is Verdict.OVER)  # fmt: skip


def _worse(rows: Sequence[Check], before: Sequence[Check]) -> bool:
    """True where a row is over that was not, or is farther over."""
    was = {row.key: row.value.best for row in before if row.verdict is Verdict.OVER}
    return any(row.key not in was or row.value.best > was[row.key] * (1.0 + NO_WORSE)
               for row in rows if row.verdict is Verdict.OVER)  # fmt: skip


def _lighter(tries: _Tries) -> Mend | None:
    """The most a piece may weigh where it hangs, judged again with that weight; the smallest relief first."""
    batten, one = tries.batten, tries.one
    if isinstance(batten, RiggedSet):  # with the count that then balances it
        batten = replace(batten, stated_bricks=None, stated_small=None)
    lighter = Lighter(tries.result.house, batten, neighbours_of(tries.result, one.label), one.rows)
    bad = [row for row in one.rows if row.verdict is Verdict.OVER]
    found = []
    for index, rigged in enumerate(batten.pieces):
        each = [lighter.most_for(row.key, rigged) for row in bad]
        kg = min((most for most in each if most is not None), default=None)
        if kg is not None and None not in each:
            found.append((rigged.mass[1] - kg, index, kg))
    for relief, index, kg in sorted(found)[:MOST_PIECES]:
        rigged = batten.pieces[index]
        told = lighter.promise(rigged, kg, tries.style, _is_clear) if relief > 0.0 else None
        if told is None:
            continue
        where, piece = tries.hung[index]
        is_free = one.label not in tries.result.house.hang.stated_bricks
        most = "at most " if told.holds_below and is_free else ""
        changed = tries.with_piece(index, where, _weighing(piece, told.kg, rigged.mass[1]))
        mend = tries.mend("less weight", f"Let {piece.piece} weigh {most}{told.words}", changed)
        if mend is not None:
            return mend
    return None


def _is_clear(rows: Sequence[Check]) -> bool:
    return bool(rows) and all(row.verdict is not Verdict.OVER for row in rows)


def _weighing(piece: Piece, kg: float, was: float) -> Piece:
    """The piece as written with another weight [kg]; of one in sections each of them in proportion."""
    if piece.comes != IN_SECTIONS:
        return replace(piece, weight=_at(piece.weight, kg), takeoff=())
    parts = tuple(replace(part, weight=_at(part.weight, part.weight.number * kg / was)) for part in piece.sections)
    return replace(piece, sections=parts)


def _moved(tries: _Tries) -> Mend | None:
    """The least shift of one piece along the batten."""
    options = []
    for index, (where, piece) in enumerate(tries.hung):
        low, high = _reach(piece, tries.half)
        for step in range(1, math.floor((high - low) / HALF_FOOT) + 1):
            options += [(step, index, sign) for sign in (1, -1)
                        if low <= where.centre.number + sign * step * HALF_FOOT <= high]  # fmt: skip
    limit = ""
    for step, index, sign in sorted(options):
        where, piece = tries.hung[index]
        if not has_room(piece, where.centre.number + sign * step * HALF_FOOT, tries.batten):
            limit = kept_off(tries.style)
            continue
        changed = replace(where, centre=_at(where.centre, where.centre.number + sign * step * HALF_FOOT))
        by, side = length(step * HALF_FOOT, tries.style), "stage left" if sign > 0 else "stage right"
        mend = tries.mend("move", f"Move {piece.piece} {by} to {side}{limit}", tries.with_piece(index, changed, piece))
        if mend is not None:
            return mend
    return None


def _on_two_picks(tries: _Tries) -> Mend | None:
    """A piece on one pick hung by two instead, as near to each other as clears it."""
    for index, (where, piece) in enumerate(tries.hung):
        if len(piece.picks) != 1 or piece.picks[0].best is None:
            continue
        middle = piece.picks[0].number
        room, limit = tries.half - abs(where.centre.number + middle), ""
        for step in range(1, math.floor(room / HALF_FOOT) + 1):
            picks = tuple(_at(piece.picks[0], middle + sign * step * HALF_FOOT) for sign in (-1, 1))
            on_two, apart = replace(piece, picks=picks), length(2 * step * HALF_FOOT, tries.style)
            if not has_room(on_two, where.centre.number, tries.batten):
                limit = kept_off(tries.style)
                continue
            mend = tries.mend("two picks", f"Hang {piece.piece} by two picks {apart} apart{limit}",
                              tries.with_piece(index, where, on_two))  # fmt: skip
            if mend is not None:
                return mend
    return None


def _elsewhere(tries: _Tries) -> Mend | None:
    """One piece of it on the nearest empty set that takes it."""
    for index, (where, piece) in enumerate(tries.hung):
        had_room = has_room(piece, where.centre.number, tries.batten)
        for other in _nearest_empty(tries.result, tries.one):
            if had_room and other.batten is not None and not has_room(piece, where.centre.number, other.batten):
                continue
            changed = tries.with_piece(index, replace(where, set_=other.label), piece)
            mend = tries.mend("other set", f"Hang {piece.piece} on set {other.label} instead", changed, other.label)
            if mend is not None:
                return mend
    return None


def _badness(verdict: Verdict) -> int:
    return (Verdict.WITHIN, Verdict.UNKNOWN, Verdict.OVER).index(verdict)


def _nearest_empty(result: HouseResult, one: SetResult) -> Iterator[SetResult]:
    """Counterweight sets in service on which nothing hangs, the nearest first."""
    at = one.written.distance.best
    free = [each for each in result.sets if each.label != one.label and not each.hung and not each.out_of_service
            and each.rigged is not None and each.written.rigged == COUNTERWEIGHT]  # fmt: skip
    if at is not None:
        free = [each for each in free if each.written.distance.best is not None]
        free.sort(key=lambda each: abs(each.written.distance.number - at))
    yield from itertools.islice(free, NEAREST_SETS)


def _reach(piece: Piece, half: float) -> tuple[float, float]:
    """How far the centre of a piece may go either way of the batten's centre with all of it on the batten [m]."""
    if piece.spread_over is not None and piece.spread_over.best is not None:
        return -half + piece.spread_over.best / 2, half - piece.spread_over.best / 2
    offsets = [pick.number for pick in piece.picks if pick.best is not None] or [0.0]
    return -half - min(offsets), half - max(offsets)


def _at(known: Known, value: float) -> Known:
    return replace(known, low=value, best=value, high=value, form=Form.EXACT, source=None)
