from dataclasses import replace

import pytest

from counterpoise.balance import Stack
from counterpoise.documents import Condition
from counterpoise.planning.holds import lock_limit, pull, pulls_over, standing
from counterpoise.rigging import RiggedSet
from counterpoise.units import KG_PER_POUND, METRES_PER_FOOT, NEWTONS_PER_POUND_FORCE
from tests.small_house import small_house

FOOT = METRES_PER_FOOT
HOUSE = small_house(pieces={"flat": "200 lb"}, height="5 ft")
# five lines of 0.11 lb/ft, so that the out of balance changes by 1.1 lb/ft
SET = replace(HOUSE.sets[0], line_mass=0.11 * KG_PER_POUND / FOOT)


def test_a_tall_piece_is_judged_just_below_where_it_lands_not_only_at_the_ends() -> None:
    # 14 bricks: -200 + 200 and what the lines do; landed, 200 lb more, and each foot lower takes 1.1 lb off
    pulls = pulls_over(SET, Stack(14), 5 * FOOT, 4 * FOOT, SET.pieces)
    at_low = pull(SET, Stack(14), 4 * FOOT, SET.pieces)
    worst = max(one.arbor for one in pulls)
    assert (worst - at_low.arbor) / NEWTONS_PER_POUND_FORCE == pytest.approx(1.1, abs=0.001)


def test_a_piece_that_stands_with_taut_ties_takes_up_what_is_missing_on_the_arbor() -> None:
    flat = HOUSE.sets[0]
    for bricks in range(6, 15):  # pipe weight 6 to the full 200 lb
        assert pull(flat, Stack(bricks), 5 * FOOT, flat.pieces).worst == pytest.approx(0.0, abs=1e-6)
    assert pull(flat, Stack(15), 5 * FOOT, flat.pieces).arbor / NEWTONS_PER_POUND_FORCE == pytest.approx(25.0)


def test_half_the_tension_blocks_hold_down_may_be_less_than_the_lock() -> None:
    # batten-heavy pulls the tension block up with twice the hand line: 60 lb of hold-down, 30 lb
    block = SET.written.tension_block
    assert block is not None
    weak = replace(block, low=60 * NEWTONS_PER_POUND_FORCE)
    arbor, batten = lock_limit(HOUSE, replace(SET, written=replace(SET.written, tension_block=weak)))
    assert arbor / NEWTONS_PER_POUND_FORCE == pytest.approx(50.0)
    assert batten / NEWTONS_PER_POUND_FORCE == pytest.approx(30.0)


def test_a_hand_line_tied_to_the_arbor_of_a_double_purchase_set_feels_twice_the_out_of_balance() -> None:
    arbor, _ = lock_limit(HOUSE, replace(SET, purchase=2, hand_line_ratio=2.0))
    assert arbor / NEWTONS_PER_POUND_FORCE == pytest.approx(25.0)


def as_inspected(part: str, carries: float | None) -> RiggedSet:
    """The set with something found on a part of it, and what that may carry so [lb], None where nobody says."""
    block = SET.written.tension_block
    assert block is not None
    known = None if carries is None else replace(block, low=carries * NEWTONS_PER_POUND_FORCE)
    found = Condition(part=part, found="worn", who="A. Vee", when="2026-03-01", carries=known)
    return replace(SET, line_mass=0.0, written=replace(SET.written, condition=(found,)))


@pytest.mark.parametrize(("part", "carries", "arbor", "batten"), [
    ("lock", 20.0, 20.0, 20.0), ("lock", None, 0.0, 0.0), ("lock", 80.0, 50.0, 50.0), ("hand line", 35.0, 35.0, 35.0),
    ("tension block", 44.0, 50.0, 22.0), ("arbor", None, 50.0, 50.0),
])  # fmt: skip
def test_a_plan_counts_on_no_more_than_an_inspection_left_a_part_to_carry(
    part: str, carries: float | None, arbor: float, batten: float
) -> None:
    limits = lock_limit(HOUSE, as_inspected(part, carries))
    assert [each / NEWTONS_PER_POUND_FORCE for each in limits] == pytest.approx([arbor, batten])


def test_a_stop_of_which_an_inspection_does_not_say_what_it_carries_carries_nothing() -> None:
    one = as_inspected("top stop", None)
    stood = standing(HOUSE, one, Stack(6), one.low, tuple(replace(piece, parts=tuple(
        replace(part, clear=0.0) for part in piece.parts)) for piece in one.pieces))  # fmt: skip
    assert stood.by == "top stop"
    assert stood.over / NEWTONS_PER_POUND_FORCE == pytest.approx(200.0)


def test_the_rating_of_the_hand_line_limits_what_a_plan_leaves_to_the_lock() -> None:
    block = SET.written.tension_block
    assert block is not None
    hand_line = replace(SET.written.hand_line, rating=replace(block, low=30 * NEWTONS_PER_POUND_FORCE))
    arbor, _ = lock_limit(HOUSE, replace(SET, written=replace(SET.written, hand_line=hand_line)))
    assert arbor / NEWTONS_PER_POUND_FORCE == pytest.approx(30.0)
