"""Out of balance of one set over its travel, the stack that balances it best, and friction beside it."""

from counterpoise.balance.best import balancing_heights, best_stack, extremes, most_small_bricks
from counterpoise.balance.flying import LANDED, flying_heights
from counterpoise.balance.friction import friction
from counterpoise.balance.proposals import Band, HoldNeeded, Proposals, proposals
from counterpoise.balance.stack import Stack, fits, pipe_weight, smallest_mass, stated_stack
from counterpoise.balance.travel import Span, on_batten, out_of_balance

__all__ = [
    "LANDED",
    "Band",
    "HoldNeeded",
    "Proposals",
    "Span",
    "Stack",
    "balancing_heights",
    "best_stack",
    "extremes",
    "fits",
    "flying_heights",
    "friction",
    "most_small_bricks",
    "on_batten",
    "out_of_balance",
    "pipe_weight",
    "proposals",
    "smallest_mass",
    "stated_stack",
]
