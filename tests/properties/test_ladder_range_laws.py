"""Laws of the extremes of a ladder truss: nothing in the box lies beyond them, and each is attained where it says.

The looking is done by hang alone: draws, corners, and a random search that climbs, so nothing here knows how the
extremes were found.
"""

from collections.abc import Callable
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis.strategies import integers

from counterpoise.statics import (
    ChordLoads,
    Doubt,
    Hanger,
    HangingLadder,
    LadderExtremes,
    Line,
    Tips,
    extremes_on_ladder,
    trimmed,
)
from counterpoise.statics.doubts import trimmed_at
from counterpoise.statics.straight_ladders import loads_at
from tests.ladders import random_ladder

seeds = integers(0, 10**9)
PARTS = ("top", "bottom", "spacer")
Case = tuple[Hanger, list[Line], ChordLoads, list[Doubt]]


def doubtful(seed: int) -> Case:
    """A random ladder of which every load but the chords' own, and every trim, is in doubt."""
    random = Random(seed)
    ladder, lines, loads = random_ladder(seed)
    doubts = []
    for load in loads.bottom[1:]:
        low = random.uniform(0.3, 1.0)
        doubts.append(Doubt(low=low, high=random.uniform(low, 1.6), loads=(load,)))
    for load in loads.top[1:]:
        low = random.uniform(0.3, 1.0)
        doubts.append(Doubt(low=low, high=random.uniform(low, 1.6), top=(load,)))
    doubts += trimmed(lines, random.uniform(0.001, 0.013))
    hanger = Hanger(ladder, [line.x for line in lines])
    return hanger, lines, ChordLoads(bottom=loads.bottom[:1], top=loads.top[:1]), doubts


def hung_at(case: Case, factors: list[float]) -> HangingLadder | Tips:
    hanger, lines, loads, doubts = case
    return hanger.hang(trimmed_at(lines, doubts, factors), loads_at(loads, doubts, factors))


def drawn(random: Random, doubts: list[Doubt]) -> list[float]:
    corner = random.random()
    return [
        random.choice([d.low, d.high]) if random.random() < corner else random.uniform(d.low, d.high) for d in doubts
    ]


def weight_of(case: Case) -> float:
    _, _, loads, doubts = case
    return loads.weight + sum(load.force * d.high for d in doubts for load in (*d.loads, *d.top))


def stress_in(part: str) -> Callable[[HangingLadder], float]:
    return lambda one: max(bar.stress for bar in one.members if bar.part == part)


def moment_in(part: str) -> Callable[[HangingLadder], float]:
    return lambda one: max(abs(bar.moment) for bar in one.members if bar.part == part)


def sag_of(chord: str) -> Callable[[HangingLadder], float]:
    return lambda one: max(abs(sag) / (b - a) for a, b, sag, _ in getattr(one, chord).largest_sags)


def peaks_of(found: LadderExtremes) -> list[tuple[Callable[[HangingLadder], float], float, float, tuple[float, ...]]]:
    """What is measured, and value, limit and factors of its extreme."""
    pairs = [(stress_in(part), found.stress([part])) for part in PARTS]
    pairs += [(moment_in(part), found.moment([part])) for part in PARTS]
    pairs += [(sag_of(chord), found.sag_ratio(chord)) for chord in PARTS[:2]]
    return [(measure, one.value, one.limit, one.factors) for measure, one in pairs]


@settings(max_examples=25)
@given(seeds)
def test_nothing_drawn_from_the_box_lies_beyond_the_extremes(seed: int) -> None:
    case, random = doubtful(seed), Random(seed + 1)
    found = extremes_on_ladder(*case)
    weight = weight_of(case)
    peaks = [] if isinstance(found, Tips) else peaks_of(found)
    gaps = [] if isinstance(found, Tips) else [found.gap(i).limit for i in range(len(case[1]))]
    for _ in range(30):
        hung = hung_at(case, drawn(random, case[3]))
        if isinstance(hung, Tips):
            assert isinstance(found, Tips) or found.tips is not None
            continue
        assert isinstance(found, LadderExtremes)
        for pull, low, high in zip(hung.tensions, found.low, found.high, strict=True):
            assert low.limit - 1e-8 * weight <= pull <= high.limit + 1e-8 * weight
        for gap, most in zip(hung.gaps, gaps, strict=True):
            assert gap <= most + 1e-9
        for measure, _, limit, _ in peaks:
            assert measure(hung) <= limit * (1 + 1e-9)


@settings(max_examples=25)
@given(seeds)
def test_every_extreme_is_attained_where_it_says_and_its_limit_meets_it(seed: int) -> None:
    case = doubtful(seed)
    found = extremes_on_ladder(*case)
    if isinstance(found, Tips):
        return
    assert found.proven
    weight = weight_of(case)
    for side in (found.low, found.high):
        for i, extreme in enumerate(side):
            for factor, doubt in zip(extreme.factors, case[3], strict=True):
                assert doubt.low - 1e-12 <= factor <= doubt.high + 1e-12
            hung = hung_at(case, list(extreme.factors))
            assert isinstance(hung, HangingLadder)
            assert hung.tensions[i] == extreme.value
            assert extreme.limit == pytest.approx(extreme.value, abs=1e-6 * weight)
    for i in range(len(case[1])):
        gap = found.gap(i)
        hung = hung_at(case, list(gap.factors))
        assert isinstance(hung, HangingLadder)
        assert hung.gaps[i] == gap.value
        assert gap.limit == pytest.approx(gap.value, rel=1e-4, abs=1e-8)  # taken a millionth inside
    for measure, value, limit, factors in peaks_of(found):
        hung = hung_at(case, list(factors))
        assert isinstance(hung, HangingLadder)
        assert measure(hung) == pytest.approx(value, rel=1e-12)
        assert value <= limit <= value * 1.0003  # at one part in 10,000 the way along the truss stops being halved


@settings(max_examples=10)
@given(seeds)
def test_a_search_that_climbs_does_not_get_beyond_the_extremes(seed: int) -> None:
    case, random = doubtful(seed), Random(seed + 2)
    found = extremes_on_ladder(*case)
    if isinstance(found, Tips):
        return
    doubts, line = case[3], random.randrange(len(case[1]))
    part, chord = random.choice(PARTS), random.choice(PARTS[:2])
    aims: list[tuple[Callable[[HangingLadder], float], float]] = [
        (lambda one: one.tensions[line], found.high[line].limit + 1e-8 * weight_of(case)),
        (lambda one: -one.tensions[line], -found.low[line].limit + 1e-8 * weight_of(case)),
        (lambda one: one.gaps[line], found.gap(line).limit + 1e-9),
        (stress_in(part), found.stress([part]).limit * (1 + 1e-9)),
        (sag_of(chord), found.sag_ratio(chord).limit * (1 + 1e-9)),
    ]
    for measure, most in aims:
        best, at = -float("inf"), drawn(random, doubts)
        for step in range(80):
            reach = 0.5 ** (step // 16)
            moves = [random.choice([0.0, 1.0, 1.0]) * random.gauss(0, reach) for _ in doubts]
            new = [
                min(d.high, max(d.low, f + move * (d.high - d.low)))
                for d, f, move in zip(doubts, at, moves, strict=True)
            ]
            hung = hung_at(case, new)
            if isinstance(hung, HangingLadder) and (value := measure(hung)) >= best:
                best, at = value, new
        assert best <= most


@settings(max_examples=15)
@given(seeds)
def test_the_worst_of_many_trials_is_never_beyond_the_proven_extremes(seed: int) -> None:
    case = doubtful(seed)
    proven, tried = extremes_on_ladder(*case), extremes_on_ladder(*case, most_lines=1)
    if isinstance(proven, Tips):
        assert isinstance(tried, Tips)
        return
    assert isinstance(tried, LadderExtremes)
    assert not tried.proven
    for a, b in zip(tried.high, proven.high, strict=True):
        assert a.value <= b.limit + 1e-8 * weight_of(case)
    assert tried.stress().value <= proven.stress().limit * (1 + 1e-9)
    assert tried.stress().limit == float("inf")
