"""How much more may hang on a set wherever it hangs: what is posted, the arbor with its stack, stops, the head block.

None of these looks at where along the batten a load hangs, only at how much it is.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from counterpoise.balance import (
    Span,
    Stack,
    best_stack,
    extremes,
    flying_heights,
    hand_line_on_arbor,
    on_arbor,
    out_of_balance,
)
from counterpoise.checks import Check, SetResult, Verdict
from counterpoise.checks.guide_rows import shoe_force
from counterpoise.checks.limits import BALANCE, rows_of_part
from counterpoise.checks.link_rows import HEAD_BLOCK, hand_line_on
from counterpoise.documents import HEMP, Hung, Known, Piece
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedPart, RiggedPiece, RiggedSet
from counterpoise.units import STANDARD_GRAVITY as GRAVITY, Form, Kind

FINE = 1.0  # [N]; nearer than this the force is not sought
GROWS = ("arbor", "stack", "top stop", "crew")  # more hung is never less on these
TEETH = 24  # loads looked at within one brick more
LOAD = "one more load"


@dataclass(frozen=True, slots=True)
class Cap:
    """A link, and the force more [N] that it lets hang, wherever."""

    link: str
    force: float


def caps_of(house: RiggedHouse, one: SetResult, most: float) -> Iterator[Cap]:
    """For each row that rests on how much hangs and not on where, how much more; none where that is over `most` [N].

    The count of bricks is the one that balances best with the load on, also where the hang states another.
    """
    rigged = one.batten
    if rigged is None:
        return
    for row in one.rows:
        if row.formula == "posted" and row.limit is not None:
            yield Cap(row.link, max(0.0, row.limit - row.value.high))
    if isinstance(rigged, RiggedSet) or rigged.written.rigged == HEMP:
        looked_at = [row.link for row in one.rows if row.link in GROWS]
        met = _met_at(lambda force: _first_past(house, rigged, force, looked_at) == "", most)
        if met < most:
            yield Cap(_first_past(house, rigged, met + FINE, looked_at) or "arbor", met)
    for row in one.rows:
        if row.link == "guides" and row.limit is not None and isinstance(rigged, RiggedSet):
            yield Cap(row.link, _of_guides(house, rigged, row.limit, most))
        if row.link in HEAD_BLOCK and row.limit is not None and row.coefficients:
            yield Cap(row.link, _of_head_block(house, one, rigged, row, most))


def _met_at(fits: Callable[[float], bool], most: float, low: float = 0.0) -> float:
    """The force up to which it fits, from one that does on, told from the side that does."""
    if fits(most):
        return most
    high = most
    while high - low > FINE:
        middle = (low + high) / 2
        low, high = (middle, high) if fits(middle) else (low, middle)
    return low


def _first_past(house: RiggedHouse, rigged: RiggedBatten, force: float, looked_at: list[str]) -> str:
    """The first link that is not within with so much more hung; "" where all are."""
    more = with_load(rigged, force)
    stack = best_stack(more) if isinstance(more, RiggedSet) else None
    rows = rows_of_part(house, more, stack, None, BALANCE)
    return next((row.link for row in rows if row.link in looked_at and row.verdict is not Verdict.WITHIN), "")


def _of_head_block(house: RiggedHouse, one: SetResult, rigged: RiggedBatten, row: Check, most: float) -> float:
    """What the lift lines let hang, less what the hand line then adds: that moves up and down with the count.

    The least load that is past the limit counts, so that all that is less is within.
    """
    assert row.limit is not None  # the caller looked
    times = max(row.coefficients)
    free = row.limit - (row.value.high - hand_line_on(house, rigged, one.stack, row.link).high)  # for both together

    def past(force: float) -> bool:
        more = with_load(rigged, force)
        stack = best_stack(more) if isinstance(more, RiggedSet) else None
        return times * force + hand_line_on(house, more, stack, row.link).high > free

    top = min(most, free / times)
    if top <= 0.0:
        return 0.0
    if not isinstance(rigged, RiggedSet):
        return top
    brick = GRAVITY * (rigged.brick.mass + rigged.plate_mass) / rigged.purchase
    share = max(hand_line_on(house, more, best_stack(more), row.link).high for more in (
        with_load(rigged, max(0.0, top - brick * i / TEETH)) for i in range(TEETH + 1))
        if isinstance(more, RiggedSet))  # fmt: skip
    start = max(0.0, top - 1.5 * share / times - brick)
    count = math.ceil((top - start) * TEETH / brick)
    places = [start + (top - start) * i / max(1, count) for i in range(count + 1)]
    for low, high in pairwise(places):
        if past(high):
            return _met_at(lambda force: not past(force), high, low)
    return top


def _of_guides(house: RiggedHouse, rigged: RiggedSet, limit: float, most: float) -> float:
    """How much more the guides let hang: the arbor grows with it, and the hand line is taken at its most.

    What the hand line pulls falls and jumps up again from brick to brick, so that all that is less is within.
    """
    guides = rigged.written.guides
    assert guides is not None  # they have a row

    def fits(force: float) -> bool:
        more = with_load(rigged, force)
        assert isinstance(more, RiggedSet)
        stack = best_stack(more)
        hand_line = Span(0.0, 0.0, _most_on_arbor(more, stack))
        return shoe_force(house, guides, on_arbor(more, stack), hand_line).high <= limit

    return _met_at(fits, most)


def _most_on_arbor(rigged: RiggedSet, stack: Stack) -> float:
    """What the hand line may pull on the arbor with any load that asks for this count [N].

    The middle of what is out of balance is then off by no more than half a brick with its plate, but where pipe weight
    alone is more than balances.
    """
    middle = sum(extremes(rigged, stack)) / 2
    spans = [out_of_balance(rigged, stack, height) for height in flying_heights(rigged)]
    off = max(max(one.high - middle, middle - one.low) for one in spans)
    half = GRAVITY * (rigged.brick.mass + rigged.plate_mass) / 2
    return max(rigged.purchase * off + half, hand_line_on_arbor(rigged, stack).high)


def with_load(rigged: RiggedBatten, force: float) -> RiggedBatten:
    """The set with one more load [N] that hangs free all the way, and no count stated."""
    mass = (force / GRAVITY,) * 3
    nothing = Known(text="", kind=Kind.MASS, low=mass[0], best=mass[0], high=mass[0], form=Form.EXACT, source=None,
                    path="", line=0)  # fmt: skip
    piece = Piece(piece=LOAD, weight=nothing, balance_height=nothing, height=nothing)
    hung = Hung(piece=LOAD, set_=rigged.label, centre=nothing)
    load = RiggedPiece(name=LOAD, parts=(RiggedPart(mass=mass, joins=0.0, clear=0.0),), points=((0.0, 1.0),),
                       spread=None, height=0.0, looks="solid", trims={}, written=piece, hung=hung,
                       weight=nothing)  # fmt: skip
    more = replace(rigged, pieces=(*rigged.pieces, load))
    return replace(more, stated_bricks=None, stated_small=None) if isinstance(more, RiggedSet) else more
