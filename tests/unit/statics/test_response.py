"""A load moved along the batten: refusals and edges. That it equals hang at every place is a law in properties."""

import pytest

from counterpoise.errors import OutOfRange
from counterpoise.statics import Beam, Line, Load, PointLoad, Response, Segment, SpreadLoad, Tips, response

PIPE = Beam(length=10.0, segments=(Segment(start=0.0, end=10.0, stiffness=25_000.0),))
LINES = [Line(x=2.0), Line(x=8.0)]
WEIGHT = SpreadLoad(start=0.0, end=10.0, per_length=40.0)


def test_a_load_moved_along_is_shared_by_the_lever_and_tips_the_batten_beyond_the_lines() -> None:
    beyond, first, middle = response(PIPE, LINES, [WEIGHT], [PointLoad(x=0.0, force=900.0)], [0.0, 2.0, 5.0])
    # 400 N at 3 m inside the line against 900 N at 2 m outside it
    assert isinstance(beyond, Tips)
    assert (beyond.centre, beyond.first, beyond.last) == pytest.approx((400 * 5 / 1300, 2.0, 8.0))
    assert isinstance(first, Response)
    assert isinstance(middle, Response)
    assert first.tensions == pytest.approx([1100.0, 200.0])
    assert middle.tensions == pytest.approx([650.0, 650.0])
    # in the middle: P l / 4 + w l2 / 8 - w a2 / 2 (standard)
    assert (middle.moment, middle.moment_x) == pytest.approx((900 * 6 / 4 + 40 * 36 / 8 - 40 * 4 / 2, 5.0))
    assert middle.sag_ratio == pytest.approx(middle.sag / 6.0)


def test_several_loads_move_together_each_with_its_own_place() -> None:
    pair: list[Load] = [PointLoad(x=-1.0, force=300.0), SpreadLoad(start=0.0, end=2.0, per_length=150.0)]
    (answer,) = response(PIPE, LINES, [WEIGHT], pair, [4.0])
    assert isinstance(answer, Response)
    # 300 N at 3 m and 300 N about 5 m: levers of 5 m and 3 m about the far line, 6 m away
    assert answer.tensions == pytest.approx([200 + 250 + 150, 200 + 50 + 150])


@pytest.mark.parametrize("x", [-0.1, 9.5, float("nan")])
def test_a_place_where_a_load_would_hang_off_the_batten_is_refused(x: float) -> None:
    with pytest.raises(OutOfRange):
        response(PIPE, LINES, [WEIGHT], [SpreadLoad(start=0.0, end=1.0, per_length=10.0)], [x])


def test_nowhere_asked_is_nothing_answered() -> None:
    assert response(PIPE, LINES, [WEIGHT], [PointLoad(x=0.0, force=1.0)], []) == ()
