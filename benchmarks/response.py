"""One load moved along 500 places: pulls, moment, shear, stress, sag, tips.    python benchmarks/response.py."""

import sys
import time
from collections.abc import Callable, Sequence
from functools import partial
from itertools import pairwise
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from benchmarks.cases import Batten, batten, dice
from benchmarks.peers import Peer, installed
from benchmarks.timing import begin, race, table, verdict
from counterpoise.statics import Beam, PointLoad, Splice, Strength, StrengthSegment, response

OURS = "counterpoise response"


def main() -> None:
    """Print the time of the whole table, and that of pulls alone by each library."""
    begin("One load moved along 500 places (processor time)")
    for pieces in (8, 20):
        beam, lines, loads = batten(dice(5), pieces=pieces)
        xs = [beam.length * k / 499 for k in range(500)]
        moved = [PointLoad(x=0.0, force=500.0)]
        print(f"{pieces} loads that stay")
        # processor time: a bound in milliseconds should not hang on what else the machine does
        ours = partial(response, beam, lines, loads, moved, xs, strength=strength(beam))
        times = race({OURS: ours}, rounds=15, sample=0.05, clock=time.process_time)
        some = xs[::25]
        peers: dict[str, Callable[[], object]] = {
            f"{peer.name}, pulls alone": partial(pulls, peer, (beam, lines, loads), some) for peer in installed()
        }
        times |= {name: 25.0 * taken for name, taken in race(peers, rounds=5, clock=time.process_time).items()}
        table(times, OURS)
        verdict("milliseconds for the table", 1e3 * times[OURS], 15.0, at_most=True)


def strength(beam: Beam) -> Strength:
    """Two pipes, spliced in the middle."""
    ends = (0.0, beam.length / 2, beam.length)
    parts = [StrengthSegment(start=a, end=b, elastic_modulus=5.3e-6, area=5.2e-4) for a, b in pairwise(ends)]
    return Strength(segments=tuple(parts), splices=(Splice(x=ends[1]),))


def pulls(peer: Peer, one: Batten, xs: Sequence[float]) -> list[list[float]]:
    """Pulls by a library, place after place."""
    return [peer.hang(one[0], one[1], [*one[2], PointLoad(x=x, force=500.0)]) for x in xs]


if __name__ == "__main__":
    main()
