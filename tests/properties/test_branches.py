"""What is said where a weight is not known well, walked for weights drawn from all that it may be.

By the rule it is said with: one brick is moved where the set is felt half a brick heavy or more, up to the count that
is said. Each state and each flight is held against the lock by hand: Δ = A − B of one certain weight, in pounds.
"""

from __future__ import annotations

import re
from dataclasses import replace
from random import Random

from hypothesis import given, settings
from hypothesis.strategies import integers

from counterpoise.balance import Stack, out_of_balance
from counterpoise.planning import Act, Plan, load_in
from counterpoise.planning.holds import heights_between
from counterpoise.rigging import RiggedHouse, RiggedSet
from tests.plain_house import FT, LB, a_house, a_piece, a_set, hung, rigged

LOCK = 60.0  # [lb]


def house_of(seed: int) -> RiggedHouse:
    chance = Random(seed)
    low = chance.randint(80, 300)
    doubt = chance.choice((10, 24, 40, 60))
    rope = chance.choice(("0 lb/ft", "0.11 lb/ft", "0.3 lb/ft", "0.4 lb/ft"))
    one = a_set(lines={"weight": rope}, purchase=chance.choice(("single", "single", "double")))
    bridge = {"bridge": "bridge", "floor": f"{chance.choice((46, 49))} ft", "reach from": "0 in", "reach to": "7 ft"}
    piece = a_piece("drop", f"{low}..{low + doubt} lb", height=chance.choice(("3 ft", "3 ft", "9 ft")))
    tree = a_house(one, bridges=[bridge], rules={"lock hold": f"{LOCK} lb"})
    return rigged(tree, [piece], [hung("drop", show=f"{chance.choice((6, 14, 30, 50))} ft")])


def felt(one: RiggedSet, stack: Stack, height: float) -> float:
    return out_of_balance(one, stack, height).best / LB


def flown(one: RiggedSet, stack: Stack, start: float, end: float) -> None:
    low, high = sorted((start, end))
    for height in heights_between(low, high, one.pieces, one.cables):
        assert abs(felt(one, stack, height)) <= LOCK + 0.1, (height / FT, stack)


def branches(plan: Plan) -> list[tuple[int, int, float | None]]:
    """For each branch: one brick on or off, how many at most, and the height it comes to, None where it stands [m]."""
    found: list[tuple[int, int, float | None]] = []
    at: float | None = None
    for line in (each for each in plan.lines if each.is_branch):
        if "Slowly in" in line.says and "second hold on" in line.says:
            feet, inches = re.findall(r"to (\d+)' ([\d /]+)\"", line.says)[0]
            at = (int(feet) + float(inches.split()[0]) / 12) * FT
        if line.to == "bridge":
            one = 1 if "add 1" in line.says else -1
            found.append((one, int(re.findall(r"(\d+) on after", line.says)[0]), at))
        if "at most" in line.says:
            sign, _, there = found[-1]
            found[-1] = (sign, int(re.findall(r"(\d+) on at most", line.says)[0]), there)
            at = None
    return found


def first_felt(plan: Plan) -> float:
    """The height at which it is felt with all on [m]."""
    height, last = plan.begin.sets["9"].height, 0
    for at, step in enumerate(plan.steps):
        last = at if step.act in (Act.HANG, Act.BRICKS_ON, Act.BRICKS_OFF) else last
    for at, step in enumerate(plan.steps):
        height = step.height if step.act is Act.MOVE else height
        if at > last and step.act is Act.LOCK_ON:
            break
    return height


def walked(house: RiggedHouse, plan: Plan, weight: float) -> int:
    """Bricks moved by feel for one true weight [kg]."""
    rigged_set = house.sets[0]
    one = replace(rigged_set, pieces=tuple(each.weighing(weight) for each in rigged_set.pieces))
    half = one.brick.mass * 9.80665 / one.purchase / 2 / LB
    here, goal = first_felt(plan), next(s.height for s in reversed(plan.steps) if s.act is Act.MOVE)
    stack, moved = plan.final, 0
    for sign, most, at in branches(plan):
        while sign * felt(one, stack, here) <= -half and stack.bricks != most:
            flown(one, stack, here, at if at is not None else here)
            stack, moved = Stack(stack.bricks + sign, stack.small), moved + 1
            flown(one, stack, at if at is not None else here, here)
    flown(one, stack, here, goal)
    return moved


@settings(max_examples=150, deadline=None)
@given(seed=integers(0, 10**9), share=integers(0, 8))
def test_whatever_it_weighs_no_brick_moved_by_feel_leads_beyond_the_lock(seed: int, share: int) -> None:
    house = house_of(seed)
    plan = load_in(house, "9")
    if plan.refusal is None:
        low, _, high = house.sets[0].pieces[0].mass
        walked(house, plan, low + (high - low) * share / 8)


def test_of_random_sets_many_have_branches_and_in_many_bricks_are_moved_by_feel() -> None:
    plans = [(house, load_in(house, "9")) for house in map(house_of, range(120))]
    told = [(house, plan) for house, plan in plans if plan.refusal is None and branches(plan)]
    assert len(told) >= 20
    ends = [max(walked(house, plan, house.sets[0].pieces[0].mass[end]) for end in (0, 2)) for house, plan in told]
    assert sum(count > 0 for count in ends) >= 10
