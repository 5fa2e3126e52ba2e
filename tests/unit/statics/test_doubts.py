import pytest

from counterpoise.errors import OutOfRange
from counterpoise.statics import Line, PointLoad, SpreadLoad
from counterpoise.statics.doubts import (
    TRIM_TOLERANCE,
    TRIM_TOLERANCE_SOURCE,
    Doubt,
    at_factors,
    tilted,
    trimmed,
    weighing,
)

LINES = [Line(x=1.0), Line(x=3.0, offset=0.01), Line(x=5.0)]
PIECE = (PointLoad(x=1.0, force=100.0), SpreadLoad(start=2.0, end=4.0, per_length=50.0))


def test_every_line_is_trimmed_for_itself() -> None:
    lines, loads = at_factors(LINES, [], trimmed(LINES, 0.005), (0.005, -0.005, 0.0))
    assert [line.offset for line in lines] == pytest.approx([0.005, 0.005, 0.0])
    assert loads == []


def test_a_tolerance_for_each_line_leaves_a_line_of_none_as_it_is() -> None:
    doubts = trimmed(LINES, [0.0, 0.002, 0.0])
    assert doubts == (Doubt(low=-0.002, high=0.002, offsets=(0.0, 1.0, 0.0)),)


def test_all_picks_of_a_piece_are_light_or_heavy_together() -> None:
    _, loads = at_factors(LINES, [PointLoad(x=2.0, force=10.0)], [weighing(PIECE, 0.9, 1.2)], (1.2,))
    assert [load.force for load in loads] == pytest.approx([10.0, 120.0, 120.0])


def test_a_tilted_arbor_lowers_each_line_by_its_place_times_the_angle() -> None:
    lines, _ = at_factors(LINES, [], [tilted([-0.1, 0.0, 0.1], 0.02)], (0.02,))
    assert [line.offset for line in lines] == pytest.approx([-0.002, 0.01, 0.002])


@pytest.mark.parametrize("tolerance", [-0.001, [0.001], [0.001, 0.001, float("nan")]])
def test_a_tolerance_that_is_none_is_refused(tolerance: float | list[float]) -> None:
    with pytest.raises(OutOfRange, match=r"tolerance"):
        trimmed(LINES, tolerance)


def test_a_weight_below_nothing_and_ends_the_wrong_way_round_are_refused() -> None:
    with pytest.raises(OutOfRange, match="low end"):
        weighing(PIECE, -0.1, 1.0)
    with pytest.raises(OutOfRange, match="high end"):
        weighing(PIECE, 1.0, 0.9)


def test_a_tilt_that_is_not_small_is_refused() -> None:
    with pytest.raises(OutOfRange, match="tilt"):
        tilted([0.0, 0.1, 0.2], 0.5)


def test_the_suggested_trim_tolerance_says_that_no_source_was_found() -> None:
    assert pytest.approx(0.0127) == TRIM_TOLERANCE
    assert "no published source" in TRIM_TOLERANCE_SOURCE
