import pytest

from counterpoise.balance import Stack, out_of_balance
from counterpoise.documents.house import Rules
from counterpoise.rigging import RiggedHouse
from counterpoise.rigging.rules import DEFAULTS, read_rules
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, hung, rigged, rigged_set

KG = 0.45359237  # [kg] a pound, NIST SP 811 appendix B


def _lacking(house: RiggedHouse) -> list[str]:
    return [one.what for one in house.missing]


def test_a_set_becomes_si_figures_in_which_the_arbor_falls_as_the_batten_rises() -> None:
    one = rigged_set(a_set(purchase="double", arbor={"seat at low trim": "50 ft"}))
    assert (one.low, one.high, one.loft) == pytest.approx((4 * FT, 58 * FT, 62 * FT))
    assert one.batten_mass == pytest.approx(114.24 * KG)
    assert one.seat(24 * FT) == pytest.approx((50 - 20 / 2) * FT)
    assert rigged_set(a_set(arbor={"seat at low trim": "50 ft"})).seat(24 * FT) == pytest.approx(30 * FT)


# L of a line: 58 ft from block to batten, then 46 - 1 = 45 ft across the loft from the first line; L/EA.
def test_the_whole_rope_stretches_and_not_only_the_part_below_the_block() -> None:
    first, *_, last = rigged_set(a_set(lines={"at": ["1 ft", "41 ft"], "stiffness": "446,000 lb"})).lines
    assert first.flexibility == pytest.approx((58 + 45) * FT / (446_000 * LB))
    assert last.flexibility == pytest.approx((58 + 5) * FT / (446_000 * LB))


def test_picks_share_a_weight_equally_about_the_pieces_own_centre() -> None:
    one = rigged_set(None, [a_piece(picks=["6' SR", "6' SL"])], [hung(centre="2' SL")])
    assert [x / FT for x, _ in one.pieces[0].points] == pytest.approx([17, 29])
    assert [share for _, share in one.pieces[0].points] == [0.5, 0.5]


def test_an_estimate_is_widened_by_the_rule_and_a_range_is_not() -> None:
    guess = rigged_set(None, [a_piece(weight="~100 lb")], [hung()]).pieces[0]
    assert guess.mass == pytest.approx((80 * KG, 100 * KG, 120 * KG))
    between = rigged_set(None, [a_piece(weight="90..130 lb")], [hung()]).pieces[0]
    assert between.mass == pytest.approx((90 * KG, 110 * KG, 130 * KG))
    assert rigged_set(None, [a_piece()], [hung()]).pieces[0].is_certain


def test_doubt_about_pipe_hardware_arbor_and_bricks_is_carried_along() -> None:
    one = rigged_set(a_set(batten={"weight": "2.6..2.8 lb/ft", "hardware": "~10 lb"}, arbor={"weight": "60..70 lb"}))
    assert one.batten_doubt == pytest.approx((42 * 0.1 + 2) * KG)
    assert one.arbor_doubt == pytest.approx(5 * KG)
    brick = {"brick": "full", "weight": "24..26 lb", "spread": "0.5 lb", "thickness": "1 in", "stock": {}}
    assert rigged(a_house(bricks=[brick])).sets[0].brick.spread == pytest.approx(1.5 * KG)


@pytest.mark.parametrize(("change", "what"), [
    ({"batten": {"length": "unknown"}}, "batten length"),
    ({"arbor": {"usable height": "unknown"}}, "usable height"),
    ({"lines": {"at": ["20' SR", "unknown", "20' SL"]}}, "the place of a line"),
    ({"lines": {"stiffness": "unknown"}}, "lift-line stiffness"),
    ({"pipe_weight": "unknown"}, "pipe weight"),
])  # fmt: skip
def test_a_set_without_a_figure_it_needs_is_not_rigged_and_says_which(change: Map, what: str) -> None:
    house = rigged(a_house(a_set(**change)))
    assert house.sets == ()
    assert _lacking(house) == [what]


def test_an_arbor_nobody_weighed_weighs_what_balances_the_empty_batten_with_its_pipe_weight() -> None:
    """By hand: 42 ft of 2.72 lb/ft and 10 lb of hardware, no rope weight, less 3 bricks of 25 lb: 49.24 lb.

    The count is whole: half a brick either way.
    """
    one = rigged_set(a_set(arbor={"weight": "unknown", "plate weight": "0 lb"}, pipe_weight="3",
                           batten={"weight": "2.72 lb/ft", "hardware": "10 lb"},
                           lines={"weight": "0 lb/ft"}))  # fmt: skip
    assert one.arbor_mass == pytest.approx(49.24 * KG)
    assert one.arbor_doubt == pytest.approx(12.5 * KG + 3 * one.brick.spread)
    middle = (one.low + one.high) / 2
    assert out_of_balance(one, Stack(3), middle).best == pytest.approx(0.0, abs=1e-9)


def test_the_weight_of_an_arbor_found_by_its_pipe_weight_is_doubtful_by_what_the_lift_lines_shift() -> None:
    """By hand: 5 lines of 0.11 lb/ft over 54 ft of travel shift 29.7 lb twice, so 29.7 lb either way of the middle."""
    one = rigged_set(a_set(arbor={"weight": "unknown"}, lines={"weight": "0.11 lb/ft"}, low_trim="4 ft",
                           high_trim="58 ft"))  # fmt: skip
    lines = len(one.lines) * 0.11 * 54
    assert one.arbor_doubt == pytest.approx((12.5 + lines) * KG + one.pipe_bricks * one.brick.spread)


@pytest.mark.parametrize(("piece", "what"), [
    ({"weight": "unknown"}, "weight of border"),
    ({"spread_over": "unknown"}, "spread of border"),
    ({"picks": ["unknown"]}, "a pick of border"),
    ({"height": "unknown"}, "height of border"),
])  # fmt: skip
def test_a_piece_that_is_not_known_well_enough_never_hangs_as_nothing(piece: Map, what: str) -> None:
    assert _lacking(rigged(a_house(), [a_piece(**piece)], [hung()])) == [what]


def test_an_unknown_trim_centre_or_count_is_missing_and_not_left_out() -> None:
    lacking = _lacking(rigged(a_house(), [a_piece()], [hung(centre="unknown", deck="unknown")],
                              stated_bricks={"9": "unknown"}))  # fmt: skip
    assert lacking == ["centre of border", "trim deck of border", "count of bricks on the arbor"]


def test_a_brick_of_unknown_spread_is_not_a_brick_without_spread() -> None:
    brick = {"brick": "full", "weight": "25 lb", "spread": "unknown", "thickness": "1 in", "stock": {}}
    assert _lacking(rigged(a_house(bricks=[brick]))) == ["weight, spread or thickness of the full brick"]


def test_a_rule_written_as_unknown_is_not_the_default() -> None:
    house = rigged(a_house(rules=dict.fromkeys(DEFAULTS, "unknown")))
    for name, rule in house.rules.items():
        assert rule.is_unknown
        assert rule.words == "unknown"
        assert rule.value != DEFAULTS[name][0]
    assert _lacking(house) == ["the rule `plate every`"]


def test_an_unknown_spread_of_estimates_is_missing_only_where_something_is_an_estimate() -> None:
    rules = {"estimate spread": "unknown"}
    assert _lacking(rigged(a_house(rules=rules), [a_piece()], [hung()])) == []
    guessed = rigged(a_house(rules=rules), [a_piece(weight="~9 lb")], [hung()])
    assert _lacking(guessed) == ["the rule `estimate spread`"]


# More factor, more spread and a heavier person are stricter; less of everything else is.
def test_of_a_rule_given_as_a_range_the_stricter_end_is_taken() -> None:
    rules = rigged(a_house(rules={"lock hold": "40..50 lb", "lift line factor": "8..10", "sag": "1/240..1/180"})).rules
    assert rules["lock hold"].value == pytest.approx(40 * LB)
    assert rules["lift line factor"].value == 10.0
    assert rules["sag"].value == pytest.approx(1 / 240)


def test_a_rule_left_out_is_a_default_that_nobody_adopted() -> None:
    assert read_rules(Rules())["lock hold"].written is None
    assert not read_rules(Rules())["lock hold"].is_unknown


def test_a_batten_on_two_lines_is_rigged() -> None:
    assert len(rigged_set(a_set(lines={"at": ["10' SR", "10' SL"]})).lines) == 2


# 48 x 3 ft at 40 psf carry 5,760 lb.
def test_a_bridge_carries_its_posting_over_its_whole_floor() -> None:
    bridge = {"bridge": "high", "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft", "length": "48 ft",
              "width": "3 ft", "posting": "40 psf", "people": "3"}  # fmt: skip
    found = rigged(a_house(bridges=[bridge])).bridges[0]
    assert found.most == pytest.approx(5_760 * KG)
    assert (found.reach_low, found.reach_high) == pytest.approx((49 * FT, 56 * FT))
    assert rigged(a_house(bridges=[{**bridge, "posting": "unknown"}])).bridges[0].most is None
