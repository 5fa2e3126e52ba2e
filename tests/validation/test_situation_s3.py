"""Worked situation "double purchase and a touring sheet", computed independently of this program by hand.

Batten 120 lb, piece 360 lb, arbor 90 lb, bricks 20 lb and 1.5 in, half-bricks 10 lb and 0.75 in, plates weightless.
Double purchase: the arbor weighs twice what hangs, 2 (120 + 360) = 960 lb. Pipe weight 2 x 120 - 90 = 150 lb, 7 bricks
and a half; the piece asks for 2 x 360 / 20 = 36 bricks. The sheet's 18 bricks leave (90 + 150 + 360)/2 - 480 = -180 lb
at the batten. 43.5 bricks x 1.5 in = 65.25 in of 84 in.

An arbor here holds one kind of brick, so the test counts in half-bricks: 15 for the pipe, 72 for the piece.
"""

from typing import Any

import pytest

from counterpoise.balance import Stack, out_of_balance
from counterpoise.checks import SetResult, Verdict
from counterpoise.units.constants import STANDARD_GRAVITY
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, hung, judged, rigged_set

INCH = FT / 12


def _set_nine(**changes: Any) -> Map:
    return a_set(
        purchase="double", hand_line="with the arbor", high_trim="40 ft", brick="half", pipe_weight="15",
        batten={"hardware": "5.76 lb"}, arbor={"weight": "90 lb", "usable height": "84 in"}, **changes,
    )  # fmt: skip


def _judged(**hang: Any) -> SetResult:
    brick = {"brick": "half", "weight": "10 lb", "thickness": "0.75 in", "stock": {"bridge": "400"}}
    house = a_house(_set_nine(), bricks=[brick])
    found = judged(house, [a_piece(weight="360 lb")], [hung()], **hang).set_called("9")
    assert found is not None
    return found


def test_the_proposed_stack_weighs_twice_what_hangs() -> None:
    found = _judged()
    assert found.stack is not None
    assert found.rigged is not None
    assert found.stack.bricks == 15 + 72
    whole = (found.rigged.arbor_mass + found.stack.mass(found.rigged)) * STANDARD_GRAVITY
    assert whole / LB == pytest.approx(960)
    lock = found.row("lock")
    assert lock is not None
    assert lock.value.best / LB == pytest.approx(0.0, abs=0.01)


def test_the_stack_is_as_high_as_computed_and_fits() -> None:
    row = _judged().row("stack")
    assert row is not None
    assert row.value.best / INCH == pytest.approx(65.25)
    assert row.verdict is Verdict.WITHIN


def test_the_bricks_of_the_touring_sheet_leave_it_180_pounds_batten_heavy_and_are_refused() -> None:
    found = _judged(stated_bricks={"9": str(15 + 36)})
    assert found.stack_basis == "stated"
    assert [span.best / LB for _, span in found.balance] == [pytest.approx(-180)] * len(found.balance)
    assert found.verdict is Verdict.OVER
    lock = found.row("lock")
    assert lock is not None
    assert lock.value.best / LB == pytest.approx(2 * 180)  # the hand line is tied to the arbor: it pulls twice
    assert lock.verdict is Verdict.OVER


def test_each_brick_on_a_double_purchase_arbor_is_half_of_itself_at_the_batten() -> None:
    one = rigged_set(a_set(purchase="double", high_trim="40 ft"))  # bricks of 25 lb
    more = out_of_balance(one, Stack(9), 10 * FT).best - out_of_balance(one, Stack(8), 10 * FT).best
    assert more / LB == pytest.approx(12.5)
