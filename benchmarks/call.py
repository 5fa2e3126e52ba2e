"""A whole call: the load-in of 60 sets and a changeover of 60, beside the same problem given whole to a general solver.

    python -m benchmarks.call

The solver is HiGHS, through scipy's `milp`: which set is worked at which place in the order, and from which bridge, is
asked with a whole number 0 or 1 each; the stock of every bridge after every place in the order is a row; what is
minimised is how many bricks must be brought or sent. It is told what each set moves, which ours finds out as well.
"""

import sys
import time
from pathlib import Path
from random import Random
from typing import Any

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import lil_matrix

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from benchmarks.timing import begin, verdict
from counterpoise.planning.bridges import choose_bridges
from counterpoise.planning.call import Call, load_in_call
from counterpoise.planning.floors import Floors, Moved, Task
from counterpoise.planning.order import find_order
from counterpoise.planning.turns import floors_of
from counterpoise.rigging import RiggedHouse
from tests.plain_house import a_house, a_piece, a_set, hung, rigged

SETS, LIMIT = 60, 120.0  # sets; the most the solver is given [s]


def main() -> None:
    """Print times, and whether what was found is no worse."""
    begin(f"Calls of {SETS} sets")
    for bridges in (("upper",), ("upper", "lower")):
        house, counts = a_full_house(bridges)
        call, ours = load_in_call(house), LIMIT
        for _ in range(3):  # what else runs on the machine makes it slower, never faster
            start = time.perf_counter()
            call = load_in_call(house)
            ours = min(ours, time.perf_counter() - start)
        assert call.refusal is None, call.refusal
        theirs, best, is_done = by_milp([(0, one) for one in counts], stock_of(call, bridges), {}, len(bridges))
        told(f"load-in, {len(bridges)} bridge{'s' if len(bridges) > 1 else ''}, planned, ordered, judged and said",
             ours, call.order.carried, theirs, best, is_done)  # fmt: skip
        verdict("load-in of 60 sets, all of it [s]", ours, 2.0, at_most=True)
        alone = searched(house, call, counts, bridges)
        print(f"  of which the bridges and the order {1000 * alone:.1f} ms, which is what the solver is asked")
        verdict("solver / ours, what the solver is asked", theirs / alone, 10.0, at_most=False)
    for seed in range(3):
        pairs, stock, most = a_changeover(seed)
        tasks = [Task(name=str(at), moved=(Moved("full", "bridge", off), Moved("full", "bridge", -on)))
                 for at, (off, on) in enumerate(pairs)]  # fmt: skip
        floors = Floors(stock={("full", "bridge"): stock}, mass={"full": 1.0}, most={"bridge": float(most)})
        start = time.perf_counter()
        order = find_order(tasks, floors)
        ours = time.perf_counter() - start
        theirs, best, is_done = by_milp(pairs, [stock], {0: most}, 1)
        told(f"changeover {seed}, the order alone", ours, order.carried, theirs, best, is_done)
        verdict("solver / ours", theirs / ours, 10.0, at_most=False)


def searched(house: RiggedHouse, call: Call, counts: list[int], bridges: tuple[str, ...]) -> float:
    """Time [s] to choose the bridge of every set and the order, when it is known what each moves."""
    floors = floors_of(house, call.begin)
    ways = [[Task(name=str(at), moved=(Moved("full", name, -count),)) for name in bridges]
            for at, count in enumerate(counts)]  # fmt: skip
    start = time.perf_counter()
    chosen = choose_bridges(ways, floors)
    order = find_order([each[way] for each, way in zip(ways, chosen, strict=True)], floors)
    taken = time.perf_counter() - start
    assert not order.needs_help
    return taken


def told(what: str, ours: float, carried: int, theirs: float, best: float | None, is_done: bool) -> None:
    """One comparison."""
    found = "nothing found" if best is None else f"{best:.0f} carried"
    print(f"{what}: ours {ours:.3f} s, {carried} carried; solver {theirs:.1f} s, {found}"
          f"{'' if is_done else ', stopped at its limit'}")  # fmt: skip


def a_full_house(bridges: tuple[str, ...]) -> tuple[RiggedHouse, list[int]]:
    """Sixty sets with 4 to 40 bricks each; the stock is just enough, divided among the bridges."""
    chance = Random(60)
    counts = [chance.randint(4, 40) for _ in range(SETS)]
    half = sum(counts[::2]) if len(bridges) == 2 else sum(counts)
    stock = dict(zip(bridges, (half, sum(counts) - half), strict=False))
    tree: dict[str, Any] = a_house(
        *(a_set(str(at + 1), distance=f"{at + 1} ft", stops={"top": "2000 lb", "bottom": "2000 lb"})
          for at in range(SETS)),
        bricks=[{"brick": "full", "weight": "25 lb", "thickness": "1 in",
                 "stock": {name: str(count) for name, count in stock.items()}}],
        bridges=[{"bridge": name, "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft"} for name in bridges],
        rules={"lock hold": "50 lb"},
    )  # fmt: skip
    pieces = [a_piece(f"piece {at}", f"{25 * count} lb") for at, count in enumerate(counts)]
    return rigged(tree, pieces, [hung(f"piece {at}", str(at + 1)) for at in range(SETS)]), counts


def stock_of(call: Call, bridges: tuple[str, ...]) -> list[int]:
    """What lies on each bridge before the first step."""
    return [call.begin.stock["full"][name] for name in bridges]


def a_changeover(seed: int) -> tuple[list[tuple[int, int]], int, int]:
    """Bricks off and on of sixty sets, with little to spare on the floor and in the stock."""
    chance = Random(seed)
    pairs = [(chance.randint(0, 45), chance.randint(0, 45)) for _ in range(SETS)]
    net = sum(off - on for off, on in pairs)
    stock = max(0, -net) + chance.randint(0, 5)
    return pairs, stock, stock + max(0, net) + 50


def by_milp(
    pairs: list[tuple[int, int]], stock: list[int], most: dict[int, int], places: int
) -> tuple[float, float | None, bool]:
    """Time [s], bricks carried (None: nothing found), and whether it came to its end."""
    sets = len(pairs)

    def x(one: int, place: int, at: int) -> int:
        return (one * places + place) * sets + at

    works = sets * places * sets

    def brought(place: int, at: int) -> int:
        return works + place * sets + at

    def sent(place: int, at: int) -> int:
        return works + (places + place) * sets + at

    columns = works + 2 * places * sets
    rows: list[tuple[dict[int, float], float, float]] = []
    rows += [({x(one, place, at): 1.0 for place in range(places) for at in range(sets)}, 1.0, 1.0)
             for one in range(sets)]  # fmt: skip
    rows += [({x(one, place, at): 1.0 for one in range(sets) for place in range(places)}, 1.0, 1.0)
             for at in range(sets)]  # fmt: skip
    for place in range(places):
        for at in range(sets):
            carried = {brought(place, k): 1.0 for k in range(at + 1)} | {sent(place, k): -1.0 for k in range(at + 1)}
            before = {x(one, place, k): float(off - on) for one, (off, on) in enumerate(pairs) for k in range(at)}
            after = {x(one, place, at): float(off - on) for one, (off, on) in enumerate(pairs)}
            rows.append((carried | before | after, -float(stock[place]), np.inf))
            if place in most:
                peak = {x(one, place, at): float(off) for one, (off, _) in enumerate(pairs)}
                rows.append((carried | before | peak, -np.inf, float(most[place] - stock[place])))
    matrix = lil_matrix((len(rows), columns))
    for k, (row, _, _) in enumerate(rows):
        for column, value in row.items():
            matrix[k, column] = value
    cost = np.concatenate([np.zeros(works), np.ones(columns - works)])
    whole = np.ones(columns)
    high = np.concatenate([np.ones(works), np.full(columns - works, 1000.0)])  # more would be absurd
    start = time.perf_counter()
    found = milp(
        cost, constraints=LinearConstraint(matrix.tocsr(), [row[1] for row in rows], [row[2] for row in rows]),
        integrality=whole, bounds=Bounds(np.zeros(columns), high), options={"time_limit": LIMIT},
    )  # fmt: skip
    return time.perf_counter() - start, None if found.x is None else float(cost @ found.x), found.status == 0


if __name__ == "__main__":
    main()
