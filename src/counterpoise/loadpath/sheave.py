"""A rope bent over its sheave: the share of its strength that the bend leaves."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

# Sheave over rope diameter, and static bending efficiency: a common table, as printed beside the bending curve of wire
# rope users' manuals.
EFFICIENCIES: Sequence[tuple[float, float]] = ((1.0, 0.50), (10.0, 0.86), (20.0, 0.91), (40.0, 0.95))


def bending_efficiency(ratio: float) -> float:
    """Share of its strength that a wire rope keeps at rest over a sheave.

    Args:
        ratio: sheave diameter at the bottom of the groove over rope diameter; 1 or more is in the table. Below it the
            share of 1 is given in proportion, above 40 that of 40.

    Straight between the rows of the table: a curve that bends as this one does lies above such a line.
    """
    if ratio <= 1.0:
        return EFFICIENCIES[0][1] * max(0.0, ratio)
    for (low, at_low), (high, at_high) in pairwise(EFFICIENCIES):
        if ratio <= high:
            return at_low + (at_high - at_low) * (ratio - low) / (high - low)
    return EFFICIENCIES[-1][1]
