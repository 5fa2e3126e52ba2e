from __future__ import annotations

import math

import pytest

from counterpoise.loadpath import Forces, Link, SteelPulls, Tipping, forces_of, links_of, steel_pulls
from counterpoise.rigging import RiggedHouse, RiggedSet
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, hung, rigged, rigged_set


def _forces(one: RiggedSet) -> Forces:
    found = forces_of(one)
    assert isinstance(found, Forces)
    return found


def _links(house: RiggedHouse, label: str) -> dict[tuple[str, int | None], Link]:
    one = house.set_called(label)
    assert one is not None
    pulls: dict[str, SteelPulls | None] = {each.label: steel_pulls(each, _forces(each)) for each in house.sets}
    bay = house.house.steel[0]
    others = {each: pulls.get(each) for each in bay.sets if each != label}
    return {(link.name, link.line): link for link in links_of(one, bay, others, _forces(one))}


def _best(house: RiggedHouse, label: str, name: str, line: int | None = None) -> float:
    one = house.set_called(label)
    assert one is not None
    link = _links(house, label)[name, line]
    return _forces(one).span(link.coefficients, link.constant).best / LB


# Two lines at equal distance from the middle carry half each.
def test_two_lines_carry_half_each_of_a_level_batten() -> None:
    one = rigged_set(a_set(lines={"at": ["10' SR", "10' SL"]}), [a_piece(picks=["CL"], weight="100 lb")], [hung()])
    assert [pull.best / LB for pull in _forces(one).tensions] == pytest.approx([107.12, 107.12])


# Moments about line 1 at x = 11 ft: 2 lines at 11 and 31 ft, 100 lb at 26 ft: 75 lb and 25 lb; batten 57.12 each.
def test_an_off_centre_pick_goes_to_the_nearer_line_by_the_lever() -> None:
    one = rigged_set(a_set(lines={"at": ["10' SR", "10' SL"]}), [a_piece(picks=["CL"])], [hung(centre="5' SL")])
    assert [pull.best / LB for pull in _forces(one).tensions] == pytest.approx([57.12 + 25, 57.12 + 75])


# Batten 114.24 lb at its middle, 1,000 lb 20 ft SL, lines 10 ft either side: the centre of gravity is 17.95 ft SL.
def test_a_load_outside_the_lines_tips_the_batten_and_is_an_answer() -> None:
    one = rigged_set(a_set(lines={"at": ["10' SR", "10' SL"]}), [a_piece(picks=["CL"], weight="1,000 lb")],
                     [hung(centre="20' SL")])  # fmt: skip
    found = forces_of(one)
    assert isinstance(found, Tipping)
    assert found.is_certain
    assert found.tips.centre / FT == pytest.approx(21 + 20 * 1000 / 1114.24)


def test_a_batten_that_tips_only_if_a_weight_is_at_the_end_of_its_range_may_tip() -> None:
    one = rigged_set(a_set(lines={"at": ["10' SR", "10' SL"]}), [a_piece(picks=["CL"], weight="20..200 lb")],
                     [hung(centre="20' SL")])  # fmt: skip
    found = forces_of(one)  # tips above 114.24 lb, as 10 W = 114.24 x 10
    assert isinstance(found, Tipping)
    assert not found.is_certain


def test_doubt_about_a_weight_widens_the_pull_of_each_line_by_its_lever() -> None:
    one = rigged_set(a_set(lines={"at": ["10' SR", "10' SL"]}), [a_piece(picks=["CL"], weight="80..120 lb")], [hung()])
    pull = _forces(one).tensions[0]
    assert (pull.low / LB, pull.best / LB, pull.high / LB) == pytest.approx((97.12, 107.12, 117.12))


def test_doubt_about_the_pipe_widens_the_pulls_too() -> None:
    one = rigged_set(a_set(lines={"at": ["10' SR", "10' SL"]}, batten={"weight": "2.62..2.82 lb/ft"}))
    pull = _forces(one).tensions[0]
    assert (pull.low / LB, pull.best / LB, pull.high / LB) == pytest.approx((55.02, 57.12, 59.22))


def test_seven_doubtful_weights_still_bracket_all_light_and_all_heavy() -> None:
    pieces = [a_piece(f"p{n}", "90..110 lb") for n in range(7)]
    forces = _forces(rigged_set(None, pieces, [hung(f"p{n}") for n in range(7)]))
    whole = forces.span([1.0] * 5)
    assert (whole.low / LB, whole.high / LB) == pytest.approx((114.24 + 630, 114.24 + 770))


def _rated(of: str) -> RiggedHouse:
    rated = {"rating of": of}
    return rigged(a_house(a_set(loft_block=rated, head_block=rated, lines={"at": ["10' SR", "10' SL"]})))


# R = 2 T sin(90°/2) = √2 T (statics of a block that turns a line by a right angle); T = 57.12 lb.
def test_a_block_rated_by_resultant_carries_the_resultant_of_a_right_angle() -> None:
    assert _best(_rated("line pull"), "9", "loft block", 1) == pytest.approx(57.12)
    assert _best(_rated("resultant"), "9", "loft block", 1) == pytest.approx(math.sqrt(2) * 57.12)
    assert _best(_rated("line pull"), "9", "head block") == pytest.approx(114.24)
    assert _best(_rated("resultant"), "9", "head block") == pytest.approx(math.sqrt(2) * 114.24)


# 0.1 lb/ft x 58 ft = 5.8 lb hang below each block at low trim; chain and shackle are below them.
def test_the_rope_and_its_blocks_carry_the_ropes_own_weight_and_what_is_below_does_not() -> None:
    house = rigged(a_house(a_set(lines={"at": ["10' SR", "10' SL"], "weight": "0.1 lb/ft"})))
    for name, pull in (("trim chain", 57.12), ("shackle", 57.12), ("lift line", 62.92), ("loft block", 62.92)):
        assert _best(house, "9", name, 1) == pytest.approx(pull)
    assert _best(house, "9", "head beam") == pytest.approx(114.24 + 11.6)


def _two(second: Map) -> RiggedHouse:
    first = a_set("1", lines={"at": ["10' SR", "10' SL"], "weight": "0.1 lb/ft"})
    return rigged(a_house(first, second))


# Neighbour: low trim 12 ft and 0.2 lb/ft, so 0.2 x 50 = 10 lb a line; 57.12 + 10 of it and 57.12 + 5.8 of its own.
def test_shared_steel_carries_each_sets_own_lift_line_weight() -> None:
    house = _two(a_set("2", low_trim="12 ft", lines={"at": ["10' SR", "10' SL"], "weight": "0.2 lb/ft"}))
    assert _best(house, "1", "loft beam", 1) == pytest.approx(2 * 57.12 + 5.8 + 10)
    assert _best(house, "1", "head beam") == pytest.approx(2 * 114.24 + 2 * 5.8 + 2 * 10)
    assert _best(house, "2", "head beam") == pytest.approx(_best(house, "1", "head beam"))


# The dead ends of a double purchase pull as much again: its arbor, 2 (B), hangs from the head steel.
def test_a_double_purchase_pulls_twice_on_the_head_beam_and_once_on_the_loft_beam() -> None:
    house = _two(a_set("2", purchase="double", lines={"at": ["10' SR", "10' SL"]}))
    assert _best(house, "1", "head beam") == pytest.approx(114.24 + 11.6 + 2 * 114.24)
    assert _best(house, "2", "head beam") == pytest.approx(114.24 + 11.6 + 2 * 114.24)
    assert _best(house, "1", "loft beam", 1) == pytest.approx(2 * 57.12 + 5.8)


# Five lines at 10 ft and two at the places of lines 2 and 4.
def test_lines_of_a_set_with_fewer_lines_load_the_beams_they_stand_at() -> None:
    house = rigged(a_house(a_set("1"), a_set("2", lines={"at": ["10' SR", "10' SL"]})))
    one = house.set_called("1")
    assert one is not None
    alone = [pull.best / LB for pull in _forces(one).tensions]
    found = [_best(house, "1", "loft beam", line) for line in range(1, 6)]
    assert [a - b for a, b in zip(found, alone, strict=True)] == pytest.approx([0, 57.12, 0, 57.12, 0], abs=1e-6)


def test_lines_that_stand_at_no_beam_of_the_set_leave_its_beams_unknown() -> None:
    house = rigged(a_house(a_set("1"), a_set("2", lines={"at": ["7' SR", "7' SL"]})))
    assert "other places" in _links(house, "1")["loft beam", 1].lacks
    assert _links(house, "1")["head beam", None].lacks == ""


def test_a_neighbour_that_is_not_known_leaves_loft_and_head_beam_unknown() -> None:
    lacking = [a_set(label, batten={"wall": "unknown"}) for label in ("10", "11")]
    house = rigged(a_house(a_set(), *lacking))
    links = _links(house, "9")
    assert (
        links["loft beam", 3].lacks == links["head beam", None].lacks == "sets 10, 11 on the same steel are not known"
    )
