"""What the crew is told of one set: the plan, or why nothing is said. One policy for console, page and paper."""

from __future__ import annotations

from dataclasses import replace

from counterpoise.checks import HouseResult, Verdict
from counterpoise.planning import Plan, Refusal, load_in


def spoken_load_in(result: HouseResult, label: str) -> Plan:
    """The load-in of a set, refused where the set would end over, however well each step of it balances."""
    plan = load_in(result.house, label)
    one = result.set_called(label)
    if one is None or one.verdict is not Verdict.OVER or plan.refusal is not None:
        return plan
    worst = next(each for each in one.findings if each.verdict is Verdict.OVER)
    place = worst.place.removeprefix(f"set {label}, ")
    refusal = Refusal(code="OVER", says=f"Set {label} would end over: {place}: {worst.says}", mend=worst.mend)
    return replace(plan, steps=(), lines=(), notes=(), refusal=refusal)
