"""Ladder trusses: ours beside general-purpose frame libraries, in one run, on the same trusses.

    python benchmarks/ladder.py

Asked of all, twice: the pulls of lines that only pull; and with them the forces at both ends of every bar. The
libraries know no line that only pulls in a linear run, so a line that pushes is cut and one that would be stretched is
put back, one line a step, until neither happens. Ours finds the slack lines and proves both answers. What only ours
gives is timed beside: the exact extremes of moment between the ends, and the stress, of every bar (`members`). Times
are the least of several runs. The libraries that can be imported are taken; those that cannot are said to be missing.
"""

import importlib
import importlib.metadata
import math
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import pairwise
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from benchmarks.timing import begin, verdict
from counterpoise.statics import (
    Bar,
    ChordLoads,
    Hanger,
    HangingLadder,
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
CHUNK = 0.003  # shortest time taken at once [s]
SPENT = 0.6  # time spent on each figure [s]


def truss(bays: int, count: int, trim: float) -> Truss:
    """Two 1-1/2 in pipes 18 in apart with a spacer every 3 ft, on lines that miss the spacers, with eight pieces.

    Trim: every second line is this much too long [m].
    """
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
    lines = [Line(x=round(step * (k + 0.5), 6), flexibility=5e-6, offset=trim * (k % 2)) for k in range(count)]
    pieces: list[Load] = [
        PointLoad(x=round(length * (0.07 + 0.11 * k), 6), force=250.0 + 90.0 * (k % 3)) for k in range(8)
    ]
    own = own_weight(ladder, top=40.0, bottom=40.0, spacer=15.0)
    return ladder, lines, ChordLoads(bottom=(*own.bottom, *pieces), top=own.top)


def by_opensees(one: Truss, carrying: Sequence[int], forces: bool) -> tuple[list[float], list[float], list[float]]:
    """OpenSeesPy: compiled; nodes at spacers, lines and ends, loads on the members. Pulls, gaps, and bar forces."""
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
    drops = [-ops.nodeDisp(2 * xs.index(line.x), 2) for line in lines]
    pulls = [0.0] * len(lines)
    for i in carrying:
        pulls[i] = (drops[i] - lines[i].offset) / lines[i].flexibility
    gaps = [
        0.0 if i in carrying else line.offset - drop for i, (line, drop) in enumerate(zip(lines, drops, strict=True))
    ]
    bars = [*range(2 * count - 2), *range(2 * count, 2 * count + len(ladder.spacers))] if forces else []
    return pulls, gaps, [force for k in bars for force in ops.eleResponse(k, "localForce")]


def _opensees_load(ops: object, xs: list[float], chord: int, load: Load) -> None:
    on = ops.eleLoad  # type: ignore[attr-defined]
    for k, (a, b) in enumerate(pairwise(xs)):
        if isinstance(load, PointLoad):
            if a <= load.x < b or load.x == b == xs[-1]:
                on("-ele", 2 * k + chord, "-type", "-beamPoint", -load.force, (load.x - a) / (b - a))
        elif load.start < b and load.end > a:  # the spread loads here run over whole members
            on("-ele", 2 * k + chord, "-type", "-beamUniform", -load.per_length)


Ask = Callable[[Truss, Sequence[int], bool], tuple[list[float], list[float]]]


@dataclass(frozen=True, slots=True)
class Peer:
    """A library, and how it is asked with these lines acting both ways: pulls and gaps; with the bar forces or not."""

    name: str
    package: str
    module: str
    ask: Ask

    def hang(self, one: Truss, forces: bool) -> list[float]:
        """Pulls of lines that only pull."""
        lines, weight = one[1], one[2].weight
        acting = list(range(len(lines)))
        for _ in range(10 * len(lines)):
            pulls, gaps = self.ask(one, acting, forces)
            worst = min(acting, key=lambda i: pulls[i])
            if pulls[worst] < -1e-7 * weight and len(acting) > 2:
                acting.remove(worst)
                continue
            short = [i for i in range(len(lines)) if i not in acting and gaps[i] < -1e-9]
            if not short:
                return pulls
            acting = sorted([*acting, min(short, key=lambda i: gaps[i])])
        return pulls


def ask_pynite(one: Truss, acting: Sequence[int], _: bool) -> tuple[list[float], list[float]]:
    """The forces are read in any case; that is little beside the rest."""
    found = by_pynite(one, acting)
    return found.pulls, found.gaps


def ask_pystran(one: Truss, acting: Sequence[int], _: bool) -> tuple[list[float], list[float]]:
    """As ask_pynite."""
    found = by_pystran(one, acting)
    return found.pulls, found.gaps


def ask_opensees(one: Truss, acting: Sequence[int], forces: bool) -> tuple[list[float], list[float]]:
    """Its licence does not allow every use, so nothing of the project asks for it."""
    return by_opensees(one, acting, forces)[:2]


PEERS = (
    Peer("PyNite", "PyNiteFEA", "Pynite", ask_pynite),
    Peer("pystran", "pystran", "pystran", ask_pystran),
    Peer("OpenSeesPy", "openseespy", "openseespy.opensees", ask_opensees),
)


def least(act: Callable[[], object]) -> float:
    """The shortest of many short runs [s]: other work on the machine only ever makes one longer."""
    act()
    start = time.perf_counter()
    act()
    once = time.perf_counter() - start
    repeat = max(1, int(CHUNK / once))
    best = once
    for _ in range(max(3, int(SPENT / (repeat * once)))):
        start = time.perf_counter()
        for _ in range(repeat):
            act()
        best = min(best, (time.perf_counter() - start) / repeat)
    return best


def ours(one: Truss) -> HangingLadder:
    """The pulls, proven."""
    found = hang_ladder(*one)
    assert isinstance(found, HangingLadder)
    return found


def main() -> None:
    """Print times and ratios."""
    begin("Ladder trusses")
    worst = [math.inf, math.inf]
    for bays, count, trim in ((8, 4, 0.0), (14, 5, 0.0), (20, 7, 0.0), (8, 4, 0.02), (14, 5, 0.02), (20, 7, 0.02)):
        one = truss(bays, count, trim)
        answer = ours(one)
        slack = len(answer.tensions) - len(answer.carrying)
        print(f"{bays} bays, {count} lines, {slack} of them slack" + " " * 16 + "pulls      and ends of bars")
        asked = (partial(ours, one), lambda: ours(one).end_forces)  # noqa: B023 - asked at once
        base = least(asked[0]), least(asked[1])
        print(f"  ours                             {base[0] * 1e3:9.3f} ms        {base[1] * 1e3:9.3f} ms")
        ratios = [ratio for peer in PEERS for ratio in _compare(peer, one, answer, asked)]
        worst = [min(a, *ratios[k::2], a) for k, a in enumerate(worst)]
        members = least(lambda: ours(one).members)  # noqa: B023 - asked at once
        print(f"  ours, with extremes and stress   {' ' * 9}           {members * 1e3:9.3f} ms")
        hanger, (_, lines, loads) = Hanger(one[0], [line.x for line in one[1]]), one
        loaded = hanger.condensed.loaded(loads)
        again = least(lambda: hanger.hang_loaded(lines, loaded))  # noqa: B023 - asked at once
        print(f"  ours, one more trim              {again * 1e3:9.3f} ms        (condensed before)")
    verdict("fastest library / ours, pulls", worst[0], 1.0, at_most=False)
    verdict("fastest library / ours, ends of bars", worst[1], 1.0, at_most=False)


def _compare(
    peer: Peer, one: Truss, answer: HangingLadder, asked: tuple[Callable[[], object], Callable[[], object]]
) -> list[float]:
    """How many times as long as ours the library takes, for pulls and with the bars; in turns, printed."""
    try:
        importlib.import_module(peer.module)
    except (ImportError, RuntimeError):  # OpenSeesPy turns a missing library into a RuntimeError
        print(f"  {peer.name:<20} not installed")
        return []
    name = f"{peer.name} {importlib.metadata.version(peer.package)}"
    apart = max(abs(a - b) for a, b in zip(peer.hang(one, False), answer.tensions, strict=True)) / answer.weight
    taken = least(lambda: peer.hang(one, False)), least(lambda: peer.hang(one, True))
    ratios = [t / least(way) for t, way in zip(taken, asked, strict=True)]
    cells = [f"{t * 1e3:9.3f} ms {ratio:5.2f} x" for t, ratio in zip(taken, ratios, strict=True)]
    print(f"  {name:<30}   {'  '.join(cells)}   pulls apart by {apart:.0e} of the weight")
    return ratios


if __name__ == "__main__":
    main()
