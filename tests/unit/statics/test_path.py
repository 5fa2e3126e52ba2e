"""Following a growing load. Expected numbers are equilibrium by hand, or worked situation S10."""

import pytest

from counterpoise.errors import OutOfRange
from counterpoise.statics import Beam, Line, PointLoad, Segment, SpreadLoad, follow

FT, IN, LBF, PSI = 0.3048, 0.0254, 4.4482216152605, 6894.757293168
LENGTH = 42 * FT
PIPE = Beam(length=LENGTH, segments=(Segment(start=0.0, end=LENGTH, stiffness=29e6 * PSI * 0.310 * IN**4),))
LINES = [Line(x=x * FT) for x in (1, 11, 21, 31, 41)]
WEIGHT = SpreadLoad(start=0.0, end=LENGTH, per_length=114.2 * LBF / LENGTH)


def test_lines_go_slack_one_after_the_other_up_to_the_worked_answer() -> None:
    # Worked situation S10 (independently solved): with 560 lb at 16 ft the pulls are 0 / 298 / 368 / 0 / 9 lb.
    path = follow(PIPE, LINES, [WEIGHT], [PointLoad(x=16 * FT, force=LBF)], 560.0)
    assert path.tips_at is None
    assert path.pieces[0].hanging0.carrying == (0, 1, 2, 3, 4)
    last = path.pieces[-1]
    assert last.t1 == 560.0
    assert [t / LBF for t in last.hanging1.tensions] == pytest.approx([0, 298, 368, 0, 9], abs=2)
    for before, after in zip(path.pieces, path.pieces[1:], strict=False):
        changed = set(before.hanging1.carrying) ^ set(after.hanging0.carrying)
        assert len(changed) == 1  # one line at a time
        assert before.hanging1.tensions == pytest.approx(after.hanging0.tensions, abs=1e-9)  # and without a jump
        assert before.hanging1.tensions[changed.pop()] == pytest.approx(0.0, abs=1e-6)


def test_a_load_on_the_tip_tips_the_batten_at_the_weight_the_lever_says() -> None:
    # 114.2 lb at 20 ft from the first line against a load 1 ft outside it
    path = follow(PIPE, LINES, [WEIGHT], [PointLoad(x=0.0, force=LBF)], 5000.0)
    assert path.tips_at == pytest.approx(114.2 * 20)
    assert path.pieces[-1].t1 == path.tips_at
    assert path.pieces[-1].hanging1.tensions[0] == pytest.approx(114.2 * 21 * LBF)


def test_a_batten_that_tips_from_the_start_has_no_path() -> None:
    lines = [Line(x=30 * FT), Line(x=41 * FT)]
    path = follow(PIPE, lines, [WEIGHT], [PointLoad(x=35 * FT, force=LBF)], 10.0)
    assert (path.pieces, path.tips_at) == ((), 0.0)


@pytest.mark.parametrize("upto", [0.0, -1.0, float("nan")])
def test_a_path_without_length_is_refused(upto: float) -> None:
    with pytest.raises(OutOfRange, match="upto"):
        follow(PIPE, LINES, [WEIGHT], [PointLoad(x=1.0, force=1.0)], upto)


def test_a_load_that_does_not_grow_is_refused() -> None:
    with pytest.raises(OutOfRange, match="extra load"):
        follow(PIPE, LINES, [WEIGHT], [PointLoad(x=1.0, force=0.0)], 1.0)
