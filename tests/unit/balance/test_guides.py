"""What an arbor puts on its guides, by hand: moments about where the lift lines pull."""

import pytest

from counterpoise.balance import (
    Span,
    Stack,
    friction,
    hand_line_on_arbor,
    largest_off,
    on_arbor,
    on_shoe,
    out_of_balance,
    slide_of,
)
from tests.plain_house import FT, LB, Map, a_piece, a_set, hung, rigged_set

INCH = FT / 12
SURE = Span(0.0, 0.0, 0.0)
GUIDES: Map = {"rating": "100 lb", "shoes apart": "4 ft", "load aside": "1/2 in", "hand line aside": "3 in"}


def sure(figure: float) -> Span:
    return Span(figure, figure, figure)


# 600 lb at 2 in is a couple of 1,200 lb in; two shoes 60 in apart hold it with 20 lb each. 50 lb of hand line at 6 in
# is 300 lb in more: 5 lb. Equilibrium of a couple, any text on statics.
@pytest.mark.parametrize(("hand_line", "force"), [(0.0, 20.0), (50.0, 25.0)])
def test_two_shoes_bear_the_couple_of_what_is_aside(hand_line: float, force: float) -> None:
    found = on_shoe(sure(600 * LB), sure(2 * INCH), sure(hand_line * LB), sure(6 * INCH), sure(60 * INCH))
    assert [each / LB for each in (found.low, found.best, found.high)] == pytest.approx([force] * 3)


def test_what_hangs_true_under_its_lines_needs_no_guides() -> None:
    assert on_shoe(sure(600 * LB), SURE, sure(50 * LB), SURE, sure(1.0)) == SURE


# 500..700 lb at 1..3 in, 40..60 lb at 5..7 in, shoes 50..70 in apart:
# (500 x 1 + 40 x 5) / 70 to (700 x 3 + 60 x 7) / 50.
def test_the_range_is_from_the_least_couple_over_the_most_height_to_the_most_over_the_least() -> None:
    found = on_shoe(Span(500, 600, 700), Span(1, 2, 3), Span(40, 50, 60), Span(5, 6, 7), Span(50, 60, 70))
    assert (found.low, found.best, found.high) == pytest.approx((10.0, 25.0, 50.4))


# 64.24 lb of arbor and 8 bricks of 25 lb; 114.24 lb of batten and 100 lb hang: 50 lb arbor-heavy.
def test_the_hand_line_pulls_on_the_arbor_by_what_is_out_of_balance() -> None:
    one = rigged_set(None, [a_piece()], [hung()])
    for bricks, pull in ((8, 50), (4, 50), (6, 0)):
        found = hand_line_on_arbor(one, Stack(bricks))
        assert [each / LB for each in (found.low, found.best, found.high)] == pytest.approx([pull] * 3, abs=1e-9)
        assert found == largest_off(one, Stack(bricks))
    assert on_arbor(one, Stack(8)).best / LB == pytest.approx(264.24)


# (178.48 + 150) / 2 - 214.24 = -50 lb at the batten. The arbor moves half as far, so what holds it there is 100 lb: by
# one line tied to it that pulls 100, or by two legs of one that pull 50 each.
@pytest.mark.parametrize("travels", ["with the batten", "with the arbor"])
def test_on_a_double_purchase_arbor_the_hand_line_pulls_twice_however_it_is_tied(travels: str) -> None:
    one = rigged_set(a_set(purchase="double", hand_line=travels, arbor={"weight": "178.48 lb"}), [a_piece()], [hung()])
    assert out_of_balance(one, Stack(6), one.high).best / LB == pytest.approx(-50)
    assert hand_line_on_arbor(one, Stack(6)).best / LB == pytest.approx(100)


# What hangs is 214.24 lb. Each shoe bears 214.24 x 0.5 / 48 of it, and both rub with 15 % of that; blocks take 4 %.
@pytest.mark.parametrize(("guides", "share"), [
    ({"friction": "15 %"}, 2 * 0.15 * 0.5 / 48), ({"friction": "10..15 %"}, 2 * 0.15 * 0.5 / 48),
    ({"friction": "15 %", "load aside": "0..1 in"}, 2 * 0.15 / 48), ({}, 0.0), ({"friction": "unknown"}, 0.0),
    ({"friction": "15 %", "load aside": "unknown"}, 0.0), ({"friction": "15 %", "shoes apart": None}, 0.0),
])  # fmt: skip
def test_shoes_that_rub_hide_more_of_what_is_out_of_balance(guides: Map, share: float) -> None:
    one = rigged_set(a_set(guides={name: it for name, it in (GUIDES | guides).items() if it}), [a_piece()], [hung()])
    assert slide_of(one) == pytest.approx(share)
    assert friction(one, 30 * FT, 0.02) / LB == pytest.approx(214.24 * (0.04 + share))


# A double purchase arbor weighs twice as much and presses twice as hard, and moves half as far: as much is felt.
def test_on_a_double_purchase_set_as_much_of_it_is_felt_at_the_batten() -> None:
    guides = GUIDES | {"friction": "15 %"}
    single = rigged_set(a_set(guides=guides), [a_piece()], [hung()])
    double = rigged_set(a_set(purchase="double", guides=guides, arbor={"weight": "178.48 lb"}), [a_piece()], [hung()])
    both = on_shoe(on_arbor(double, Stack(10)), sure(0.5), SURE, SURE, sure(48.0)).best  # 428.48 lb: in balance
    assert 2 * 0.15 * both / 2 == pytest.approx(slide_of(double) * 214.24 * LB)
    assert slide_of(double) == slide_of(single)


def test_without_guides_written_nothing_is_told_of_their_friction() -> None:
    assert slide_of(rigged_set(None, [a_piece()], [hung()])) == 0.0
