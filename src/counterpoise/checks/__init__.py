"""Limit rows, what they say, and how each figure came about."""

from counterpoise.checks.again import Change, Changed, hung_on, judge_again, judge_changed, neighbours_of
from counterpoise.checks.counts import balances_at, other_count, rests_on_count
from counterpoise.checks.explain import Derivation, explain
from counterpoise.checks.finding import Finding
from counterpoise.checks.findings import findings_of
from counterpoise.checks.house import check
from counterpoise.checks.lighter import Lighter, Promise
from counterpoise.checks.limits import rows_asked, stack_of, verdict_of
from counterpoise.checks.result import HouseResult, SetResult
from counterpoise.checks.rows import Check, Input, Measure, Verdict
from counterpoise.checks.surprise import Surprise, surprise_of
from counterpoise.checks.together import Told, listed, together
from counterpoise.checks.told import figure_told
from counterpoise.checks.unknowns import Unknown

__all__ = [
    "Change",
    "Changed",
    "Check",
    "Derivation",
    "Finding",
    "HouseResult",
    "Input",
    "Lighter",
    "Measure",
    "Promise",
    "SetResult",
    "Surprise",
    "Told",
    "Unknown",
    "Verdict",
    "balances_at",
    "check",
    "explain",
    "figure_told",
    "findings_of",
    "hung_on",
    "judge_again",
    "judge_changed",
    "listed",
    "neighbours_of",
    "other_count",
    "rests_on_count",
    "rows_asked",
    "stack_of",
    "surprise_of",
    "together",
    "verdict_of",
]
