"""Mass and height of many stacks at once, on arbors of many sets, each as `rigging` has them for one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields

import numpy as np

from counterpoise.planning.stock.columns import Counts, Figures
from counterpoise.rigging import RiggedSet

_SAME = 1e-9  # of a layer


@dataclass(frozen=True, slots=True, kw_only=True)
class Arbors:
    """What the stacks of a set rest on, one row a set; as in `RiggedSet`, 0 of a small brick that it does not take."""

    large_mass: Figures
    small_mass: Figures
    thick: Figures
    thin: Figures
    pipe: Counts
    small_pipe: Counts
    layer: Counts
    captive: Counts
    plate_mass: Figures
    plate_thickness: Figures
    plate_every: Figures
    usable: Figures

    @classmethod
    def of(cls, sets: Sequence[RiggedSet]) -> Arbors:
        """Theirs."""
        rows = [(one.brick.mass, one.small.mass if one.small else 0.0, one.brick.thickness,
                 one.small.thickness if one.small else one.brick.thickness, one.pipe_bricks, one.small_pipe_bricks,
                 one.layer, one.captive_plates, one.plate_mass, one.plate_thickness, one.plate_every,
                 one.usable_height) for one in sets]  # fmt: skip
        columns = {
            part.name: np.array(column) for part, column in zip(fields(cls), zip(*rows, strict=True), strict=True)
        }
        return cls(**columns)

    def at(self, rows: Counts) -> Arbors:
        """Those of some sets, of one as often as it is asked for."""
        return Arbors(**{part.name: getattr(self, part.name)[rows] for part in fields(self)})


def masses_and_heights(on: Arbors, bricks: Counts, small: Counts) -> tuple[Figures, Figures]:
    """Bricks at their mean and plates [kg], and the top of each stack above its seat [m].

    Args:
        on: the arbor of each stack.
        bricks: how many on each, pipe weight included and never less than it.
        small: smaller ones on each, likewise.
    """
    plates, layers = np.zeros(len(bricks), dtype=np.int64), np.zeros(len(bricks))
    since = np.zeros(len(bricks))  # above the last plate, or the seat
    for count, thickness in _runs(on, bricks, small):
        if count.any():
            run = -(-count // on.layer)
            plates, since = _plated(on, run, thickness, plates, since)
            layers = layers + run * thickness
    plates = np.maximum(on.captive, plates + (since > 0.0))
    mass = bricks * on.large_mass + small * on.small_mass + plates * on.plate_mass
    return mass, layers + plates * on.plate_thickness


def _runs(on: Arbors, bricks: Counts, small: Counts) -> list[tuple[Counts, Figures]]:
    """Bricks of one thickness [m], from the seat up; none of a run where those around it are one."""
    alike = on.thick == on.thin
    more = np.where(alike | (on.small_pipe == 0), 0, bricks - on.pipe)  # above the pipe weight's small ones
    between = np.where(more > 0, on.small_pipe, 0)
    below = np.where(alike, bricks + small, bricks - more)
    return [(below, on.thick), (between, on.thin), (more, on.thick), (np.where(alike, 0, small - between), on.thin)]


def _plated(
    on: Arbors, run: Counts, thickness: Figures, plates: Counts, since: Figures
) -> tuple[Counts, Figures]:  # fmt: skip
    """As `rigging.plates_for` for one more run: the plates, and what is above the last."""
    each = np.where(thickness > 0.0, thickness, np.inf)  # what is not thick needs no plate
    fit = np.maximum(0.0, np.floor((on.plate_every - since) / each + _SAME))
    is_on = (run <= fit) | (thickness == 0.0) | ((since == 0.0) & (run == 1))
    between = np.maximum(1.0, np.floor(on.plate_every / each + _SAME))
    first = np.where(since > 0.0, fit, between)
    more = np.where(is_on, 0, np.ceil((run - first) / between)).astype(np.int64)
    above = np.where(is_on, since + run * thickness, (run - first - (more - 1) * between) * thickness)
    return plates + more, above
