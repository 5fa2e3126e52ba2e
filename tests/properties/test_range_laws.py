"""Laws of the extremes: nothing in the box lies beyond them, and each is attained where it says.

The battens are drawn to lose lines to slack inside the box. The looking is done by hang alone: dense samples, corners,
and a random local search that climbs from the best of them, so nothing here knows how the extremes were found.
"""

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis.strategies import integers

from counterpoise.statics import Beam, Hanging, Line, Load, Tips, hang
from counterpoise.statics.doubts import Doubt, at_factors, tilted, trimmed, weighing
from counterpoise.statics.ranges import Extremes, extremes
from tests.battens import adversarial

seeds = integers(0, 10**9)
Case = tuple[Beam, list[Line], list[Load], list[Doubt]]


def doubtful(seed: int) -> Case:
    """An adversarial batten of which weights, trims and sometimes the arbor's tilt are in doubt."""
    random = Random(seed)
    beam, lines, loads = adversarial(seed)
    lines = [Line(x=n.x, flexibility=n.flexibility, offset=0.2 * n.offset) for n in lines]
    doubts = []
    for load in loads[1:]:
        low = random.uniform(0.3, 1.0)
        doubts.append(weighing([load], low, random.uniform(low, 1.6)))
    doubts += trimmed(lines, random.uniform(0.001, 0.02))
    if random.random() < 0.3:
        doubts.append(tilted([random.uniform(-0.3, 0.3) for _ in lines], 0.02))
    return beam, lines, loads[:1], doubts


def hung_at(case: Case, factors: list[float]) -> Hanging | Tips:
    beam, lines, loads, doubts = case
    return hang(beam, *at_factors(lines, loads, doubts, factors))


def drawn(random: Random, doubts: list[Doubt]) -> list[float]:
    corner = random.random()
    return [
        random.choice([d.low, d.high]) if random.random() < corner else random.uniform(d.low, d.high) for d in doubts
    ]


def weight_of(case: Case) -> float:
    _, _, loads, doubts = case
    return sum(load.force for load in loads) + sum(load.force * d.high for d in doubts for load in d.loads)


def within(hung: Hanging, found: Extremes, weight: float) -> None:
    for pull, low, high in zip(hung.tensions, found.low, found.high, strict=True):
        assert low.limit - 1e-8 * weight <= pull <= high.limit + 1e-8 * weight
    assert abs(hung.largest_moment[0]) <= found.moment.limit * (1 + 1e-9)
    ratio = max(abs(sag) / (end - start) for start, end, sag, _ in hung.largest_sags)
    assert ratio <= found.sag_ratio.limit * (1 + 1e-9) + 1e-12


@settings(max_examples=60)
@given(seeds)
def test_nothing_drawn_from_the_box_lies_beyond_the_extremes(seed: int) -> None:
    case, random = doubtful(seed), Random(seed + 1)
    found = extremes(*case)
    for _ in range(60):
        hung = hung_at(case, drawn(random, case[3]))
        if isinstance(hung, Tips):
            assert isinstance(found, Tips) or found.tips is not None
            continue
        assert isinstance(found, Extremes)
        within(hung, found, weight_of(case))


@settings(max_examples=60)
@given(seeds)
def test_every_extreme_is_attained_where_it_says_and_its_limit_meets_it(seed: int) -> None:
    case = doubtful(seed)
    found = extremes(*case)
    if isinstance(found, Tips):
        return
    weight = weight_of(case)
    assert found.proven
    for side in (found.low, found.high):
        for i, extreme in enumerate(side):
            for factor, doubt in zip(extreme.factors, case[3], strict=True):
                assert doubt.low - 1e-12 <= factor <= doubt.high + 1e-12
            hung = hung_at(case, list(extreme.factors))
            assert isinstance(hung, Hanging)
            assert hung.tensions[i] == extreme.value
            assert extreme.limit == pytest.approx(extreme.value, abs=1e-6 * weight)
    for peak in (found.moment, found.sag_ratio):  # at one part in 10,000 the way along the batten stops being halved
        assert peak.value <= peak.limit <= peak.value * 1.0003
    bent, sagged = hung_at(case, list(found.moment.factors)), hung_at(case, list(found.sag_ratio.factors))
    assert isinstance(bent, Hanging)
    assert isinstance(sagged, Hanging)
    assert abs(bent.largest_moment[0]) == pytest.approx(found.moment.value, rel=1e-12)
    ratio = max(abs(sag) / (end - start) for start, end, sag, _ in sagged.largest_sags)
    assert ratio == pytest.approx(found.sag_ratio.value, rel=1e-12)


@settings(max_examples=12)
@given(seeds)
def test_a_search_that_climbs_does_not_get_beyond_the_extremes(seed: int) -> None:
    case, random = doubtful(seed), Random(seed + 2)
    found = extremes(*case)
    if isinstance(found, Tips):
        return
    weight, doubts = weight_of(case), case[3]
    for i in range(len(case[1])):
        for sign, limit in ((1.0, found.high[i].limit), (-1.0, -found.low[i].limit)):
            best, at = -float("inf"), drawn(random, doubts)
            for step in range(150):
                reach = 0.5 ** (step // 25)
                new = [
                    min(
                        d.high,
                        max(d.low, f + random.choice([0.0, 1.0, 1.0]) * random.gauss(0, reach) * (d.high - d.low)),
                    )
                    for f, d in zip(at, doubts, strict=True)
                ]
                hung = hung_at(case, new)
                if isinstance(hung, Hanging) and sign * hung.tensions[i] >= best:
                    best, at = sign * hung.tensions[i], new
            assert best <= limit + 1e-8 * weight


@given(seeds)
def test_a_longer_line_never_pulls_more(seed: int) -> None:
    # The least complementary energy is concave in the offsets and its slope in a line's offset is that line's pull.
    beam, lines, loads = adversarial(seed)
    before = -1.0
    for k in range(8):  # line 2 from long to short
        longer = [
            Line(x=n.x, flexibility=n.flexibility, offset=n.offset - 0.005 * k * (i == 1)) for i, n in enumerate(lines)
        ]
        hung = hang(beam, longer, loads)
        if isinstance(hung, Tips):
            return
        assert hung.tensions[1] >= before - 1e-9 * hung.weight
        before = hung.tensions[1]


@settings(max_examples=30)
@given(seeds)
def test_a_wider_box_has_wider_extremes(seed: int) -> None:
    beam, lines, loads, doubts = doubtful(seed)
    inner = [
        Doubt(
            low=d.low + 0.3 * (d.high - d.low), high=d.high - 0.2 * (d.high - d.low), loads=d.loads, offsets=d.offsets
        )
        for d in doubts
    ]
    wide, narrow = extremes(beam, lines, loads, doubts), extremes(beam, lines, loads, inner)
    if isinstance(wide, Tips) or isinstance(narrow, Tips):
        return
    allowed = 1e-8 * weight_of((beam, lines, loads, doubts))
    for a, b in zip(wide.high, narrow.high, strict=True):
        assert a.limit >= b.value - allowed
    for a, b in zip(wide.low, narrow.low, strict=True):
        assert a.limit <= b.value + allowed
    assert wide.moment.limit >= narrow.moment.value * (1 - 1e-9)


@settings(max_examples=30)
@given(seeds)
def test_the_worst_of_many_trials_is_never_beyond_the_proven_extremes(seed: int) -> None:
    case = doubtful(seed)
    proven, tried = extremes(*case), extremes(*case, most_lines=1)
    if isinstance(proven, Tips):
        assert isinstance(tried, Tips)
        return
    assert isinstance(tried, Extremes)
    assert not tried.proven
    allowed = 1e-8 * weight_of(case)
    for a, b in zip(tried.high, proven.high, strict=True):
        assert a.value <= b.limit + allowed
    for a, b in zip(tried.low, proven.low, strict=True):
        assert a.value >= b.limit - allowed
    assert tried.moment.value <= proven.moment.limit * (1 + 1e-9)
