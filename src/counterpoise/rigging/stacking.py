"""How bricks lie on an arbor: the runs of one thickness from the seat up, their plates, mass and height."""

from __future__ import annotations

import math

from counterpoise.rigging.bricks import plates_for
from counterpoise.rigging.sets import RiggedSet


def runs_of(rigged: RiggedSet, bricks: int, small: int) -> list[tuple[int, float]]:
    """Layers of one thickness [m], from the seat up: pipe weight, the others, small ones last.

    Pipe weight is painted and stays lowest, its own small ones on it; common practice, no source. A layer holds as many
    side by side as the arbor takes, all of one size; one begun is filled by bricks of its size that follow.
    """
    below, few = min(bricks, rigged.pipe_bricks), min(small, rigged.small_pipe_bricks)
    thick, thin = rigged.brick.thickness, rigged.small.thickness if rigged.small else 0.0
    laid: list[tuple[int, float]] = []
    for count, thickness in ((below, thick), (few, thin), (bricks - below, thick), (small - few, thin)):
        if count and laid and laid[-1][1] == thickness:
            laid[-1] = (laid[-1][0] + count, thickness)
        elif count:
            laid.append((count, thickness))
    return [(math.ceil(count / rigged.layer), thickness) for count, thickness in laid]


def plates_on(rigged: RiggedSet, bricks: int, small: int) -> int:
    """As many plates as the rule asks for, and never fewer than stay on the arbor."""
    return max(rigged.captive_plates, plates_for(runs_of(rigged, bricks, small), rigged.plate_every))


def stack_mass(rigged: RiggedSet, bricks: int, small: int) -> float:
    """Bricks at their mean and plates [kg]."""
    own = bricks * rigged.brick.mass + (small * rigged.small.mass if rigged.small else 0.0)
    return own + plates_on(rigged, bricks, small) * rigged.plate_mass


def stack_doubt(rigged: RiggedSet, bricks: int, small: int) -> float:
    """How far the bricks may be from their mean if all depart from it the same way [kg]."""
    return bricks * rigged.brick.spread + (small * rigged.small.spread if rigged.small else 0.0)


def stack_height(rigged: RiggedSet, bricks: int, small: int) -> float:
    """Top of the stack above its seat [m]."""
    layers = sum(count * thickness for count, thickness in runs_of(rigged, bricks, small))
    return layers + plates_on(rigged, bricks, small) * rigged.plate_thickness
