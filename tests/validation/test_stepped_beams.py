"""Battens of stepped stiffness against published results, and the sag and tips that a stepped batten shows."""

import pytest

from counterpoise.statics import Beam, Hanging, Line, PointLoad, Segment, SpreadLoad, hang

EI = 12_000.0


def at_rest(beam: Beam, lines: list[Line], *loads: PointLoad | SpreadLoad) -> Hanging:
    answer = hang(beam, lines, list(loads))
    assert isinstance(answer, Hanging)
    return answer


def stepped(length: float, *steps: tuple[float, float]) -> Beam:
    """Ends of stretches, and how many times EI each has."""
    starts = [0.0, *(end for end, _ in steps[:-1])]
    return Beam(
        length=length,
        segments=tuple(
            Segment(start=start, end=end, stiffness=times * EI)
            for start, (end, times) in zip(starts, steps, strict=True)
        ),
    )


def test_a_simple_beam_twice_as_stiff_over_its_middle_half() -> None:
    # Gere, Mechanics of Materials, chapter 9, a simple beam with varying moment of inertia (from memory; checked by
    # hand): load P in the middle, I in the outer quarters and 2 I between them: 3 P L3 / 256 E I in the middle,
    # 5 P L2 / 128 E I at the ends.
    length, force = 8.0, 900.0
    beam = stepped(length, (2.0, 1.0), (6.0, 2.0), (8.0, 1.0))
    found = at_rest(beam, [Line(x=0.0), Line(x=length)], PointLoad(x=4.0, force=force))
    ((_, _, sag, at),) = found.largest_sags
    assert (sag, at) == pytest.approx((3 * force * length**3 / (256 * EI), 4.0))
    small = 1e-5
    slope = (found.deflection(small) - found.deflection(0.0)) / small
    assert slope == pytest.approx(5 * force * length**2 / (128 * EI), rel=1e-6)


def test_an_overhang_twice_as_stiff_over_its_inner_half_drops_as_the_published_cantilever() -> None:
    # Gere, the same chapter: cantilever with 2 I over the half at the wall and I over the free half, load P at its end:
    # 3 P L3 / 16 E I (from memory; checked by hand). Equal loads on both ends of a batten whose span is very stiff
    # leave no turn at the lines, so each overhang is that cantilever.
    force, over = 150.0, 2.0
    beam = stepped(8.0, (1.0, 1.0), (2.0, 2.0), (6.0, 1e9), (7.0, 2.0), (8.0, 1.0))
    found = at_rest(beam, [Line(x=2.0), Line(x=6.0)], PointLoad(x=0.0, force=force), PointLoad(x=8.0, force=force))
    assert found.tip_drops == pytest.approx((3 * force * over**3 / (16 * EI),) * 2, rel=1e-6)


def test_where_a_line_between_is_slack_sag_is_told_from_the_neighbouring_lines_that_carry() -> None:
    beam = stepped(8.0, (8.0, 1.0))
    lines = [Line(x=0.0), Line(x=3.0, offset=1.0), Line(x=8.0)]
    found = at_rest(beam, lines, SpreadLoad(start=0.0, end=8.0, per_length=50.0))
    ((start, end, sag, at),) = found.largest_sags
    assert (start, end, at) == pytest.approx((0.0, 8.0, 4.0))
    assert sag == pytest.approx(5 * 50 * 8**4 / (384 * EI))  # AISC table 3-23, uniform load
