"""Twin sets that carry a piece together: refused by name alone, planned as one where their hand lines are married.

Worked by hand: each batten of 114.24 lb is balanced by an arbor of 64.24 lb and 2 bricks of 25 lb. What hangs is shared
by both arbors alike; of a lock of 50 lb one alone is counted on. Common practice, no source.
"""

from typing import Any

import pytest

from counterpoise.balance import out_of_balance
from counterpoise.documents import read_log
from counterpoise.planning import Act, Goal, Plan, load_in, plan_from, replay, start, strike
from counterpoise.planning.as_log import as_log
from counterpoise.planning.call import load_in_call, strike_call
from counterpoise.planning.changeover import changeover
from counterpoise.planning.holds import lock_limit
from counterpoise.planning.log import rehearse
from counterpoise.planning.state import Refusal
from counterpoise.planning.stock import share_stock
from counterpoise.planning.turns import Wanted
from counterpoise.rigging import RiggedHouse
from tests.plain_house import LB, Map, a_house, a_piece, a_set, documents, hung, rigged

BRIDGE = {"bridge": "bridge", "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft"}
BRICK = {"brick": "full", "weight": "25 lb", "thickness": "1 in", "stock": {"bridge": "40"}}


def tree(second: Map | None = None, **first: Any) -> Map:
    sets = [
        a_set("1", **first),
        a_set("2", distance="5 ft", twin_of="1", **(second or {})),
        a_set("3", distance="7 ft"),
    ]
    return a_house(*sets, bridges=[BRIDGE], bricks=[BRICK], rules={"lock hold": "50 lb"})


def house(weight: str = "400 lb", second: Map | None = None, **first: Any) -> RiggedHouse:
    pieces = [a_piece("ceiling", weight), a_piece("leg", "50 lb")]
    return rigged(tree(second, **first), pieces, [hung("ceiling", "1"), hung("leg", "3")])


def refused(one: RiggedHouse, label: str = "1") -> Refusal:
    found = load_in(one, label).refusal
    assert found is not None
    return found


def moved(plan: Plan) -> int:
    return sum(step.bricks for step in plan.steps if step.act in (Act.BRICKS_ON, Act.BRICKS_OFF))


def test_no_count_is_planned_for_either_alone_and_both_are_named() -> None:
    one = house()
    for label, other in (("1", "2"), ("2", "1")):
        for plan in (load_in(one, label), strike(one, label),
                     plan_from(one, start(one), label, Goal(what="load-in"))):  # fmt: skip
            assert plan.steps == ()
            assert plan.refusal is not None
            assert plan.refusal.code == "TWINS"
            assert f"Set {label} carries ceiling together with its twin, set {other}" in plan.refusal.says
            assert "either may take all of it" in plan.refusal.says
            assert "married: yes" in plan.refusal.mend


def test_a_call_holds_them_and_works_the_others() -> None:
    call = load_in_call(house())
    assert call.refusal is None
    assert [(one.set, one.refusal.code) for one in call.held] == [("1", "TWINS")]
    assert [turn.set for turn in call.turns] == ["3"]


# 400 lb are 8 bricks more on each arbor; 430 lb 9, which leaves 20 lb arbor-heavy, where 8 would leave 30 batten-heavy.
@pytest.mark.parametrize(("weight", "bricks", "left"), [("400 lb", 10, 0.0), ("430 lb", 11, 20.0)])
@pytest.mark.parametrize("label", ["1", "2"])
def test_with_married_hand_lines_the_same_count_goes_on_each(label: str, weight: str, bricks: int, left: float) -> None:
    one = house(weight, married="yes")
    plan = load_in(one, label)
    assert plan.refusal is None
    assert (plan.set, plan.final.bricks, moved(plan)) == ("1+2", bricks, bricks - 2)
    end = replay(one, plan.steps, plan.begin).last
    assert end.stock["full"]["bridge"] == 40 - 2 * (bricks - 2)
    pair = one.as_one.set_called("1+2")
    assert pair is not None
    assert out_of_balance(pair, plan.final, end.sets["1+2"].height).best / LB == pytest.approx(left, abs=1e-6)
    assert any("on each arbor, by turns" in line.says for line in plan.lines)
    assert any("all 2 locks on" in line.says for line in plan.lines)
    assert any("with one fouled it may be all" in note for note in plan.notes)
    back = strike(one, label)
    assert back.refusal is None
    assert replay(one, back.steps, back.begin).last.stock["full"]["bridge"] == 40


def test_each_brick_counts_twice_and_one_lock_alone_holds() -> None:
    """One brick on each of two arbors is 50 lb: the lock of one alone holds that and no more."""
    one = house(married="yes")
    pair = one.as_one.set_called("1+2")
    assert pair is not None
    assert lock_limit(one, pair)[0] / LB == pytest.approx(50.0)
    weak = house(married="yes", second={"lock": {"hold": "40 lb"}}).as_one.set_called("1+2")
    assert weak is not None
    assert lock_limit(one, weak)[0] / LB == pytest.approx(40.0)


def test_the_stock_is_counted_for_all_arbors() -> None:
    """450 lb want 9 bricks on each, and 16 lie there: 8 on each leave 50 lb batten-heavy, what one lock holds."""
    short = tree(married="yes")
    short["bricks"] = [BRICK | {"stock": {"bridge": "16"}}]
    one = rigged(short, [a_piece("ceiling", "450 lb")], [hung("ceiling", "1")])
    plan = load_in(one, "1")
    assert plan.refusal is None
    assert plan.final.bricks == 10
    short["bricks"] = [BRICK | {"stock": {"bridge": "15"}}]  # 7 on each leave 100 lb
    assert refused(rigged(short, [a_piece("ceiling", "450 lb")], [hung("ceiling", "1")])).code in ("STOCK", "HOLD")


@pytest.mark.parametrize(("second", "word"), [
    ({"pipe_weight": "3"}, "pipe weight"), ({"purchase": "double"}, "purchase"), ({"high_trim": "50 ft"}, "high trim"),
    ({"arbor": {"seat at low trim": "49 ft"}}, "arbor seat"),
])  # fmt: skip
def test_sets_that_cannot_take_the_same_count_are_not_taken_for_one(second: Map, word: str) -> None:
    found = refused(house(married="yes", second=second))
    assert found.code == "TWINS"
    assert f"the {word} of sets 1 and 2 is not alike" in found.says


def test_a_stop_of_unknown_rating_on_one_of_them_holds_neither() -> None:
    found = refused(house("600 lb", married="yes", second={"stops": {"top": "unknown", "bottom": "900 lb"}}))
    assert found.code in ("UNKNOWN-STOP", "HOLD")


def test_they_have_their_turn_in_a_call_a_changeover_and_a_log() -> None:
    one = house(married="yes")
    call = load_in_call(one)
    assert (call.held, [turn.set for turn in call.turns]) == ((), ["1+2", "3"])
    assert call.end.stock["full"]["bridge"] == 40 - 16 - 2
    assert strike_call(one).end.stock["full"]["bridge"] == 40
    doc, show, _ = documents(tree(married="yes"), [a_piece("ceiling", "400 lb"), a_piece("leg", "50 lb")],
                             [hung("ceiling", "1"), hung("leg", "3")])  # fmt: skip
    found = rehearse(one, read_log(as_log(call), doc, show))
    assert found.refusal is None
    assert found.standing.state.sets == call.end.sets
    keeps = changeover(one, house(married="yes"))
    assert set(keeps.kept) == {"1+2", "3"}
    assert load_in_call(one, Wanted(held={"2": Refusal(code="OVER", says="Over.", mend="Less.")})).held[0].set == "1+2"


def test_from_the_stock_each_arbor_gets_its_bricks_and_the_count_is_of_one() -> None:
    """400 lb are 8 bricks of 25 lb on each of two arbors; 50 lb on set 3 are 2 more. Of 40 there are 22 left."""
    found = share_stock(house(married="yes"))
    shares = {one.label: one for one in found.shares}
    assert shares["1+2"].stack.bricks == 10
    assert sum(one.count for one in shares["1+2"].taken) == 16
    assert shares["3"].stack.bricks == 4
    assert found.left == {"full": {"bridge": 22}}
    assert found.left_out == {}


def test_a_count_on_several_arbors_is_said_of_each() -> None:
    lines = [line for line in load_in(house(married="yes"), "2").lines if line.to == "bridge"]
    assert [line.says.partition("add ")[2] for line in lines] == [
        "8 bricks on each arbor, by turns. 10 on each after. One plate on top, collars down."
    ]
    assert lines[0].reply == "Set 1+2: 10 on each, collars down, clear."
