"""What friction may hide of an out of balance: told beside it, never taken off it."""

from __future__ import annotations

import math

from counterpoise.balance.travel import on_batten, slant
from counterpoise.rigging import RiggedSet
from counterpoise.units.constants import STANDARD_GRAVITY as GRAVITY

_QUARTER = math.pi / 2


def friction(rigged: RiggedSet, height: float, loss: float) -> float:
    """How far what the hand feels may be from Δ, either way [N], felt at the batten.

    Args:
        rigged: the set.
        height: of the batten above the stage [m].
        loss: what a block loses of the pull in a quarter turn, as in 0.02 (the rule *friction*).

    Every line turns a quarter at its loft block and a quarter at the head block, and besides as its mule blocks say.
    Guides add theirs where it is written how their shoes slide. Hand line and, on double purchase, the blocks of the
    arbor are left out. Source: the loss of each turn adds up while it is small; what it is: docs/theory/balance.md.
    """
    turned = max(
        (sum(mule.turn.best or 0.0 for mule in one.mule_blocks) for one in rigged.written.lines.at), default=0.0
    )
    lines = len(rigged.lines) * rigged.line_mass * (rigged.loft - height)
    carried = GRAVITY * (on_batten(rigged, height, rigged.pieces)[2] * slant(rigged, height)[1] + lines)
    return carried * (loss * (2.0 + turned / _QUARTER) + slide_of(rigged))


def slide_of(rigged: RiggedSet) -> float:
    """What sliding in the guides takes, as a share of what the batten carries; 0 where a figure of it is not known.

    The arbor weighs r B, so each shoe bears r B e / a; both rub, with 2 μ r B e / a at the arbor, felt at the batten as
    the r-th part of that. The couple of the hand line is left out.
    """
    guides = rigged.written.guides
    if guides is None or guides.friction is None:
        return 0.0
    rubs, aside, apart = guides.friction.high, guides.load_aside.high, guides.shoes_apart.best
    return 0.0 if rubs is None or aside is None or apart is None else 2.0 * rubs * aside / apart
