"""Which lines carry, and true extremes, on as many random battens as time allows: minutes, not seconds.

    python -m benchmarks.soak_slack [battens] [first seed]

Every answer is judged in fifty digits by another method (tests/fifty.py): no line may push and no slack line may be
stretched, which only the true choice of lines allows. Then boxes of doubts: no draw may lie beyond a proven extreme.
"""

import sys
import time
from collections.abc import Callable
from random import Random

from counterpoise.statics import Hanging, Tips, Unproven, extremes, hang
from tests.battens import Batten, adversarial
from tests.crowded import crowded, ordinary
from tests.fifty import solve
from tests.properties.test_range_laws import doubtful, drawn, hung_at, weight_of
from tests.validation.test_slack_lines import ROUND, centre, violation


def judge(kind: Callable[[int], Batten], seeds: range) -> str:
    """Counts over battens of one kind, for print."""
    hung = slack = tips = wrong = refused = 0
    worst = 0.0
    for seed in seeds:
        batten = kind(seed)
        try:
            answer = hang(*batten)
        except Unproven:
            refused += 1
            continue
        if isinstance(answer, Tips):
            tips += 1
            wrong += batten[1][0].x <= centre(batten) <= batten[1][-1].x
            continue
        true = solve(*batten, answer.carrying)
        scale = max(true.pulls)
        miss = float(max(abs(a - b) for a, b in zip(answer.tensions, true.pulls, strict=True)) / scale)
        hung, slack, worst = hung + 1, slack + (len(answer.carrying) < len(answer.tensions)), max(worst, miss)
        wrong += violation(batten, true) > ROUND or miss > 1e-9
    return (
        f"{kind.__name__}: {hung} hung, {slack} of them with slack lines, {tips} tip, {refused} refused, "
        f"{wrong} wrong; greatest miss of a pull {worst:.1e} of the greatest"
    )


def judge_extremes(seeds: range, draws: int) -> str:
    """Counts over boxes of doubts, for print."""
    boxes = unproven = beyond = 0
    for seed in seeds:
        case, random = doubtful(seed), Random(seed)
        found = extremes(*case)
        if isinstance(found, Tips):
            continue
        boxes, unproven = boxes + 1, unproven + (not found.proven)
        allowed = 1e-8 * weight_of(case)
        for _ in range(draws):
            one = hung_at(case, drawn(random, case[3]))
            if isinstance(one, Hanging):
                rows = zip(one.tensions, found.low, found.high, strict=True)
                out = any(not low.limit - allowed <= pull <= high.limit + allowed for pull, low, high in rows)
                beyond += out or abs(one.largest_moment[0]) > found.moment.limit * (1 + 1e-9)
    return f"extremes: {boxes} boxes, {unproven} not proven, {beyond} of {boxes * draws} draws beyond"


def main() -> None:
    """Judge and say."""
    count, first = (int(word) for word in (*sys.argv[1:], *("3000", "1000000")[len(sys.argv) - 1 :]))
    for kind in (ordinary, crowded, adversarial):
        start = time.perf_counter()
        print(judge(kind, range(first, first + count)), f"({time.perf_counter() - start:.0f} s)", flush=True)
    start = time.perf_counter()
    print(judge_extremes(range(first, first + count // 10), 100), f"({time.perf_counter() - start:.0f} s)")


if __name__ == "__main__":
    main()
