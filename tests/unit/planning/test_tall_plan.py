"""Tall pieces, rated holds, loading from the rail and hemp, as steps."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from counterpoise.planning import Act, Plan, Step, load_in, replay, start, strike
from counterpoise.rigging import RiggedHouse, rig
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, documents, hung

SECTION = {"weight": "310 lb", "height": "10 ft", "balance height": "5 ft"}
WALL: Map = {"piece": "wall", "spread over": "40 ft", "ties": "1 ft", "comes": "in sections",
        "sections": [SECTION, SECTION | {"joins at": "12 ft"}]}  # fmt: skip
WINCH = {"hold": "winch", "does": "haul", "against": "both", "acts on": "batten", "rating": "400 lb",
         "anchor rating": "900 lb", "count": "1"}  # fmt: skip
BRIDGE = {"bridge": "bridge", "floor": "20 ft", "reach from": "0 ft", "reach to": "34 ft"}  # all of its travel
RAIL = {"rail": "rail", "floor": "3 ft", "reach from": "0 ft", "reach to": "5 ft"}


def _house(piece: Map | None = None, *, one: Map | None = None, **changes: Any) -> RiggedHouse:
    plain: Map = {"bridges": [BRIDGE], "holds": [WINCH],
                  "bricks": [{"brick": "full", "weight": "25 lb", "thickness": "1 in",
                              "stock": {"bridge": "60", "rail": "60"}}]}  # fmt: skip
    return rig(
        *documents(a_house(one or a_set(), **(plain | changes)), [piece or WALL], [hung(str((piece or WALL)["piece"]))])
    )


def _acts(plan: Plan, *acts: Act) -> list[Step]:
    return [step for step in plan.steps if step.act in acts]


def test_a_wall_over_a_bridge_that_reaches_everywhere_is_bolted_on_at_its_heights() -> None:
    plan = load_in(_house(), "9")
    assert plan.refusal is None
    done = replay(_house(), plan.steps)
    at = [(step.piece, round(done.states[number].sets["9"].height / FT, 3))
          for number, step in enumerate(plan.steps) if step.act is Act.HANG]  # fmt: skip
    assert at == [("wall", 4), ("section 2 of wall", 12)]
    assert any("bolt on section 2 of wall" in line.says for line in plan.lines)
    # steps of 155 lb: from 155 with 9 bricks +70/-85, from 310 with 15 or 16 90 at best, from 465 with 22 +85/-70
    assert plan.need is not None
    assert plan.need.against == "both"
    assert max(side.force for side in plan.need.sides) / LB == pytest.approx(90)
    assert done.last.sets["9"].rated == ()


def test_no_section_is_bolted_on_elsewhere_or_before_those_above_it() -> None:
    house = _house(WALL | {"sections": [SECTION, SECTION | {"joins at": "12 ft"}, SECTION | {"joins at": "22 ft"}]})
    held = [Step(act=Act.HOLD_ON, set="9"), Step(act=Act.HANG, set="9", piece="wall")]
    low = replay(house, [*held, Step(act=Act.HANG, set="9", piece="section 2 of wall")]).refusal
    assert low is not None
    assert low.code == "DECK-REACH"
    assert "12' 0\"" in low.mend
    early = replay(house, [*held, Step(act=Act.HANG, set="9", piece="section 3 of wall")]).refusal
    assert early is not None
    assert early.code == "ORDER"
    assert "section 2 of wall" in early.says
    none = replay(house, [held[0], Step(act=Act.HANG, set="9", piece="section 9 of wall")]).refusal
    assert none is not None
    assert none.code == "ORDER"


def test_the_wall_is_not_struck_before_its_lower_section() -> None:
    house = _house()
    plan = load_in(house, "9")
    states = replay(house, plan.steps).states
    after = next(state for state in states if "section 2 of wall" in state.sets["9"].hung)
    refusal = replay(house, [Step(act=Act.STRIKE, set="9", piece="wall")], after).refusal
    assert refusal is not None
    assert refusal.code in ("ORDER", "ARBOR-FIRST")


def test_a_rated_hold_comes_off_only_where_the_set_stands_without_it() -> None:
    house = _house()
    plan = load_in(house, "9")
    on = next(number for number, step in enumerate(plan.steps) if step.act is Act.RIG)
    states = replay(house, plan.steps).states
    refused = [replay(house, [Step(act=Act.CLEAR, set="9", hold="winch")], state).refusal for state in states[on + 1 :]]
    assert any(one is not None and one.code == "HOLD" for one in refused)
    twice = replay(house, [Step(act=Act.RIG, set="9", hold="winch")], states[on + 1]).refusal
    assert twice is not None
    assert twice.code == "NO-HOLD"  # the house has one
    other = replay(house, [Step(act=Act.RIG, set="9", hold="crane")]).refusal
    assert other is not None
    assert other.code == "NO-HOLD"


@pytest.mark.parametrize(("changes", "why"), [
    ({"does": "park"}, "parks only"), ({"against": "batten rising"}, "does not hold the batten falling"),
    ({"rating": "60 lb"}, "too weak"), ({"anchor rating": None}, "not known"), ({"rating": "unknown"}, "not known"),
    ({"anchor rating": "60 lb"}, "too weak"),
])  # fmt: skip
def test_a_hold_that_cannot_do_it_is_refused_and_told_why(changes: Map, why: str) -> None:
    merged: Map = WINCH | changes
    winch = {name: value for name, value in merged.items() if value is not None}
    plan = load_in(_house(holds=[winch]), "9")
    assert plan.refusal is not None
    assert plan.refusal.code == "HOLD"
    assert why in plan.refusal.mend
    assert "Ask for one rated" in plan.refusal.mend
    assert plan.steps == ()


def test_without_a_bridge_it_is_loaded_from_the_rail_and_needs_a_hold_to_get_there() -> None:
    border = a_piece(weight="300 lb")
    without = load_in(_house(border, bridges=[], rails=[RAIL], holds=[]), "9")
    assert without.refusal is not None
    assert without.refusal.code == "HOLD"
    assert "300 lb against the batten falling" in without.refusal.mend
    plan = load_in(_house(border, bridges=[], rails=[RAIL]), "9")
    assert plan.refusal is None
    assert [step.bridge for step in _acts(plan, Act.BRICKS_ON)] == ["rail"]
    assert [step.hold for step in _acts(plan, Act.RIG, Act.CLEAR)] == ["winch", "winch"]
    assert next(line for line in plan.lines if "add 12 bricks" in line.says).to == "rail"
    assert plan.need is not None
    assert plan.need.against == "batten falling"
    assert plan.need.does == "haul"
    back = strike(_house(border, bridges=[], rails=[RAIL]), "9")
    assert back.refusal is None
    assert [step.bricks for step in _acts(back, Act.BRICKS_OFF)] == [12]


def test_without_bridge_or_rail_it_is_told_so() -> None:
    plan = load_in(_house(bridges=[], holds=[]), "9")
    assert plan.refusal is not None
    assert plan.refusal.code == "REACH"


def test_a_section_that_joins_above_the_travel_is_told_so() -> None:
    plan = load_in(_house(WALL | {"sections": [SECTION, SECTION | {"joins at": "60 ft"}]}), "9")
    assert plan.refusal is not None
    assert plan.refusal.code == "TRAVEL"


def test_a_double_purchase_hold_on_the_arbor_sees_twice_as_much() -> None:
    double = a_set(purchase="double", hand_line="with the arbor", arbor={"weight": "178.48 lb"}, high_trim="40 ft")
    winch = WINCH | {"acts on": "arbor", "rating": "340 lb"}
    border = a_piece(weight="180 lb")  # 180 lb at the batten, 360 lb at the arbor, until the rail is reached
    refused = load_in(_house(border, one=double, bridges=[], rails=[RAIL | {"reach to": "36 ft"}], holds=[winch]), "9")
    assert refused.refusal is not None
    assert "too weak" in refused.refusal.mend
    assert "360 lb at the arbor, 360 lb at the hand line" in refused.refusal.mend
    strong = winch | {"rating": "360 lb"}
    plan = load_in(_house(border, one=double, bridges=[], rails=[RAIL | {"reach to": "36 ft"}], holds=[strong]), "9")
    assert plan.refusal is None
    assert any("at the batten)" in line.says for line in plan.lines)  # real bricks, and what they are worth there


def test_a_wall_whose_weight_alone_stands_in_the_way_is_to_be_weighed() -> None:
    def one(weight: str) -> Map:
        return {"piece": "flat", "weight": weight, "spread over": "40 ft", "height": "10 ft", "ties": "1 ft",
                "balance height": "5 ft", "comes": "tipped up"}  # fmt: skip

    assert load_in(_house(one("100 lb"), holds=[]), "9").refusal is None  # 50 lb, then 100 lb: 3 bricks, +25/-25
    refused = load_in(_house(one("60..140 lb"), holds=[]), "9").refusal
    assert refused is not None
    assert refused.code == "WEIGH"


# --- hemp ------------------------------------------------------------------------------------------------------------


def _hemp(weight: str = "180 lb", hauls: str = "50 lb") -> RiggedHouse:
    one = a_set(rigged="hemp", purchase=None, arbor=None, pipe_weight=None, stops=None, tension_block=None,
                bags={"weight": weight, "pin": "500 lb", "hauls": hauls})  # fmt: skip
    return _house(a_piece(), one=one, holds=[])


def test_a_hemp_set_gets_batten_first_then_bags_and_each_line_tied_off_alone() -> None:
    plan = load_in(_hemp(), "9")
    assert plan.refusal is None
    said = [line.says for line in plan.lines]
    order = [
        next(at for at, line in enumerate(said) if words in line)
        for words in ("Nobody below", "Hang border", "bags on: 180 lb", "haul together", "tie off each line alone")
    ]
    assert order == sorted(order)
    # 114.24 lb of batten and 100 lb hung, less 180 lb of bags
    assert any("batten-heavy 35 lb at most" in line.after for line in plan.lines)
    back = [line.says for line in strike(_hemp(), "9").lines]
    assert next(at for at, line in enumerate(back) if "bags off" in line) < next(
        at for at, line in enumerate(back) if "Strike border" in line
    )


@pytest.mark.parametrize(("weight", "hauls"), [("220 lb", "50 lb"), ("180 lb", "30 lb"), ("unknown", "50 lb")])
def test_a_hemp_set_whose_bags_or_crew_are_over_or_unknown_is_refused(weight: str, hauls: str) -> None:
    for plan in (load_in(_hemp(weight, hauls), "9"), strike(_hemp(weight, hauls), "9")):
        assert plan.refusal is not None
        assert plan.refusal.code == "HEMP"
        assert plan.lines == ()


def test_a_set_that_starts_elsewhere_is_not_held_by_a_hold_it_does_not_have() -> None:
    house = _house()
    begin = start(house)
    on = replace(begin.sets["9"], hung=("wall",), rated=("crane",))
    refusal = replay(house, [Step(act=Act.LOCK_OPEN, set="9")], begin.with_set("9", on)).refusal
    assert refusal is not None
    assert refusal.code == "HOLD"
