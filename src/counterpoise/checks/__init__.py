"""Limit rows, what they say, and how each figure came about."""

from counterpoise.checks.again import hung_on, judge_again, neighbours_of
from counterpoise.checks.explain import Derivation, explain
from counterpoise.checks.findings import Finding, findings_of
from counterpoise.checks.house import HouseResult, SetResult, check
from counterpoise.checks.lighter import Lighter
from counterpoise.checks.limits import rows_asked, stack_of, verdict_of
from counterpoise.checks.rows import Check, Input, Measure, Verdict
from counterpoise.checks.surprise import Surprise, surprise_of
from counterpoise.checks.together import Told, listed, together
from counterpoise.checks.unknowns import Unknown

__all__ = [
    "Check",
    "Derivation",
    "Finding",
    "HouseResult",
    "Input",
    "Lighter",
    "Measure",
    "SetResult",
    "Surprise",
    "Told",
    "Unknown",
    "Verdict",
    "check",
    "explain",
    "findings_of",
    "hung_on",
    "judge_again",
    "listed",
    "neighbours_of",
    "rows_asked",
    "stack_of",
    "surprise_of",
    "together",
    "verdict_of",
]
