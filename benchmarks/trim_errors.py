"""A million trim errors of one batten.    python benchmarks/trim_errors.py [cases].

The libraries are timed on a few hundred of the same cases: model built anew for each case, and, for the fastest, the
model kept and only what the errors change put in anew (which serves only cases without a slack line). All in turns, in
time of the processor, of all threads: other work on the machine counts less.
"""

import importlib
import sys
import time
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from benchmarks.cases import Batten, batten, dice
from benchmarks.peers import Peer, installed, opensees, places
from benchmarks.timing import begin, race, table, verdict
from counterpoise.statics import Line
from counterpoise.statics.many import Many, hang_many

OURS = "counterpoise hang_many"
SAMPLE = 50


def main() -> None:
    """Print times for each case and ratios, with few slack lines and with many."""
    begin("Trim errors of one batten")
    cases = int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000
    beam, lines, loads = batten(dice(3), pieces=20)
    for words, spread, bound in (("10 mm", 0.010, 500.0), ("30 mm", 0.030, 500.0), ("300 mm", 0.300, 100.0)):
        offsets = np.random.default_rng(4).normal(0.0, spread, (cases, len(lines)))
        found = hang_many(beam, lines, loads, offsets)
        assert isinstance(found, Many)
        some = np.any(~found.carrying, axis=1)
        print(
            f"Trim errors of {words} (standard deviation): {100 * some.mean():.3g} % of {cases} cases with a slack line"
        )
        sampled = [moved(lines, row) for row in offsets[:SAMPLE]]
        ways: dict[str, Callable[[], object]] = {OURS: partial(hang_many, beam, lines, loads, offsets)}
        for peer in installed():
            for case, pulls in zip(sampled, found.tensions, strict=False):
                other = peer.hang(beam, case, loads)
                assert max(abs(np.array(other) - pulls)) < 1e-6 * pulls.sum(), peer.name
            ways[f"{peer.name}, anew"] = partial(in_turn, peer, (beam, lines, loads), sampled)
        if "OpenSeesPy, anew" in ways and bool(found.carrying[:SAMPLE].all()):
            ways["OpenSeesPy, model kept"] = partial(kept, (beam, lines, loads), sampled)
        taken = race(ways, rounds=9, sample=0.1, clock=time.process_time)  # of all cases, and of the sample
        times = {name: t / (cases if name == OURS else SAMPLE) for name, t in taken.items()}
        table(times, OURS, unit=1e-6, word="us a case")
        fastest = min(t for name, t in times.items() if name.endswith("anew"))
        verdict("fastest library / ours", fastest / times[OURS], bound, at_most=False)
        if "OpenSeesPy, model kept" in times:
            kept_so = times["OpenSeesPy, model kept"] / times[OURS]
            verdict("fastest library with its model kept / ours", kept_so, 500.0, at_most=False)


def in_turn(peer: Peer, one: Batten, cases: Sequence[Sequence[Line]]) -> list[list[float]]:
    """Pulls by a library, the model built anew for each case."""
    return [peer.hang(one[0], case, one[2]) for case in cases]


def moved(lines: Sequence[Line], row: Sequence[float]) -> list[Line]:
    """The lines with these trim errors."""
    return [Line(x=a.x, flexibility=a.flexibility, offset=a.offset + float(b)) for a, b in zip(lines, row, strict=True)]


def kept(one: Batten, cases: Sequence[Sequence[Line]]) -> list[list[float]]:
    """Pulls by OpenSeesPy, the model built once; in each case only the forces that stand for the errors change."""
    beam, lines, loads = one
    ops = importlib.import_module("openseespy.opensees")
    opensees(beam, lines, loads, range(len(lines)))
    xs = places(beam, lines)
    nodes = [xs.index(line.x) for line in lines]
    found = []
    for case in cases:
        ops.remove("loadPattern", 2)
        ops.pattern("Plain", 2, 1)
        for node, line in zip(nodes, case, strict=True):
            ops.load(node, 0.0, -line.offset / line.flexibility, 0.0)
        ops.analyze(1)
        found.append([(-ops.nodeDisp(n, 2) - a.offset) / a.flexibility for n, a in zip(nodes, case, strict=True)])
    return found


if __name__ == "__main__":
    main()
