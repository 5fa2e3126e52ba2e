"""The short way of `hang`: handbook cases, and that what it finds is proven once more when the shape is asked for."""

from itertools import pairwise

import pytest

from counterpoise.statics import Beam, Line, Load, PointLoad, Segment, SpreadLoad, Unproven
from counterpoise.statics.chain import hang_plainly
from counterpoise.statics.hanging import Shape

EI = 25_000.0
PIPE = Beam(length=12.0, segments=(Segment(start=0.0, end=12.0, stiffness=EI),))
WEIGHT = SpreadLoad(start=0.0, end=12.0, per_length=40.0)


def tensions(lines: list[Line], loads: list[Load], beam: Beam = PIPE) -> tuple[float, ...]:
    found = hang_plainly(beam, lines, loads)
    assert found is not None
    return found.tensions


def test_three_even_spans_pull_as_the_handbook_says() -> None:
    # 0.4, 1.1, 1.1, 0.4 w l: T. G. Hicks, Civil Engineering Formulas, table 2.1
    assert tensions([Line(x=x) for x in (0.0, 4.0, 8.0, 12.0)], [WEIGHT]) == pytest.approx((64.0, 176.0, 176.0, 64.0))


def test_two_even_spans_with_a_point_load_in_one_pull_as_the_handbook_says() -> None:
    # P in the middle of the first of two spans: 13/32, 22/32, -3/32 P (AISC Manual, table 3-23, case 29), and w all
    # over: 3/8, 10/8, 3/8 w l (case 22 of the same table, from memory)
    found = tensions([Line(x=0.0), Line(x=6.0), Line(x=12.0)], [WEIGHT, PointLoad(x=3.0, force=320.0)])
    assert found == pytest.approx((90.0 + 130.0, 300.0 + 220.0, 90.0 - 30.0))


def test_a_spread_load_is_cut_at_the_lines() -> None:
    whole = tensions([Line(x=1.0), Line(x=5.0), Line(x=11.0)], [WEIGHT])
    cuts = [0.0, 1.0, 2.5, 5.0, 7.0, 11.0, 12.0]
    parts: list[Load] = [SpreadLoad(start=a, end=b, per_length=40.0) for a, b in pairwise(cuts)]
    assert tensions([Line(x=1.0), Line(x=5.0), Line(x=11.0)], parts) == pytest.approx(whole, rel=1e-13)


def test_an_outer_line_may_be_slack_and_its_load_is_carried_by_the_next() -> None:
    # the stage-left line is far too long: 12 m hang on lines at 0 and 8 m, so 480 N about 6 m
    found = hang_plainly(PIPE, [Line(x=0.0), Line(x=8.0), Line(x=12.0, offset=1.0)], [WEIGHT])
    assert found is not None
    assert found.carrying == (0, 1)
    assert found.tensions == pytest.approx((120.0, 360.0, 0.0))


def test_a_batten_of_two_stiffnesses_or_one_that_tips_is_left_to_the_search() -> None:
    halves = (Segment(start=0.0, end=6.0, stiffness=EI), Segment(start=6.0, end=12.0, stiffness=2 * EI))
    assert hang_plainly(Beam(length=12.0, segments=halves), [Line(x=1.0), Line(x=11.0)], [WEIGHT]) is None
    assert hang_plainly(PIPE, [Line(x=8.0), Line(x=11.0)], [WEIGHT]) is None


def test_pulls_that_the_march_does_not_bear_out_are_refused_when_the_shape_is_asked_for() -> None:
    lines = (Line(x=0.0), Line(x=6.0), Line(x=12.0))
    shape = Shape(of=(PIPE, lines, (WEIGHT,), (0, 1, 2)))
    with pytest.raises(Unproven, match="found in two ways"):
        shape.marched((180.0 - 1e-3, 600.0 + 2e-3, 180.0 - 1e-3))
