"""Room left, on battens simple enough to work by hand from the lever and from P a b / l."""

import pytest

from counterpoise.errors import OutOfRange
from counterpoise.statics import (
    Beam,
    Hanging,
    Limits,
    Line,
    Load,
    PointLoad,
    Row,
    Segment,
    SpreadLoad,
    follow,
    hang,
    room_left,
)

LENGTH, EI = 10.0, 25_000.0
PIPE = Beam(length=LENGTH, segments=(Segment(start=0.0, end=LENGTH, stiffness=EI),))
ENDS = [Line(x=0.0), Line(x=LENGTH)]
WEIGHT = SpreadLoad(start=0.0, end=LENGTH, per_length=40.0)
EACH = (Row(coefficients=(1.0, 0.0), limit=500.0), Row(coefficients=(0.0, 1.0), limit=500.0))


def only(limits: Limits, x: float, lines: list[Line] = ENDS, cap: float = 1e5) -> tuple[object, object]:
    (room,) = room_left(PIPE, lines, [WEIGHT], limits, [x], cap=cap)
    assert room.x == x
    return room.force, room.which


def sag_ratio(found: Hanging) -> float:
    return max(abs(sag) / (end - start) for start, end, sag, _ in found.largest_sags)


@pytest.mark.parametrize(("x", "force", "row"), [(2.5, 400.0, 0), (7.5, 400.0, 1), (0.0, 300.0, 0), (10.0, 300.0, 1)])
def test_a_line_limit_leaves_what_the_lever_leaves(x: float, force: float, row: int) -> None:
    # 200 N of its own on each line leave 300 N; the nearer line takes 3/4 of a load at a quarter of the span
    assert only(Limits(rows=EACH), x) == (pytest.approx(force), row)


def test_a_row_may_add_up_lines_and_a_constant() -> None:
    rows = (Row(coefficients=(1.0, 1.0), constant=100.0, limit=750.0),)
    assert only(Limits(rows=rows), 3.0) == (pytest.approx(250.0), 0)


def test_a_moment_limit_counts_under_the_load() -> None:
    # w l2 / 8 = 500 N m of its own in the middle; P l / 4 more
    assert only(Limits(moment=1500.0), 5.0) == (pytest.approx(400.0), "moment")


def test_a_moment_limit_counts_between_load_and_middle_too() -> None:
    # At 4.5 m the pull at the left line is 200 + 0.55 P. For P up to 44 N the greatest moment lies between the load
    # and the middle, where the shear is zero: x0 = 5 + (-0.45 P)/40, M = (pull of the right line)2 / 2 w.
    force = 30.0
    moment = (200.0 + 0.45 * force) ** 2 / (2 * 40.0)
    assert only(Limits(moment=moment), 4.5) == (pytest.approx(force, rel=1e-9), "moment")


def test_a_sag_limit_counts_in_the_span() -> None:
    # 5 w l4 / 384 EI of its own and P l3 / 48 EI (standard; from memory), at most l / 40 (0.25 m)
    own = 5 * 40.0 * LENGTH**4 / (384 * EI)
    force = (0.25 - own) * 48 * EI / LENGTH**3
    assert only(Limits(sag_ratio=1 / 40), 5.0) == (pytest.approx(force, rel=1e-9), "sag")


def test_two_spans_that_become_one_may_sag_too_much_at_once() -> None:
    # The middle line is too long and carries little; a load on the overhang lifts the batten off it, and the one
    # long span that remains is bowed by more than it may from the very moment the line goes slack.
    beam = Beam(length=12.0, segments=(Segment(start=0.0, end=12.0, stiffness=EI),))
    lines = [Line(x=1.0), Line(x=6.0, offset=0.15), Line(x=11.0)]
    loads: list[Load] = [SpreadLoad(start=0.0, end=12.0, per_length=40.0)]
    at_zero = hang(beam, lines, loads)
    assert isinstance(at_zero, Hanging)
    assert at_zero.carrying == (0, 1, 2)
    (room,) = room_left(beam, lines, loads, Limits(sag_ratio=0.01), [0.0])
    first, _ = follow(beam, lines, loads, [PointLoad(x=0.0, force=1.0)], room.force * 1.001).pieces
    event = first.t1
    assert room.which == "sag"
    assert room.force == pytest.approx(event)
    assert sag_ratio(at_zero) < 0.01
    beyond = hang(beam, lines, [*loads, PointLoad(x=0.0, force=event + 1e-3)])
    assert isinstance(beyond, Hanging)
    assert beyond.carrying == (0, 2)
    assert sag_ratio(beyond) > 0.01


def test_the_batten_may_tip_before_any_limit() -> None:
    # 400 N at 3 m inside the line at 2 m against a load at 0
    assert only(Limits(), 0.0, [Line(x=2.0), Line(x=9.0)]) == (pytest.approx(600.0), "tips")


def test_nothing_limits_up_to_the_cap() -> None:
    assert only(Limits(), 5.0, cap=777.0) == (777.0, None)


@pytest.mark.parametrize(
    ("limits", "which"),
    [
        (Limits(rows=(Row(coefficients=(0.0, 0.0), limit=0.0), Row(coefficients=(1.0, 0.0), limit=199.0))), 1),
        (Limits(moment=499.0), "moment"),
        (Limits(sag_ratio=1e-3), "sag"),
        (Limits(rows=(Row(coefficients=(1.0, 0.0), limit=float("nan")),)), 0),  # what is no number is not within
    ],
)
def test_where_a_limit_is_broken_already_there_is_no_room(limits: Limits, which: str | int) -> None:
    assert only(limits, 9.0) == (0.0, which)


def test_a_batten_that_tips_already_has_no_room() -> None:
    assert only(Limits(), 9.0, [Line(x=6.0), Line(x=9.0)]) == (0.0, "tips")


def test_a_row_without_a_coefficient_for_each_line_is_refused() -> None:
    with pytest.raises(OutOfRange, match="coefficient"):
        only(Limits(rows=(Row(coefficients=(1.0,), limit=500.0),)), 5.0)


def test_a_place_off_the_batten_is_refused() -> None:
    with pytest.raises(OutOfRange, match="load x"):
        only(Limits(), 10.5)


def test_the_room_at_many_places_is_the_room_at_each() -> None:
    lines = [Line(x=x) for x in (0.5, 3.5, 6.5, 9.5)]
    rows = tuple(Row(coefficients=tuple(float(k == i) for k in range(4)), limit=900.0) for i in range(4))
    limits = Limits(rows=rows, moment=700.0, sag_ratio=1 / 200)
    loads: list[Load] = [WEIGHT, PointLoad(x=2.0, force=200.0)]
    xs = [0.25 * k for k in range(41)]
    together = room_left(PIPE, lines, loads, limits, xs)
    for x, room in zip(xs, together, strict=True):
        (alone,) = room_left(PIPE, lines, loads, limits, [x])
        assert alone.force == pytest.approx(room.force, rel=1e-9)
    assert len({room.which for room in together}) >= 3  # several kinds of limit are met along this batten
