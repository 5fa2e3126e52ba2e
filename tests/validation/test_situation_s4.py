"""Worked situation "electric at three trims", computed independently of this program by hand, without its cable.

Single purchase, 6 lift lines of 0.110 lb/ft, trims 4, 30 and 58 ft. Lift line crosses sides as the batten rises:
dΔ/dh = (1 + 1/r) n w = 2 x 6 x 0.110 = 1.32 lb/ft, so +34.3 lb at 30 ft and +71.3 lb at 58 ft where it is balanced at
4 ft, past 50 lb from 4 + 50/1.32 = 41.9 ft up; balanced at mid-travel ±36. On a double purchase set the rate is
1.5 x 0.66 = 0.99 lb/ft and 58 ft comes to +53.5 lb. The documents know no electric cable yet, so
its own figures are not tested here.
"""

from typing import Any

import pytest

from counterpoise.balance import Stack, out_of_balance
from counterpoise.checks import Verdict
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, hung, judged, rigged_set

SIX = {"at": ["20' SR", "12' SR", "4' SR", "4' SL", "12' SL", "20' SL"], "weight": "0.110 lb/ft"}


def _electric(**changes: Any) -> Map:
    return a_set(lines=SIX, **changes)


def _gained(one: Map, height: float) -> float:
    found = rigged_set(one, [a_piece("electric")], [hung("electric")])
    at = [out_of_balance(found, Stack(6), feet * FT).best for feet in (4.0, height)]
    return (at[1] - at[0]) / LB


@pytest.mark.parametrize(("height", "gained"), [(30.0, 34.3), (58.0, 71.3), (41.9, 50.0)])
def test_lift_lines_make_a_set_balanced_at_low_trim_arbor_heavy_above(height: float, gained: float) -> None:
    assert _gained(_electric(), height) == pytest.approx(gained, abs=0.05)


def test_on_a_double_purchase_set_the_lift_lines_alone_gain_three_quarters_of_it() -> None:
    assert _gained(_electric(purchase="double"), 58.0) == pytest.approx(53.5, abs=0.05)


def test_the_proposed_stack_balances_at_mid_travel_within_36_pounds_either_way() -> None:
    house = a_house(_electric(), bricks=[{"brick": "full", "weight": "0.1 lb", "thickness": "0.001 in", "stock": {}}])
    found = judged(house, [a_piece("electric")], [hung("electric")]).set_called("9")
    assert found is not None
    ends = [found.balance[0][1].best / LB, found.balance[-1][1].best / LB]
    assert ends == [pytest.approx(-35.6, abs=0.1), pytest.approx(35.6, abs=0.1)]  # 71.28 / 2; the situation says ±36


# 0.66 lb/ft x 58 ft hang below the blocks at low trim. The arbor takes 114.24 + 100 + 38.28 - 64.24 = 188.28 lb to
# balance there; 188 bricks of a pound leave Δ(58) = +71.28 - 0.28 = +71.0 lb, which the lock may not be asked to hold.
def test_balanced_at_low_trim_it_may_not_be_let_go_at_storage() -> None:
    house = a_house(_electric(), bricks=[{"brick": "full", "weight": "1 lb", "thickness": "0.01 in", "stock": {}}])
    found = judged(house, [a_piece("electric")], [hung("electric")], stated_bricks={"9": "188"}).set_called("9")
    assert found is not None
    lock, stop = found.row("lock"), found.row("bottom stop")
    assert lock is not None
    assert stop is not None
    assert lock.value.best / LB == pytest.approx(71.0, abs=0.05)
    assert lock.verdict is Verdict.OVER
    assert stop.value.best / LB == pytest.approx(71.0, abs=0.05)  # standing on it is judged apart
    assert stop.verdict is Verdict.WITHIN
