"""Load-in and strike of a hemp set, said aloud: bags on and off, lines tied off each alone, a crew that hauls.

The rule of the lock is not its. What bags, crew and pins may do is judged by the limits; nothing is replayed.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from counterpoise.balance import Stack
from counterpoise.checks import Verdict
from counterpoise.checks.hemp_rows import hemp_rows
from counterpoise.planning import tell
from counterpoise.planning.plan import Plan
from counterpoise.planning.spoken import Spoken, numbered
from counterpoise.planning.state import Refusal, State
from counterpoise.rigging import RiggedBatten, RiggedHouse
from counterpoise.units import STANDARD_GRAVITY

_Told = tuple[Literal["deck", "bridge", "rail"], str, str, str]


def hemp_plan(house: RiggedHouse, rigged: RiggedBatten, begin: State, *, is_strike: bool = False) -> Plan:
    """The spoken lines of a hemp set, or why there are none: its bags or its crew are over, or not known.

    Batten first, then bags; bags off first on the way out. Bags weigh less than what hangs, each line is tied off alone
    on its own pin, all lines are hauled together. Common practice, no source.
    """
    refusal = _refused(house, rigged)
    told = () if refusal else tuple(_strike(house, rigged) if is_strike else _load_in(house, rigged))
    label = rigged.label
    lines = numbered([Spoken(number=0, to=to, set=label, says=f"Set {label}: {says}", reply=f"Set {label}: {reply}",
                             after=after) for to, says, reply, after in told])  # fmt: skip
    return Plan(set=label, steps=(), lines=lines, refusal=refusal, final=Stack(0), begin=begin,
                notes=() if refusal else tuple(_notes()))  # fmt: skip


def _refused(house: RiggedHouse, rigged: RiggedBatten) -> Refusal | None:
    if rigged.out_of_service:
        says = f"Set {rigged.label} is out of service: {rigged.out_of_service}."
        return Refusal(code="SERVICE", says=says, mend="Leave it tied off until a named person has released it.")
    if not rigged.pieces:
        return Refusal(code="ORDER", says=f"Nothing is to hang on set {rigged.label}.", mend="Leave it tied off.")
    mends = {"bags": "Bags must weigh less than what hangs: write lighter bags, or find out what they weigh.",
             "crew": "More bags, more crew, or find out what the crew may haul."}  # fmt: skip
    for row in hemp_rows(house, rigged, ()):
        if row.verdict is not Verdict.WITHIN:
            says = f"Set {rigged.label}: {row.link}: {row.lacks or row.verdict.value}."
            return Refusal(code="HEMP", says=says, mend=mends[row.link])
    return None


def _load_in(house: RiggedHouse, rigged: RiggedBatten) -> Iterator[_Told]:
    names, low, goal = _names(rigged), tell.height(house, rigged.low), tell.height(house, _goal(rigged))
    yield "rail", f"batten at {low}. Each line tied off alone, on its own pin.", "tied off.", "bags off, nothing hung"
    yield "deck", "clear under bags and batten. Nobody below.", "clear below.", ""
    yield "deck", f"batten first. Hang {names}.", f"{names} on, clear below.", "held by the pins"
    yield "rail", f"bags on: {_bags(house, rigged)}. The lines stay tied off.", "bags on.", _left(house, rigged)
    yield ("rail", "the crew takes all lines in hand. Off the pins one by one, the last by two people. Feel.",
           "in hand.", _left(house, rigged))  # fmt: skip
    yield "rail", f"haul together, slowly, to {goal}. Watch the neighbours.", f"at {goal}.", ""
    yield "rail", "tie off each line alone. Trim level. Hands off only after the last.", "tied off.", "held by the pins"


def _strike(house: RiggedHouse, rigged: RiggedBatten) -> Iterator[_Told]:
    names, low = _names(rigged), tell.height(house, rigged.low)
    yield "deck", "clear under bags and batten. Nobody below.", "clear below.", ""
    yield ("rail", "the crew takes all lines in hand. Off the pins one by one, the last by two people. Feel.",
           "in hand.", _left(house, rigged))  # fmt: skip
    yield "rail", f"ease in together, slowly, to {low}. Never let it run.", f"at {low}.", ""
    yield "rail", "tie off each line alone, on its own pin.", "tied off.", "held by the pins"
    yield "rail", f"bags off: {_bags(house, rigged)}. The lines stay tied off.", "bags off.", "held by the pins"
    yield "deck", f"bags are off. Strike {names}.", f"{names} off, clear.", "nothing hung"


def _goal(rigged: RiggedBatten) -> float:
    trims = [one.trims["show"] for one in rigged.pieces if "show" in one.trims]
    return min(rigged.high, max(rigged.low, max(trims, default=rigged.clear)))


def _names(rigged: RiggedBatten) -> str:
    return " and ".join(", ".join(one.name for one in rigged.pieces).rsplit(", ", 1))


def _bags(house: RiggedHouse, rigged: RiggedBatten) -> str:
    bags = rigged.written.bags
    return "" if bags is None or bags.weight.best is None else tell.mass_up(house, bags.weight.best)


def _left(house: RiggedHouse, rigged: RiggedBatten) -> str:
    """What the crew feels at most: what hangs, less the bags."""
    row = next(one for one in hemp_rows(house, rigged, ()) if one.link == "crew")
    mass = tell.mass_up(house, row.value.high / STANDARD_GRAVITY)
    return f"batten-heavy {mass} at most, the crew's to hold"


def _notes() -> Iterator[str]:
    yield "A hemp set: common practice, no source. The rule of the lock does not apply; the crew is the hold."
    yield "Static, without friction. A dry line slips on a pin, a wet one shrinks: not checked."
