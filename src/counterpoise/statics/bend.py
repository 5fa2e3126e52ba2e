"""Greatest moment and greatest sags of a choice of carrying lines, with one load added at a place of its own."""

from bisect import bisect_left
from collections.abc import Sequence
from itertools import pairwise

from counterpoise.statics.field import Field
from counterpoise.statics.grid import Grid, left_of
from counterpoise.statics.one_point import OnePoint
from counterpoise.statics.stretch import Peak, Stretch

Sag = tuple[float, float, float]  # sag with its sign [m], where [m], length of its span [m]


class Bend:
    """The spans of one choice of carrying lines under the loads that stay."""

    def __init__(self, grid: Grid, field: Field, carrying: Sequence[int]) -> None:
        at = [grid.at[i] for i in carrying]
        self.carrying, self.places = carrying, [grid.xs[s] for s in at]
        self.falls, self.moment = left_of(grid, at[0])
        self.at_lines = [grid.ps[s] for s in at]
        softs = [1.0 / ei for ei in grid.eis]
        self.stretches = [
            Stretch(
                grid.xs[a : b + 1],
                softs[a:b],
                grid.ws[a:b],
                [0.0, *grid.ps[a + 1 : b + 1]],
                field.moments[a],
                field.shears[a],
            )
            for a, b in pairwise(at)
        ]
        self.moments = [s.cells.moments[0] for s in self.stretches] + [self.stretches[-1].cells.moments[-1]]


class Hung:
    """One load at its place, and what of the batten it is in; how heavy it is comes with each question."""

    __slots__ = ("at_line", "bend", "falls", "moment", "one", "span")

    def __init__(self, bend: Bend, x: float) -> None:
        self.bend = bend
        self.falls = self.moment = 0.0  # left of the first carrying line; what is right of the last the pulls tell
        self.at_line = self.span = -1
        self.one: OnePoint | None = None
        places = bend.places
        if x < places[0]:
            self.falls, self.moment = 1.0, places[0] - x
            return
        j = bisect_left(places, x)
        if j == len(places):
            return
        if places[j] == x:
            self.at_line = j
        else:
            self.span, self.one = j - 1, OnePoint(bend.stretches[j - 1], x)


class Bent:
    """The batten with the load that was set, once its weight and the pulls are known."""

    __slots__ = ("changes", "force", "hung", "moments", "shears")

    def __init__(self, hung: Hung, tensions: Sequence[float], force: float) -> None:
        self.hung, self.force = hung, force
        bend, one = hung.bend, hung.one
        moment = -(bend.moment + force * hung.moment)
        shear = -(bend.falls + force * hung.falls)
        self.moments = moments = [moment]
        self.changes = changes = [moment - bend.moments[0]]
        self.shears = shears = list[float]()
        carried = zip(bend.carrying, bend.at_lines, bend.stretches, bend.moments[1:], strict=False)
        for j, (i, stays, stretch, before) in enumerate(carried):
            shear += tensions[i] - stays
            weight, lever = stretch.weight, stretch.lever
            if j == hung.at_line:
                shear -= force
            elif j == hung.span and one is not None:
                weight += force
                lever += force * one.b
            shears.append(shear)
            moment += shear * stretch.length - lever
            shear -= weight
            moments.append(moment)
            changes.append(moment - before)

    def greatest_moment(self) -> Peak:
        """Moment of the greatest size, with its sign [N m], and where [m]."""
        bend, moments, changes, one = self.hung.bend, self.moments, self.changes, self.hung.one
        best = max(moments, key=abs)
        size, at = abs(best), bend.places[moments.index(best)]
        for j, stretch in enumerate(bend.stretches):
            fore, aft = changes[j], changes[j + 1]
            if j == self.hung.span and one is not None:
                peak, x = one.hump(self.force, fore, aft)
            else:
                if stretch.peak + fore <= size and stretch.peak + aft <= size:
                    continue
                peak, x = stretch.hump(fore, aft)
            if peak > size:
                best, at, size = peak, x, peak
        return best, at

    def sags_beyond(self, ratio: float) -> list[Sag]:
        """The greatest sag of each span, the spans left out that cannot sag by more than this share of their length."""
        found = []
        for j, stretch in enumerate(self.hung.bend.stretches):
            sag = self.sag(j, ratio * stretch.length)
            if sag is not None:
                found.append((*sag, stretch.length))
        return found

    def sag(self, j: int, allowed: float) -> Peak | None:
        """The greatest sag of a span and where, or nothing where it cannot be more than allowed."""
        stretch, fore, aft = self.hung.bend.stretches[j], self.changes[j], self.changes[j + 1]
        if j == self.hung.span and self.hung.one is not None:
            found = self.hung.one.greatest_sag(self.force, fore, aft)
            return (
                found or stretch.with_load(self.hung.one.x, self.force, self.moments[j], self.shears[j]).greatest_sag()
            )
        return stretch.greatest_sag(fore, aft) if stretch.may_sag(fore, aft) > allowed else None
