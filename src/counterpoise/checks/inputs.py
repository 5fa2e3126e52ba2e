"""The written figures that the rows of a set rest on."""

from __future__ import annotations

from counterpoise.checks.rows import Input
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedSet


def load_inputs(rigged: RiggedBatten) -> tuple[Input, ...]:
    """What hangs: pieces, their cable, what is fixed to the batten, and the batten itself."""
    batten = rigged.written.batten
    pieces = [Input.of(f"weight of {one.name}", one.weight) for one in rigged.pieces]
    cables = [Input.of(f"weight of the cable of {one.name}", one.written) for one in rigged.cables]
    fixed = [Input.of(f"weight of {one.attachment}", one.weight) for one in batten.attachments]
    return (*pieces, *cables, *fixed, Input.of("batten weight", batten.weight), Input.of("hardware", batten.hardware))


def elastic_inputs(rigged: RiggedBatten) -> tuple[Input, ...]:
    """What the shares between the lines rest on, besides the loads."""
    batten, lines = rigged.written.batten, rigged.written.lines
    return (Input.of("diameter", batten.outside_diameter), Input.of("wall", batten.wall),
            Input.of("modulus", batten.modulus), Input.of("lift-line stiffness", lines.stiffness),
            Input.of("lift-line weight", lines.weight))  # fmt: skip


def brick_inputs(house: RiggedHouse, rigged: RiggedSet) -> tuple[Input, ...]:
    """What the arbor side weighs: brick and arbor, or the pipe weight where nobody weighed the arbor."""
    brick = next(one for one in house.house.bricks if one.brick == rigged.brick.name)
    arbor = rigged.written.arbor
    weighed = Input.of("arbor weight", arbor.weight)
    if rigged.arbor_weighed:
        weighed = Input.of("pipe weight", rigged.written.pipe_weight, said=f"arbor weight {rigged.arbor_weighed}")
    return Input.of("brick weight", brick.weight), weighed
