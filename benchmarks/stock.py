"""Bricks for 60 sets of three sizes from one stock: our own way against one integer programme of the same problem.

Run: `python -m benchmarks.stock [seconds for each solve of the general solver]`. Random invented houses; the stock is
plenty, or short by some part of what every set would like best. First houses as they are written: rigged sets, each
with its brick and most with a smaller one, what is timed begins with the stacks that its arbor takes. Then bare counts
of sets that may take all three sizes, which no house can write. Both ways run on one thread, and what is told is the
time that they had the processor, so that others on the machine do not count.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from counterpoise.balance import extremes, pipe_weight
from counterpoise.planning.stock import share_stock
from counterpoise.planning.stock.allocation import Allocation, allocate, linear_demand
from counterpoise.planning.stock.choices import demands
from counterpoise.rigging import RiggedHouse
from tests.bricks_by_milp import by_milp
from tests.plain_house import LB, a_house, a_piece, a_set, hung, rigged

SETS = 60
BRICKS = (("full", "25 lb", "1 in"), ("half", "12.5 lb", "0.5 in"), ("five", "5 lb", "0.25 in"))
PAIRS: tuple[tuple[str, str | None], ...] = (("full", "half"), ("full", "five"), ("half", "five"), ("full", None))
SHARES = (1.2, 0.97, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4)


@dataclass(frozen=True)
class Case:
    """Our way, and what the general solver is given: what sets lack, what a brick weighs on each, the stock [lb]."""

    ours: Callable[[], Allocation]
    lacks: Any
    weights: Any
    stock: list[int]


def as_written(seed: int, share: float) -> Case:
    """Rigged sets of single purchase, each with the bricks that it takes; plates weigh nothing, as for the solver."""
    chance = np.random.default_rng(seed)
    sets, pieces, places = [], [], []
    for at in range(1, SETS + 1):
        brick, small = PAIRS[chance.choice(4, p=[0.4, 0.35, 0.1, 0.15])]
        takes = {"brick": brick} | ({"small_brick": small} if small else {})
        sets.append(a_set(f"{at}", distance=f"{9 * at + 12} in", **takes))
        pieces.append(a_piece(f"piece {at}", weight=f"{chance.uniform(50, 900):.1f} lb"))
        places.append(hung(f"piece {at}", on=f"{at}"))

    def with_stock(stock: list[int]) -> RiggedHouse:
        kinds = [{"brick": name, "weight": weight, "thickness": thickness, "stock": {"bridge": f"{count}"}}
                 for (name, weight, thickness), count in zip(BRICKS, stock, strict=True)]  # fmt: skip
        return rigged(a_house(*sets, bricks=kinds), pieces, places).as_one

    left = share_stock(with_stock([3_000] * 3)).left
    have = {name: int((3_000 - left[name]["bridge"]) * share) for name, _, _ in BRICKS}
    house = with_stock(list(have.values()))
    lacks = [-sum(extremes(one, pipe_weight(one))) / 2 / LB for one in house.sets]
    weights = np.array([one.weights for one in demands(house.sets, have)]) / LB
    return Case(ours=lambda: allocate(demands(house.sets, have), list(have.values())),
                lacks=np.array(lacks), weights=weights, stock=list(have.values()))  # fmt: skip


def bare_counts(seed: int, share: float) -> Case:
    """Sets that take any of the three sizes, some of double purchase."""
    chance = np.random.default_rng(seed)
    kinds = ((25.0, 0.95), (12.5, 0.75), (5.0, 0.6))
    weights = np.array([[size if chance.random() < often else 0.0 for size, often in kinds] for _ in range(SETS)])
    weights[~weights.any(axis=1), 0] = 25.0
    lacks = np.round(chance.uniform(50, 900, SETS), 1)
    weights[chance.random(SETS) < 0.2] /= 2
    plenty = [10**6] * 3
    best = [allocate([linear_demand("", *each, plenty)], plenty).counts[0] for each in zip(lacks, weights, strict=True)]
    stock = [int(count * share) for count in np.array(best).sum(axis=0)]

    def ours() -> Allocation:
        each = zip(lacks, weights, strict=True)
        return allocate([linear_demand(f"{at}", *one, stock) for at, one in enumerate(each)], stock)

    return Case(ours=ours, lacks=lacks, weights=weights, stock=stock)


def cases() -> Iterator[tuple[str, int, float, Case]]:
    """What is compared: the kind of house, its seed, how much of the stock there is."""
    for share in SHARES:
        for seed in range(4):
            yield "as written", seed, share, as_written(seed, share)
    for share in (1.2, *SHARES[3:]):
        for seed in range(4):
            yield "bare counts", seed, share, bare_counts(seed, share)


def main() -> None:
    """Print a line for each case."""
    limit = float(sys.argv[1]) if len(sys.argv) > 1 else 30.0
    print("house         stock   ours: s, largest, beyond, proven    general: s, largest, beyond, proven    ratio")
    for kind, seed, share, case in cases():
        case.ours()
        start = time.process_time()
        own = case.ours()
        ours = time.process_time() - start
        unit = LB if kind == "as written" else 1.0
        most = max(map(abs, own.balance)) / unit
        start = time.process_time()
        largest, beyond, proven = by_milp(case.lacks, case.weights, case.stock, limit)
        theirs = time.process_time() - start
        print(f"{kind:11s} {seed:d} {share:5.0%}  {ours:7.3f} {most:8.3f} {own.beyond / unit:10.3f} "
              f"{own.is_best!s:5} {theirs:7.2f} {largest:8.3f} {beyond:10.3f} {proven!s:5} {theirs / ours:7.1f}",
              flush=True)  # fmt: skip


if __name__ == "__main__":
    main()
