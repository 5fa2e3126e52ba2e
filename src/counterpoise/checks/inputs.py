"""The written figures that the rows of a set rest on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from counterpoise.balance import Stack
from counterpoise.checks.rows import Input
from counterpoise.documents import Brick
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedSet
from counterpoise.units import STANDARD_GRAVITY as GRAVITY


def load_inputs(rigged: RiggedBatten) -> tuple[Input, ...]:
    """What hangs: pieces, their cable, what is fixed to the batten, and the batten itself."""
    batten = rigged.written.batten
    pieces = [Input.of(f"weight of {one.name}{_of_twins(rigged)}", one.weight, widens=_width(one.mass))
              for one in rigged.pieces]  # fmt: skip
    cables = [Input.of(f"weight of the cable of {one.name}", one.written,
                       widens=one.on_batten(rigged.high) * _width(one.line_mass)) for one in rigged.cables]  # fmt: skip
    fixed = [Input.of(f"weight of {one.attachment}", one.weight, widens=_width(each.mass))
             for one, each in zip(batten.attachments, rigged.fixed, strict=True)]  # fmt: skip
    return (*pieces, *cables, *fixed,
            Input.of("batten weight", batten.weight, widens=2.0 * GRAVITY * rigged.pipe_doubt),
            Input.of("hardware", batten.hardware, widens=2.0 * GRAVITY * rigged.hardware_doubt))  # fmt: skip


def _width(mass: tuple[float, float, float]) -> float:
    return GRAVITY * (mass[2] - mass[0])


def _of_twins(rigged: RiggedBatten) -> str:
    """How much of what it carries with its twins is counted here, and what of it would be its own."""
    if not rigged.twins:
        return ""
    count = len(rigged.twins) + 1
    return (f", all of it on this set as if nothing were on set {', '.join(rigged.twins)}; with free hand lines and "
            f"bricks alike it takes 1/{count}")  # fmt: skip


def elastic_inputs(rigged: RiggedBatten) -> tuple[Input, ...]:
    """What the shares between the lines rest on, besides the loads."""
    batten, lines = rigged.written.batten, rigged.written.lines
    return (Input.of("diameter", batten.outside_diameter), Input.of("wall", batten.wall),
            Input.of("modulus", batten.modulus), Input.of("lift-line stiffness", lines.stiffness),
            Input.of("lift-line weight", lines.weight))  # fmt: skip


def brick_inputs(house: RiggedHouse, rigged: RiggedSet, stack: Stack) -> tuple[Input, ...]:
    """What the arbor side weighs: bricks and arbor, or the pipe weight where nobody weighed the arbor."""
    arbor = rigged.written.arbor
    wide = 2.0 * GRAVITY * rigged.arbor_doubt / rigged.purchase
    weighed = Input.of("arbor weight", arbor.weight, widens=wide)
    if rigged.arbor_weighed:  # to be weighed where the arbor's own weight would be written
        by_count = Input.of("pipe weight", rigged.written.pipe_weight, said=f"arbor weight, {rigged.arbor_weighed}")
        weighed = replace(by_count, path=arbor.weight.path, line=arbor.weight.line, widens=wide)
    bricks = {
        "": stack.bricks * rigged.brick.spread,
        "small ": stack.small * (rigged.small.spread if rigged.small else 0),
    }
    return *(Input.of(f"{size}brick weight", one.weight, widens=2.0 * GRAVITY * bricks[size] / rigged.purchase)
             for size, one in _bricks(house, rigged)), weighed  # fmt: skip


def thickness_inputs(house: RiggedHouse, rigged: RiggedSet) -> tuple[Input, ...]:
    """What the height of its stack rests on, besides its plates."""
    return tuple(Input.of(f"{size}brick thickness", one.thickness) for size, one in _bricks(house, rigged))


def _bricks(house: RiggedHouse, rigged: RiggedSet) -> Iterator[tuple[str, Brick]]:
    for size, kind in (("", rigged.brick), ("small ", rigged.small)):
        if kind is not None:
            yield size, next(one for one in house.house.bricks if one.brick == kind.name)
