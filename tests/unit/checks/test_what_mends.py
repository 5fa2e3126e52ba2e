"""What a finding tells to do names what keeps its row over, and no more than was judged."""

from __future__ import annotations

from typing import Any

import pytest

from counterpoise.checks import HouseResult, Verdict, judge_again, together
from tests.plain_house import Map, a_house, a_piece, a_set, hung, judged


def _mend(result: HouseResult, code: str, label: str = "9") -> str:
    return next(one.mend for one in result.findings if one.code == code and one.label == label)


def _two(light: Map, heavy: Map | None = None, **changes: Any) -> HouseResult:
    pieces = [a_piece("heavy", "300 lb", **(heavy or {})), a_piece("light", **light)]
    return judged(a_house(a_set(**changes)), pieces, [hung("heavy"), hung("light", centre="15' SL")])


def test_a_clamp_that_is_over_names_its_own_piece_and_not_the_heaviest() -> None:
    mend = _mend(_two({"weight": "200 lb", "picks": ["CL"], "clamps": {"rating": "100 lb"}}), "CLAMP-OVER")
    assert "light may weigh at most 99 lb" in mend or "light may weigh at most 100 lb" in mend
    assert "heavy" not in mend


def test_clamps_that_do_not_go_on_the_pipe_name_their_own_piece_to_be_taken_off() -> None:
    mend = _mend(_two({"weight": "20 lb", "picks": ["CL"], "clamps": {"fit to": "1.5 in"}}), "CLAMP-SIZE-OVER")
    assert mend == "Take light off this set: no weight of it would clear this."


# 300 lb at a point between two lines bend the pipe; 310 lb spread over all of it do not. No weight of the spread piece,
# which relieves or loads that span by little, mends it by less than some of the point load does.
def test_the_piece_that_needs_the_smallest_relief_is_named() -> None:
    pieces = [a_piece("spread", "310 lb"), a_piece("point", "300 lb", picks=["CL"])]
    result = judged(a_house(a_set()), pieces, [hung("spread"), hung("point", centre="15' SL")])
    mend = _mend(result, "BATTEN-OVER")
    assert "point may weigh" in mend


# The bare batten weighs 114.24 lb, more than the 100 lb that are posted for batten and all.
def test_of_a_bare_batten_that_is_past_it_nothing_is_told_to_be_taken_off() -> None:
    posted = [{"load": "100 lb", "counts": "batten and all", "by": "an invented engineer"}]
    mend = _mend(judged(a_house(a_set(posted=posted)), [a_piece()], [hung()]), "POSTED-CAPACITY-OVER")
    assert mend.startswith("The bare batten is past this by itself")


# Two points of 400 lb each, either of which alone bends the pipe too far.
def test_where_each_of_two_pieces_is_too_much_it_says_to_take_off_more_than_one() -> None:
    pieces = [a_piece(name, "600 lb", picks=["CL"]) for name in ("left", "right")]
    result = judged(a_house(a_set()), pieces, [hung("left", centre="15' SR"), hung("right", centre="15' SL")])
    assert _mend(result, "BATTEN-OVER") == "No one piece clears this, however light: take off more than one."


def test_steel_that_a_neighbour_loads_names_the_neighbour() -> None:
    house = a_house(a_set("1", distance="1 ft"), a_set("2", distance="2 ft"))
    house["steel"][0]["loft beam"] = "150 lb"
    result = judged(
        house, [a_piece("big", "700 lb"), a_piece("small", "30 lb")], [hung("big", "1"), hung("small", "2")]
    )
    assert "set 1 puts the most on it" in _mend(result, "LOFT-BEAM-OVER", "2")
    assert "big may weigh" in _mend(result, "LOFT-BEAM-OVER", "1")


def test_a_beam_that_is_over_is_told_once_with_its_sets() -> None:
    house = a_house(*(a_set(str(number), distance=f"{number} ft") for number in range(1, 5)))
    house["steel"][0]["loft beam"] = "150 lb"
    result = judged(house, [a_piece("big", "700 lb")], [hung("big", "1")])
    told = [one for one in together(result.findings, ["1", "2", "3", "4"]) if one.finding.code == "LOFT-BEAM-OVER"]
    assert [one.labels for one in told] == [("1", "2", "3", "4")]
    assert "big may weigh" in told[0].finding.mend


# Six bricks balance it exactly: 114.24 + 100 - 64.24 = 150 lb. Seven leave it 25 lb arbor-heavy, past 20 lb.
@pytest.mark.parametrize(("part", "code"), [
    ({"hand_line": {"travels": "with the batten", "rating": "20 lb"}}, "HAND-LINE-OVER"),
    ({"stops": {"top": "1500 lb", "bottom": "20 lb"}}, "BOTTOM-STOP-OVER"),
])  # fmt: skip
def test_a_part_that_the_count_loads_is_mended_by_the_count(part: Map, code: str) -> None:
    house = a_house(a_set(**part))
    assert _mend(judged(house, [a_piece()], [hung()], stated_bricks={"9": "7"}), code).startswith(
        "6 bricks, 25 lb less"
    )
    again = judged(house, [a_piece()], [hung()], stated_bricks={"9": "6"}).sets[0]
    assert all(row.verdict is Verdict.WITHIN for row in again.rows)


# With lines of 0.5 lb/ft the balance shifts by 2 x 5 x 0.5 x 54 = 270 lb over the travel: 135 lb either way at best.
def test_where_no_count_helps_a_part_it_says_so_and_what_the_part_would_have_to_carry() -> None:
    one = a_set(lines={"weight": "0.5 lb/ft"}, hand_line={"travels": "with the batten", "rating": "20 lb"},
                lock={"hold": "300 lb"}, tension_block="900 lb")  # fmt: skip
    mend = _mend(judged(a_house(one), [a_piece()], [hung()]), "HAND-LINE-OVER")
    assert mend.startswith("No count of bricks keeps this and all else that rests on the count within.")
    assert " lb at the worst" in mend


# Balanced at 31 ft by symmetry (4 to 58 ft): the best count leaves as much at either end.
def test_a_lock_that_is_over_says_at_which_height_to_balance() -> None:
    bricks = [{"brick": "full", "weight": "0.1 lb", "thickness": "0.001 in", "stock": {}}]
    house = a_house(a_set(lines={"weight": "0.1 lb/ft"}, pipe_weight="500"), bricks=bricks)
    mend = _mend(judged(house, [a_piece()], [hung()], stated_bricks={"9": "1000"}), "LOCK-OVER")
    assert "balanced with the batten at 31' 0" in mend or "balanced with the batten at 30' 11" in mend, mend


def test_a_lock_that_is_over_while_lines_lean_tells_the_figure_and_what_is_not_computed() -> None:
    leaning = {"at": [{"at": "20' SR", "block at": "11' SR"}, "10' SR", "CL", "10' SL", "20' SL"]}
    result = judged(a_house(a_set(lines=leaning)), [a_piece()], [hung()], stated_bricks={"9": "12"})
    (finding,) = [one for one in result.findings if one.code == "LOCK-OVER"]
    assert finding.says.startswith("150 of 50 lb; line 1 leans")


def test_one_short_cable_is_one_finding_that_says_how_long_one_must_be() -> None:
    cable = {"length": "40 ft", "weight": "0.5 lb/ft", "box": "50 ft"}  # 46 ft down to low trim at 4 ft
    result = judged(a_house(a_set()), [a_piece(cables=[cable])], [hung()])
    assert [one.code for one in result.findings] == ["CABLE-SHORT"]
    assert "longer than 46' 0" in result.findings[0].mend
    assert result.sets[0].verdict is Verdict.UNKNOWN


def test_a_set_judged_again_with_its_twin_is_judged_as_the_whole_hang_is() -> None:
    house = a_house(a_set("1", distance="1 ft"), a_set("2", distance="2 ft", twin_of="1"))
    pieces, places = [a_piece("a", "300 lb"), a_piece("b", "90 lb")], [hung("a", "1"), hung("b", "2")]
    result = judged(house, pieces, places)
    for label in ("1", "2"):
        one = result.set_called(label)
        assert one is not None
        assert one.batten is not None
        again = judge_again(result, label, [(each.hung, each.written) for each in one.batten.pieces])
        assert again.verdict is one.verdict is Verdict.UNKNOWN
        assert {row.key: (row.value, row.verdict) for row in again.rows} == {
            row.key: (row.value, row.verdict) for row in one.rows
        }
