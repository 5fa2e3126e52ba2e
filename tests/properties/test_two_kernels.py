"""One contract, kept in three ways: the closed forms and the search of `hang`, and the arrays of `many`.

Each way has its own equations: closed forms span by span, cells that are marched, dense arrays with every gap as an
unknown. Where they agree on battens built to be difficult, none of them is right by luck. `hang` itself is held
against outside solvers in tests/validation/test_independent_solver.py; benchmarks/soak_kernels.py runs this for longer.
"""

from collections import defaultdict

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis.strategies import integers

from counterpoise.statics import Beam, Hanging, Line, Segment, Tips, hang
from counterpoise.statics.chain import hang_plainly
from counterpoise.statics.grid import cut
from counterpoise.statics.many import Many, battens, hang_battens, hang_many
from counterpoise.statics.slack import hang_on
from tests.battens import Batten, adversarial

seeds = integers(0, 10**9)
EQUAL = 1.0e-9  # of the load


def alike(answer: Hanging, tensions: object, gaps: object, carrying: object) -> None:
    """The same pulls and gaps, and the same lines slack, but for a line just about to pull."""
    assert answer.tensions == pytest.approx(np.asarray(tensions), abs=EQUAL * answer.weight, rel=0)
    assert answer.gaps == pytest.approx(np.asarray(gaps), abs=1e-9, rel=1e-9)
    mine = [i in answer.carrying for i in range(len(answer.tensions))]
    for i, (a, b) in enumerate(zip(mine, np.asarray(carrying), strict=True)):
        assert a == b or (answer.tensions[i] < EQUAL * answer.weight and answer.gaps[i] < 1e-9)


def level(batten: Batten) -> Batten:
    """The same batten of one stiffness."""
    beam, lines, loads = batten
    one = Segment(start=0.0, end=beam.length, stiffness=beam.segments[0].stiffness)
    return Beam(length=beam.length, segments=(one,)), lines, loads


@given(seeds)
@settings(max_examples=60)
def test_closed_forms_and_the_search_find_the_same(seed: int) -> None:
    for k in range(30):
        beam, lines, loads = level(adversarial(seed + k))
        searched = hang_on(cut(beam, lines, loads), lines, loads)
        quick = hang_plainly(beam, lines, loads)
        if isinstance(searched, Tips):
            assert quick is None
        elif quick is not None:
            found = [i in quick.carrying for i in range(len(lines))]
            alike(searched, quick.tensions, quick.gaps, found)
            if k < 3:
                assert quick.largest_moment[0] == pytest.approx(searched.largest_moment[0], rel=1e-9)


def test_closed_forms_settle_nearly_every_batten_of_one_stiffness() -> None:
    hung = [batten for seed in range(1000) if isinstance(hang(*(batten := level(adversarial(seed)))), Hanging)]
    assert sum(hang_plainly(*batten) is not None for batten in hung) > 0.95 * len(hung)


@given(seeds)
@settings(max_examples=40)
def test_many_battens_at_once_hang_as_each_does_alone(seed: int) -> None:
    groups: dict[int, list[Batten]] = defaultdict(list)
    for k in range(60):
        batten = adversarial(seed + k)
        groups[len(batten[1])].append(batten)
    for group in groups.values():
        found = hang_battens(battens(group))
        gaps = found.gaps
        for k, batten in enumerate(group):
            answer = hang(*batten)
            assert bool(found.tips[k]) == isinstance(answer, Tips)
            if isinstance(answer, Hanging):
                alike(answer, found.tensions[k], gaps[k], found.carrying[k])


@given(seeds)
@settings(max_examples=60)
def test_one_batten_in_many_cases_of_trim_hangs_as_it_does_in_each(seed: int) -> None:
    beam, lines, loads = adversarial(seed)
    random = np.random.default_rng(seed)
    offsets = random.normal(0.0, random.choice([0.001, 0.02, 0.2]), (40, len(lines)))
    found = hang_many(beam, lines, loads, offsets)
    if isinstance(found, Tips):
        assert hang(beam, lines, loads) == found
        return
    assert isinstance(found, Many)
    gaps = found.gaps
    for k, row in enumerate(offsets):
        pairs = zip(lines, row, strict=True)
        moved = [Line(x=a.x, flexibility=a.flexibility, offset=a.offset + float(b)) for a, b in pairs]
        answer = hang(beam, moved, loads)
        assert isinstance(answer, Hanging)
        alike(answer, found.tensions[k], gaps[k], found.carrying[k])


@given(seeds)
@settings(max_examples=60)
def test_no_case_pushes_and_every_case_carries_the_load(seed: int) -> None:
    beam, lines, loads = adversarial(seed)
    offsets = np.random.default_rng(seed).normal(0.0, 0.05, (300, len(lines)))
    found = hang_many(beam, lines, loads, offsets)
    if isinstance(found, Tips):
        return
    weight = sum(load.force for load in loads)
    assert (found.tensions >= 0.0).all()
    assert found.tensions.sum(axis=1) == pytest.approx(np.full(len(offsets), weight), rel=1e-9)
    assert ((found.tensions == 0.0) | (found.gaps == 0.0)).all()
    assert (found.gaps >= 0.0).all()
