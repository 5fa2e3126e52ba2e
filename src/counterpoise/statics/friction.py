"""What sheaves do to the share of a line: friction leaves it uncertain, a seized sheave makes its rope shorter.

Numbers for `loss` are the house's: blocks differ by their bearings and their age. Published: 1 less an efficiency of
0.962 for a sheave on roller bearings and of 0.917 on a plain bearing (Pipeline Rules of Thumb Handbook, p. 6).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from counterpoise.errors import within
from counterpoise.statics.doubts import Doubt
from counterpoise.statics.model import Line

_MEND_LOSS = "Share of the pull lost at one sheave: 0.02 to 0.1 is common."


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A pull known only to lie between two."""

    low: float  # [N]
    high: float  # [N]


def pull_beyond(tension: float, loss: float, turns: int) -> Band:
    """Pull beyond a number of sheaves that may be about to turn either way: T (1 - f)^k to T / (1 - f)^k.

    For a small loss that is T give or take k f T. It is also the widest a trim that was made against friction can
    leave the share of a line uncertain.

    Args:
        tension: T, pull on this side [N], 0 or more.
        loss: f, share of the pull lost at one sheave, 0 to 0.5.
        turns: k, sheaves passed, 0 to 20.

    Raises:
        OutOfRange: an argument lies outside its range.

    Source: each sheave passes on (1 - f) of the pull; docs/theory/ranges.md, Friction.
    """
    within("tension", tension, low=0.0, high=1.0e12, unit="N", mend="Give the pull, 0 or more.")
    kept = _kept(loss, turns)
    return Band(low=tension * kept, high=tension / kept)


def sticking(
    lines: Sequence[Line], tensions: Sequence[float], loss: float, turns: int, beyond: Sequence[float]
) -> tuple[Doubt, ...]:
    """Friction as a trim nobody made: how much longer or shorter each rope may be stuck than free sheaves leave it.

    The rope beyond the sheaves may hold any pull of `pull_beyond`, so its stretch differs by up to
    T (1/(1 - f)^k - 1) times that part's flexibility; the batten sees that as an offset.

    Args:
        lines: with the flexibility of the whole rope.
        tensions: the highest pull to allow for, of each line [N].
        loss, turns: as for pull_beyond.
        beyond: share of each rope that lies beyond the sheaves, 0 to 1.

    Returns:
        A doubt for each line that stretches and pulls.

    Raises:
        OutOfRange: an argument lies outside its range, or there is not one for each line.
    """
    count = float(len(lines))
    within("number of tensions", float(len(tensions)), low=count, high=count, mend="Give one for each line.")
    within("number of rope shares", float(len(beyond)), low=count, high=count, mend="Give one for each line.")
    most = 1.0 / _kept(loss, turns) - 1.0
    found = []
    for i, (line, tension, share) in enumerate(zip(lines, tensions, beyond, strict=True)):
        within("tension", tension, low=0.0, high=1.0e12, unit="N", mend="Give the pull, 0 or more.")
        within("share of the rope", share, low=0.0, high=1.0, mend="Length beyond the sheaves over the whole length.")
        give = most * tension * share * line.flexibility
        if give > 0.0:
            offsets = tuple(float(k == i) for k in range(len(lines)))
            found.append(Doubt(low=-give, high=give, offsets=offsets))
    return tuple(found)


def seized(line: Line, batten_side: float, whole: float) -> Line:
    """The same line when its loft-block sheave no longer turns: only the rope from batten to block stretches.

    Args:
        line: with the flexibility of the whole rope.
        batten_side: length from batten to block [m], above 0.
        whole: length of the whole rope [m], as long or longer.

    Returns:
        A stiffer line, at the offset it had. How long it was when it seized is not known: trims widen it.

    Raises:
        OutOfRange: a length lies outside its range.
    """
    within("rope from batten to block", batten_side, low=1.0e-3, high=1.0e6, unit="m", mend="Give its length.")
    within("whole rope", whole, low=batten_side, high=1.0e6, unit="m", mend="It holds the part up to the block.")
    return replace(line, flexibility=line.flexibility * batten_side / whole)


def _kept(loss: float, turns: int) -> float:
    within("loss at a sheave", loss, low=0.0, high=0.5, mend=_MEND_LOSS)
    within("sheaves passed", float(turns), low=0.0, high=20.0, mend="Count the sheaves the rope turns over.")
    kept: float = (1.0 - loss) ** turns
    return kept
