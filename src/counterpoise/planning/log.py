"""What was really done, judged by the same replay as a plan: what is on every arbor now, or the line that is refused.

Beside the steps of a plan a log knows a few things that happen: bricks brought and sent, a step that was left off in
the middle, a set that is locked out, a note. A set that was left off waits until somebody closes it by name.
"""

from __future__ import annotations

import difflib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from counterpoise.balance import pipe_weight
from counterpoise.documents import Done, Known, Log
from counterpoise.planning import tell
from counterpoise.planning.asking import bricks
from counterpoise.planning.call import strike_call
from counterpoise.planning.replay import judge
from counterpoise.planning.state import Act, Refusal, SetState, State, Step, start
from counterpoise.planning.turns import Wanted
from counterpoise.rigging import RiggedHouse

_STILL = (Act.COUNT, Act.LOCK_ON, Act.HOLD_ON)  # what makes a set stay as it is
_WEIGHT = (Act.HANG, Act.STRIKE, Act.BRICKS_ON, Act.BRICKS_OFF)


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOff:
    """A set that was left off in the middle of something: when, by whom, and whether its bricks are to be counted."""

    n: int
    why: str
    is_to_be_counted: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """The whole house as a log leaves it: its state, the sets left off, and those locked out with the reason."""

    state: State
    left_off: Mapping[str, LeftOff] = field(default_factory=dict)
    locked_out: Mapping[str, str] = field(default_factory=dict)
    turned: frozenset[str] = frozenset()  # in a changeover: the sets on which what comes has begun to hang


@dataclass(frozen=True, slots=True, kw_only=True)
class Rehearsed:
    """How far a log was allowed, how all stands then, and what was refused at which line of the file (0: nowhere)."""

    done: int
    of: int
    standing: Standing
    refusal: Refusal | None
    line: int = 0


@dataclass(frozen=True, slots=True)
class _At:
    house: RiggedHouse
    now: Standing
    done: Done
    coming: RiggedHouse | None


def rehearse(house: RiggedHouse, log: Log, coming: RiggedHouse | None = None) -> Rehearsed:
    """Judge what was done, one after another, and end at the first that is refused; the state before it is kept.

    Of a changeover `coming` is the same house with what is to hang. A set is judged by it from where, empty and in
    pipe weight, it is given the first piece of that; until then by what it carried before.
    """
    house, coming = house.as_one, None if coming is None else coming.as_one
    standing = _begin(house, log)
    for count, done in enumerate(log.done):
        after = _next(_At(house, standing, done, coming))
        if isinstance(after, Refusal):
            return Rehearsed(done=count, of=len(log.done), standing=standing, refusal=after, line=done.line_of)
        standing = after
    return Rehearsed(done=len(log.done), of=len(log.done), standing=standing, refusal=None)


def _begin(house: RiggedHouse, log: Log) -> Standing:
    if log.begins == "empty":
        return Standing(state=start(house))
    call = strike_call(house, Wanted(budget=1))
    return Standing(state=call.begin)  # what cannot be planned is blocked there until it is counted


def _next(at: _At) -> Standing | Refusal:
    own = _OWN.get(at.done.did)
    if own is not None:
        return own(at)
    act = next((one for one in Act if one.value == at.done.did), None)
    if act is None:
        known = [*(one.value for one in Act), *_OWN]
        near = difflib.get_close_matches(at.done.did, known, n=1)
        return _refused(f'"{at.done.did}" is nothing that is known.',
                        f"Did you mean {near[0]}?" if near else f"Write one of {', '.join(known)}.")  # fmt: skip
    step = _step(at, act)
    return step if isinstance(step, Refusal) else _judged(at, step)


def _refused(says: str, mend: str, code: str = "LOG") -> Refusal:
    return Refusal(code=code, says=says, mend=mend)


# --- steps -------------------------------------------------------------------------------------------------------


def _step(at: _At, act: Act) -> Step | Refusal:
    done = at.done
    if not done.label:
        return _refused(f"{done.did}: no set is named.", "Write which set.")
    if act in (Act.HANG, Act.STRIKE) and not done.piece:
        return _refused(f"{done.did}: no piece is named.", "Write which piece.")
    counts = [_number(done.bricks), _number(done.small)]
    if act in (Act.BRICKS_ON, Act.BRICKS_OFF, Act.COUNT) and (None in counts or done.bricks is done.small is None):
        return _refused(f"{done.did}: how many is not written.", "Write bricks: and the count.")
    if act is Act.MOVE and (done.height is None or done.height.best is None):
        return _refused("move: to which height is not written.", "Write height: and where the batten is now.")
    if act in (Act.RIG, Act.CLEAR) and not done.hold:
        return _refused(f"{done.did}: no hold is named.", "Write hold: and which one of the house.")
    height = done.height.best if done.height is not None and done.height.best is not None else 0.0
    return Step(act=act, set=done.label, piece=done.piece, bricks=counts[0] or 0, small=counts[1] or 0,
                bridge=_bridge(at), height=height,
                hold=done.hold)  # fmt: skip


def _number(count: Known | None) -> int | None:
    """A count as written, 0 where none is, None where it is written as unknown."""
    if count is None:
        return 0
    return None if count.best is None else round(count.best)


def _bridge(at: _At) -> str:
    """The bridge that is named, or the only one there is."""
    bridges = at.house.bridges
    return at.done.bridge or (bridges[0].name if len(bridges) == 1 else "")


def _judged(at: _At, step: Step) -> Standing | Refusal:
    label = step.set
    refused = _shut(at, step)
    if refused is not None:
        return refused
    turned = at.now.turned | ({label} if _turns(at, step) else frozenset())
    house = at.coming if at.coming is not None and label in turned else at.house
    others = () if at.coming is None else (at.house, at.coming)
    after = judge(house, at.now.state, step, others)
    if isinstance(after, Refusal):
        return after
    left = at.now.left_off
    if step.act is Act.COUNT and label in left and not after.sets[label].blocked:
        left = {**left, label: replace(left[label], is_to_be_counted=False)}
    return replace(at.now, state=after, left_off=left, turned=turned)


def _turns(at: _At, step: Step) -> bool:
    """True where a set that is empty and in pipe weight is given a piece of what comes."""
    on, rigged = at.now.state.sets.get(step.set), at.coming.set_called(step.set) if at.coming is not None else None
    if step.act is not Act.HANG or on is None or rigged is None or on.hung or on.stack != pipe_weight(rigged):
        return False
    return step.piece in (one.name for one in rigged.pieces)


def _shut(at: _At, step: Step) -> Refusal | None:
    """What stands in the way of a step; one open set at a time is a matter of weight only."""
    refusal = None if step.act in _STILL else stands_in_the_way(at.house, at.now, step.set)
    return None if refusal is not None and refusal.code == "OPEN" and step.act not in _WEIGHT else refusal


def stands_in_the_way(house: RiggedHouse, standing: Standing, label: str) -> Refusal | None:
    """Why no weight may move on a set just now: it is locked out, left off, or as many are open as the rule allows."""
    why, left = standing.locked_out.get(label), standing.left_off.get(label)
    if why is not None:
        return _refused(f"Set {label} is locked out: {why}.", "It waits until it is released by name.", "OUT")
    if left is not None:
        mend = "Count its bricks. " if left.is_to_be_counted else ""
        return _refused(f"Set {label} was left off at {left.n}: {left.why}.",
                        f"{mend}It waits until somebody closes it by name.", "LEFT-OFF")  # fmt: skip
    waits = {*standing.left_off, *standing.locked_out}
    others = [name for name, on in standing.state.sets.items() if name != label and name not in waits and is_open(on)]
    if len(others) < max(1.0, house.rules["open sets"].value):
        return None
    said = f"Set{'s' if others[1:] else ''} {' and '.join(others)} {'are' if others[1:] else 'is'} still open."
    mend = f"Close set {others[0]} first: collars down, hold off, lock on."
    return _refused(said, mend, "OPEN")


def is_open(on: SetState) -> bool:
    """True for a set that is unlocked, held for work, or open at the arbor."""
    return on.held or not on.locked or not on.collars_down


# --- what only a log knows -----------------------------------------------------------------------------------------


def _note(at: _At) -> Standing | Refusal:
    return at.now if at.done.note else _refused("A note without words.", "Write note: and what is to be known.")


def _known_set(at: _At, *, by_name: bool) -> Refusal | None:
    if at.done.label not in at.now.state.sets:
        says = f"Set {at.done.label} lacks a figure or has no arbor." if at.done.label else "No set is named."
        return _refused(f"{at.done.did}: {says}", "Name a set that the replay can judge.")
    if by_name and not at.done.who:
        return _refused(f"{at.done.did}: nobody is named.", "Write who: and the name of who takes it on.")
    return None


def _left_off(at: _At) -> Standing | Refusal:
    refused = _known_set(at, by_name=False)
    if refused is not None:
        return refused
    on = at.now.state.sets[at.done.label]
    why = at.done.note or "what for is not written"
    left = LeftOff(n=round(at.done.n.number), why=why, is_to_be_counted=not on.collars_down)
    return replace(at.now, left_off={**at.now.left_off, at.done.label: left})


def _close(at: _At) -> Standing | Refusal:
    refused = _known_set(at, by_name=True)
    if refused is not None:
        return refused
    label = at.done.label
    left = at.now.left_off.get(label)
    if left is None:
        return _refused(f"Set {label} was not left off.", "Take the line out, or write which set is meant.")
    blocked = at.now.state.sets[label].blocked
    if left.is_to_be_counted or blocked:
        says = f"Set {label} is {blocked}." if blocked else f"Set {label} was left off with its arbor open."
        return _refused(says, "Count its bricks before it is closed.", "BLOCKED")
    return replace(at.now, left_off={name: one for name, one in at.now.left_off.items() if name != label})


def _lock_out(at: _At) -> Standing | Refusal:
    refused = _known_set(at, by_name=True)
    if refused is not None:
        return refused
    if not at.now.state.sets[at.done.label].locked:
        return _refused(f"Set {at.done.label} is not locked.", "Lock on first.")
    why = f"{at.done.note or 'why is not written'} ({at.done.who})"
    return replace(at.now, locked_out={**at.now.locked_out, at.done.label: why})


def _release(at: _At) -> Standing | Refusal:
    refused = _known_set(at, by_name=True)
    if refused is not None:
        return refused
    if at.done.label not in at.now.locked_out:
        return _refused(f"Set {at.done.label} is not locked out.", "Write which set is meant.")
    rest = {name: why for name, why in at.now.locked_out.items() if name != at.done.label}
    return replace(at.now, locked_out=rest)


def _bring(at: _At) -> Standing | Refusal:
    return _carried(at, 1)


def _send(at: _At) -> Standing | Refusal:
    return _carried(at, -1)


def _carried(at: _At, sign: int) -> Standing | Refusal:
    """Bricks brought to a bridge or sent off it, against what lies there and what its floor may carry."""
    kinds = list(at.house.bricks)
    kind = at.done.brick or (kinds[0] if len(kinds) == 1 else "")
    place, count = _bridge(at), _number(at.done.bricks)
    if not kind or not place or not count:
        return _refused(f"{at.done.did}: which bricks, how many and which bridge is not written.",
                        "Write brick:, bricks: and bridge:.")  # fmt: skip
    there = at.now.state.stock.get(kind, {}).get(place, 0)
    if there + sign * count < 0:
        return _refused(f"{place} has {bricks(there, kind)}; {count} are sent off.", "Count what lies there.", "STOCK")
    state = at.now.state.with_stock(kind, place, there + sign * count)
    bridge = next((one for one in at.house.bridges if one.name == place), None)
    if sign > 0 and bridge is not None and bridge.most is not None:
        loose = sum(places.get(place, 0) * at.house.bricks[name].mass for name, places in state.stock.items())
        total = loose + bridge.people * at.house.rules["person"].value
        if total > bridge.most + 1e-9:
            says = f"{place} would carry {tell.mass_up(at.house, total)}; its posting allows "
            says += f"{tell.mass_down(at.house, bridge.most)} in all."
            return _refused(says, "Bring fewer. Heaps are not checked.", "BRIDGE-FLOOR")
    return replace(at.now, state=state)


_OWN: Mapping[str, Callable[[_At], Standing | Refusal]] = {
    "note": _note,
    "left off": _left_off,
    "close": _close,
    "lock out": _lock_out,
    "release": _release,
    "bring": _bring,
    "send": _send,
}
