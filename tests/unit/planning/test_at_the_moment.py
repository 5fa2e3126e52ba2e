"""What may go wrong while work is half done, though all is well before and after."""

from __future__ import annotations

from dataclasses import replace

import pytest

from counterpoise.app import judge
from counterpoise.documents import read_hang, read_house, read_show
from counterpoise.planning import Act, Refusal, Step, judge as judge_step, load_in, replay
from counterpoise.planning.doubt import in_doubt
from counterpoise.rigging import RiggedHouse, rig
from tests.eight_sets import eight_sets
from tests.plain_house import a_house, a_piece, a_set, hung, rigged

BATTEN = {"length": "20 ft", "outside diameter": "2.375 in", "wall": "0.154 in", "design wall": "0.143 in",
          "weight": "3.66 lb/ft", "hardware": "10 lb"}  # fmt: skip


def two_boxes(*places: dict[str, object]) -> RiggedHouse:
    """20 ft of 2 in pipe on two lines at 3' SR and 3' SL, boxes of 200 lb outside them."""
    one = a_set(batten=BATTEN, lines={"at": ["3' SR", "3' SL"]}, arbor={"weight": "33.2 lb"})
    bridge = [{"bridge": "bridge", "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft"}]
    boxes = [a_piece(name, "200 lb", picks=["CL"]) for name in ("left box", "right box")]
    return rigged(a_house(one, bridges=bridge), boxes, list(places))


def test_a_piece_that_would_tip_the_batten_before_its_fellow_is_on_is_refused() -> None:
    """By hand, about the stage-right line: 200 lb x 3 ft out; against it 73.2 lb x 3 ft + 5 lb x 6 ft = 250 lb ft."""
    house = two_boxes(hung("left box", centre="6' SR"), hung("right box", centre="6' SL"))
    plan = load_in(house, "9")
    assert plan.refusal is not None
    assert plan.refusal.code == "TIPS"
    assert not plan.lines


def test_the_same_boxes_between_the_lines_are_hung_one_after_the_other() -> None:
    plan = load_in(two_boxes(hung("left box", centre="2' SR"), hung("right box", centre="2' SL")), "9")
    assert plan.refusal is None
    assert [step.piece for step in plan.steps if step.act is Act.HANG] == ["left box", "right box"]


def test_a_step_out_of_trouble_may_not_make_the_other_side_the_heavy_one() -> None:
    """By hand: ten bricks of 25 lb and an arbor of 64.24 lb against 114.24 lb of pipe: +200 lb. With 350: -150."""
    one = a_set(pipe_weight="10", stops={"top": "none", "bottom": "1500 lb"})
    house = rigged(a_house(one), [a_piece(weight="350 lb")], [hung()])
    done = replay(house, [Step(act=Act.HOLD_ON, set="9"), Step(act=Act.HANG, set="9", piece="border")])
    assert done.refusal is not None
    assert done.refusal.code in ("HOLD", "LOCK", "TOO-HEAVY")


@pytest.mark.parametrize(("stock", "reach"), [(6, 7 * 0.3048), (40, 0.6026)])
def test_no_branch_is_spoken_for_a_brick_that_is_not_there_or_not_in_reach(stock: int, reach: float) -> None:
    """Demo set 3: six bricks go on and nine stand 23.6 in high; a tenth would be the seventh from the bridge."""
    house = judge(eight_sets()).house
    bridge = house.bridges[0]
    bridge = replace(bridge, reach_low=bridge.reach_low, reach_high=house.sets[2].seat_low + reach)
    full = replace(house.bricks["full"], stock={bridge.name: stock})
    house = replace(house, bridges=(bridge,), bricks={"full": full})
    plan = load_in(house, "3")
    assert plan.refusal is None, plan.refusal
    last = replay(house, plan.steps).last
    rigged_set = house.set_called("3")
    assert rigged_set is not None
    tops = rigged_set.seat(rigged_set.low) + replace(plan.final, bricks=plan.final.bricks + 1).height(rigged_set)
    more, _ = in_doubt(house, rigged_set, last, rigged_set.low, bridge.name, last.sets["3"].height)
    assert more == 0 or (stock > 6 and tops <= bridge.reach_high)


def test_a_bridge_whose_people_are_unknown_has_a_floor_that_is_not_judged_and_that_is_said() -> None:
    texts = eight_sets()
    house = read_house(texts.house.replace("people: 2", "people: unknown"))
    show = read_show(texts.show)
    plan = load_in(rig(house, show, read_hang(texts.hang, house, show)), "1")
    assert any("floor of loading bridge" in note for note in plan.notes)


def test_a_refusal_is_never_a_state() -> None:
    house = two_boxes(hung("left box", centre="6' SR"))
    held = judge_step(house, replay(house, []).last, Step(act=Act.HOLD_ON, set="9"))
    assert not isinstance(held, Refusal)
    assert isinstance(judge_step(house, held, Step(act=Act.HANG, set="9", piece="left box")), Refusal)


def test_what_rests_on_taut_ties_alone_is_said_in_its_figure() -> None:
    """300 lb standing 5 ft high: eleven bricks of 25 lb on nothing but its ties. By hand, slack: 275 lb arbor-heavy.

    The empty set balances to a pound: 64.24 lb of arbor and two bricks of 25 lb against 114.24 lb of pipe.
    """
    bridge = [{"bridge": "bridge", "floor": "46 ft", "reach from": "0 in", "reach to": "9 ft"}]
    house = rigged(a_house(a_set(), bridges=bridge), [a_piece(weight="300 lb", height="5 ft")], [hung()])
    plan = load_in(house, "9")
    assert plan.refusal is None, plan.refusal
    on = plan.final.bricks - 2
    assert any(f"arbor-heavy {25 * on} lb, not held by the lock" in note for note in plan.notes), plan.notes
