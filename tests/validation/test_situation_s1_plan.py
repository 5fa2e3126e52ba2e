"""Worked situation "tall sectional wall, three access levels", its counts and its hold, from files.

The loads are those of test_situation_s1.py; what is expected was worked by hand. Between 8 and 20 ft only one count can
hang: 155 lb to 11 ft and 465 lb from 12 ft ask for 310 lb, so 12 bricks of 25 lb leave +145 and -165, 13 leave +170 and
-140. At 20 ft 465 before and 620 after the second section lifts: 22 bricks, +85/-70. At 22 ft 620 before and 775 after
the third is bolted on: 28 bricks, +80/-75. From there 775 and, from 31 ft, 930: 34 bricks, +75/-80. At the rail 930:
37 bricks, -5. The house's lock holds 50 lb.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from counterpoise.balance import Stack, out_of_balance
from counterpoise.documents import read_hang, read_house, read_show
from counterpoise.planning import Act, Step, load_in, replay, strike
from counterpoise.planning.needed import Need, need_of, offer_of
from counterpoise.planning.tall import TallWay, find_tall_way
from counterpoise.rigging import RiggedHouse, RiggedSet, rig

FILES = Path(__file__).parent / "situations" / "s1"
FT, LB = 0.3048, 0.45359237 * 9.80665
PIPE = 2


@cache
def _house(holds: str = "") -> RiggedHouse:
    text = (FILES / "house.yaml").read_text("utf-8")
    house = read_house(text.replace("rules:\n", f"{holds}\nrules:\n", 1) if holds else text)
    show = read_show((FILES / "show.yaml").read_text("utf-8"))
    return rig(house, show, read_hang((FILES / "hang.yaml").read_text("utf-8"), house, show))


def _set(house: RiggedHouse) -> RiggedSet:
    found = house.set_called("9")
    assert found is not None
    return found


def _way() -> TallWay:
    found = find_tall_way(_house(), _set(_house()))
    assert found is not None
    return found


def _need() -> Need:
    found = need_of(_house(), _set(_house()), _way())
    assert found is not None
    return found


def _peaks(bricks: int, start: float, end: float) -> tuple[float, float]:
    """The most either way between two heights [lb], every half inch asked."""
    one = _set(_house())
    at = [start + step / 24 for step in range(int((end - start) * 24) + 1)]
    found = [out_of_balance(one, Stack(PIPE + bricks), feet * FT).best / LB for feet in at]
    return max(found), min(found)


def test_the_counts_are_12_22_28_34_and_37_show_bricks_where_each_crew_reaches() -> None:
    way = _way()
    at = [(one.place, round(way.stations[one.station].height / FT, 3), one.after - PIPE) for one in way.changes]
    assert [(place, count) for place, _, count in at] == [
        ("high bridge", 12), ("mid bridge", 22), ("mid bridge", 28), ("mid bridge", 34), ("rail", 37),
    ]  # fmt: skip
    heights = [feet for _, feet, _ in at]
    assert 4 <= heights[0] <= 8
    assert heights[1:] == [20, 22, 22, 56]


def test_each_stretch_is_out_of_balance_as_worked() -> None:
    found = [(leg.bricks - PIPE, round(leg.arbor.arbor / LB), round(leg.batten.batten / LB)) for leg in _way().legs[1:]]
    assert found == [(12, 145, 165), (22, 85, 70), (28, 80, 75), (34, 75, 80), (37, 0, 5)]


def test_between_8_and_20_ft_12_bricks_are_best_and_13_are_worse() -> None:
    assert _peaks(12, 8, 20) == pytest.approx((145, -165))
    assert _peaks(13, 8, 20) == pytest.approx((170, -140))
    worst = {count: max(map(abs, _peaks(count, 8, 20))) for count in range(38)}
    assert min(worst, key=lambda count: worst[count]) == 12


def test_nothing_is_claimed_within_50_lb_and_a_hold_must_haul_both_ways() -> None:
    need = _need()
    assert need.does == "haul"
    assert need.against == "both"
    assert {side.against: round(side.force / LB) for side in need.sides} == {
        "batten rising": 145,
        "batten falling": 165,
    }
    assert all(side.does == "haul" for side in need.sides)


def test_the_hold_is_needed_from_the_9th_brick_at_the_high_bridge_until_the_last_trim_at_the_rail() -> None:
    need = _need()
    assert (need.start.place, need.start.bricks - PIPE) == ("high bridge", 9)
    assert need.start.felt.arbor / LB == pytest.approx(70)  # 225 on 155; the 8th left +45
    assert need.end.place == "rail"
    assert need.end.height / FT == pytest.approx(56)
    assert PIPE + 34 < need.end.bricks <= PIPE + 37  # -80 at the 34th, -55 at the 35th, -30 at the 36th


def test_all_37_at_the_high_bridge_would_be_770_lb_out() -> None:
    assert _peaks(37, 8, 20)[0] == pytest.approx(770)


def test_a_house_whose_only_bridge_is_the_high_one_is_told_what_all_of_it_there_would_take() -> None:
    house, one = _house(), _set(_house())
    alone = find_tall_way(house, one, house.bridges[:1])
    # one count for the whole way has to end within the lock, 35.2 to 39.2 bricks: 36 leave -30 at the end
    assert alone is not None
    assert alone.peak / LB == pytest.approx(36 * 25 - 155)


HOLDS = """
holds:
  - {hold: winch, does: haul, against: both, acts on: batten, rating: 250 lb, anchor rating: 500 lb}
  - {hold: small winch, does: haul, against: both, acts on: batten, rating: 150 lb, anchor rating: 500 lb}
  - {hold: up tackle, does: haul, against: batten falling, acts on: batten, rating: 170 lb, anchor rating: 170 lb}
  - {hold: down tackle, does: haul, against: batten rising, acts on: arbor, rating: 145 lb, anchor rating: 200 lb}
  - {hold: chain, does: park, against: both, acts on: arbor, rating: 2000 lb, anchor rating: 2000 lb}
  - {hold: loose winch, does: haul, against: both, acts on: batten, rating: 900 lb}
"""


def test_the_house_is_told_which_of_its_holds_can_do_it() -> None:
    house = _house(HOLDS)
    offer = offer_of(house, _set(house), _need())
    assert offer.alone == ("winch",)
    assert ("down tackle", "up tackle") in offer.pairs
    assert dict(offer.cannot) == {
        "chain": "parks only, and the set moves",
        "loose winch": "its rating or that of its anchor is not known",
    }
    assert offer.chosen == ("winch",)


def test_on_double_purchase_a_hold_on_the_arbor_sees_twice_as_much() -> None:
    house = _house(HOLDS)
    double = replace(_set(house), purchase=2, hand_line_ratio=2.0)
    offer = offer_of(house, double, _need())
    assert offer.alone == ("winch",)  # on the batten: as before
    assert not any("down tackle" in pair for pair in offer.pairs)  # 290 lb at the arbor, rated 145


def test_without_a_hold_that_can_do_it_there_is_no_plan_and_it_says_what_to_ask_for() -> None:
    for plan in (load_in(_house(), "9"), strike(_house(), "9")):
        assert plan.steps == ()
        assert plan.refusal is not None
        assert plan.refusal.code == "HOLD"
        assert "can haul, both ways." in plan.refusal.mend
        assert "145 lb against the batten rising and 165 lb against the batten falling" in plan.refusal.mend
        assert "Put on: before the count beside pipe weight comes to 9 (11 in all) at high bridge" in plan.refusal.mend
        assert "at rail, batten at 56' 0\"" in plan.refusal.mend


def test_a_plan_that_loads_all_37_at_the_high_bridge_is_rejected() -> None:
    begin = [Step(act=Act.HOLD_ON, set="9"), Step(act=Act.HANG, set="9", piece="wall"),
             Step(act=Act.COLLARS_UP, set="9")]  # fmt: skip
    load = Step(act=Act.BRICKS_ON, set="9", bricks=37, bridge="high bridge")
    plain = replay(_house(), [*begin, load]).refusal
    assert plain is not None
    assert plain.code == "HOLD"
    assert "11 on" in plain.says  # the 9th show brick
    assert "arbor-heavy 70 lb" in plain.says
    held = replay(_house(HOLDS), [*begin, Step(act=Act.RIG, set="9", hold="winch"), load]).refusal
    assert held is not None
    assert "19 on" in held.says  # 17 show bricks: 425 - 155 = 270 lb, more than the winch's 250
    assert "arbor-heavy 270 lb" in held.says


def test_with_the_winch_it_goes_in_the_worked_order_and_the_strike_is_the_exact_reverse() -> None:
    house = _house(HOLDS)
    out, back = load_in(house, "9"), strike(house, "9")
    assert out.refusal is None
    assert back.refusal is None

    def work(steps: tuple[Step, ...], *acts: Act) -> list[tuple[str, int]]:
        return [(step.piece or step.bridge or step.hold, step.bricks) for step in steps if step.act in acts]

    assert work(out.steps, Act.HANG, Act.BRICKS_ON) == [
        ("wall", 0), ("high bridge", 12), ("section 2 of wall", 0), ("mid bridge", 10), ("mid bridge", 6),
        ("section 3 of wall", 0), ("mid bridge", 6), ("rail", 3),
    ]  # fmt: skip
    assert work(back.steps, Act.STRIKE, Act.BRICKS_OFF) == work(out.steps, Act.HANG, Act.BRICKS_ON)[::-1]
    assert [step.act for step in out.steps if step.hold] == [Act.RIG, Act.CLEAR]
    done = replay(house, back.steps, back.begin)
    assert done.refusal is None
    assert done.last.sets["9"].bricks == PIPE
    assert done.last.sets["9"].hung == ()
