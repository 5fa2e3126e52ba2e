"""True extremes of a ladder truss while weights and trims lie anywhere between their ends: its pulls, bars and sag.

The search is that of extreme_search, as for a batten; here is what a ladder's own questions are. Stress in a bar is
|N|/A + |M|/S: the highest of four straight functions, one for each pair of signs. docs/theory/ranges.md.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from counterpoise.statics.box import Straight
from counterpoise.statics.doubts import Doubt, check_doubts, trimmed_at
from counterpoise.statics.extreme_search import Extreme, InDoubt, Search
from counterpoise.statics.hanger import Hanger
from counterpoise.statics.hanging import Tips
from counterpoise.statics.hung_ladder import HangingLadder, MemberForces
from counterpoise.statics.ladder import ChordLoads, check_chord_loads
from counterpoise.statics.model import Line, check_weight
from counterpoise.statics.peaks import Stretch, turned
from counterpoise.statics.ranges import MOST_LINES, are_met, rows_of
from counterpoise.statics.straight_ladders import Shares, StraightLadder, loads_at

CHORDS = ("top", "bottom")
PARTS = (*CHORDS, "spacer")


class Judged(NamedTuple):
    """What stress is reckoned with: |N| / area + |M| / modulus."""

    area: float  # [m2]
    modulus: float  # elastic [m3]

    def stress(self, axial: float, moment: float) -> float:
        """[Pa]."""
        return abs(axial) / self.area + abs(moment) / self.modulus


BENDING = Judged(math.inf, 1.0)  # the moment alone [N m]


class _DoubtfulLadder(InDoubt[StraightLadder, HangingLadder]):
    """A ladder truss of which something is in doubt, made ready once."""

    def __init__(self, hanger: Hanger, lines: Sequence[Line], loads: ChordLoads, doubts: Sequence[Doubt]) -> None:
        self.hanger, self._lines, self._loads = hanger, lines, loads
        self.doubts, self.lines = doubts, len(lines)
        self._shares = Shares(hanger.condensed, lines, loads, doubts)
        check_weight(self._shares.all[0].loaded.weight)
        self.sizes = self._shares.sizes

    def leaning(self, *, left: bool) -> Straight:
        return self._shares.leaning(left=left)

    def on(self, carrying: tuple[int, ...]) -> StraightLadder:
        return StraightLadder(self._shares, carrying, self.sizes)

    def hang(self, factors: Sequence[float]) -> HangingLadder | Tips:
        lines = trimmed_at(self._lines, self.doubts, factors)
        return self.hanger.hang(lines, loads_at(self._loads, self.doubts, factors))


@dataclass(frozen=True, slots=True, kw_only=True)
class LadderExtremes:
    """Least and greatest of each row of pulls over the whole box; the rest is worked out each time it is asked for.

    Where part of the box tips, they are those of the part that hangs.
    """

    low: tuple[Extreme, ...]  # one for each row [N]
    high: tuple[Extreme, ...]  # one for each row [N]
    tips: tuple[float, ...] | None  # factors at which the truss tips, if it does anywhere
    tipped: Tips | None  # and how
    proven: bool  # whether every limit of a pull meets its value; else these are the worst of those tried
    _search: Search[StraightLadder, HangingLadder] = field(repr=False, compare=False)
    _hanger: Hanger = field(repr=False, compare=False)
    _chords: Judged | None = field(repr=False, compare=False)

    @property
    def tried(self) -> int:
        """Trusses solved so far."""
        return len(self._search.met)

    @property
    def words(self) -> str:
        """How these are known, for print."""
        return "proven" if self.proven else f"worst of {self.tried}"

    def gap(self, line: int) -> Extreme:
        """The most that a line, counted from 0, hangs slack [m]."""
        return self._search.gap(line)

    def stress(self, parts: Sequence[str] = PARTS) -> Extreme:
        """The greatest |N|/A + |M|/S in any bar of these parts: "top", "bottom", "spacer" [Pa]."""
        return self._bars({part: self._judged(part) for part in parts})

    def moment(self, parts: Sequence[str] = CHORDS) -> Extreme:
        """The greatest size of the moment in any bar of these parts: the bending between spacers too [N m]."""
        return self._bars(dict.fromkeys(parts, BENDING))

    def sag_ratio(self, part: str = "bottom") -> Extreme:
        """The greatest size of sag / span of a chord, in any span between carrying lines."""

        def measure(one: HangingLadder) -> float:
            sags = (one.top if part == "top" else one.bottom).largest_sags
            return max(abs(sag) / (end - start) for start, end, sag, _ in sags)

        ladder = self._hanger.ladder
        stiff = (ladder.top if part == "top" else ladder.bottom).bending
        return self._search.peak(
            lambda: [one for each in self._search.sets for one in _sagging(each, part, stiff)], measure
        )

    def _judged(self, part: str) -> Judged:
        if part != "spacer" and self._chords is not None:
            return self._chords
        ladder = self._hanger.ladder
        section = {"top": ladder.top, "bottom": ladder.bottom, "spacer": ladder.spacer}[part].section
        return Judged(section.area, section.elastic_modulus)

    def _bars(self, judged: dict[str, Judged]) -> Extreme:
        def size(bar: MemberForces) -> float:
            by = judged.get(bar.part)
            return 0.0 if by is None else by.stress(bar.axial, bar.moment)

        def stretches() -> list[Stretch]:
            return [
                one
                for each in self._search.sets
                for part, by in judged.items()
                for one in (_in_spacers(each, by) if part == "spacer" else _in_chord(each, part, by))
            ]

        return self._search.peak(stretches, lambda one: max(map(size, one.members)))


def extremes_on_ladder(
    hanger: Hanger,
    lines: Sequence[Line],
    loads: ChordLoads,
    doubts: Sequence[Doubt],
    *,
    rows: Sequence[Sequence[float]] | None = None,
    chords: Judged | None = None,
    most_lines: int = MOST_LINES,
) -> LadderExtremes | Tips:
    """Extremes of a ladder truss, wherever every doubt lies between its ends.

    Args:
        hanger: the truss and the places of its lines, made ready.
        lines: at these places; their offsets are those that every trim doubt is about.
        loads: what hangs for certain; more than nothing together with the low ends of the doubts.
        doubts: as for extremes; `loads` of a doubt hang on the bottom chord, `top` on the top chord.
        rows: coefficients on the pulls; each row is a sum to look at. None: each line for itself.
        chords: by what stress in both chords is judged; None: by their own sections. Spacers go by their own.
        most_lines: with more lines than this (at most 12) nothing is proven and the worst of many trials is given.

    Returns:
        LadderExtremes; Tips where the truss tips whatever the doubts are. The limits of pulls meet their values to 1e-9
        of the load; those of stress, moment and sag lie up to 0.01 % above, since they look along the truss as well.

    Raises:
        OutOfRange: as hang_ladder, a doubt without an offset for each line, a row without a coefficient for each line.
        Unproven: as hang_ladder.

    Assumes what hang_ladder does; places, stiffnesses and sections are known.
    Source: parametric convex quadratic programme; weak duality. docs/theory/ranges.md.
    """
    check_doubts(lines, doubts, chords=True)
    for doubt in doubts:
        check_chord_loads(hanger.ladder, ChordLoads(bottom=doubt.loads, top=doubt.top))
    check_chord_loads(hanger.ladder, loads)
    units = rows_of(lines, rows, most_lines)
    truss = _DoubtfulLadder(hanger, lines, loads, doubts)
    search = Search(truss, most_lines)
    tips = search.begin(units)
    if tips is not None:
        return tips
    spans = [search.pulls(row) for row in units]
    return LadderExtremes(
        low=tuple(low for low, _ in spans),
        high=tuple(high for _, high in spans),
        tips=search.tips,
        tipped=search.tipped,
        proven=are_met(units, spans, truss.sizes.weight),
        _search=search,
        _hanger=hanger,
        _chords=chords,
    )


def _in_chord(one: StraightLadder, part: str, by: Judged) -> Iterator[Stretch]:
    """Where stress in a chord may be greatest. Hogging is hollow downward: greatest at the ends of a cell."""
    spread, joints, xs = one.spread(part), set(one.joints), one.xs
    stretch = -1
    for c, w in enumerate(spread):
        if c == 0 or c in joints:
            stretch += 1
            pulls = _sides(one.axial(part, stretch), by.area)
        moment = one.moment(part, c)
        for pull in pulls:
            sagging = _added(moment, pull, 1.0 / by.modulus)
            hogging = _added(moment, pull, -1.0 / by.modulus)
            yield Stretch(one, sagging, xs[c], xs[c + 1], w / by.modulus)
            yield Stretch(one, hogging, xs[c], xs[c], 0.0)
            if c + 1 in joints or c + 1 == len(spread):  # at a joint the moment steps
                yield Stretch(one, hogging, xs[c + 1], xs[c + 1], 0.0)


def _in_spacers(one: StraightLadder, by: Judged) -> Iterator[Stretch]:
    """Where stress in a spacer may be greatest: at its foot and at its head."""
    for number, station in enumerate(one.joints):
        axial, *ends = one.spacer(number)
        x = one.xs[station]
        for pull in _sides(axial, by.area):
            for moment in ends:
                for sign in (1.0, -1.0):
                    ask = _added(_always(moment), pull, sign / by.modulus)
                    yield Stretch(one, ask, x, x, 0.0)


def _sagging(one: StraightLadder, part: str, stiff: float) -> Iterator[Stretch]:
    """Where |sag| / span of a chord may be greatest."""
    spread, xs = one.spread(part), one.xs
    for a, b in one.spans:
        for c in range(a, b):
            moment, h = one.moment(part, c), xs[c + 1] - xs[c]
            ends = [sign for end in (moment(xs[c]), moment(xs[c + 1])) for sign in (end.most(), end.times(-1.0).most())]
            curve = (max(ends) + 0.125 * spread[c] * h * h) / stiff / (xs[b] - xs[a])
            ask = one.sag_ratio(part, c, (a, b))
            yield Stretch(one, ask, xs[c], xs[c + 1], curve)
            yield Stretch(one, turned(ask), xs[c], xs[c + 1], curve)


def _sides(axial: Straight, area: float) -> list[Straight]:
    """|N| / A as the higher of these; a sign that N has nowhere in the box is left out."""
    found = [axial.times(1.0 / area), axial.times(-1.0 / area)]
    return [one for one in found if one.most() > 0.0] or found[:1]


def _always(value: Straight) -> Callable[[float], Straight]:
    return lambda _: value


def _added(moment: Callable[[float], Straight], pull: Straight, factor: float) -> Callable[[float], Straight]:
    """The pull and factor times the moment."""

    def ask(x: float) -> Straight:
        one = moment(x)
        slopes = [p + factor * m for p, m in zip(pull.slopes, one.slopes, strict=True)]
        return Straight(pull.start + factor * one.start, tuple(slopes))

    return ask
