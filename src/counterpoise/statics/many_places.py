"""What the batten does with a load set at each of many places.

Within one choice of carrying lines every pull is the standing one plus influence lines, so most places cost no
solving; from the pulls moments, shears, stresses, sags and tips of all places are marched at once. The numbers are
those of `hang` to rounding, and pass the same proof. Loads numpy.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from counterpoise.statics.grid import Grid, cut
from counterpoise.statics.hanging import Hanging, Tips
from counterpoise.statics.influence import Choice, Choices
from counterpoise.statics.many_equations import Array, Index, Mask
from counterpoise.statics.many_fields import Fields, Placed
from counterpoise.statics.many_peaks import (
    greatest_moments,
    greatest_sags,
    greatest_shears,
    greatest_stresses,
)
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
    set_at,
)
from counterpoise.statics.slack import TRIFLE, hang
from counterpoise.statics.splices import Strength, covers


@dataclass(frozen=True, slots=True, kw_only=True)
class Response:
    """The answer with the moved load at x. Sizes keep their sign; extremes are exact, not sampled."""

    x: float  # [m]
    tensions: tuple[float, ...]  # [N]
    gaps: tuple[float, ...]  # slack of every line, 0 where it carries [m]
    carrying: tuple[int, ...]  # lines that carry, counted from 0
    moment: float  # of the greatest size [N m]
    moment_x: float  # where [m]
    shear: float  # of the greatest size [N]
    shear_x: float
    stress: float | None  # greatest |M|/S [Pa]; None where no sections were given
    stress_x: float | None
    splices: tuple[float, ...]  # moment at each splice of the sections [N m]
    sag: float  # of the greatest size against the chord of its span [m]
    sag_x: float
    sag_ratio: float  # largest |sag| / span of any span; may belong to another span
    tips: tuple[float, float]  # how far each end hangs below its outer carrying line [m]


def response(
    beam: Beam,
    lines: Sequence[Line],
    loads: Sequence[Load],
    moved: Sequence[Load],
    xs: Sequence[float],
    *,
    strength: Strength | None = None,
) -> tuple[Response | Tips, ...]:
    """The answer with `moved` set at each x, beside `loads` that stay.

    Args:
        beam, lines, loads: as for hang. The loads that stay weigh more than nothing.
        moved: loads with places relative to 0; at x they hang at x + their own place.
        xs: places [m].
        strength: sections and splices along the batten, for its stress; None: no stress is told.

    Returns:
        For each x the same numbers as hang, or Tips.

    Raises:
        OutOfRange: as hang, also when a moved load would hang off the batten at some x, or a section or splice lies
            off it.
        Unproven: an answer did not stand its proof.
    """
    check_lines(beam, lines)
    check_loads(beam, loads)
    sections = _Sections(beam, strength)
    grid = cut(beam, lines, loads, sections.places)
    check_weight(grid.weight)
    placed = _placed(beam, moved, xs)
    centres = (grid.weight * grid.centre + placed.first) / (grid.weight + placed.weight)
    first, last, slip = grid.xs[grid.at[0]], grid.xs[grid.at[-1]], TRIFLE * grid.xs[-1]
    hangs = (first - slip <= centres) & (centres <= last + slip)
    answers: list[Response | Tips] = [Tips(centre=centre, first=first, last=last) for centre in centres.tolist()]
    choices = Choices(grid, lines)
    waiting = np.flatnonzero(hangs)
    while len(waiting):
        solved = hang(beam, lines, [*loads, *set_at(moved, xs[waiting[0]])])
        assert isinstance(solved, Hanging)  # where the centre of gravity lies was looked at before
        choice = choices.of(solved.carrying)
        tensions, stands = _pulls(choice, placed.some(waiting))
        stands[0] = True
        some = waiting[stands]
        fields = Fields(grid, lines, choice.carrying, placed.some(some), tensions[:, stands])
        for i, answer in zip(some.tolist(), _answers([xs[i] for i in some.tolist()], fields, sections), strict=True):
            answers[i] = answer
        waiting = waiting[~stands]
    return tuple(answers)


def _placed(beam: Beam, moved: Sequence[Load], xs: Sequence[float]) -> Placed:
    """The moved loads at every x; one that would hang off the batten is refused."""
    points = [load for load in moved if isinstance(load, PointLoad)]
    spreads = [load for load in moved if isinstance(load, SpreadLoad)]
    length, places = beam.length, np.array(xs, dtype=np.float64)

    def at(own: list[float]) -> Array:
        found = np.array(own, dtype=np.float64)[:, None] + places
        off = ~((found >= -ROUNDING) & (found <= length + ROUNDING)).all(axis=0)
        for x in places[off].tolist():
            check_loads(beam, set_at(moved, x))
        return np.clip(found, 0.0, length)

    return Placed(
        points=at([load.x for load in points]),
        forces=np.array([load.force for load in points], dtype=np.float64),
        starts=at([load.start for load in spreads]),
        ends=at([load.end for load in spreads]),
        per_length=np.array([load.per_length for load in spreads], dtype=np.float64),
    )


def _pulls(choice: Choice, placed: Placed) -> tuple[Array, Mask]:
    """Pull of every line at each place if this choice carries there [lines, places], and where it does."""
    cubics, stations, hs = (np.array(each) for each in (choice.cubics, choice.grid.xs, choice.grid.hs))
    sums = np.zeros((len(stations), choice.count))
    sums[1:] = _area(cubics, hs[:, None]).cumsum(axis=0)

    def into(x: Array) -> tuple[Index, Array]:
        cell = np.minimum(stations.searchsorted(x, side="right") - 1, len(cubics) - 1)
        return cell, (x - stations[cell])[..., None]

    added = np.zeros((placed.points.shape[1], choice.count))
    for x, force in zip(placed.points, placed.forces, strict=True):
        cell, t = into(x)
        k0, k1, k2, k3 = np.moveaxis(cubics[cell], -1, 0)
        added += force * (k0 + t * (k1 + t * (k2 + t * k3)))
    for start, end, per_length in zip(placed.starts, placed.ends, placed.per_length, strict=True):
        for x, sign in ((end, per_length), (start, -per_length)):
            cell, t = into(x)
            added += sign * (sums[cell] + _area(cubics[cell], t))
    carries = np.array([i in choice.carrying for i in range(choice.count)])
    pulls, gaps = np.array(choice.pulls) + added, np.array(choice.gaps) - added
    weight = placed.weight[:, None]
    no_push, no_stretch = choice.grid.weight + weight, choice.tall + weight * choice.give
    stands = np.where(carries, pulls / no_push, gaps / no_stretch).min(axis=1) >= -TRIFLE
    return np.where(carries, np.maximum(pulls, 0.0), 0.0).T, np.asarray(stands)


def _area(cubics: Array, t: Array) -> Array:
    """Integral of cubics from 0 to t."""
    k0, k1, k2, k3 = np.moveaxis(cubics, -1, 0)
    return np.asarray(t * (k0 + t * (k1 / 2.0 + t * (k2 / 3.0 + t * k3 / 4.0))))


class _Sections:
    """Sections and splices of a batten by the places where they change."""

    def __init__(self, beam: Beam, strength: Strength | None) -> None:
        self.strength, self.splices, self.places = strength, list[float](), list[float]()
        if strength is None:
            return
        covers(strength, beam.length)
        self.splices = [splice.x for splice in strength.splices]
        check_loads(beam, [PointLoad(x=x, force=0.0) for x in self.splices])
        self.splices = [min(max(x, 0.0), beam.length) for x in self.splices]
        self.places = [*self.splices, *(one.end for one in strength.segments if one.end < beam.length)]

    def moduli(self, grid: Grid) -> Array | None:
        """Elastic modulus of every cell."""
        if self.strength is None:
            return None
        starts = [one.start for one in self.strength.segments]
        every = np.array([one.elastic_modulus for one in self.strength.segments])
        middles = np.array(grid.xs[:-1]) + 0.5 * np.array(grid.hs)
        return np.asarray(every[np.maximum(np.searchsorted(starts, middles, side="right") - 1, 0)])


def _answers(xs: Sequence[float], fields: Fields, sections: _Sections) -> Iterator[Response]:
    """The answer at each of the places of one choice."""
    sags, ratios = greatest_sags(fields)
    moduli, none = sections.moduli(fields.grid), [None] * len(xs)
    stresses = None if moduli is None else greatest_stresses(fields, moduli)
    at = [fields.grid.xs.index(x) for x in sections.splices]
    spliced = np.take_along_axis(fields.moments, fields.stations[at], axis=0)
    plain = (*greatest_moments(fields), *greatest_shears(fields), *sags, ratios)
    columns = (
        *(each.T.tolist() for each in (fields.tensions, fields.gaps, fields.tips, spliced)),
        *(each.tolist() for each in plain),
        *((none, none) if stresses is None else (each.tolist() for each in stresses)),
    )
    for x, pulls, gaps, tips, splices, m, m_x, v, v_x, sag, sag_x, ratio, stress, s_x in zip(xs, *columns, strict=True):
        yield Response(
            x=x, tensions=tuple(pulls), gaps=tuple(gaps), carrying=fields.carrying, moment=m, moment_x=m_x, shear=v,
            shear_x=v_x, stress=stress, stress_x=s_x, splices=tuple(splices), sag=sag, sag_x=sag_x, sag_ratio=ratio,
            tips=tuple(tips),
        )  # fmt: skip
