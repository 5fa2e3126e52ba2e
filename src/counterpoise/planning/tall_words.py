"""The hold that a tall piece needs, in words: what it must do, from which brick to which, and who in the house can."""

from __future__ import annotations

from counterpoise.balance import Stack
from counterpoise.planning import tell
from counterpoise.planning.holds import lock_limit
from counterpoise.planning.needed import Moment, Need, Offer, path_ratio
from counterpoise.planning.tall import TallWay
from counterpoise.planning.windows import stack_of
from counterpoise.rigging import RiggedHouse, RiggedSet


def told_counts(house: RiggedHouse, rigged: RiggedSet, way: TallWay) -> str:
    """The counts of a way, where, and at which batten height; show bricks, without pipe weight."""
    return ", ".join(
        f"{_shown(rigged, one.after)} at {one.place} ({tell.height(house, way.stations[one.station].height)})"
        for one in way.changes
    )


def told_need(house: RiggedHouse, rigged: RiggedSet, way: TallWay, need: Need) -> str:
    """What is so: no order stays within the lock, the least bad counts, and how far out of balance they are."""
    heavy = {"batten rising": "arbor-heavy", "batten falling": "batten-heavy"}
    peaks = " and ".join(f"{heavy[one.against]} {tell.force(house, one.force)} at {tell.height(house, one.height)}"
                         for one in need.sides)  # fmt: skip
    limit = tell.limit(house, min(lock_limit(house, rigged)))
    counts = told_counts(house, rigged, way) or "none"
    return (f"Set {rigged.label}: no order of steps stays within the lock, which may hold {limit}. The least found is "
            f"{peaks}. Show bricks on after each visit: {counts}.")  # fmt: skip


def told_hold(house: RiggedHouse, rigged: RiggedSet, need: Need, *, is_strike: bool = False) -> str:
    """The hold it asks for, from where to where; a strike goes the other way round."""
    ways = " and ".join(f"{tell.force(house, one.force)} against the {one.against}" for one in need.sides)
    both = ", both ways" if need.against == "both" else ""
    verb = "can haul" if need.does == "haul" else "parks"
    says = f"A rated hold that {verb}{both}: {ways}, felt at the batten{_elsewhere(house, rigged, need)}."
    first, last = (need.end, need.start) if is_strike else (need.start, need.end)
    return f"{says} On before {_at(house, rigged, first)}; not needed after {_at(house, rigged, last)}."


def _elsewhere(house: RiggedHouse, rigged: RiggedSet, need: Need) -> str:
    other = {where: path_ratio(rigged, where) for where in ("arbor", "hand line")}
    said = [f"{tell.force(house, need.force * ratio)} at the {where}" for where, ratio in other.items() if ratio != 1.0]
    return f" ({', '.join(said)})" if said else ""


def _at(house: RiggedHouse, rigged: RiggedSet, one: Moment) -> str:
    height = tell.height(house, one.height)
    if one.place:
        return f"show brick {_shown(rigged, one.bricks)} at {one.place}, batten at {height}"
    return f"the batten is at {height} with {_shown(rigged, one.bricks)} show bricks on"


def _shown(rigged: RiggedSet, count: int) -> str:
    """Without pipe weight: "12", or "12 and 1 small"."""
    stack = stack_of(rigged, count)
    return Stack(stack.bricks - rigged.pipe_bricks, stack.small - rigged.small_pipe_bricks).said


def told_offer(house: RiggedHouse, need: Need, offer: Offer) -> str:
    """Which of the house's holds can do it, or that none can and what to ask for."""
    if offer.alone:
        return f"Of the house's holds {_or(offer.alone)} can do it alone."
    if offer.pairs:
        first, second = offer.pairs[0]
        return f"Of the house's holds {first} and {second} can do it together, one for each way."
    why = "; ".join(f"{name}: {reason}" for name, reason in offer.cannot)
    had = f"None of the house's holds can do it ({why})." if why else "No hold is written for this house."
    ask = " and ".join(f"{tell.force(house, one.force)} or more to {one.does} against the {one.against}"
                       for one in need.sides)  # fmt: skip
    return f"{had} Ask for one rated, with its anchor, for {ask}."


def _or(names: tuple[str, ...]) -> str:
    return " or ".join(", ".join(names).rsplit(", ", 1))
