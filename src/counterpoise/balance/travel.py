"""Out of balance over the travel. Felt at the batten [N], arbor-heavy positive, static and without friction."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from counterpoise.balance.stack import Stack
from counterpoise.rigging import RiggedBatten, RiggedPiece, RiggedSet
from counterpoise.units.constants import STANDARD_GRAVITY as GRAVITY


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
    piece that stands on the deck.
    Rope stretch, hand line (a closed loop) and friction are left out. Source: equilibrium; docs/theory/balance.md.
    """
    hanging = rigged.pieces if pieces is None else tuple(pieces)
    lines = len(rigged.lines) * rigged.line_mass
    over = lines * (height - rigged.low)  # on the arbor side: r falls of travel/r
    arbor = (rigged.arbor_mass + stack.mass(rigged) + over) / rigged.purchase
    doubt = (rigged.arbor_doubt + stack.doubt(rigged)) / rigged.purchase
    light, best, heavy = on_batten(rigged, height, hanging)
    rope = lines * (rigged.loft - height)
    return Span(GRAVITY * (arbor - doubt - heavy - rope), GRAVITY * (arbor - best - rope),
                GRAVITY * (arbor + doubt - light - rope))  # fmt: skip


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
