"""A plan from any real state: half loaded, stripped in the wrong order, miscounted, adrift, or re-weighed.

Figures: the worked case of tests/validation/test_situation_s5.py, in `small_house`: single purchase, 25 lb bricks, pipe
weight 6, lock 50 lb; header 140 lb, legs 2 x 45 lb, speaker 60 lb: 290 lb, which 12 bricks (300 lb) balance to +10.
"""

from dataclasses import replace
from itertools import pairwise

import pytest

from counterpoise.balance import Stack, out_of_balance
from counterpoise.planning import Act, Goal, Plan, State, Step, load_in, plan_from, replay, start, strike
from counterpoise.units import METRES_PER_FOOT, NEWTONS_PER_POUND_FORCE
from tests.small_house import PIECES, small_house

HOUSE = small_house()
SET = HOUSE.sets[0]
ALL = tuple(PIECES)
LOAD, STRIKE = Goal(what="load-in"), Goal(what="strike")


def there(*, bricks: int = 18, hung: tuple[str, ...] = ALL, height: float = SET.low, **more: object) -> State:
    state = start(HOUSE)
    on = replace(state.sets["14"], hung=hung, bricks=bricks, height=height, **more)  # type: ignore[arg-type]
    return state.with_set("14", on).with_stock("full", "bridge", 60 - (bricks - 6))


def pounds(state: State) -> float:
    on = state.sets["14"]
    return out_of_balance(SET, on.stack, on.height, on.pieces(SET)).best / NEWTONS_PER_POUND_FORCE


def done(plan: Plan) -> State:
    assert plan.refusal is None, plan.refusal
    result = replay(HOUSE, plan.steps, plan.begin)
    assert result.refusal is None
    return result.last


def acts(plan: Plan) -> list[Act]:
    return [one.act for one in plan.steps]


def refusal(state: State, goal: Goal) -> tuple[str, str, str]:
    plan = plan_from(HOUSE, state, "14", goal)
    assert plan.refusal is not None
    assert (plan.steps, plan.lines) == ((), ())
    return plan.refusal.code, plan.refusal.says, plan.refusal.mend


def test_from_empty_it_is_the_load_in() -> None:
    assert plan_from(HOUSE, start(HOUSE), "14", LOAD).steps == load_in(HOUSE, "14").steps


def test_from_loaded_the_strike_is_the_strike() -> None:
    whole = strike(HOUSE, "14")
    assert plan_from(HOUSE, whole.begin, "14", STRIKE).steps == whole.steps


def test_with_two_pieces_on_only_the_others_are_hung_and_only_the_missing_bricks_go_on() -> None:
    plan = plan_from(HOUSE, there(bricks=10, hung=ALL[:2]), "14", LOAD)
    last = done(plan)
    assert [one.piece for one in plan.steps if one.act is Act.HANG] == list(ALL[2:])
    assert sum(one.bricks for one in plan.steps if one.act is Act.BRICKS_ON) == 8
    assert last.sets["14"].bricks == 18
    assert pounds(last) == pytest.approx(10.0)


def test_what_stands_as_it_is_to_stand_gets_no_steps_and_says_so() -> None:
    loaded = done(load_in(HOUSE, "14"))
    plan = plan_from(HOUSE, loaded, "14", LOAD)
    assert plan.refusal is None
    assert plan.steps == ()
    assert any("stands so already" in note for note in plan.notes)


def test_every_step_of_a_load_in_may_be_the_last_and_the_rest_still_gets_there() -> None:
    whole = load_in(HOUSE, "14")
    goal = done(whole).sets["14"]
    for state in replay(HOUSE, whole.steps, whole.begin).states:
        after = done(plan_from(HOUSE, state, "14", LOAD)).sets["14"]
        assert (after.height, set(after.hung), after.stack) == (goal.height, set(goal.hung), goal.stack)
        assert after.locked
        assert after.collars_down
        assert not after.held


def test_every_step_of_a_load_in_may_be_the_last_and_it_can_be_struck_from_there() -> None:
    whole = load_in(HOUSE, "14")
    for state in replay(HOUSE, whole.steps, whole.begin).states:
        last = done(plan_from(HOUSE, state, "14", STRIKE))
        assert last.sets["14"].hung == ()
        assert last.sets["14"].bricks == 6
        assert last.stock["full"]["bridge"] == 60


def test_collars_that_are_up_come_down_and_are_counted_before_it_flies() -> None:
    state = there(held=True, collars_down=False)
    plan = plan_from(HOUSE, state, "14", LOAD)
    done(plan)
    assert acts(plan)[:3] == [Act.COLLARS_DOWN, Act.COUNT, Act.HOLD_OFF]
    assert "It must be 18" in plan.lines[0].says


def test_an_open_lock_goes_on_first() -> None:
    plan = plan_from(HOUSE, there(locked=False), "14", STRIKE)
    assert acts(plan)[0] is Act.LOCK_ON
    assert done(plan).sets["14"].bricks == 6


def test_with_the_header_off_first_the_bricks_come_off_before_anything_else() -> None:
    """150 lb arbor-heavy at the rail, the bridge reaches: each brick off is a step out of trouble."""
    state = there(hung=ALL[1:])
    assert pounds(state) == pytest.approx(150.0)
    plan = plan_from(HOUSE, state, "14", STRIKE)
    first = [one for one in acts(plan) if one in (Act.BRICKS_OFF, Act.STRIKE)]
    assert first[0] is Act.BRICKS_OFF
    assert done(plan).sets["14"].hung == ()
    for before, after in pairwise(replay(HOUSE, plan.steps, state).states):
        assert pounds(after) <= max(50.0, pounds(before)) + 1e-9


def test_three_counted_for_six_is_refused_until_it_is_counted_again() -> None:
    blocked = replay(HOUSE, [Step(act=Act.COUNT, set="14", bricks=3)], there(bricks=6, hung=())).last
    code, says, mend = refusal(blocked, LOAD)
    assert code == "BLOCKED"
    assert "recount before it moves" in says
    assert mend.startswith("Count")


def test_three_counted_twice_are_made_six_before_it_moves() -> None:
    counts = [Step(act=Act.COUNT, set="14", bricks=3)] * 2
    believed = replay(HOUSE, counts, there(bricks=6, hung=())).last
    plan = plan_from(HOUSE, believed, "14", STRIKE)
    assert done(plan).sets["14"].bricks == 6
    assert acts(plan).index(Act.BRICKS_ON) < acts(plan).index(Act.LOCK_OPEN)


def adrift() -> State:
    """Eighteen on, nothing hung, the top of the stack 2 ft below the floor of the bridge."""
    top = SET.seat_low + Stack(18).height(SET)
    return there(hung=(), height=SET.low + top - (HOUSE.bridges[0].reach_low - 2 * METRES_PER_FOOT))


@pytest.mark.parametrize("goal", [LOAD, STRIKE, Goal(what="re-weigh")])
def test_adrift_it_is_not_lowered_to_the_rail_but_load_goes_back_on_the_batten(goal: Goal) -> None:
    code, says, mend = refusal(adrift(), goal)
    assert code == "REACH"
    assert "arbor-heavy 300 lb" in says
    assert "Do not lower it to the rail. Put load back on the batten first: header" in mend
    assert "rated 300 lb or more at the hand line against the batten rising" in mend
    assert "None of the house's holds" in mend


def test_with_the_load_put_back_as_told_it_can_be_struck() -> None:
    hang = [Step(act=Act.HOLD_ON, set="14"), *(Step(act=Act.HANG, set="14", piece=name) for name in ALL)]
    back = replay(HOUSE, hang, adrift())
    assert back.refusal is None
    assert done(plan_from(HOUSE, back.last, "14", STRIKE)).sets["14"].bricks == 6


def test_re_weighed_to_a_count_it_gets_that_count_and_ends_where_it_was() -> None:
    plan = plan_from(HOUSE, there(), "14", Goal(what="re-weigh", stack=Stack(17)))
    last = done(plan)
    assert last.sets["14"].bricks == 17
    assert last.sets["14"].height == SET.low
    assert last.stock["full"]["bridge"] == 60 - 11
    assert Act.STRIKE not in acts(plan)


def test_re_weighed_to_the_count_that_balances_what_hangs_now() -> None:
    """Without the speaker 230 lb hang: 9 bricks leave -5 lb, 10 leave +20 lb."""
    plan = plan_from(HOUSE, there(bricks=16, hung=tuple(name for name in ALL if name != "speaker")), "14",
                     Goal(what="re-weigh"))  # fmt: skip
    assert done(plan).sets["14"].bricks == 15


def test_re_weighed_out_in_the_air_it_comes_to_the_bridge_and_goes_back() -> None:
    loaded = done(load_in(HOUSE, "14"))
    plan = plan_from(HOUSE, loaded, "14", Goal(what="re-weigh", stack=Stack(17)))
    last = done(plan)
    assert last.sets["14"].bricks == 17
    assert last.sets["14"].height == loaded.sets["14"].height


def test_a_count_that_the_lock_does_not_hold_is_refused_with_the_hold_it_would_take() -> None:
    """21 bricks: 15 x 25 - 290 = 85 lb arbor-heavy, the lock holds 50."""
    code, says, mend = refusal(there(), Goal(what="re-weigh", stack=Stack(21)))
    assert code == "HOLD"
    assert "arbor-heavy 85 lb" in says
    assert "rated 85 lb or more" in mend


def test_a_count_below_pipe_weight_is_refused() -> None:
    assert refusal(there(), Goal(what="re-weigh", stack=Stack(5)))[0] == "PIPE-WEIGHT"


def test_too_few_bricks_on_the_bridge_are_told_as_such() -> None:
    code, says, _ = refusal(there(bricks=10, hung=ALL[:2]).with_stock("full", "bridge", 3), LOAD)
    assert code == "STOCK"
    assert "8 full bricks more; bridge has 3 full" in says


def test_a_piece_that_the_hang_does_not_put_there_is_told() -> None:
    code, says, _ = refusal(there(hung=("a chair",)), STRIKE)
    assert code == "ORDER"
    assert "a chair" in says
