"""What a piece on the deck holds only while its ties are taut, or while it stands upright, told beside a plan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from counterpoise.balance import out_of_balance
from counterpoise.planning import tell
from counterpoise.planning.holds import NEAR, Pull, stands_on_deck, within_lock
from counterpoise.planning.state import Act, SetState, State, Step
from counterpoise.rigging import RiggedHouse, RiggedPiece, RiggedSet

_LOWER = 0.0254  # [m]: an inch, which nobody sees from the rail


def slack_notes(house: RiggedHouse, rigged: RiggedSet, steps: Sequence[Step], states: Sequence[State]) -> Iterator[str]:
    """For each piece that stands while bricks go on: how heavy the arbor would be were it not held by its ties.

    Args:
        house: with its rules.
        rigged: the set.
        steps: of a plan that the replay allows.
        states: before the first and after each.
    """
    worst: dict[str, float] = {}
    for step, after in zip(steps, states[1:], strict=False):
        if step.act is not Act.BRICKS_ON:
            continue
        on = after.sets[rigged.label]
        for says, heavy in _were_it_slack(rigged, on):
            if not within_lock(house, rigged, Pull(heavy, 0.0, on.height)):
                worst[says] = max(heavy, worst.get(says, 0.0))
    for says, heavy in worst.items():
        yield f"{says} it would be arbor-heavy {tell.force(house, heavy)}, not held by the lock."


def _were_it_slack(rigged: RiggedSet, on: SetState) -> Iterator[tuple[str, float]]:
    hung = on.pieces(rigged)
    standing = [one for one in hung if stands_on_deck(one, rigged, on.height)]
    if standing:
        aloft = tuple(one for one in hung if one not in standing)
        slack = out_of_balance(rigged, on.stack, on.height, aloft).high
        yield f"Ties taut before each brick: with the ties of {_names(standing)} slack", slack
    upright = [one for one in hung if _is_just_upright(one, on.height)]
    if upright:
        leaning = out_of_balance(rigged, on.stack, on.height - _LOWER, hung).high
        yield f"Upright before each brick: with {_names(upright)} an inch lower, leaning on the deck,", leaning


def _is_just_upright(piece: RiggedPiece, height: float) -> bool:
    """True of what was tipped up from its foot and is only just off the deck."""
    return any(part.tipped is not None and 0.0 <= height - part.clear + NEAR <= _LOWER for part in piece.parts)


def _names(pieces: Sequence[RiggedPiece]) -> str:
    return " and ".join(one.name for one in pieces)
