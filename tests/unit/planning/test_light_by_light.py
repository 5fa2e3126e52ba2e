"""An electric that is hung and struck light by light, bricks between, where all of it at once would be too many.

By hand: 12 lights of 22 lb and 8 lb of jumpers are 272 lb; the lock holds 50 lb, the top stop nobody knows what.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from counterpoise.balance import out_of_balance
from counterpoise.documents import read_log
from counterpoise.planning import (
    Act,
    Goal,
    Plan,
    SetState,
    State,
    Step,
    judge,
    load_in,
    plan_from,
    replay,
    start,
    strike,
)
from counterpoise.planning.as_log import as_log
from counterpoise.planning.call import load_in_call
from counterpoise.planning.log import rehearse
from counterpoise.planning.windows import hung_with, hung_without
from counterpoise.rigging import RiggedHouse
from tests.plain_house import LB, Map, a_house, a_set, documents, hung, rigged

BRIDGE = {"bridge": "bridge", "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft"}
BRICK = {"brick": "full", "weight": "25 lb", "thickness": "1 in", "stock": {"bridge": "60"}}
ELECTRIC: Map = {"piece": "electric", "spread over": "30 ft", "height": "3 ft", "takeoff": [
    {"fixture": "profile spot", "each": "22 lb", "count": "12"},
    {"what": "jumpers", "each": "1 lb", "count": "8"}]}  # fmt: skip


def tree(top: str = "unknown") -> Map:
    return a_house(a_set("1", stops={"top": top, "bottom": "900 lb"}), bricks=[BRICK], bridges=[BRIDGE],
                   rules={"lock hold": "50 lb"})  # fmt: skip


def house(top: str = "unknown", piece: Map = ELECTRIC) -> RiggedHouse:
    return rigged(tree(top), [piece], [hung("electric", "1")])


def walked(one: RiggedHouse, plan: Plan, weight: float, bricks: int) -> tuple[float, int]:
    """By hand: pounds hung and bricks on after each step, never more than 50 lb apart."""
    for step in plan.steps:
        sign = 1 if step.act in (Act.HANG, Act.BRICKS_ON) else -1
        if step.act in (Act.HANG, Act.STRIKE):
            weight += sign * (8 if step.piece.startswith("rest") else 22 if step.piece.startswith("light") else 272)
        if step.act in (Act.BRICKS_ON, Act.BRICKS_OFF):
            for _ in range(step.bricks):
                bricks += sign
                assert abs(25 * (bricks - 2) - weight) <= 50
        assert abs(25 * (bricks - 2) - weight) <= 50
    return weight, bricks


def test_it_goes_in_and_comes_out_light_by_light_within_the_lock() -> None:
    one = house()
    plan = load_in(one, "1")
    assert plan.refusal is None
    assert walked(one, plan, 0, 2) == (272, plan.final.bricks)
    assert replay(one, plan.steps, plan.begin).last.sets["1"].hung == ("electric",)
    assert any("Hang rest of electric" in line.says for line in plan.lines)
    assert any("lights " in line.says and " of electric" in line.says for line in plan.lines)
    assert any("by turns" in note for note in plan.notes)
    back = strike(one, "1")
    assert back.refusal is None
    assert walked(one, back, 272, plan.final.bricks) == (0, 2)


def test_where_a_stop_holds_it_all_of_it_is_hung_in_one_go() -> None:
    plan = load_in(house("900 lb"), "1")
    assert [step.piece for step in plan.steps if step.act is Act.HANG] == ["electric"]


def test_a_plan_goes_on_from_some_lights() -> None:
    one = house()
    some = ("rest of electric", "light 1 of electric", "light 2 of electric")
    on = start(one).with_set("1", _with(one, some, 4))
    plan = plan_from(one, on, "1", Goal(what="load-in"))
    assert plan.refusal is None
    assert walked(one, plan, 8 + 44, 4) == (272, plan.final.bricks)
    assert not {step.piece for step in plan.steps} & set(some)
    back = plan_from(one, on, "1", Goal(what="strike"))
    assert back.refusal is None
    assert walked(one, back, 8 + 44, 4) == (0, 2)


def _with(one: RiggedHouse, names: tuple[str, ...], bricks: int) -> SetState:
    return replace(start(one).sets["1"], hung=names, bricks=bricks)


def test_some_lights_weigh_what_they_weigh_and_all_of_them_are_the_piece() -> None:
    one = house()
    rigged_set = one.sets[0]
    pull = out_of_balance(rigged_set, start(one).sets["1"].stack, 30 * 0.3048,
                          _with(one, ("light 3 of electric",), 2).pieces(rigged_set))  # fmt: skip
    assert -pull.best / LB == pytest.approx(22.0, abs=0.01)
    units = tuple(rigged_set.pieces[0].units)
    assert len(units) == 13
    assert hung_with(rigged_set, units[:-1], units[-1:]) == ("electric",)
    assert set(hung_without(rigged_set, ("electric",), ("light 4 of electric",))) == {
        name for name in units if name != "light 4 of electric"}  # fmt: skip


@pytest.mark.parametrize(("hangs", "piece"), [
    (("electric",), "light 2 of electric"), (("light 2 of electric",), "light 2 of electric"),
    (("light 2 of electric",), "electric"),
])  # fmt: skip
def test_what_hangs_is_not_hung_again(hangs: tuple[str, ...], piece: str) -> None:
    one = house("900 lb")
    state = start(one).with_set("1", replace(start(one).sets["1"], hung=hangs, held=True))
    found = judge(one, state, Step(act=Act.HANG, set="1", piece=piece))
    assert not isinstance(found, State)
    assert found.code == "ORDER"


def test_a_light_comes_off_a_whole_electric_and_what_does_not_hang_is_not_struck() -> None:
    one = house("900 lb")
    state = start(one).with_set("1", replace(start(one).sets["1"], hung=("electric",), held=True, bricks=13))
    found = judge(one, state, Step(act=Act.STRIKE, set="1", piece="light 5 of electric"))
    assert isinstance(found, State)
    assert "electric" not in found.sets["1"].hung
    again = judge(one, found, Step(act=Act.STRIKE, set="1", piece="light 5 of electric"))
    assert not isinstance(again, State)


def test_it_can_be_kept_as_a_log() -> None:
    one = house()
    call = load_in_call(one)
    doc, show, _ = documents(tree(), [ELECTRIC], [hung("electric", "1")])
    found = rehearse(one, read_log(as_log(call), doc, show))
    assert found.refusal is None
    assert found.standing.state.sets == call.end.sets


def test_estimated_lights_are_as_uncertain_as_they_are_written_and_sum_to_the_whole() -> None:
    about = ELECTRIC | {"takeoff": [{"fixture": "profile spot", "each": "20..24 lb", "count": "12"}]}
    piece = house(piece=about).sets[0].pieces[0]
    low, best, high = (sum(mass[i] for mass in piece.units.values()) for i in range(3))
    assert (low, best, high) == pytest.approx(piece.mass)
    assert "rest of electric" not in piece.units


def test_sixty_lights_take_as_many_visits_as_they_need() -> None:
    """720 lb of lights against three bricks of 25 lb a visit, from 50 lb one way to 50 lb the other: eight and more."""
    lights = {"fixture": "profile spot", "each": "12 lb", "count": "60"}
    one = house(piece=ELECTRIC | {"takeoff": [lights, {"what": "jumpers", "each": "1 lb", "count": "8"}]})
    there, back = load_in(one, "1"), strike(one, "1")
    for plan, sign in ((there, Act.HANG), (back, Act.STRIKE)):
        assert plan.refusal is None
        assert sum(step.act is sign for step in plan.steps) == 61
    assert sum(step.act is Act.BRICKS_ON for step in there.steps) >= 8
    assert replay(one, there.steps).refusal is None
