import pytest

from counterpoise.errors import OutOfRange
from counterpoise.statics import Beam, Hanging, Line, Load, PointLoad, Segment, SpreadLoad, Tips, hang
from counterpoise.statics.doubts import Doubt, at_factors, trimmed, weighing
from counterpoise.statics.ranges import Extremes, extremes

EI, L, W = 25_000.0, 3.0, 100.0
BEAM = Beam(length=2 * L, segments=(Segment(start=0.0, end=2 * L, stiffness=EI),))
LINES = [Line(x=0.0), Line(x=L), Line(x=2 * L)]
PIPE = SpreadLoad(start=0.0, end=2 * L, per_length=W)


def found(lines: list[Line], loads: list[Load], doubts: tuple[Doubt, ...], **more: int) -> Extremes:
    answer = extremes(BEAM, lines, loads, doubts, **more)  # type: ignore[arg-type]
    assert isinstance(answer, Extremes)
    return answer


def test_without_doubt_least_and_greatest_are_the_answer() -> None:
    one = found(LINES, [PIPE], ())
    assert [e.value for e in one.low] == pytest.approx(
        [3 / 8 * W * L, 10 / 8 * W * L, 3 / 8 * W * L]
    )  # Hicks, table 2.1
    assert [e.value for e in one.high] == pytest.approx([e.value for e in one.low])
    assert one.moment.value == pytest.approx(W * L**2 / 8)
    assert one.proven
    assert one.words == "proven"


def test_a_settled_middle_line_changes_its_pull_by_six_ei_over_l_cubed_times_the_settlement() -> None:
    # Kassimali, eq. D.10, two equal spans: M = -w l2/8 + 3 EI d / l2 for a middle support d lower, so its pull is
    # 10/8 w l - 6 EI d / l3; outer supports settling by d change it by half that each, the other way.
    t = 0.001
    one = found(LINES, [PIPE], trimmed(LINES, t))
    change = 6 * EI * t / L**3 + 2 * 3 * EI * t / L**3
    assert one.high[1].value == pytest.approx(10 / 8 * W * L + change)
    assert one.low[1].value == pytest.approx(10 / 8 * W * L - change)
    assert one.high[1].factors == pytest.approx((t, -t, t))


def test_a_middle_line_far_too_long_goes_slack_and_its_neighbours_carry_half_each() -> None:
    one = found(LINES, [PIPE], trimmed(LINES, 0.05))
    assert one.low[1].value == 0.0
    assert one.high[0].value == pytest.approx(W * L)  # half of 2 w l: no trim can make it more
    assert one.proven


def test_a_pull_may_be_greatest_between_the_corners_where_another_line_comes_taut_or_goes_slack() -> None:
    # five lines, the fourth 5 mm too long, and a piece in the first span
    beam = Beam(length=12.0, segments=(Segment(start=0.0, end=12.0, stiffness=EI),))
    lines = [Line(x=3.0 * k, offset=0.005 if k == 3 else 0.0) for k in range(5)]
    pipe: list[Load] = [SpreadLoad(start=0.0, end=12.0, per_length=40.0)]
    piece = weighing([PointLoad(x=1.5, force=1000.0)], 0.0, 2.0)

    def pull(t: float) -> float:
        hung = hang(beam, *at_factors(lines, pipe, [piece], [t]))
        assert isinstance(hung, Hanging)
        return hung.tensions[3]

    one = extremes(beam, lines, pipe, [piece])
    assert isinstance(one, Extremes)
    (t,) = one.high[3].factors
    assert 0.5 < t < 1.5
    assert pull(t) == pytest.approx(one.high[3].value, rel=1e-12)
    assert pull(t) > max(pull(0.0), pull(2.0)) * 1.3  # the corners show three quarters of it
    assert pull(t - 0.01) < pull(t)
    assert pull(t + 0.01) < pull(t)


def test_a_row_is_the_extreme_of_the_sum_not_the_sum_of_extremes() -> None:
    doubts = trimmed(LINES, 0.001)
    answer = extremes(BEAM, LINES, [PIPE], doubts, rows=[(1.0, 1.0, 1.0)])
    assert isinstance(answer, Extremes)
    assert answer.high[0].value == pytest.approx(2 * W * L)
    assert answer.low[0].value == pytest.approx(2 * W * L)


def test_a_batten_that_tips_at_some_weight_says_at_which_and_gives_the_rest() -> None:
    lines = [Line(x=1.0), Line(x=3.0), Line(x=5.0)]
    tip = weighing([PointLoad(x=6.0, force=1000.0)], 0.0, 5.0)
    answer = extremes(BEAM, lines, [PIPE], [tip])
    assert isinstance(answer, Extremes)
    assert answer.tips == (5.0,)
    # about the last line at 5 m: 600 N x 2 m against P x 1 m, so P = 1,200 N is the last that hangs, all on that line
    assert answer.high[2].value == pytest.approx(1800.0)
    assert answer.high[2].factors == pytest.approx((1.2,))


def test_a_batten_that_tips_at_every_weight_tips() -> None:
    lines = [Line(x=1.0), Line(x=3.0), Line(x=5.0)]
    answer = extremes(BEAM, lines, [PIPE], [weighing([PointLoad(x=6.0, force=1000.0)], 3.0, 5.0)])
    assert isinstance(answer, Tips)


def test_too_many_lines_are_tried_and_not_proven() -> None:
    doubts = trimmed(LINES, 0.001)
    proven, tried = found(LINES, [PIPE], doubts), found(LINES, [PIPE], doubts, most_lines=2)
    assert not tried.proven
    assert tried.words == f"worst of {tried.tried}"
    assert tried.high[1].limit == float("inf")
    for a, b in zip(tried.high, proven.high, strict=True):
        assert a.value <= b.limit + 1e-9
    assert tried.high[1].value == pytest.approx(proven.high[1].value)  # no line goes slack: a climb finds the corner


def test_a_doubt_that_forgets_a_line_is_refused() -> None:
    with pytest.raises(OutOfRange, match="offsets of a doubt"):
        found(LINES, [PIPE], (Doubt(low=-1.0, high=1.0, offsets=(0.001, 0.0)),))


def test_a_row_that_forgets_a_line_is_refused() -> None:
    with pytest.raises(OutOfRange, match="coefficients of a row"):
        extremes(BEAM, LINES, [PIPE], (), rows=[(1.0, 1.0)])


def test_the_trims_that_the_theory_page_tells_of() -> None:
    # docs/theory/ranges.md: ours, so no evidence, but the page must not go stale
    foot, inch, pound = 0.3048, 0.0254, 4.4482216152605
    length = 42 * foot
    beam = Beam(
        length=length, segments=(Segment(start=0.0, end=length, stiffness=29e6 * 6894.757293168 * 0.310 * inch**4),)
    )
    lines = [Line(x=x * foot, flexibility=60 * foot / (446_000 * pound)) for x in (1, 11, 21, 31, 41)]
    loads: list[Load] = [SpreadLoad(start=0.0, end=length, per_length=(114.2 + 560) * pound / length)]
    answer = extremes(beam, lines, loads, trimmed(lines, 0.5 * inch))
    assert isinstance(answer, Extremes)
    spans = [(round(a.value / pound), round(b.value / pound)) for a, b in zip(answer.low, answer.high, strict=True)]
    assert spans == [(64, 100), (119, 235), (77, 235), (119, 235), (64, 100)]
