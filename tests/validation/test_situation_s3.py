"""Worked situation "double purchase and a touring sheet", computed independently of this program by hand.

Batten 120 lb, piece 360 lb, arbor 90 lb, bricks 20 lb and 1.5 in, half-bricks 10 lb and 0.75 in, plates weightless,
hand line doubled, so that it travels as far as the batten.
Double purchase: the arbor weighs twice what hangs, 2 (120 + 360) = 960 lb. Pipe weight 2 x 120 - 90 = 150 lb, 7 bricks
and a half; the piece asks for 2 x 360 / 20 = 36 bricks. The sheet's 18 bricks leave (90 + 150 + 360)/2 - 480 = -180 lb
at the batten. 43.5 bricks x 1.5 in = 65.25 in of 84 in, and three plates of 1/4 in: 24 in take 16 bricks.
"""

from pathlib import Path

import pytest

from counterpoise.balance import Stack, out_of_balance
from counterpoise.checks import HouseResult, SetResult, Verdict, check
from counterpoise.cli import main
from counterpoise.documents import read_hang, read_house, read_show
from counterpoise.rigging import RiggedSet, rig
from counterpoise.units.constants import STANDARD_GRAVITY
from tests.plain_house import FT, LB, a_set, rigged_set

HERE = Path(__file__).parent / "situations" / "s3"
FILES = [str(HERE / f"{name}.yaml") for name in ("house", "show")]
INCH = FT / 12


def _result(hang: str) -> HouseResult:
    house, show, said = ((HERE / f"{name}.yaml").read_text("utf-8") for name in ("house", "show", hang))
    one, piece = read_house(house), read_show(show)
    return check(rig(one, piece, read_hang(said, one, piece)))


def _judged(hang: str = "balanced") -> SetResult:
    found = _result(hang).set_called("9")
    assert found is not None
    return found


def _rigged(found: SetResult) -> RiggedSet:
    assert found.rigged is not None
    return found.rigged


def test_the_empty_set_is_in_balance_with_seven_and_a_half() -> None:
    one = _rigged(_judged())
    assert out_of_balance(one, Stack(7, 1), 20 * FT, ()).best / LB == pytest.approx(0.0, abs=1e-6)


def test_the_piece_asks_for_36_bricks_and_the_arbor_weighs_twice_what_hangs() -> None:
    found = _judged()
    assert found.stack == Stack(7 + 36, 1)
    assert found.add == "+36+0"
    whole = (_rigged(found).arbor_mass + Stack(43, 1).mass(_rigged(found))) * STANDARD_GRAVITY
    assert whole / LB == pytest.approx(960)
    lock = found.row("lock")
    assert lock is not None
    assert lock.value.best / LB == pytest.approx(0.0, abs=0.01)


def test_the_stack_is_as_high_as_computed_and_fits() -> None:
    found = _judged()
    row = found.row("stack")
    assert row is not None
    assert row.value.best / INCH == pytest.approx(65.25 + 3 * 0.25)
    assert row.limit is not None
    assert row.limit / INCH == pytest.approx(84)
    assert row.verdict is Verdict.WITHIN


def test_the_bricks_of_the_touring_sheet_leave_it_180_pounds_batten_heavy_and_are_refused() -> None:
    found = _judged("sheet")
    assert (found.stack, found.stack_basis) == (Stack(7 + 18, 1), "stated")
    assert [span.best / LB for _, span in found.balance] == [pytest.approx(-180)] * len(found.balance)
    assert found.verdict is Verdict.OVER
    lock = found.row("lock")
    assert lock is not None
    assert lock.value.best / LB == pytest.approx(180)  # the hand line is doubled: it travels and pulls as the batten
    assert lock.verdict is Verdict.OVER
    mend = next(one.mend for one in found.findings if one.code == "LOCK-OVER")
    assert "43 and 1 small bricks, 360 lb more on the arbor" in mend


def test_with_a_hand_line_that_is_tied_to_the_arbor_the_same_would_pull_twice_on_the_lock() -> None:
    house = read_house((HERE / "house.yaml").read_text("utf-8").replace("with the batten ", "with the arbor "))
    show = read_show((HERE / "show.yaml").read_text("utf-8"))
    found = check(rig(house, show, read_hang((HERE / "sheet.yaml").read_text("utf-8"), house, show))).set_called("9")
    assert found is not None
    lock = found.row("lock")
    assert lock is not None
    assert lock.value.best / LB == pytest.approx(2 * 180)


def test_bricks_names_the_purchase_and_tells_both_sides(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["bricks", *FILES, str(HERE / "balanced.yaml")]) == 0
    said = capsys.readouterr().out
    assert "double purchase: 43 and 1 small on, pipe weight 7 and 1 small" in said
    assert "36 full from gallery" in said
    assert "720 lb on the arbor, 360 lb at the batten" in said
    assert "Left of full: 24 at gallery." in said
    assert "Stock: enough" in said


@pytest.mark.parametrize(("more", "pounds"), [(Stack(44, 1), 10.0), (Stack(43, 2), 5.0)])
def test_each_brick_on_a_double_purchase_arbor_is_half_of_itself_at_the_batten(more: Stack, pounds: float) -> None:
    one = _rigged(_judged())
    gained = out_of_balance(one, more, 10 * FT).best - out_of_balance(one, Stack(43, 1), 10 * FT).best
    assert gained / LB == pytest.approx(pounds)


def test_a_brick_of_25_pounds_is_half_of_itself_too() -> None:
    one = rigged_set(a_set(purchase="double", high_trim="40 ft"))  # bricks of 25 lb
    more = out_of_balance(one, Stack(9), 10 * FT).best - out_of_balance(one, Stack(8), 10 * FT).best
    assert more / LB == pytest.approx(12.5)
