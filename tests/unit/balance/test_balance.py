import pytest

from counterpoise.balance import Span, Stack, best_stack, fits, out_of_balance
from counterpoise.rigging import RiggedSet
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, hung, rigged, rigged_set

INCH = FT / 12


def _bricked(thickness: str, weight: str = "25 lb", one: Map | None = None, **more: Map) -> RiggedSet:
    brick = {"brick": "full", "weight": weight, "thickness": thickness, "stock": {}}
    return rigged(a_house(one or a_set(), bricks=[brick], **more)).sets[0]


# Arbor 64.24 + 2 x 25 = 114.24 lb; batten 42 x 2.72 = 114.24 lb.
def test_pipe_weight_balances_the_empty_batten() -> None:
    assert out_of_balance(rigged_set(), Stack(2), 30 * FT).best == pytest.approx(0.0, abs=1e-9)


def test_one_brick_too_many_is_arbor_heavy_and_counted_positive() -> None:
    assert out_of_balance(rigged_set(), Stack(3), 30 * FT).best / LB == pytest.approx(25)


# Worst case of independent parts: pipe +-4.2 lb, arbor +-5 lb, piece +-20 lb, 6 bricks of +-0.5 lb.
def test_the_range_adds_up_everything_that_is_in_doubt() -> None:
    one = a_set(batten={"weight": "2.62..2.82 lb/ft"}, arbor={"weight": "59.24..69.24 lb"})
    brick = {"brick": "full", "weight": "25 lb", "spread": "0.5 lb", "thickness": "1 in", "stock": {}}
    found = rigged(a_house(one, bricks=[brick]), [a_piece(weight="~100 lb")], [hung()]).sets[0]
    span = out_of_balance(found, Stack(6), 30 * FT)
    assert (span.low / LB, span.best / LB, span.high / LB) == pytest.approx((-32.2, 0.0, 32.2), abs=1e-6)


def test_doubt_on_the_arbor_of_a_double_purchase_counts_half_at_the_batten() -> None:
    span = out_of_balance(rigged_set(a_set(purchase="double", arbor={"weight": "60..70 lb"})), Stack(2), 30 * FT)
    assert (span.high - span.best) / LB == pytest.approx(2.5)


def test_cloth_off_the_floor_hangs_by_its_length() -> None:
    drop = rigged_set(None, [a_piece(weight="200 lb", height="20 ft", comes="off the floor")], [hung()])
    for height, share in ((5, 0.25), (10, 0.5), (20, 1.0), (40, 1.0)):
        assert out_of_balance(drop, Stack(10), height * FT).best / LB == pytest.approx(200 - 200 * share)


def test_a_piece_taller_than_its_batten_is_high_may_put_anything_up_to_all_of_itself_on_it() -> None:
    flat = rigged_set(None, [a_piece(weight="200 lb", height="12 ft")], [hung()])
    down = out_of_balance(flat, Stack(10), 8 * FT)
    assert (down.low / LB, down.best / LB, down.high / LB) == pytest.approx((0, 0, 200), abs=1e-9)
    up = out_of_balance(flat, Stack(10), 12 * FT)
    assert (up.low, up.high) == pytest.approx((0, 0), abs=1e-9)


def test_the_worst_of_a_range_is_the_end_farther_from_zero_with_its_sign() -> None:
    assert Span(-30.0, 0.0, 20.0).worst == -30.0
    assert Span(-10.0, 0.0, 20.0).worst == 20.0
    assert Span(-40.0, -30.0, -20.0).worst == -40.0


# Common practice: a plate at least every 24 in of weight and one on top. Bricks are whole: of 2.5 in, nine (22.5 in)
# lie between two plates, so 19 bricks (47.5 in) need three plates, where 47.5/24 would say two.
@pytest.mark.parametrize(("thickness", "bricks", "plates"), [
    ("2 in", 0, 0), ("2 in", 1, 1), ("2 in", 12, 1), ("2 in", 13, 2), ("2 in", 32, 3), ("2.5 in", 9, 1),
    ("2.5 in", 18, 2), ("2.5 in", 19, 3), ("1-1/4 in", 19, 1), ("1-1/4 in", 38, 2), ("1-1/4 in", 39, 3),
    ("30 in", 2, 2),
])  # fmt: skip
def test_no_gap_between_plates_exceeds_the_rule(thickness: str, bricks: int, plates: int) -> None:
    assert Stack(bricks).plates(_bricked(thickness)) == plates


# 32 x 2 in + 3 x 3/8 in = 65.125 in of 66 in; a 33rd brick makes 67.125 in.
def test_a_stack_fits_up_to_the_usable_height_plates_included() -> None:
    one = _bricked("2 in", one=a_set(arbor={"plate thickness": "3/8 in", "plate weight": "4 lb"}))
    assert Stack(32).height(one) / INCH == pytest.approx(65.125)
    assert fits(one, Stack(32))
    assert not fits(one, Stack(33))


def test_a_set_without_pieces_keeps_its_pipe_weight() -> None:
    assert best_stack(rigged_set(a_set(pipe_weight="7"))) == Stack(7)


def test_the_proposed_count_is_never_below_pipe_weight() -> None:
    assert best_stack(rigged_set(a_set(pipe_weight="9"), [a_piece(weight="1 lb")], [hung()])) == Stack(9)


@pytest.mark.parametrize("weight", ["0.05 lb", "1 lb", "25 lb", "400 lb"])
@pytest.mark.parametrize("purchase", ["single", "double"])
def test_no_other_count_balances_better_than_the_proposed_one(weight: str, purchase: str) -> None:
    brick = {"brick": "full", "weight": weight, "thickness": "1 in", "stock": {}}
    one = a_set(purchase=purchase, lines={"weight": "0.1 lb/ft"}, arbor={"plate weight": "4 lb"})
    found = rigged(a_house(one, bricks=[brick]), [a_piece(weight="731 lb", height="7 ft")], [hung()]).sets[0]

    def largest(bricks: int) -> float:
        return max(abs(out_of_balance(found, Stack(bricks), height).best) for height in (7 * FT, found.high))

    chosen = best_stack(found).bricks
    reach = range(max(found.pipe_bricks, chosen - 300), chosen + 300)
    assert largest(chosen) == pytest.approx(min(largest(count) for count in reach))
