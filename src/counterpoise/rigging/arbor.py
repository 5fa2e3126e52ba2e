"""The arbor side of a counterweight set, and its weight where nobody weighed it but the pipe weight is counted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields

from counterpoise.documents import Hang, House, LineSet
from counterpoise.rigging.bricks import BrickKind, plates_for
from counterpoise.rigging.missing import BALANCE, Missing, unknown_of
from counterpoise.rigging.rules import Rule, doubt
from counterpoise.rigging.sets import RiggedBatten, RiggedSet


def lacks_of_arbor(one: LineSet, house: House, hang: Hang, bricks: Mapping[str, BrickKind]) -> Iterator[Missing]:
    """The figures without which the balance can not be computed, beside those that the pulls wait for."""
    arbor, at = one.arbor, one.stands
    name = brick_of(one, house)
    if name not in bricks:
        what = f"weight, spread or thickness of the {name} brick" if name else "which brick goes on its arbor"
        yield Missing(label=one.label, path="bricks" if name else f"{at}.brick", what=what, waits=BALANCE)
    if one.purchase == "double" and not one.hand_line.travels:
        yield Missing(label=one.label, path=f"{at}.hand line", line=one.line_of, waits=BALANCE,
                      what="whether the hand line travels with the batten or with the arbor")  # fmt: skip
    asked = [
        ("pipe weight", one.pipe_weight), ("usable height", arbor.usable_height),
        ("plate weight", arbor.plate_weight), ("plate thickness", arbor.plate_thickness),
        ("arbor seat", arbor.seat_at_low_trim), ("count of bricks on the arbor", hang.stated_bricks.get(one.label)),
    ]  # fmt: skip
    yield from unknown_of(one.label, asked, BALANCE)


def brick_of(one: LineSet, house: House) -> str:
    """The brick of a set: the one it names, else the only one the house has."""
    return one.brick or (house.bricks[0].brick if len(house.bricks) == 1 else "")


def arbor_of(
    batten: RiggedBatten, one: LineSet, house: House, hang: Hang, bricks: Mapping[str, BrickKind],
    rules: Mapping[str, Rule],
) -> RiggedSet:  # fmt: skip
    """The whole set in SI. Nothing that `lacks_of_arbor` asks for may be missing."""
    arbor, brick = one.arbor, bricks[brick_of(one, house)]
    stated = hang.stated_bricks.get(one.label)
    count = round(one.pipe_weight.number)
    mass, off, how = arbor.weight.best, doubt(arbor.weight, rules), ""
    if mass is None:
        plates = plates_for(count, brick.thickness, rules["plate every"].value) * arbor.plate_weight.number
        mass, off, how = _by_pipe_weight(batten, brick, count, plates)
    return RiggedSet(
        **{each.name: getattr(batten, each.name) for each in fields(batten)},
        arbor_mass=mass, arbor_doubt=off, arbor_weighed=how, seat_low=arbor.seat_at_low_trim.number,
        usable_height=arbor.usable_height.number, plate_mass=arbor.plate_weight.number,
        plate_thickness=arbor.plate_thickness.number, plate_every=rules["plate every"].value, brick=brick,
        pipe_bricks=count,
        stated_bricks=round(stated.best) if stated is not None and stated.best is not None else None,
        hand_line_ratio=2.0 if one.purchase == "double" and one.hand_line.travels == "with the arbor" else 1.0,
    )  # fmt: skip


def _by_pipe_weight(batten: RiggedBatten, brick: BrickKind, count: int, plates: float) -> tuple[float, float, str]:
    """An arbor nobody weighed: what balances the empty batten at mid-travel together with its pipe weight [kg].

    The count is whole, so it is out by up to half a brick; and nobody wrote at which height it floats, so by half of
    what the lift lines shift over the travel. Friction is on top of that and not known.
    """
    ratio, (low, best, high) = batten.purchase, batten.bare_mass
    lines = len(batten.lines) * batten.line_mass
    middle, half = (batten.low + batten.high) / 2, (batten.high - batten.low) / 2
    rope = lines * (batten.loft - middle) * ratio - lines * (middle - batten.low)
    mass = ratio * best + rope - count * brick.mass - plates
    off = ratio * (high - low) / 2 + brick.mass / 2 + count * brick.spread + (1.0 + ratio) * lines * half
    return max(0.0, mass), off, f"from its pipe weight of {count}, give or take"
