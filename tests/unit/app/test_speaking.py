"""When a set is held: what no order of work mends holds it, what one does not."""

from __future__ import annotations

from typing import Any

from counterpoise.app.calls import whole_call
from counterpoise.app.speaking import spoken_load_in
from counterpoise.planning import Act
from tests.plain_house import Map, a_house, a_piece, a_set, hung, judged

BRIDGE = {"bridge": "bridge", "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft"}


def _two(top: str, **changes: Any) -> Map:
    one = a_set(stops={"top": top, "bottom": "1500 lb"}, **changes)
    bricks = [{"brick": "full", "weight": "25 lb", "thickness": "1 in", "stock": {"bridge": "200"}}]
    return a_house(one, bricks=bricks, bridges=[BRIDGE])


def test_a_top_stop_too_weak_for_all_at_once_holds_no_set_that_goes_by_turns() -> None:
    """By hand: two pieces of 100 lb press 200 lb into a stop of 150; one, then bricks, then the other, press 100."""
    result = judged(_two("150 lb"), [a_piece("a"), a_piece("b")], [hung("a"), hung("b")])
    plan = spoken_load_in(result, "9")
    assert plan.refusal is None
    acts = [step.act for step in plan.steps if step.act in (Act.HANG, Act.BRICKS_ON)]
    assert acts == [Act.HANG, Act.BRICKS_ON, Act.HANG, Act.BRICKS_ON]
    call = whole_call(result, is_strike=False, seconds=0.1)
    assert [turn.set for turn in call.turns] == ["9"]


def test_what_the_batten_carries_at_the_end_holds_it_whatever_the_order() -> None:
    weak: Map = {"rating": "20 lb", "rating of": "line pull"}
    result = judged(_two("150 lb", loft_block=weak), [a_piece("a"), a_piece("b")], [hung("a"), hung("b")])
    plan = spoken_load_in(result, "9")
    assert plan.refusal is not None
    assert plan.refusal.code == "OVER"
    assert "loft block" in plan.refusal.says
    assert whole_call(result, is_strike=False, seconds=0.1).turns == ()


def test_where_no_one_weight_clears_all_that_is_over_the_others_are_named_beside_the_first() -> None:
    """By hand: the bare 42 ft pipe and either piece alone are past a block of 20 lb on each of its lines, and the arbor
    of 60 lb is past with pipe weight on; no weight of one piece mends either."""
    weak: Map = {"rating": "20 lb", "rating of": "line pull"}
    arbor: Map = {**a_set()["arbor"], "rating": "60 lb"}
    result = judged(_two("1500 lb", loft_block=weak, arbor=arbor), [a_piece("a"), a_piece("b")], [hung("a"), hung("b")])
    one = result.set_called("9")
    assert one is not None
    assert all(each.code != "AT-MOST" for each in one.findings)
    refusal = spoken_load_in(result, "9").refusal
    assert refusal is not None
    assert "Over too: " in refusal.mend
    assert {"arbor", "loft block"} <= {word.strip(" .") for word in refusal.mend.split("Over too: ")[1].split(",")} | {
        refusal.says.removeprefix("Set 9 would end over: ").split(",")[0].split(":")[0]
    }
