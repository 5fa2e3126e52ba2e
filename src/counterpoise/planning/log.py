"""What was really done, judged by the same replay as a plan: what is on every arbor now, or the line that is refused.

Beside the steps of a plan a log knows a few things that happen: bricks brought and sent, a step that was left off in
the middle, a set that is locked out, a note. A set that was left off waits until somebody closes it by name.
"""

from __future__ import annotations

import difflib
from dataclasses import replace

from counterpoise.balance import Stack, pipe_weight
from counterpoise.documents import Log, LogSoFar
from counterpoise.planning.asking import bricks
from counterpoise.planning.call import strike_call
from counterpoise.planning.log_events import OWN, bridge_of, count_loose, in_all, number
from counterpoise.planning.log_open import all_over, bricks_adrift, is_open, shut, stands_in_the_way
from counterpoise.planning.log_state import At, LeftOff, Rehearsed, Standing, refused
from counterpoise.planning.replay import judge
from counterpoise.planning.state import Act, Refusal, SetState, Step, start
from counterpoise.planning.turns import Wanted
from counterpoise.rigging import RiggedHouse, RiggedSet

__all__ = [
    "LeftOff",
    "Rehearsed",
    "Standing",
    "bricks_adrift",
    "is_open",
    "rehearse",
    "rehearse_so_far",
    "stands_in_the_way",
]


def rehearse(house: RiggedHouse, log: Log, coming: RiggedHouse | None = None) -> Rehearsed:
    """Judge what was done, one after another, and end at the first that is refused; the state before it is kept.

    Of a changeover `coming` is the same house with what is to hang. A set is judged by it from where, empty and in
    pipe weight, it is given the first piece of that; until then by what it carried before. What counts found stands:
    where that is beyond what holds a set, `over` says so.
    """
    house, coming = house.as_one, None if coming is None else coming.as_one
    standing = _begin(house, log)
    refusal, count, line = None, 0, 0
    for done in log.done:
        after = _next(At(house, standing, done, coming))
        if isinstance(after, Refusal):
            refusal, line = after, done.line_of
            break
        standing, count = after, count + 1
    return Rehearsed(done=count, of=len(log.done), standing=standing, refusal=refusal, line=line,
                     over=all_over(house, standing, coming))  # fmt: skip


def rehearse_so_far(house: RiggedHouse, so_far: LogSoFar, coming: RiggedHouse | None = None) -> Rehearsed:
    """A log as far as it could be read: the first line that could not is refused, and the state before it is kept."""
    found = rehearse(house, so_far.log, coming)
    if not so_far.problems:
        return found
    if found.refusal is not None:  # before that line
        return replace(found, of=so_far.of, problems=so_far.problems)
    first = so_far.problems[0]
    says = " ".join(filter(None, [f"{first.path}:" if first.path else "", f'"{first.value}"' if first.value else "",
                                  first.says]))  # fmt: skip
    return replace(found, of=so_far.of, problems=so_far.problems, line=so_far.line,
                   refusal=refused(says, first.mend, "READ"))  # fmt: skip


def _begin(house: RiggedHouse, log: Log) -> Standing:
    if log.begins == "empty":
        return Standing(state=start(house))
    call = strike_call(house, Wanted(budget=1))
    return Standing(state=call.begin)  # what cannot be planned is blocked there until it is counted


def _next(at: At) -> Standing | Refusal:
    own = OWN.get(at.done.did)
    if own is not None:
        return own(at)
    act = next((one for one in Act if one.value == at.done.did), None)
    if act is None:
        known = [*(one.value for one in Act), *OWN]
        near = difflib.get_close_matches(at.done.did, known, n=1)
        return refused(f'"{at.done.did}" is nothing that is known.',
                       f"Did you mean {near[0]}?" if near else f"Write one of {', '.join(known)}.")  # fmt: skip
    if act is Act.COUNT and not at.done.label and (at.done.bridge or at.done.brick):
        return count_loose(at)
    step = _step(at, act)
    return step if isinstance(step, Refusal) else _judged(at, step)


def _step(at: At, act: Act) -> Step | Refusal:
    done = at.done
    if not done.label:
        also = " Of loose bricks, write bridge: and where they lie." if act is Act.COUNT else ""
        return refused(f"{done.did}: no set is named.", f"Write which set.{also}")
    if act in (Act.HANG, Act.STRIKE) and not done.piece:
        return refused(f"{done.did}: no piece is named.", "Write which piece.")
    counts = [number(done.bricks), number(done.small)]
    if act in (Act.BRICKS_ON, Act.BRICKS_OFF, Act.COUNT) and (None in counts or done.bricks is done.small is None):
        return refused(f"{done.did}: how many is not written.", "Write bricks: and the count.")
    if act is Act.MOVE and (done.height is None or done.height.best is None):
        return refused("move: to which height is not written.", "Write height: and where the batten is now.")
    if act in (Act.RIG, Act.CLEAR) and not done.hold:
        return refused(f"{done.did}: no hold is named.", "Write hold: and which one of the house.")
    height = done.height.best if done.height is not None and done.height.best is not None else 0.0
    return Step(act=act, set=done.label, piece=done.piece, bricks=counts[0] or 0, small=counts[1] or 0,
                bridge=bridge_of(at), height=height,
                hold=done.hold)  # fmt: skip


def _judged(at: At, step: Step) -> Standing | Refusal:
    label = step.set
    refusal = shut(at.house, at.now, label, step.act, at.coming) or _more_than_there_are(at, step)
    if refusal is not None:
        return refusal
    turned = at.now.turned | ({label} if _turns(at, step) else frozenset())
    house = at.coming if at.coming is not None and label in turned else at.house
    others = () if at.coming is None else (at.house, at.coming)
    after = judge(house, at.now.state, step, others)
    if isinstance(after, Refusal):
        return after
    left = at.now.left_off
    if step.act is Act.COUNT and label in left and not after.sets[label].blocked:
        left = {**left, label: replace(left[label], is_to_be_counted=False)}
    now = replace(at.now, state=after, left_off=left, turned=turned)
    rigged = house.set_called(label)
    return now if step.act is not Act.COUNT or rigged is None else _found(at.now, now, rigged)


def _turns(at: At, step: Step) -> bool:
    """True where a set that is empty and in pipe weight is given a piece of what comes."""
    on, rigged = at.now.state.sets.get(step.set), at.coming.set_called(step.set) if at.coming is not None else None
    if step.act is not Act.HANG or on is None or rigged is None or on.hung or on.stack != pipe_weight(rigged):
        return False
    return step.piece in (one.name for one in rigged.pieces)


# --- counts ------------------------------------------------------------------------------------------------------


def _more_than_there_are(at: At, step: Step) -> Refusal | None:
    """Refuse a count of more bricks on one arbor than the whole house has; what the arbor holds the replay judges."""
    rigged, on = at.set_called(step.set), at.now.state.sets.get(step.set)
    if step.act is not Act.COUNT or rigged is None or on is None or Stack(step.bricks, step.small) == on.stack:
        return None
    for kind, count in _kinds(rigged, step.bricks, step.small):
        most = in_all(at, kind)
        if most is not None and count > most:
            return refused(f"{bricks(count, kind)} counted on set {step.set}; the house has {most} in all.",
                           "Count again; or write what was brought: bring, bricks: and bridge:.", "COUNT")  # fmt: skip
    return None


def _kinds(rigged: RiggedSet, large: int, small: int) -> list[tuple[str, int]]:
    """How many of which kind that is, on all arbors abreast."""
    kinds = [(rigged.brick.name, large * rigged.abreast)]
    return [*kinds, (rigged.small.name, small * rigged.abreast)] if rigged.small is not None else kinds


def _found(before: Standing, now: Standing, rigged: RiggedSet) -> Standing:
    """What a count that is believed found beyond what the log moved, kept until all is accounted for."""
    was, on = before.state.sets[rigged.label], now.state.sets[rigged.label]
    if was.stack == on.stack:
        return now
    found = dict(now.found.get(rigged.label, {}))
    for kind, count in _kinds(rigged, *_more(was, on)):
        found[kind] = found.get(kind, 0) + count
    return replace(now, found={**now.found, rigged.label: {kind: count for kind, count in found.items() if count}},
                   counted=now.counted | {rigged.label})  # fmt: skip


def _more(was: SetState, on: SetState) -> tuple[int, int]:
    return on.bricks - was.bricks, on.small - was.small
