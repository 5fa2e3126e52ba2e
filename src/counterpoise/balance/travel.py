"""Out of balance over the travel. Felt at the batten [N], arbor-heavy positive, static and without friction."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from counterpoise.balance.stack import Stack
from counterpoise.rigging import RiggedPiece, RiggedSet
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

    A is arbor, stack and the lift line on its side (r falls); B is batten, hardware, the pieces as far as they hang,
    and the lift line below the loft blocks. Low and high come from the weights of pieces, pipe, hardware and arbor,
    from bricks that all depart from their mean the same way, and from a piece that stands on the deck.
    Rope stretch, hand line (a closed loop) and friction are left out. Source: equilibrium; docs/theory/balance.md.
    """
    hanging = rigged.pieces if pieces is None else tuple(pieces)
    lines = len(rigged.lines) * rigged.line_mass
    over = lines * (height - rigged.low)  # on the arbor side: r falls of travel/r
    arbor = rigged.arbor_mass + stack.mass(rigged) + over
    batten = rigged.batten_mass + rigged.hardware_mass + lines * (rigged.loft - height)
    shares = [one.share_hanging(height) for one in hanging]
    light = sum(one.mass[0] * share[0] for one, share in zip(hanging, shares, strict=True))
    best = sum(one.mass[1] * share[1] for one, share in zip(hanging, shares, strict=True))
    heavy = sum(one.mass[2] * share[1] for one, share in zip(hanging, shares, strict=True))
    doubt = (rigged.arbor_doubt + stack.bricks * rigged.brick.spread) / rigged.purchase + rigged.batten_doubt
    return Span(
        GRAVITY * (arbor / rigged.purchase - batten - heavy - doubt),
        GRAVITY * (arbor / rigged.purchase - batten - best),
        GRAVITY * (arbor / rigged.purchase - batten - light + doubt),
    )
