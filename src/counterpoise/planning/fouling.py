"""Whether a move runs into what hangs on another set."""

from __future__ import annotations

from collections.abc import Sequence

from counterpoise.planning import tell
from counterpoise.planning.space import Space, taken_up
from counterpoise.planning.state import Refusal, State, Step
from counterpoise.planning.windows import hung_pieces
from counterpoise.rigging import RiggedHouse, RiggedPiece, RiggedSet


def fouled(
    house: RiggedHouse, others: Sequence[RiggedHouse], state: State, step: Step, rigged: RiggedSet
) -> Refusal | None:
    """Refuse a move through what hangs on another set; where a thickness or a distance is unknown, nothing is told."""
    on = state.sets[step.set]
    low, high = sorted((on.height, step.height))
    swept = tuple(taken_up(rigged, on.pieces(rigged), low, high))
    if not swept:
        return None
    for label, beside in state.sets.items():
        if label == step.set or not beside.hung:
            continue
        found, pieces = _hung_there((house, *others), label, beside.hung)
        if found is None:
            continue
        for piece in pieces:
            if _fouls(swept, tuple(taken_up(found, (piece,), beside.height, beside.height))):
                says = (
                    f"Set {step.set} would run into {piece.name} on set {label} at {tell.height(house, beside.height)}"
                )
                mend = f"Move set {label} clear first, or let somebody see them past each other and write it down."
                return Refusal(code="FOULS", says=f"{says}, by the thickness written.", mend=mend, step=step)
    return None


def _hung_there(
    houses: Sequence[RiggedHouse], label: str, hung: Sequence[str]
) -> tuple[RiggedSet | None, tuple[RiggedPiece, ...]]:
    """The set with the pieces that hang on it, by the hang that puts them there."""
    for house in houses:
        found = house.set_called(label)
        pieces = hung_pieces(found, hung) if found is not None else ()
        if pieces:
            return found, pieces
    return None, ()


def _fouls(swept: Sequence[Space], there: Sequence[Space]) -> bool:
    return any(one.fouls(other) for one in swept for other in there)
