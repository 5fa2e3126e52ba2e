"""What hang answers and what it refuses. Expected numbers are equilibrium by hand unless a source is named."""

import math

import pytest

from counterpoise.errors import OutOfRange
from counterpoise.statics import Beam, Hanging, Line, Load, PointLoad, Segment, SpreadLoad, Tips, hang

NAN = float("nan")
LENGTH = 12.0
PIPE = Beam(length=LENGTH, segments=(Segment(start=0.0, end=LENGTH, stiffness=25_000.0),))
WEIGHT = SpreadLoad(start=0.0, end=LENGTH, per_length=40.0)
TWO = [Line(x=2.0), Line(x=10.0)]


def at_rest(lines: list[Line], loads: list[Load], beam: Beam = PIPE) -> Hanging:
    answer = hang(beam, lines, loads)
    assert isinstance(answer, Hanging)
    return answer


def test_two_lines_share_by_the_lever() -> None:
    found = at_rest(TWO, [WEIGHT, PointLoad(x=4.0, force=800.0)])
    assert found.tensions == pytest.approx([240 + 600, 240 + 200])
    assert found.carrying == (0, 1)
    assert (found.weight, found.centre) == pytest.approx((1280.0, (480 * 6 + 800 * 4) / 1280))


def test_a_batten_whose_load_lies_beyond_the_outer_line_tips() -> None:
    answer = hang(PIPE, TWO, [WEIGHT, PointLoad(x=0.5, force=1500.0)])
    assert isinstance(answer, Tips)
    assert (answer.centre, answer.first, answer.last) == pytest.approx(((480 * 6 + 1500 * 0.5) / 1980, 2.0, 10.0))


def test_a_batten_with_its_centre_just_inside_the_outer_line_does_not_tip() -> None:
    # 480 N at 4 m from the line at 2 m is balanced by 960 N at 2 m on the other side
    assert isinstance(hang(PIPE, TWO, [WEIGHT, PointLoad(x=0.0, force=959.9)]), Hanging)
    assert isinstance(hang(PIPE, TWO, [WEIGHT, PointLoad(x=0.0, force=960.1)]), Tips)


def test_a_batten_with_its_centre_exactly_under_the_outer_line_hangs_on_it_alone() -> None:
    lines = [Line(x=2.0), Line(x=6.0), Line(x=10.0)]
    found = at_rest(lines, [WEIGHT, PointLoad(x=0.0, force=960.0)])
    assert found.tensions == pytest.approx([1440.0, 0.0, 0.0], abs=1e-9)


@pytest.mark.parametrize("slope", [0.0, 0.001, -0.003, 0.0123, 0.04])
@pytest.mark.parametrize("length", [5.0, 7.3, 12.0, 14.989341462866323])
def test_the_sag_under_a_load_in_the_very_middle_is_found(length: float, slope: float) -> None:
    beam = Beam(length=length, segments=(Segment(start=0.0, end=length, stiffness=25_000.0),))
    lines = [Line(x=0.0), Line(x=length, offset=slope * length)]
    loads: list[Load] = [
        SpreadLoad(start=0.0, end=length, per_length=40.0),
        PointLoad(x=length / 2, force=300.0),
    ]
    ((_, _, sag, _),) = at_rest(lines, loads, beam).largest_sags
    # standard beam formulas, from memory
    assert sag == pytest.approx(5 * 40 * length**4 / (384 * 25_000) + 300 * length**3 / (48 * 25_000))


def test_a_line_much_too_long_is_slack_by_what_it_is_too_long() -> None:
    found = at_rest([Line(x=2.0), Line(x=6.0, offset=0.5), Line(x=10.0)], [WEIGHT])
    assert found.tensions == pytest.approx([240.0, 0.0, 240.0])
    assert found.carrying == (0, 2)
    assert found.gaps[1] == pytest.approx(0.5 - found.deflection(6.0))


def test_a_line_much_too_short_takes_everything_it_can() -> None:
    found = at_rest([Line(x=2.0), Line(x=6.0, offset=-0.5), Line(x=10.0)], [WEIGHT, PointLoad(x=3.0, force=10.0)])
    # the batten balances on the middle line; the heavier side's line holds the rest: 10 N x 3 m / 4 m
    assert found.tensions == pytest.approx([7.5, 482.5, 0.0])


def test_making_every_line_longer_alike_lowers_the_batten_and_changes_no_pull() -> None:
    loads: list[Load] = [WEIGHT, PointLoad(x=5.0, force=300.0)]
    level = at_rest([Line(x=x) for x in (1.0, 4.0, 8.0, 11.0)], loads)
    lower = at_rest([Line(x=x, offset=0.25) for x in (1.0, 4.0, 8.0, 11.0)], loads)
    assert lower.tensions == pytest.approx(level.tensions)
    assert lower.deflection(7.0) - level.deflection(7.0) == pytest.approx(0.25)


def test_raking_the_lines_evenly_turns_the_batten_and_changes_no_pull() -> None:
    loads: list[Load] = [WEIGHT, PointLoad(x=5.0, force=300.0)]
    level = at_rest([Line(x=x) for x in (1.0, 4.0, 8.0, 11.0)], loads)
    sloped = at_rest([Line(x=x, offset=0.01 * x) for x in (1.0, 4.0, 8.0, 11.0)], loads)
    assert sloped.tensions == pytest.approx(level.tensions)
    assert sloped.sag(6.0) == pytest.approx(level.sag(6.0))


def test_two_loads_a_hair_apart_weigh_as_one() -> None:
    lines = [Line(x=x) for x in (1.0, 4.0, 8.0, 11.0)]
    apart = at_rest(lines, [WEIGHT, PointLoad(x=5.0, force=300.0), PointLoad(x=5.0 + 1e-12, force=300.0)])
    one = at_rest(lines, [WEIGHT, PointLoad(x=5.0, force=600.0)])
    assert apart.tensions == pytest.approx(one.tensions, rel=1e-10)
    assert apart.largest_moment == pytest.approx(one.largest_moment, rel=1e-10)


def test_a_load_right_under_a_line_hangs_on_it_and_bends_nothing() -> None:
    lines = [Line(x=x) for x in (1.0, 4.0, 8.0, 11.0)]
    bare = at_rest(lines, [WEIGHT])
    loaded = at_rest(lines, [WEIGHT, PointLoad(x=4.0, force=700.0)])
    assert [b - a for a, b in zip(bare.tensions, loaded.tensions, strict=True)] == pytest.approx(
        [0, 700, 0, 0], abs=1e-9
    )
    assert loaded.largest_moment == pytest.approx(bare.largest_moment)


def test_the_shear_steps_by_the_pull_at_a_line() -> None:
    found = at_rest(TWO, [WEIGHT])
    assert found.shear(2.0) - found.shear(2.0 - 1e-9) == pytest.approx(240.0, abs=1e-6)
    assert found.shear(6.0) == pytest.approx(0.0, abs=1e-9)


def test_lines_at_the_very_ends_leave_no_tips_to_drop() -> None:
    found = at_rest([Line(x=0.0), Line(x=LENGTH)], [WEIGHT])
    assert found.tip_drops == pytest.approx((0.0, 0.0), abs=1e-15)
    assert found.moment(LENGTH) == pytest.approx(0.0, abs=1e-9)


def test_the_sag_beyond_the_outer_line_is_measured_from_that_line() -> None:
    found = at_rest([Line(x=2.0, offset=0.1), Line(x=10.0)], [WEIGHT])
    assert found.sag(0.0) == pytest.approx(found.tip_drops[0])
    assert found.sag(LENGTH) == pytest.approx(found.tip_drops[1])
    assert found.sag(2.0) == pytest.approx(0.0, abs=1e-12)
    assert found.sag(10.0) == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ([Line(x=2.0)], "number of lines"),
        ([Line(x=2.0), Line(x=13.0)], "x of line 2"),
        ([Line(x=10.0), Line(x=2.0)], "distance from line 1 to line 2"),
        ([Line(x=2.0), Line(x=2.0005), Line(x=9.0)], "distance from line 1 to line 2"),
    ],
)
def test_lines_that_cannot_be_are_refused(lines: list[Line], says: str) -> None:
    with pytest.raises(OutOfRange, match=says):
        hang(PIPE, lines, [WEIGHT])


@pytest.mark.parametrize(
    "load",
    [
        PointLoad(x=-0.1, force=1.0),
        PointLoad(x=12.1, force=1.0),
        SpreadLoad(start=-1.0, end=3.0, per_length=1.0),
        SpreadLoad(start=3.0, end=12.5, per_length=1.0),
    ],
)
def test_a_load_off_the_batten_is_refused(load: Load) -> None:
    with pytest.raises(OutOfRange, match="hangs on the batten"):
        hang(PIPE, TWO, [WEIGHT, load])


@pytest.mark.parametrize("loads", [[], [PointLoad(x=3.0, force=0.0)]])
def test_a_batten_without_weight_is_refused(loads: list[Load]) -> None:
    with pytest.raises(OutOfRange, match="weighs something"):
        hang(PIPE, TWO, loads)


@pytest.mark.parametrize("x", [-0.01, 12.01, NAN])
def test_a_question_off_the_batten_is_refused(x: float) -> None:
    found = at_rest(TWO, [WEIGHT])
    for ask in (found.moment, found.shear, found.deflection, found.sag):
        with pytest.raises(OutOfRange):
            ask(x)


def test_every_number_of_a_long_and_heavy_batten_is_a_number() -> None:
    beam = Beam(length=60.0, segments=(Segment(start=0.0, end=60.0, stiffness=5e6),))
    lines = [Line(x=2.0 * k, flexibility=1e-6) for k in range(31)]
    found = at_rest(lines, [SpreadLoad(start=0.0, end=60.0, per_length=2000.0)], beam)
    assert sum(found.tensions) == pytest.approx(120_000.0)
    assert all(math.isfinite(found.deflection(x)) for x in range(61))
