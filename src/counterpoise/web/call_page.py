"""The load-in of all that hangs, as it will be said: who does what, set after set."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from htpy import Element, Node, a, h1, h2, header, li, ol, p, section, span, ul

from counterpoise.app.workspace import Now
from counterpoise.checks import HouseResult
from counterpoise.drawing import reason_of
from counterpoise.planning import Spoken
from counterpoise.planning.turns import Held
from counterpoise.web.frame import CAUTION, page, theme_button
from counterpoise.web.words import promise_of, set_address, with_code


def call_page(now: Now) -> Element:
    """The sets that are held, each with its reason, and then every line of the load-in in its order."""
    call = now.told.call()
    refusal = call.refusal
    parts = [(label, list(lines)) for label, lines in groupby(call.lines, key=lambda line: line.set)]
    return page(
        "load-in",
        header(".top")[
            a(".plain", href="/")[f"← {now.result.house.name}"],
            a(".plain", href="/load-in/step")["one step at a time"] if call.lines else None,
            span(".grow"), theme_button(),
        ],
        h1(".page")[f"Load-in of {now.result.house.show}"],
        _held([(one.set, _why(now.result, one)) for one in call.held]),
        unknown_note(now.result, now.told.unknown()),
        p(".refused")[with_code(f"{refusal.says} {refusal.mend}")] if refusal is not None else None,
        p(".lead.note")["In the order in which it is worked. → what is felt then, at the worst that loads and "
                        "bricks may come to."],
        section(".steps.call")[[_turn(now.result, label, lines) for label, lines in parts]],
        ul(".notes")[[li[note] for note in call.notes]] if call.notes else None,
        p(".foot")[CAUTION],
    )  # fmt: skip


def unknown_note(result: HouseResult, labels: Sequence[str]) -> Node:
    """At the head: of which of these sets nothing is promised, and which of them are to be held."""
    if not labels:
        return None
    linked: list[Node] = []
    for at, label in enumerate(labels):
        linked += [", " if at else "", a(href=set_address(label))[label]]
    sets = [one for label in labels if (one := result.set_called(label)) is not None]
    held = [one.label for one in sets if one.hold == "unknown"]
    felt = [one.label for one in sets if one.hold != "unknown"]
    return p(".refused.word-unknown.unknown-sets")[
        f"Unknown: set{'s' if len(labels) > 1 else ''} ", linked, ". Nothing is promised of these. ",
        f"Hold {_and(held)}: their steps are told as they would be once that is found out. " if held else "",
        f"Of {_and(felt)} the count is a first one, then the rail feels." if felt else "",
    ]  # fmt: skip


def _and(labels: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(labels[:-1]), labels[-1])))


def _turn(result: HouseResult, label: str, lines: list[Spoken]) -> Node:
    one = result.set_called(label) if label else None
    promise = promise_of(one) if one is not None else ""
    heading = h2[a(href=set_address(label))[f"set {label}"],
                 promise and span(".word-unknown")[f" {promise}"]] if label else None  # fmt: skip
    return section(".turn.is-unknown" if promise else ".turn")[
        heading, ol(start=str(lines[0].number))[[_line(one) for one in lines]]
    ]


def _line(one: Spoken) -> Element:
    after = one.after and span(".after")[f"→ {one.after}"]
    return li[span(".number")[str(one.number)], span(".who")[one.to], span(".what")[bare(one), after]]


def bare(one: Spoken) -> str:
    """What is said, without the set that stands above it already."""
    says = one.says.removeprefix(f"Set {one.set}: ")
    return f"{says[:1].upper()}{says[1:]}"


def _why(result: HouseResult, one: Held) -> str:
    """Why it is held: of a set that would end over what governs, and what mends all of it."""
    stands = result.set_called(one.set)
    says, mend = reason_of(stands) if stands is not None and one.refusal.code == "OVER" else ("", "")
    refused = one.refusal.says.removeprefix(f"Set {one.set}: ")
    return f"would end over: {says} {mend}" if says else f"{refused} {one.refusal.mend}"


def _held(held: list[tuple[str, str]]) -> Node:
    """At the head: who calls a load-in is to know first on which sets nothing is put."""
    if not held:
        return None
    lines = [li[a(".refused", href=set_address(label))[f"Hold set {label}"], ": ", with_code(why)]
             for label, why in held]  # fmt: skip
    return section(".held-sets", aria_label="Held")[h2["Left as they are in this call"], ul(".held")[lines]]
