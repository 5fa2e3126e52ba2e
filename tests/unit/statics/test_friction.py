import pytest

from counterpoise.errors import OutOfRange
from counterpoise.statics import Line
from counterpoise.statics.friction import Band, pull_beyond, seized, sticking

LINES = [Line(x=0.0, flexibility=1e-5), Line(x=3.0), Line(x=6.0, flexibility=2e-5)]


def test_a_small_loss_leaves_the_pull_uncertain_by_the_loss_for_every_turn() -> None:
    band = pull_beyond(1000.0, 0.01, 2)  # T give or take k f T, to first order
    assert band.low == pytest.approx(980.0, abs=0.2)
    assert band.high == pytest.approx(1020.0, abs=0.5)


def test_a_plain_sheave_passes_on_what_the_handbook_says() -> None:
    # Pipeline Rules of Thumb Handbook, p. 6: efficiency of a sheave on a plain bearing 0.917
    band = pull_beyond(1000.0, 1 - 0.917, 1)
    assert (band.low, band.high) == pytest.approx((917.0, 1000 / 0.917))


def test_a_frictionless_sheave_leaves_no_doubt() -> None:
    assert pull_beyond(500.0, 0.0, 5) == Band(low=500.0, high=500.0)
    assert sticking(LINES, [100.0] * 3, 0.0, 2, [0.5] * 3) == ()


def test_a_rope_that_sticks_is_longer_by_the_stretch_of_its_far_part() -> None:
    doubts = sticking(LINES, [1000.0, 1000.0, 500.0], 0.1, 1, [0.5, 0.5, 1.0])
    assert len(doubts) == 2  # a rigid line does not stretch
    # 1000 N / 0.9 beyond the sheave is 111.1 N more, on half of 1e-5 m/N
    assert doubts[0].high == pytest.approx(111.11 * 0.5e-5, rel=1e-4)
    assert doubts[1].offsets == (0.0, 0.0, 1.0)
    assert doubts[1].low == -doubts[1].high


def test_of_a_seized_line_only_the_rope_up_to_its_block_stretches() -> None:
    assert seized(LINES[0], 6.0, 24.0).flexibility == pytest.approx(0.25e-5)


@pytest.mark.parametrize(("loss", "turns"), [(-0.01, 1), (0.6, 1), (0.02, -1)])
def test_a_loss_that_can_not_be_is_refused(loss: float, turns: int) -> None:
    with pytest.raises(OutOfRange):
        pull_beyond(100.0, loss, turns)


def test_a_rope_shorter_than_its_part_is_refused() -> None:
    with pytest.raises(OutOfRange, match="whole rope"):
        seized(LINES[0], 6.0, 5.0)
