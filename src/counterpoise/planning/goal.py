"""What is wanted of a set, from wherever it stands: loaded as the hang says, empty, or another count."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Literal

from counterpoise.balance import Stack, best_stack, pipe_weight
from counterpoise.planning.search import goal_height, hang_height, wanted_stack
from counterpoise.planning.state import SetState
from counterpoise.planning.windows import units_of
from counterpoise.rigging import RiggedSet

_MOST_ORDERS = 24  # of hanging or striking pieces: all of four


@dataclass(frozen=True, slots=True, kw_only=True)
class Goal:
    """`load-in`: all of the hang is on, at show trim. `strike`: empty, in pipe weight, at low trim.

    `re-weigh`: what hangs stays, the batten ends where it was, and the arbor carries `stack`; None asks for the one
    that balances what hangs now.
    """

    what: Literal["load-in", "strike", "re-weigh"]
    stack: Stack | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """A goal for one set as it stands.

    `todo` names what is hung, or struck, in its order, and `at` the batten height for each [m]; `stack` is what is to
    be on the arbor, `is_exact` that no other count will do; `height` is where the batten ends [m].
    """

    is_strike: bool
    todo: tuple[str, ...]
    at: tuple[float, ...]
    stack: Stack
    is_exact: bool
    height: float


def at_low_trim(rigged: RiggedSet, target: Target) -> Target:
    """The same strike with every piece taken off at low trim, also one that is taller and would stand on the deck."""
    return replace(target, at=tuple(rigged.low for _ in target.at))


def orders_of(target: Target) -> Iterator[Target]:
    """The same with its pieces in every order, at most 24 of them; as they stand on the deck, low ones hung first."""
    pairs = list(zip(target.todo, target.at, strict=True))
    for order in itertools.islice(itertools.permutations(pairs), _MOST_ORDERS):
        at = tuple(height for _, height in order)
        if list(at) == sorted(at, reverse=target.is_strike):
            yield replace(target, todo=tuple(name for name, _ in order), at=at)


def target_of(rigged: RiggedSet, on: SetState, goal: Goal) -> Target:
    """What is left to do on a set that stands like this, until the goal is reached."""
    tied = {one.name: hang_height(rigged, one) for one in rigged.pieces}
    order = sorted(tied, key=lambda name: tied[name])
    if goal.what == "load-in":
        todo = tuple(name for piece in order for name in _left(rigged, on, piece))
        stack, height = wanted_stack(rigged), max([goal_height(rigged), *tied.values()])
        return Target(is_strike=False, todo=todo, at=tuple(_tied(rigged, tied, name) for name in todo), stack=stack,
                      is_exact=rigged.stated_bricks is not None, height=height)  # fmt: skip
    if goal.what == "strike":
        todo = tuple(name for piece in reversed(order) for name in _hung(rigged, on, piece))
        return Target(is_strike=True, todo=todo, at=tuple(_tied(rigged, tied, name) for name in todo),
                      stack=pipe_weight(rigged), is_exact=True, height=rigged.low)  # fmt: skip
    stack = goal.stack or best_stack(replace(rigged, pieces=on.pieces(rigged)))
    return Target(is_strike=False, todo=(), at=(), stack=stack, is_exact=goal.stack is not None, height=on.height)


def light_by_light(rigged: RiggedSet, target: Target) -> Target:
    """The same with every piece that has lights taken light by light: hung rest first, struck rest last."""
    pairs: list[tuple[str, float]] = []
    for name, at in zip(target.todo, target.at, strict=True):
        piece = next((one for one in rigged.pieces if one.name == name and one.lights), None)
        units = [name] if piece is None else list(piece.units)
        pairs += [(unit, at) for unit in (reversed(units) if target.is_strike else units)]
    return replace(target, todo=tuple(name for name, _ in pairs), at=tuple(at for _, at in pairs))


def _left(rigged: RiggedSet, on: SetState, name: str) -> tuple[str, ...]:
    """What of a piece is still to be hung: all of it, or the lights that are not on."""
    piece = next(one for one in rigged.pieces if one.name == name)
    units = units_of(on.hung, piece)
    if name in on.hung:
        return ()
    return tuple(unit for unit in piece.units if unit not in units) if units else (name,)


def _hung(rigged: RiggedSet, on: SetState, name: str) -> tuple[str, ...]:
    """What of a piece is to be struck: all of it, or the lights that are on, the last hung first."""
    piece = next(one for one in rigged.pieces if one.name == name)
    return (name,) if name in on.hung else tuple(reversed(units_of(on.hung, piece)))


def _tied(rigged: RiggedSet, tied: Mapping[str, float], name: str) -> float:
    if name in tied:
        return tied[name]
    return next(tied[one.name] for one in rigged.pieces if one.lights and name in one.units)
