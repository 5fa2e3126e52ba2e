"""A whole call: every set of a hang loaded in, or struck, one after another, judged over the whole house at each step.

Each set is planned by itself as if bricks were plenty; the order, and the bridge where more than one reaches, are then
looked for over the stock and the floors there are; and the replay judges every step in the state of the whole house. A
set is closed before the next begins.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from counterpoise.planning import asking, tell
from counterpoise.planning.call_stock import evened, refused_as_hung
from counterpoise.planning.floors import Order, Task
from counterpoise.planning.neighbours import Passage, hanging
from counterpoise.planning.order import find_order, in_this_order
from counterpoise.planning.precedence import precedence_of
from counterpoise.planning.replay import judge
from counterpoise.planning.space import is_looked_at
from counterpoise.planning.spoken import Spoken, numbered
from counterpoise.planning.state import Refusal, State, Step, start
from counterpoise.planning.turns import (
    Held,
    Turn,
    Wanted,
    all_hung,
    floors_of,
    held_at_load_in,
    hung_labels,
    named,
    over_bridges,
    passage_of,
    planned,
    plentiful,
    tasks_of,
    unplanned_note,
)
from counterpoise.rigging import RiggedHouse


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """How all stands when a turn is done: loose bricks by kind and place, and what each floor carries, people too [kg].

    `lines` is how many spoken lines there are by then.
    """

    set: str
    stock: Mapping[str, Mapping[str, int]]
    floors: Mapping[str, float]
    lines: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Call:
    """A whole call, or why there is none.

    `turns` are in the order in which they are worked, also where the call is refused: the best order found. `lines`
    speak them, none where it is refused. `asks` are bricks to bring or send off; `held` sets that are left as they are;
    `kept` sets that keep what hangs. `lifts` counts every brick each time it is moved, `lifted` is their mass [kg].
    """

    what: str
    house: RiggedHouse
    turns: tuple[Turn, ...]
    lines: tuple[Spoken, ...]
    closed: tuple[Closed, ...]
    refusal: Refusal | None
    asks: tuple[asking.Ask, ...]
    held: tuple[Held, ...]
    kept: tuple[str, ...]
    order: Order
    lifts: int
    lifted: float
    begin: State
    end: State
    notes: tuple[str, ...]


def load_in_call(house: RiggedHouse, wanted: Wanted | None = None, begin: State | None = None) -> Call:
    """Load in every set on which something hangs. From a state, the sets that hang already are left out.

    Sets that cannot be loaded, or that `wanted` holds, are held with the reason; the others are worked.
    """
    house = house.as_one
    wanted, begin = wanted or Wanted(), begin or start(house)
    turns, held = _turns(house, wanted, "load-in", lambda label: not _hangs(begin, label))
    turns = over_bridges(house, begin, turns, wanted.budget)
    standing = [Passage(set=one.label, before=found, after=found) for one in house.sets if _hangs(begin, one.label)
                for found in (hanging(one, begin.sets[one.label].height),)]  # fmt: skip
    return worked("load-in", house, turns, held, begin, wanted, standing=standing)


def strike_call(house: RiggedHouse, wanted: Wanted | None = None) -> Call:
    """Strike every set, from where the load-in of each ends, to pipe weight at low trim."""
    house, wanted = house.as_one, wanted or Wanted()
    turns, held = _turns(house, wanted, "strike", lambda _: True)
    unplanned = [one.set for one in held]
    hung = all_hung(house, turns, unplanned)
    return worked("strike", house, turns, held, evened(house, hung), wanted, notes=tuple(unplanned_note(unplanned)),
                  refused=refused_as_hung(house, hung, unplanned))  # fmt: skip


def _hangs(state: State, label: str) -> bool:
    return label in state.sets and bool(state.sets[label].hung)


def _turns(
    house: RiggedHouse, wanted: Wanted, what: str, is_asked: Callable[[str], bool]
) -> tuple[list[Turn], list[Held]]:
    turns, held = [], []
    ample = plentiful(house)
    for label in hung_labels(house):
        if not is_asked(label):
            continue
        leg = planned(house, ample, label, what)
        refusal = held_at_load_in(wanted, house, label) if what == "load-in" else None
        refusal = refusal or leg.plan.refusal
        if refusal is not None:
            held.append(Held(set=label, refusal=refusal))
        elif leg.plan.lines:
            turns.append(Turn(set=label, what=what, legs=(leg,), passage=passage_of(leg)))
    return turns, held


# --- order and judgement -----------------------------------------------------------------------------------------


def worked(
    what: str, house: RiggedHouse, turns: Sequence[Turn], held: Sequence[Held], begin: State, wanted: Wanted,
    *, first: Mapping[int, frozenset[int]] | None = None, kept: tuple[str, ...] = (), standing: Sequence[Passage] = (),
    notes: tuple[str, ...] = (), others: tuple[RiggedHouse, ...] = (), refused: Refusal | None = None,
) -> Call:  # fmt: skip
    """The call of these turns: ordered, judged over the whole house, and said.

    `first` names the turns that must come before a turn; `standing` is what sets that are left alone take up;
    `others` the same house with what else hangs in it while a changeover goes on; `refused` why no step can be said
    from where it begins.
    """
    floors = floors_of(house, begin)
    found = precedence_of(turns, first or {}, standing)
    turns, held = found.turns, (*held, *found.held)
    tasks = tasks_of(turns, found.after)
    own = tuple(_named_order(turns, wanted.order))
    order = in_this_order(tasks, floors, own) if own else find_order(tasks, floors, wanted.budget)
    in_order = tuple(turns[at] for at in order.sequence)
    refusal, asks = asking.what_to_ask(house, tasks, floors, order, is_asked=bool(own))
    if refused is not None:
        refusal, asks = refused, ()
    if refusal is None and own:
        refusal = _out_of_turn(tasks, own)
    lines: tuple[Spoken, ...] = ()
    closed: tuple[Closed, ...] = ()
    end = begin
    if refusal is None:
        lines, closed, end, refusal = _judged(house, in_order, begin, others)
    moved = [one for turn in turns for one in turn.moved]
    return Call(
        what=what, house=house, turns=in_order, lines=lines if refusal is None else (), closed=closed, refusal=refusal,
        asks=asks, held=tuple(held), kept=kept, order=order, lifts=sum(abs(one.count) for one in moved),
        lifted=sum(abs(one.count) * floors.mass.get(one.kind, 0.0) for one in moved), begin=begin, end=end,
        notes=(*notes, *_notes(house, turns, order, lines, is_asked=bool(own))),
    )  # fmt: skip


def _named_order(turns: Sequence[Turn], order: Sequence[str]) -> Iterator[int]:
    """The turns in the order of the labels; a set of two turns is named twice. Those not named come last."""
    if not order:
        return
    left = list(range(len(turns)))
    for label in order:
        found = next((at for at in left if turns[at].set == label), None)
        if found is not None:
            left.remove(found)
            yield found
    yield from left


def _out_of_turn(tasks: Sequence[Task], order: Sequence[int]) -> Refusal | None:
    done: set[int] = set()
    for at in order:
        wants = sorted(tasks[at].after - done)
        if wants:
            names = ", ".join(tasks[one].name for one in wants)
            says = f"Set {tasks[at].name} cannot be worked before {names}: it would foul it, or waits for its piece."
            return Refusal(code="ORDER", says=says, mend=f"Work {names} first.")
        done.add(at)
    return None


def _judged(
    house: RiggedHouse, turns: Sequence[Turn], begin: State, others: tuple[RiggedHouse, ...]
) -> tuple[tuple[Spoken, ...], tuple[Closed, ...], State, Refusal | None]:
    lines: list[Spoken] = []
    closed: list[Closed] = []
    state = begin
    for turn in turns:
        for leg in turn.legs:
            for step in leg.plan.steps:
                after = judge(leg.house, state, step, others)
                if isinstance(after, Refusal):
                    says = f"Set {turn.set}, {turn.what}: {after.says}"
                    return (), tuple(closed), state, replace(after, says=says)
                state = after
            lines.extend(leg.plan.lines)
        closed.append(Closed(set=turn.set, stock=state.stock, floors=_carried(house, state), lines=len(lines)))
    return numbered(lines), tuple(closed), state, None


def _carried(house: RiggedHouse, state: State) -> dict[str, float]:
    person = house.rules["person"].value
    return {
        one.name: one.people * person
        + sum(places.get(one.name, 0) * house.bricks[kind].mass for kind, places in state.stock.items())
        for one in house.bridges
    }


# --- what is said of it ------------------------------------------------------------------------------------------


def _notes(
    house: RiggedHouse, turns: Sequence[Turn], order: Order, lines: Sequence[Spoken], *, is_asked: bool
) -> Iterator[str]:
    yield ("Static, without friction, and the worst that loads and bricks may come to. Nobody under the load. Each "
           "set is closed before the next begins.")  # fmt: skip
    if not is_asked and not order.is_proven:
        yield (f"Best order found in {order.looked} steps of search: {order.short} short, {order.carried} carried. No "
               f"order needs less than {order.least[0]} and {order.least[1]}; between them is not known.")  # fmt: skip
    used = {one.place for turn in turns for one in turn.moved}
    for bridge in house.bridges:
        if bridge.name in used and bridge.most is None:
            yield f"Not checked: the floor of {bridge.name}; its posting, size, people or stock is not known."
    if any(bridge.most is not None for bridge in house.bridges if bridge.name in used):
        yield "A floor is judged by its total. Heaps on a part of it are not checked."
    blind = [turn.set for turn in turns if not all(_is_looked_at(leg.house, turn.set) for leg in turn.legs)]
    if blind:
        yield (f"Not checked: whether a neighbour is fouled by {named(blind)}; a distance or the thickness of a piece "
               "is not written. Bare battens are never checked.")  # fmt: skip
    if any(line.is_branch for line in lines):
        yield "Where a weight is not known well, a branch may take or give bricks that are not counted here."
    yield "How long it takes is not told: the house states no rate."


def _is_looked_at(house: RiggedHouse, label: str) -> bool:
    rigged = house.set_called(label)
    return rigged is not None and is_looked_at(rigged)


def total_said(call: Call, at: Closed) -> str:
    """The loose bricks by place, and what a posted floor carries of what it may: said when a set is closed."""
    parts = []
    for bridge in call.house.bridges:
        kinds = [f"{places.get(bridge.name, 0)} {kind}" for kind, places in at.stock.items() if bridge.name in places]
        said = f"{bridge.name} {' and '.join(kinds) or 'no bricks'}"
        if bridge.most is not None:
            said += f", {tell.mass_up(call.house, at.floors[bridge.name])} of {tell.mass_down(call.house, bridge.most)}"
        parts.append(said)
    return "; ".join(parts)


def opening(call: Call) -> Closed:
    """How all stands before the first step."""
    return Closed(set="", stock=call.begin.stock, floors=_carried(call.house, call.begin), lines=0)


def steps_of(call: Call) -> tuple[Step, ...]:
    """All steps in the order of the call."""
    return tuple(step for turn in call.turns for leg in turn.legs for step in leg.plan.steps)
