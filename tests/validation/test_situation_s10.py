"""Worked situation "old house, missing data, equal-share trap", computed independently of this program by hand.

Twelve battens on five level rigid lines 10 ft apart with 1 ft overhangs hang in one 8 ft bay. Evenly loaded, the shares
of such a batten follow from the three-moment equation: overhang moment c = -1/2 (w = 1, ft); by symmetry the moments a
over lines 2 and 4 and b over line 3 obey

    c 10 + 2 a 20 + b 10 = -2 (10^3)/4 = -500   and   a 10 + 2 b 20 + a 10 = -500,

so a = -10.571, b = -7.214, and the lines carry 1 + 5 + (a - c)/10 = 4.993, 10 + (c - a)/10 + (b - a)/10 = 11.343 and
10 + 2 (a - b)/10 = 9.329 of 42: 11.9 / 27.0 / 22.2 / 27.0 / 11.9 %, as the situation prints.
Tolerance, as the situation states it: 2 lb or 1 %, whichever is larger.
"""

import re
from datetime import date
from pathlib import Path

import pytest

from counterpoise.checks import Check, HouseResult, SetResult, Verdict, check
from counterpoise.documents import read_hang, read_house, read_show
from counterpoise.rigging import rig
from tests.plain_house import LB

HERE = Path(__file__).parent / "situations" / "s10"
INCH = 0.0254  # [m]
KSI = 6_894_757.293  # [Pa], NIST SP 811 appendix B: 1 psi = 6.894 757 E+03 Pa


def _text(name: str) -> str:
    return (HERE / f"{name}.yaml").read_text("utf-8")


def _judged(name: str, show: str | None = None, on: date | None = None) -> HouseResult:
    house, pageant = read_house(_text("house")), read_show(show or _text("show"))
    return check(rig(house, pageant, read_hang(_text(name), house, pageant)), on)


def _set(result: HouseResult, label: str = "22") -> SetResult:
    found = result.set_called(label)
    assert found is not None
    return found


def _row(found: SetResult, link: str, line: int | None = None) -> Check:
    row = found.row(link, line)
    assert row is not None
    return row


def _beams(name: str) -> list[float]:
    found = _set(_judged(name))
    return [_row(found, "loft beam", line).value.best / LB for line in range(1, 6)]


def _near(pounds: float) -> object:
    return pytest.approx(pounds, abs=2.0, rel=0.01)


def test_the_beams_carry_what_was_computed_before_and_after_the_request() -> None:
    assert _beams("before") == [_near(p) for p in (399, 908, 746, 908, 399)]
    assert _beams("evenly") == [_near(p) for p in (466, 1059, 871, 1059, 466)]
    assert _beams("three-picks") == [_near(p) for p in (580, 908, 947, 908, 580)]


# 12 battens of 114.2 lb and 1,990 lb hung: 3,360 lb; with the request 3,920 lb. Equal shares: 784 lb on each beam.
def test_equal_shares_would_pass_what_the_beams_over_lines_2_and_4_refuse() -> None:
    found = _set(_judged("evenly"))
    head = _row(found, "head beam")
    assert head.value.best / LB == _near(12 * 114.24 + 1990 + 560)
    assert head.value.best / LB / 5 == _near(784)
    beams = [_row(found, "loft beam", line) for line in range(1, 6)]
    assert all(head.value.best / 5 < (row.limit or 0.0) for row in beams)
    assert [row.verdict for row in beams] == [
        Verdict.WITHIN,
        Verdict.OVER,
        Verdict.WITHIN,
        Verdict.OVER,
        Verdict.WITHIN,
    ]
    assert head.verdict is Verdict.WITHIN
    assert found.verdict is Verdict.OVER
    refusal = next(one for one in found.findings if one.code == "LOFT-BEAM-OVER")
    assert refusal.place == "set 22, loft beam, lines 2 and 4"


def test_an_even_load_goes_to_the_lines_in_the_shares_of_the_three_moment_equation() -> None:
    forces = _set(_judged("evenly")).forces
    assert forces is not None
    whole = sum(forces.best.tensions)
    shares = [100 * pull / whole for pull in forces.best.tensions]
    assert shares == [pytest.approx(share, abs=0.05) for share in (11.9, 27.0, 22.2, 27.0, 11.9)]


# Every set of the bay shares the refused beams, whatever hangs on it itself.
def test_the_refused_beams_are_over_for_every_set_of_the_bay() -> None:
    assert {_row(one, "loft beam", 2).verdict for one in _judged("evenly").sets} == {Verdict.OVER}


# Line: 7,000 lb x 0.80 / 8 = 700 lb, so 700 / 0.2701 - 114.2 = 2,478; block: 500 / 0.2701 - 114.2 = 1,737;
# bay: (1,000 - 908) / 0.2701 = 342, which governs.
@pytest.mark.parametrize(("code", "most"), [
    ("LIFT-LINE-OVER", 2478), ("LOFT-BLOCK-OVER", 1737), ("LOFT-BEAM-OVER", 342),
])  # fmt: skip
def test_the_most_that_may_hang_evenly_is_told_for_each_part(code: str, most: float) -> None:
    heavy = _text("show").replace("request, weight: 560 lb", "request, weight: 3000 lb")
    findings = _set(_judged("evenly", heavy)).findings
    mend = next(one.mend for one in findings if one.code == code)
    told = re.search(r"at most ([0-9,]+) lb", mend)
    assert told is not None
    assert float(told[1].replace(",", "")) == _near(most)


# 62 + 32 x 25 + 3 plates x 4 - 114.2 = 760 lb; 32 x 2 + 3 x 3/8 = 65.1 in of 66 in, and a 33rd brick needs 67.1 in.
def test_the_arbor_takes_32_bricks_and_balances_760_pounds() -> None:
    bricks = {}
    for pounds in (760, 785):
        heavy = _text("show").replace("request, weight: 560 lb", f"request, weight: {pounds} lb")
        found = _set(_judged("evenly", heavy))
        assert found.stack is not None
        bricks[pounds] = (found.stack.bricks, _row(found, "stack").verdict)
    assert bricks == {760: (32, Verdict.WITHIN), 785: (33, Verdict.OVER)}


# One load over line 3 goes into line 3, and its share of the pipe: 560 + 22.2 % of 114.2 = 585 lb.
def test_one_pick_on_line_3_is_refused_by_its_loft_block() -> None:
    row = _row(_set(_judged("at-21")), "loft block", 3)
    assert row.value.best / LB == _near(585)
    assert row.limit == pytest.approx(500 * LB)
    assert row.verdict is Verdict.OVER


def test_one_pick_between_lines_leaves_lines_1_and_4_slack_and_bends_the_pipe() -> None:
    found = _set(_judged("at-16"))
    assert found.forces is not None
    assert [pull / LB for pull in found.forces.best.tensions] == [_near(p) for p in (0, 298, 368, 0, 9)]
    assert found.forces.best.carrying == (1, 2, 4)
    stress = _row(found, "batten")
    assert stress.value.best / KSI == pytest.approx(44.3, rel=0.01)  # S 0.309 in3, the design section: it judges
    moment = abs(found.forces.best.largest_moment)
    assert moment / (0.326 * INCH**3) / KSI == pytest.approx(42.0, rel=0.01)  # S 0.326 in3, the nominal section
    assert stress.verdict is Verdict.OVER
    assert found.verdict is Verdict.OVER


def test_three_picks_at_lines_1_3_and_5_pass_every_check_made_and_are_still_unknown() -> None:
    found = _set(_judged("three-picks"))
    assert _row(found, "loft block", 3).value.best / LB == _near(225)
    assert _row(found, "head beam").value.best / LB == _near(3921)
    unknown = {row.link for row in found.rows if row.verdict is Verdict.UNKNOWN}
    assert unknown == {"trim chain", "shackle", "head block", "arbor"}
    assert not any(row.verdict is Verdict.OVER for row in found.rows)
    assert found.verdict is Verdict.UNKNOWN


def test_with_the_unknown_parts_listed_by_a_named_person_it_is_within_and_the_list_goes_along() -> None:
    result = _judged("three-picks-listed")
    assert _set(result).verdict is Verdict.WITHIN
    assert [(one.what, one.who) for one in result.not_checked] == [
        (what, "an invented head rigger") for what in ("trim chain", "shackle", "head block", "arbor")
    ]
    assert _set(result, "23").verdict is Verdict.UNKNOWN  # the list is for set 22 alone


def test_a_list_that_has_run_out_covers_nothing() -> None:
    assert _set(_judged("three-picks-listed", on=date(2026, 12, 31))).verdict is Verdict.WITHIN
    late = _judged("three-picks-listed", on=date(2027, 1, 1))
    assert _set(late).verdict is Verdict.UNKNOWN
    assert late.not_checked == ()
