"""Many battens at once. What they must equal is `hang`, which is checked against outside facts elsewhere; here stand
also the cases that can be worked by hand."""

import subprocess
import sys

import numpy as np
import pytest

from counterpoise.errors import OutOfRange
from counterpoise.statics import Beam, Hanging, Line, Load, PointLoad, Segment, SpreadLoad, Tips, hang
from counterpoise.statics.many import (
    Many,
    battens,
    hang_battens,
    hang_many,
    largest_moments,
    moments_at_lines,
)
from counterpoise.statics.many_cases import Cases
from counterpoise.statics.many_equations import Array, Mask

LENGTH, EI = 12.0, 25_000.0
PIPE = Beam(length=LENGTH, segments=(Segment(start=0.0, end=LENGTH, stiffness=EI),))
EVEN = [Line(x=x) for x in (0.0, 4.0, 8.0, 12.0)]
WEIGHT = SpreadLoad(start=0.0, end=LENGTH, per_length=40.0)


def many(lines: list[Line], loads: list[Load], offsets: object, beam: Beam = PIPE) -> Many:
    found = hang_many(beam, lines, loads, np.asarray(offsets, dtype=np.float64))
    assert isinstance(found, Many)
    return found


def test_three_even_spans_without_trim_error_pull_as_the_handbook_says() -> None:
    # 0.4, 1.1, 1.1, 0.4 w l: T. G. Hicks, Civil Engineering Formulas, table 2.1
    found = many(EVEN, [WEIGHT], [[0.0] * 4] * 3)
    assert found.tensions == pytest.approx(np.array([[64.0, 176.0, 176.0, 64.0]] * 3))
    assert found.carrying.all()
    assert not found.gaps.any()
    assert found.alone == 0


def test_the_middle_of_three_lines_goes_slack_when_it_is_longer_than_the_batten_sags() -> None:
    # a simple span of 2 l sags 5 w (2 l)4 / 384 EI in the middle (AISC Manual, table 3-23, case 1)
    lines = [Line(x=0.0), Line(x=6.0), Line(x=12.0)]
    sag = 5 * 40.0 * 12.0**4 / (384 * EI)
    found = many(lines, [WEIGHT], [[0.0, sag + 0.01, 0.0], [0.0, sag - 1e-6, 0.0]])
    assert found.carrying.tolist() == [[True, False, True], [True, True, True]]
    assert found.tensions[0] == pytest.approx([240.0, 0.0, 240.0])
    assert found.gaps[0] == pytest.approx([0.0, 0.01, 0.0])
    assert 0.0 < found.tensions[1, 1] < 0.1
    assert found.slack.tolist() == [0]


def test_a_trim_error_adds_to_the_offset_of_the_line_itself() -> None:
    uneven = [Line(x=line.x, flexibility=1e-5, offset=0.01 * i) for i, line in enumerate(EVEN)]
    level = [Line(x=line.x, flexibility=1e-5) for line in EVEN]
    given = many(uneven, [WEIGHT], [[0.0] * 4])
    added = many(level, [WEIGHT], [[0.0, 0.01, 0.02, 0.03]])
    assert added.tensions == pytest.approx(given.tensions, rel=1e-12)


def test_two_lines_share_by_the_lever_whatever_their_trim() -> None:
    lines = [Line(x=2.0), Line(x=10.0)]
    loads: list[Load] = [WEIGHT, PointLoad(x=4.0, force=800.0)]
    found = many(lines, loads, [[0.0, 0.0], [0.3, -0.2]])
    assert found.tensions == pytest.approx(np.array([[240.0 + 600.0, 240.0 + 200.0]] * 2))


def test_a_batten_that_tips_does_so_in_every_case() -> None:
    answer = hang_many(PIPE, [Line(x=8.0), Line(x=10.0)], [WEIGHT], np.zeros((5, 2)))
    assert answer == Tips(centre=6.0, first=8.0, last=10.0)


def test_no_case_asked_is_no_case_answered() -> None:
    assert many(EVEN, [WEIGHT], np.zeros((0, 4))).tensions.shape == (0, 4)


@pytest.mark.parametrize(
    "offsets",
    [
        [0.0] * 4,
        [[0.0] * 3],
        [[0.0, float("nan"), 0.0, 0.0]],
        [[0.0, 0.0, 2e3, 0.0]],
        [[0.0, float("inf"), float("-inf"), 0.0]],
        [[1e308, -1e308, 1e308, -1e308]],
    ],
)
def test_offsets_of_another_shape_or_out_of_range_are_refused(offsets: object) -> None:
    with pytest.raises(OutOfRange):
        many(EVEN, [WEIGHT], offsets)


@pytest.mark.parametrize("spread", [0.02, 0.06])  # [m]; few lines pushed out, or more than are held back at once
def test_more_cases_than_are_taken_at_once_keep_their_order(spread: float) -> None:
    offsets = np.random.default_rng(7).normal(0.0, spread, (10_000, 4))
    found = many(EVEN, [WEIGHT], offsets)
    again = many(EVEN, [WEIGHT], offsets[::-1])
    assert found.tensions == pytest.approx(again.tensions[::-1], abs=1e-9)
    assert (found.carrying == again.carrying[::-1]).all()
    assert 100 < len(found.slack) < 9_900  # or this would not be about slack lines


def test_the_greatest_moments_are_those_of_the_one_batten_kernel() -> None:
    loads: list[Load] = [WEIGHT, PointLoad(x=5.0, force=600.0), PointLoad(x=11.0, force=300.0)]
    offsets = np.random.default_rng(8).normal(0.0, 0.05, (200, 4))
    found = many(EVEN, loads, offsets)
    at_lines = moments_at_lines(PIPE, EVEN, loads, found.tensions)
    greatest, where = largest_moments(PIPE, EVEN, loads, found.tensions)
    for k, row in enumerate(offsets):
        one = hang(PIPE, [Line(x=line.x, offset=float(o)) for line, o in zip(EVEN, row, strict=True)], loads)
        assert isinstance(one, Hanging)
        assert at_lines[k] == pytest.approx([one.moment(line.x) for line in EVEN], abs=1e-7)
        assert abs(greatest[k]) == pytest.approx(abs(one.largest_moment[0]), rel=1e-9)
        assert one.moment(float(where[k])) == pytest.approx(greatest[k], rel=1e-9)


def test_many_battens_each_get_their_own_answer_and_those_that_tip_none() -> None:
    stepped = Beam(
        length=12.0,
        segments=(Segment(start=0.0, end=5.0, stiffness=EI), Segment(start=5.0, end=12.0, stiffness=2 * EI)),
    )
    three = [Line(x=1.0), Line(x=6.0), Line(x=11.0)]
    given: list[tuple[Beam, list[Line], list[Load]]] = [
        (PIPE, three, [WEIGHT]),
        (PIPE, [Line(x=8.0), Line(x=9.0), Line(x=10.0)], [WEIGHT]),
        (stepped, three, [WEIGHT, SpreadLoad(start=2.0, end=7.0, per_length=100.0)]),
        (PIPE, [Line(x=1.0), Line(x=6.0, offset=0.5), Line(x=11.0)], [WEIGHT, PointLoad(x=6.0, force=10.0)]),
    ]
    found = hang_battens(battens(given))
    assert found.tips.tolist() == [False, True, False, False]
    assert np.isnan(found.tensions[1]).all()
    assert np.isnan(found.gaps[1]).all()
    for k in (0, 2, 3):
        one = hang(*given[k])
        assert isinstance(one, Hanging)
        assert found.tensions[k] == pytest.approx(one.tensions, rel=1e-10, abs=1e-9)
        assert found.gaps[k] == pytest.approx(one.gaps, abs=1e-10)
    assert found.slack.tolist() == [3]


def test_battens_with_unequal_numbers_of_lines_are_refused() -> None:
    with pytest.raises(ValueError, match="equally many lines"):
        battens([(PIPE, EVEN, [WEIGHT]), (PIPE, EVEN[:3], [WEIGHT])])


@pytest.mark.parametrize("given", [[], [(PIPE, EVEN[:1], [WEIGHT])]])
def test_no_batten_or_one_on_a_single_line_is_refused(given: list[tuple[Beam, list[Line], list[Load]]]) -> None:
    with pytest.raises(OutOfRange):
        battens(given)


@pytest.mark.parametrize(
    ("lines", "load"),
    [
        ([Line(x=0.0), Line(x=12.5)], WEIGHT),
        ([Line(x=6.0), Line(x=3.0)], WEIGHT),
        ([Line(x=0.0), Line(x=12.0)], PointLoad(x=13.0, force=10.0)),
        ([Line(x=0.0), Line(x=12.0)], PointLoad(x=6.0, force=0.0)),
    ],
)
def test_a_batten_that_hang_refuses_is_refused_among_many_in_the_same_words(lines: list[Line], load: Load) -> None:
    with pytest.raises(OutOfRange) as alone:
        hang(PIPE, lines, [load])
    with pytest.raises(OutOfRange) as among:
        hang_battens(battens([(PIPE, [Line(x=0.0), Line(x=12.0)], [WEIGHT]), (PIPE, lines, [load])]))
    assert str(among.value) == str(alone.value)


def test_the_statics_are_imported_without_numpy() -> None:
    script = "import sys, counterpoise.statics; sys.exit('numpy' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", script], check=False).returncode == 0


def test_cases_that_a_chunk_cannot_vouch_for_are_looked_at_one_by_one(monkeypatch: pytest.MonkeyPatch) -> None:
    lines = [Line(x=float(x), flexibility=1e-5) for x in (0.5, 4.0, 8.0, 11.5)]
    loads: list[Load] = [SpreadLoad(start=0.0, end=12.0, per_length=40.0)]
    offsets = np.random.default_rng(5).normal(0.0, 0.002, (500, 4))
    quick = many(lines, loads, offsets)
    looked: list[int] = []
    each = Cases._prove_each
    monkeypatch.setattr(Cases, "_unbroken", lambda *_: 0.0)

    def noted(self: Cases, start: int, pulls: Array, offsets: Array) -> None:
        looked.append(start)
        each(self, start, pulls, offsets)

    monkeypatch.setattr(Cases, "_prove_each", noted)
    slow = many(lines, loads, offsets)
    assert looked == [0]
    assert slow.alone == 0
    assert np.array_equal(quick.tensions, slow.tensions)


def test_a_case_that_is_out_of_balance_is_given_to_the_other_kernel(monkeypatch: pytest.MonkeyPatch) -> None:
    lines = [Line(x=float(x), flexibility=1e-5) for x in (0.5, 4.0, 8.0, 11.5)]
    loads: list[Load] = [SpreadLoad(start=0.0, end=12.0, per_length=40.0)]
    right = many(lines, loads, np.zeros((3, 4))).tensions
    straight = Cases._straight

    def wrong(self: Cases, carrying: Mask) -> tuple[Array, Array]:
        at_zero, slope = straight(self, carrying)
        return at_zero * (1.0 + 1e-7), slope

    monkeypatch.setattr(Cases, "_straight", wrong)
    found = many(lines, loads, np.zeros((3, 4)))
    assert found.alone == 3
    assert found.tensions == pytest.approx(right, rel=1e-12)
