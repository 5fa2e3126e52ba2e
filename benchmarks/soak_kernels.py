"""The two kernels against each other on a great many difficult battens.

    python benchmarks/soak_kernels.py [battens] [first seed]

For each batten of tests/battens.py: hang; the same batten among many; and with five sets of trim errors. All must
agree to 1e-9 of the load in every pull, 1e-9 m in every gap, and in which lines are slack, but for a line just about to
pull. Prints the largest differences, and how many cases the arrays gave back to hang.
"""

import sys
import time
from collections import defaultdict
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from benchmarks.timing import begin
from counterpoise.statics import Hanging, Line, Tips, hang
from counterpoise.statics.many import battens, hang_battens, hang_many
from counterpoise.statics.many_equations import Array, Mask
from tests.battens import Batten, adversarial

BLOCK = 1000


class Tally:
    """What was compared, and the worst of it."""

    def __init__(self) -> None:
        self.compared = self.slack = self.alone = self.tips = 0
        self.pull = self.gap = 0.0

    def compare(self, seed: int, answer: Hanging, tensions: Array, gaps: Array, carrying: Mask) -> None:
        """Take one pair of answers in, or stop where they differ."""
        pull = float(np.abs(tensions - answer.tensions).max()) / answer.weight
        gap = float(np.abs(gaps - answer.gaps).max())
        for i, here in enumerate(carrying):
            near = answer.tensions[i] < 1e-9 * answer.weight and answer.gaps[i] < 1e-9
            if bool(here) != (i in answer.carrying) and not near:
                sys.exit(f"seed {seed}: line {i + 1} carries in one kernel and is slack in the other")
        if not (pull <= 1e-9 and gap <= 1e-9):
            sys.exit(f"seed {seed}: pulls differ by {pull:.3g} of the load, gaps by {gap:.3g} m")
        self.compared += 1
        self.slack += not carrying.all()
        self.pull, self.gap = max(self.pull, pull), max(self.gap, gap)


def main() -> None:
    """Run, and say what was found."""
    begin("Two kernels, one contract")
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 20_000
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    start, tally = time.perf_counter(), Tally()
    for low in range(first, first + count, BLOCK):
        block(range(low, min(low + BLOCK, first + count)), tally)
    print(f"{count} battens, {tally.compared} answers compared, {tally.slack} with a slack line, {tally.tips} tip")
    print(f"largest difference: pulls {tally.pull:.2g} of the load, gaps {tally.gap:.2g} m")
    print(f"given back to hang: {tally.alone}; {time.perf_counter() - start:.0f} s")


def block(seeds: range, tally: Tally) -> None:
    """Some battens, at once and in turn."""
    groups: dict[int, list[tuple[int, Batten]]] = defaultdict(list)
    for seed in seeds:
        batten = adversarial(seed)
        groups[len(batten[1])].append((seed, batten))
    for group in groups.values():
        found = hang_battens(battens([batten for _, batten in group]))
        tally.alone += found.alone
        gaps = found.gaps
        for k, (seed, batten) in enumerate(group):
            answer = hang(*batten)
            if isinstance(answer, Tips) != bool(found.tips[k]):
                sys.exit(f"seed {seed}: one kernel says that the batten tips")
            if isinstance(answer, Tips):
                tally.tips += 1
                continue
            tally.compare(seed, answer, found.tensions[k], gaps[k], found.carrying[k])
            trims(seed, batten, tally)


def trims(seed: int, batten: Batten, tally: Tally) -> None:
    """One batten in five cases of trim error."""
    beam, lines, loads = batten
    random = np.random.default_rng(seed)
    offsets = random.normal(0.0, random.choice([0.001, 0.02, 0.2]), (5, len(lines)))
    found = hang_many(beam, lines, loads, offsets)
    assert not isinstance(found, Tips)
    tally.alone += found.alone
    gaps = found.gaps
    for k, row in enumerate(offsets):
        pairs = zip(lines, row, strict=True)
        moved = [Line(x=a.x, flexibility=a.flexibility, offset=a.offset + float(b)) for a, b in pairs]
        answer = hang(beam, moved, loads)
        assert isinstance(answer, Hanging)
        tally.compare(seed, answer, found.tensions[k], gaps[k], found.carrying[k])


if __name__ == "__main__":
    main()
