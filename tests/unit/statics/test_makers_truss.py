"""Makers' trusses. The figures of the table are invented; expected numbers are by hand."""

from dataclasses import replace

import pytest

from counterpoise.errors import OutOfRange
from counterpoise.statics import Hanging, Line, LoadTable, MakersTruss, SpreadLoad, TableRow, hang

TABLE = LoadTable(
    rows=(
        TableRow(span=4.0, uniform=900.0, centre=1800.0, third_points=1350.0),
        TableRow(span=6.0, uniform=400.0, centre=1200.0),
        TableRow(span=8.0, uniform=210.0, centre=840.0),
    ),
    source="invented",
)
TRUSS = MakersTruss(length=12.0, stiffness=1.0e6, allowable_moment=1500.0, allowable_shear=1000.0, source="invented")


def hanging(per_length: float, *places: float) -> Hanging:
    answer = hang(TRUSS.beam, [Line(x=x) for x in places], [SpreadLoad(start=0.0, end=12.0, per_length=per_length)])
    assert isinstance(answer, Hanging)
    return answer


def test_a_published_span_gives_the_published_load() -> None:
    assert TABLE.allowable("uniform", 6.0) == 400.0
    assert TABLE.allowable("centre", 4.0) == 1800.0
    assert TABLE.allowable("third points", 6.0) is None


def test_between_two_spans_the_longer_one_counts() -> None:
    assert TABLE.allowable("uniform", 4.5) == 400.0
    # a straight line between the rows would allow more than the section: w = 8 M / l2 with M = 1800 N m
    assert 900.0 + (400.0 - 900.0) * 0.25 > 8 * 1800.0 / 4.5**2


@pytest.mark.parametrize("span", [3.9, 8.1])
def test_beyond_the_table_nothing_is_said(span: float) -> None:
    with pytest.raises(OutOfRange, match="ask the maker"):
        TABLE.allowable("uniform", span)


def test_another_kind_of_load_is_refused() -> None:
    with pytest.raises(OutOfRange, match="kind of load"):
        TABLE.allowable("quarter points", 6.0)


def test_spans_out_of_order_are_refused() -> None:
    with pytest.raises(OutOfRange, match="span of a table row"):
        LoadTable(rows=tuple(reversed(TABLE.rows)), source="invented")


def test_what_a_table_means_for_the_section_is_the_moment_of_a_simple_span() -> None:
    found = {(span, kind): (moment, shear) for span, kind, moment, shear in TABLE.section_forces(own_weight=50.0)}
    assert found[6.0, "uniform"] == pytest.approx(((400 + 50) * 36 / 8, (400 + 50) * 3))
    assert found[4.0, "centre"] == pytest.approx((1800 * 4 / 4 + 50 * 16 / 8, 900 + 100))
    assert found[4.0, "third points"] == pytest.approx((1350 * 4 / 3 + 50 * 16 / 8, 1350 + 100))


def test_a_truss_on_two_lines_is_judged_by_moment_and_shear() -> None:
    use = TRUSS.use(hanging(80.0, 0.0, 12.0))
    assert (use.moment, use.moment_at) == pytest.approx((80 * 144 / 8, 6.0))
    assert abs(use.shear) == pytest.approx(480.0)
    assert use.within is True
    assert TRUSS.use(hanging(90.0, 0.0, 12.0)).within is False


def test_a_truss_on_three_lines_has_its_largest_moment_over_the_middle_one() -> None:
    # two equal spans: w l2/8 over the middle line, any table of beams
    use = TRUSS.use(hanging(300.0, 0.0, 6.0, 12.0))
    assert (use.moment, use.moment_at) == pytest.approx((-300 * 36 / 8, 6.0))
    assert abs(use.shear) == pytest.approx(5 / 8 * 300 * 6)


def test_a_figure_that_is_not_known_is_not_within() -> None:
    unknown = replace(TRUSS, allowable_shear=None)
    assert unknown.use(hanging(80.0, 0.0, 12.0)).within is None
    assert unknown.use(hanging(90.0, 0.0, 12.0)).within is False
