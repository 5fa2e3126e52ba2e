"""Room left at 400 places: the path of the growing load beside bisection with each library.

    python benchmarks/room_left.py

The libraries bisect the extra load to a millionth of itself. Each trial is one solution on a mesh of 10 elements a
span: pulls and deflections are the library's, moments at the nodes follow from the pulls. They are timed at a few of
the places. What they miss between nodes ours does not.
"""

import sys
from itertools import pairwise
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from benchmarks.cases import STIFFNESS, Batten, batten, dice
from benchmarks.peers import Peer, installed, places
from benchmarks.timing import begin, race, table, verdict
from counterpoise.statics import Beam, Limits, PointLoad, Room, Row, Segment, SpreadLoad, room_left

OURS = "counterpoise room_left"
PLACES, SOME, CAP = 400, 5, 20_000.0
LINE, MOMENT, SAG = 3000.0, 2000.0, 1.0 / 180.0


def main() -> None:
    """Print times for the 400 places, and how far the answers are apart."""
    begin("Room left at 400 places")
    one = batten(dice(6), pieces=8)
    beam, lines, loads = one
    rows = tuple(
        Row(coefficients=tuple(float(i == k) for i in range(len(lines))), limit=LINE) for k in range(len(lines))
    )
    limits = Limits(rows=rows, moment=MOMENT, sag_ratio=SAG)
    xs = [beam.length * (k + 0.5) / PLACES for k in range(PLACES)]
    found = room_left(beam, lines, loads, limits, xs, cap=CAP)
    times = race({OURS: lambda: room_left(beam, lines, loads, limits, xs, cap=CAP)}, rounds=9, sample=0.05)
    some = list(range(PLACES // (2 * SOME), PLACES, PLACES // SOME))
    ways = {}
    for peer in installed():
        apart = [abs(bisected(peer, one, xs[k]) / found[k].force - 1.0) for k in some]
        print(
            f"{peer.name}: answers differ by at most {100 * max(apart):.2g} % (its mesh misses what lies between nodes)"
        )
        ways[f"{peer.name}, bisecting"] = lambda peer=peer: [bisected(peer, one, xs[k]) for k in some]
    times |= {name: taken * PLACES / SOME for name, taken in race(ways, rounds=3).items()}
    table(times, OURS)
    fastest = min(taken for name, taken in times.items() if name != OURS)
    verdict("fastest library / ours", fastest / times[OURS], 200.0, at_most=False)
    print("  first limits met:", ", ".join(sorted({told(room) for room in found})))


def told(room: Room) -> str:
    """The limit that was met, in words."""
    return f"line {room.which + 1}" if isinstance(room.which, int) else str(room.which)


def bisected(peer: Peer, one: Batten, x: float) -> float:
    """The largest extra load at x within the limits, by trials of the library."""
    trial = Trial(peer, one, x)
    low, high = 0.0, CAP
    while high - low > 1e-6 * high:
        middle = 0.5 * (low + high)
        if trial.holds(middle):
            low = middle
        else:
            high = middle
    return low


class Trial:
    """A batten on a mesh, with one more load at x."""

    def __init__(self, peer: Peer, one: Batten, x: float) -> None:
        self.peer, (beam, self.lines, self.loads), self.x = peer, one, x
        at = [0.0, *(line.x for line in self.lines), beam.length]
        cuts = {round(a + (b - a) * k / 10, 9) for a, b in pairwise(at) for k in range(11)}
        ends = sorted(cuts - {0.0} - {round(line.x, 9) for line in self.lines} | {line.x for line in self.lines})
        ends[-1] = beam.length
        steps = tuple(Segment(start=a, end=b, stiffness=STIFFNESS) for a, b in zip([0.0, *ends], ends, strict=False))
        self.beam = Beam(length=beam.length, segments=steps)
        self.xs = np.array(places(self.beam, self.lines))
        self.at = np.array([line.x for line in self.lines])
        self.reach = np.maximum(self.xs[:, None] - self.at, 0.0)
        self.hung = sum(lever(self.xs, load) for load in self.loads)

    def holds(self, force: float) -> bool:
        """Whether pulls, moments and sags are within the limits."""
        pulls, drops = self.peer.shape(self.beam, self.lines, [*self.loads, PointLoad(x=self.x, force=force)])
        if max(pulls) > LINE:
            return False
        moments = self.reach @ np.array(pulls) - self.hung - force * np.maximum(self.xs - self.x, 0.0)
        if np.abs(moments).max() > MOMENT:
            return False
        carrying = [float(a) for a, pull in zip(self.at, pulls, strict=True) if pull > 0.0]
        y = np.array(drops)
        for a, b in pairwise(carrying):
            inside = (self.xs >= a) & (self.xs <= b)
            u = (self.xs[inside] - a) / (b - a)
            sag = y[inside] - (1.0 - u) * y[inside][0] - u * y[inside][-1]
            if np.abs(sag).max() > SAG * (b - a):
                return False
        return True


def lever(xs: NDArray[np.float64], load: PointLoad | SpreadLoad) -> NDArray[np.float64]:
    """Moment of a load about each place to its right."""
    if isinstance(load, PointLoad):
        return np.asarray(load.force * np.maximum(xs - load.x, 0.0))
    near, far = np.maximum(xs - load.end, 0.0), np.maximum(xs - load.start, 0.0)
    return np.asarray(0.5 * load.per_length * (far**2 - near**2))


if __name__ == "__main__":
    main()
