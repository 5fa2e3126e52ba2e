"""Bricks for all sets from the stock of the house: what each set may take, and the best answer for all together.

From below: `columns` and `ladders` hold choices; `at_prices`, `corners` and `prices` tell what these ask at prices on
the kinds, `scarce` where prices begin, `opened` what good ones leave open; `packed`, `priced`, `rounding`, `branching`
and `freeing` find whole choices; `least_largest` and `least_beyond` are made least one after the other in `allocation`.
`choices` reads rigged sets, `share` a whole house.
"""

from counterpoise.planning.stock.share import Share, StockPlan, Taken, share_stock

__all__ = ["Share", "StockPlan", "Taken", "share_stock"]
