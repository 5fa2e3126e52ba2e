"""What stands in the way of a set while a log is followed: itself, another that is open, or one that is over."""

from __future__ import annotations

from collections.abc import Iterator

from counterpoise.planning.log_state import Standing, house_of, refused
from counterpoise.planning.replay import floor_is_over, what_is_over
from counterpoise.planning.state import Act, Refusal, SetState
from counterpoise.rigging import RiggedHouse

_STILL = (Act.COUNT, Act.LOCK_ON, Act.HOLD_ON)  # what makes a set stay as it is
# What opens a set or works it. Hands that close one, or hold it, are never in the way of another.
_WORK = (Act.HANG, Act.STRIKE, Act.COLLARS_UP, Act.BRICKS_ON, Act.BRICKS_OFF, Act.LOCK_OPEN, Act.MOVE)


def shut(house: RiggedHouse, standing: Standing, label: str, act: Act, coming: RiggedHouse | None) -> Refusal | None:
    """What stands in the way of a step; other sets are looked at only where it opens or works this one."""
    if act in _STILL:
        return None
    own = _own(standing, label)
    return own if own is not None or act not in _WORK else _of_others(house, standing, label, coming)


def stands_in_the_way(
    house: RiggedHouse, standing: Standing, label: str, coming: RiggedHouse | None = None
) -> Refusal | None:
    """Why a set may not be worked just now: it is locked out, left off, or another one is open or over."""
    label, house = house.label_of(label), house.as_one
    return _own(standing, label) or _of_others(house, standing, label, coming)


def _own(standing: Standing, label: str) -> Refusal | None:
    why, left = standing.locked_out.get(label), standing.left_off.get(label)
    if why is not None:
        return refused(f"Set {label} is locked out: {why}.", "It waits until it is released by name.", "OUT")
    if left is not None:
        mend = "Count its bricks. " if left.is_to_be_counted else ""
        return refused(f"Set {label} was left off at {left.n}: {left.why}.",
                       f"{mend}It waits until somebody closes it by name.", "LEFT-OFF")  # fmt: skip
    return None


def _of_others(house: RiggedHouse, standing: Standing, label: str, coming: RiggedHouse | None) -> Refusal | None:
    """A set that is itself over goes first: the replay allows only what makes it less."""
    over = dict(sets_over(house, standing, coming))
    if label in over:
        return None
    if over:
        other, says = next(iter(over.items()))
        return refused(says, f"Set {other} comes first: get it within, or on a rated hold.", "OVER")
    others = [name for name, on in standing.state.sets.items() if name != label and _is_open(standing, name, on)]
    if len(others) < max(1.0, house.rules["open sets"].value):
        return None
    said = f"Set{'s' if others[1:] else ''} {' and '.join(others)} {'are' if others[1:] else 'is'} still open."
    return refused(said, _close_first(standing, others[0]), "OPEN")


def _is_open(standing: Standing, label: str, on: SetState) -> bool:
    """Open, left off or not; one that is locked out by name with its collars down is parked."""
    return is_open(on) and not (label in standing.locked_out and on.collars_down)


def is_open(on: SetState) -> bool:
    """True for a set that is unlocked, held for work, or open at the arbor."""
    return on.held or not on.locked or not on.collars_down


def _close_first(standing: Standing, label: str) -> str:
    left = standing.left_off.get(label)
    if left is None:
        return f"Close set {label} first: collars down, hold off, lock on."
    count = "count its bricks, " if left.is_to_be_counted else ""
    return f"It was left off: {count}close it by name, then collars down, hold off, lock on."


def sets_over(house: RiggedHouse, standing: Standing, coming: RiggedHouse | None) -> Iterator[tuple[str, str]]:
    """The sets that stand beyond what holds them, by a count that no step was judged for; each with what is over."""
    for label in sorted(standing.counted):
        whose = house_of(house, coming, standing, label)
        rigged = whose.set_called(label)
        says = "" if rigged is None else what_is_over(whose, rigged, standing.state.sets[label])
        if says:
            yield label, f"Set {label} {says}."


def all_over(house: RiggedHouse, standing: Standing, coming: RiggedHouse | None) -> dict[str, str]:
    """What counts say is over: sets beyond what holds them, and floors beyond their posting."""
    floors = {name: f"{name} carries {over}." for name in sorted(standing.floors)
              if (over := floor_is_over(house, standing.state, name))}  # fmt: skip
    return {**dict(sets_over(house, standing, coming)), **floors}


def bricks_adrift(standing: Standing) -> Iterator[str]:
    """What all counts together leave open, in words: nothing says where those bricks lie, or came from."""
    for kind, count in standing.adrift.items():
        more, where = ("fewer", "they are") if count < 0 else ("more", "they came from")
        yield (f"By all counts {abs(count)} {kind} {more} than there were: where {where} is not known. Count what lies "
               "loose, and the other arbors.")  # fmt: skip
