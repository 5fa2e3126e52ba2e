"""Room left past the outer lines, where the drop of a tip is the first limit met. Handbook sums."""

from __future__ import annotations

import math

import pytest

from counterpoise.loadpath import forces_of, room_for
from counterpoise.loadpath.forces import Forces
from tests.plain_house import LB, a_set, rigged_set

# A weightless pipe on two lines 20 ft apart that do not stretch: a load P at a tip a = 11 ft past its line drops it by
# P a² (L + a) / 3 E I (AISC beam tables, overhanging one support).
ONE = a_set(
    lines={"at": ["10' SR", "10' SL"], "stiffness": "100,000,000 lb"},
    batten={"weight": "0.001 lb/ft", "modulus": "10,000 ksi", "hardware": "400 lb"},
)
INERTIA = math.pi / 64 * (1.9**4 - 1.61**4)  # [in4]


@pytest.mark.parametrize("share", [1 / 90, 1 / 300])
def test_room_at_a_tip_is_what_drops_it_as_far_as_it_may(share: float) -> None:
    one = rigged_set(ONE)
    a, length = 132.0, 240.0
    most = share * a * 3 * 10e6 * INERTIA / (a**2 * (length + a))
    (room,) = room_for(one, (), None, None, [0.0], tip=share)
    assert room.which == "overhang"
    assert room.force / LB == pytest.approx(most, rel=0.01, abs=0.5)
    assert isinstance(forces_of(one), Forces)


def test_a_load_between_the_lines_lifts_the_tips_and_meets_no_limit_of_theirs() -> None:
    with_, without = (room_for(rigged_set(ONE), (), 144e6, None, [6.4], tip=tip)[0] for tip in (1 / 90, None))
    assert with_ == without
    assert with_.which == "moment"
