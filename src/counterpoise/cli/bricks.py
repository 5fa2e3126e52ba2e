"""`counterpoise bricks`: what every set gets from the stock, from where, what is left and what to ask for."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from counterpoise.cli.answer import Answer, Exit, today

if TYPE_CHECKING:
    from counterpoise.cli.bricks_held import Holding
    from counterpoise.planning.stock import Share, StockPlan
    from counterpoise.rigging import RiggedHouse, RiggedSet


def bricks(asked: argparse.Namespace) -> Answer:
    """Share the stock of bricks among all sets of a hang."""
    import json

    from counterpoise.app import judge
    from counterpoise.app.files import read_texts
    from counterpoise.cli.bricks_held import holding_of
    from counterpoise.planning.stock import share_stock

    result = judge(read_texts(asked.house, asked.show, asked.hang), today())
    found = share_stock(result.house)
    house = result.house.as_one
    held = holding_of(house, found)
    kinds = {kind for kind, _ in found.unknown}
    is_over = any(name not in kinds for name in found.short) or any(not one.fits for one in found.shares) or held.over
    is_unknown = found.unknown or found.left_out or held.open
    code = Exit.OVER if is_over else Exit.UNKNOWN if is_unknown else Exit.WITHIN
    if asked.json:
        return Answer(json.dumps(as_data(house, found, held), indent=1, ensure_ascii=True, allow_nan=False), code)
    return Answer(result.speech()("\n".join(told(house, found, held))), code)


def told(house: RiggedHouse, found: StockPlan, held: Holding) -> Iterator[str]:
    """A block for each set, then the stock, then which sets their locks do not hold so."""
    from counterpoise.cli.bricks_held import told_all, told_rows
    from counterpoise.cli.say import CAUTION
    from counterpoise.planning import tell

    for share in found.shares:
        rigged = house.set_called(share.label)
        if rigged is not None:
            yield from _told_set(house, rigged, share)
            yield from told_rows(held.rows.get(share.label, ()), tell.style(house))
    yield from told_stock(house, found)
    yield from told_all(held, is_short=bool(found.short))
    yield f"\n{CAUTION}"


def _told_set(house: RiggedHouse, rigged: RiggedSet, share: Share) -> Iterator[str]:
    from counterpoise.balance import friction, out_of_balance, pipe_weight
    from counterpoise.checks import balances_at
    from counterpoise.planning import tell

    purchase = "double" if rigged.purchase == 2 else "single"
    pieces = ", ".join(one.name for one in rigged.pieces) or "nothing on it"
    yield (f"Set {share.label}, {pieces}, {purchase} purchase: {share.stack.said} on{_each(rigged)}, pipe weight "
           f"{_pipe(rigged)}.")  # fmt: skip
    from_places = ", ".join(f"{one.count} {one.kind} from {one.place}" for one in share.taken) or "nothing"
    yield f"  add beside pipe weight: {from_places}" + ("" if not _off(rigged, share) else f"; {_off(rigged, share)}")
    plates = share.stack.plates(rigged)
    mass = share.stack.mass(rigged) - pipe_weight(rigged).mass(rigged)
    yield (f"  {tell.mass_up(house, mass)} on the arbor, {tell.mass_up(house, mass / rigged.purchase)} at the batten; "
           f"{plates} plate{'' if plates == 1 else 's'}, stack {tell.height(house, share.stack.height(rigged))} of "
           f"{tell.height(house, rigged.usable_height)}")  # fmt: skip
    said = []
    for name, height in _trims(rigged):
        felt = out_of_balance(rigged, share.stack, height).worst
        hidden = friction(rigged, height, house.rules["friction"].value)
        said.append(f"{name} {tell.height(house, height)}: {tell.signed(house, felt)} "
                    f"(friction may hide {tell.force(house, hidden)})")  # fmt: skip
    at = balances_at(rigged, share.stack)
    where = "balanced nowhere it flies" if at is None else f"balanced with the batten at {tell.height(house, at)}"
    yield f"  out of balance, + arbor-heavy: {'; '.join(said)}; {where}"
    if not share.fits:
        yield "  OVER: the stack is higher than its arbor takes."
    if share.is_stated:
        yield "  The hang states this count" + (
            f"; {share.better.said} would balance it best." if share.better else "."
        )
    elif share.better is not None:
        why = "its arbor takes no more" if share.why == "arbor" else "the stock does not reach"
        yield f"  {share.better.said} would balance it best: {why}."


def _each(rigged: RiggedSet) -> str:
    return " each arbor" if rigged.abreast > 1 else ""


def _pipe(rigged: RiggedSet) -> str:
    from counterpoise.balance import pipe_weight

    return pipe_weight(rigged).said


def _off(rigged: RiggedSet, share: Share) -> str:
    from counterpoise.balance import added

    return ", ".join(f"take off {-count} {name} of pipe weight" for name, count in added(rigged, share.stack).items()
                     if count < 0)  # fmt: skip


def _trims(rigged: RiggedSet) -> list[tuple[str, float]]:
    """The trims of its pieces, else where it hangs free and high trim."""
    named = {name: height for one in rigged.pieces for name, height in one.trims.items()}
    found = named or {"free of the deck": rigged.clear, "high trim": rigged.high}
    return [(name, height) for name, height in found.items() if rigged.low <= height <= rigged.high]


def told_stock(house: RiggedHouse, found: StockPlan) -> Iterator[str]:
    """What is left, what to ask for, how good the answer is, and what it does not know."""
    for name, places in found.left.items():
        yield (
            f"Left of {name}: " + (", ".join(f"{count} at {place}" for place, count in places.items()) or "none") + "."
        )
    yield from _told_short(house, found) if found.short else _told_enough(found)
    for name, place in found.unknown:
        yield f"Not known: how many {name} bricks {f'are at {place}' if place else 'there are'}; none are taken there."
    for label, why in found.left_out.items():
        yield f"Not counted: set {label}, {why}."


def _told_enough(found: StockPlan) -> Iterator[str]:
    but = ", or the most that its arbor takes" if any(one.why == "arbor" for one in found.shares) else ""
    but += ", beside what the hang states" if any(one.is_stated for one in found.shares) else ""
    yield f"Stock: enough for every set to have the count that balances it best{but}."


def _told_short(house: RiggedHouse, found: StockPlan) -> Iterator[str]:
    from counterpoise.planning import tell
    from counterpoise.planning.phrases import bricks as bricks_said

    kinds = {kind for kind, _ in found.unknown}
    asked = ", ".join(f"short by {bricks_said(count, name)}" for name, count in found.short.items())
    known = "by what is known to be there " if kinds & set(found.short) else ""
    yield f"Stock: {known}{asked} for every set to have the best count that its arbor takes."
    shared = found.allocation
    if shared is None:
        can = "Whether all counts that the hang states can be had is not known" if known else (
            "The counts that the hang states can not all be had")  # fmt: skip
        yield f"{can}: nothing is shared out."
        return
    most = tell.force(house, shared.largest)
    yield f"No set is left more than {most} out at mid-travel, but for those that no more bricks would bring nearer."
    if shared.is_best:
        yield "This stock can not leave less, nor less of all sets together; proven."
        return
    least, gap = tell.force(house, shared.least_largest), tell.force(house, shared.beyond - shared.least_beyond)
    yield f"Less than {least} can not be had. With none further out they lack at most {gap} in all more than they must."


def as_data(house: RiggedHouse, found: StockPlan, held: Holding) -> dict[str, Any]:
    """As `counterpoise bricks 1`: masses in kg, forces in N, heights in m."""
    from counterpoise.balance import added, friction, out_of_balance, pipe_weight
    from counterpoise.checks import balances_at
    from counterpoise.cli.say import CAUTION

    sets = []
    for share in found.shares:
        rigged = house.set_called(share.label)
        if rigged is None:
            continue
        own = pipe_weight(rigged)
        spans = [(name, height, out_of_balance(rigged, share.stack, height)) for name, height in _trims(rigged)]
        sets.append({
            "set": share.label, "purchase": rigged.purchase,
            "pipe_weight": {"bricks": own.bricks, "small": own.small},
            "stack": {"bricks": share.stack.bricks, "small": share.stack.small, "plates": share.stack.plates(rigged),
                      "mass": share.stack.mass(rigged), "height": share.stack.height(rigged)},
            "best": {"bricks": share.wanted.bricks, "small": share.wanted.small}, "stated": share.is_stated,
            "better": None if share.better is None else {"bricks": share.better.bricks, "small": share.better.small},
            "why": share.why, "fits": share.fits,
            "add": added(rigged, share.stack),
            "from": [{"kind": one.kind, "place": one.place, "count": one.count} for one in share.taken],
            "balanced_at": balances_at(rigged, share.stack),
            "out_of_balance": [{"trim": name, "height": height, "low": span.low, "best": span.best, "high": span.high,
                                "friction": friction(rigged, height, house.rules["friction"].value)}
                               for name, height, span in spans],
            "not_held": [{"link": row.link, "verdict": row.verdict.value, "lacks": row.lacks, "limit": row.limit,
                          "low": row.value.low, "best": row.value.best, "high": row.value.high}
                         for row in held.rows.get(share.label, ())],
        })  # fmt: skip
    shared = found.allocation
    return {
        "schema": "counterpoise bricks 1", "sets": sets, "left": {k: dict(v) for k, v in found.left.items()},
        "short": dict(found.short),
        "proof": None if shared is None else {
            "largest": shared.largest, "least_largest": shared.least_largest, "beyond": shared.beyond,
            "least_beyond": shared.least_beyond, "is_best": shared.is_best},
        "over": list(held.over),
        "unknown": [{"kind": kind, "place": place} for kind, place in found.unknown], "left_out": list(found.left_out),
        "why_left_out": dict(found.left_out),
        "caution": CAUTION,
    }  # fmt: skip
