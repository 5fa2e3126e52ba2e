"""Stress stretch by stretch, splices, axial force. Expected numbers are by hand unless a source is named."""

import math
from dataclasses import replace

import pytest

from counterpoise.errors import OutOfRange
from counterpoise.statics import (
    Axial,
    Beam,
    Hanging,
    Line,
    Load,
    PointLoad,
    Segment,
    Splice,
    SpreadLoad,
    Strength,
    StrengthSegment,
    euler_loads,
    greatest_moment_between,
    greatest_shear,
    hang,
    segment_stresses,
    splice_moments,
)
from tests.battens import adversarial

LENGTH = 12.0
PIPE = Beam(length=LENGTH, segments=(Segment(start=0.0, end=LENGTH, stiffness=25_000.0),))
ENDS = [Line(x=0.0), Line(x=LENGTH)]
EVEN = [SpreadLoad(start=0.0, end=LENGTH, per_length=50.0)]
SMALL = StrengthSegment(start=0.0, end=4.0, elastic_modulus=5e-6, area=4e-4)
LARGE = StrengthSegment(start=4.0, end=12.0, elastic_modulus=8e-6, area=6e-4)
TWO = Strength(segments=(SMALL, LARGE), splices=(Splice(x=4.0, allowable_moment=600.0), Splice(x=9.0)))


def at_rest(loads: list[Load], lines: list[Line] = ENDS, beam: Beam = PIPE) -> Hanging:
    answer = hang(beam, lines, loads)
    assert isinstance(answer, Hanging)
    return answer


def test_each_stretch_is_judged_by_its_own_section_where_its_own_moment_is_largest() -> None:
    small, large = segment_stresses(at_rest(list(EVEN)), TWO)
    # M(x) = w x (l - x) / 2: rising to 800 N m at 4 m, at most 900 N m at 6 m
    assert (small.moment, small.at, small.stress) == pytest.approx((800.0, 4.0, 800.0 / 5e-6))
    assert (large.moment, large.at, large.stress) == pytest.approx((900.0, 6.0, 900.0 / 8e-6))


def test_the_weaker_stretch_may_govern_although_the_largest_moment_is_elsewhere() -> None:
    small, large = segment_stresses(at_rest(list(EVEN)), TWO)
    assert small.stress > large.stress
    assert abs(small.moment) < abs(large.moment)


def test_a_splice_carries_the_moment_at_its_place() -> None:
    first, second = splice_moments(at_rest(list(EVEN)), TWO)
    assert (first.moment, first.allowable_moment) == pytest.approx((800.0, 600.0))
    assert second.moment == pytest.approx(50 * 9 * 3 / 2)
    assert second.allowable_moment is None


def test_axial_force_adds_to_the_stress_where_it_acts() -> None:
    axial = Axial(xs=(2.0, 5.0, 11.0), forces=(-3000.0, 1000.0))
    small, large = segment_stresses(at_rest(list(EVEN)), TWO, axial)
    assert small.stress == pytest.approx(3000 / 4e-4 + 800 / 5e-6)
    # from 4 to 5 m: 3000 N and M(5) = 875 N m; beyond: 1000 N and 900 N m
    assert large.stress == pytest.approx(max(3000 / 6e-4 + 875 / 8e-6, 1000 / 6e-4 + 900 / 8e-6))
    assert axial.at(1.0) == 0.0
    assert axial.at(5.0) == -3000.0
    assert axial.extremes == (-3000.0, 1000.0)


@pytest.mark.parametrize("seed", range(0, 60, 3))
def test_the_largest_moment_of_a_stretch_is_no_less_than_any_sample_in_it(seed: int) -> None:
    beam, lines, loads = adversarial(seed)
    answer = hang(beam, lines, loads)
    if not isinstance(answer, Hanging):
        return
    for start, end in ((0.0, beam.length), (0.21 * beam.length, 0.58 * beam.length)):
        best, at = greatest_moment_between(answer, start, end)
        samples = [abs(answer.moment(start + (end - start) * k / 500)) for k in range(501)]
        assert abs(best) >= max(samples) * (1 - 1e-12)
        assert start <= at <= end
        assert answer.moment(at) == pytest.approx(best, abs=1e-9 * max(samples))
    assert abs(greatest_moment_between(answer, 0.0, beam.length)[0]) == pytest.approx(abs(answer.largest_moment[0]))


def test_the_largest_shear_is_at_a_line_or_a_load() -> None:
    shear, at = greatest_shear(at_rest([*EVEN, PointLoad(x=3.0, force=400.0)]))
    assert (shear, at) == pytest.approx((300 + 300, 0.0))


def test_a_stretch_of_heavier_pipe_over_the_middle_line_draws_moment() -> None:
    # By hand with the force method (any text on structural analysis): three lines, symmetric, load all over, each span
    # l = 4 m, EI doubled over the half next to the middle line. The batten has no slope there, so M int u2/EI and
    # int m0 u/EI add up to nothing, u from the outer line, m0 = w l2 (u - u2)/2.
    ei, w, l = 10_000.0, 60.0, 4.0
    steps = tuple(
        Segment(start=a, end=b, stiffness=k * ei) for a, b, k in ((0.0, 2.0, 1.0), (2.0, 6.0, 2.0), (6.0, 8.0, 1.0))
    )
    beam = Beam(length=2 * l, segments=steps)
    found = at_rest([SpreadLoad(start=0.0, end=8.0, per_length=w)], [Line(x=0.0), Line(x=l), Line(x=2 * l)], beam)
    soft = (0.5**3 / 3) + (1 - 0.5**3) / 3 / 2  # int u2, halves weighted with 1 and 1/2
    half = (1 / 3 * 0.5**3 - 0.25 * 0.5**4) * 0.5  # int u (u - u2)/2 from 0 to 1/2
    rest = (1 / 3 - 1 / 4) * 0.5 - half
    moment = -w * l**2 * (half + rest / 2) / soft
    assert found.moment(l) == pytest.approx(moment, rel=1e-12)
    assert abs(moment) > w * l**2 / 8  # more than on one pipe all through


def test_sag_against_the_chord_and_the_drop_of_both_tips_on_a_stepped_batten() -> None:
    # Cantilever of stepped EI: tip under its own load and the turn of the line; unit-load integrals by hand.
    steps = (Segment(start=0.0, end=2.0, stiffness=8_000.0), Segment(start=2.0, end=12.0, stiffness=16_000.0))
    beam = Beam(length=LENGTH, segments=steps)
    lines = [Line(x=3.0), Line(x=11.0)]
    found = at_rest([PointLoad(x=0.0, force=100.0), PointLoad(x=11.0, force=500.0)], lines, beam)
    bent = 100 * (2**3 / 3 / 8_000 + (3**3 - 2**3) / 3 / 16_000)  # int M x / EI over the overhang
    turn = 300 * 8 / 3 / 16_000  # the span turns under 300 N m at its right end of the overhang
    assert found.tip_drops[0] == pytest.approx(bent + 3 * turn)
    assert found.tip_drops[1] == pytest.approx(300 * 8 / 6 / 16_000 * 1.0)
    ((_, _, sag, at),) = found.largest_sags
    # hogging M = 300 (1 - u): lifted most where 1 - u = 1/sqrt 3, by M l2 / (9 sqrt 3 EI) (AISC table 3-23, end moment)
    assert sag == pytest.approx(-300 * 8**2 / (9 * math.sqrt(3) * 16_000))
    assert at == pytest.approx(3 + 8 * (1 - 1 / math.sqrt(3)))


def test_euler_load_of_a_hinged_bar() -> None:
    # pi2 EI / l2; 200 GPa x 1.0e-7 m4 over 3 m, by hand: 21.93 kN
    assert euler_loads([20_000.0], [3.0]) == pytest.approx((21_932.0,), rel=1e-4)


@pytest.mark.parametrize(
    ("segments", "name"),
    [
        ((), "number of stretches"),
        ((LARGE,), "start of a stretch"),
        ((SMALL, replace(LARGE, start=4.5)), "start of a stretch"),
    ],
)
def test_stretches_that_leave_a_gap_are_refused(segments: tuple[StrengthSegment, ...], name: str) -> None:
    with pytest.raises(OutOfRange, match=name):
        Strength(segments=segments)


def test_stretches_that_do_not_reach_the_end_are_refused() -> None:
    with pytest.raises(OutOfRange, match="end of the last stretch"):
        segment_stresses(at_rest(list(EVEN)), Strength(segments=(SMALL,)))
