"""A result as data, to the schema in `schemas`: SI figures beside what a reader sees, each with its verdict."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from counterpoise.cli.say import CAUTION, style_of
from counterpoise.units import Kind

if TYPE_CHECKING:
    from counterpoise.checks import Check, Finding, HouseResult, Input, SetResult
    from counterpoise.planning import Plan
    from counterpoise.units import Style

UNITS = {Kind.FORCE: "N", Kind.STRESS: "Pa", Kind.LENGTH: "m", Kind.MASS: "kg", Kind.COUNT: "", Kind.MOMENT: "N m",
         Kind.ANGLE: "rad"}  # fmt: skip


def check_as_data(result: HouseResult) -> dict[str, Any]:
    """Everything that was found, as `counterpoise check 1`."""
    from counterpoise.checks import surprise_of

    style = style_of(result)
    within, over, unknown, out = result.counted()
    surprise = surprise_of(result)
    return {
        "schema": "counterpoise check 1", "house": result.house.name, "show": result.house.show,
        "units": result.house.units, "verdict": result.verdict.value,
        "counts": {"within": within, "over": over, "unknown": unknown, "out_of_service": out},
        "surprise": surprise.sentence if surprise else None,
        "findings": [_finding(one) for one in result.findings],
        "unknowns": [{"what": one.what, "path": one.path, "sets": list(one.sets)} for one in result.unknowns],
        "sets": [_set(one, style) for one in result.sets],
        "rules": [{"name": one.name, "value": one.value, "words": one.words, "how": one.how.value,
                   "adopted_by": result.house.house.rules.adopted_by if one.written else ""}
                  for one in result.house.rules.values()],
        "not_checked": [{"what": one.what, "why": one.why, "who": one.who, "until": one.until, "sets": list(one.sets)}
                        for one in result.not_checked],
        "bridges": [_row(row, style) for row in result.bridges],
        "not_computed": list(result.left_out),
        "caution": CAUTION,
    }  # fmt: skip


def steps_as_data(plan: Plan, one: SetResult, what: str) -> dict[str, Any]:
    """The spoken lines, as `counterpoise steps 1`."""
    refusal = plan.refusal
    return {
        "schema": "counterpoise steps 1", "set": one.label, "what": what, "verdict": one.verdict.value,
        "findings": [_finding(each) for each in one.findings],
        "lines": [{"number": line.number, "to": line.to, "set": line.set, "says": line.says, "reply": line.reply,
                   "after": line.after, "only_if": line.is_branch} for line in plan.lines],
        "final_bricks": plan.final.bricks, "final_small": plan.final.small, "notes": list(plan.notes),
        "refusal": None if refusal is None else {"code": refusal.code, "says": refusal.says, "mend": refusal.mend},
        "caution": CAUTION,
    }  # fmt: skip


def _finding(one: Finding) -> dict[str, Any]:
    return {"code": one.code, "set": one.label, "place": one.place, "says": one.says, "mend": one.mend,
            "source": one.source, "verdict": one.verdict.value, "key": one.key}  # fmt: skip


def _set(one: SetResult, style: Style) -> dict[str, Any]:
    governing, rigged = one.governing, one.rigged
    stack = None
    if one.stack is not None and rigged is not None:
        stack = {"bricks": one.stack.bricks, "pipe_weight": rigged.pipe_bricks,
                 "add": one.stack.bricks - rigged.pipe_bricks, "plates": one.stack.plates(rigged),
                 "small": one.stack.small, "small_pipe_weight": rigged.small_pipe_bricks,
                 "small_brick": rigged.small.name if rigged.small else None,
                 "brick": rigged.brick.name, "basis": one.stack_basis}  # fmt: skip
    return {
        "set": one.label, "key": rigged.key if rigged else one.label, "verdict": one.verdict.value,
        "out_of_service": one.out_of_service, "pieces": list(one.hung), "slack_lines": list(one.slack),
        "stack": stack, "governing": governing.key if governing else None,
        "rows": [_row(row, style) for row in one.rows], "findings": [finding.code for finding in one.findings],
    }  # fmt: skip


def _row(row: Check, style: Style) -> dict[str, Any]:
    value, limit = row.printed(style)
    is_known = not row.lacks or row.verdict.value == "over"  # what it lacks could only add to what is over
    return {
        "key": row.key, "link": row.link, "line": row.line, "unit": UNITS[row.measure.value],
        "value": {"low": row.value.low, "best": row.value.best, "high": row.value.high} if is_known else None,
        "limit": row.limit, "printed": {"value": value if is_known else "not known", "limit": limit},
        "verdict": row.verdict.value, "lacks": row.lacks, "how": row.how.value, "formula": row.formula,
        "inputs": [_input(one) for one in row.inputs],
    }  # fmt: skip


def _input(one: Input) -> dict[str, Any]:
    return {"name": one.name, "words": one.words, "how": one.how.value, "path": one.path, "source": one.source}
