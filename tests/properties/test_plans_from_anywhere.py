"""Laws of plans from any real state, judged by the simulator of test_plans: pounds and feet, by hand."""

from dataclasses import replace
from random import Random

from hypothesis import assume, given, settings
from hypothesis.strategies import integers

from counterpoise.balance import Stack, best_stack
from counterpoise.planning import Act, Goal, SetState, State, Step, judge, load_in, plan_from, replay, start, strike
from counterpoise.rigging import RiggedHouse
from tests.properties.test_plans import FOOT, LOW, Numbers, house_of, numbers, planned, simulate


def simulated(n: Numbers, house: RiggedHouse, state: State, goal: Goal) -> tuple[float, int] | None:
    """Where the plan from a state ends, every instant of it checked by hand; None where it is refused."""
    plan, on = plan_from(house, state, "14", goal), state.sets["14"]
    if plan.refusal is not None:
        assert plan.steps == ()
        return None
    return simulate(n, plan.steps, on.height / FOOT, on.bricks, set(on.hung))


@settings(max_examples=50, deadline=None)
@given(seed=integers(0, 10**9))
def test_a_load_in_that_was_left_anywhere_goes_on_to_its_end_or_back_within_every_limit(seed: int) -> None:
    n, house, plan = planned(seed)
    assume(plan.refusal is None and plan.steps)
    states = replay(house, plan.steps, plan.begin).states
    state = Random(seed).choice(states)
    end = simulated(n, house, state, Goal(what="load-in"))
    assert end is not None
    there, wanted = states[-1].sets["14"], best_stack(house.sets[0]).bricks
    assert end[0] == there.height / FOOT
    assert abs(end[1] - wanted) <= abs(there.bricks - wanted)  # nearer than in as few visits as can be, never farther
    begin = simulated(n, house, state, Goal(what="strike"))
    assert begin is not None
    assert abs(begin[0] - 4.0) < 1e-9
    assert begin[1] == n.pipe


@settings(max_examples=60, deadline=None)
@given(seed=integers(0, 10**9))
def test_from_a_count_and_a_height_that_nobody_planned_no_step_breaks_a_limit_or_undoes_what_is_done(seed: int) -> None:
    chance = Random(seed)
    n = numbers(seed)
    house = house_of(n)
    rigged = house.sets[0]
    hung = tuple(one.name for one in rigged.pieces if chance.random() < 0.6)
    height = chance.choice((rigged.low, rigged.low, chance.uniform(rigged.low, rigged.high)))
    on = replace(start(house).sets["14"], height=height, hung=hung, bricks=n.pipe + chance.randint(0, 14),
                 collars_down=chance.random() < 0.5, held=chance.random() < 0.5)  # fmt: skip
    state = start(house).with_set("14", on)
    goal = chance.choice((Goal(what="load-in"), Goal(what="strike"), Goal(what="re-weigh"),
                          Goal(what="re-weigh", stack=Stack(n.pipe + chance.randint(0, 14)))))  # fmt: skip
    plan = plan_from(house, state, "14", goal)
    assert (plan.refusal is None) or (plan.refusal.says and plan.refusal.mend and not plan.steps)
    if plan.refusal is not None:
        return
    done = replay(house, plan.steps, state)
    assert done.refusal is None
    acts = {step.act for step in plan.steps}
    assert Act.STRIKE not in acts if goal.what != "strike" else Act.HANG not in acts
    after = done.last.sets["14"]
    if goal.what == "strike":
        assert (after.hung, after.bricks, after.height) == ((), n.pipe, rigged.low)
    if goal.what == "load-in":
        assert set(after.hung) == {one.name for one in rigged.pieces}
    if goal.what == "re-weigh":
        assert (set(after.hung), after.height) == (set(hung), height)
        assert goal.stack in (None, after.stack)


def test_of_random_states_many_have_a_plan_and_many_have_none() -> None:
    found = []
    for seed in range(60):
        n = numbers(seed)
        house = house_of(n)
        on = replace(start(house).sets["14"], hung=("a",), bricks=n.pipe + seed % 9)
        plan = plan_from(house, start(house).with_set("14", on), "14", Goal(what="strike"))
        found.append(plan.refusal is None and len(plan.steps) > 0)
    assert 15 < sum(found) < 58


def test_the_same_plan_is_found_from_empty_and_from_loaded() -> None:
    for seed in range(15):
        n, house, plan = planned(seed)
        if plan.refusal is None:
            again = plan_from(house, start(house), "14", Goal(what="load-in"))
            assert again.final == load_in(house, "14").final
            whole = strike(house, "14")
            assert plan_from(house, whole.begin, "14", Goal(what="strike")).final == Stack(n.pipe)


def reachable(n: Numbers, house: RiggedHouse, state: State, goal: Goal) -> bool:
    """Exhaustive search: one brick, one piece or one move at a time, each asked of the replay; no planner in it."""
    rigged, on = house.sets[0], state.sets["14"]
    tall = (one.tall * FOOT for one in n.loads if one.tall > LOW)
    heights = sorted(
        {rigged.low, rigged.high, on.height, *tall, *(rigged.low + 8 * FOOT * part for part in range(1, 7))}
    )
    tied = {one.name: LOW if one.is_cloth else max(LOW, one.tall) for one in n.loads}  # a tall one is hung standing
    act = Act.HANG if goal.what == "load-in" else Act.STRIKE
    begin = replace(on, locked=True, held=True, collars_down=False, felt=False)
    todo, seen = [begin], {begin}
    while todo:
        here = todo.pop()
        if _is_there(n, house, state, here, goal):
            return True
        free = replace(here, locked=False, held=False, collars_down=True, felt=True)
        asks = [(here, Step(act=act, set="14", piece=name)) for name, height in tied.items()
                if act is Act.STRIKE or abs(height * FOOT - here.height) < 1e-6]  # fmt: skip
        asks += [(here, Step(act=each, set="14", bricks=1, bridge="bridge"))
                 for each in (Act.BRICKS_ON, Act.BRICKS_OFF) if here.bricks < 40]  # fmt: skip
        asks += [(free, Step(act=Act.MOVE, set="14", height=height)) for height in heights if height != here.height]
        for before, step in asks:
            found = judge(house, state.with_set("14", before), step)
            if isinstance(found, State):
                after = replace(found.sets["14"], locked=True, held=True, collars_down=False, felt=False)
                if after not in seen:
                    seen.add(after)
                    todo.append(after)
    return False


def _is_there(n: Numbers, house: RiggedHouse, state: State, here: SetState, goal: Goal) -> bool:
    """The goal, and free to be set free there."""
    rigged = house.sets[0]
    free = replace(here, held=False, collars_down=True)
    done = isinstance(judge(house, state.with_set("14", free), Step(act=Act.LOCK_OPEN, set="14")), State)
    if goal.what == "strike":
        return done and (here.hung, here.bricks, here.height) == ((), rigged.pipe_bricks, rigged.low)
    clear = max(LOW, *(one.tall for one in n.loads))  # where all of it hangs free
    done = done and abs(here.height - clear * FOOT) < 1e-6
    return done and set(here.hung) == {one.name for one in rigged.pieces} and here.bricks == goal_bricks(house)


def goal_bricks(house: RiggedHouse) -> int:
    """What balances it best, by the table of balance."""
    return best_stack(house.sets[0]).bricks


def test_it_refuses_only_where_exhaustive_search_over_single_steps_refuses_too() -> None:
    counted = {True: 0, False: 0}
    for seed in range(60):
        chance = Random(seed)
        n = numbers(seed)
        house = house_of(n)
        rigged = house.sets[0]
        hung = tuple(one.name for one in rigged.pieces if chance.random() < 0.6)
        on = replace(start(house).sets["14"], hung=hung, bricks=n.pipe + chance.randint(0, 8),
                     height=chance.choice((rigged.low, rigged.low + 8 * FOOT)))  # fmt: skip
        state = start(house).with_set("14", on)
        for what in ("load-in", "strike"):
            goal = Goal(what=what)
            is_reached = reachable(n, house, state, goal)
            counted[is_reached] += 1
            if is_reached:
                assert plan_from(house, state, "14", goal).refusal is None, (seed, what)
    assert min(counted.values()) > 10
