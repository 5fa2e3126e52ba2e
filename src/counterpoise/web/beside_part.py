"""The travel and the stack, and what there is to know of both: which count is on, and where the lock was judged."""

from __future__ import annotations

from htpy import Element, Node, div, p

from counterpoise.app.workspace import Now
from counterpoise.balance import LANDED
from counterpoise.checks import HouseResult, SetResult
from counterpoise.drawing import beyond_lock_at_low_trim, felt, judged_heights, travel_picture
from counterpoise.planning import Plan, replay
from counterpoise.units import Style, length
from counterpoise.web.frame import drawn

ENDS_WITH = "It ends with"  # how the plan begins to say why it ends with another count


def beside_part(now: Now, one: SetResult, plan: Plan | None) -> Element:
    """Beside the picture along the batten: the balance over the travel, and the stack that will be on."""
    style = Style(now.result.house.house.units)  # type: ignore[arg-type]  # the document allows just these two words
    final = None if plan is None or plan.refusal is not None else plan.final
    return div(".beside")[drawn(travel_picture(one, style, final=final))]


def beside_notes(result: HouseResult, one: SetResult, plan: Plan | None) -> Node:
    """What is to be known of both, below the answer."""
    style = Style(result.house.house.units)  # type: ignore[arg-type]  # the document allows just these two words
    return [_counts(one, plan), _at_low_trim(result, one, plan, style)]


def _counts(one: SetResult, plan: Plan | None) -> Node:
    """Where the steps end with another count than the one that all figures here are judged with."""
    if plan is None or plan.refusal is not None or one.stack is None or plan.final == one.stack or not plan.steps:
        return None
    why = next((note for note in plan.notes if note.startswith(ENDS_WITH)), f"The steps end with {plan.final.said} on.")
    return p(".note")[f"{why} Figures and chart on this page are with {one.bricks} on."]


def _at_low_trim(result: HouseResult, one: SetResult, plan: Plan | None, style: Style) -> Node:
    """Below where all of it hangs free the lock row judges nothing: what is felt there, and what holds it."""
    judged, span = judged_heights(one), beyond_lock_at_low_trim(one)
    if judged is None or span is None or one.rigged is None:
        return None
    low = length(one.rigged.low, style)
    said = (f"The lock is judged from {length(judged[0], style)}, where all of it hangs free, to "
            f"{length(judged[1], style)}. Lower, part of it rests on the deck: at low trim, {low}, it is "
            f"{felt(span.best, style).removesuffix(' here')} with all bricks on, more than the lock may "
            "hold.")  # fmt: skip
    return p(".note")[said, " ", _held_by(result, one, plan)]


def _held_by(result: HouseResult, one: SetResult, plan: Plan | None) -> str:
    """What the steps do about it, as their replay finds them."""
    if plan is None or plan.refusal is not None or one.rigged is None:
        return "No steps are made for it: nothing here holds it."
    states = [state.sets[one.label] for state in replay(result.house, plan.steps, plan.begin).states]
    there = [on for on in states if on.height <= one.rigged.low + LANDED and on.stack == plan.final]
    if not there:
        return "The steps never leave it there with all of them on: the last go on as it rises."
    holds = sorted({hold for on in there for hold in on.rated})
    return f"In the steps it is held there by {' and '.join(holds)}." if holds else ""
