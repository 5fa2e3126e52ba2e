"""Ladder trusses against the stiffness method in fifty digits (mpmath, BSD): how many digits ours has left."""

import pytest

from counterpoise.statics import HangingLadder, hang_ladder
from tests.ladder_exact import exact
from tests.ladders import marks, random_ladder


@pytest.mark.parametrize("seed", [1, 6, 15])
def test_pulls_are_right_to_a_trillionth_of_the_load_and_drops_to_a_hundred_billionth(seed: int) -> None:
    truss = random_ladder(seed)
    answer = hang_ladder(*truss)
    assert isinstance(answer, HangingLadder)
    pulls, top, bottom = exact(truss, answer.carrying)
    drop = max(abs(float(value)) for value in [*top, *bottom])
    for i, pull in zip(answer.carrying, pulls, strict=True):
        assert answer.tensions[i] == pytest.approx(float(pull), abs=1e-12 * answer.weight)
    for x, above, below in zip(marks(truss, loads=True), top, bottom, strict=True):
        assert answer.top.deflection(x) == pytest.approx(float(above), abs=1e-11 * drop)
        assert answer.bottom.deflection(x) == pytest.approx(float(below), abs=1e-11 * drop)
