"""What is said of a set: the sentence for the bridge or why nothing is loaded, what is wrong, and the way out of it."""

from __future__ import annotations

from collections.abc import Sequence

from htpy import Element, Node, b, details, div, fragment, li, ol, p, section, span, summary, ul

from counterpoise.app.workspace import Now
from counterpoise.checks import Finding, HouseResult, SetResult, Verdict
from counterpoise.drawing import of_text
from counterpoise.drawing.telling import AT_ONCE
from counterpoise.planning import Plan, Spoken, mends_of
from counterpoise.units import Style
from counterpoise.web.beside_part import ENDS_WITH, beside_notes
from counterpoise.web.hang_part import hang_part
from counterpoise.web.words import promise_of, with_code
from counterpoise.web.writing_page import asked_here

MOST_ASKED = 3
IN_WORDS = {
    Verdict.WITHIN: "within: as it hangs with everything on, nothing that was checked is past its limit.",
    Verdict.UNKNOWN: "unknown: a figure is missing, or too loosely known to tell.",
}
HOLD_IN_WORDS = "Hold: the way there, or what it rests on, is not settled. Nothing is loaded until that is mended."


def say_part(now: Now, one: SetResult, plan: Plan | None) -> Element:
    """The answer, before any picture: what to do, what governs, and what mends it."""
    style = Style(now.result.house.house.units)  # type: ignore[arg-type]  # the document allows just these two words
    return section("#say.say.stale", aria_label="What is said of it")[
        p("#kept.kept", role="status"),
        _first(one, plan),
        _by_hand(one, style),
        _findings(now.result, one),
        _in_words(one, plan),
        beside_notes(now.result, one, plan),
        _asked(now, one),
        hang_part(now, one),
    ]


def steps_part(one: SetResult, plan: Plan | None) -> Node:
    """Every line of the load-in, and what they rest on."""
    if plan is None or plan.refusal is not None:
        return None
    heading = "load-in, as it will be said"
    if one.hold == "unknown":
        heading = "load-in, as it would be said once that is found out"
    felt = p(".to")["→ what is felt then, at the worst that loads and bricks may come to"]
    lines = [li[span(".who")[each.to], span(".what")[_bare(each), each.after and span(".after")[f"→ {each.after}"]]]
             for each in plan.lines]  # fmt: skip
    told = [note for note in plan.notes if not note.startswith(ENDS_WITH)]  # that one stands beside the stack
    notes = ul(".notes.stale")[[li[note] for note in told]] if told else None
    return [section(".steps.stale", aria_label="Steps")[p(".to")[heading], felt, ol[lines]], notes]


def _first(one: SetResult, plan: Plan | None) -> Node:
    if one.out_of_service:
        why = f"Out of service: {one.out_of_service}. Nothing is hung or loaded here until it is released."
        return fragment[p(".says.refused")["Load nothing."], p[why]]
    if plan is None:
        return _nothing_hung(one)
    if plan.refusal is not None:
        told = plan.refusal.code != "OVER"  # of what is over the findings tell just below
        cls = ".says.refused.word-unknown" if one.verdict is Verdict.UNKNOWN else ".says.refused"
        return fragment[p(".to")["load-in"], p(cls)["Hold."],
                        told and p[with_code(f"{_capital(plan.refusal.says)} {plan.refusal.mend}")]]  # fmt: skip
    if one.hold == "unknown":
        return fragment[
            p(".to")["load-in"],
            p(".says.refused.word-unknown")["Hold: unknown. Find out first."],
            p[f"Nothing is promised of set {one.label} until then."],
        ]
    first = next((each for each in plan.lines if each.to == "bridge"), plan.lines[0])
    promise = promise_of(one)
    return fragment[p(".to")[f"{first.to.capitalize()}, set {first.set}:"],
                    p(".says")[first.says.removeprefix(f"Set {first.set}: ")],
                    promise and p(".refused.word-unknown")[f"{_capital(promise)}, then the rail feels. Nothing more is "
                                                           "promised of it."]]  # fmt: skip


def _nothing_hung(one: SetResult) -> Node:
    """What the bridge does where nothing hangs."""
    if one.hung or one.stack is None:
        return None
    return fragment[p(".to")[f"Bridge, set {one.label}, nothing hung:"], p(".says")[f"leave {one.bricks} on."]]


def _by_hand(one: SetResult, style: Style) -> Node:
    """What balances a set without an arbor: its bags, and the crew."""
    rows = [row for row in one.rows if row.link in ("bags", "crew") and row.limit is not None]
    return [p[f"{row.link}: ", b(class_=f"word-{row.verdict.value}")[of_text(row, style)]] for row in rows]


def _bare(line: Spoken) -> str:
    """What is said, without the set that stands above it already."""
    return _capital(line.says.removeprefix(f"Set {line.set}: "))


def _capital(said: str) -> str:
    return f"{said[:1].upper()}{said[1:]}"


def _findings(result: HouseResult, one: SetResult) -> Node:
    """The worst of each kind; the others of its kind behind their count; then what is only to be known."""
    if not one.findings:
        return None
    use = {row.key: row.use for row in one.rows}
    worst = sorted(one.findings, key=lambda each: -use.get(each.key, 0.0))
    whole = [each for each in one.findings if each.code == AT_ONCE]  # of several that are over, what mends them all
    worst = [each for each in worst if each.code != AT_ONCE]
    kinds = [[each for each in worst if each.verdict is verdict] for verdict in (Verdict.OVER, Verdict.UNKNOWN)]
    clear = [p[f"{each.says} Then it is {'within what was checked' if each.verdict is Verdict.WITHIN else 'unknown'}."]
             for each in mends_of(result, one.label)]  # fmt: skip
    tried: Node = [p(".to")["tried out, and clears it"], clear] if clear else None
    return div(".mend")[
        [_kind(kind) for kind in kinds if kind],
        [p[with_code(each.says), " ", with_code(each.mend)] for each in whole],
        tried,
        [p[_capital(each.says), " ", with_code(each.mend)] for each in worst if each.verdict is Verdict.WITHIN],
    ]


def _kind(found: Sequence[Finding]) -> Node:
    first, *others = found
    if not others:
        return _finding(first)
    names = listed_names([_place(each) for each in others])
    word = first.verdict.value
    return fragment[
        _finding(first),
        details[
            summary(class_=f"word-{word}")[f"{len(others)} more {word}: {names}"], [_finding(each) for each in others]
        ],
    ]


def listed_names(names: Sequence[str], most: int = 3) -> str:
    """The first few, and how many more there are."""
    more = f" and {len(names) - most} more" if len(names) > most else ""
    return f"{'; '.join(names[:most])}{more}"


def _finding(each: Finding) -> Element:
    return p[
        b(class_=f"word-{each.verdict.value}")[f"{_place(each)}: "], with_code(each.says), " ", with_code(each.mend)
    ]


def _place(each: Finding) -> str:
    return each.place.split(", ", 1)[-1]


def _in_words(one: SetResult, plan: Plan | None) -> Node:
    """Where a set is not over and yet on hold, what each of the two words says."""
    if plan is None or one.out_of_service or one.verdict not in IN_WORDS:
        return None
    if plan.refusal is None and one.hold != "unknown":
        return None
    return div(".in-words")[p[IN_WORDS[one.verdict]], p[HOLD_IN_WORDS]]


def _asked(now: Now, one: SetResult) -> Node:
    """A field for each figure this set waits for."""
    wanted = [each for each in now.result.unknowns if one.label in each.sets and each.paths]
    return asked_here(now, wanted[:MOST_ASKED], "write here what is found out", is_open=one.batten is None)
