"""Mass and height of many stacks on one arbor at once, each as `rigging` has them for one."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from counterpoise.planning.stock.columns import Counts, Figures
from counterpoise.rigging import RiggedSet

_SAME = 1e-9  # of a layer


def masses_and_heights(rigged: RiggedSet, bricks: Counts, small: Counts) -> tuple[Figures, Figures]:
    """Bricks at their mean and plates [kg], and the top of each stack above its seat [m].

    Args:
        rigged: whose arbor it is.
        bricks: how many on each stack, pipe weight included and never less than it.
        small: smaller ones on each, likewise.
    """
    runs = [(-(-count // rigged.layer), thickness) for count, thickness in _runs(rigged, bricks, small)]
    plates = np.maximum(rigged.captive_plates, _plates(runs, rigged.plate_every, len(bricks)))
    mass = bricks * rigged.brick.mass + plates * rigged.plate_mass
    if rigged.small is not None:
        mass += small * rigged.small.mass
    layers = [layers * thickness for layers, thickness in runs]
    return mass, np.sum(layers, axis=0) + plates * rigged.plate_thickness


def _runs(rigged: RiggedSet, bricks: Counts, small: Counts) -> list[tuple[Counts, float]]:
    """Bricks of one thickness [m], from the seat up; none of a run where those around it are one."""
    thick = rigged.brick.thickness
    if rigged.small is None or rigged.small.thickness == thick:
        return [(bricks + small, thick)]
    thin, few = rigged.small.thickness, rigged.small_pipe_bricks
    if not few:
        return [(bricks, thick), (small, thin)]
    more = bricks - rigged.pipe_bricks  # between the pipe weight's small ones and the others
    between = np.where(more > 0, few, 0)
    return [(bricks - more, thick), (between, thin), (more, thick), (small - between, thin)]


def _plates(runs: Iterable[tuple[Counts, float]], every: float, stacks: int) -> Counts:
    """As `rigging.plates_for`, of each stack."""
    plates, since = np.zeros(stacks, dtype=np.int64), np.zeros(stacks)
    for layers, thickness in runs:
        if not thickness:
            continue
        fit = np.maximum(0.0, np.floor((every - since) / thickness + _SAME))
        is_on = (layers <= fit) | ((since == 0.0) & (layers == 1))
        between = max(1.0, float(np.floor(every / thickness + _SAME)))
        first = np.where(since > 0.0, fit, between)
        more = np.where(is_on, 0, np.ceil((layers - first) / between)).astype(np.int64)
        plates += more
        since = np.where(is_on, since + layers * thickness, (layers - first - (more - 1) * between) * thickness)
    found: Counts = plates + (since > 0.0)
    return found
