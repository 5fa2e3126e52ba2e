"""A ladder truss over a box of doubts: for one choice of carrying lines, all of it as straight functions.

Pulls and gaps come from the truss condensed to its lines, what its bars carry and how its chords drop from the same
march that spreads out an answer; once for the low ends and once for each doubt.
"""

from bisect import bisect_left
from collections.abc import Callable, Sequence
from functools import cached_property
from itertools import pairwise
from typing import NamedTuple

from counterpoise.statics.box import Straight
from counterpoise.statics.condensed import Condensed
from counterpoise.statics.doubts import Doubt, scaled, trimmed_at
from counterpoise.statics.field import Field
from counterpoise.statics.frame_field import Bent, bend
from counterpoise.statics.frame_loads import Loaded
from counterpoise.statics.ladder import ChordLoads
from counterpoise.statics.line_moments import Borne
from counterpoise.statics.model import Line, PointLoad
from counterpoise.statics.straight_pipes import shifted
from counterpoise.statics.straight_sets import Sizes, StraightSet, straight


class Share(NamedTuple):
    """A share of loads and offsets."""

    lines: Sequence[Line]
    loaded: Loaded


class Shares:
    """Everything at the low ends, then what each doubt adds from its low end to its high end."""

    def __init__(self, condensed: Condensed, lines: Sequence[Line], loads: ChordLoads, doubts: Sequence[Doubt]) -> None:
        self.condensed = condensed
        low = [doubt.low for doubt in doubts]
        found = [Share(trimmed_at(lines, doubts, low), condensed.share(loads_at(loads, doubts, low)))]
        for doubt in doubts:
            more = loads_at(ChordLoads(), [doubt], [doubt.high - doubt.low])
            found.append(Share(shifted(lines, doubt), condensed.share(more)))
        self.all = found
        hung = [load for one in found for load in (*one.loaded.loads.top, *one.loaded.loads.bottom)]
        self.stations = {
            x for load in hung for x in ((load.x,) if isinstance(load, PointLoad) else (load.start, load.end))
        }

    @property
    def sizes(self) -> Sizes:
        """Size of pulls and of drops in the box."""
        weight = sum([one.loaded.weight for one in self.all])
        tall = sum([max([abs(line.offset) for line in one.lines]) for one in self.all])
        tall += weight * max([line.flexibility for line in self.all[0].lines])
        kinks = sum([max(map(abs, one.loaded.kinks), default=0.0) for one in self.all])
        return Sizes(weight, (tall + kinks * self.condensed.frame.xs[-1]) or 1.0)

    def leaning(self, *, left: bool) -> Straight:
        """Moment of all loads about an outer line, 0 or more where that line need not push [N m]."""
        x, sign = (self.condensed.xs[0], 1.0) if left else (self.condensed.xs[-1], -1.0)
        return straight([sign * (one.loaded.first - one.loaded.weight * x) for one in self.all])


def loads_at(loads: ChordLoads, doubts: Sequence[Doubt], factors: Sequence[float]) -> ChordLoads:
    """The loads on both chords with every doubt at its factor."""
    pairs = list(zip(doubts, factors, strict=True))
    return ChordLoads(
        bottom=(*loads.bottom, *(scaled(load, t) for doubt, t in pairs for load in doubt.loads)),
        top=(*loads.top, *(scaled(load, t) for doubt, t in pairs for load in doubt.top)),
    )


class StraightLadder(StraightSet):
    """One choice of carrying lines of a ladder truss; its bars are worked out when first asked for."""

    def __init__(self, shares: Shares, carrying: tuple[int, ...], sizes: Sizes) -> None:
        super().__init__(carrying, len(shares.all[0].lines), sizes)
        self._shares, self._condensed = shares, shares.condensed
        self._borne: list[Borne] = [shares.condensed.carry(one.lines, one.loaded, carrying) for one in shares.all]

    def _pulls(self) -> Sequence[Sequence[float]]:
        return [borne.pulls for borne in self._borne]

    def _gaps(self) -> Sequence[Sequence[float]]:
        pairs = zip(self._shares.all, self._borne, strict=True)
        return [self._condensed.gaps(one.lines, one.loaded, borne)[0] for one, borne in pairs]

    @cached_property
    def _bent(self) -> list[Bent]:
        pairs, also = zip(self._shares.all, self._borne, strict=True), self._shares.stations
        return [bend(self._condensed, one.lines, one.loaded, borne, also) for one, borne in pairs]

    @cached_property
    def xs(self) -> list[float]:
        """Stations of both chords: ends, spacers, lines and all that loads begin or end with [m]."""
        return self._bent[0].top.xs

    @cached_property
    def joints(self) -> list[int]:
        """Station of each spacer."""
        return [bisect_left(self.xs, self._condensed.frame.xs[mark]) for mark in self._condensed.frame.joints]

    @property
    def spans(self) -> list[tuple[int, int]]:
        """Stations of neighbouring carrying lines."""
        return list(pairwise([bisect_left(self.xs, self._condensed.xs[i]) for i in self.carrying]))

    def fields(self, part: str) -> list[Field]:
        """One chord, share by share."""
        return [bent.top if part == "top" else bent.bottom for bent in self._bent]

    def spread(self, part: str) -> list[float]:
        """The most that is spread over each cell of a chord [N/m]."""
        return [sum(ws) for ws in zip(*(field.ws for field in self.fields(part)), strict=True)]

    def moment(self, part: str, c: int) -> Callable[[float], Straight]:
        """Bending moment of a chord at a place in cell c, its end included [N m]."""
        cells = [(field.moments[c], field.shears[c], 0.5 * field.ws[c]) for field in self.fields(part)]
        start = self.xs[c]
        return lambda x: straight([m + (x - start) * (v - w * (x - start)) for m, v, w in cells])

    def axial(self, part: str, stretch: int) -> Straight:
        """Pull of a chord between two joints, or of a free end; stretches are counted from stage right [N]."""
        sign = -1.0 if part == "top" else 1.0
        return straight([sign * bent.axial[stretch] for bent in self._bent])

    def spacer(self, number: int) -> tuple[Straight, Straight, Straight]:
        """Pull of a spacer [N], and the moments at its foot and its head [N m]."""
        spacers = [bent.spacers[number] for bent in self._bent]
        return tuple([straight(column) for column in zip(*(one[1:] for one in spacers), strict=True)])  # type: ignore[return-value]

    def sag_ratio(self, part: str, c: int, span: tuple[int, int]) -> Callable[[float], Straight]:
        """Drop of a chord in cell c below the line between its own places at two stations, over their distance."""
        a, b = self.xs[span[0]], self.xs[span[1]]
        fields, start = self.fields(part), self.xs[c]
        held = [(field.drop(a), field.drop(b)) for field in fields]

        def ask(x: float) -> Straight:
            share = (x - a) / (b - a)
            pairs = zip(fields, held, strict=True)
            return straight(
                [(one.drop_in(c, x - start) - (1.0 - share) * p - share * q) / (b - a) for one, (p, q) in pairs]
            )

        return ask
