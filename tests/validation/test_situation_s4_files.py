"""Worked situation "electric at three trims" from its three files, computed independently of this program by hand.

Six lines of 0.110 lb/ft shift 2 x 0.66 = 1.32 lb/ft: balanced at 4 ft, +34.3 lb at 30 ft and +71.3 lb at 58 ft. Four
cables of 0.6 lb/ft, 66 ft long, take 2.4 x 26/2 = 31.2 and 2.4 x 54/2 = 64.8 lb of that with a box at the grid, and
62.4 and 129.6 lb with one on the deck. With nothing but the lines it is past a lock of 50 lb from 4 + 50/1.32 = 41.9 ft
up, with the box on the deck from 4 + 50/1.08 = 50.3 ft; 29 lb more on the arbor then leaves 29 lb at either end, and it
balances at 31 ft, halfway.
"""

from pathlib import Path

import pytest

from counterpoise.balance import out_of_balance
from counterpoise.checks import SetResult, Verdict, check
from counterpoise.cli import main
from counterpoise.documents import read_hang, read_house, read_show
from counterpoise.rigging import rig
from tests.plain_house import FT, LB

HERE = Path(__file__).parent / "situations" / "s4"


def _judged(hang: str) -> SetResult:
    house, show = (HERE / f"{name}.yaml" for name in ("house", "show"))
    one, pieces = read_house(house.read_text("utf-8")), read_show(show.read_text("utf-8"))
    found = check(rig(one, pieces, read_hang((HERE / f"{hang}.yaml").read_text("utf-8"), one, pieces))).set_called("9")
    assert found is not None
    return found


@pytest.mark.parametrize(("hang", "at_focus", "at_storage", "verdict"), [
    ("grid", 3.1, 6.5, Verdict.WITHIN), ("deck", -28.1, -58.3, Verdict.OVER), ("none", 34.3, 71.3, Verdict.OVER),
])  # fmt: skip
def test_the_out_of_balance_at_focus_and_storage(
    hang: str, at_focus: float, at_storage: float, verdict: Verdict
) -> None:
    found = _judged(hang)
    assert found.rigged is not None
    assert found.stack is not None
    felt = [out_of_balance(found.rigged, found.stack, feet * FT).best / LB for feet in (4, 30, 58)]
    assert felt == [
        pytest.approx(0.0, abs=0.01),
        pytest.approx(at_focus, abs=0.05),
        pytest.approx(at_storage, abs=0.05),
    ]
    lock = found.row("lock")
    assert lock is not None
    assert lock.verdict is verdict


@pytest.mark.parametrize(("hang", "more", "travel"), [
    ("deck", "30 lb more on the arbor, balanced with the batten at 31' 0", "no higher than 50' 3"),
    ("none", "36 lb less on the arbor, balanced with the batten at 31' 0", "no higher than 41' 10"),
])  # fmt: skip
def test_the_finding_says_how_much_more_at_which_height_to_balance_or_how_far_to_fly(
    hang: str, more: str, travel: str
) -> None:
    mend = next(one.mend for one in _judged(hang).findings if one.code == "LOCK-OVER")
    assert more in mend
    assert travel in mend


def test_on_the_command_line_it_is_refused_and_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", *(str(HERE / f"{name}.yaml") for name in ("house", "show", "deck"))]) == 1
    assert "set 9, lock: 59 of 50 lb" in capsys.readouterr().out
