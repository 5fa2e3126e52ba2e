"""From one hang to another in the same house: what stays is left alone, all else is stripped before it leaves.

A set keeps its piece where the same pieces hang in the same places with the same stack. Every other set is stripped to
pipe weight before its old piece leaves, and loaded with the new one, in one turn; in two turns only where a piece goes
from set to set in a ring, where bricks or floors allow no other way, or where that is asked for.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from counterpoise.documents import COUNTERWEIGHT
from counterpoise.planning.call import Call, worked
from counterpoise.planning.call_stock import evened, refused_as_hung
from counterpoise.planning.neighbours import Passage, hanging
from counterpoise.planning.state import Refusal, State
from counterpoise.planning.turns import (
    Held,
    Leg,
    Turn,
    Wanted,
    all_hung,
    held_at_load_in,
    hung_labels,
    named,
    passage_of,
    planned,
    plentiful,
    unplanned_note,
)
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedPiece


@dataclass(frozen=True, slots=True, kw_only=True)
class _Change:
    """One set's change: the strike of what hangs, the load-in of what comes, or one of them alone."""

    set: str
    off: Leg | None
    on: Leg | None


def changeover(old: RiggedHouse, new: RiggedHouse, wanted: Wanted | None = None, *, strip_first: bool = False) -> Call:
    """From the hang of `old`, as its load-in leaves it, to that of `new`.

    Args:
        old: the house with what hangs now.
        new: the same house with what is to hang.
        wanted: as for a call; an `order` names a set once, or twice where it is worked in two turns.
        strip_first: strike everything that leaves before anything is loaded, in the order of the house.

    Returns:
        The call. Sets that cannot be planned are held, with the reason.
    """
    old, new, wanted = old.as_one, new.as_one, wanted or Wanted()
    changes, kept, held, now = _changes(old, new, wanted)
    unplanned = _unplanned(old, held, now)
    hung = all_hung(old, now, unplanned)
    begin, refused = evened(old, hung), refused_as_hung(old, hung, unplanned)
    ring = _rings(changes)
    if strip_first or _twice(wanted.order):
        return _worked(old, new, changes, {one.set for one in changes}, begin, kept, held,
                       replace(wanted, order=wanted.order or _strip_order(changes)), refused)  # fmt: skip
    whole = _worked(old, new, changes, ring, begin, kept, held, wanted, refused)
    if wanted.order or refused is not None or not whole.order.needs_help or not whole.turns:
        return whole
    split = _worked(old, new, changes, {one.set for one in changes}, begin, kept, held, wanted)
    return split if _is_less(split, whole) else whole


def _twice(order: Sequence[str]) -> bool:
    return len(set(order)) < len(order)


def _is_less(one: Call, other: Call) -> bool:
    """True where one call takes less help than another."""
    return (len(one.order.stuck), one.order.short, one.order.carried) < (
        len(other.order.stuck), other.order.short, other.order.carried)  # fmt: skip


def _strip_order(changes: Iterable[_Change]) -> tuple[str, ...]:
    changes = tuple(changes)
    return (*(one.set for one in changes if one.off), *(one.set for one in changes if one.on))


def _changes(
    old: RiggedHouse, new: RiggedHouse, wanted: Wanted
) -> tuple[list[_Change], tuple[str, ...], list[Held], list[Turn]]:
    """What is to be done on each set, the sets that keep their piece, those that are held, and how all hangs now."""
    changes: list[_Change] = []
    kept: list[str] = []
    held: list[Held] = []
    hanging_now: list[Turn] = []
    ample_old, ample_new = plentiful(old), plentiful(new)
    comes, goes = set(hung_labels(new)), set(hung_labels(old))
    for label in (one.label for one in old.house.sets if one.label in comes | goes):
        off = planned(old, ample_old, label, "strike") if label in goes else None
        on = planned(new, ample_new, label, "load-in") if label in comes else None
        refusal = _refused(off, on, held_at_load_in(wanted, new, label))
        if off is not None and off.plan.refusal is None:
            hanging_now.append(Turn(set=label, what="strike", legs=(off,), passage=Passage(set=label)))
        if refusal is not None:
            held.append(Held(set=label, refusal=refusal))
        elif off is not None and on is not None and keeps(old.batten_called(label), new.batten_called(label), off, on):
            kept.append(label)
        else:
            changes.append(_Change(set=label, off=off, on=on))
    return _without_waiting(old, changes, held), tuple(kept), held, hanging_now


def _without_waiting(old: RiggedHouse, changes: list[_Change], held: list[Held]) -> list[_Change]:
    """The changes that can be made; a set whose new piece stays on a set that is held is held with it, and so on."""
    stays = {one.set: set(_names(old, one.set)) for one in held}
    leaves = {name for each in changes for name in _names(old, each.set)}
    for one in changes:
        wants = set(_names(one.on.house, one.set)) if one.on is not None else set()
        where = next(((label, name) for label, names in stays.items() for name in sorted(names & wants - leaves)), None)
        if where is not None:
            label, name = where
            says = f"Set {one.set} waits for {name}, which stays on set {label}."
            held.append(Held(set=one.set, refusal=Refusal(code="PIECE", says=says, mend=f"Free set {label} first.")))
            return _without_waiting(old, [each for each in changes if each is not one], held)
    return changes


def _names(house: RiggedHouse, label: str) -> Iterator[str]:
    return (one.piece for one in house.hang.hung if one.label == label)


def _unplanned(old: RiggedHouse, held: Iterable[Held], now: Iterable[Turn]) -> list[str]:
    """The sets that hang now and whose load-in cannot be planned."""
    planned_now = {turn.set for turn in now}
    hung = set(hung_labels(old))
    return [one.set for one in held if one.set in hung and one.set not in planned_now]


def _refused(off: Leg | None, on: Leg | None, held: Refusal | None) -> Refusal | None:
    if off is not None and off.plan.refusal is not None:
        return off.plan.refusal
    if on is None:
        return None
    return held or on.plan.refusal


def keeps(old: RiggedBatten | None, new: RiggedBatten | None, off: Leg, on: Leg) -> bool:
    """True where the same pieces hang in the same places with the same bricks; a hemp set has none."""
    if old is None or new is None:
        return False
    same = sorted(map(_what, old.pieces)) == sorted(map(_what, new.pieces))
    hung = off.plan.begin.sets.get(old.label)
    return same and (hung is None or hung.stack == on.plan.final)


def _what(piece: RiggedPiece) -> str:
    """All that the set feels of a piece, as words, so that two can be compared wherever they are written."""
    cables = [(one.length.text, one.weight.text, one.box.text) for one in piece.written.cables]
    return repr((piece.name, piece.parts, piece.points, piece.spread, piece.height, cables))


# --- pieces that go from set to set --------------------------------------------------------------------------------


def _pieces(leg: Leg | None, label: str) -> Iterator[str]:
    rigged = leg.house.set_called(label) if leg is not None else None
    for piece in rigged.pieces if rigged is not None else ():
        yield repr((piece.name, piece.parts, piece.height))


def _sources(changes: Sequence[_Change]) -> dict[str, set[str]]:
    """For each set the other sets from which a piece comes to it: they are struck before it is loaded."""
    leaves = {piece: one.set for one in changes for piece in _pieces(one.off, one.set)}
    found: dict[str, set[str]] = {one.set: set() for one in changes}
    for one in changes:
        found[one.set] = {leaves[piece] for piece in _pieces(one.on, one.set) if piece in leaves} - {one.set}
    return found


def _rings(changes: Sequence[_Change]) -> set[str]:
    """The sets of which each waits for a piece of another, so that all are struck before any is loaded."""
    sources = _sources(changes)
    left = set(sources)
    while ready := {label for label in left if not sources[label] & left}:
        left -= ready
    return left


# --- turns ---------------------------------------------------------------------------------------------------------


def _worked(
    old: RiggedHouse, new: RiggedHouse, changes: Sequence[_Change], apart: set[str], begin: State,
    kept: tuple[str, ...], held: Sequence[Held], wanted: Wanted, refused: Refusal | None = None,
) -> Call:  # fmt: skip
    """The call with these sets in two turns, strike and load-in apart, and the others in one."""
    turns: list[Turn] = []
    for one in changes:
        turns += [_turn(one, "strike"), _turn(one, "load-in")] if _is_apart(one, apart) else [_turn(one, _both(one))]
    first = _first(changes, turns)
    standing = [_standing(old, label) for label in (*kept, *(one.set for one in held))]
    notes = list(unplanned_note([one.set for one in held if one.set in begin.sets and begin.sets[one.set].blocked]))
    lacking = [one.set for one in held if one.set not in begin.sets and one.set in hung_labels(old)
               and (found := old.house.set_called(one.set)) is not None and found.rigged == COUNTERWEIGHT]  # fmt: skip
    if lacking:
        notes.append(f"Taken as loose: the bricks on {named(lacking)}, for a figure is lacking there. Count what lies "
                     "on the floors first.")  # fmt: skip
    notes += [f"Left alone, the same piece, place and stack: {named(kept)}."] if kept else []
    trims = [label for label in kept if _trims(old, label) != _trims(new, label)]
    if trims:
        notes.append(f"The same piece at another trim: {named(trims)}. The rail moves it; no brick does.")
    parted = [one.set for one in changes if _is_apart(one, apart)]
    if parted:
        notes.append(f"In two turns, struck and bare in between: {named(parted)}.")
    return worked("changeover", new, turns, held, begin, wanted, first=first, kept=kept,
                  standing=standing, notes=tuple(notes), others=(old, new), refused=refused)  # fmt: skip


def _is_apart(one: _Change, apart: set[str]) -> bool:
    return one.set in apart and one.off is not None and one.on is not None


def _both(one: _Change) -> str:
    if one.off is None:
        return "load-in"
    return "strike" if one.on is None else "change"


def _turn(one: _Change, what: str) -> Turn:
    off = one.off if what != "load-in" else None
    on = one.on if what != "strike" else None
    legs = tuple(leg for leg in (off, on) if leg is not None)
    out, back = (passage_of(leg) if leg is not None else Passage(set=one.set) for leg in (off, on))
    passage = Passage(set=one.set, before=out.before, on_the_way=(*out.on_the_way, *back.on_the_way), after=back.after)
    return Turn(set=one.set, what=what, legs=legs, passage=passage)


def _standing(house: RiggedHouse, label: str) -> Passage:
    rigged = house.set_called(label)
    hung = hanging(rigged) if rigged is not None else ()
    return Passage(set=label, before=hung, after=hung)


def _first(changes: Sequence[_Change], turns: Sequence[Turn]) -> Mapping[int, frozenset[int]]:
    """A set is struck before it is loaded, and before the set to which its piece goes."""
    sources = _sources(changes)
    struck = {turn.set: at for at, turn in enumerate(turns) if turn.what in ("strike", "change")}
    found = {}
    for at, turn in enumerate(turns):
        wants = {struck[label] for label in sources[turn.set]} if turn.what != "strike" else set()
        if turn.what == "load-in" and turn.set in struck:
            wants.add(struck[turn.set])
        found[at] = frozenset(wants - {at})
    return found


def _trims(house: RiggedHouse, label: str) -> dict[str, Mapping[str, float]]:
    rigged = house.set_called(label)
    return {one.name: one.trims for one in rigged.pieces} if rigged is not None else {}
