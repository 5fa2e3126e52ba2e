"""The hold that a tall piece needs, as a short list: what it does, how strong, on when, off when, and who has one."""

from __future__ import annotations

from counterpoise.balance import Stack
from counterpoise.planning import tell
from counterpoise.planning.holds import lock_limit
from counterpoise.planning.needed import Moment, Need, Offer, Side, path_ratio
from counterpoise.planning.tall import TallWay
from counterpoise.planning.windows import stack_of
from counterpoise.rigging import RiggedHouse, RiggedSet

PARTS = ("Hold: ", "Strength: ", "Put on: ", "Take off: ", "In the house: ")  # heads of a list told in one sentence


def told_counts(house: RiggedHouse, rigged: RiggedSet, way: TallWay) -> str:
    """The counts of a way beside pipe weight, where, and at which batten height."""
    return ", ".join(
        f"{_beside(rigged, one.after)} at {one.place} (batten at "
        f"{tell.height(house, way.stations[one.station].height)})"
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
            f"{peaks}, with these bricks on beside pipe weight: {counts}.")  # fmt: skip


def told_hold(house: RiggedHouse, rigged: RiggedSet, need: Need, *, is_strike: bool = False) -> str:
    """The hold it asks for: what it does, how strong, when it goes on and comes off; a strike the other way round."""
    ways = " and ".join(f"{tell.force(house, one.force)} against the {one.against}{_parks(need, one)}"
                        for one in need.sides)  # fmt: skip
    both = ", both ways" if need.against == "both" else ""
    verb = "can haul" if need.does == "haul" else "parks"
    first, last = (need.end, need.start) if is_strike else (need.start, need.end)
    come, came = ("goes from", "has gone from") if is_strike else ("comes to", "has come to")
    return (f"{PARTS[0]}a rated one that {verb}{both}. "
            f"{PARTS[1]}at least {ways}, felt at the batten{_elsewhere(house, rigged, need)}. "
            f"{PARTS[2]}{_at(house, rigged, first, f'before the count beside pipe weight {come}')}. "
            f"{PARTS[3]}{_at(house, rigged, last, f'once the count beside pipe weight {came}')}.")  # fmt: skip


def _parks(need: Need, one: Side) -> str:
    return ", this to park" if one.does != need.does else ""


def _elsewhere(house: RiggedHouse, rigged: RiggedSet, need: Need) -> str:
    other = {where: path_ratio(rigged, where) for where in ("arbor", "hand line")}
    said = [f"{tell.force(house, need.force * ratio)} at the {where}" for where, ratio in other.items() if ratio != 1.0]
    return f" ({', '.join(said)})" if said else ""


def _at(house: RiggedHouse, rigged: RiggedSet, one: Moment, count: str) -> str:
    """With bricks on the way `count` says up to which of them; with the set on the way where it is."""
    height, on = tell.height(house, one.height), stack_of(rigged, one.bricks).said
    if one.place:
        return f"{count} {_beside(rigged, one.bricks)} ({on} in all) at {one.place}, batten at {height}"
    return f"batten at {height}, {_beside(rigged, one.bricks)} on beside pipe weight ({on} in all)"


def _beside(rigged: RiggedSet, count: int) -> str:
    """Without pipe weight: "12", or "12 and 1 small"."""
    stack = stack_of(rigged, count)
    return Stack(stack.bricks - rigged.pipe_bricks, stack.small - rigged.small_pipe_bricks).said


def told_offer(offer: Offer) -> str:
    """Which of the house's holds can do it, or that none can and what to ask for."""
    if offer.alone:
        return f"{PARTS[4]}{_or(offer.alone)} can do it alone."
    if offer.pairs:
        first, second = offer.pairs[0]
        return f"{PARTS[4]}{first} and {second} can do it together, one for each way."
    why = "; ".join(f"{name}: {reason}" for name, reason in offer.cannot)
    had = f"none can do it ({why})." if why else "no hold is written."
    return f"{PARTS[4]}{had} Ask for one rated so, its anchor too."


def _or(names: tuple[str, ...]) -> str:
    return " or ".join(", ".join(names).rsplit(", ", 1))
