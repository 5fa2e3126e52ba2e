"""The smallest change that clears a set which is over: each is tried out by the full engine before it is told.

Nothing is moved here; a person reads what would clear it and decides.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from counterpoise.checks import HouseResult, Lighter, SetResult, Verdict, hung_on, judge_again, neighbours_of
from counterpoise.documents import COUNTERWEIGHT, Hung, Known, Piece
from counterpoise.units import METRES_PER_FOOT, Form, Style, length, mass_down

NEAREST_SETS = 8  # other sets that are tried, the nearest first
HALF_FOOT = 0.5 * METRES_PER_FOOT
_Hung = tuple[Hung, Piece]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mend:
    """A change that clears what is over: in words, and what of the set's verdict is left then."""

    kind: str  # "less weight", "move", "two picks", "other set"
    says: str
    verdict: Verdict  # of every set it touches, the worst


def mends_of(result: HouseResult, label: str) -> tuple[Mend, ...]:
    """At most one change of each kind, the smallest found; none where nothing tried clears it.

    Args:
        result: the whole hang.
        label: of a set that is over.

    Tried are: less weight of the heaviest piece; each piece moved along the batten by half feet; a single pick spread
    over two; each piece on another set that is empty, where it hangs at the same place. A change clears it where
    nothing of the set is over any more and, elsewhere, nothing is over that was not before. Unproven states count as
    not clear.
    """
    one = result.set_called(label)
    if one is None or one.verdict is not Verdict.OVER or one.batten is None or not one.batten.pieces:
        return ()
    found = (_lighter(result, one), _moved(result, one), _on_two_picks(result, one), _elsewhere(result, one))
    return tuple(each for each in found if each is not None)


def _clears(again: SetResult, over: frozenset[str] = frozenset()) -> bool:
    """True where nothing is over but what may be; a set whose batten tips has no rows and is not clear."""
    return bool(again.rows) and _over(again) <= over


def _over(one: SetResult) -> frozenset[str]:
    """The keys of the rows that are over."""
    return frozenset(row.key for row in one.rows if row.verdict is Verdict.OVER)


def _lighter(result: HouseResult, one: SetResult) -> Mend | None:
    """The most the heaviest piece may weigh where it hangs, judged again with that weight."""
    assert one.batten is not None  # the caller looked
    tries = Lighter(result.house, one.batten, neighbours_of(result, one.label), one.rows)
    each = [tries.most_for(row.key) for row in one.rows if row.verdict is Verdict.OVER]
    known = [kg for kg in each if kg is not None]
    if not known or len(known) < len(each):
        return None
    kg, hung = min(known), hung_on(result, one.label)
    index = next(at for at, piece in enumerate(one.batten.pieces) if piece is tries.piece)
    where, piece = hung[index]
    told = mass_down(kg, _style(result))
    if told.startswith("0 "):
        return None
    lighter = replace(piece, weight=_at(piece.weight, kg), takeoff=())
    again = judge_again(result, one.label, [*hung[:index], (where, lighter), *hung[index + 1 :]])
    says = f"Let {piece.piece} weigh at most {told}."
    return Mend(kind="less weight", says=says, verdict=again.verdict) if _clears(again) else None


def _moved(result: HouseResult, one: SetResult) -> Mend | None:
    """The least shift of one piece along the batten."""
    assert one.batten is not None  # the caller looked
    hung = hung_on(result, one.label)
    half = one.batten.beam.length / 2
    tries = []
    for index, piece in enumerate(one.batten.pieces):
        low, high = _reach(hung[index][1], half)
        steps = math.floor((high - low) / HALF_FOOT)
        for step in range(1, steps + 1):
            tries += [(step, index, sign) for sign in (1, -1)
                      if low <= piece.hung.centre.number + sign * step * HALF_FOOT <= high]  # fmt: skip
    for step, index, sign in sorted(tries):
        centre = hung[index][0].centre.number + sign * step * HALF_FOOT
        again = judge_again(result, one.label, _with(hung, index, _centred(hung[index][0], centre)))
        if _clears(again):
            name, by = hung[index][1].piece, length(step * HALF_FOOT, _style(result))
            side = "stage left" if sign > 0 else "stage right"
            return Mend(kind="move", says=f"Move {name} {by} to {side}.", verdict=again.verdict)
    return None


def _on_two_picks(result: HouseResult, one: SetResult) -> Mend | None:
    """A piece on one pick hung by two instead, as near to each other as clears it."""
    assert one.batten is not None
    hung, half = hung_on(result, one.label), one.batten.beam.length / 2
    for index, (where, piece) in enumerate(hung):
        if len(piece.picks) != 1 or piece.picks[0].best is None:
            continue
        middle, room = piece.picks[0].number, half - abs(where.centre.number + piece.picks[0].number)
        for step in range(1, math.floor(room / HALF_FOOT) + 1):
            picks = tuple(_at(piece.picks[0], middle + sign * step * HALF_FOOT) for sign in (-1, 1))
            changed = (where, replace(piece, picks=picks))
            again = judge_again(result, one.label, [*hung[:index], changed, *hung[index + 1 :]])
            if _clears(again):
                apart = length(2 * step * HALF_FOOT, _style(result))
                return Mend(kind="two picks", says=f"Hang {piece.piece} by two picks {apart} apart.",
                            verdict=again.verdict)  # fmt: skip
    return None


def _elsewhere(result: HouseResult, one: SetResult) -> Mend | None:
    """One piece of it on the nearest empty set that takes it."""
    hung = hung_on(result, one.label)
    over = _over(one)
    for index, (where, piece) in enumerate(hung):
        rest = [each for at, each in enumerate(hung) if at != index]
        left = judge_again(result, one.label, rest)
        if left.rows and _over(left) & over and len(hung) > 1:
            continue  # without it the set is still over
        for other in _nearest_empty(result, one):
            here = judge_again(result, other.label, [(replace(where, set_=other.label), piece)])
            if _clears(here, _over(other)) and here.verdict is not Verdict.OVER:
                return Mend(kind="other set", says=f"Hang {piece.piece} on set {other.label} instead.",
                            verdict=max((left.verdict, here.verdict), key=_badness))  # fmt: skip
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


def _with(hung: Sequence[_Hung], index: int, changed: Hung) -> list[_Hung]:
    return [(changed if at == index else where, piece) for at, (where, piece) in enumerate(hung)]


def _centred(where: Hung, centre: float) -> Hung:
    return replace(where, centre=_at(where.centre, centre))


def _at(known: Known, value: float) -> Known:
    return replace(known, low=value, best=value, high=value, form=Form.EXACT, source=None)


def _style(result: HouseResult) -> Style:
    return Style("metric" if result.house.units == "metric" else "us")
