"""The arithmetic that is shown comes out: each step done by hand, here in the test, gives the figure that is told."""

import re

import pytest

from counterpoise.app import Texts, demo_texts, judge
from counterpoise.checks import HouseResult, Verdict
from counterpoise.checks.working import COMES_TO, workings_of
from tests.eight_sets import eight_sets
from tests.plain_house import LB, a_house, a_piece, a_set, hung, judged
from tests.random_houses import drawn
from tests.workings import done


@pytest.fixture(scope="module", params=["eight sets", "demo"])
def result(request: pytest.FixtureRequest) -> HouseResult:
    return judge(eight_sets() if request.param == "eight sets" else demo_texts())


def test_each_step_done_in_turn_gives_what_the_row_carries_and_may_carry(result: HouseResult) -> None:
    seen = 0
    for row in (row for one in result.sets for row in one.rows):
        for each in workings_of(result, row.key):
            most = row.value.best if row.verdict is Verdict.OVER else row.value.high
            assert done(each) == pytest.approx(most if each.says == COMES_TO else row.limit, rel=1e-6, abs=1e-9), (
                row.key
            )
            seen += 1
    assert seen > 100


def test_the_printed_numbers_of_a_sum_add_up_as_one_adds_them(result: HouseResult) -> None:
    for row in (row for one in result.sets for row in one.rows if row.coefficients):
        for each in workings_of(result, row.key):
            if {step.sign for step in each.steps} <= {"", "+"}:
                printed = [float(re.sub(r"[^0-9.]", "", one.figure)) for one in each.steps]
                total = float(re.sub(r"[^0-9.]", "", each.figure))
                assert sum(printed) == pytest.approx(total, abs=0.051 * (len(printed) + 1))


def test_a_rope_may_carry_its_strength_times_what_ends_keep_over_the_factor() -> None:
    """7,000 lb of rope, 80 % at its ends, a factor of 8: 7000 x 0.8 / 8 = 700 lb, by hand."""
    found = next(one for one in workings_of(judge(demo_texts()), "2/lift line/4") if one.says != COMES_TO)
    assert [(one.sign, one.figure) for one in found.steps] == [("", "7,000.0 lb"), ("×", "80.0 %"), ("÷", "8")]
    assert found.figure == "700.0 lb"


def test_a_beam_names_each_set_on_it_with_what_that_set_puts_there() -> None:
    """A set's share is what its own line pulls there, its rope with it: told by that set's own lift line row."""
    result = judge(demo_texts())
    found = next(one for one in workings_of(result, "27/loft beam/3") if one.says == COMES_TO)
    bay = result.house.bay_of("27")
    assert bay is not None
    named = {
        step.says.split(",")[0].removeprefix("set "): step.value for step in found.steps if "ropes with" in step.says
    }
    assert set(named) == set(bay.sets) - {"27"}
    for label, share in named.items():
        other = result.set_called(label)
        assert other is not None
        row = other.row("lift line", 3)
        assert row is not None
        assert share == pytest.approx(row.value.best, rel=1e-6)


@pytest.mark.parametrize(("written", "says", "times"), [
    ("line pull", "is line pull", None),
    ("resultant", "is the resultant", "1.414"),
    ("unknown", "is not written", "1.414"),
])  # fmt: skip
def test_a_block_says_which_case_of_its_rating_is_judged(written: str, says: str, times: str | None) -> None:
    """A right angle: the resultant is T times the root of two, 1.414 (vectors)."""
    demo = eight_sets()
    assert "rating of: line pull" in demo.house
    house = demo.house.replace("rating of: line pull", f"rating of: {written}", 1)
    result = judge(Texts(house=house, show=demo.show, hang=demo.hang))
    found = next(one for one in workings_of(result, "4/loft block/1") if one.says == COMES_TO)
    assert says in found.note
    assert found.steps[0].says == "T, the pull in line 1"
    assert [step.figure for step in found.steps if step.sign == "×"] == ([] if times is None else [times])


def test_a_figure_that_is_of_no_set_or_not_known_has_no_arithmetic() -> None:
    demo = eight_sets()
    result = judge(demo)
    assert workings_of(result, result.bridges[0].key) == ()
    assert workings_of(result, "nothing/there") == ()
    house = demo.house.replace("low trim: 4 ft @survey", "low trim: unknown", 1)
    unknown = judge(Texts(house=house, show=demo.show, hang=demo.hang))
    assert workings_of(unknown, "1/lock") == ()


@pytest.mark.parametrize("seed", range(12))
def test_the_steps_of_any_hang_come_out_and_so_do_the_printed_numbers_of_its_blocks(seed: int) -> None:
    """Printed to a tenth of a pound each is out by half of that; a turn of four figures by half of its last."""
    house, pieces, places, said = drawn(seed)
    result = judged(house, pieces, places, **said)
    blocks = 0
    for row in (row for one in result.sets for row in one.rows):
        for each in workings_of(result, row.key):
            assert done(each) == pytest.approx(each.value, rel=1e-6, abs=1e-9), row.key
            if row.link in ("loft block", "head block") and each.says == COMES_TO:
                value = slack = 0.0
                for step in each.steps:
                    number = float(re.sub(r"[^0-9.]", "", step.figure))
                    if step.sign == "×":
                        value, slack = value * number, slack * number + 0.0005 * value
                    else:
                        value, slack = value + number, slack + 0.051
                total = float(re.sub(r"[^0-9.]", "", each.figure))
                assert value == pytest.approx(total, abs=slack + 0.051), (row.key, each)
                blocks += 1
    assert blocks > 10


@pytest.mark.parametrize(("weight", "rating_of"), [("~300 lb", "line pull"), ("300 lb", "unknown")])
def test_a_head_block_that_is_over_adds_up_with_what_the_hand_line_adds(weight: str, rating_of: str) -> None:
    block = {"rating": "400 lb", "rating of": rating_of}
    result = judged(a_house(a_set(head_block=block, lines={"weight": "0.110 lb/ft"})), [a_piece(weight=weight)],
                    [hung()], stated_bricks={"9": "16"})  # fmt: skip
    found = next(one for one in workings_of(result, "9/head block") if one.says == COMES_TO)
    assert result.sets[0].row("head block").verdict is Verdict.OVER  # type: ignore[union-attr]
    assert [step.says for step in found.steps[-2:]] == ["the ropes' own weight", "what the hand line adds, arbor-heavy"]
    # 58 ft of five lines hang below the blocks at low trim: 31.9 lb
    assert found.steps[-2].value / LB == pytest.approx(5 * 0.110 * 58, rel=1e-3)
    assert sum(step.value for step in found.steps[:5]) / LB == pytest.approx(414.24)


# Bricks of a hundredth of a pound leave nothing to speak of, and lines of 0.1 lb/ft shift it alike from 4 to 58 ft: at
# best it balances halfway, at 31 ft.
def test_the_lock_says_at_which_height_to_balance() -> None:
    bricks = [{"brick": "full", "weight": "0.01 lb", "thickness": "0.0001 in", "stock": {}}]
    one = a_set(lines={"weight": "0.1 lb/ft"}, pipe_weight="5000")
    result = judged(a_house(one, bricks=bricks), [a_piece()], [hung()])
    found = next(each for each in workings_of(result, "9/lock") if each.says == COMES_TO)
    assert re.search(r"balances with the batten at (31' 0|30' 11)", found.note), found.note


def test_a_set_of_which_just_the_whole_is_known_has_its_part_in_the_sum_of_the_head_beam() -> None:
    """Equilibrium: a pipe of 114.24 lb and a piece of 100 lb, whatever their five ropes give."""
    house = a_house(a_set("9"), a_set("10", lines={"stiffness": "unknown"}))
    result = judged(house, [a_piece()], [hung(on="10")])
    (beam,) = [each for each in workings_of(result, "9/head beam") if each.says == COMES_TO]
    (step,) = [each for each in beam.steps if each.says.startswith("set 10")]
    assert step.value / LB == pytest.approx(214.24)
    row = result.sets[0].row("head beam")
    assert row is not None
    assert done(beam) == pytest.approx(row.value.high)
