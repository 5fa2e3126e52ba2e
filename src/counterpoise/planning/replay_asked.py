"""What every rule of the replay looks at: what is asked, hands on a set, and whether it stands or may be set free."""

from __future__ import annotations

from dataclasses import dataclass

from counterpoise.planning import tell
from counterpoise.planning.holds import Pull, Standing, pulls_over, standing, within_lock
from counterpoise.planning.rated import covers
from counterpoise.planning.state import Act, Refusal, SetState, State, Step
from counterpoise.rigging import RiggedHouse, RiggedSet


@dataclass(frozen=True, slots=True)
class Asked:
    """A step, the set it is asked of, and how all stands before it."""

    house: RiggedHouse
    state: State
    step: Step
    rigged: RiggedSet
    on: SetState
    others: tuple[RiggedHouse, ...]


def refusal(code: str, step: Step, says: str, mend: str) -> Refusal:
    """A step that is not allowed: why, and what to do instead."""
    return Refusal(code=code, says=says, mend=mend, step=step)


def hands_busy(step: Step, on: SetState) -> Refusal | None:
    """Refuse weight that moves before lock and second hold are on."""
    if on.locked and on.held:
        return None
    says = "No weight moves before the lock and a second hold are on."
    return refusal("ORDER", step, says, "Lock on, second hold on, clear below.")


def what_is_over(house: RiggedHouse, rigged: RiggedSet, on: SetState) -> str:
    """What a locked set comes to that neither lock, stop nor a rated hold on it holds: "is arbor-heavy 525 lb; ..."."""
    now = standing(house, rigged, on.stack, on.height, on.pieces(rigged))
    if now.over == 0 or covers(house, rigged, on.rated, now.pull, moves=False):
        return ""
    if now.is_unknown:
        return f"presses {tell.force(house, now.force)} into its {now.by}: rating unknown"
    if now.by != "lock":
        return f"is {tell.heavy(house, now.pull)}: more than its {now.by} is rated for"
    return f"is {tell.heavy(house, now.pull)}; the lock may hold {tell.lock(house, rigged, now.pull)}"


def set_free(house: RiggedHouse, step: Step, rigged: RiggedSet, on: SetState, end: float) -> Refusal | None:
    """Judged as if no stop existed: the first inch puts all of it on lock and hands."""
    pulls = pulls_over(rigged, on.stack, on.height, end, on.pieces(rigged))
    beyond = [one for one in pulls if not within_lock(house, rigged, one)
              and not covers(house, rigged, on.rated, one, moves=True)]  # fmt: skip
    if not beyond:
        return None
    worst = max(beyond, key=lambda one: one.worst)
    says = f"Set {step.set} would be {tell.heavy(house, worst)} at {tell.height(house, worst.height)}; "
    says += f"the lock may hold {tell.lock(house, rigged, worst)}."
    return refusal("HOLD", step, says, _balance_first(on, rigged, worst.arbor > worst.batten))


def _balance_first(on: SetState, rigged: RiggedSet, is_arbor_heavy: bool) -> str:
    if not is_arbor_heavy:
        return "Keep the lock on. Add bricks, or take load off the batten."
    if len(on.hung) < len(rigged.pieces):
        return "Keep the lock on. Put load back on the batten first, or use a hold rated to haul it."
    return "Keep the lock on. Take bricks off where the bridge reaches them, or use a hold rated to haul it."


def stands_locked(
    house: RiggedHouse, step: Step, rigged: RiggedSet, before: SetState, after: SetState
) -> Refusal | None:
    """Refuse what would not stand locked, unless it stood worse before: then it is a step out of trouble."""
    now = standing(house, rigged, after.stack, after.height, after.pieces(rigged))
    was = standing(house, rigged, before.stack, before.height, before.pieces(rigged))
    if now.over == 0 or is_way_out(was, now) or covers(house, rigged, after.rated, now.pull, moves=False):
        return None
    where = f"at {tell.height(house, after.height)} with {after.stack.said} on"
    if now.is_unknown:
        says = f"{where} set {step.set} would press {tell.force(house, now.force)} into the {now.by}: rating unknown."
        mend = f"Find out the rating of the {now.by}, or list it as not checked here."
        return refusal("UNKNOWN-STOP", step, says[0].upper() + says[1:], mend)
    return _too_heavy(house, step, rigged, where, now)


def is_way_out(was: Standing, now: Standing) -> bool:
    """A step out of trouble: less too much than before, and not by making the other side the heavy one."""
    rounding = 1e-6  # [N]
    less = (now.over, now.force) < (was.over, was.force)
    heavier = now.pull.arbor > was.pull.arbor + rounding or now.pull.batten > was.pull.batten + rounding
    return less and (not heavier or _same_side(was.pull, now.pull))


def _same_side(was: Pull, now: Pull) -> bool:
    return (was.arbor >= was.batten) == (now.arbor >= now.batten)


def _too_heavy(house: RiggedHouse, step: Step, rigged: RiggedSet, where: str, now: Standing) -> Refusal:
    heavy = tell.heavy(house, now.pull)
    if now.by != "lock":
        says = f"Set {step.set}, {where}, would be {heavy}: more than its {now.by} is rated for."
        return refusal("STOP", step, says, f"Hang less, or have a {now.by} fitted that is rated for it.")
    says = f"Set {step.set}, {where}, would be {heavy}; the lock may hold {tell.lock(house, rigged, now.pull)}."
    if step.act is Act.STRIKE:
        return refusal("ARBOR-FIRST", step, says, "Arbor first, then batten: take the bricks off before the piece.")
    if step.act is Act.BRICKS_ON:
        return refusal("HOLD", step, says, "Stop before this brick. A second hold has no rating here.")
    return refusal("HOLD", step, says, "A second hold has no rating here. Split the load, or use a rated hold.")
