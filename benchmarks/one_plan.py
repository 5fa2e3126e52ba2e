"""The plan of one set beside the replay of its result, and the replay of plans that grow.

    python -m benchmarks.one_plan

Nothing else here plans such work, so the peer is our own replay: what it costs only to judge the steps that were found.
"""

import statistics
import sys
from functools import partial
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from benchmarks.timing import begin, race, verdict
from counterpoise.planning import Plan, load_in, replay, strike
from counterpoise.rigging import RiggedHouse
from tests.properties.test_plans import house_of, numbers
from tests.properties.test_tall_plans import house_of as tall_house_of, numbers as tall_numbers

HOUSES, MOST = 40, 50.0
ROUND_TRIPS = (1, 4, 16, 64)


def main() -> None:
    """Print the ratios."""
    begin("One set: plan beside replay")
    plain = [house_of(numbers(seed)) for seed in range(HOUSES)]
    tall = [tall_house_of(tall_numbers(seed))[0] for seed in range(HOUSES)]
    for name, houses in (("free pieces and cloth", plain), ("tall pieces over bridges", tall)):
        ratios = sorted(ratio for one in houses if (ratio := beside(one)) is not None)
        print(f"{name}: {len(ratios)} of {len(houses)} random houses have a plan; plan / replay least {ratios[0]:.1f}, "
              f"median {statistics.median(ratios):.1f}")  # fmt: skip
        verdict("greatest plan / replay", ratios[-1], MOST, at_most=True)
    grows(next(one for one in plain if load_in(one, one.sets[0].label).refusal is None))


def beside(house: RiggedHouse) -> float | None:
    """How many times the replay of its result a load-in takes; None where there is none."""
    label = house.sets[0].label
    plan = load_in(house, label)
    if plan.refusal is not None:
        return None
    times = race({"plan": lambda: load_in(house, label), "replay": lambda: judged(house, plan)}, rounds=5)
    return times["plan"] / times["replay"]


def judged(house: RiggedHouse, plan: Plan) -> None:
    """The steps of a plan, every one of them allowed."""
    assert replay(house, plan.steps, plan.begin).refusal is None


def grows(house: RiggedHouse) -> None:
    """Load-in and strike, again and again in one replay: microseconds a step."""
    label = house.sets[0].label
    there, back = load_in(house, label), strike(house, label)
    each = []
    for count in ROUND_TRIPS:
        steps = (there.steps + back.steps) * count
        assert replay(house, steps, there.begin).refusal is None
        taken = race({"replay": partial(replay, house, steps, there.begin)}, rounds=5)["replay"]
        each.append(taken / len(steps))
        print(f"  replay of {len(steps):>5} steps: {1e6 * each[-1]:.0f} us a step")
    verdict("a step of the longest / of the shortest", each[-1] / each[0], 1.5, at_most=True)


if __name__ == "__main__":
    main()
