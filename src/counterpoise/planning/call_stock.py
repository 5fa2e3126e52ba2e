"""Bricks for what hangs already: whether the house has as many as are taken to be on its arbors, and from where."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from counterpoise.balance import added
from counterpoise.planning.phrases import all_of
from counterpoise.planning.state import Refusal, State
from counterpoise.rigging import RiggedHouse

_MOST_TOLD = 8  # sets of which it is said how many each has, the most first


def short_as_hung(house: RiggedHouse, state: State) -> Mapping[str, int]:
    """By kind, how many bricks more are on the arbors beside pipe weight than the house has in all its places."""
    on: dict[str, int] = {}
    for each in _on_arbors(house, state).values():
        for kind, count in each.items():
            on[kind] = on.get(kind, 0) + count
    lacks = {kind: count - sum(house.bricks[kind].stock.values()) for kind, count in on.items()}
    return {kind: count for kind, count in lacks.items() if count > 0}


def _on_arbors(house: RiggedHouse, state: State) -> dict[str, dict[str, int]]:
    """By set and kind, what is on beside pipe weight."""
    found: dict[str, dict[str, int]] = {}
    for one in house.sets:
        now = state.sets.get(one.label)
        if now is None:
            continue
        found[one.label] = {kind: count for kind, count in added(one, now.stack).items() if count > 0}
    return found


def evened(house: RiggedHouse, state: State) -> State:
    """The same state with no place below nothing: what a place does not have came from the others, bridges first."""
    first = [one.name for one in house.bridges]
    stock: dict[str, Mapping[str, int]] = {}
    for kind, places in state.stock.items():
        left = {name: max(0, count) for name, count in places.items()}
        owed = sum(max(0, -count) for count in places.values())
        for name in sorted(left, key=lambda name: first.index(name) if name in first else len(first)):
            taken = min(owed, left[name])
            left[name], owed = left[name] - taken, owed - taken
        stock[kind] = left
    return replace(state, stock=stock)


def refused_as_hung(house: RiggedHouse, state: State, unplanned: Sequence[str]) -> Refusal | None:
    """Why nothing can be said from how it hangs: more bricks are taken to be on than there are; None where not."""
    short = short_as_hung(house, state)
    if not short:
        return None
    mend = ("If it hangs, count what is on these arbors and what lies loose, and write both: `stated bricks` in the "
            f"hang, `stock` in the house. If not, bring {all_of(f'{many} {kind}' for kind, many in short.items())} "
            "before it is loaded.")  # fmt: skip
    return Refusal(code="STOCK", says=" ".join(_says(house, state, short, unplanned)), mend=mend)


def _says(house: RiggedHouse, state: State, short: Mapping[str, int], unplanned: Sequence[str]) -> Iterator[str]:
    on = _on_arbors(house, state)
    for kind, many in short.items():
        have = sum(house.bricks[kind].stock.values())
        each = {label: counts[kind] for label, counts in on.items() if kind in counts}
        yield (f"What hangs now takes {sum(each.values())} {kind} beside pipe weight, and the house has {have}: "
               f"{many} {kind} short.")  # fmt: skip
        most = sorted(each, key=lambda label: -each[label])[:_MOST_TOLD]
        about = " (not planned: as stated, or as it balances best)"
        told = [f"set {label} has {each[label]}{about if label in unplanned else ''}" for label in most]
        told += [f"{len(each) - len(most)} more have the rest"] if len(each) > len(most) else []
        yield f"Of them {', '.join(told)}."
        unknown = [place for one in house.house.bricks if one.brick == kind
                   for place, count in one.stock.items() if count.best is None]  # fmt: skip
        if unknown:
            yield f"How many {kind} are at {all_of(unknown)} is not known; none is counted."
