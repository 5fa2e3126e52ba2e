"""Load-in and strike of what rises in stages: tall pieces, loading from the rail, ways that need a rated hold."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from counterpoise.balance import Stack, fits, pipe_weight
from counterpoise.planning import tell
from counterpoise.planning.clears import with_clears
from counterpoise.planning.holds import Pull
from counterpoise.planning.needed import Need, need_of, offer_of
from counterpoise.planning.phrases import married_note, stack_said
from counterpoise.planning.plan import Plan
from counterpoise.planning.replay import replay
from counterpoise.planning.spoken import numbered
from counterpoise.planning.state import Refusal, State
from counterpoise.planning.tall import TallWay, find_tall_way
from counterpoise.planning.tall_steps import held_from_to, is_tall, tall_load_steps, tall_strike_steps
from counterpoise.planning.tall_words import told_counts, told_hold, told_need, told_offer
from counterpoise.planning.ties import slack_notes
from counterpoise.planning.windows import joins_of, places, stack_of, wanted_on
from counterpoise.planning.words import speak
from counterpoise.rigging import RiggedHouse, RiggedSet


def tall_plan(house: RiggedHouse, rigged: RiggedSet, begin: State, *, is_strike: bool = False) -> Plan | None:
    """The way that is out of balance least, with a rated hold of the house where lock and stops do not hold it.

    Refused where no hold of the house can do it: then it says what to ask for. None where no count at any height gets
    there and the set is not a tall one; a tall one is told why.
    """
    way = find_tall_way(house, rigged)
    if way is None:
        return _no_tall_way(house, rigged, begin) if is_tall(rigged) else None
    need = need_of(house, rigged, way)
    offer = offer_of(house, rigged, need) if need is not None else None
    if need is not None and offer is not None and not offer.chosen:
        says = told_need(house, rigged, way, need)
        refusal = Refusal(code="HOLD", says=says,
                          mend=f"{told_hold(house, rigged, need)} {told_offer(offer)}")  # fmt: skip
        if _would_go_if_known(house, rigged):
            refusal = Refusal(code="WEIGH", says=says, mend="Weigh it: the heaviest it may be is beyond the lock.")
        return _refused(rigged, begin, refusal, way, need)
    holds = offer.chosen if offer is not None else ()
    order = tall_strike_steps if is_strike else tall_load_steps
    steps = tuple(order(rigged, way, holds, held_from_to(house, rigged, way)))
    done = replay(house, steps, begin)
    if done.refusal is not None:
        return _refused(rigged, begin, done.refusal, way, need)
    lines = tuple(with_clears(house, rigged.label, speak(house, steps, done.states), done.states))
    arbor, batten = _peaks(rigged, way)
    notes = (*_notes(house, rigged, way, need, is_strike=is_strike), *slack_notes(house, rigged, steps, done.states))
    return Plan(set=rigged.label, steps=steps, lines=numbered(lines), refusal=None, begin=begin, need=need,
                final=pipe_weight(rigged) if is_strike else stack_of(rigged, way.bricks), arbor_peak=arbor,
                batten_peak=batten, notes=notes)  # fmt: skip


def _refused(rigged: RiggedSet, begin: State, refusal: Refusal, way: TallWay | None, need: Need | None) -> Plan:
    arbor, batten = _peaks(rigged, way) if way is not None else (None, None)
    return Plan(set=rigged.label, steps=(), lines=(), refusal=refusal, final=pipe_weight(rigged), begin=begin,
                arbor_peak=arbor, batten_peak=batten, need=need)  # fmt: skip


def _peaks(rigged: RiggedSet, way: TallWay) -> tuple[Pull, Pull]:
    """The most either side is heavy off the stops."""
    zero = Pull(0.0, 0.0, rigged.low)
    moved = [leg for leg in way.legs if leg.start != leg.end] or [*way.legs]
    return (max((leg.arbor for leg in moved), key=lambda one: one.arbor, default=zero),
            max((leg.batten for leg in moved), key=lambda one: one.batten, default=zero))  # fmt: skip


def _would_go_if_known(house: RiggedHouse, rigged: RiggedSet) -> bool:
    """True where only what is not known well of its weight stands in the way."""
    if all(one.is_certain for one in rigged.pieces):
        return False
    known = replace(rigged, pieces=tuple(one.at_best() for one in rigged.pieces))
    way = find_tall_way(house, known)
    return way is not None and need_of(house, known, way) is None


def _no_tall_way(house: RiggedHouse, rigged: RiggedSet, begin: State) -> Plan:
    want = wanted_on(rigged)
    high = [one for one in joins_of(rigged) if one.height > rigged.high]
    if _would_go_if_known(house, rigged):
        says = f"Set {rigged.label}: no count stays within the lock for all that it may weigh."
        refusal = Refusal(code="WEIGH", says=says,
                          mend="Weigh it: the heaviest it may be is beyond the lock.")  # fmt: skip
    elif high:
        says = f"{high[0].name} joins at {tell.height(house, high[0].height)}, above the travel of set {rigged.label}."
        refusal = Refusal(code="TRAVEL", says=says, mend="Join it lower, or hang the piece on a set that goes higher.")
    elif not fits(rigged, want):
        says = f"{stack_said(want)} with plates stand {tell.height(house, want.height(rigged))}; the arbor takes "
        says += f"{tell.height(house, rigged.usable_height)}."
        refusal = Refusal(code="STACK", says=says, mend="Hang less, or use thinner weights.")
    else:
        names = ", ".join(one.name for one in places(house)) or "no bridge, and no rail with a reach"
        says = (
            f"Set {rigged.label}: from {names} the {stack_said(want)} it needs cannot be put on, at no batten height."
        )
        refusal = Refusal(code="REACH", says=says, mend="Bring bricks there, or a place that reaches the arbor.")
    return _refused(rigged, begin, refusal, None, None)


def _notes(house: RiggedHouse, rigged: RiggedSet, way: TallWay, need: Need | None, *, is_strike: bool) -> Iterator[str]:
    yield "Static, without friction, and the worst that loads and bricks may come to. Nobody under the load."
    yield from married_note(rigged)
    yield "A second hold has no rating in the house: not counted."
    yield from _other_count(house, rigged, way)
    yield f"Bricks on beside pipe weight: {told_counts(house, rigged, way)}."
    if need is not None:
        yield told_hold(house, rigged, need, is_strike=is_strike)
        yield "A rated hold is counted alone, for what is written of it; how it is rigged is not checked here."
    used = {one.place for one in way.changes}
    for place in places(house):
        if place.name in used and place.most is None:
            yield f"Not checked: the floor of {place.name}; its posting, people or stock is not known."
    block = rigged.written.tension_block
    if block is None or block.low is None:
        yield "Not checked: the hold-down of the tension block; it is not known."
    if not is_strike and any(not one.is_certain for one in rigged.pieces):
        yield "A weight is not known well: write down the count that floats."


def _other_count(house: RiggedHouse, rigged: RiggedSet, way: TallWay) -> Iterator[str]:
    """Where the count it ends with is not the one that balances it best."""
    wanted, final = wanted_on(rigged), stack_of(rigged, way.bricks)
    if final == wanted:
        return
    if not _in_stock(house, rigged, wanted):
        yield f"{stack_said(wanted)} would balance it best; {final.said} is what can be put on."
        return
    yield (f"It ends with {final.said} on, which is least out of balance on the way. {wanted.said} would balance it "
           f"best at the end; state {wanted.said} in the hang to have it planned so.")  # fmt: skip


def _in_stock(house: RiggedHouse, rigged: RiggedSet, stack: Stack) -> bool:
    own = pipe_weight(rigged)
    wants = [(rigged.brick, stack.bricks - own.bricks)]
    wants += [(rigged.small, stack.small - own.small)] if rigged.small is not None else []
    return all(sum(kind.stock.get(one.name, 0) for one in places(house)) >= count for kind, count in wants)
