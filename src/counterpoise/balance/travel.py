"""Out of balance over the travel. Felt at the batten [N], arbor-heavy positive, static and without friction."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from counterpoise.balance.stack import Stack
from counterpoise.rigging import RiggedBatten, RiggedPiece, RiggedSet
from counterpoise.units.constants import STANDARD_GRAVITY as GRAVITY

LEVEL = 0.95  # of the drop: no line of a batten whose lines lean hangs shorter


@dataclass(frozen=True, slots=True)
class Span:
    """A figure known within low..high, best between; one unit throughout."""

    low: float
    best: float
    high: float

    @property
    def worst(self) -> float:
        """The end that lies farther from zero, with its sign."""
        return self.high if self.high >= -self.low else self.low


def out_of_balance(rigged: RiggedSet, stack: Stack, height: float, pieces: Iterable[RiggedPiece] | None = None) -> Span:
    """Δ = A/r − B at a batten height [N].

    Args:
        rigged: the set.
        stack: what is on the arbor.
        height: of the batten above the stage [m]; it must lie within the set's travel, which is not looked at here.
        pieces: those hanging on it; all the hang puts there by default.

    A is arbor, stack and the lift line on its side (r falls); B is batten, hardware, what is fixed to it, the pieces as
    far as they hang, their cable, and the lift line below the loft blocks. Low and high come from the weights of
    pieces, cable, pipe, hardware and arbor, from bricks that all depart from their mean the same way, and from a
    piece that stands on the deck; where lines lean, low also from how much more than what hangs their ropes pull.
    Rope stretch, hand line (a closed loop) and friction are left out. Source: equilibrium; docs/theory/balance.md.
    """
    hanging = rigged.pieces if pieces is None else tuple(pieces)
    lines = len(rigged.lines) * rigged.line_mass
    over = lines * (height - rigged.low)  # on the arbor side: r falls of travel/r
    arbor = (rigged.arbor_mass + stack.mass(rigged) + over) / rigged.purchase
    doubt = (rigged.arbor_doubt + stack.doubt(rigged)) / rigged.purchase
    light, best, heavy = on_batten(rigged, height, hanging)
    rope = lines * (rigged.loft - height)
    if rigged.runs:
        likely, most = slant(rigged, height)
        best, heavy = best * likely, heavy * most
    return Span(GRAVITY * (arbor - doubt - heavy - rope), GRAVITY * (arbor - best - rope),
                GRAVITY * (arbor + doubt - light - rope))  # fmt: skip


def slant(rigged: RiggedBatten, height: float) -> tuple[float, float]:
    """What all ropes of a batten pull per weight that hangs on them: most likely, and at most; 1 where they are plumb.

    Hanging free, the batten drifts to the mean of the runs weighed by the pulls. The sum of V sqrt(1 + (w/D)2) is then
    at most the whole weight times sqrt(1 + mean of w2 / D2), as the root bends down, and the mean of w2 about the mean
    is at most a quarter of the square of how far apart the runs are. Most likely with equal pulls. Never below 1, so
    what is plumb bounds it from the other side, and both grow as the batten rises, faster and faster.

    Assumes drops of no less than 0.95 of that of a level batten (`RiggedBatten.steep`). Source: equilibrium; Jensen's
    and Popoviciu's inequalities; docs/theory/axial.md.
    """
    if not rigged.runs:
        return 1.0, 1.0
    runs, drop = rigged.runs, rigged.loft - height
    mean = sum(runs) / len(runs)
    spread = sum((run - mean) ** 2 for run in runs) / len(runs)
    apart = (max(runs) - min(runs)) / (2.0 * LEVEL * drop)
    return math.sqrt(1.0 + spread / drop**2), math.sqrt(1.0 + apart**2)


def on_batten(rigged: RiggedBatten, height: float, hanging: Iterable[RiggedPiece]) -> tuple[float, float, float]:
    """What the batten carries at a height, itself and what is fixed to it included: least, best, most [kg].

    Cable comes with the piece it feeds.
    """
    light, best, heavy = rigged.bare_mass
    for one in hanging:
        least, at_best, most = one.hanging(height)
        light, best, heavy = light + least, best + at_best, heavy + most
        for cable in rigged.cables:
            if cable.name == one.name:
                length = cable.on_batten(height)
                light, best, heavy = (light + length * cable.line_mass[0], best + length * cable.line_mass[1],
                                      heavy + length * cable.line_mass[2])  # fmt: skip
    return light, best, heavy
