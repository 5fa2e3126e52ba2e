"""The load-in called one step at a time: what is said now, the reply that moves it on, and what comes next."""

from __future__ import annotations

from itertools import groupby

from htpy import Element, Node, a, details, div, h1, header, li, nav, p, span, summary, ul

from counterpoise.app.workspace import Now
from counterpoise.checks import HouseResult
from counterpoise.planning import Spoken
from counterpoise.planning.call import Call, total_said
from counterpoise.web.call_page import bare
from counterpoise.web.frame import CAUTION, page, theme_button
from counterpoise.web.words import HOLD_UNKNOWN, promise_of, set_address


def step_page(now: Now, number: int) -> Element:
    """The step of this number, from 1; the nearest there is, and after the last what is left to say."""
    call = now.told.call()
    count = len(call.lines)
    number = max(1, min(number, count + 1))
    inside = _done(now, call) if number > count else _step(now.result, call, number)
    where = f"step {number} of {count}" if number <= count else "all steps called"
    return page(
        f"load-in, {where}",
        header(".top")[a(".plain", href="/load-in")["← load-in"], span(".where")[where], span(".grow"), theme_button()],
        inside,
        _jump(call),
        p(".foot")["Nothing is noted here: this page only tells the steps. ", CAUTION],
    )


def _step(result: HouseResult, call: Call, number: int) -> Node:
    one = call.lines[number - 1]
    stands = result.set_called(one.set)
    promise = promise_of(stands) if stands is not None else ""
    closed = next((each for each in call.closed if each.lines == number), None)
    return [
        h1(".step-set")[
            a(href=set_address(one.set), aria_label=f"set {one.set}")[one.set],
            span(".name")[", ".join(stands.hung) if stands is not None else ""],
        ],
        promise and p(".word-unknown")[f"{promise[:1].upper()}{promise[1:]}. Nothing is promised of it."],
        div(".step-now", role="group", aria_label=f"step {number}")[
            p(".to")[one.to], p(".step-says")[_says(one)], one.after and p(".step-after")[f"→ {one.after}"],
        ],
        _said_before(call, number),
        _ways_on(call, number, is_held=promise == HOLD_UNKNOWN),
        p(".step-total")[f"Set {one.set} is then closed; now {total_said(call, closed)}."] if closed else None,
        _next(call, number),
        p(".step-back")[a(".plain", href=step_address(number - 1))["‹ the step before"] if number > 1 else None],
    ]  # fmt: skip


def _says(one: Spoken) -> Node:
    """What is said; of the bridge first how many, then what is on after and how it is closed."""
    first, dot, rest = bare(one).partition(". ")
    return [f"{first}{dot}".strip(), span[f" {rest}"]] if one.to == "bridge" and rest else bare(one)


def _said_before(call: Call, number: int) -> Node:
    """The last two replies of this set, on which the step stands."""
    label = call.lines[number - 1].set
    before = [one for one in call.lines[max(0, number - 3) : number - 1] if one.set == label and one.reply]
    return (
        ul(".step-before")[[li[span(".to")[f"before, {one.to}"], f" {one.reply}"] for one in before]]
        if before
        else None
    )


def _ways_on(call: Call, number: int, *, is_held: bool) -> Node:
    """The reply that moves the call on, and the way past; of a set that is to be held the way past is the great one."""
    one = call.lines[number - 1]
    label, after = one.set, _after_set(call, number)
    branch = _not_so(call, number) if one.is_branch else None
    if not is_held:
        return [
            a(".step-reply", href=step_address(number + 1))[
                span(".to")["reply, then on"], span(".words")[one.reply or "done"]],
            branch,
        ]  # fmt: skip
    return [
        a(".step-reply", href=step_address(after))[
            span(".to")["not found out yet"], span(".words")[f"hold set {label}: go on to the next set"]],
        branch,
        a(".step-else.is-held", href=step_address(number + 1))[
            span(".to")["only if it is found out by now: reply, then on"], span[one.reply or "done"]],
    ]  # fmt: skip


def _not_so(call: Call, number: int) -> Node:
    """The way past a step that is done only if what it asks turns out so."""
    after = next((line.number for line in call.lines[number:] if not line.is_branch), len(call.lines) + 1)
    return a(".step-else", href=step_address(after))["it is not so: go on without it"]


def _after_set(call: Call, number: int) -> int:
    """The first step of the next set."""
    label = call.lines[number - 1].set
    return next((line.number for line in call.lines[number:] if line.set != label), len(call.lines) + 1)


def _next(call: Call, number: int) -> Node:
    if number >= len(call.lines):
        return p(".step-next")[span(".to")["next"], span["nothing: it is the last"]]
    one = call.lines[number]
    other = one.set != call.lines[number - 1].set
    return p(".step-next")[span(".to")[f"next, {one.to}{f', set {one.set}' if other else ''}"], span[bare(one)]]


def _done(now: Now, call: Call) -> Node:
    unknown = now.told.unknown()
    total = total_said(call, call.closed[-1]) if call.closed else ""
    return [
        p(".step-says")["All steps are called." if call.lines else "There are no steps to call."],
        p(".refused")[f"{call.refusal.says} {call.refusal.mend}"] if call.refusal is not None else None,
        total and p(".step-total")[f"{total}."],
        unknown and p(".refused.word-unknown")[f"Nothing is promised of {', '.join(unknown)}: unknown."],
        p(".step-back")[a(".plain", href=step_address(len(call.lines)))["‹ the step before"]] if call.lines else None,
    ]  # fmt: skip


def _jump(call: Call) -> Node:
    """Where each set begins."""
    begins = [(label, next(lines)) for label, lines in groupby(call.lines, key=lambda one: one.set)]
    held = f"left as they are: {', '.join(one.set for one in call.held)}" if call.held else ""
    return details(".jump")[
        summary["jump to a set"],
        nav(aria_label="sets")[ul[[li[a(href=step_address(line.number))[label]] for label, line in begins]]],
        held and p(".to")[held],
    ]  # fmt: skip


def step_address(number: int) -> str:
    """Where a step is told."""
    return f"/load-in/step?n={number}"
