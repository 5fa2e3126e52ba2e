"""Eighty battens of twenty loads each: flat arrays beside each library.    python benchmarks/eighty_battens.py."""

import sys
import time
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from benchmarks.cases import Batten, batten, dice
from benchmarks.peers import installed
from benchmarks.timing import begin, race, table, verdict
from counterpoise.statics import Beam, Line, Load, hang
from counterpoise.statics.many import battens, hang_battens

OURS = "counterpoise hang_battens"


def main() -> None:
    """Print times and ratios."""
    begin("Eighty battens, twenty loads each")
    random = dice(2)
    given = [batten(random, pieces=20, short=2 if k % 8 == 0 else None) for k in range(80)]
    flat = battens(given)
    found = hang_battens(flat)
    print(f"{int((~found.carrying).any(axis=1).sum())} of 80 with a slack line")
    ways: dict[str, Callable[[], object]] = {
        OURS: lambda: hang_battens(flat),
        "counterpoise, arrays made anew": lambda: hang_battens(battens(given)),
        "counterpoise hang, one by one": lambda: one_by_one(hang, given),
    }
    peers = installed()
    for peer in peers:
        ways[f"{peer.name} {peer.version}"] = partial(one_by_one, peer.hang, given)
    times = race(ways, rounds=11, clock=time.process_time)  # other work on the machine counts less
    table(times, OURS)
    fastest = min(taken for name, taken in times.items() if not name.startswith("counterpoise"))
    verdict("fastest library / ours", fastest / times[OURS], 10.0, at_most=False)
    again = times["counterpoise, arrays made anew"]
    verdict("fastest library / ours with the arrays made anew", fastest / again, 10.0, at_most=False)


def one_by_one(
    solve: Callable[[Beam, Sequence[Line], Sequence[Load]], object], given: Sequence[Batten]
) -> list[object]:
    """Each batten in turn."""
    return [solve(*each) for each in given]


if __name__ == "__main__":
    main()
