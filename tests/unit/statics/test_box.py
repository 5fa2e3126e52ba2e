import math
from random import Random

import numpy as np
import pytest
from scipy.optimize import linprog

from counterpoise.statics.box import Straight, highest


def program(seed: int) -> tuple[Straight, list[Straight]]:
    random = Random(seed)
    doubts, count = random.randint(1, 12), random.randint(1, 8)

    def straight(spread: float) -> Straight:
        return Straight(
            random.gauss(0.0, spread),
            tuple(random.choice([0.0, 1.0, 1.0]) * random.gauss(0.0, 1.0) for _ in range(doubts)),
        )

    return straight(1.0), [straight(1.5) for _ in range(count)]


def test_the_highest_value_is_that_of_a_general_solver_of_linear_programmes() -> None:
    # scipy.optimize.linprog (HiGHS), an outside reference
    empty = 0
    for seed in range(300):
        target, conditions = program(seed)
        found = highest(target, conditions)
        outside = linprog(
            [-s for s in target.slopes],
            A_ub=[[-s for s in c.slopes] for c in conditions],
            b_ub=[c.start for c in conditions],
            bounds=[(0.0, 1.0)] * len(target.slopes),
        )
        if outside.status == 2:  # infeasible
            assert found.limit == -math.inf, seed
            empty += 1
            continue
        assert found.limit == pytest.approx(target.start - outside.fun, abs=1e-9), seed
        assert found.at is not None
        assert target.value(found.at) == pytest.approx(found.limit, abs=1e-9)
        assert min(c.value(found.at) for c in conditions) >= -1e-9
    assert 50 < empty < 250


def test_no_point_of_the_part_lies_above_the_limit_even_when_it_was_left_early() -> None:
    generator = np.random.default_rng(4)
    looked = 0
    for seed in range(100):
        target, conditions = program(seed)
        limit = highest(target, conditions, enough=math.inf).limit  # left before the first step
        for u in generator.random((200, len(target.slopes))):
            if all(c.value(u.tolist()) >= 0.0 for c in conditions):
                assert target.value(u.tolist()) <= limit + 1e-12
                looked += 1
    assert looked > 1000


def test_a_part_that_is_a_single_point_is_found() -> None:
    at_half = [Straight(-0.5, (1.0,)), Straight(0.5, (-1.0,))]  # u >= 1/2 and u <= 1/2
    found = highest(Straight(0.0, (2.0,)), at_half)
    assert found.limit == pytest.approx(1.0)
    assert found.at == pytest.approx((0.5,))


def test_with_no_doubt_at_all_the_start_is_the_highest() -> None:
    assert highest(Straight(3.0, ()), [Straight(1.0, ())]).limit == 3.0
    assert highest(Straight(3.0, ()), [Straight(-1.0, ())]).limit == -math.inf
