"""What would keep a set within what its lock holds: another stack, a limit of travel, or else a hold that hauls."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from counterpoise.balance.best import balances_between, best_stack, extremes, most_small_bricks
from counterpoise.balance.flying import flying_heights
from counterpoise.balance.stack import Stack, fits, pipe_weight
from counterpoise.balance.travel import Span, out_of_balance
from counterpoise.rigging import RiggedSet
from counterpoise.units.constants import STANDARD_GRAVITY as GRAVITY

_AROUND = 4  # bricks either way of the best count that are looked at
_CLOSE = 1e-4  # [m]
_ROUNDING = 1e-6  # [N]


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """Batten heights from one to another [m]."""

    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldNeeded:
    """What a hold must do where no stack is within: the most it holds [N at the batten] each way, and where.

    The set has to move through those heights, so it must haul: one that only parks holds it still and no more.
    """

    arbor: float
    batten: float
    bands: tuple[Band, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposals:
    """Alternatives to a stack with which a set is past its lock somewhere in its flying range; each one verified.

    `centred` is what more on the arbor would put the middle of its out of balance at zero [kg], below 0 where less;
    `stack` is the nearest to it in whole bricks that keeps the whole range within, None where none does; `travel` the
    heights within which the present stack may fly, None where it is past the lock at both ends; `hold` what is needed
    where neither helps, for the stack that needs least (`least`).
    """

    centred: float
    stack: Stack | None
    travel: Band | None
    least: Stack
    hold: HoldNeeded | None


def proposals(rigged: RiggedSet, stack: Stack, arbor: float, batten: float, carries: float | None = None) -> Proposals:
    """What would keep the set within its lock over its whole flying range.

    Args:
        rigged: the set.
        stack: what is on the arbor, or meant to be.
        arbor: how arbor-heavy it may be on its lock [N at the batten].
        batten: how batten-heavy.
        carries: what the arbor may carry with its bricks [N]; None where that is not known, and not looked at.

    Weights are anywhere within what is known of them. Whether a stack can be put on in steps is not asked here.
    """
    heights = flying_heights(rigged)

    def over(one: Stack) -> float:
        spans = [out_of_balance(rigged, one, height) for height in heights]
        return max(max(span.high - arbor, -span.low - batten) for span in spans)

    near = [one for one in _near(rigged) if fits(rigged, one) and _borne(rigged, one, carries)]
    near = near or [pipe_weight(rigged)]
    least = min(near, key=lambda one: (round(max(over(one), 0.0), 6), _off(rigged, one), one.count))
    is_within = over(least) <= _ROUNDING
    low, high = extremes(rigged, stack)
    travel = _travel(rigged, stack, heights, arbor, batten)
    hold = None if is_within else _needed(rigged, least, heights, arbor, batten)
    return Proposals(centred=-rigged.purchase * (low + high) / 2 / GRAVITY, stack=least if is_within else None,
                     travel=travel, least=least, hold=hold)  # fmt: skip


def _near(rigged: RiggedSet) -> list[Stack]:
    own, best = pipe_weight(rigged), best_stack(rigged)
    return [Stack(large, small) for large in range(max(own.bricks, best.bricks - _AROUND), best.bricks + _AROUND + 1)
            for small in range(own.small, most_small_bricks(rigged) + 1)]  # fmt: skip


def _borne(rigged: RiggedSet, stack: Stack, carries: float | None) -> bool:
    """True where the arbor may carry it, weights at their heaviest."""
    mass = rigged.arbor_mass + rigged.arbor_doubt + stack.mass(rigged) + stack.doubt(rigged)
    return carries is None or GRAVITY * mass <= carries


def _off(rigged: RiggedSet, stack: Stack) -> float:
    low, high = extremes(rigged, stack)
    return round(max(abs(low), abs(high)), 6)


def _is_within(span: Span, arbor: float, batten: float) -> bool:
    return span.high <= arbor + _ROUNDING and -span.low <= batten + _ROUNDING


def _travel(rigged: RiggedSet, stack: Stack, heights: Sequence[float], arbor: float, batten: float) -> Band | None:
    """From the lower end as far up as it may go; else from the upper end as far down."""

    def within(height: float) -> bool:
        return _is_within(out_of_balance(rigged, stack, height), arbor, batten)

    if within(heights[0]):
        return Band(low=heights[0], high=_reaches(heights, within))
    if within(heights[-1]):
        return Band(low=_reaches(heights[::-1], within), high=heights[-1])
    return None


def _reaches(heights: Sequence[float], within: Callable[[float], bool]) -> float:
    """The last height that is within, going from the first; told from the side that is within."""
    for here, there in pairwise(heights):
        if not within(there):
            good, bad = here, there
            while abs(bad - good) > _CLOSE:
                middle = (good + bad) / 2
                good, bad = (middle, bad) if within(middle) else (good, middle)
            return good
    return heights[-1]


def _needed(rigged: RiggedSet, stack: Stack, heights: Sequence[float], arbor: float, batten: float) -> HoldNeeded:
    spans = {height: out_of_balance(rigged, stack, height) for height in heights}
    most_arbor = max((one.high for one in spans.values() if one.high > arbor + _ROUNDING), default=0.0)
    most_batten = max((-one.low for one in spans.values() if -one.low > batten + _ROUNDING), default=0.0)

    def within(height: float) -> bool:
        return _is_within(out_of_balance(rigged, stack, height), arbor, batten)

    bands: list[Band] = []
    for low, high in pairwise(_with_the_middle(rigged, stack, heights, within)):
        if within(low) and within(high):
            continue
        first = low if not within(low) else _reaches((low, high), within)
        last = high if not within(high) else _reaches((high, low), within)
        if bands and first - bands[-1].high < 2 * _CLOSE:
            bands[-1] = Band(low=bands[-1].low, high=last)
        else:
            bands.append(Band(low=first, high=last))
    return HoldNeeded(arbor=most_arbor, batten=most_batten, bands=tuple(bands))


def _with_the_middle(
    rigged: RiggedSet, stack: Stack, heights: Sequence[float], within: Callable[[float], bool]
) -> list[float]:
    """The heights, and between two that are past the lock, one arbor-heavy and one batten-heavy, where it balances."""
    found = [heights[0]]
    for low, high in pairwise(heights):
        if not within(low) and not within(high):
            middle = balances_between(rigged, stack, low, high)
            found += [] if middle is None or middle in (low, high) else [middle]
        found.append(high)
    return found
