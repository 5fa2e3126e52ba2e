"""Timing of several ways to the same answer, side by side in one process."""

import os
import platform
import statistics
import sys
import time
from collections.abc import Callable, Mapping

HARMFUL = ("OPENBLAS_CORETYPE", "OPENBLAS_L2_SIZE", "PYTHONDONTWRITEBYTECODE")  # slow down matrices, or imports


def begin(title: str) -> None:
    """Start this script again without settings that would spoil its times; then say what runs where."""
    if any(name in os.environ for name in HARMFUL):
        kept = {name: value for name, value in os.environ.items() if name not in HARMFUL}
        os.execve(sys.executable, [sys.executable, *sys.argv], kept)  # noqa: S606 - this very script
    print(f"{title}\nPython {platform.python_version()}, {os.cpu_count()} cores")


def race(
    ways: Mapping[str, Callable[[], object]],
    *,
    rounds: int = 15,
    sample: float = 0.02,
    clock: Callable[[], float] = time.perf_counter,
) -> dict[str, float]:
    """Median time of one call of each way [s]: samples of about the same length, taken in turns."""
    calls = {}
    for name, way in ways.items():
        way()  # what is done only once is not timed
        start = clock()
        way()
        calls[name] = max(1, round(sample / max(clock() - start, 1e-9)))
    samples: dict[str, list[float]] = {name: [] for name in ways}
    for _ in range(rounds):
        for name, way in ways.items():
            start = clock()
            for _ in range(calls[name]):
                way()
            samples[name].append((clock() - start) / calls[name])
    return {name: statistics.median(taken) for name, taken in samples.items()}


def table(times: Mapping[str, float], ours: str, *, per: float = 1.0, unit: float = 1e-3, word: str = "ms") -> None:
    """Each time, and how many times as long as ours it is."""
    for name, taken in times.items():
        ratio = taken / times[ours]
        print(f"  {name:<34}{taken / per / unit:>12.4g} {word}{ratio:>12.2f} x")


def verdict(what: str, ratio: float, bound: float, *, at_most: bool) -> None:
    """A ratio beside what is asked of it."""
    held = ratio <= bound if at_most else ratio >= bound
    print(
        f"  -> {what}: {ratio:.3g} ({'at most' if at_most else 'at least'} {bound:g}: {'held' if held else 'NOT HELD'})"
    )
