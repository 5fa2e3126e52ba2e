"""`counterpoise bricks`: what every set gets from the stock, from where, what is left and what to ask for."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from counterpoise.cli.answer import Answer, Exit, today

if TYPE_CHECKING:
    from counterpoise.planning.stock import Share, StockPlan
    from counterpoise.rigging import RiggedHouse, RiggedSet


def bricks(asked: argparse.Namespace) -> Answer:
    """Share the stock of bricks among all sets of a hang."""
    import json

    from counterpoise.app import judge
    from counterpoise.app.files import read_texts
    from counterpoise.planning.stock import share_stock

    result = judge(read_texts(asked.house, asked.show, asked.hang), today())
    found = share_stock(result.house)
    code = Exit.OVER if found.short else Exit.UNKNOWN if found.unknown or found.left_out else Exit.WITHIN
    house = result.house.as_one
    if asked.json:
        return Answer(json.dumps(as_data(house, found), indent=1, ensure_ascii=True, allow_nan=False), code)
    return Answer(result.speech()("\n".join(told(house, found))), code)


def told(house: RiggedHouse, found: StockPlan) -> Iterator[str]:
    """A block for each set, then the stock."""
    from counterpoise.cli.say import CAUTION

    for share in found.shares:
        rigged = house.set_called(share.label)
        if rigged is not None:
            yield from _told_set(house, rigged, share)
    yield from told_stock(house, found)
    yield f"\n{CAUTION}"


def _told_set(house: RiggedHouse, rigged: RiggedSet, share: Share) -> Iterator[str]:
    from counterpoise.balance import friction, out_of_balance, pipe_weight
    from counterpoise.checks import balances_at
    from counterpoise.planning import tell

    purchase = "double" if rigged.purchase == 2 else "single"
    pieces = ", ".join(one.name for one in rigged.pieces)
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
    if share.stack != share.wanted:
        yield f"  {share.wanted.said} would balance it best."


def _each(rigged: RiggedSet) -> str:
    return " each arbor" if rigged.abreast > 1 else ""


def _pipe(rigged: RiggedSet) -> str:
    from counterpoise.balance import pipe_weight

    return pipe_weight(rigged).said


def _off(rigged: RiggedSet, share: Share) -> str:
    from counterpoise.planning.stock import added

    return ", ".join(f"take off {-count} {name} of pipe weight" for name, count in added(rigged, share.stack).items()
                     if count < 0)  # fmt: skip


def _trims(rigged: RiggedSet) -> list[tuple[str, float]]:
    """The trims of its pieces, else where it hangs free and high trim."""
    named = {name: height for one in rigged.pieces for name, height in one.trims.items()}
    found = named or {"free of the deck": rigged.clear, "high trim": rigged.high}
    return [(name, height) for name, height in found.items() if rigged.low <= height <= rigged.high]


def told_stock(house: RiggedHouse, found: StockPlan) -> Iterator[str]:
    """What is left, what to ask for, how good the answer is, and what it does not know."""
    from counterpoise.planning import tell

    for name, places in found.left.items():
        yield (
            f"Left of {name}: " + (", ".join(f"{count} at {place}" for place, count in places.items()) or "none") + "."
        )
    if found.short:
        asked = ", ".join(f"short by {count} {name} bricks" for name, count in found.short.items())
        yield f"Stock: {asked} for every set to have the count that balances it best."
        if found.allocation is None:
            yield "The counts that the hang states can not all be had: nothing is shared out."
        elif found.allocation.is_best:
            yield "What is shared out leaves the largest out of balance as small as this stock can; proven."
        else:
            gap = found.allocation.beyond - found.allocation.least_beyond
            much = tell.force(house, gap)
            yield f"What is shared out is within {much}, summed over the sets, of the best there can be."
    else:
        yield "Stock: enough for every set to have the count that balances it best."
    for name, place in found.unknown:
        yield f"Not known: how many {name} bricks are at {place}; nothing is taken from there."
    if found.left_out:
        yield f"Not counted, its balance is not known: set {', '.join(found.left_out)}."


def as_data(house: RiggedHouse, found: StockPlan) -> dict[str, Any]:
    """As `counterpoise bricks 1`: masses in kg, forces in N, heights in m."""
    from counterpoise.balance import friction, out_of_balance, pipe_weight
    from counterpoise.checks import balances_at
    from counterpoise.cli.say import CAUTION
    from counterpoise.planning.stock import added

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
            "add": added(rigged, share.stack),
            "from": [{"kind": one.kind, "place": one.place, "count": one.count} for one in share.taken],
            "balanced_at": balances_at(rigged, share.stack),
            "out_of_balance": [{"trim": name, "height": height, "low": span.low, "best": span.best, "high": span.high,
                                "friction": friction(rigged, height, house.rules["friction"].value)}
                               for name, height, span in spans],
        })  # fmt: skip
    shared = found.allocation
    return {
        "schema": "counterpoise bricks 1", "sets": sets, "left": {k: dict(v) for k, v in found.left.items()},
        "short": dict(found.short),
        "proof": None if shared is None else {
            "largest": shared.largest, "least_largest": shared.least_largest, "beyond": shared.beyond,
            "least_beyond": shared.least_beyond, "is_best": shared.is_best},
        "unknown": [{"kind": kind, "place": place} for kind, place in found.unknown], "left_out": list(found.left_out),
        "caution": CAUTION,
    }  # fmt: skip
