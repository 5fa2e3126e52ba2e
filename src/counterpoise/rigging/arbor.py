"""The arbor side of a counterweight set, and its weight where nobody weighed it but the pipe weight is counted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, replace

from counterpoise.documents import Hang, House, Known, LineSet
from counterpoise.rigging.bricks import BrickKind
from counterpoise.rigging.missing import BALANCE, Missing, unknown_of
from counterpoise.rigging.rules import Rule, doubt
from counterpoise.rigging.sets import RiggedBatten, RiggedSet
from counterpoise.rigging.stacking import stack_doubt, stack_mass


def lacks_of_arbor(one: LineSet, house: House, hang: Hang, bricks: Mapping[str, BrickKind]) -> Iterator[Missing]:
    """The figures without which the balance can not be computed, beside those that the pulls wait for."""
    arbor, at = one.arbor, one.stands
    name = brick_of(one, house)
    if name not in bricks:
        what = f"weight, spread or thickness of the {name} brick" if name else "which brick goes on its arbor"
        yield Missing(label=one.label, path="bricks" if name else f"{at}.brick", what=what, waits=BALANCE)
    if one.small_brick and one.small_brick not in bricks:
        yield Missing(label=one.label, path="bricks", waits=BALANCE,
                      what=f"weight, spread or thickness of the {one.small_brick} brick")  # fmt: skip
    if one.purchase == "double" and not one.hand_line.travels:
        yield Missing(label=one.label, path=f"{at}.hand line", line=one.line_of, waits=BALANCE,
                      what="whether the hand line travels with the batten or with the arbor")  # fmt: skip
    asked = [
        ("pipe weight", one.pipe_weight), ("usable height", arbor.usable_height),
        ("plate weight", arbor.plate_weight), ("plate thickness", arbor.plate_thickness),
        ("arbor seat", arbor.seat_at_low_trim),
        ("small pipe weight", one.small_pipe_weight), ("bricks in a layer", arbor.bricks_in_a_layer),
        ("captive plates", arbor.captive_plates),
        ("count of bricks on the arbor", hang.stated_bricks.get(one.label)),
        ("count of small bricks on the arbor", hang.stated_small_bricks.get(one.label)),
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
    arbor, brick, small = one.arbor, bricks[brick_of(one, house)], bricks.get(one.small_brick)
    count, few = round(one.pipe_weight.number), (_count(one.small_pipe_weight) or 0) if small else 0
    rigged = RiggedSet(
        **{each.name: getattr(batten, each.name) for each in fields(batten)},
        arbor_mass=arbor.weight.best or 0.0, arbor_doubt=doubt(arbor.weight, rules), arbor_weighed="",
        seat_low=arbor.seat_at_low_trim.number, usable_height=arbor.usable_height.number,
        plate_mass=arbor.plate_weight.number, plate_thickness=arbor.plate_thickness.number,
        plate_every=rules["plate every"].value, captive_plates=_count(arbor.captive_plates) or 0,
        layer=max(1, _count(arbor.bricks_in_a_layer) or 1), brick=brick, small=small,
        pipe_bricks=count, small_pipe_bricks=few, stated_bricks=_count(hang.stated_bricks.get(one.label)),
        stated_small=_count(hang.stated_small_bricks.get(one.label)),
        hand_line_ratio=2.0 if one.purchase == "double" and one.hand_line.travels == "with the arbor" else 1.0,
    )  # fmt: skip
    return rigged if arbor.weight.best is not None else _by_pipe_weight(rigged)


def _count(known: Known | None) -> int | None:
    return None if known is None or known.best is None else round(known.best)


def _by_pipe_weight(rigged: RiggedSet) -> RiggedSet:
    """An arbor nobody weighed: what balances the empty batten at mid-travel together with its pipe weight [kg].

    The count is whole, so it is out by up to half of the smallest brick; and nobody wrote at which height it floats, so
    by half of what the lift lines shift over the travel. Friction is on top of that and not known.
    """
    ratio, (low, best, high) = rigged.purchase, rigged.bare_mass
    lines = len(rigged.lines) * rigged.line_mass
    middle, half = (rigged.low + rigged.high) / 2, (rigged.high - rigged.low) / 2
    rope = lines * (rigged.loft - middle) * ratio - lines * (middle - rigged.low)
    pipe = (rigged.pipe_bricks, rigged.small_pipe_bricks)
    mass = ratio * best + rope - stack_mass(rigged, *pipe)
    smallest = min(rigged.brick.mass, rigged.small.mass) if rigged.small else rigged.brick.mass
    off = ratio * (high - low) / 2 + smallest / 2 + stack_doubt(rigged, *pipe) + (1.0 + ratio) * lines * half
    counted = f"{pipe[0]} and {pipe[1]} small" if pipe[1] else f"{pipe[0]}"
    return replace(rigged, arbor_mass=max(0.0, mass), arbor_doubt=off,
                   arbor_weighed=f"from its pipe weight of {counted}, give or take")  # fmt: skip
