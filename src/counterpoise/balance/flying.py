"""The heights at which a set flies, and between which its out of balance runs straight."""

from __future__ import annotations

from counterpoise.rigging import RiggedBatten

LANDED = 1e-6  # [m]; this far below where it hangs free a piece stands on the deck


def flying_heights(rigged: RiggedBatten) -> tuple[float, ...]:
    """The batten heights at which the set is judged in balance [m]: Δ runs straight between them.

    From where every piece hangs free of the deck, or the lowest trim where that is lower, to high trim; with each
    trim, each height at which a piece leaves the deck, and each at which a cable does. Just below such a height the
    piece may still stand.
    """
    free = rigged.clear
    trims = {end for one in rigged.pieces for at in one.hung.trims.values() for end in (at.low, at.high)
             if end is not None and rigged.low <= end <= rigged.high}  # fmt: skip
    bottom = min({free, *trims})
    leaves = {at for one in rigged.pieces for change in one.changes for at in (change, change - LANDED)}
    leaves |= {change for cable in rigged.cables for change in cable.changes}
    return tuple(sorted({free, rigged.high, *trims, *(at for at in leaves if bottom <= at <= rigged.high)}))
