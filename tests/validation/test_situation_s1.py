"""Worked situation "tall sectional wall, three access levels", computed independently of this program by hand.

Three sections of 310 lb and 10 ft, ties 1 ft, bolted on as the wall rises; uniform, so a section that stands tilted on
its foot puts half of its weight on the batten. The first hangs free at 11 ft (1 + 10), the second joins at 12 and
hangs free at 21, the third joins at 22 and hangs free at 31. Load on the batten: 155 lb, from 11 ft 310, from 12 ft
465, from 21 ft 620, from 22 ft 775, from 31 ft 930. Pipe weight set, so Δ = 25 x bricks - load, single purchase.
"""

import pytest

from counterpoise.balance import Stack, out_of_balance
from counterpoise.checks import Verdict
from counterpoise.rigging import RiggedSet
from tests.plain_house import FT, LB, Map, a_house, hung, judged, rigged_set

SECTION = {"weight": "310 lb", "height": "10 ft", "balance height": "5 ft"}
LOADS = [(4.0, 155), (10.99, 155), (11.0, 310), (11.99, 310), (12.0, 465), (20.99, 465), (21.0, 620), (21.99, 620),
         (22.0, 775), (30.99, 775), (31.0, 930), (58.0, 930)]  # fmt: skip


def a_wall(**changes: object) -> Map:
    """The wall in its three sections."""
    sections = [SECTION, SECTION | {"joins at": "12 ft"}, SECTION | {"joins at": "22 ft"}]
    return {"piece": "wall", "spread over": "40 ft", "ties": "1 ft", "comes": "in sections",
            "sections": sections} | changes  # fmt: skip


def _hung() -> RiggedSet:
    return rigged_set(None, [a_wall()], [hung("wall")])


def test_the_low_trim_is_that_of_the_situation() -> None:
    assert _hung().low == pytest.approx(4 * FT)


@pytest.mark.parametrize(("height", "load"), LOADS)
def test_each_section_comes_on_by_half_and_then_whole(height: float, load: float) -> None:
    (wall,) = _hung().pieces
    assert [mass * 9.80665 / LB for mass in wall.hanging(height * FT)] == pytest.approx([load] * 3)


# pipe weight of 2 balances the batten of 114.24 lb with an arbor of 64.24 lb exactly
@pytest.mark.parametrize(("height", "bricks", "balance"), [
    (8.0, 12, 145), (11.5, 12, -10), (12.0, 12, -165), (8.0, 13, 170), (20.0, 13, -140), (8.0, 8, 45),
    (20.0, 22, 85), (21.0, 22, -70), (21.5, 28, 80), (22.0, 28, -75), (30.0, 34, 75), (31.0, 34, -80), (58.0, 37, -5),
    (8.0, 37, 770),
])  # fmt: skip
def test_the_wall_is_out_of_balance_as_in_the_situation(height: float, bricks: int, balance: float) -> None:
    found = out_of_balance(_hung(), Stack(2 + bricks), height * FT)
    assert found.best / LB == pytest.approx(balance, abs=1e-6)
    assert found.low == found.best == found.high


def test_all_bricks_at_the_bridge_are_never_within_where_the_wall_has_a_trim_there() -> None:
    found = judged(a_house(), [a_wall()], [hung("wall", bridge="8 ft")], stated_bricks={"9": "39"}).set_called("9")
    assert found is not None
    lock = found.row("lock")
    assert lock is not None
    assert lock.value.high / LB == pytest.approx(770)
    assert lock.verdict is Verdict.OVER


def test_the_heights_at_which_the_wall_pulls_otherwise_are_those_of_the_situation() -> None:
    (wall,) = _hung().pieces
    assert [at / FT for at in wall.changes] == pytest.approx([11, 12, 21, 22, 31])


def test_a_section_joins_by_itself_once_those_above_hang_free() -> None:
    one = rigged_set(None, [a_wall(sections=[SECTION, SECTION, SECTION])], [hung("wall")])
    assert [at / FT for at in one.pieces[0].changes] == pytest.approx([11, 21, 31])
    at = [one.pieces[0].hanging(feet * FT)[1] * 9.80665 / LB for feet in (10.99, 11.0, 20.99, 21.0)]
    assert at == pytest.approx([155, 465, 465, 775])  # 310 hang and the next stands at once with half of its 310


def test_hung_whole_the_lines_carry_all_three_sections() -> None:
    found = judged(a_house(), [a_wall()], [hung("wall")]).set_called("9")
    assert found is not None
    assert found.forces is not None
    assert sum(one.best for one in found.forces.tensions) / LB == pytest.approx(114.24 + 930)
