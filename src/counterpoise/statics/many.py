"""The second kernel: one batten in a great many cases, or a great many battens, with numpy.

The contract is that of `hang`: the same pulls and the same slack lines to rounding, proven on the way out. Choices of
carrying lines are guessed for all cases at once and kept where pulls and gaps bear them out, which only one choice
does; the few cases where guessing goes round in circles are given to `hang`, one by one.

Not imported with `counterpoise.statics`, since numpy takes longer to load than most battens to compute.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from counterpoise.errors import within
from counterpoise.statics.hanging import Tips
from counterpoise.statics.many_battens import Battens, battens, spans_of_battens
from counterpoise.statics.many_cases import ROUNDS, TRIFLE, Cases, beside, next_choice, settle_alone
from counterpoise.statics.many_equations import STIFF, Array, Equations, Many, Mask, equations, spans_of
from counterpoise.statics.many_moments import largest_moments, moments_at_lines
from counterpoise.statics.model import Beam, Line, Load, check_lines, check_loads, check_weight
from counterpoise.statics.proof import PROOF

__all__ = ["Battens", "Many", "battens", "hang_battens", "hang_many", "largest_moments", "moments_at_lines"]


def hang_many(beam: Beam, lines: Sequence[Line], loads: Sequence[Load], offsets: NDArray[np.float64]) -> Many | Tips:
    """How one batten hangs under its loads in many cases of trim error.

    Args:
        beam, lines, loads: as for hang.
        offsets: how much lower each line hangs than the line itself says, positive is longer [cases, lines] [m],
            within 1000 m either way.

    Returns:
        Many, or Tips where the centre of gravity lies outside the outer lines (then in every case).

    Raises:
        OutOfRange: as hang, or offsets of another shape, or out of range, or no numbers.
        Unproven: a case did not stand its proof: equilibrium, no push, no stretched slack line, no kink over a line,
            each within 1e-9 of the load or of the deflection.

    Assumes what hang assumes.
    Source: docs/theory/batten.md, "Many at once".
    """
    check_lines(beam, lines)
    check_loads(beam, loads)
    spans = spans_of(beam, lines, loads)
    check_weight(float(spans.weight))
    cases = _cases(offsets, len(lines))
    system = equations(spans)
    slip = TRIFLE
    if not system.places[0] - slip <= system.centre <= system.places[-1] + slip:
        first, last = float(spans.places[0]), float(spans.places[-1])
        return Tips(centre=float(spans.first / spans.weight), first=first, last=last)
    return Cases(beam, lines, loads, system, cases).solve()


def _cases(offsets: NDArray[np.float64], count: int) -> Array:
    cases = np.asarray(offsets, dtype=np.float64)
    mend = "Give one row for each case and one column for each line."
    within("number of axes of the offsets", cases.ndim, low=2, high=2, mend=mend)
    within("columns of the offsets", cases.shape[1], low=count, high=count, mend=mend)
    return cases


def hang_battens(many: Battens) -> Many:
    """How each of many battens hangs; the same answers as hang, row by row.

    Args:
        many: what `battens` made of them.

    Returns:
        Many; a batten whose centre of gravity lies outside its outer lines is marked in `tips` and has no numbers.

    Raises:
        OutOfRange: as hang. Unproven: as hang_many.
    """
    system = equations(spans_of_battens(many))
    low, high = system.places[:, 0] - TRIFLE, system.places[:, -1] + TRIFLE
    tips = ~((low <= system.centre) & (system.centre <= high))
    carrying = np.ones(system.places.shape, dtype=bool)
    signed = system.all_carrying()
    wrong = np.flatnonzero((signed.min(axis=1) < -TRIFLE) & ~tips)
    for turn in range(ROUNDS):
        if not len(wrong):
            break
        guess = next_choice(signed[wrong].T, carrying[wrong].T, careful=2 * turn >= ROUNDS).T
        poor = guess.sum(axis=1) < 2
        if poor.any():
            guess[poor] = beside(system.places[wrong[poor]], system.centre[wrong[poor]])
        some = system.some(wrong)
        found = some.solved(guess)
        signed[wrong], carrying[wrong] = found, guess
        wrong = wrong[(np.where(guess, found, -found) < -TRIFLE).any(axis=1)]
    pulls, gaps = np.where(carrying, signed, 0.0), np.where(carrying, 0.0, signed / -STIFF)
    stands = _stand(system, pulls, gaps)
    stands[wrong] = False
    wrong = np.flatnonzero(~stands & ~tips)
    tensions, gaps = np.maximum(pulls, 0.0) * system.weight[:, None], np.maximum(gaps, 0.0) * system.drop[:, None]
    for i in wrong:
        settle_alone(many.given[i], tensions[i], gaps[i], carrying[i])
    tensions[tips], carrying[tips] = np.nan, False
    slack = np.flatnonzero(~carrying.all(axis=1) & ~tips)
    return Many(tensions=tensions, carrying=carrying, tips=tips, slack=slack, slack_gaps=gaps[slack], alone=len(wrong))


def _stand(system: Equations, pulls: Array, gaps: Array) -> Mask:
    """Which battens are in balance and without a kink over any line."""
    weight, moment, kinks = (np.abs(miss) for miss in system.missed(pulls, gaps))
    tall = np.maximum(1.0e-3, np.abs(system.offsets).max(axis=1))
    held = (weight <= PROOF) & (moment <= PROOF)  # a miss that is no number fails as well
    return np.asarray(held & (kinks <= PROOF * tall[:, None]).all(axis=1))
