from __future__ import annotations

import pytest

from counterpoise.checks import Check, Verdict
from counterpoise.checks.limits import flying_heights
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, hung, judged, rigged_set

DROP = {"weight": "200 lb", "height": "20 ft", "comes": "off the floor"}


def _row(link: str, set_: Map, piece: Map | None = None, place: Map | None = None, bricks: int | None = None) -> Check:
    stated = {} if bricks is None else {"stated_bricks": {"9": str(bricks)}}
    pieces, places = ([piece], [place or hung()]) if piece else ([], [])
    found = judged(a_house(set_), pieces, places, **stated).set_called("9")
    assert found is not None
    row = found.row(link)
    assert row is not None
    return row


def _pounds(row: Check) -> tuple[float, float, float]:
    return row.value.low / LB, row.value.best / LB, row.value.high / LB


# Arbor 64.24 + n x 25 lb against 114.24 + 100 lb: 6 bricks balance; the hand line pulls what is out of balance.
@pytest.mark.parametrize(("bricks", "pull"), [(6, 0), (8, 50), (4, 50), (9, 75)])
def test_the_lock_holds_what_is_out_of_balance_of_either_sign(bricks: int, pull: float) -> None:
    row = _row("lock", a_set(), a_piece(), bricks=bricks)
    assert _pounds(row) == pytest.approx((pull, pull, pull), abs=1e-9)
    assert row.verdict is (Verdict.OVER if pull > 50 else Verdict.WITHIN)


# Double purchase, hand line tied to the arbor: it travels half as far as the batten and pulls twice.
@pytest.mark.parametrize(("hand_line", "pull"), [("with the batten", 50), ("with the arbor", 100)])
def test_a_hand_line_tied_to_a_double_purchase_arbor_pulls_twice(hand_line: str, pull: float) -> None:
    one = a_set(purchase="double", hand_line=hand_line, arbor={"weight": "178.48 lb"})
    row = _row("lock", one, a_piece(), bricks=6)  # (178.48 + 6 x 25)/2 - 214.24 = -50
    assert row.value.best / LB == pytest.approx(pull)


# Lift lines 5 x 0.1 lb/ft: Δ rises by 1 lb/ft from 4 to 58 ft; the worst of both ends counts, not the first.
def test_the_lock_is_judged_at_the_worst_height() -> None:
    one = a_set(lines={"weight": "0.1 lb/ft"})
    # Δ at 4 ft: 64.24 + 175 - 114.24 - 100 - 29 = -4 lb; at 58 ft +50 lb
    assert _pounds(_row("lock", one, a_piece(), bricks=7)) == pytest.approx((50, 50, 50))
    assert _row("lock", one, a_piece(), bricks=6).value.best / LB == pytest.approx(29)  # -29 at 4 ft, +25 at 58 ft


def test_the_range_of_the_lock_is_the_largest_pull_at_the_light_and_the_heavy_end() -> None:
    row = _row("lock", a_set(), a_piece(weight="80..120 lb"), bricks=8)  # +50 lb, 20 either way
    assert _pounds(row) == pytest.approx((30, 50, 70))
    assert row.verdict is Verdict.UNKNOWN
    assert _pounds(_row("lock", a_set(), a_piece(weight="80..120 lb"), bricks=6)) == pytest.approx((0, 0, 20), abs=1e-9)


# A drop of 200 lb and 20 ft at a trim of 5 ft: a quarter hangs, so the arbor is 150 lb heavy there.
def test_a_trim_at_which_cloth_lies_on_the_deck_is_judged_there() -> None:
    high = _row("lock", a_set(), a_piece(**DROP), hung(show="25 ft"), bricks=10)
    assert high.value.best / LB == pytest.approx(0, abs=1e-9)
    low = _row("lock", a_set(), a_piece(**DROP), hung(show="25 ft", deck="5 ft"), bricks=10)
    assert low.value.best / LB == pytest.approx(150)
    assert low.verdict is Verdict.OVER


def test_a_trim_given_as_a_range_is_judged_at_its_low_end() -> None:
    row = _row("lock", a_set(), a_piece(**DROP), hung(deck="5..25 ft"), bricks=10)
    assert row.value.best / LB == pytest.approx(150)


# Standing on the deck with taut ties a piece puts anything between nothing and its weight on the batten.
def test_a_trim_at_which_a_piece_may_stand_on_the_deck_is_unknown_to_the_lock() -> None:
    piece = a_piece(weight="200 lb", height="12 ft")
    row = _row("lock", a_set(), piece, hung(show="8 ft"), bricks=10)
    assert _pounds(row) == pytest.approx((0, 0, 200), abs=1e-9)
    assert row.verdict is Verdict.UNKNOWN


# A drop of 200 lb and 20 ft and a flat of 200 lb and 16 ft on one batten, 18 bricks, lowest trim 15 ft. There a quarter
# of the drop lies on the deck (+50 lb), and the flat may stand on it with all it weighs (+200 lb).
def test_pieces_that_land_at_a_trim_are_added_up() -> None:
    flat = a_piece("flat", "200 lb", height="16 ft")
    found = judged(a_house(), [a_piece(**DROP), flat], [hung(show="15 ft"), hung("flat")],
                   stated_bricks={"9": "18"}).set_called("9")  # fmt: skip
    assert found is not None
    lock = found.row("lock")
    assert lock is not None
    assert lock.value.high / LB == pytest.approx(50 + 200)


def test_the_flying_range_begins_where_every_piece_hangs_free_or_at_the_lowest_trim() -> None:
    one = rigged_set(None, [a_piece(height="9 ft"), a_piece("tall", height="12 ft")], [hung(), hung("tall")])
    assert [h / FT for h in flying_heights(one)] == pytest.approx([12, 58])
    low = rigged_set(None, [a_piece(height="9 ft"), a_piece("tall", height="12 ft")], [hung(deck="7 ft"), hung("tall")])
    heights = [h / FT for h in flying_heights(low)]
    assert heights == pytest.approx([7, 9, 9, 12, 12, 58], abs=1e-5)
    assert heights == sorted(set(heights))


# Batten-heavy the tension block is pulled up twice the pull of the lock; arbor-heavy not at all.
@pytest.mark.parametrize(("bricks", "pull"), [(4, 100), (8, 0)])
def test_the_tension_block_is_pulled_up_twice_when_the_batten_is_heavy(bricks: int, pull: float) -> None:
    assert _pounds(_row("tension block", a_set(), a_piece(), bricks=bricks)) == pytest.approx((pull,) * 3, abs=1e-9)


# A piece of 80..120 lb with pipe weight: Δ -80..-120; on the arbor, at purchase r, r times that.
@pytest.mark.parametrize(("purchase", "weight", "pulls"), [
    ("single", "64.24 lb", (80, 100, 120)), ("double", "178.48 lb", (160, 200, 240)),
])  # fmt: skip
def test_the_top_stop_holds_the_whole_piece_when_only_pipe_weight_is_on(
    purchase: str, weight: str, pulls: tuple[float, ...]
) -> None:
    one = a_set(purchase=purchase, arbor={"weight": weight})
    assert _pounds(_row("top stop", one, a_piece(weight="80..120 lb"))) == pytest.approx(pulls)


def test_the_top_stop_holds_more_where_fewer_than_pipe_weight_are_stated() -> None:
    assert _row("top stop", a_set(), a_piece(), bricks=0).value.best / LB == pytest.approx(150)


# The arbor stands on its bottom stop arbor-heavy: 9 bricks, +75 lb.
def test_the_bottom_stop_holds_what_is_arbor_heavy_at_high_trim() -> None:
    assert _row("bottom stop", a_set(), a_piece(), bricks=9).value.best / LB == pytest.approx(75)
    assert _row("bottom stop", a_set(), a_piece(), bricks=4).value.best == 0.0


def test_stated_bricks_are_judged_and_not_the_proposed_count() -> None:
    found = judged(a_house(), [a_piece()], [hung()], stated_bricks={"9": "9"}).set_called("9")
    assert found is not None
    assert found.stack is not None
    assert (found.stack.bricks, found.stack_basis, found.verdict) == (9, "stated", Verdict.OVER)


def test_a_stack_that_is_too_high_is_over() -> None:
    row = _row("stack", a_set(arbor={"usable height": "8 in"}), a_piece(), bricks=9)
    assert row.verdict is Verdict.OVER


# 64.24 lb and 6 bricks of 25 lb.
def test_the_arbor_carries_itself_and_its_stack() -> None:
    assert _row("arbor", a_set(), a_piece(), bricks=6).value.best / LB == pytest.approx(214.24)


def test_doubt_about_the_arbor_and_the_bricks_widens_what_the_arbor_carries() -> None:
    brick = {"brick": "full", "weight": "25 lb", "spread": "1 lb", "thickness": "1 in", "stock": {}}
    found = judged(a_house(a_set(arbor={"weight": "60..70 lb"}), bricks=[brick]), [a_piece()], [hung()],
                   stated_bricks={"9": "6"}).set_called("9")  # fmt: skip
    assert found is not None
    row = found.row("arbor")
    assert row is not None
    assert _pounds(row) == pytest.approx((204, 215, 226))


def test_the_balance_is_drawn_from_low_to_high_trim_with_its_kinks() -> None:
    found = judged(a_house(), [a_piece(**DROP)], [hung()]).set_called("9")
    assert found is not None
    heights = [height / FT for height, _ in found.balance]
    assert (heights[0], heights[-1]) == pytest.approx((4, 58))
    assert any(height == pytest.approx(20) for height in heights)
    assert heights == sorted(heights)
