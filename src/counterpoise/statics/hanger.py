"""How a ladder truss hangs on lines that only pull: condensed to its lines, searched, spread out again and proven."""

from bisect import bisect_left
from collections.abc import Sequence
from functools import partial
from itertools import combinations

from counterpoise.errors import within
from counterpoise.statics.condensed import Condensed
from counterpoise.statics.frame_ends import end_forces
from counterpoise.statics.frame_field import bend
from counterpoise.statics.frame_loads import Loaded
from counterpoise.statics.frame_proof import prove_pulls, prove_shape
from counterpoise.statics.hanging import Tips
from counterpoise.statics.hung_ladder import Chord, HangingLadder, LadderShape, Whole
from counterpoise.statics.ladder import ChordLoads, Ladder, check_places
from counterpoise.statics.line_moments import Borne
from counterpoise.statics.model import Line
from counterpoise.statics.proof import Unproven
from counterpoise.statics.slack import EXHAUSTIVE, TRIFLE, beside_the_centre, find_carrying


def hang_ladder(ladder: Ladder, lines: Sequence[Line], loads: ChordLoads) -> HangingLadder | Tips:
    """How a ladder truss hangs on its lines under its loads.

    Args:
        ladder: the truss.
        lines: two or more, made to the axis of the top chord, from stage right to stage left, 5 mm or more apart.
        loads: everything that hangs on either chord, the truss's own weight included; together more than nothing.

    Returns:
        HangingLadder, or Tips when the centre of gravity lies outside the outer lines.

    Raises:
        OutOfRange: lines or loads off the truss, lines out of order or at one place, no load at all.
        Unproven: the answer did not stand its proof (equilibrium, no push, no gap under pull, no kink).

    Assumes small deflections, vertical lines that only pull, straight bars from axis to axis, rigid joints, linear
    material, no shear deformation, no effect of axial force on bending, a truss that stays in its plane.
    Source: least work on closed rings; docs/theory/ladder.md.
    """
    return Hanger(ladder, [line.x for line in lines]).hang(lines, loads)


class Hanger:
    """A ladder truss and the places of its lines, made ready once, for many loads, trims and lines' stretches."""

    def __init__(self, ladder: Ladder, places: Sequence[float]) -> None:
        check_places(ladder, places)
        self.ladder, self.places = ladder, tuple(places)
        self.condensed = Condensed(ladder, places)

    def hang(self, lines: Sequence[Line], loads: ChordLoads) -> HangingLadder | Tips:
        """As hang_ladder; the lines are at this hanger's places."""
        return self.hang_loaded(lines, self.condensed.loaded(loads))

    def hang_loaded(self, lines: Sequence[Line], loaded: Loaded) -> HangingLadder | Tips:
        """As hang, the loads already reduced; for the same loads on many trims."""
        if tuple([line.x for line in lines]) != self.places:
            self._refuse(lines)
        first, last = self.condensed.xs[0], self.condensed.xs[-1]
        slip = TRIFLE * self.ladder.length
        if not first - slip <= loaded.centre <= last + slip:
            return Tips(centre=loaded.centre, first=first, last=last)
        found = self.borne(lines, loaded)
        if found is None:
            failed = Unproven("the search for the carrying lines", float(len(lines)), float(EXHAUSTIVE))
        else:
            try:
                return self._proven(lines, loaded, *found)
            except Unproven as miss:
                failed = miss
        if len(lines) > EXHAUSTIVE:
            raise failed
        return self._try_every_choice(lines, loaded, failed)

    def _refuse(self, lines: Sequence[Line]) -> None:
        mend = "This truss was made ready for other lines; make it ready again."
        within("number of lines", len(lines), low=len(self.places), high=len(self.places), mend=mend)
        for number, (line, x) in enumerate(zip(lines, self.places, strict=True), start=1):
            within(f"x of line {number}", line.x, low=x, high=x, unit="m", mend=mend)

    def borne(self, lines: Sequence[Line], loaded: Loaded) -> tuple[Borne, list[float]] | None:
        """Pulls and gaps alone, not proven; None where the search did not end."""
        condensed = self.condensed
        every = condensed.carry(lines, loaded, tuple(range(len(lines))))
        if min(every.pulls) >= 0.0:  # the answer, as it is the only one
            return every, [0.0] * len(lines)

        def solve(carrying: tuple[int, ...]) -> Borne:
            return condensed.carry(lines, loaded, carrying)

        def look(borne: Borne) -> tuple[None, list[float], float]:
            gaps, drop = condensed.gaps(lines, loaded, borne)
            return None, gaps, drop

        start = beside_the_centre(condensed.xs, loaded.centre)
        found = find_carrying(len(lines), loaded.weight, start, solve, look)
        return None if found is None else (found[0], found[2])

    def _try_every_choice(self, lines: Sequence[Line], loaded: Loaded, failed: Unproven) -> HangingLadder:
        """The first choice of carrying lines that stands its proof; if none does, what the search's own misses."""
        for size in range(len(lines), 1, -1):
            for carrying in combinations(range(len(lines)), size):
                borne = self.condensed.carry(lines, loaded, carrying)
                try:
                    return self._proven(lines, loaded, borne, self.condensed.gaps(lines, loaded, borne)[0])
                except Unproven:  # of a choice that is not the true one; what it misses tells nobody anything
                    continue
        raise failed

    def _proven(self, lines: Sequence[Line], loaded: Loaded, borne: Borne, gaps: Sequence[float]) -> HangingLadder:
        """The answer, once its pulls are proven; pulls and gaps that miss zero by rounding are set to it."""
        prove_pulls(self.condensed, lines, loaded, borne, gaps)
        return HangingLadder(
            tensions=tuple([max(t, 0.0) for t in borne.tensions]),
            gaps=tuple([max(gap, 0.0) for gap in gaps]),
            carrying=borne.carrying,
            weight=loaded.weight,
            centre=loaded.centre,
            _shape=LadderShape(partial(self._spread, tuple(lines), loaded, borne, gaps)),
            _ends=partial(end_forces, self.condensed, loaded, borne),
            _ladder=self.ladder,
        )

    def _spread(self, lines: Sequence[Line], loaded: Loaded, borne: Borne, gaps: Sequence[float]) -> Whole:
        """Both chords and the spacers, proven."""
        bent = bend(self.condensed, lines, loaded, borne)
        prove_shape(self.condensed, lines, loaded, borne, bent, gaps)
        xs, frame = bent.top.xs, self.condensed.frame
        marks = sorted({0, len(frame.xs) - 1, *frame.joints})
        stretches = tuple([bisect_left(xs, frame.xs[m]) for m in marks])
        ends = tuple([bisect_left(xs, self.condensed.xs[i]) for i in borne.carrying])
        top = Chord(_field=bent.top, _axial=tuple([-n for n in bent.axial]), _stretches=stretches, _ends=ends)
        bottom = Chord(_field=bent.bottom, _axial=tuple(bent.axial), _stretches=stretches, _ends=ends)
        return top, bottom, tuple(bent.spacers)
