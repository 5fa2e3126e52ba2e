"""Out of balance of one set over its travel, and the stack that balances it best."""

from counterpoise.balance.best import best_stack
from counterpoise.balance.stack import Stack, fits
from counterpoise.balance.travel import Span, on_batten, out_of_balance

__all__ = ["Span", "Stack", "best_stack", "fits", "on_batten", "out_of_balance"]
