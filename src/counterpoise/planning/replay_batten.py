"""Rules of what is hung and struck: where, in which order, and whether the set stands with it."""

from __future__ import annotations

from dataclasses import replace

from counterpoise.checks.zone_rows import zone_rows
from counterpoise.loadpath import Tipping, forces_of
from counterpoise.planning import tell
from counterpoise.planning.holds import NEAR, standing, stands_on_deck
from counterpoise.planning.replay_asked import Asked, hands_busy, refusal, stands_locked
from counterpoise.planning.state import Act, Refusal, SetState, State, Step
from counterpoise.planning.windows import Join, hung_with, hung_without, joins_of, units_of
from counterpoise.rigging import RiggedHouse, RiggedPiece, RiggedSet


def hang(at: Asked) -> State | Refusal:
    """A piece that the hang puts there, within reach of the deck, on a set that stands with it."""
    piece, join = _named(at)
    if piece is None or _hangs(at, piece):
        says = f"{at.step.piece} is {'already' if piece else 'not planned'} on set {at.step.set}."
        return refusal("ORDER", at.step, says, "Name a piece that the hang puts there.")
    after = replace(at.on, hung=hung_with(at.rigged, at.on.hung, (at.step.piece,)))
    refused = hands_busy(at.step, at.on) or stands_locked(at.house, at.step, at.rigged, at.on, after)
    refused = refused or _tips(at.step, at.rigged, after) or _in_the_curtain(at, piece)
    # a load put back on a batten that is too light for its arbor is the way out of trouble, wherever that batten is
    in_trouble = standing(at.house, at.rigged, at.on.stack, at.on.height, at.on.pieces(at.rigged)).over > 0
    if refused is None and not in_trouble:
        refused = _not_its_place(at, piece, join)
    return refused or at.state.with_set(at.step.set, after)


def _in_the_curtain(at: Asked, piece: RiggedPiece) -> Refusal | None:
    """Refuse a piece that hangs in the path of the fire curtain for certain; where it may, the check is not within."""
    row = next(zone_rows(at.house, replace(at.rigged, pieces=(piece,))), None)
    if row is None or row.lacks or row.value.best <= 0.0:
        return None
    says = f"{piece.name} would hang {tell.height(at.house, row.value.best)} into the path of the fire curtain."
    return refusal("CURTAIN", at.step, says, "Hang it on a set that is clear of it.")


def strike(at: Asked) -> State | Refusal:
    """A piece that hangs there, within reach of the deck, off a set that stands without it."""
    piece, join = _named(at)
    if piece is None or not _hangs(at, piece):
        says = f"{at.step.piece} is not on set {at.step.set}."
        return refusal("ORDER", at.step, says, "Name a piece that hangs there.")
    gone = (at.step.piece, *(units_of(at.on.hung, piece) if at.step.piece == piece.name else ()))
    after = replace(at.on, hung=hung_without(at.rigged, at.on.hung, gone))
    refused = hands_busy(at.step, at.on) or stands_locked(at.house, at.step, at.rigged, at.on, after)
    refused = refused or _tips(at.step, at.rigged, after)
    refused = refused or _not_its_place(at, piece, join)
    return refused or at.state.with_set(at.step.set, after)


def _named(at: Asked) -> tuple[RiggedPiece | None, Join | None]:
    """The piece a step names, or the section and the piece that it is of."""
    join = next((one for one in joins_of(at.rigged) if one.name == at.step.piece), None)
    name = join.piece if join else at.step.piece
    return next((one for one in at.rigged.pieces if one.name == name or (one.lights and name in one.units)), None), join


def _hangs(at: Asked, piece: RiggedPiece) -> bool:
    """True where it, or any light of it, hangs; of one light, where that one does."""
    units = units_of(at.on.hung, piece)
    return at.step.piece in at.on.hung or at.step.piece in units or (at.step.piece == piece.name and bool(units))


def _not_its_place(at: Asked, piece: RiggedPiece, join: Join | None) -> Refusal | None:
    """A section is bolted on and off at its own height, under those above it; a piece within reach of the deck."""
    if join is None:
        below = [one.name for one in joins_of(at.rigged) if one.piece == piece.name and one.name in at.on.hung]
        if at.step.act is Act.STRIKE and below:
            return refusal("ORDER", at.step, f"{below[-1]} is still on.", "Take it off first, at its own height.")
        return _out_of_deck_reach(at.house, at.step, at.rigged, at.on, piece)
    above = [one.name for one in joins_of(at.rigged) if one.piece == piece.name and one.number < join.number]
    later = [one.name for one in joins_of(at.rigged) if one.piece == piece.name and one.number > join.number]
    lacks = [name for name in (piece.name, *above) if name not in at.on.hung]
    below = [name for name in later if name in at.on.hung]
    if lacks or below:
        says = f"{join.name} hangs under {lacks[0]}." if lacks else f"{below[0]} hangs under {join.name}."
        return refusal("ORDER", at.step, says, "From the top down on the way out, from the foot up on the way in.")
    if abs(at.on.height - join.height) > NEAR:
        says = f"The batten is at {tell.height(at.house, at.on.height)}; {join.name} is bolted on elsewhere."
        return refusal("DECK-REACH", at.step, says, f"Bring it to {tell.height(at.house, join.height)} first.")
    return None


def _out_of_deck_reach(
    house: RiggedHouse, step: Step, rigged: RiggedSet, on: SetState, piece: RiggedPiece
) -> Refusal | None:
    """Pieces are hung and struck at low trim, or where the piece stands on the deck. Common practice, no source."""
    if abs(on.height - rigged.low) <= NEAR or stands_on_deck(piece, rigged, on.height):
        return None
    says = f"The batten is at {tell.height(house, on.height)}, out of reach of the deck."
    return refusal("DECK-REACH", step, says, f"Bring it to {tell.height(house, rigged.low)} first.")


def _tips(step: Step, rigged: RiggedSet, after: SetState) -> Refusal | None:
    """Refuse a batten that would tip over its outer lines, with the other pieces not yet on or off already."""
    # where the load's middle is has nothing to do with how lines lean: hung plumb it is found sooner
    found = forces_of(replace(rigged, pieces=after.pieces(rigged), runs=()))
    if not isinstance(found, Tipping):
        return None
    says = f"Set {step.set}'s batten {'would' if found.is_certain else 'may'} tip over its outer line at this moment."
    return refusal("TIPS", step, says, "Hang the pieces between the outer lines first, and strike them last; or hold "
                    "the batten level with a rated hold at each end.")  # fmt: skip
