"""Small bricks in tall plans, calls, changeovers and logs: stock and totals by kind, from hand figures.

Batten and arbor of `plain_house` balance at 2 bricks of pipe weight; a brick weighs 25 lb, a small one 12.5 lb.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from counterpoise.balance import Stack
from counterpoise.documents import read_log
from counterpoise.planning import Act, Goal, Plan, load_in, plan_from, replay, start, strike
from counterpoise.planning.call import Call, load_in_call, strike_call, total_said
from counterpoise.planning.changeover import changeover
from counterpoise.planning.log import rehearse
from counterpoise.planning.windows import count_of, stack_of
from counterpoise.rigging import RiggedHouse
from tests.plain_house import Map, a_house, a_piece, a_set, documents, hung, rigged

SIZES = [{"brick": "full", "weight": "25 lb", "thickness": "1 in", "stock": {"bridge": "30"}},
         {"brick": "half", "weight": "12.5 lb", "thickness": "0.5 in", "stock": {"bridge": "5"}}]  # fmt: skip
BRIDGE = {"bridge": "bridge", "floor": "20 ft", "reach from": "0 ft", "reach to": "34 ft"}  # all of its travel
SECTION = {"weight": "43.75 lb", "height": "10 ft", "balance height": "5 ft"}
WALL: Map = {"piece": "wall", "spread over": "40 ft", "ties": "1 ft", "comes": "in sections",
             "sections": [SECTION, SECTION | {"joins at": "12 ft"}]}  # fmt: skip


def _tall() -> RiggedHouse:
    """A wall of 87.5 lb in two sections: 3 large and 1 small."""
    return rigged(a_house(a_set(small_brick="half"), bridges=[BRIDGE], bricks=SIZES), [WALL], [hung("wall")])


def _moved(plan: Plan, act: Act) -> Stack:
    steps = [step for step in plan.steps if step.act is act]
    return Stack(sum(one.bricks for one in steps), sum(one.small for one in steps))


def test_a_tall_load_in_ends_with_its_small_brick_on_top() -> None:
    house = _tall()
    plan = load_in(house, "9")
    assert plan.refusal is None
    assert plan.final == Stack(5, 1)
    assert _moved(plan, Act.BRICKS_ON).small - _moved(plan, Act.BRICKS_OFF).small == 1
    last = replay(house, plan.steps).last
    assert last.sets["9"].stack == Stack(5, 1)
    assert last.stock == {"full": {"bridge": 27}, "half": {"bridge": 4}}


def test_a_tall_strike_brings_every_brick_of_either_size_back() -> None:
    house = _tall()
    plan = strike(house, "9")
    assert plan.refusal is None
    last = replay(house, plan.steps, plan.begin).last
    assert last.sets["9"].stack == Stack(2)
    assert last.stock == {"full": {"bridge": 30}, "half": {"bridge": 5}}


def test_a_tall_load_in_without_small_bricks_in_stock_ends_with_large_ones_and_says_so() -> None:
    sizes = [SIZES[0], SIZES[1] | {"stock": {"bridge": "0"}}]
    house = rigged(a_house(a_set(small_brick="half"), bridges=[BRIDGE], bricks=sizes), [WALL], [hung("wall")])
    plan = load_in(house, "9")
    assert plan.refusal is None
    assert plan.final == Stack(5)
    assert any(note.startswith("5 and 1 small bricks would balance it best; 5 ") for note in plan.notes)


@pytest.mark.parametrize("count", range(2, 9))
def test_each_count_of_a_tall_set_is_one_stack_and_back(count: int) -> None:
    one = _tall().sets[0]
    assert count_of(one, stack_of(one, count)) == count
    assert stack_of(one, count).small == max(0, count - 5)


# --- calls -------------------------------------------------------------------------------------------------------

PIECES = [a_piece("leg", "62.5 lb"), a_piece("border", "87.5 lb"), a_piece("scrim", "37.5 lb")]


def _two(*places: Map, half: str = "5") -> RiggedHouse:
    """Leg 62.5 lb: 2 and 1 small. Border 87.5 lb: 3 and 1 small. Scrim 37.5 lb: 1 and 1 small."""
    sizes = [SIZES[0], SIZES[1] | {"stock": {"bridge": half}}]
    sets = [a_set("1", small_brick="half"), a_set("2", small_brick="half", distance="5 ft")]
    return rigged(a_house(*sets, bridges=[BRIDGE], bricks=sizes), PIECES, list(places))


def _stock(call: Call) -> list[Any]:
    return [{kind: places["bridge"] for kind, places in one.stock.items()} for one in call.closed]


def test_a_call_counts_either_size_and_what_each_weighs() -> None:
    call = load_in_call(_two(hung("leg", "1"), hung("border", "2")))
    assert call.refusal is None
    assert call.lifts == 5 + 2
    assert call.lifted / 0.45359237 == pytest.approx(5 * 25 + 2 * 12.5)  # exact pound: NIST SP 811
    assert _stock(call)[-1] == {"full": 25, "half": 3}
    assert "25 full and 3 half" in total_said(call, call.closed[-1])


def test_a_strike_call_brings_either_size_back() -> None:
    call = strike_call(_two(hung("leg", "1"), hung("border", "2")))
    assert call.refusal is None
    assert call.begin.stock == {"full": {"bridge": 25}, "half": {"bridge": 3}}
    assert _stock(call)[-1] == {"full": 30, "half": 5}


def test_a_call_that_lacks_small_bricks_asks_for_small_ones() -> None:
    call = load_in_call(_two(hung("leg", "1"), hung("border", "2"), half="1"))
    assert call.refusal is not None
    assert [(one.kind, one.count) for one in call.asks] == [("half", 1)]


def test_a_changeover_keeps_the_set_that_keeps_its_small_brick_and_counts_the_others() -> None:
    old, new = _two(hung("leg", "1"), hung("border", "2")), _two(hung("leg", "1"), hung("scrim", "2"))
    call = changeover(old, new)
    assert call.refusal is None
    assert call.kept == ("1",)
    assert call.lifts == 4 + 2
    assert _stock(call)[-1] == {"full": 27, "half": 3}


def test_a_log_counts_either_size_and_goes_on_from_there() -> None:
    tree = a_house(a_set("1", small_brick="half"), bridges=[BRIDGE], bricks=SIZES)
    one, show, hang = documents(tree, PIECES, [hung("leg", "1")])
    events = ["hold on, set: '1'", "hang, set: '1', piece: leg", "collars up, set: '1'",
              "bricks on, set: '1', bricks: 2, small: 1", "collars down, set: '1'",
              "count, set: '1', bricks: 4, small: 1"]  # fmt: skip
    text = "counterpoise: log 1\nhouse: Plainfield Hall\nshow: Gala\nbegins: empty\ndone:\n" + "".join(
        f"  - {{n: {n}, did: {event}}}\n" for n, event in enumerate(events, start=1))  # fmt: skip
    house = rigged(tree, PIECES, [hung("leg", "1")])
    assert hang.hung
    found = rehearse(house, read_log(text, one, show))
    assert found.refusal is None
    state = found.standing.state
    assert state.sets["1"].stack == Stack(4, 1)
    assert state.stock == {"full": {"bridge": 28}, "half": {"bridge": 4}}
    fewer = plan_from(house, state, "1", Goal(what="re-weigh", stack=Stack(3, 1)))
    assert fewer.refusal is None
    assert replay(house, fewer.steps, state).last.stock == {"full": {"bridge": 29}, "half": {"bridge": 4}}
    back = plan_from(house, state, "1", Goal(what="strike"))
    assert replay(house, back.steps, state).last.stock == start(house).stock


def test_small_bricks_that_nobody_counted_block_the_set() -> None:
    house = _two(hung("leg", "1"))
    plan = load_in(house, "1")
    count = next(step for step in plan.steps if step.act is Act.COUNT)
    at = plan.steps.index(count)
    done = replay(house, [*plan.steps[:at], replace(count, small=0)])
    assert "4 counted, 4 and 1 small expected" in done.last.sets["1"].blocked
