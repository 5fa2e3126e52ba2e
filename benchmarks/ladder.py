"""Ladder trusses: ours beside general-purpose frame libraries, in one run, on the same trusses.

    python -m benchmarks.ladder

Each library is told beforehand which lines carry, so that it solves once; ours finds that out, and proves its answer.
Asked of all: pull of every line, and the force and both end moments of every bar. Times are the least of several runs.
The libraries that can be imported are taken; those that cannot are said to be missing.
"""

import importlib
import importlib.metadata
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from counterpoise.statics import (
    Bar,
    ChordLoads,
    HangingLadder,
    Hanger,
    Ladder,
    Line,
    Load,
    PointLoad,
    hang_ladder,
    own_weight,
    pipe,
)
from tests.ladders import Truss, by_pynite, by_pystran, marks

FOOT = 0.3048
RUNS = 7


def truss(bays: int, count: int) -> Truss:
    """Two 1-1/2 in pipes 18 in apart with a spacer every 3 ft, on lines that miss the spacers, with eight pieces."""
    bar = Bar(section=pipe(0.04826, 0.003683), modulus=200e9)
    length = round(bays * 3 * FOOT, 6)  # a spacer and a line that differ by rounding are two nodes to a library
    ladder = Ladder(
        length=length,
        depth=1.5 * FOOT,
        spacers=tuple(round(k * length / bays, 6) for k in range(bays + 1)),
        top=bar,
        bottom=bar,
        spacer=bar,
    )
    step = length / count
    lines = [Line(x=round(step * (k + 0.5), 6), flexibility=5e-6, offset=0.004 * (k % 2)) for k in range(count)]
    pieces: list[Load] = [PointLoad(x=length * (0.07 + 0.11 * k), force=250.0 + 90.0 * (k % 3)) for k in range(8)]
    own = own_weight(ladder, top=40.0, bottom=40.0, spacer=15.0)
    return ladder, lines, ChordLoads(bottom=(*own.bottom, *pieces), top=own.top)


def by_opensees(one: Truss, carrying: Sequence[int]) -> tuple[list[float], list[float]]:
    """OpenSeesPy: compiled; nodes at spacers, lines and ends, loads on the members. Pulls, and forces of every bar."""
    ops = importlib.import_module("openseespy.opensees")
    ladder, lines, hung = one
    xs = marks(one, loads=False)
    count = len(xs)
    ops.wipe()
    ops.model("basic", "-ndm", 2, "-ndf", 3)
    for k, x in enumerate(xs):  # numbered pairwise, for a narrow band
        ops.node(2 * k, x, 0.0)
        ops.node(2 * k + 1, x, -ladder.depth)
    ops.fix(0, 1, 0, 0)
    ops.geomTransf("Linear", 1)
    ops.timeSeries("Constant", 1)
    ops.pattern("Plain", 1, 1)
    for chord, bar in enumerate((ladder.top, ladder.bottom)):
        area, inertia = bar.section.area, bar.section.second_moment
        for k in range(count - 1):
            ops.element(
                "elasticBeamColumn", 2 * k + chord, 2 * k + chord, 2 * k + 2 + chord, area, bar.modulus, inertia, 1
            )
        for load in hung.bottom if chord else hung.top:
            _opensees_load(ops, xs, chord, load)
    section = ladder.spacer.section
    for k, x in enumerate(ladder.spacers, start=2 * count):
        foot = 2 * xs.index(x) + 1
        ops.element(
            "elasticBeamColumn", k, foot, foot - 1, section.area, ladder.spacer.modulus, section.second_moment, 1
        )
    for i in carrying:
        k, ground = 2 * xs.index(lines[i].x), 10_000 + i
        ops.node(ground, lines[i].x, 0.0)
        ops.fix(ground, 1, 1, 1)
        ops.uniaxialMaterial("Elastic", i, 1.0 / lines[i].flexibility)
        ops.element("zeroLength", ground, k, ground, "-mat", i, "-dir", 2)
        ops.load(k, 0.0, -lines[i].offset / lines[i].flexibility, 0.0)
    ops.system("BandSPD")
    ops.numberer("RCM")
    ops.constraints("Plain")
    ops.integrator("LoadControl", 1.0)
    ops.algorithm("Linear")
    ops.analysis("Static", "-noWarnings")
    ops.analyze(1)
    pulls = [0.0] * len(lines)
    for i in carrying:
        pulls[i] = (-ops.nodeDisp(2 * xs.index(lines[i].x), 2) - lines[i].offset) / lines[i].flexibility
    bars = [*range(2 * count - 2), *range(2 * count, 2 * count + len(ladder.spacers))]
    return pulls, [force for k in bars for force in ops.eleResponse(k, "localForce")]


def _opensees_load(ops: object, xs: list[float], chord: int, load: Load) -> None:
    on = ops.eleLoad  # type: ignore[attr-defined]
    for k, (a, b) in enumerate(pairwise(xs)):
        if isinstance(load, PointLoad):
            if a <= load.x < b or load.x == b == xs[-1]:
                on("-ele", 2 * k + chord, "-type", "-beamPoint", -load.force, (load.x - a) / (b - a))
        elif load.start < b and load.end > a:  # the spread loads here run over whole members
            on("-ele", 2 * k + chord, "-type", "-beamUniform", -load.per_length)


@dataclass(frozen=True, slots=True)
class Peer:
    """A library, and how it is asked."""

    name: str
    package: str
    module: str
    pulls: Callable[[Truss, Sequence[int]], list[float]]


PEERS = (
    Peer("PyNite", "PyNiteFEA", "Pynite", lambda one, carrying: by_pynite(one, carrying).pulls),
    Peer("pystran", "pystran", "pystran", lambda one, carrying: by_pystran(one, carrying).pulls),
    Peer("OpenSeesPy", "openseespy", "openseespy.opensees", lambda one, carrying: by_opensees(one, carrying)[0]),
)


def least(act: Callable[[], object]) -> float:
    """The shortest of several runs [s]; quick acts are repeated within a run."""
    start = time.perf_counter()
    act()
    repeat = max(1, int(0.02 / (time.perf_counter() - start)))
    best = float("inf")
    for _ in range(RUNS):
        start = time.perf_counter()
        for _ in range(repeat):
            act()
        best = min(best, (time.perf_counter() - start) / repeat)
    return best


def main() -> None:
    """Print times and ratios."""
    for bays, count in ((8, 4), (14, 5), (20, 7)):
        one = truss(bays, count)
        answer = hang_ladder(*one)
        assert isinstance(answer, HangingLadder)
        slack = len(answer.tensions) - len(answer.carrying)
        print(f"{bays} bays, {count} lines, {slack} of them slack")

        def ours(one: Truss = one) -> object:
            found = hang_ladder(*one)
            assert isinstance(found, HangingLadder)
            return found.tensions, found.members

        base = least(ours)
        print(f"  ours                 {base * 1e3:8.3f} ms   (finds the slack lines, proves, extremes in every bar)")
        hanger, (_, lines, loads) = Hanger(one[0], [line.x for line in one[1]]), one
        loaded = hanger.condensed.loaded(loads)
        again = least(lambda: hanger.borne(lines, loaded))  # noqa: B023 - asked at once
        print(f"  ours, one more trim  {again * 1e3:8.3f} ms   (condensed before; pulls only)")
        for peer in PEERS:
            _compare(peer, one, answer, base)


def _compare(peer: Peer, one: Truss, answer: HangingLadder, base: float) -> None:
    try:
        importlib.import_module(peer.module)
    except (ImportError, RuntimeError):
        print(f"  {peer.name:<20} not installed")
        return
    name = f"{peer.name} {importlib.metadata.version(peer.package)}"
    found = peer.pulls(one, answer.carrying)
    apart = ""
    if peer.name != "pystran" or not any(line.flexibility == 0.0 for line in one[1]):
        apart = f"pulls apart by {max(abs(a - b) for a, b in zip(found, answer.tensions, strict=True)):.1e} N"
    taken = least(lambda: peer.pulls(one, answer.carrying))
    print(f"  {name:<20} {taken * 1e3:8.3f} ms   {taken / base:6.1f} x ours   {apart}")


if __name__ == "__main__":
    main()
