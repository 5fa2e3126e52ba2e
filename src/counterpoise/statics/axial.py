"""Lines that do not hang plumb: what they pull along the batten, what the ropes carry, where the batten drifts to.

The pulls of the statics are vertical parts. A line that runs sideways by `run` over a drop D pulls along the batten
with H = V run / D, and its rope carries V sqrt(1 + (run/D)2). x and forces along the batten are positive toward stage
left; axial force is positive as a pull. Derivation: docs/theory/axial.md.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from counterpoise.errors import within
from counterpoise.statics.splices import Axial


@dataclass(frozen=True, slots=True, kw_only=True)
class Bridle:
    """Two legs from one line to two points of the batten."""

    first: float  # x of the stage-right leg's point [m]
    second: float  # x of the stage-left leg's point [m]
    rise: float  # of the apex above the batten [m]

    def __post_init__(self) -> None:
        mend = "Give the two points from stage right to stage left."
        within("first point of a bridle", self.first, low=-1.0e6, high=1.0e6, unit="m", mend=mend)
        within("second point of a bridle", self.second, low=self.first + 1.0e-3, high=1.0e6, unit="m", mend=mend)
        mend = "Give the height of the apex above the batten; without it the legs would carry without end."
        within("rise of a bridle", self.rise, low=1.0e-3, high=1.0e3, unit="m", mend=mend)


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """Where a line goes: from the batten, or from a bridle's apex, up to its loft block."""

    x: float  # at the batten, or the apex, as rigged [m]
    block_x: float  # at the loft block [m]
    drop: float  # from the loft block down to the batten, or the apex [m]
    bridle: Bridle | None = None

    def __post_init__(self) -> None:
        within("x of a line", self.x, low=-1.0e6, high=1.0e6, unit="m", mend="Measure from the stage-right end.")
        within("x of a loft block", self.block_x, low=-1.0e6, high=1.0e6, unit="m", mend="Measure along the batten.")
        mend = "Give the height from the batten to the loft block; it is least at high trim, where lines lean most."
        within("drop", self.drop, low=1.0e-2, high=1.0e4, unit="m", mend=mend)


@dataclass(frozen=True, slots=True, kw_only=True)
class Legs:
    """What a bridle's legs carry, stage-right leg first."""

    tensions: tuple[float, float]  # [N]
    verticals: tuple[float, float]  # onto the batten [N]
    along: tuple[float, float]  # onto the batten, toward stage left positive [N]


@dataclass(frozen=True, slots=True, kw_only=True)
class Raked:
    """A batten on lines that lean, at rest along its length."""

    drift: float  # how far it stands from where it was rigged, toward stage left positive [m]
    holding: float  # what a breast line along the batten puts on it; 0 where it hangs free [N]
    tensions: tuple[float, ...]  # of each rope [N]
    along: tuple[float, ...]  # of each line onto the batten; its loft block feels the opposite [N]
    legs: tuple[Legs | None, ...]  # of each bridle
    drops: tuple[float, ...]  # how much lower the drift lets each line hold the batten [m]
    axial: Axial


def rest_along(runs: Sequence[Run], pulls: Sequence[float], *, held_at: float | None = None) -> Raked:
    """Axial force, rope tensions and drift of a batten whose lines lean.

    Args:
        runs: where each line goes, from stage right to stage left.
        pulls: vertical part of each line's pull, from hang [N], 0 where slack.
        held_at: where a breast line along the batten holds it as rigged [m]; None: it hangs free and drifts.

    Returns:
        Raked. Free, it drifts until the forces along it add up to nothing.

    Raises:
        OutOfRange: no line pulls, a pull is negative, or a bridle whose leg would be slack.

    Assumes pulls that the lean does not change (level batten; the lines move with it), and small drops.
    """
    for number, pull in enumerate(pulls, start=1):
        within(f"pull of line {number}", pull, low=0.0, high=1.0e12, unit="N", mend="Give the pulls that hang found.")
    stiff = sum([v / run.drop for run, v in zip(runs, pulls, strict=True)])
    within("sum of pulls over drops", stiff, low=1.0e-12, high=math.inf, unit="N/m", mend="Some line must pull.")
    drift = 0.0
    if held_at is None:
        lean = sum([v * (run.block_x - run.x) / run.drop for run, v in zip(runs, pulls, strict=True)])
        drift = lean / stiff
    widths = [run.block_x - run.x - drift for run in runs]
    along = [v * width / run.drop for run, v, width in zip(runs, pulls, widths, strict=True)]
    legs = [
        bridle_legs(run, v, h) if run.bridle and v > 0.0 else None for run, v, h in zip(runs, pulls, along, strict=True)
    ]
    holding = 0.0 if held_at is None else -sum(along)
    return Raked(
        drift=drift,
        holding=holding,
        tensions=tuple([math.hypot(v, h) for v, h in zip(pulls, along, strict=True)]),
        along=tuple(along),
        legs=tuple(legs),
        drops=tuple([_lower(run, width) for run, width in zip(runs, widths, strict=True)]),
        axial=_diagram(runs, along, legs, None if held_at is None else (held_at, holding)),
    )


def _lower(run: Run, width: float) -> float:
    """How much deeper a rope of one length reaches once its lean is `width` wide instead of as rigged."""
    rigged = run.block_x - run.x
    gained = (rigged - width) * (rigged + width)
    return gained / (math.sqrt(max(run.drop**2 + gained, 0.0)) + run.drop)


def _diagram(
    runs: Sequence[Run], along: Sequence[float], legs: Sequence[Legs | None], held: tuple[float, float] | None
) -> Axial:
    """Axial force between the places where something pulls along the batten."""
    forces: dict[float, float] = {}
    for run, h, pair in zip(runs, along, legs, strict=True):
        if run.bridle and pair:
            for x, force in zip((run.bridle.first, run.bridle.second), pair.along, strict=True):
                forces[x] = forces.get(x, 0.0) + force
        else:
            forces[run.x] = forces.get(run.x, 0.0) + h
    if held:
        forces[held[0]] = forces.get(held[0], 0.0) + held[1]
    xs = sorted(forces)
    carried, found = 0.0, []
    for x in xs[:-1]:
        carried -= forces[x]
        found.append(carried)
    return Axial(xs=tuple(xs), forces=tuple(found))


def bridle_legs(run: Run, pull: float, along: float = 0.0) -> Legs:
    """Forces in the two legs of a bridle.

    V1 = (V (x2 - xa) + H rise) / (x2 - x1), V2 = V - V1; a leg carries V sqrt(1 + (its width / rise)2).

    Args:
        run: the line, with its bridle; x is the apex.
        pull: vertical part of the line's pull V [N], above 0.
        along: part along the batten H, toward stage left positive [N].

    Raises:
        OutOfRange: the line has no bridle, or a leg would push: the apex is not between the legs as the line leans.

    Source: equilibrium of the apex.
    """
    within("pull on a bridle", pull, low=0.0, high=1.0e12, unit="N", mend="A bridle only carries a pull.")
    bridle = run.bridle
    within("bridles on the line", 1 if bridle else 0, low=1, high=1, mend="Give the line its bridle.")
    assert bridle is not None
    to_first, to_second = run.x - bridle.first, bridle.second - run.x
    width = bridle.second - bridle.first
    first = (pull * to_second + along * bridle.rise) / width
    second = (pull * to_first - along * bridle.rise) / width
    mend = "One leg would be slack; move the apex between the points, as the line leans."
    for vertical in (first, second):
        within("pull down a leg of a bridle", vertical, low=-1.0e-9 * pull, high=math.inf, unit="N", mend=mend)
    return Legs(
        tensions=(first * math.hypot(1.0, to_first / bridle.rise), second * math.hypot(1.0, to_second / bridle.rise)),
        verticals=(first, second),
        along=(first * to_first / bridle.rise, -second * to_second / bridle.rise),
    )


def breast_pull(weight: float, aside: float, drop: float, rise: float = 0.0) -> tuple[float, float]:
    """Pull in a breast line that draws a hanging batten aside, and what is then left on its lift lines.

    B = W t / (cos b + sin b t), t = aside / drop, tan b = rise; left on the lines, vertically: W - B sin b.

    Args:
        weight: everything that hangs W [N], above 0.
        aside: how far the batten is drawn from under its loft blocks [m], 0 or more.
        drop: from the loft blocks down to the batten [m].
        rise: how steeply the breast line goes up, rise over run; negative goes down. It must not point along the lift
            lines or below.

    Returns:
        Pull in the breast line [N], and the vertical pull left on all lift lines together [N].

    Assumes all lift lines lean alike. Source: equilibrium of the batten.
    """
    within("weight", weight, low=1.0e-9, high=1.0e12, unit="N", mend="Give everything that hangs.")
    within("aside", aside, low=0.0, high=1.0e4, unit="m", mend="Give how far the batten is drawn aside.")
    within("drop", drop, low=1.0e-2, high=1.0e4, unit="m", mend="Give the height from the batten to the loft blocks.")
    lean = aside / drop
    mend = "A breast line as steep downward as the lift lines can not hold the batten aside."
    low = -0.99 / lean if lean else -1.0e6
    within("rise of the breast line", rise, low=max(low, -1.0e6), high=1.0e6, mend=mend)
    across = weight * lean / (1.0 + rise * lean)
    return across * math.hypot(1.0, rise), weight - across * rise
