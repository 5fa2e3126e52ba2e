"""A load moved along the batten: refusals and edges. That it equals hang at every place is a law in properties."""

import pytest

from counterpoise.errors import OutOfRange
from counterpoise.statics import (
    Beam,
    Line,
    Load,
    PointLoad,
    Response,
    Segment,
    Splice,
    SpreadLoad,
    Strength,
    StrengthSegment,
    Tips,
    response,
)

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


def sections(*, until: float, splice: float) -> Strength:
    parts = ((0.0, 5.0, 5.0e-6), (5.0, until, 2.0e-6))
    return Strength(
        segments=tuple(StrengthSegment(start=a, end=b, elastic_modulus=s, area=5.0e-4) for a, b, s in parts),
        splices=(Splice(x=splice),),
    )


def test_a_load_on_a_tip_bends_shears_and_lowers_it_as_the_table_says() -> None:
    # AISC Manual, table 3-23: beam overhanging one support, cases 24 (uniform load over all) and 26 (load at the tip)
    w, l, a, p, ei = 40.0, 8.0, 2.0, 500.0, 25_000.0
    lines = [Line(x=0.0), Line(x=8.0)]
    strength = sections(until=10.0, splice=9.0)
    (answer,) = response(PIPE, lines, [WEIGHT], [PointLoad(x=0.0, force=p)], [10.0], strength=strength)
    assert isinstance(answer, Response)
    support = -(w * a * a / 2 + p * a)
    assert (answer.moment, answer.moment_x) == pytest.approx((support, 8.0))
    right = w / (2 * l) * (l * l - a * a) - p * a / l  # the far line
    assert answer.tensions == pytest.approx((right, w * (l + a) + p - right))
    assert (answer.shear, answer.shear_x) == pytest.approx((p + w * a, 8.0))  # the greater side of the line
    assert (answer.stress, answer.stress_x) == pytest.approx((-support / 2.0e-6, 8.0))  # in the weaker pipe
    assert answer.splices == pytest.approx((-(p * 1.0 + w / 2),))
    tip = w * a / (24 * ei) * (4 * a * a * l - l**3 + 3 * a**3) + p * a * a * (l + a) / (3 * ei)
    assert answer.tips == pytest.approx((0.0, tip))
    assert answer.gaps == (0.0, 0.0)


def test_a_line_left_slack_by_the_moved_load_tells_its_gap() -> None:
    lines = [Line(x=2.0), Line(x=5.0, offset=0.05), Line(x=8.0)]
    off, on = response(
        PIPE, lines, [SpreadLoad(start=0.0, end=10.0, per_length=1.0)], [PointLoad(x=0.0, force=500.0)], [2.0, 5.0]
    )
    assert isinstance(off, Response)
    assert isinstance(on, Response)
    # w l4 5/384 less the overhangs' moments w a2/2 l2/8 (standard): how far the middle of the pipe hangs
    middle = (5 * 6**4 / 384 - 2 * 6**2 / 8) / 25_000.0
    assert off.carrying == (0, 2)
    assert off.gaps == pytest.approx((0.0, 0.05 - middle, 0.0))
    assert on.carrying == (0, 1, 2)
    assert on.gaps == (0.0, 0.0, 0.0)


@pytest.mark.parametrize(("until", "splice"), [(9.0, 5.0), (10.0, 11.0)])
def test_sections_that_do_not_fit_the_batten_are_refused(until: float, splice: float) -> None:
    with pytest.raises(OutOfRange):
        response(PIPE, LINES, [WEIGHT], [PointLoad(x=0.0, force=1.0)], [5.0],
                 strength=sections(until=until, splice=splice))  # fmt: skip
