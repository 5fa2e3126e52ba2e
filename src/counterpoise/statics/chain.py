"""The batten as a chain of spans between neighbouring lines, in closed form: the short way of `hang`.

It serves a batten of one stiffness. A choice of carrying lines is guessed, solved, and kept only if it stands its
proof: the answer is the only one there is, so how it was guessed does not matter. Where the guess fails the search of
`slack` decides. No cells are made here; moments and deflections are marched, and proven once more, when they are first
asked for.
"""

from collections.abc import Sequence

from counterpoise.statics.chain_spans import Chain, bend, solve
from counterpoise.statics.hanging import Hanging, Shape
from counterpoise.statics.model import CLOSEST, ROUNDING, Beam, Line, Load
from counterpoise.statics.proof import PROOF, kink_of_rounding

TRIFLE = 1.0e-12  # of the load, or of the deflection: below this a push or a stretch is rounding
GUESSES = 6  # choices of lines tried before the search is asked; most battens need one or two


def hang_plainly(beam: Beam, lines: Sequence[Line], loads: Sequence[Load]) -> Hanging | None:
    """The proven answer, or None where the search has to decide (and where anything is wrong or tips).

    Loads have been checked; lines that are not in order are left to the one who says so.
    """
    stiffness = _one_stiffness(beam, lines)
    if stiffness is None:
        return None
    chain = Chain(beam, lines, loads)
    weight = chain.weight
    if not 1.0e-9 <= weight <= 1.0e12 or not chain.places[0] <= chain.first / weight <= chain.places[-1]:
        return None
    flexes = [line.flexibility * stiffness for line in lines]
    offsets = [line.offset * stiffness for line in lines]
    carrying = tuple(range(len(lines)))
    tried: set[tuple[int, ...]] = set()
    while carrying not in tried and len(carrying) > 1 and len(tried) < GUESSES:
        tried.add(carrying)
        moments, pulls, levels = solve(chain, flexes, offsets, carrying)
        tall = max(*map(abs, levels), *map(abs, offsets), 1.0e-3 * weight * beam.length**3)
        gaps = [offset - level for offset, level in zip(offsets, levels, strict=True)]
        for i in carrying:
            gaps[i] = 0.0
        if min([pulls[i] for i in carrying]) >= -TRIFLE * weight and min(gaps) >= -TRIFLE * tall:
            if not _stands(chain, moments, pulls, levels, tall, carrying):
                return None
            tensions = [0.0] * len(lines)
            for i in carrying:
                tensions[i] = max(pulls[i], 0.0)
            return Hanging(
                tensions=tuple(tensions),
                gaps=tuple([max(gap / stiffness, 0.0) for gap in gaps]),
                carrying=carrying,
                weight=weight,
                centre=chain.first / weight,
                _shape=Shape(of=(beam, tuple(lines), tuple(loads), carrying)),
            )
        carrying = _guess(carrying, pulls, gaps, _beside(chain.places, chain.first / weight))
    return None


def _one_stiffness(beam: Beam, lines: Sequence[Line]) -> float | None:
    """EI between the outer lines [N m2]; None where it changes, or where the lines need to be refused."""
    if len(lines) < 2 or lines[0].x < -ROUNDING or lines[-1].x > beam.length + ROUNDING:
        return None
    for j in range(1, len(lines)):
        if not lines[j].x - lines[j - 1].x >= CLOSEST:
            return None
    found = beam.segments[0].stiffness
    if any(segment.stiffness != found for segment in beam.segments):
        return None
    return found


def _beside(places: Sequence[float], centre: float) -> tuple[int, int]:
    """The neighbouring lines that hold the centre of gravity between them: both pull if they carry alone."""
    after = 1
    while after < len(places) - 1 and places[after] < centre:
        after += 1
    return after - 1, after


def _guess(
    carrying: tuple[int, ...], pulls: Sequence[float], gaps: Sequence[float], beside: tuple[int, int]
) -> tuple[int, ...]:
    """Without the lines that push; where none does, with the one that is stretched most."""
    pulling = tuple([i for i in carrying if pulls[i] >= 0.0])
    if len(pulling) < len(carrying):
        return pulling if len(pulling) > 1 else beside
    return tuple(sorted([*carrying, min(range(len(gaps)), key=gaps.__getitem__)]))


def _stands(
    chain: Chain,
    moments: Sequence[float],
    pulls: Sequence[float],
    levels: Sequence[float],
    tall: float,
    carrying: Sequence[int],
) -> bool:
    """Whether the pulls are in equilibrium with the loads, slack lines have none, and the batten has no kink."""
    allowed = PROOF * chain.weight
    lever = -chain.first
    for i, pull in enumerate(pulls):
        lever += pull * chain.places[i]
        if i not in carrying and not abs(pull) <= allowed:
            return False
    reach = chain.places[-1] - chain.places[0]
    if not (abs(sum(pulls) - chain.weight) <= allowed and abs(lever) <= allowed * reach):
        return False
    steep, before = tall / reach, 0.0
    for m, span in enumerate(chain.lengths):
        lead, turned = bend(chain, moments, m)
        start = (levels[m + 1] - levels[m]) / span + lead
        steep = max(steep, abs(start))
        if m and not abs(start - before) <= PROOF * steep:
            beside = chain.places[m - 1 : m + 2]
            if not abs(start - before) <= PROOF * (steep + kink_of_rounding(tall, *beside)):
                return False
        before = start - turned
    return True
