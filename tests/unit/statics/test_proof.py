"""The proof must fail when the answer is wrong, so each law is broken here on purpose."""

from dataclasses import replace

import pytest

from counterpoise.errors import CounterpoiseError
from counterpoise.statics import Beam, Line, Load, PointLoad, Segment, SpreadLoad, Unproven, proof, slack
from counterpoise.statics.field import Field
from counterpoise.statics.grid import Grid, cut
from counterpoise.statics.hanging import settle
from counterpoise.statics.proof import kink_of_rounding, prove
from counterpoise.statics.three_moment import Carried, carry

BEAM = Beam(length=12.0, segments=(Segment(start=0.0, end=12.0, stiffness=25_000.0),))
LINES = [Line(x=x) for x in (1.0, 4.0, 8.0, 11.0)]
LOADS: list[Load] = [SpreadLoad(start=0.0, end=12.0, per_length=40.0), PointLoad(x=5.5, force=200.0)]

Answer = tuple[Grid, Carried, Field, list[float]]


def solved(carrying: tuple[int, ...] = (0, 1, 2, 3), loads: list[Load] | None = None) -> Answer:
    grid = cut(BEAM, LINES, loads or LOADS)
    carried = carry(grid, LINES, carrying, {})
    return grid, carried, *settle(grid, LINES, carried)


def test_a_right_answer_stands() -> None:
    grid, carried, field, gaps = solved()
    prove(grid, LINES, LOADS, carried, field, gaps)


def refused(answer: Answer, law: str, loads: list[Load] | None = None) -> None:
    grid, carried, field, gaps = answer
    with pytest.raises(Unproven, match=law) as refusal:
        prove(grid, LINES, loads or LOADS, carried, field, gaps)
    assert isinstance(refusal.value, CounterpoiseError)


def test_a_pull_a_millionth_too_large_is_refused() -> None:
    grid, carried, field, gaps = solved()
    pulls = [carried.pulls[0] * (1 + 1e-6), *carried.pulls[1:]]
    refused((grid, replace(carried, pulls=pulls), field, gaps), "equilibrium of forces")


def test_a_pull_moved_from_one_line_to_the_next_is_refused() -> None:
    grid, carried, field, gaps = solved()
    pulls = [carried.pulls[0] + 0.01, carried.pulls[1] - 0.01, *carried.pulls[2:]]
    refused((grid, replace(carried, pulls=pulls), field, gaps), "equilibrium of moments")


def test_a_pushing_line_is_refused() -> None:
    heavy: list[Load] = [LOADS[0], PointLoad(x=6.0, force=9000.0)]
    refused(solved(loads=heavy), "only pulls", heavy)


def test_a_line_left_out_that_should_carry_is_refused() -> None:
    refused(solved(carrying=(0, 3)), "not stretched")


def test_a_kink_over_a_line_is_refused() -> None:
    grid, carried, _, _ = solved()
    carried.moments[1] *= 1.001
    refused((grid, carried, *settle(grid, LINES, carried)), "kink")


def test_what_is_no_number_is_refused() -> None:
    grid, carried, field, gaps = solved()
    refused((grid, replace(carried, pulls=[float("nan")] * 4), field, gaps), "equilibrium")


def test_of_lines_that_cannot_be_told_apart_the_nearest_widens_only_the_test_of_the_kink() -> None:
    assert kink_of_rounding(0.1, 0.0, 4.0, 8.0) < 1e-4  # no more than a thousandth of the drop: as before
    near = Line(x=4.005)
    lines = [LINES[0], LINES[1], near, *LINES[2:]]
    grid = cut(BEAM, lines, LOADS)
    carried = carry(grid, lines, (0, 1, 3, 4), {})
    carried.moments[1] *= 1.001
    with pytest.raises(Unproven, match="kink"):
        prove(grid, lines, LOADS, carried, *settle(grid, lines, carried))


def test_where_no_choice_of_lines_stands_the_refusal_is_about_the_one_that_was_searched(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(slack, "hang_plainly", lambda *_: None)
    monkeypatch.setattr(proof, "PROOF", -1.0)  # nothing stands
    with pytest.raises(Unproven, match="equilibrium of forces misses by"):
        slack.hang(BEAM, LINES, LOADS)
