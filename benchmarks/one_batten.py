"""One batten: `hang` beside each library, model built anew for each.    python benchmarks/one_batten.py."""

import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from benchmarks.cases import batten, dice
from benchmarks.peers import installed
from benchmarks.timing import begin, race, table, verdict
from counterpoise.statics import Hanging, hang

OURS = "counterpoise hang"


def main() -> None:
    """Print times and ratios for three battens."""
    begin("One batten")
    for words, pieces, short in (("5 loads", 5, None), ("20 loads", 20, None), ("20 loads, one line slack", 20, 2)):
        beam, lines, loads = batten(dice(1), pieces=pieces, short=short)
        answer = hang(beam, lines, loads)
        assert isinstance(answer, Hanging)
        print(f"{words}: {len(lines) - len(answer.carrying)} of {len(lines)} lines slack")
        ways: dict[str, Callable[[], object]] = {OURS: partial(hang, beam, lines, loads)}
        for peer in installed():
            pulls = peer.hang(beam, lines, loads)
            worst = max(abs(a - b) for a, b in zip(pulls, answer.tensions, strict=True)) / answer.weight
            assert worst < 1e-6, (peer.name, worst)
            ways[f"{peer.name} {peer.version}"] = partial(peer.hang, beam, lines, loads)
        times = race(ways)
        table(times, OURS, unit=1e-6, word="us")
        fastest = min(taken for name, taken in times.items() if name != OURS)
        verdict("ours / fastest library", times[OURS] / fastest, 0.7, at_most=True)


if __name__ == "__main__":
    main()
