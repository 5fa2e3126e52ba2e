"""What the batten does with a load set at each of many places.

Within one choice of carrying lines every answer is the standing one plus influence lines; the choices are kept, so
most places cost no solving. The numbers are those of `hang` to rounding.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from counterpoise.statics.bend import Added, Bent, Point, Spread
from counterpoise.statics.grid import cut
from counterpoise.statics.hanging import Hanging, Tips
from counterpoise.statics.influence import Choice, Choices
from counterpoise.statics.model import (
    ROUNDING,
    Beam,
    Line,
    Load,
    PointLoad,
    SpreadLoad,
    check_lines,
    check_loads,
    check_weight,
)
from counterpoise.statics.slack import TRIFLE, hang


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
    first_line, last_line = grid.xs[grid.at[0]], grid.xs[grid.at[-1]]
    slip = TRIFLE * grid.xs[-1]
    standing = grid.weight * grid.centre
    for x in xs:
        points, spreads = _plain(beam, moved, x)
        weight, first = _weigh(grid.weight, standing, points, spreads)
        centre = first / weight
        if not first_line - slip <= centre <= last_line + slip:
            answers.append(Tips(centre=centre, first=first_line, last=last_line))
            continue
        choice, added = _fitting(choices, choice, points, spreads, weight - grid.weight)
        if choice is None:
            solved = hang(beam, lines, [*loads, *set_at(moved, x)])
            assert isinstance(solved, Hanging)  # where the centre of gravity lies was looked at before
            choice = choices.of(solved.carrying)
            added = choice.added(points, spreads)
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


def _plain(beam: Beam, moved: Sequence[Load], x: float) -> tuple[list[Point], list[Spread]]:
    """The moved loads at x as bare numbers; one that would hang off the batten is refused."""
    points: list[Point] = []
    spreads: list[Spread] = []
    length, low, high = beam.length, -ROUNDING, beam.length + ROUNDING
    for load in moved:
        if isinstance(load, PointLoad):
            place = x + load.x
            if not low <= place <= high:
                check_loads(beam, set_at(moved, x))
            points.append((min(max(place, 0.0), length), load.force))
        else:
            start, end = x + load.start, x + load.end
            if not (low <= start and end <= high):
                check_loads(beam, set_at(moved, x))
            spreads.append((max(start, 0.0), min(end, length), load.per_length))
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


def _fitting(
    choices: Choices, likely: Choice | None, points: Sequence[Point], spreads: Sequence[Spread], more: float
) -> tuple[Choice | None, list[float]]:
    """A choice of lines met before that holds under the added loads, and what they add; the likely one first."""
    if likely is not None:
        added = likely.added(points, spreads)
        if likely.holds(added, more):
            return likely, added
    for choice in choices.met.values():
        if choice is not likely:
            added = choice.added(points, spreads)
            if choice.holds(added, more):
                return choice, added
    return None, []


def _answer(
    x: float, choice: Choice, tensions: list[float], points: Sequence[Point], spreads: Sequence[Spread]
) -> Response:
    bent = Bent(Added(choice.bend, points, spreads), tensions, 1.0)
    moment, moment_x = bent.greatest_moment()
    sag, ratio = bent.greatest_sags()
    return Response(
        x=x,
        tensions=tuple(tensions),
        carrying=choice.carrying,
        moment=moment,
        moment_x=moment_x,
        sag=sag,
        sag_ratio=ratio,
    )
