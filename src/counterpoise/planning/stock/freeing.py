"""An answer made better by a search among a few of its sets, while the others keep what they have."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from counterpoise.planning.stock.columns import Columns
from counterpoise.planning.stock.opened import SMALL, Sharing, opened
from counterpoise.planning.stock.priced import searched

TIES = 1e-6  # [N]
FREEINGS = 4
_FREED, _WAYS = 10, 400  # sets at once, and how many ways are kept on
_TURNS = 12


def freed(asked: Sharing, table: Columns, best: Columns, below: float, turns: int) -> Columns | None:
    """An answer below a cost that differs from another in some sets only, or None.

    They are those that are dearer than they need be at the prices, and by turns some of those with the most choices.
    Where the dearer ones are many it is not tried.
    """
    chosen = table.locate(best.counts)
    dearer = table.paid(asked.priced.prices)[chosen] - asked.cheapest > 2 * TIES
    if dearer.sum() > _FREED:
        return None
    sizes = np.diff(np.append(table.starts, len(table.owner)))
    others = np.argsort(np.where(dearer, 0, -sizes), kind="stable")[: len(sizes) - int(dearer.sum())]
    for turn in range(turns):
        free = dearer.copy()
        free[others[turn::turns][:_FREED]] = True
        keep = free[table.owner]
        keep[chosen] = True
        some = table.only(keep)
        found, _ = searched(some, asked.stock, replace(asked.priced, mixed=best.as_figures), below, _WAYS)
        if found is not None:
            return some.only(found)
    return None


def better(asked: Sharing, best: Columns) -> Columns:
    """The answer with some sets changed, as long as that is better."""
    for _ in range(_TURNS):
        few, _ = opened(asked, best.total - asked.priced.bound, best.as_figures)
        found = freed(asked, few.plus(best), best, best.total, 1 if len(few.owner) <= SMALL else FREEINGS)
        if found is None:
            break
        best = found
    return best
