"""Lines that lean, bridles, breast lines. Expected numbers are equilibrium by hand unless a source is named."""

import math

import pytest

from counterpoise.errors import OutOfRange
from counterpoise.statics import Bridle, Run, breast_pull, bridle_legs, rest_along


def test_two_lines_that_lean_outward_alike_stretch_the_batten_and_do_not_move_it() -> None:
    # 1 m out over 10 m: H = 500 / 10
    found = rest_along([Run(x=2.0, block_x=1.0, drop=10.0), Run(x=8.0, block_x=9.0, drop=10.0)], [500.0, 500.0])
    assert found.drift == pytest.approx(0.0)
    assert found.along == pytest.approx((-50.0, 50.0))
    assert found.axial.xs == (2.0, 8.0)
    assert found.axial.forces == pytest.approx((50.0,))
    assert found.tensions == pytest.approx([500 * math.hypot(1, 0.1)] * 2)


def test_lines_that_lean_inward_press_the_batten() -> None:
    found = rest_along([Run(x=1.0, block_x=3.0, drop=10.0), Run(x=9.0, block_x=7.0, drop=10.0)], [500.0, 500.0])
    assert found.axial.forces == pytest.approx((-100.0,))


def test_a_free_batten_drifts_until_nothing_pulls_it_along() -> None:
    runs = [Run(x=1.0, block_x=1.0, drop=8.0), Run(x=5.0, block_x=6.0, drop=8.0), Run(x=9.0, block_x=9.0, drop=4.0)]
    found = rest_along(runs, [300.0, 600.0, 200.0])
    # 300 d/8 + 600 (d - 1)/8 + 200 d/4 = 0
    assert found.drift == pytest.approx((600 / 8) / (300 / 8 + 600 / 8 + 200 / 4))
    assert sum(found.along) == pytest.approx(0.0, abs=1e-9)
    assert found.holding == 0.0
    assert found.axial.forces == pytest.approx((300 * found.drift / 8, -200 * found.drift / 4))


def test_a_breast_line_along_the_batten_holds_what_would_drift() -> None:
    runs = [Run(x=1.0, block_x=2.0, drop=10.0), Run(x=9.0, block_x=10.0, drop=10.0)]
    free, held = rest_along(runs, [400.0, 400.0]), rest_along(runs, [400.0, 400.0], held_at=0.0)
    assert free.drift == pytest.approx(1.0)
    assert free.tensions == pytest.approx((400.0, 400.0))
    assert (held.drift, held.holding) == pytest.approx((0.0, -80.0))
    assert held.axial.xs == (0.0, 1.0, 9.0)
    assert held.axial.forces == pytest.approx((80.0, 40.0))


def test_slack_lines_pull_nothing_along() -> None:
    runs = [Run(x=1.0, block_x=1.0, drop=10.0), Run(x=5.0, block_x=9.0, drop=10.0), Run(x=9.0, block_x=9.0, drop=10.0)]
    found = rest_along(runs, [400.0, 0.0, 400.0])
    assert found.drift == 0.0
    assert found.tensions[1] == 0.0


def test_the_same_lean_pulls_more_at_high_trim() -> None:
    low, high = (
        rest_along([Run(x=2.0, block_x=1.0, drop=d), Run(x=8.0, block_x=9.0, drop=d)], [500.0, 500.0])
        for d in (20.0, 4.0)
    )
    assert high.axial.forces[0] == pytest.approx(5 * low.axial.forces[0])


def test_drift_lets_a_leaning_line_reach_deeper_by_pythagoras() -> None:
    runs = [Run(x=1.0, block_x=2.0, drop=10.0), Run(x=9.0, block_x=9.0, drop=10.0)]
    found = rest_along(runs, [400.0, 400.0])
    assert found.drift == pytest.approx(0.5)
    for run, drop in zip(runs, found.drops, strict=True):
        rope = math.hypot(run.drop, run.block_x - run.x)
        assert math.hypot(run.drop + drop, run.block_x - run.x - 0.5) == pytest.approx(rope)


def test_a_plumb_bridle_shares_by_the_lever_and_presses_the_batten_between_its_legs() -> None:
    # Legs of 45 degrees: each 300 N down, 300 N along, 300 sqrt 2 in the leg
    run = Run(x=5.0, block_x=5.0, drop=10.0, bridle=Bridle(first=4.0, second=6.0, rise=1.0))
    legs = bridle_legs(run, 600.0)
    assert legs.verticals == pytest.approx((300.0, 300.0))
    assert legs.tensions == pytest.approx((300 * math.sqrt(2),) * 2)
    found = rest_along([run, Run(x=9.0, block_x=9.0, drop=10.0)], [600.0, 300.0])
    assert found.axial.xs == (4.0, 6.0, 9.0)
    assert found.axial.forces == pytest.approx((-300.0, 0.0))


def test_an_uneven_bridle_balances_its_apex() -> None:
    run = Run(x=4.5, block_x=5.0, drop=10.0, bridle=Bridle(first=4.0, second=6.0, rise=0.8))
    legs = bridle_legs(run, 600.0, 30.0)
    assert sum(legs.verticals) == pytest.approx(600.0)
    assert sum(legs.along) == pytest.approx(30.0)
    # each leg pulls along its own direction
    assert legs.along[0] / legs.verticals[0] == pytest.approx(0.5 / 0.8)
    assert legs.along[1] / legs.verticals[1] == pytest.approx(-1.5 / 0.8)


def test_flat_legs_carry_many_times_the_pull() -> None:
    # Trade tables of bridle legs (common practice): at 30 degrees to the level each of two legs carries the whole load
    rise = math.tan(math.radians(30.0))
    run = Run(x=1.0, block_x=1.0, drop=10.0, bridle=Bridle(first=0.0, second=2.0, rise=rise))
    assert bridle_legs(run, 1000.0).tensions == pytest.approx((1000.0, 1000.0))


def test_a_bridle_whose_apex_is_not_between_its_points_is_refused() -> None:
    run = Run(x=7.0, block_x=7.0, drop=10.0, bridle=Bridle(first=4.0, second=6.0, rise=1.0))
    with pytest.raises(OutOfRange, match="leg of a bridle"):
        bridle_legs(run, 600.0)
    with pytest.raises(OutOfRange, match="bridles on the line"):
        bridle_legs(Run(x=7.0, block_x=7.0, drop=10.0), 600.0)


def test_nothing_that_pulls_is_refused() -> None:
    with pytest.raises(OutOfRange, match="sum of pulls"):
        rest_along([Run(x=1.0, block_x=1.0, drop=10.0)], [0.0])
    with pytest.raises(OutOfRange, match="pull of line 1"):
        rest_along([Run(x=1.0, block_x=1.0, drop=10.0)], [-1.0])


@pytest.mark.parametrize("rise", [-0.5, 0.0, 0.5, 2.0])
def test_a_batten_drawn_aside_is_in_balance(rise: float) -> None:
    pull, left = breast_pull(1000.0, 2.0, 10.0, rise)
    across, up = pull / math.hypot(1, rise), pull * rise / math.hypot(1, rise)
    assert across == pytest.approx(left * 2.0 / 10.0)  # the lift lines lean 2 in 10
    assert up + left == pytest.approx(1000.0)


def test_a_breast_line_as_steep_down_as_the_lift_lines_is_refused() -> None:
    with pytest.raises(OutOfRange, match="rise of the breast line"):
        breast_pull(1000.0, 2.0, 10.0, -6.0)
