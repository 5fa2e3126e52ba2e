"""Where a piece may hang along its batten, and the set as it would then be."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from fractions import Fraction

from counterpoise.app.workspace import Now
from counterpoise.checks import SetResult, hung_on, judge_again, neighbours_of
from counterpoise.errors import Refused
from counterpoise.rigging import RiggedBatten
from counterpoise.units import METRES_PER_INCH, from_centre


@dataclass(frozen=True, slots=True)
class Station:
    """A place the centre of a piece may take: in words, in metres from the stage-right end, and the set as it would be.

    `result` is None where the batten would tip.
    """

    words: str
    x: float
    result: SetResult | None


def stations_of(now: Now, label: str, piece: int, every: int = 1, near: float = 0.0) -> list[Station]:
    """The set as it would be with the centre of one piece at whole inches (metric: centimetres) that its batten has.

    At every so many of them counted from the centre line, and at each of them within `near` [m] of where it hangs now.
    Each is the full answer of the engine, so that what a page looks up is what a release computes.
    """
    hung = list(hung_on(now.result, label))
    batten = now.result.house.batten_called(label)
    if batten is None:
        raise Refused(f"Set {label} lacks a figure", "Find it out first.")
    if not 0 <= piece < len(hung):
        raise Refused(f"Set {label} has no piece number {piece + 1}", "Load the page again.")
    low, high = _reach(batten, piece)
    pulls = neighbours_of(now.result, label)
    where, what = hung[piece]
    found = []
    at = where.centre.number
    close = (max(low, at - near), min(high, at + near)) if near else None
    for words in _places(now.result.house.units, low, high, every, close):
        read_ = from_centre(words)
        centre = read_.best or 0.0
        hung[piece] = (replace(where, centre=replace(where.centre, text=words, low=centre, best=centre, high=centre,
                                                     form=read_.form, source=None)), what)  # fmt: skip
        one = judge_again(now.result, label, hung, pulls)
        found.append(Station(words, batten.beam.length / 2 + centre, one if one.forces is not None else None))
    return found


def _reach(rigged: RiggedBatten, piece: int) -> tuple[float, float]:
    """How far the centre may go either way of the batten's centre with all of the piece on the batten [m]."""
    one, half = rigged.pieces[piece], rigged.beam.length / 2
    centre = one.hung.centre.number
    spread = one.written.spread_over
    if spread is not None:
        return -half + spread.number / 2, half - spread.number / 2
    offsets = [x - half - centre for x, _ in one.points]
    return -half - min(offsets), half - max(offsets)


def _places(units: str, low: float, high: float, every: int, close: tuple[float, float] | None) -> list[str]:
    found = {every * n for n in _whole(units, low, high, every)}
    if close is not None:
        found |= set(_whole(units, *close, 1))
    return [_words(units, n) for n in sorted(found)]


def _whole(units: str, low: float, high: float, every: int) -> range:
    step = every * (METRES_PER_INCH if units == "us" else 0.01)
    return range(math.ceil(low / step - 1e-6), math.floor(high / step + 1e-6) + 1)


def _words(units: str, n: int) -> str:
    """A place as the hang writes it: `CL`, `1' 3" SL`, `0.38 m SR`."""
    if n == 0:
        return "CL"
    side = "SL" if n > 0 else "SR"
    if units != "us":
        return f"{float(Fraction(abs(n), 100)):.2f} m {side}"
    feet, inches = divmod(abs(n), 12)
    parts = ([f"{feet}'"] if feet else []) + ([f'{inches}"'] if inches else [])
    return " ".join([*parts, side])
