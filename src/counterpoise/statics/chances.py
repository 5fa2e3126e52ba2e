"""How often: percentiles of pulls where it is known how trims and weights scatter. Uses numpy; import it only here.

Chance is an argument: the caller hands in a seeded generator, so the same call gives the same answer. All draws that
hang on the same lines are one matrix product; a batten is solved once for each choice of lines that comes up. Where
only trims are in doubt, that is the kernel of `many`; where weights are, it is done here.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, sqrt
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from counterpoise.errors import within
from counterpoise.statics.box import Straight
from counterpoise.statics.doubts import Doubt, at_factors, check_doubts
from counterpoise.statics.hanging import Tips
from counterpoise.statics.many import hang_many
from counterpoise.statics.model import Beam, Line, Load, check_lines, check_loads, check_weight
from counterpoise.statics.slack import hang
from counterpoise.statics.straight_pipes import Part, StraightPipe, leaning, parts_of, sizes_of

Array = NDArray[np.float64]
Scatter = Literal["even", "bell"]

ROUND = 1.0e-10  # a condition broken by less than this, of its size, is kept
TWO_SIDED = 1.959963984540054  # standard deviations that hold 95 % of a bell


@dataclass(frozen=True, slots=True, kw_only=True)
class Percentile:
    """The pull that `share` of the draws stay at or below, and the band that holds the true one 19 times in 20."""

    share: float
    value: float  # [N]
    low: float  # [N]
    high: float  # [N]


@dataclass(frozen=True, slots=True, kw_only=True)
class Chances:
    """What came of the draws. Not a limit: what was not drawn may be worse."""

    draws: int
    tipped: int  # draws at which the batten tips; they count in no percentile
    percentiles: tuple[tuple[Percentile, ...], ...]  # for each row
    slack: tuple[float, ...]  # share of hanging draws at which each line is slack
    choices: int  # different choices of carrying lines that came up

    @property
    def words(self) -> str:
        """How these are known, for print."""
        return f"of {self.draws} draws"


def percentiles(
    beam: Beam,
    lines: Sequence[Line],
    loads: Sequence[Load],
    doubts: Sequence[Doubt],
    *,
    draws: int,
    generator: np.random.Generator,
    shares: Sequence[float] = (0.05, 0.5, 0.95),
    scatter: Scatter | Sequence[Scatter] = "even",
    rows: Sequence[Sequence[float]] | None = None,
) -> Chances | Tips:
    """Percentiles of line pulls, or of sums of them, when every doubt is drawn by chance and free of the others.

    Args:
        beam, lines, loads, doubts, rows: as for extremes.
        draws: how many, 100 to 10 million.
        generator: numpy's, seeded by the caller.
        shares: which percentiles, each above 0 and below 1.
        scatter: for all doubts or for each. "even": all values between the ends alike. "bell": normal about the
            middle, the ends two standard deviations off and not cut away; a weight stops at nothing.

    Returns:
        Chances, with the sampling error of each percentile; Tips where every draw tips.

    Raises:
        OutOfRange: as extremes, or draws or shares outside their range.

    Source: order statistics; the band of a percentile p of N draws runs from rank Np - z to rank Np + z with
    z = 1.96 sqrt(N p (1 - p)) (normal approximation of the binomial; any text on order statistics).
    """
    check_lines(beam, lines)
    check_doubts(lines, doubts)
    check_loads(beam, [*loads, *(load for doubt in doubts for load in doubt.loads)])
    within("draws", float(draws), low=100.0, high=1.0e7, mend="Fewer say nothing, more fill the memory.")
    for share in shares:
        within("share", share, low=1.0e-6, high=1.0 - 1.0e-6, mend="Give a share between 0 and 1, such as 0.95.")
    parts = parts_of(beam, lines, loads, doubts)
    check_weight(parts[0].grid.weight)
    places = _drawn(doubts, draws, generator, scatter)
    stays, pulls, choices = _solved(beam, lines, loads, doubts, parts, places)
    if not stays.any():
        for u in ((0.0,) * len(doubts), *places.tolist()):
            tips = hang(beam, *at_factors(lines, loads, doubts, _factors(doubts, u)))
            if isinstance(tips, Tips):
                return tips
    pulls = pulls[stays]
    units = np.eye(len(lines)) if rows is None else np.array(rows, dtype=float)
    return Chances(
        draws=draws,
        tipped=int(draws - stays.sum()),
        percentiles=tuple(_ranked(np.sort(pulls @ row), shares) for row in units),
        slack=tuple(float(share) for share in (pulls <= 0.0).mean(axis=0)),
        choices=choices,
    )


def _solved(
    beam: Beam,
    lines: Sequence[Line],
    loads: Sequence[Load],
    doubts: Sequence[Doubt],
    parts: Sequence[Part],
    places: Array,
) -> tuple[NDArray[np.bool_], Array, int]:
    """Which draws hang, the pulls of every draw, and how many choices of carrying lines came up."""
    if not any(doubt.loads for doubt in doubts):
        return _trimmed(beam, lines, loads, doubts, places)
    stays = np.ones(len(places), dtype=bool)
    for lean in (leaning(parts, left=True), leaning(parts, left=False)):
        stays &= _values(lean, places) >= 0.0
    pulls = np.zeros((len(places), len(lines)))
    choices = 0
    pending = np.flatnonzero(stays)
    while len(pending):
        hung = hang(beam, *at_factors(lines, loads, doubts, _factors(doubts, places[pending[0]].tolist())))
        if isinstance(hung, Tips):  # within rounding of tipping
            stays[pending[0]] = False
            pending = pending[1:]
            continue
        choices += 1
        one = StraightPipe(parts, hung.carrying, sizes_of(parts))
        fits = np.ones(len(pending), dtype=bool)
        for condition in one.conditions:
            fits &= _values(condition, places[pending]) >= -ROUND
        fits[0] = True  # or rounding could keep it for ever
        done = pending[fits]
        for i in one.carrying:
            pulls[done, i] = np.maximum(0.0, _values(one.pulls[i], places[done]))
        pending = pending[~fits]
    return stays, pulls, choices


def _trimmed(
    beam: Beam, lines: Sequence[Line], loads: Sequence[Load], doubts: Sequence[Doubt], places: Array
) -> tuple[NDArray[np.bool_], Array, int]:
    """As _solved, where no weight is in doubt: the kernel for many trims is several times quicker."""
    offsets = np.zeros((len(places), len(lines)))
    for k, doubt in enumerate(doubts):
        offsets += np.outer(doubt.low + places[:, k] * (doubt.high - doubt.low), doubt.offsets or np.zeros(len(lines)))
    many = hang_many(beam, lines, loads, offsets)
    if isinstance(many, Tips):
        return np.zeros(len(places), dtype=bool), offsets, 0
    codes = many.carrying @ (1 << np.arange(len(lines)))
    return np.ones(len(places), dtype=bool), many.tensions, len(np.unique(codes))


def _factors(doubts: Sequence[Doubt], u: Sequence[float]) -> list[float]:
    found = [d.low + v * (d.high - d.low) for d, v in zip(doubts, u, strict=True)]
    return [max(0.0, t) if d.loads else t for d, t in zip(doubts, found, strict=True)]  # rounding of a bell cut off


def _drawn(
    doubts: Sequence[Doubt], draws: int, generator: np.random.Generator, scatter: Scatter | Sequence[Scatter]
) -> Array:
    """Places of every doubt, 0 its low end and 1 its high end: a row for each draw."""
    kinds = [scatter] * len(doubts) if isinstance(scatter, str) else list(scatter)
    count = float(len(doubts))
    within("number of scatters", float(len(kinds)), low=count, high=count, mend="Give one for each doubt.")
    places = np.empty((draws, len(doubts)))
    for k, (doubt, kind) in enumerate(zip(doubts, kinds, strict=True)):
        if kind == "even":
            places[:, k] = generator.random(draws)
            continue
        places[:, k] = generator.normal(0.5, 0.25, draws)
        if doubt.loads and doubt.high > doubt.low:
            places[:, k] = np.maximum(places[:, k], -doubt.low / (doubt.high - doubt.low))
    return places


def _values(straight: Straight, places: Array) -> Array:
    found: Array = straight.start + places @ np.array(straight.slopes)
    return found


def _ranked(pulls: Array, shares: Sequence[float]) -> tuple[Percentile, ...]:
    count = len(pulls)
    found = []
    for share in shares:
        reach = TWO_SIDED * sqrt(count * share * (1.0 - share))
        near = (ceil(count * share), floor(count * share - reach), ceil(count * share + reach))
        ranks = [min(count - 1, max(0, rank - 1)) for rank in near]
        value, low, high = (float(pulls[rank]) for rank in ranks)
        found.append(Percentile(share=share, value=value, low=low, high=high))
    return tuple(found)
