"""What the crew is told of one set: the plan, or why nothing is said. One policy for console, page and paper."""

from __future__ import annotations

import math
from dataclasses import replace

from counterpoise.balance import Stack
from counterpoise.checks import Finding, HouseResult, SetResult, Verdict
from counterpoise.checks.told import AT_ONCE
from counterpoise.planning import Goal, Plan, Refusal, load_in, plan_from, start
from counterpoise.planning.log import Standing, stands_in_the_way


def spoken_load_in(result: HouseResult, label: str) -> Plan:
    """The load-in of a set; where the set would end over that is said, and no way is looked for."""
    one = result.set_called(label)
    worst = over_at_the_end(one) if one is not None else None
    if worst is None:
        return load_in(result.house, label)
    return Plan(set=label, steps=(), lines=(), refusal=would_end_over(worst), final=Stack(0), begin=start(result.house))


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
    worst = over_at_the_end(one) if one is not None and plan.refusal is None else None
    return plan if worst is None else replace(plan, steps=(), lines=(), notes=(), refusal=would_end_over(worst))


def over_at_the_end(one: SetResult) -> Finding | None:
    """The worst of a set that no order of work mends, with what mends all of it; None where there is nothing.

    What is out of service or tips is the worst there is, then what is farthest past its limit. Where several are over
    and no one weight is told for all of them, the others are named beside the mend of the worst.

    What presses into the top stop is judged of all that hangs before any brick is on. Pieces and bricks by turns press
    less, and the replay judges every step of that.
    """
    if one.verdict is not Verdict.OVER:
        return None
    over = [each for each in one.findings if each.verdict is Verdict.OVER and not each.key.endswith("/top stop")]
    alone = [each for each in over if each.code != AT_ONCE]
    use = {row.key: row.use for row in one.rows}
    worst = max(alone, key=lambda each: use.get(each.key, 0.0) if each.key else math.inf, default=None)
    if worst is None:
        return None
    whole = next((each.mend for each in over if each.code == AT_ONCE), "")
    others = dict.fromkeys(_link(each) for each in alone if each is not worst)
    also = f"{worst.mend} Over too: {', '.join(others)}." if others else worst.mend
    return replace(worst, mend=whole or also)


def _link(found: Finding) -> str:
    return found.place.removeprefix(f"set {found.label}, ").partition(", line")[0]


def would_end_over(worst: Finding) -> Refusal:
    """Why a set is held."""
    place = worst.place.removeprefix(f"set {worst.label}, ")
    return Refusal(code="OVER", says=f"Set {worst.label} would end over: {place}: {worst.says}", mend=worst.mend)
