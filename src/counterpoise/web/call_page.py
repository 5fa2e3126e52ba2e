"""The load-in of all that hangs, as it will be said: who does what, set after set."""

from __future__ import annotations

from itertools import groupby

from htpy import Element, Node, a, h1, h2, header, li, ol, p, section, span, ul

from counterpoise.app.calls import whole_call
from counterpoise.app.workspace import Now
from counterpoise.planning import Spoken
from counterpoise.web.frame import CAUTION, page, theme_button
from counterpoise.web.words import set_address

SECONDS = 2.0  # that the search for an order may take


def call_page(now: Now) -> Element:
    """Every line of the load-in in its order, and the sets that are held, each with its reason."""
    call = whole_call(now.result, is_strike=False, seconds=SECONDS)
    refusal = call.refusal
    parts = [(label, list(lines)) for label, lines in groupby(call.lines, key=lambda line: line.set)]
    return page(
        "load-in",
        header(".top")[a(".plain", href="/")[f"← {now.result.house.name}"], span(".grow"), theme_button()],
        h1(".page")[f"Load-in of {now.result.house.show}"],
        p(".lead.note")["In the order in which it is worked. → what is felt then, at the worst that loads and "
                        "bricks may come to."],
        p(".refused")[f"{refusal.says} {refusal.mend}"] if refusal is not None else None,
        section(".steps.call")[[_turn(label, lines) for label, lines in parts]],
        _held([(one.set, f"{one.refusal.says} {one.refusal.mend}") for one in call.held]),
        ul(".notes")[[li[note] for note in call.notes]] if call.notes else None,
        p(".foot")[CAUTION],
    )  # fmt: skip


def _turn(label: str, lines: list[Spoken]) -> Node:
    heading = h2[a(href=set_address(label))[f"set {label}"]] if label else None
    return [heading, ol(start=str(lines[0].number))[[_line(one) for one in lines]]]


def _line(one: Spoken) -> Element:
    says = one.says.removeprefix(f"Set {one.set}: ")
    after = one.after and span(".after")[f"→ {one.after}"]
    return li[span(".number")[str(one.number)], span(".who")[one.to],
              span(".what")[f"{says[:1].upper()}{says[1:]}", after]]  # fmt: skip


def _held(held: list[tuple[str, str]]) -> Node:
    if not held:
        return None
    lines = [li[a(href=set_address(label))[f"set {label}"], f": {why}"] for label, why in held]
    return section[h2["Left as they are"], ul(".held")[lines]]
