"""Bricks for many sets from one stock as one integer programme, for a general solver: what ours is held to."""

from __future__ import annotations

from itertools import product
from typing import Any

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp


def least_alone(target: float, weights: Any, stock: Any) -> float:
    """The least out of balance of one set with all bricks: every count of all kinds but one, that to the nearest."""
    takes = [(float(weight), int(there)) for weight, there in zip(weights, stock, strict=True) if weight > 0]
    *others, (last, most) = takes
    rooms = [range(min(there, max(0, int(target / weight) + 1)) + 1) for weight, there in others]
    left = np.array([target - sum(count * weight for count, (weight, _) in zip(counts, others, strict=True))
                     for counts in product(*rooms)])  # fmt: skip
    return float(np.min(np.abs(left - last * np.clip(np.round(left / last), 0, most))))


def by_milp(
    targets: Any, weights: Any, stock: Any, limit: float | None = None, floors: Any = None
) -> tuple[float, float, bool]:
    """The least largest out of balance, then the least sum beyond half the smallest brick; and whether it was proven.

    `weights` has a row a set and a column a kind, 0 where the set does not take it. `limit` is for each solve [s]. With
    `floors`, what each set can reach alone, a set that is at its floor does not count for the largest. Infinite where
    the solver found nothing in that time.
    """
    sets, kinds = weights.shape
    bricks = sets * kinds
    free, largest = bricks + 2 * sets, bricks + 3 * sets  # after |delta| and the beyond of each: is it above its floor
    width = largest + 1
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
        bound({bricks + one: 1.0, bricks + sets + one: -1.0}, -np.inf, spare[one])
        if floors is None:
            bound({bricks + one: 1.0, largest: -1.0}, -np.inf, 0.0)
        else:
            off = abs(targets[one]) + float(weights[one].max())
            bound({bricks + one: 1.0, free + one: -off}, -np.inf, floors[one])
            bound({bricks + one: 1.0, largest: -1.0, free + one: off}, -np.inf, off)
    most = np.full(width, np.inf)
    most[:bricks] = np.where(weights.ravel() > 0, 1e4, 0)
    most[free:largest] = 0.0 if floors is None else 1.0
    whole = np.zeros(width)
    whole[:bricks] = whole[free:largest] = 1

    def solved(cost: Any) -> Any:
        options = {"mip_rel_gap": 0.0} | ({"time_limit": limit} if limit else {})
        return milp(cost, constraints=LinearConstraint(np.array(rows), low, high), bounds=Bounds(0, most),
                    integrality=whole, options=options)  # fmt: skip

    first = solved(np.eye(width)[largest])
    if first.x is None:
        return np.inf, np.inf, False
    most[largest] = first.x[largest] + 1e-7
    cost = np.zeros(width)
    cost[bricks + sets : free] = 1
    second = solved(cost)
    beyond = float(second.fun) if second.x is not None else np.inf
    return float(first.x[largest]), beyond, first.status == 0 and second.status == 0
