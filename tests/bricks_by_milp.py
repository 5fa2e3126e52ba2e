"""Bricks for many sets from one stock as one integer programme, for a general solver: what ours is held to."""

from __future__ import annotations

from typing import Any

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp


def by_milp(targets: Any, weights: Any, stock: Any, limit: float | None = None) -> tuple[float, float, bool]:
    """The least largest out of balance, then the least sum beyond half the smallest brick; and whether it was proven.

    `weights` has a row a set and a column a kind, 0 where the set does not take it. `limit` is for each solve [s].
    Infinite where the solver found nothing in that time.
    """
    sets, kinds = weights.shape
    bricks, width = sets * kinds, sets * kinds + 2 * sets + 1  # then |delta| and the beyond of each, then the largest
    spare = [min(each for each in row if each > 0) / 2 for row in weights]
    rows, low, high = [], [], []

    def bound(places: dict[int, float], least: float, most: float) -> None:
        row = np.zeros(width)
        for place, factor in places.items():
            row[place] = factor
        rows.append(row)
        low.append(least)
        high.append(most)

    for kind in range(kinds):
        bound({one * kinds + kind: 1.0 for one in range(sets)}, -np.inf, stock[kind])
    for one in range(sets):
        on = {one * kinds + kind: weights[one, kind] for kind in range(kinds)}
        bound(on | {bricks + one: -1.0}, -np.inf, targets[one])
        bound(on | {bricks + one: 1.0}, targets[one], np.inf)
        bound({bricks + one: 1.0, width - 1: -1.0}, -np.inf, 0.0)
        bound({bricks + one: 1.0, bricks + sets + one: -1.0}, -np.inf, spare[one])
    most = np.full(width, np.inf)
    most[:bricks] = np.where(weights.ravel() > 0, 1e4, 0)
    whole = np.zeros(width)
    whole[:bricks] = 1

    def solved(cost: Any) -> Any:
        options = {"mip_rel_gap": 0.0} | ({"time_limit": limit} if limit else {})
        return milp(cost, constraints=LinearConstraint(np.array(rows), low, high), bounds=Bounds(0, most),
                    integrality=whole, options=options)  # fmt: skip

    first = solved(np.eye(width)[-1])
    if first.x is None:
        return np.inf, np.inf, False
    most[-1] = first.x[-1] + 1e-7
    cost = np.zeros(width)
    cost[bricks + sets : -1] = 1
    second = solved(cost)
    beyond = float(second.fun) if second.x is not None else np.inf
    return float(first.x[-1]), beyond, first.status == 0 and second.status == 0
