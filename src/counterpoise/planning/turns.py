"""The turn of one set in a call: its plan as if bricks were plenty, the bricks it moves, and what hangs before it."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from counterpoise.balance import Stack, added
from counterpoise.documents import COUNTERWEIGHT, HEMP
from counterpoise.planning.bridges import choose_bridges
from counterpoise.planning.floors import Floors, Moved, Task
from counterpoise.planning.neighbours import Passage, hanging, passing
from counterpoise.planning.one_set import Plan, load_in, strike
from counterpoise.planning.order import BUDGET, in_this_order
from counterpoise.planning.replay import replay
from counterpoise.planning.search import goal_height, wanted_stack
from counterpoise.planning.state import Act, Refusal, SetState, State, start
from counterpoise.rigging import RiggedHouse, RiggedSet

_PLENTY = 100_000  # bricks on each bridge while one set is planned by itself
_MOST_NAMED = 8  # sets named in one note


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """A plan of one set, and the house with the hang by which each of its steps is judged."""

    house: RiggedHouse
    plan: Plan
    moved: tuple[Moved, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """One set's turn: its legs, from the first step until it is closed. `what` is load-in, strike or change."""

    set: str
    what: str
    legs: tuple[Leg, ...]
    passage: Passage

    @property
    def moved(self) -> tuple[Moved, ...]:
        """The bricks that it puts on the floors and takes from them, in its order."""
        return tuple(one for leg in self.legs for one in leg.moved)


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A set that is left as it is, and why."""

    set: str
    refusal: Refusal


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What is asked of a call. `order` names sets in the order to be judged; left empty, the best is looked for."""

    order: tuple[str, ...] = ()
    held: Mapping[str, Refusal] = field(default_factory=dict)
    budget: int = BUDGET


def held_at_load_in(wanted: Wanted, house: RiggedHouse, label: str) -> Refusal | None:
    """Why a set is held that could be loaded; one of sets whose hand lines are married holds all of them."""
    rigged = house.set_called(label)
    names = (label, *(rigged.arbors if rigged is not None else ()))
    return next((wanted.held[name] for name in names if name in wanted.held), None)


def hung_labels(house: RiggedHouse) -> tuple[str, ...]:
    """The sets on which the hang puts something, in the order of the house."""
    hung = {one.label for one in house.hang.hung}
    return tuple(one.label for one in house.house.sets if one.label in hung)


def plentiful(house: RiggedHouse, bridge: str = "") -> RiggedHouse:
    """The same house with bricks enough and floors that carry all: one set planned by itself. Or one bridge of it."""
    bridges = tuple(replace(one, most=None) for one in house.bridges if bridge in ("", one.name))
    stock = {one.name: _PLENTY for one in bridges}
    bricks = {name: replace(one, stock=stock) for name, one in house.bricks.items()}
    battens = tuple(replace(one, brick=replace(one.brick, stock=stock),
                            small=replace(one.small, stock=stock) if one.small else None)
                    for one in house.sets)  # fmt: skip
    others = tuple(one for one in house.battens if house.set_called(one.label) is None)
    return replace(house, battens=(*battens, *others), bricks=bricks, bridges=bridges)


def planned(house: RiggedHouse, ample: RiggedHouse, label: str, what: str) -> Leg:
    """The plan of one set by itself, and the bricks that it moves."""
    batten = house.batten_called(label)
    if batten is not None and batten.written.rigged not in (COUNTERWEIGHT, HEMP):
        says = f"Set {label} has no arbor: no bricks are moved, and no steps of it are planned."
        refusal = Refusal(code="NO-ARBOR", says=says, mend="Rig it by the house's own way, before or after this call.")
        plan = replace(load_in(ample, label), refusal=refusal)
    else:
        plan = load_in(ample, label) if what == "load-in" else strike(ample, label)
    return Leg(house=house, plan=plan, moved=() if plan.refusal else tuple(_moves(ample, plan)))


def _moves(house: RiggedHouse, plan: Plan) -> Iterator[Moved]:
    states = replay(house, plan.steps, plan.begin).states
    for before, after in itertools.pairwise(states):
        if before.stock is after.stock:
            continue
        for kind, places in after.stock.items():
            for place, count in places.items():
                change = count - before.stock.get(kind, {}).get(place, 0)
                if change:
                    yield Moved(kind, place, change)


def passage_of(leg: Leg) -> Passage:
    """What a set takes up before, during and after a load-in or a strike."""
    label = leg.plan.set
    rigged = leg.house.set_called(label)
    if rigged is None or label not in leg.plan.begin.sets:
        return Passage(set=label)
    moves = [step.height for step in leg.plan.steps if step.act is Act.MOVE]
    begin = leg.plan.begin.sets[label]
    end = moves[-1] if moves else begin.height
    way = passing(rigged, (begin.height, *moves))
    if begin.hung:
        return Passage(set=label, before=hanging(rigged, begin.height), on_the_way=way)
    return Passage(set=label, on_the_way=way, after=hanging(rigged, end))


def all_hung(house: RiggedHouse, turns: Iterable[Turn], unplanned: Iterable[str] = ()) -> State:
    """The house with these sets as their load-ins left them, and the bricks for them off the floors.

    A set that cannot be planned is taken to hang at its show trim with the count that the hang states, or that balances
    it best, and is blocked until that is counted.
    """
    state = start(house)
    for turn in turns:
        leg = turn.legs[0]
        if turn.set not in state.sets:
            continue  # a hemp set: it has no arbor
        state = state.with_set(turn.set, leg.plan.begin.sets[turn.set])
        for one in leg.moved:
            state = _with_more(state, one.kind, one.place, -one.count)
    for label in unplanned:
        rigged = house.set_called(label)
        if rigged is None or label not in state.sets:
            continue
        stack = wanted_stack(rigged)
        hung = tuple(one.name for one in rigged.pieces)
        on = SetState(height=goal_height(rigged), hung=hung, bricks=stack.bricks, small=stack.small,
                      blocked="hung in a way that is not planned here")  # fmt: skip
        state = state.with_set(label, on)
        for kind, count in _beside(rigged, stack):
            place = next((one.name for one in house.bridges if state.stock.get(kind, {}).get(one.name, 0) >= count), "")
            place = place or (house.bridges[0].name if house.bridges else "")
            there = state.stock.get(kind, {}).get(place, 0)
            state = (
                _with_more(state, kind, place, -min(count, there)) if place else state
            )  # the rest came from elsewhere
    return state


def _with_more(state: State, kind: str, place: str, count: int) -> State:
    return state.with_stock(kind, place, state.stock.get(kind, {}).get(place, 0) + count)


def unplanned_note(labels: Sequence[str]) -> Iterator[str]:
    """What is taken of sets that hang and cannot be planned."""
    if labels:
        yield (f"Taken as not loose: the bricks on {named(labels)}, as the hang states them or as they balance best. "
               "Count them first.")  # fmt: skip


def over_bridges(house: RiggedHouse, begin: State, turns: list[Turn], budget: int) -> list[Turn]:
    """The same turns, some from another bridge, where the proposed bridges would run short and others reach too."""
    floors = floors_of(house, begin)
    if len(house.bridges) < 2 or not in_this_order(tasks_of(turns, {}), floors, range(len(turns))).short:
        return turns
    ample = {one.name: plentiful(house, one.name) for one in house.bridges}
    ways = []
    for turn in turns:
        used = {one.place for one in turn.moved}
        others = (name for name in ample if used != {name})
        legs = [turn.legs[0], *(planned(house, ample[name], turn.set, "load-in") for name in others)]
        good = [leg for leg in legs if leg.plan.refusal is None and leg.plan.final == legs[0].plan.final]
        ways.append([replace(turn, legs=(leg,)) for leg in good if leg is legs[0] or leg.moved != legs[0].moved])
    chosen = choose_bridges([tasks_of(each, {}) for each in ways], floors, budget)
    return [each[way] for each, way in zip(ways, chosen, strict=True)]


def floors_of(house: RiggedHouse, state: State) -> Floors:
    """Loose bricks as they lie now, and what the postings leave for bricks when the people stand there."""
    person = house.rules["person"].value
    most = {one.name: one.most - one.people * person for one in house.bridges if one.most is not None}
    stock = {(kind, place): count for kind, places in state.stock.items() for place, count in places.items()}
    return Floors(stock=stock, mass={name: one.mass for name, one in house.bricks.items()}, most=most)


def tasks_of(turns: Sequence[Turn], after: Mapping[int, frozenset[int]]) -> list[Task]:
    """The turns as the search takes them; of a set with two turns the name says which one."""
    labels = [turn.set for turn in turns]
    names = [f"{turn.set} ({turn.what})" if labels.count(turn.set) > 1 else turn.set for turn in turns]
    return [Task(name=name, moved=turn.moved, after=after.get(at, frozenset()))
            for at, (turn, name) in enumerate(zip(turns, names, strict=True))]  # fmt: skip


def named(labels: Sequence[str]) -> str:
    """Sets by name, not too many of them."""
    unique = list(dict.fromkeys(labels))
    more = len(unique) - _MOST_NAMED
    said = ", ".join(unique[:_MOST_NAMED])
    return f"set{'s' if len(unique) > 1 else ''} {said}{f' and {more} more' if more > 0 else ''}"


def _beside(rigged: RiggedSet, stack: Stack) -> Iterator[tuple[str, int]]:
    """Bricks on all its arbors beside pipe weight."""
    yield from ((kind, max(0, count)) for kind, count in added(rigged, stack).items())
