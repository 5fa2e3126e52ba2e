"""The proof every ladder truss passes: of its pulls on the way out, of its shape when that is first asked for."""

import math
from collections.abc import Sequence

from counterpoise.statics.condensed import Condensed
from counterpoise.statics.frame_field import Bent
from counterpoise.statics.frame_loads import Loaded
from counterpoise.statics.line_moments import Borne, dot
from counterpoise.statics.model import Line
from counterpoise.statics.proof import PROOF, Unproven


def prove_pulls(
    condensed: Condensed, lines: Sequence[Line], loaded: Loaded, borne: Borne, gaps: Sequence[float]
) -> None:
    """Raise Unproven unless the pulls obey statics, no line pushes, and the truss meets its lines without a kink."""
    weight, length, places = loaded.weight, condensed.frame.xs[-1], condensed.xs
    everyone = len(borne.carrying) == len(places)
    _hold("equilibrium of forces", sum(borne.pulls) - weight, weight)
    lever = dot(borne.pulls, places if everyone else [places[i] for i in borne.carrying])
    _hold("equilibrium of moments", lever - loaded.first, weight * length)
    _hold("a line that only pulls", min(0.0, *borne.pulls), weight)
    kinks, steep = condensed.kinks(lines, loaded, borne)
    if everyone:
        _hold("a truss without a kink", math.hypot(*kinks), steep)
        return
    carrying = set(borne.carrying)
    for i, gap in enumerate(gaps):
        if i not in carrying:
            _hold("a slack line that is not stretched", min(0.0, gap), steep * length)
        elif 0 < i < len(gaps) - 1 and i - 1 in carrying and i + 1 in carrying:
            _hold("a truss without a kink", kinks[i - 1], steep)


def prove_shape(
    condensed: Condensed,
    lines: Sequence[Line],
    loaded: Loaded,
    borne: Borne,
    bent: Bent,
    gaps: Sequence[float],
) -> None:
    """Raise Unproven unless chords and joints are in equilibrium, joints are rigid, and the lines are met."""
    weight, length = loaded.weight, condensed.frame.xs[-1]
    for step in bent.moment_steps:
        _hold("equilibrium of a chord", step, weight * length)
    for step in bent.shear_steps:
        _hold("equilibrium of a joint", step, weight)
    tall = max(bent.size, *(abs(line.offset) for line in lines))
    for step in bent.drop_steps:
        _hold("a line without a gap", step, tall)
    for step in bent.slope_steps:
        _hold("a joint without a kink", step, max(bent.steep, tall / length))
    for i, gap in enumerate(gaps):
        if i not in borne.carrying:
            drop = bent.top.drop(condensed.xs[i])
            _hold("a gap found in two ways", lines[i].offset - drop - gap, tall)


def _hold(law: str, miss: float, scale: float) -> None:
    if not abs(miss) <= PROOF * scale:  # a miss that is no number fails as well
        raise Unproven(law, abs(miss), PROOF * scale)
