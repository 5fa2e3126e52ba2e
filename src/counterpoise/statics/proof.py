"""The proof every answer passes before it leaves: equilibrium, no push, lines that fit, an unbroken batten."""

from collections.abc import Sequence

from counterpoise.errors import Fault
from counterpoise.statics.field import Field
from counterpoise.statics.grid import Grid
from counterpoise.statics.model import Line, Load, PointLoad
from counterpoise.statics.three_moment import Carried

PROOF = 1.0e-9  # of the load, of its moment, of the deflection
ROUNDED = 1.0e-12  # of the deflection: by less than this a level is known


class Unproven(Fault):
    """An answer was found but did not stand its proof, so no number is given."""

    def __init__(self, law: str, miss: float, allowed: float) -> None:
        super().__init__(
            f"The batten could not be computed: {law} misses by {miss:.3g}, {allowed:.3g} is allowed. "
            "No number is given. Keep the document; this is a fault of the program, or of numbers far out of scale."
        )
        self.law, self.miss, self.allowed = law, miss, allowed


def prove(
    grid: Grid, lines: Sequence[Line], loads: Sequence[Load], carried: Carried, field: Field, gaps: Sequence[float]
) -> None:
    """Raise Unproven unless the solution obeys statics, its lines only pull, and the batten is unbroken."""
    weight = first = 0.0
    for load in loads:  # from the loads themselves, not from the cells
        force = load.force
        weight += force
        first += force * (load.x if isinstance(load, PointLoad) else 0.5 * (load.start + load.end))
    length = grid.xs[-1]
    _hold("equilibrium of forces", sum(carried.pulls) - weight, weight)
    lever = sum(pull * grid.xs[grid.at[i]] for i, pull in zip(carried.carrying, carried.pulls, strict=True))
    _hold("equilibrium of moments", lever - first, weight * length)
    _hold("a line that only pulls", min(0.0, *carried.pulls), weight)
    tall = drop_scale(grid, lines, field)
    for step in field.drop_steps:
        _hold("a line without a gap", step, tall)
    steep = max(*map(abs, field.slopes), tall / length)
    stations = [grid.xs[grid.at[i]] for i in carried.carrying]
    for step, before, here, after in zip(field.slope_steps, stations, stations[1:], stations[2:], strict=False):
        _hold("a batten without a kink", step, steep + kink_of_rounding(tall, before, here, after))
    for i, gap in enumerate(gaps):
        if i not in carried.carrying:
            _hold("a slack line that is not stretched", min(0.0, gap), tall)


def kink_of_rounding(tall: float, before: float, here: float, after: float) -> float:
    """What rounded levels may kink a batten over a line with others close beside it, over PROOF [rad]."""
    return ROUNDED / PROOF * tall / min(here - before, after - here)


def drop_scale(grid: Grid, lines: Sequence[Line], field: Field) -> float:
    """Size of deflections and offsets, for tolerances [m]."""
    sizes = [abs(line.offset) for line in lines]
    bent = grid.weight * grid.xs[-1] ** 3 / max(grid.eis)
    return max(*map(abs, field.drops), *sizes, 1.0e-3 * bent)


def _hold(law: str, miss: float, scale: float) -> None:
    if not abs(miss) <= PROOF * scale:  # a miss that is no number fails as well
        raise Unproven(law, abs(miss), PROOF * scale)
