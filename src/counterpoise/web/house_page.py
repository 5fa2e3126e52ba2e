"""The first page: one sentence that surprises with its small picture, then the whole house."""

from __future__ import annotations

from htpy import Element, Node, a, div, h1, header, p, section, span

from counterpoise.app.workspace import Now
from counterpoise.balance import Span, out_of_balance
from counterpoise.checks import HouseResult, SetResult, Surprise, listed, surprise_of
from counterpoise.drawing import (
    bears_resultant,
    felt,
    house_legend,
    house_picture,
    sentence_of,
    shown_height,
    strip_picture,
    surprise_picture,
    told_of,
)
from counterpoise.planning.holds import lock_limit
from counterpoise.rigging import RiggedSet
from counterpoise.units import METRES_PER_INCH, Style, force, length, limit
from counterpoise.web.foot_part import house_foot
from counterpoise.web.frame import drawn, page, theme_button
from counterpoise.web.words import set_address
from counterpoise.web.writing_page import asked_here

MOST_UNKNOWNS = 3


def house_page(now: Now) -> Element:
    """The house."""
    result = now.result
    style = Style(result.house.house.units)  # type: ignore[arg-type]  # the document allows just these two words
    surprise = surprise_of(result)
    mark = surprise.label if surprise else ""
    told = told_of(result, style)
    return page(
        result.house.name,
        header(".top")[
            h1[result.house.name, span[result.house.show]],
            span(".grow"),
            p[f"revision {now.revision} · {counts(result)}"],
            a(".plain", href="/text/house")["as text"],
            a(".plain", href="/load-in")["load-in"],
            a(".plain", href="/houses")["houses"],
            theme_button(),
        ],
        p("#kept.kept", role="status"),
        _lead(result, mark, style),
        div(".find")[
            _unknowns(result),
            asked_here(now, result.unknowns[:MOST_UNKNOWNS], "write here what is found out",
                       is_open=not result.counted()[0]),
        ],
        div("#said.pulled", aria_live="polite"),
        div("#glass", hidden=True, aria_hidden="true")[p],
        section(".wide.lanes", aria_label="The house")[_lanes(result, mark, told, narrow=False)],
        section(".narrow.lanes", aria_label="The house, for a small screen")[_lanes(result, mark, told, narrow=True)],
        house_foot(result),
        scripts=("house.js", "write.js"),
    )  # fmt: skip


def _lanes(result: HouseResult, mark: str, told: tuple[str, ...], *, narrow: bool) -> Node:
    """The lanes; above them, where a window shows only some, all at a glance."""
    strip = strip_picture(result, narrow=narrow)
    above = div(".strip")[drawn(strip)] if strip is not None else None
    lanes = house_picture(result, narrow=narrow, mark=mark, told=told, legend=False)
    return [
        above,
        div(".scroll")[drawn(lanes)],
        p(".legend")[[span[said] for said in house_legend(result, narrow=narrow)]],
    ]


def counts(result: HouseResult) -> str:
    """How many sets there are, and how they stand."""
    within, over, unknown, out = result.counted()
    said = f"{len(result.sets)} sets · {within} within · {over} over · {unknown} unknown"
    return f"{said} · {out} out of service" if out else said


def _lead(result: HouseResult, mark: str, style: Style) -> Node:
    surprise = surprise_of(result)
    one = result.set_called(mark)
    if surprise is None or one is None:
        over = next((each for each in result.findings if each.verdict.value == "over"), None)
        said = f"{over.place[:1].upper()}{over.place[1:]}: {over.says}" if over else counts(result)
        return section(".lead")[p(".sentence")[_plain_lead(result, said) if not over else said]]
    return section(".lead", aria_label="First of all")[
        div[
            p(".sentence")[sentence_of(surprise, one)],
            p(".note")[_bars(surprise, one), a(href=set_address(mark))[f"Open set {mark}"]],
        ],
        drawn(surprise_picture(one, surprise.equal, style)) if surprise.row else None,
    ]  # fmt: skip


def _bars(surprise: Surprise, one: SetResult) -> str:
    """What the bars of the small picture stand for."""
    if surprise.row is None:
        return ""
    what = "what each line puts on its block, the resultant" if bears_resultant(one, surprise.row) else \
        "what each line carries at its loft block, rope included"  # fmt: skip
    return f"Bars: {what}, at the best figures. Tick: an equal share. Dashed: what its block may carry. "


def _plain_lead(result: HouseResult, said: str) -> str:
    """The first sentence where nothing surprises; of a house of which little is written yet, what it lacks."""
    if any(result.counted()[:2]):
        return f"{result.house.name}: {said}."
    return f"{len(result.sets)} sets, drawn from what is written. None can be judged yet: each waits for figures."


def _unknowns(result: HouseResult) -> Node:
    """At most three, the one on which most sets wait first."""
    first = result.unknowns[:MOST_UNKNOWNS]
    if not first:
        return None
    parts: list[Node] = ["Find out first: "]
    place_of = {one.label: at for at, one in enumerate(result.sets)}
    for index, one in enumerate(first):
        sets = listed(one.sets, place_of)
        parts += [", then " if index else "", a(href=set_address(one.sets[0]))[
            f"{one.what} (set{'s' if len(one.sets) > 1 else ''} {sets})"]]  # fmt: skip
    more = len(result.unknowns) - len(first)
    return p(".unknowns")[parts, f"; {more} more." if more else "."]


def travel_table(result: HouseResult) -> dict[str, object]:
    """For every set: heights it may be pulled to, where its arbor's seat then is, and what is felt, as printed."""
    style = Style(result.house.house.units)  # type: ignore[arg-type]
    step = 6 * METRES_PER_INCH if style.system == "us" else 0.1
    sets = {one.label: found for one in result.sets if (found := _travel(result, one, step, style)) is not None}
    return {"sets": sets}


def _travel(result: HouseResult, one: SetResult, step: float, style: Style) -> dict[str, object] | None:
    rigged = one.rigged
    if rigged is None or one.stack is None:
        return None
    drawn_at = shown_height(one)
    count = int((rigged.high - rigged.low) / step + 1e-6)
    heights = sorted({rigged.low + i * step for i in range(count + 1)} | {rigged.high})
    spans = [out_of_balance(rigged, one.stack, at) for at in heights]
    told = [past_lock(result, rigged, span, style) for span in spans]
    start = min(range(len(heights)), key=lambda i: abs(heights[i] - drawn_at))
    return {
        "heights": [round(at, 4) for at in heights],
        "seats": [round(rigged.seat(at), 4) for at in heights],
        "says": [felt(span.best, style) + past for span, (past, _) in zip(spans, told, strict=True)],
        "over": [is_over for _, is_over in told],
        "at": [length(at, style) for at in heights],
        "drawn": round(drawn_at, 4),
        "drawn_seat": round(rigged.seat(drawn_at), 4),
        "start": start,
    }


def past_lock(result: HouseResult, rigged: RiggedSet, span: Span, style: Style) -> tuple[str, bool]:
    """What is to be said where it is heavier than the lock may hold at the batten, and whether it surely is."""
    arbor, batten = lock_limit(result.house, rigged)
    if span.best > arbor or -span.best > batten:
        return f", over: the lock may hold {limit(arbor if span.best > 0.0 else batten, style)}", True
    if span.high > arbor or -span.low > batten:
        worst, most = (span.high, arbor) if span.high > arbor else (span.low, batten)
        return f"; may come to {force(abs(worst), style)}, the lock may hold {limit(most, style)}", False
    return "", False
