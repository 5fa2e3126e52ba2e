"""Bricks for 60 sets of three sizes from one stock: our own way against one integer programme of the same problem.

Run: `python -m benchmarks.stock [seconds for each solve of the general solver]`. Counts of a random invented house; the
stock is plenty, or short by some part of what every set would like best. Both run on one thread, and what is told is
the time that they had the processor, so that others on the machine do not count.
"""

from __future__ import annotations

import sys
import time
from typing import Any

import numpy as np

from counterpoise.planning.stock.allocation import allocate, linear_demand
from tests.bricks_by_milp import by_milp

SETS = 60
CASES = ((0, 1.2), (0, 0.97), (1, 0.97), (0, 0.9), (0, 0.8), (1, 0.8),
         *((seed, share) for share in (0.7, 0.6, 0.5, 0.4) for seed in range(4)))  # fmt: skip


def a_house(seed: int, share: float) -> tuple[Any, Any, list[int]]:
    """What each set lacks, what a brick of each size weighs on it, and the stock [lb]."""
    chance = np.random.default_rng(seed)
    kinds = ((25.0, 0.95), (12.5, 0.75), (5.0, 0.6))
    weights = np.array([[size if chance.random() < often else 0.0 for size, often in kinds] for _ in range(SETS)])
    weights[~weights.any(axis=1), 0] = 25.0
    lacks = np.round(chance.uniform(50, 900, SETS), 1)
    weights[chance.random(SETS) < 0.2] /= 2  # double purchase
    plenty = [10**6] * 3
    best = [allocate([linear_demand("", *each, plenty)], plenty).counts[0] for each in zip(lacks, weights, strict=True)]
    return lacks, weights, [int(count * share) for count in np.array(best).sum(axis=0)]


def main() -> None:
    """Print a line for each case."""
    limit = float(sys.argv[1]) if len(sys.argv) > 1 else 30.0
    print("house stock   ours: s, largest (bound), beyond (bound)      general: s, largest, beyond, proven    ratio")
    for seed, share in CASES:
        lacks, weights, stock = a_house(seed, share)
        start = time.process_time()
        sets = [linear_demand(str(at), *each, stock) for at, each in enumerate(zip(lacks, weights, strict=True))]
        own = allocate(sets, stock)
        ours = time.process_time() - start
        start = time.process_time()
        largest, beyond, proven = by_milp(lacks, weights, stock, limit)
        theirs = time.process_time() - start
        print(f"{seed:4d} {share:6.0%}  {ours:7.3f} {own.largest:8.3f} ({own.least_largest:8.3f}) {own.beyond:9.3f} "
              f"({own.least_beyond:9.3f})   {theirs:7.2f} {largest:8.3f} {beyond:9.3f} {proven!s:5} "
              f"{theirs / ours:6.1f}",
              flush=True)  # fmt: skip


if __name__ == "__main__":
    main()
