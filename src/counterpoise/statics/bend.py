"""Greatest moment and greatest sags of a choice of carrying lines, with loads added at places of their own."""

from collections.abc import Iterable, Sequence
from itertools import pairwise

from counterpoise.statics.field import Field
from counterpoise.statics.grid import Grid, left_of
from counterpoise.statics.one_point import OnePoint
from counterpoise.statics.stretch import Cells, More, Peak, Stretch

Point = tuple[float, float]  # x [m], force [N]
Spread = tuple[float, float, float]  # start [m], end [m], per length [N/m]
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


class Added:
    """Loads at their places, and which spans they are in; how heavy they are comes with each question."""

    __slots__ = ("at_lines", "bend", "falls", "inside", "moment", "single")

    def __init__(self, bend: Bend, points: Iterable[Point], spreads: Iterable[Spread]) -> None:
        self.bend = bend
        self.falls = self.moment = 0.0  # left of the first carrying line; what is right of the last the pulls tell
        self.at_lines = [0.0] * len(bend.places)
        self.single: dict[int, tuple[OnePoint, float]] = {}  # spans with one point load, and its force
        self.inside: dict[int, More] = {}  # spans with more than that
        for x, force in points:
            self._point(x, force)
        for start, end, per_length in spreads:
            self._spread(start, end, per_length)

    def _point(self, x: float, force: float) -> None:
        places = self.bend.places
        if x < places[0]:
            self.falls += force
            self.moment += force * (places[0] - x)
            return
        for j, place in enumerate(places):
            if x <= place:
                if x == place:
                    self.at_lines[j] += force
                elif j - 1 in self.single or j - 1 in self.inside:
                    self._more(j - 1).add_point(x, force)
                else:
                    self.single[j - 1] = OnePoint(self.bend.stretches[j - 1], x), force
                return

    def _spread(self, start: float, end: float, per_length: float) -> None:
        places = self.bend.places
        if start < places[0]:
            stop = min(end, places[0])
            force = per_length * (stop - start)
            self.falls += force
            self.moment += force * (places[0] - 0.5 * (start + stop))
        for j in range(len(places) - 1):
            a, b = max(start, places[j]), min(end, places[j + 1])
            if a < b:
                self._more(j).add_spread(a, b, per_length)

    def _more(self, j: int) -> More:
        found = self.inside.get(j)
        if found is None:
            found = self.inside[j] = More(self.bend.stretches[j])
            if j in self.single:
                one, force = self.single.pop(j)
                found.add_point(one.x, force)
        return found


class Bent:
    """The batten with the added loads `times` as heavy, once the pulls are known."""

    __slots__ = ("added", "cells", "changes", "moments", "shears", "times")

    def __init__(self, added: Added, tensions: Sequence[float], times: float) -> None:
        self.added, self.times = added, times
        bend, inside, single = added.bend, added.inside, added.single
        moment = -(bend.moment + times * added.moment)
        shear = -(bend.falls + times * added.falls)
        self.moments = moments = [moment]
        self.changes = changes = [moment - bend.moments[0]]
        self.shears: list[float] = []
        shears = self.shears
        self.cells: dict[int, Cells] = {}
        carried = zip(bend.carrying, bend.at_lines, added.at_lines, bend.stretches, bend.moments[1:], strict=False)
        for j, (i, stays, more, stretch, before) in enumerate(carried):
            shear += tensions[i] - stays - times * more
            shears.append(shear)
            weight, lever = stretch.weight, stretch.lever
            if j in single:
                one, force = single[j]
                weight += times * force
                lever += times * force * one.b
            elif j in inside:
                extra = inside[j]
                self.cells[j] = stretch.loaded(extra, times, moment, shear)
                weight += times * extra.weight
                lever += times * extra.lever
            moment += shear * stretch.length - lever
            shear -= weight
            moments.append(moment)
            changes.append(moment - before)

    def greatest_moment(self) -> Peak:
        """Moment of the greatest size, with its sign [N m], and where [m]."""
        bend, moments, changes = self.added.bend, self.moments, self.changes
        single, times = self.added.single, self.times
        best = max(moments, key=abs)
        size, at = abs(best), bend.places[moments.index(best)]
        for j, stretch in enumerate(bend.stretches):
            fore, aft = changes[j], changes[j + 1]
            if j in single:
                one, force = single[j]
                peak, x = one.hump(times * force, fore, aft)
            elif j in self.cells:
                peak, x = self.cells[j].hump()
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
        for j, stretch in enumerate(self.added.bend.stretches):
            sag = self.sag(j, ratio * stretch.length)
            if sag is not None:
                found.append((*sag, stretch.length))
        return found

    def greatest_sags(self) -> tuple[float, float]:
        """The sag of the greatest size of any span [m], and the greatest size of sag over span of any."""
        bend, cells, changes, single = self.added.bend, self.cells, self.changes, self.added.single
        best = size = ratio = 0.0
        waiting = []
        for j, stretch in enumerate(bend.stretches):
            if j in single or j in cells:  # where a load hangs it mostly sags most
                best, size, ratio = _larger(self._loaded_sag(j)[0], stretch.length, best, ratio)
            else:
                fore, aft = changes[j], changes[j + 1]
                waiting.append((-stretch.may_sag(fore, aft), j, fore, aft))
        waiting.sort()
        for minus, j, fore, aft in waiting:
            stretch = bend.stretches[j]
            if -minus > size or -minus > ratio * stretch.length:
                best, size, ratio = _larger(stretch.greatest_sag(fore, aft)[0], stretch.length, best, ratio)
        return best, ratio

    def sag(self, j: int, allowed: float) -> Peak | None:
        """The greatest sag of a span and where, or nothing where it cannot be more than allowed."""
        if j in self.added.single or j in self.cells:
            return self._loaded_sag(j)
        fore, aft = self.changes[j], self.changes[j + 1]
        stretch = self.added.bend.stretches[j]
        return stretch.greatest_sag(fore, aft) if stretch.may_sag(fore, aft) > allowed else None

    def _loaded_sag(self, j: int) -> Peak:
        """The greatest sag of a span with added loads in it, and where."""
        single = self.added.single.get(j)
        if single is None:
            return self.cells[j].greatest_sag()
        one, force = single
        found = one.greatest_sag(self.times * force, self.changes[j], self.changes[j + 1])
        if found is None:
            more = More(one.stretch)
            more.add_point(one.x, force)
            found = one.stretch.loaded(more, self.times, self.moments[j], self.shears[j]).greatest_sag()
        return found


def _larger(sag: float, length: float, best: float, ratio: float) -> tuple[float, float, float]:
    """The larger of two sags, its size, and the larger ratio."""
    if abs(sag) > abs(best):
        best = sag
    return best, abs(best), max(ratio, abs(sag) / length)
