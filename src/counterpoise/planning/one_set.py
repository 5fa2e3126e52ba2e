"""Load-in and strike of one set: proposed here, judged by the replay, and given back only if that allows every step."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from counterpoise.balance import Stack, pipe_weight
from counterpoise.documents import HEMP
from counterpoise.planning import tell
from counterpoise.planning.branches import with_branches
from counterpoise.planning.by_turns import back_again, by_turns
from counterpoise.planning.clears import with_clears
from counterpoise.planning.doubt import is_certain, is_felt_where_loaded
from counterpoise.planning.flights import felt_and_flown, fly
from counterpoise.planning.goal import Goal, target_of
from counterpoise.planning.hemp import hemp_plan
from counterpoise.planning.holds import Pull
from counterpoise.planning.no_way import why_no_way
from counterpoise.planning.phrases import married_note, stack_said
from counterpoise.planning.plan import Plan
from counterpoise.planning.replay import replay
from counterpoise.planning.search import Visit, Way, find_way, hang_height, wanted_stack
from counterpoise.planning.spoken import numbered
from counterpoise.planning.state import Act, Refusal, State, Step, start
from counterpoise.planning.tall_plan import tall_plan
from counterpoise.planning.tall_steps import is_tall
from counterpoise.planning.ties import slack_notes
from counterpoise.planning.words import speak
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedSet

__all__ = ["Plan", "load_in", "strike"]

_OF_THE_WAY = ("HOLD", "REACH", "STOCK")  # what another order, or another place, may mend


def load_in(house: RiggedHouse, label: str) -> Plan:
    """From an empty set in pipe weight at low trim to one that hangs in balance at its show trim."""
    label, house = house.label_of(label), house.as_one
    begin = start(house)
    rigged = plannable(house, label, begin)
    if isinstance(rigged, Plan):
        return rigged
    way = None if is_tall(rigged) else find_way(house, rigged)
    if way is None:
        return _without_a_plain_way(house, rigged, begin)
    plain = _judged(house, rigged, way, begin, tuple(_load_steps(house, rigged, way)), way.stack)
    if plain.refusal is None or plain.refusal.code not in _OF_THE_WAY:
        return plain
    turns = by_turns(house, rigged, begin, target_of(rigged, begin.sets[label], Goal(what="load-in")))
    return turns if turns is not None and turns.refusal is None else plain


def strike(house: RiggedHouse, label: str) -> Plan:
    """From where the load-in ended back to an empty set in pipe weight at low trim: arbor first, then batten."""
    label, house = house.label_of(label), house.as_one
    loaded = load_in(house, label)
    rigged = house.set_called(label)
    if loaded.refusal is not None:
        is_out = rigged is None or bool(rigged.out_of_service)
        return loaded if is_out else _not_loaded(loaded, loaded.refusal)
    if rigged is None:
        hemp = _hemp(house, label)
        return loaded if hemp is None else hemp_plan(house, hemp, loaded.begin, is_strike=True)
    begin = replay(house, loaded.steps).last
    way = None if is_tall(rigged) else find_way(house, rigged)
    if way is None:
        found = tall_plan(house, rigged, begin, is_strike=True)
        best = _least_asked(house, rigged, begin, found, Goal(what="strike"))
        done = best is not None and best.refusal is None and (best.need is None or loaded.need is not None)
        again = None if done else back_again(house, rigged, loaded, begin)
        return again if again is not None and again.refusal is None else best or loaded
    return _judged(house, rigged, way, begin, tuple(_strike_steps(rigged, way)), pipe_weight(rigged))


def _not_loaded(loaded: Plan, refusal: Refusal) -> Plan:
    """A strike begins where the load-in ends; where that has no way, how the set stands is not known."""
    says = f"From where it is to be struck is not known, as its load-in is refused: {refusal.says}"
    mend = f"If it hangs, count its bricks and give the log of what was done. For the load-in: {refusal.mend}"
    return replace(loaded, refusal=replace(refusal, says=says, mend=mend))


def plannable(house: RiggedHouse, label: str, begin: State) -> RiggedSet | Plan:
    """The set, or a plan that says why there can be none; the replay is asked, so that both say the same."""
    rigged = house.set_called(label)
    twin = house.batten_called(label)
    if rigged is None and twin is not None and twin.twins:
        return Plan(set=label, steps=(), lines=(), refusal=_twins(house, twin), final=Stack(0), begin=begin)
    hemp = _hemp(house, label)
    if hemp is not None:
        return hemp_plan(house, hemp, begin)
    if rigged is None or rigged.out_of_service:
        refusal = replay(house, [Step(act=Act.HOLD_ON, set=label)], begin).refusal
        stack = pipe_weight(rigged) if rigged else Stack(0)
        return Plan(set=label, steps=(), lines=(), refusal=refusal, final=stack, begin=begin)
    return rigged


def _twins(house: RiggedHouse, twin: RiggedBatten) -> Refusal:
    """With free hand lines the bricks decide the split, and locked or fouled either set may take all of it."""
    others, names = ", ".join(twin.twins), ", ".join(dict.fromkeys(one.name for one in twin.pieces))
    says = f"Set {twin.label} carries {names} together with its twin, set {others}: what each takes is not known, and "
    says += "either may take all of it."
    why = next((one.why for one in house.married if twin.label in one.labels), "")
    if why:
        return Refusal(code="TWINS", says=f"{says} They are not planned as one: {why}.", mend="Make them alike, or ask "
                       "who is qualified for it: both arbors loaded by turns, one voice.")  # fmt: skip
    mend = "Marry their hand lines and write `married: yes`: then they are planned as one. Else ask who is qualified."
    return Refusal(code="TWINS", says=f"{says} No count is planned for either alone.", mend=mend)


def _hemp(house: RiggedHouse, label: str) -> RiggedBatten | None:
    found = house.batten_called(label)
    return found if found is not None and found.written.rigged == HEMP else None


# --- steps -------------------------------------------------------------------------------------------------------


def _load_steps(house: RiggedHouse, rigged: RiggedSet, way: Way) -> Iterator[Step]:
    label, height = rigged.label, rigged.low
    for visit in way.visits:
        yield from fly(label, height, visit.height)
        height = visit.height
        yield Step(act=Act.HOLD_ON, set=label)
        yield from (Step(act=Act.HANG, set=label, piece=name) for name in visit.hang)
        yield from _bricks(label, Act.BRICKS_ON, visit, visit.after)
        yield Step(act=Act.HOLD_OFF, set=label)
    here = not is_certain(rigged) and (
        way.goal == height or is_felt_where_loaded(house, rigged, way.stack, height, way.goal)
    )
    yield from felt_and_flown(rigged, height, way.goal, feel_here=here, feel_there=not here and not is_certain(rigged),
                              feel=bool(way.visits))  # fmt: skip


def _strike_steps(rigged: RiggedSet, way: Way) -> Iterator[Step]:
    label, height = rigged.label, way.goal
    for visit in reversed(way.visits):
        yield from fly(label, height, visit.height)
        height = visit.height
        yield Step(act=Act.HOLD_ON, set=label)
        yield from _bricks(label, Act.BRICKS_OFF, visit, visit.before)
        yield from (Step(act=Act.STRIKE, set=label, piece=name) for name in reversed(visit.hang))
        yield Step(act=Act.HOLD_OFF, set=label)
    yield from fly(label, height, rigged.low, feel=bool(way.visits))


def _bricks(label: str, act: Act, visit: Visit, after: Stack) -> Iterator[Step]:
    large, small = visit.after.bricks - visit.before.bricks, visit.after.small - visit.before.small
    if large or small:
        yield Step(act=Act.COLLARS_UP, set=label)
        yield Step(act=act, set=label, bricks=large, small=small, bridge=visit.bridge)
        yield Step(act=Act.COLLARS_DOWN, set=label)
        yield Step(act=Act.COUNT, set=label, bricks=after.bricks, small=after.small)


# --- judged and said ---------------------------------------------------------------------------------------------


def _judged(
    house: RiggedHouse, rigged: RiggedSet, way: Way, begin: State, steps: tuple[Step, ...], final: Stack
) -> Plan:
    done = replay(house, steps, begin)
    if done.refusal is not None:
        return Plan(set=rigged.label, steps=(), lines=(), refusal=done.refusal, final=final, begin=begin,
                    arbor_peak=way.arbor, batten_peak=way.batten)  # fmt: skip
    lines = list(with_clears(house, rigged.label, speak(house, steps, done.states), done.states))
    if way.visits and final == way.stack and not is_certain(rigged):
        last = next((one for one in reversed(way.visits) if one.bridge), way.visits[-1])
        lines = list(with_branches(house, rigged, lines, steps, done.states, last.height, last.bridge))
    notes = tuple(_notes(house, rigged, way, steps, done.states))
    return Plan(set=rigged.label, steps=steps, lines=numbered(lines), refusal=None, final=final, begin=begin,
                notes=notes, arbor_peak=way.arbor, batten_peak=way.batten)  # fmt: skip


def _notes(
    house: RiggedHouse, rigged: RiggedSet, way: Way, steps: Sequence[Step], states: Sequence[State]
) -> Iterator[str]:
    yield "Static, without friction, and the worst that loads and bricks may come to. Nobody under the load."
    yield tell.friction_beside(house, rigged)
    yield from married_note(rigged)
    yield "A second hold has no rating in the house: not counted."
    used = {visit.bridge for visit in way.visits}
    for bridge in house.bridges:
        if bridge.name in used and bridge.most is None:
            yield f"Not checked: the floor of {bridge.name}; its posting, people or stock is not known."
    yield from slack_notes(house, rigged, steps, states)
    block = rigged.written.tension_block
    if block is None or block.low is None:
        yield "Not checked: the hold-down of the tension block; it is not known."
    wanted = wanted_stack(rigged)
    if way.stack != wanted:
        yield (f"{stack_said(wanted)} would balance it best over its travel; {way.stack.said} is what goes on within "
               "the lock.")  # fmt: skip
    if not is_certain(rigged):
        yield "A weight is not known well: write down the count that floats."


def _without_a_plain_way(house: RiggedHouse, rigged: RiggedSet, begin: State) -> Plan:
    """In stages, from the rail, by turns, or with a rated hold, in this order; else why there is no way at all."""
    found = tall_plan(house, rigged, begin)
    best = _least_asked(house, rigged, begin, found, Goal(what="load-in"))
    if best is not None and (best.refusal is None or is_tall(rigged)):
        return best
    refused = _no_way(house, rigged, begin)
    wants_hold = refused.refusal is not None and refused.refusal.code in ("HOLD", "REACH")
    return found if found is not None and found.need is not None and wants_hold else refused


def _least_asked(house: RiggedHouse, rigged: RiggedSet, begin: State, found: Plan | None, goal: Goal) -> Plan | None:
    """What was found, unless it wants a hold, or is refused, and pieces and bricks by turns want none."""
    if is_tall(rigged) or (found is not None and found.refusal is None and found.need is None):
        return found
    turns = by_turns(house, rigged, begin, target_of(rigged, begin.sets[rigged.label], goal))
    return turns if turns is not None and turns.refusal is None else found


# --- no way ------------------------------------------------------------------------------------------------------


def _no_way(house: RiggedHouse, rigged: RiggedSet, begin: State) -> Plan:
    """The plainest plan is asked first for what is wrong beside balance and reach."""
    found = replay(house, _load_steps(house, rigged, _plain(house, rigged)), begin).refusal if house.bridges else None
    if found is None or found.code in _OF_THE_WAY:
        goal = Goal(what="load-in")
        found = why_no_way(house, rigged, begin, target_of(rigged, begin.sets[rigged.label], goal), goal)
        found = replace(found, mend=f"{found.mend}{_leaves_the_deck(rigged)}")
    return Plan(set=rigged.label, steps=(), lines=(), refusal=found, final=pipe_weight(rigged), begin=begin)


def _plain(house: RiggedHouse, rigged: RiggedSet) -> Way:
    """Hang everything where it is tied, then all bricks at once."""
    tied = sorted({hang_height(rigged, one) for one in rigged.pieces}) or [rigged.low]
    own, wanted = pipe_weight(rigged), wanted_stack(rigged)
    want = Stack(max(own.bricks, wanted.bricks), max(own.small, wanted.small))
    zero = Pull(0.0, 0.0, rigged.low)
    visits = []
    for height in tied:
        hang = tuple(one.name for one in rigged.pieces if hang_height(rigged, one) == height)
        after = want if height == tied[-1] else own
        visits.append(Visit(height=height, hang=hang, before=own, after=after, bridge=house.bridges[0].name))
    return Way(visits=tuple(visits), goal=tied[-1], stack=want, arbor=zero, batten=zero)


def _leaves_the_deck(rigged: RiggedSet) -> str:
    tall = [one.name for one in rigged.pieces if hang_height(rigged, one) > rigged.low]
    if not tall:
        return ""
    return f" {' and '.join(tall)}: taller than low trim. If it is cloth, write that it comes off the floor."
