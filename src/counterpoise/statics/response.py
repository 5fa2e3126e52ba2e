"""What the batten does with a load set at each of many places.

Within one choice of carrying lines every answer is the standing one plus influence lines; the choices are kept, so
most places cost no solving. The numbers are those of `hang` to rounding.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from counterpoise.statics.grid import cut
from counterpoise.statics.hanging import Tips
from counterpoise.statics.influence import Choice, Choices, Point, Spread
from counterpoise.statics.model import Beam, Line, Load, PointLoad, SpreadLoad, check_lines, check_loads, check_weight
from counterpoise.statics.slack import TRIFLE, hang
from counterpoise.statics.sweep import sweep


@dataclass(frozen=True, slots=True, kw_only=True)
class Response:
    """The answer with the moved load at x."""

    x: float  # [m]
    tensions: tuple[float, ...]  # [N]
    carrying: tuple[int, ...]  # lines that carry, counted from 0
    moment: float  # of the greatest size, with its sign [N m]
    moment_x: float  # where [m]
    sag: float  # of the greatest size, with its sign, against the chord of its span [m]
    sag_ratio: float  # largest |sag| / span of any span; may belong to another span


def response(
    beam: Beam, lines: Sequence[Line], loads: Sequence[Load], moved: Sequence[Load], xs: Sequence[float]
) -> tuple[Response | Tips, ...]:
    """The answer with `moved` set at each x, beside `loads` that stay.

    Args:
        beam, lines, loads: as for hang. The loads that stay weigh more than nothing.
        moved: loads with places relative to 0; at x they hang at x + their own place.
        xs: places [m].

    Returns:
        For each x the same numbers as hang, or Tips.

    Raises:
        OutOfRange: as hang, also when a moved load would hang off the batten at some x.
        Unproven: an answer did not stand its proof.
    """
    check_lines(beam, lines)
    check_loads(beam, loads)
    grid = cut(beam, lines, loads)
    check_weight(grid.weight)
    choices = Choices(grid, lines)
    answers: list[Response | Tips] = []
    choice: Choice | None = None
    for x in xs:
        placed = set_at(moved, x)
        check_loads(beam, placed)
        points, spreads = _plain(placed, beam.length)
        weight, first = _weigh(grid.weight, grid.weight * grid.centre, points, spreads)
        tips = _tips(choices, first / weight)
        if tips is not None:
            answers.append(tips)
            continue
        choice, added = _fitting(choices, choice, points, spreads, (beam, lines, [*loads, *placed]))
        tensions = choice.tensions(added)
        choice.balance(tensions, weight, first)
        answers.append(_answer(x, choice, tensions, points, spreads))
    return tuple(answers)


def set_at(moved: Sequence[Load], x: float) -> list[Load]:
    """The moved loads at their place when set at x."""
    placed: list[Load] = []
    for load in moved:
        if isinstance(load, PointLoad):
            placed.append(PointLoad(x=x + load.x, force=load.force))
        else:
            placed.append(SpreadLoad(start=x + load.start, end=x + load.end, per_length=load.per_length))
    return placed


def _plain(placed: Sequence[Load], length: float) -> tuple[list[Point], list[Spread]]:
    points, spreads = [], []
    for load in placed:
        if isinstance(load, PointLoad):
            points.append((min(max(load.x, 0.0), length), load.force))
        else:
            spreads.append((max(load.start, 0.0), min(load.end, length), load.per_length))
    return points, spreads


def _weigh(weight: float, first: float, points: Sequence[Point], spreads: Sequence[Spread]) -> tuple[float, float]:
    """Weight of everything and its moment about x = 0."""
    for x, force in points:
        weight += force
        first += force * x
    for start, end, per_length in spreads:
        force = per_length * (end - start)
        weight += force
        first += force * 0.5 * (start + end)
    return weight, first


def _tips(choices: Choices, centre: float) -> Tips | None:
    xs, at = choices.grid.xs, choices.grid.at
    slip = TRIFLE * xs[-1]
    if xs[at[0]] - slip <= centre <= xs[at[-1]] + slip:
        return None
    return Tips(centre=centre, first=xs[at[0]], last=xs[at[-1]])


def _fitting(
    choices: Choices,
    likely: Choice | None,
    points: Sequence[Point],
    spreads: Sequence[Spread],
    whole: tuple[Beam, Sequence[Line], Sequence[Load]],
) -> tuple[Choice, list[float]]:
    """The choice of carrying lines that holds under the added loads, and what they add: the likely one first."""
    for choice in ([likely] if likely else []) + list(choices.met.values()):
        added = choice.added(points, spreads)
        if choice.holds(added):
            return choice, added
    answer = hang(*whole)
    assert not isinstance(answer, Tips)  # the centre of gravity was looked at before
    choice = choices.of(answer.carrying)
    return choice, choice.added(points, spreads)


def _answer(
    x: float, choice: Choice, tensions: list[float], points: Sequence[Point], spreads: Sequence[Spread]
) -> Response:
    strip = choice.strip.copy()
    for place, force in points:
        strip.add_point(place, force)
    for start, end, per_length in spreads:
        strip.add_spread(start, end, per_length)
    moment, moment_x, sags = sweep(strip, tensions, sags=True)
    largest, _, _ = max(sags, key=_size)
    return Response(
        x=x,
        tensions=tuple(tensions),
        carrying=choice.carrying,
        moment=moment,
        moment_x=moment_x,
        sag=largest,
        sag_ratio=max([abs(sag) / span for sag, _, span in sags]),
    )


def _size(sag: tuple[float, float, float]) -> float:
    return abs(sag[0])
