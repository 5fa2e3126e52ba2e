"""Rules of lock, second hold, rated holds and of flying a batten."""

from __future__ import annotations

from dataclasses import replace

from counterpoise.planning import tell
from counterpoise.planning.fouling import fouled
from counterpoise.planning.holds import NEAR, Pull, pull, standing
from counterpoise.planning.rated import covers, hold_called
from counterpoise.planning.replay_asked import Asked, refusal, set_free, what_is_over
from counterpoise.planning.state import Refusal, State


def hold_on(at: Asked) -> State | Refusal:
    """A second hold goes on after the lock."""
    if not at.on.locked:
        return refusal("ORDER", at.step, "A second hold goes on after the lock.", "Lock on first.")
    return at.state.with_set(at.step.set, replace(at.on, held=True))


def hold_off(at: Asked) -> State | Refusal:
    """It comes off once collars are down and the set stands without it."""
    if not at.on.collars_down:
        return refusal("ORDER", at.step, "The collars are not down.", "Top plate and collars down first.")
    over = what_is_over(at.house, at.rigged, at.on)
    if over:
        mend = "Keep the second hold on, though nothing rates it. Get the set within the lock, or on a rated hold."
        return refusal("HOLD", at.step, f"Set {at.step.set} {over}.", mend)
    return at.state.with_set(at.step.set, replace(at.on, held=False))


def lock_on(at: Asked) -> State | Refusal:
    """It may always go on."""
    return at.state.with_set(at.step.set, replace(at.on, locked=True, felt=False))


def lock_open(at: Asked) -> State | Refusal:
    """It opens once collars are down, the hold is off, and the lock would hold the set as if there were no stop."""
    if not at.on.collars_down:
        return refusal("ORDER", at.step, "The collars are not down.", "Top plate and collars down before it moves.")
    if at.on.held:
        return refusal("ORDER", at.step, "The second hold is still on.", "Take it off, then open the lock.")
    free = set_free(at.house, at.step, at.rigged, at.on, at.on.height)
    return free or at.state.with_set(at.step.set, replace(at.on, locked=False, felt=False))


def feel(at: Asked) -> State | Refusal:
    """Whether it balances is felt once the lock is open."""
    return at.state.with_set(at.step.set, replace(at.on, felt=True))


def move(at: Asked) -> State | Refusal:
    """It moves once it is free and felt, within its travel, light enough all the way, and past its neighbours."""
    if at.on.locked or at.on.held or not at.on.collars_down:
        says = "It is locked, held or open at the arbor."
        return refusal("ORDER", at.step, says, "Collars down, hold off, lock open.")
    if not at.on.felt:
        return refusal("ORDER", at.step, "Nobody has felt the balance.", "Feel it before it moves.")
    if not at.rigged.low - NEAR <= at.step.height <= at.rigged.high + NEAR:
        says = f"{tell.height(at.house, at.step.height)} is outside its travel."
        mend = f"Stay from {tell.height(at.house, at.rigged.low)} to {tell.height(at.house, at.rigged.high)}."
        return refusal("TRAVEL", at.step, says, mend)
    free = set_free(at.house, at.step, at.rigged, at.on, at.step.height)
    free = free or fouled(at.house, at.others, at.state, at.step, at.rigged)
    return free or at.state.with_set(at.step.set, replace(at.on, height=at.step.height))


def rig(at: Asked) -> State | Refusal:
    """A rated hold goes on a locked set, as many as the house has."""
    hold = hold_called(at.house, at.step.hold)
    if hold is None:
        return refusal(
            "NO-HOLD", at.step, f'The house has no hold "{at.step.hold}".', "Name one that is written there."
        )
    if not at.on.locked:
        return refusal("ORDER", at.step, "A rated hold takes the strain before the lock is opened.", "Lock on first.")
    used = sum(at.step.hold in one.rated for one in at.state.sets.values())
    if hold.count is not None and hold.count.best is not None and used >= hold.count.best:
        return refusal("NO-HOLD", at.step, f"Every {at.step.hold} is in use.", "Close the other set first.")
    return at.state.with_set(at.step.set, replace(at.on, rated=(*at.on.rated, at.step.hold)))


def clear(at: Asked) -> State | Refusal:
    """It comes off a locked set that stands without it."""
    if at.step.hold not in at.on.rated:
        return refusal("NO-HOLD", at.step, f"{at.step.hold} is not on set {at.step.set}.", "Name one that is on it.")
    if not at.on.locked:
        return refusal("ORDER", at.step, "The lock is open.", "Lock on before the hold comes off.")
    after = replace(at.on, rated=tuple(name for name in at.on.rated if name != at.step.hold))
    if covers(at.house, at.rigged, after.rated, _felt_now(at), moves=False):
        return at.state.with_set(at.step.set, after)
    now = standing(at.house, at.rigged, at.on.stack, at.on.height, at.on.pieces(at.rigged))
    if now.over > 0:
        says = f"Set {at.step.set} is {tell.heavy(at.house, now.pull)}; only {at.step.hold} holds it."
        return refusal("HOLD", at.step, says, "Balance it first, then take the hold off.")
    return at.state.with_set(at.step.set, after)


def _felt_now(at: Asked) -> Pull:
    return pull(at.rigged, at.on.stack, at.on.height, at.on.pieces(at.rigged))
