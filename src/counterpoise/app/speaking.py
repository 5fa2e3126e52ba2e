"""What the crew is told of one set: the plan, or why nothing is said. One policy for console, page and paper."""

from __future__ import annotations

from dataclasses import replace

from counterpoise.balance import Stack
from counterpoise.checks import HouseResult, Verdict
from counterpoise.planning import Goal, Plan, Refusal, load_in, plan_from
from counterpoise.planning.log import Standing, stands_in_the_way


def spoken_load_in(result: HouseResult, label: str) -> Plan:
    """The load-in of a set, refused where the set would end over, however well each step of it balances."""
    return held_if_over(result, label, load_in(result.house, label))


def spoken_from(result: HouseResult, standing: Standing, label: str, goal: Goal) -> Plan:
    """The steps of a set from how a log leaves the house; a load-in is refused where the set would end over.

    A set that is locked out, left off, or waits for another that is open, is refused with who must do what.
    """
    refusal = stands_in_the_way(result.house, standing, label)
    if refusal is not None:
        on = standing.state.sets.get(label)
        return Plan(set=label, steps=(), lines=(), refusal=refusal, final=on.stack if on else Stack(0),
                    begin=standing.state)  # fmt: skip
    plan = plan_from(result.house, standing.state, label, goal)
    return held_if_over(result, label, plan) if goal.what == "load-in" else plan


def held_if_over(result: HouseResult, label: str, plan: Plan) -> Plan:
    """The same plan, refused where the check says that the set would end over."""
    one = result.set_called(label)
    if one is None or one.verdict is not Verdict.OVER or plan.refusal is not None:
        return plan
    worst = next(each for each in one.findings if each.verdict is Verdict.OVER)
    place = worst.place.removeprefix(f"set {label}, ")
    refusal = Refusal(code="OVER", says=f"Set {label} would end over: {place}: {worst.says}", mend=worst.mend)
    return replace(plan, steps=(), lines=(), notes=(), refusal=refusal)
