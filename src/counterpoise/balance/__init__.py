"""Out of balance of one set over its travel, the stack that balances it best, and friction beside it."""

from counterpoise.balance.best import balances_between, balancing_heights, best_stack, extremes, most_small_bricks
from counterpoise.balance.flying import LANDED, flying_heights
from counterpoise.balance.friction import friction, slide_of
from counterpoise.balance.guides import hand_line_on_arbor, largest_off, on_arbor, on_shoe
from counterpoise.balance.proposals import Band, HoldNeeded, Proposals, proposals
from counterpoise.balance.stack import HEIGHT_PLAY, Stack, added, fits, pipe_weight, smallest_mass, stated_stack
from counterpoise.balance.travel import Span, on_batten, out_of_balance, slant

__all__ = [
    "HEIGHT_PLAY",
    "LANDED",
    "Band",
    "HoldNeeded",
    "Proposals",
    "Span",
    "Stack",
    "added",
    "balances_between",
    "balancing_heights",
    "best_stack",
    "extremes",
    "fits",
    "flying_heights",
    "friction",
    "hand_line_on_arbor",
    "largest_off",
    "most_small_bricks",
    "on_arbor",
    "on_batten",
    "on_shoe",
    "out_of_balance",
    "pipe_weight",
    "proposals",
    "slant",
    "slide_of",
    "smallest_mass",
    "stated_stack",
]
