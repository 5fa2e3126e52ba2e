"""The arithmetic of single parts with its numbers put in: stops, bags, clamps, splices, tips, what is posted."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from counterpoise.balance import (
    Stack,
    flying_heights,
    hand_line_on_arbor,
    on_arbor,
    on_batten,
    out_of_balance,
    pipe_weight,
    slant,
)
from counterpoise.checks.hemp_rows import ropes_at
from counterpoise.checks.result import SetResult
from counterpoise.checks.rows import Check
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedSet, least
from counterpoise.units import METRES_PER_INCH, STANDARD_GRAVITY as GRAVITY, Direction, Kind, Style, length, printed_as


@dataclass(frozen=True, slots=True)
class Step:
    """One number of the arithmetic: what is done with it, what it is, as printed, and in SI."""

    sign: str  # "" for the first, then + × ÷
    says: str
    figure: str
    value: float


def printed_kind(kind: Kind, style: Style, value: float) -> str:
    """With a digit more than it is told with, so that a sum is seen to come out."""
    found = printed_as(kind, style, Direction.NEAREST)
    return found.finer(found.digits + (0 if kind is Kind.STRESS else 1)).print(value)


def rating_of(one: SetResult, row: Check) -> str:
    """What the house writes that the rating of a block is of: line pull, resultant or unknown; "" for other links."""
    written = one.written
    if row.link == "head block":
        return written.head_block.rating_of
    if row.link == "loft block" and row.line is not None:
        return (written.lines.at[row.line - 1].loft_block or written.loft_block).rating_of
    return ""


def carried_of_part(house: RiggedHouse, one: SetResult, row: Check, style: Style) -> Iterator[Step]:
    """What a part carries, step by step; nothing of rows that are sums of line pulls."""
    if one.batten is None or one.forces is None:
        return
    if row.formula == "stop" and one.rigged is not None and one.stack is not None:
        yield from _into_stop(one.rigged, one.stack, row, style)
    elif row.formula == "tension block" and one.rigged is not None and one.stack is not None:
        yield from _up_on_block(one.rigged, one.stack, style)
    elif row.formula == "guides" and one.rigged is not None and one.stack is not None and not row.lacks:
        yield from _on_shoe(one.rigged, one.stack, style)
    elif row.formula == "posted":
        yield from _posted(one.batten, row, style)
    elif row.formula == "bags" and one.written.bags is not None:
        yield _force("", "the bags", GRAVITY * (one.written.bags.weight.best or 0.0), style)
    elif row.formula == "crew":
        yield from _hauled(house, one.batten, style)
    elif row.formula == "clamp":
        piece = next(each for each in one.batten.pieces if row.key.endswith(f"/{each.name}"))
        share = max(part for _, part in piece.points)
        yield _force("", f"weight of {piece.name}", GRAVITY * piece.mass[1], style)
        yield Step("×", "the largest share of a pick", f"{share:.4g}", share)
    elif row.formula == "overhang" and one.forces.tip is not None:
        reach, ratio = one.forces.tip
        yield Step("", "drop of the tip as a share of its overhang", f"1 in {1 / ratio.best:,.0f}" if ratio.best else
                   "none", ratio.best)  # fmt: skip
        yield Step("×", "that overhang", length(reach, style), reach)
    elif row.formula == "splice" and len(one.forces.best.made.stretches) == 1:
        modulus = one.forces.best.made.stretches[0].modulus
        moment = row.value.best * modulus
        yield Step("", "M, the bending moment at the splice", printed_kind(Kind.MOMENT, style, moment), moment)
        yield Step("÷", "S, the section modulus of the design wall", modulus_said(modulus, style), modulus)


def allowed_of_part(house: RiggedHouse, one: SetResult, row: Check, style: Style) -> Iterator[Step]:
    """What a part may carry, step by step, where that is not one written figure."""
    if one.batten is None or row.limit is None:
        return
    if row.formula == "bags":
        batten = one.batten
        found = [(_load(batten, height) + ropes_at(house, batten, height).best, height)
                 for height in flying_heights(batten)]  # fmt: skip
        yield from _load_and_ropes(house, batten, min(found)[1], style)
    elif row.formula == "overhang" and one.forces is not None and one.forces.tip is not None:
        share, reach = house.rules["sag"].value, one.forces.tip[0]
        yield Step("", "the rule of sag", f"1 in {1 / share:,.0f}", share)
        yield Step("×", "twice that overhang, as a tip is half a span", length(2.0 * reach, style), 2.0 * reach)
    elif row.formula == "splice":
        number = int(row.key.rsplit("/", 1)[-1])
        left = least(one.written.batten.splices[number - 1].strength, house.rules)
        if left:
            allowed = row.limit / left
            yield Step("", "allowed stress", printed_kind(Kind.STRESS, style, allowed), allowed)
            yield Step("×", "strength left at the splice", printed_kind(Kind.RATIO, style, left), left)


def _force(sign: str, says: str, value: float, style: Style) -> Step:
    return Step(sign, says, printed_kind(Kind.FORCE, style, value), value)


def modulus_said(modulus: float, style: Style) -> str:
    """A section modulus, as printed."""
    return f"{modulus / METRES_PER_INCH**3:.3f} in³" if style.system == "us" else f"{modulus * 1e6:.2f} cm³"


def _into_stop(rigged: RiggedSet, stack: Stack, row: Check, style: Style) -> Iterator[Step]:
    """|Δ| times r: the load on and pipe weight at low trim, all of the stack at high trim."""
    own = pipe_weight(rigged)
    is_top = row.link == "top stop"
    on = Stack(min(own.bricks, stack.bricks), min(own.small, stack.small)) if is_top else stack
    delta = out_of_balance(rigged, on, rigged.low if is_top else rigged.high).best
    much = max(0.0, -delta if is_top else delta)
    where, heavy = ("low", "batten") if is_top else ("high", "arbor")
    yield _force("", f"Δ at {where} trim with {on.said} bricks on, {heavy}-heavy", much, style)
    yield Step("×", "r, batten travel for each length of arbor travel", f"{rigged.purchase}", float(rigged.purchase))


def _up_on_block(rigged: RiggedSet, stack: Stack, style: Style) -> Iterator[Step]:
    found = [(out_of_balance(rigged, stack, height).best, height) for height in flying_heights(rigged)]
    delta, height = min(found)
    yield _force("", f"Δ with the batten at {length(height, style)}, batten-heavy: the largest where it flies",
                 max(0.0, -delta), style)  # fmt: skip
    yield Step("×", "hand line for each length of batten travel", f"{rigged.hand_line_ratio:g}", rigged.hand_line_ratio)
    yield Step("×", "both legs of the hand line", "2", 2.0)


def _on_shoe(rigged: RiggedSet, stack: Stack, style: Style) -> Iterator[Step]:
    """The couple of the load and that of the hand line, each borne by two shoes."""
    guides = rigged.written.guides
    assert guides is not None  # it has a row
    aside, tied, apart = guides.load_aside.number, guides.hand_line_aside.number, guides.shoes_apart.number
    hand_line = hand_line_on_arbor(rigged, stack).best
    yield _force("", "W, the arbor and what is on it", on_arbor(rigged, stack).best, style)
    yield Step("×", f"e / a: its middle {length(aside, style)} aside of the lift lines, shoes {length(apart, style)} "
               "apart", f"{aside / apart:.4g}", aside / apart)  # fmt: skip
    if hand_line and tied:
        says = (f"what the hand line brings, {printed_kind(Kind.FORCE, style, hand_line)} on the arbor, "
                f"{length(tied, style)} aside")  # fmt: skip
        yield _force("+", says, hand_line * tied / apart, style)


def _posted(batten: RiggedBatten, row: Check, style: Style) -> Iterator[Step]:
    """Each piece with its cable, and the batten with what is fixed to it where the capacity counts that."""
    number = int(row.key.rsplit("/", 1)[-1])
    parts = [(f"weight of {one.name}", one.mass[1]) for one in batten.pieces]
    parts += [(f"cable of {one.name}, at high trim", one.on_batten(batten.high) * one.line_mass[1])
              for one in batten.cables]  # fmt: skip
    if batten.written.posted[number - 1].counts == "batten and all":
        parts.append(("the batten, its hardware and what is fixed to it", batten.bare_mass[1]))
    for turn, (says, mass) in enumerate((says, mass) for says, mass in parts if mass):
        yield _force("+" if turn else "", says, GRAVITY * mass, style)


def _load(batten: RiggedBatten, height: float) -> float:
    return GRAVITY * on_batten(batten, height, batten.pieces)[1] * slant(batten, height)[0]


def _load_and_ropes(house: RiggedHouse, batten: RiggedBatten, height: float, style: Style) -> Iterator[Step]:
    """What a hemp batten pulls at a height, and the ropes on either side of the blocks."""
    yield _force("", f"batten and all that hangs on it at {length(height, style)}", _load(batten, height), style)
    ropes = ropes_at(house, batten, height).best
    if ropes:
        more = ("+", "more rope on the batten's side than on the rail's") if ropes > 0.0 else \
            ("−", "more rope on the rail's side than on the batten's")  # fmt: skip
        yield _force(*more, abs(ropes), style)


def _hauled(house: RiggedHouse, batten: RiggedBatten, style: Style) -> Iterator[Step]:
    bags = batten.written.bags
    if bags is None or bags.weight.best is None:
        return
    found = [
        (_load(batten, height) + ropes_at(house, batten, height).best, height) for height in flying_heights(batten)
    ]
    most, height = max(found)
    if most <= GRAVITY * bags.weight.best:
        return  # nothing is hauled: no sum
    yield from _load_and_ropes(house, batten, height, style)
    yield _force("−", "the bags", GRAVITY * bags.weight.best, style)
