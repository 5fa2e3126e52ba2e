"""Whether the pipe weight, the arbor and the batten that are written can all be true."""

from __future__ import annotations

from dataclasses import dataclass

from counterpoise.balance import out_of_balance, pipe_weight, smallest_mass
from counterpoise.rigging import RiggedSet
from counterpoise.units import STANDARD_GRAVITY as GRAVITY, Style, mass

PIPE_WEIGHT = "PIPE-WEIGHT"  # the code of the finding


@dataclass(frozen=True, slots=True, kw_only=True)
class Mismatch:
    """What its pipe weight is off at the arbor [kg], above 0 where too much, and the large bricks that would balance.

    `bricks` is below 0 where even an empty arbor is too heavy.
    """

    off: float
    bricks: int


def mismatch_of(rigged: RiggedSet) -> Mismatch | None:
    """How far pipe weight is from balancing the empty batten; None where it is within what is known of its parts.

    Pipe weight is the count that balances the empty batten at mid-travel. Allowed for are what is in doubt of arbor,
    bricks and batten, half the smallest brick, as the count is whole, and what the lift lines shift over half the
    travel, as nobody wrote at which height it floats. An arbor that is weighed by its pipe weight can not mismatch.
    """
    if rigged.arbor_weighed:
        return None
    own, middle = pipe_weight(rigged), (rigged.low + rigged.high) / 2
    felt = out_of_balance(rigged, own, middle, ())
    off = rigged.purchase * felt.best / GRAVITY
    shift = (1 + rigged.purchase) * len(rigged.lines) * rigged.line_mass * (rigged.high - rigged.low) / 2
    doubt = rigged.purchase * (felt.high - felt.low) / 2 / GRAVITY + smallest_mass(rigged) / 2 + shift
    if abs(off) <= doubt:
        return None
    return Mismatch(off=off, bricks=own.bricks - round(off / rigged.brick.mass))


def mismatch_said(rigged: RiggedSet, found: Mismatch, style: Style) -> str:
    """What does not match, as a sentence."""
    own = pipe_weight(rigged)
    much = f"{mass(abs(found.off), style)} too {'many' if found.off > 0 else 'few'}"
    arbor = (
        f"on an arbor of {mass(rigged.arbor_mass, style)} against a bare batten of {mass(rigged.bare_mass[1], style)}"
    )
    if found.bricks < 0:
        end = "even an empty arbor would be too heavy"
    else:
        end = f"{found.bricks} would balance it"
    twice = ", at two to one," if rigged.purchase == 2 else ""
    count = f"{own.said} brick{'' if own.count == 1 else 's'}"
    return f"pipe weight, arbor and batten do not match: {count} {arbor}{twice} are {much}; {end}."
