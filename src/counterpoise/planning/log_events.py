"""What only a log knows: notes, sets left off, closed, locked out, released; bricks brought, sent, counted loose."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from counterpoise.documents import COUNTERWEIGHT, Known
from counterpoise.planning.asking import bricks
from counterpoise.planning.log_state import At, LeftOff, Standing, refused
from counterpoise.planning.replay import floor_is_over, married_as, says_married
from counterpoise.planning.state import Refusal

_NOBODY = ("unknown", "nobody", "no one", "none", "somebody", "someone", "anybody", "anyone", "n/a", "na", "tbd", "tba")


def number(count: Known | None) -> int | None:
    """A count as written, 0 where none is, None where it is written as unknown."""
    if count is None:
        return 0
    return None if count.best is None else round(count.best)


def bridge_of(at: At) -> str:
    """The bridge that is named, or the only one there is."""
    bridges = at.house.bridges
    return at.done.bridge or (bridges[0].name if len(bridges) == 1 else "")


def in_all(at: At, kind: str) -> int | None:
    """How many of a kind of brick the house has by what is written and by the log, None where a part is unknown."""
    written = next((one.stock for one in at.house.house.bricks if one.brick == kind), {})
    arbors = [one.label for one in at.house.house.sets if one.rigged == COUNTERWEIGHT]
    if any(count.best is None for count in written.values()) or any(one not in at.now.state.sets for one in arbors):
        return None
    total = sum(at.now.state.stock.get(kind, {}).values()) - at.now.adrift.get(kind, 0)
    for label, on in at.now.state.sets.items():
        rigged = at.set_called(label)
        if rigged is not None and rigged.brick.name == kind:
            total += on.bricks * rigged.abreast
        if rigged is not None and rigged.small is not None and rigged.small.name == kind:
            total += on.small * rigged.abreast
    return total


def _note(at: At) -> Standing | Refusal:
    return at.now if at.done.note else refused("A note without words.", "Write note: and what is to be known.")


def _known_set(at: At, *, by_name: bool) -> Refusal | None:
    married = married_as(at.house, at.done.label)
    if married:
        return refused(*says_married(at.done.label, married), "TWINS")
    if at.done.label not in at.now.state.sets:
        says = f"Set {at.done.label} lacks a figure or has no arbor." if at.done.label else "No set is named."
        return refused(f"{at.done.did}: {says}", "Name a set that the replay can judge.")
    if by_name and not _is_a_name(at.done.who):
        says = f'"{at.done.who}" is nobody.' if at.done.who else "nobody is named."
        return refused(f"{at.done.did}: {says}", "Write who: and the name of who takes it on.")
    return None


def _is_a_name(who: str) -> bool:
    return any(each.isalpha() for each in who) and who.strip().strip(".").lower() not in _NOBODY


def _left_off(at: At) -> Standing | Refusal:
    lacks = _known_set(at, by_name=False)
    if lacks is not None:
        return lacks
    on = at.now.state.sets[at.done.label]
    why = at.done.note or "what for is not written"
    left = LeftOff(n=round(at.done.n.number), why=why, is_to_be_counted=not on.collars_down)
    return replace(at.now, left_off={**at.now.left_off, at.done.label: left})


def _close(at: At) -> Standing | Refusal:
    lacks = _known_set(at, by_name=True)
    if lacks is not None:
        return lacks
    label = at.done.label
    left = at.now.left_off.get(label)
    if left is None:
        return refused(f"Set {label} was not left off.", "Take the line out, or write which set is meant.")
    blocked = at.now.state.sets[label].blocked
    if left.is_to_be_counted or blocked:
        says = f"Set {label} is {blocked}." if blocked else f"Set {label} was left off with its arbor open."
        return refused(says, "Count its bricks before it is closed.", "BLOCKED")
    return replace(at.now, left_off={name: one for name, one in at.now.left_off.items() if name != label})


def _lock_out(at: At) -> Standing | Refusal:
    lacks = _known_set(at, by_name=True)
    if lacks is not None:
        return lacks
    if not at.now.state.sets[at.done.label].locked:
        return refused(f"Set {at.done.label} is not locked.", "Lock on first.")
    why = f"{at.done.note or 'why is not written'} ({at.done.who})"
    return replace(at.now, locked_out={**at.now.locked_out, at.done.label: why})


def _release(at: At) -> Standing | Refusal:
    lacks = _known_set(at, by_name=True)
    if lacks is not None:
        return lacks
    if at.done.label not in at.now.locked_out:
        return refused(f"Set {at.done.label} is not locked out.", "Write which set is meant.")
    rest = {name: why for name, why in at.now.locked_out.items() if name != at.done.label}
    return replace(at.now, locked_out=rest)


def _bring(at: At) -> Standing | Refusal:
    return _carried(at, 1)


def _send(at: At) -> Standing | Refusal:
    return _carried(at, -1)


def _lying(at: At) -> tuple[str, str, int] | Refusal:
    """Kind, place and count of loose bricks as written; of the kind or the place the only one where one is left out."""
    kinds = list(at.house.bricks)
    kind = at.done.brick or (kinds[0] if len(kinds) == 1 else "")
    place, count = bridge_of(at), number(at.done.bricks)
    if not kind or not place or count is None or at.done.bricks is None:
        return refused(f"{at.done.did}: which bricks, how many and which bridge is not written.",
                       "Write brick:, bricks: and bridge:.")  # fmt: skip
    return kind, place, count


def _carried(at: At, sign: int) -> Standing | Refusal:
    """Bricks brought to a bridge or sent off it, against what lies there and what its floor may carry."""
    lying = _lying(at)
    if isinstance(lying, Refusal):
        return lying
    kind, place, count = lying
    there = at.now.state.stock.get(kind, {}).get(place, 0)
    if there + sign * count < 0:
        return refused(f"{place} has {bricks(there, kind)}; {count} are sent off.", "Count what lies there.", "STOCK")
    state = at.now.state.with_stock(kind, place, there + sign * count)
    over = floor_is_over(at.house, state, place) if sign > 0 else ""
    if over:
        return refused(f"{place} would carry {over}.", "Bring fewer. Heaps are not checked.", "BRIDGE-FLOOR")
    return replace(at.now, state=state)


def count_loose(at: At) -> Standing | Refusal:
    """What lies loose at a place is what was counted there; where that is not what the log leads to, it is kept."""
    lying = _lying(at)
    if isinstance(lying, Refusal):
        return lying
    kind, place, count = lying
    there, most = at.now.state.stock.get(kind, {}).get(place, 0), in_all(at, kind)
    if most is not None and count > max(most, there):
        return refused(f"{bricks(count, kind)} counted at {place}; the house has {most} in all.",
                       "Count again; or write what was brought: bring, bricks: and bridge:.", "COUNT")  # fmt: skip
    if count == there:
        return at.now
    found = {**at.now.found_loose, kind: at.now.found_loose.get(kind, 0) + count - there}
    return replace(at.now, state=at.now.state.with_stock(kind, place, count), found_loose=found,
                   floors=at.now.floors | {place})  # fmt: skip


OWN: Mapping[str, Callable[[At], Standing | Refusal]] = {
    "note": _note,
    "left off": _left_off,
    "close": _close,
    "lock out": _lock_out,
    "release": _release,
    "bring": _bring,
    "send": _send,
}
