"""A set let go, against a textbook machine, closed forms and a slow simulation in pounds, feet and seconds."""

from __future__ import annotations

import math
from typing import Any

import pytest

from counterpoise.balance import Stack
from counterpoise.planning.let_go import acceleration, let_go, worst_start
from counterpoise.planning.risk import told_let_go
from counterpoise.rigging import RiggedSet
from tests.plain_house import FT, Map, a_house, a_piece, a_set, hung, rigged, rigged_set

POUND, G = 0.45359237, 9.80665  # [kg], [m/s2]: the international pound, standard gravity
FOOT_POUND = 4.4482216152605 * 0.3048  # [J]


def _set(weight: str = "0 lb", **changes: Any) -> RiggedSet:
    """Batten 114.24 lb, arbor 64.24 lb, bricks of 25 lb."""
    pieces, places = ([a_piece(weight=weight)], [hung()]) if weight != "0 lb" else ([], [])
    return rigged_set(a_set(**changes), pieces, places)


# H. D. Young and R. A. Freedman, University Physics, two bodies on one light line: a = g (m1 - m2)/(m1 + m2), from
# memory; checked by hand: 3 kg against 2 kg, a = g/5.
def test_two_bodies_on_one_line_gather_speed_as_in_the_textbook() -> None:
    assert acceleration(2.0, 3.0, 1) == pytest.approx(G / 5)
    assert acceleration(3.0, 2.0, 1) == pytest.approx(-G / 5)
    assert acceleration(2.0, 4.0, 2) == 0.0
    # A on a movable sheave, double purchase: A a/2 = A g - 2T and B a = T - B g give a = g (A/2 - B)/(B + A/4)
    assert acceleration(1.0, 4.0, 2) == pytest.approx(G * (2 - 1) / (1 + 1))


# Worked by hand: 625 lb against 500 lb, 125 lb out on 1,125 lb: g/9 = 3.57 ft/s2; after 50 ft sqrt(2 x 3.57 x 50)
# = 18.9 ft/s; 125 x 50 = 6,250 ft lb.
def test_a_set_125_lb_out_reaches_19_ft_per_s_after_50_ft() -> None:
    # 385.76 lb hung on 114.24 lb make 500; 64.24 lb and 22 bricks of 25 lb and 10.76 lb of plates make 625
    one = _set("385.76 lb", arbor={"weight": "75 lb"}, high_trim="54 ft")
    found = let_go(one, Stack(22), 4 * FT)
    assert found.moving / POUND == pytest.approx(1125)
    assert found.acceleration / FT == pytest.approx(3.57, abs=0.005)
    assert found.speed / FT == pytest.approx(18.9, abs=0.05)
    assert found.energy / FOOT_POUND == pytest.approx(6250)
    assert found.time == pytest.approx(math.sqrt(2 * 50 / (G / FT / 9)))
    assert found.is_arbor_heavy
    assert found.end == one.high


def test_on_double_purchase_the_arbor_is_half_as_fast() -> None:
    one = _set("300 lb", purchase="double", high_trim="44 ft")
    found = let_go(one, Stack(40), 4 * FT)  # A 1064.24, B 414.24
    a = (1064.24 / 2 - 414.24) / (414.24 + 1064.24 / 4) * G
    assert found.acceleration == pytest.approx(a)
    assert found.speed == pytest.approx(math.sqrt(2 * a * 40 * FT))
    assert found.arbor_speed == pytest.approx(found.speed / 2)


def test_lift_lines_that_cross_drive_it_on() -> None:
    # 5 lines of 0.1 lb/ft: each foot of rise adds 1 lb; from +10 lb at 4 ft over 54 ft: 10 x 54 + 54^2/2 = 1,998 ft lb
    one = _set("100 lb", lines={"weight": "0.1 lb/ft"}, arbor={"weight": f"{114.24 + 100 + 29 + 10 - 200} lb"})
    found = let_go(one, Stack(8), 4 * FT)
    assert found.balance / (POUND * G) == pytest.approx(10)
    assert found.energy / FOOT_POUND == pytest.approx(1998)
    assert found.speed == pytest.approx(math.sqrt(2 * found.energy / found.moving))


def test_a_slow_simulation_of_rising_cloth_agrees() -> None:
    one = rigged_set(None, [a_piece(weight="200 lb", height="20 ft", comes="off the floor")], [hung()])
    stack = Stack(7)  # 175 + 64.24 on 114.24 and cloth: +85 at 4 ft, -75 from 20 ft up
    found = let_go(one, stack, 4 * FT)
    height, energy, step = 4.0, 0.0, 0.001
    while energy >= 0 and height < 58:
        energy += (175 + 64.24 - 114.24 - 200 * min(1.0, (height + step / 2) / 20)) * step
        height += step
    # 85 lb falls to 0 at 12.5 ft and to -75 at 20 ft: 361.25 - 281.25 = 80 ft lb are left, spent 80/75 ft higher
    assert height == pytest.approx(20 + 80 / 75, abs=0.01)
    assert not found.is_stopped
    assert found.end / FT == pytest.approx(height, abs=0.01)


def test_a_piece_that_lands_takes_its_energy_with_it() -> None:
    one = rigged_set(None, [a_piece(weight="200 lb", height="8 ft")], [hung()])
    stack = Stack(2)  # pipe weight: -200 lb, from 20 ft until it lands at 8 ft, then 0
    found = let_go(one, stack, 20 * FT)
    fallen = 200 * 12.0
    moving = 114.24 * 2 + 200
    assert found.energy / FOOT_POUND == pytest.approx(fallen * (1 - 200 / moving), rel=1e-4)
    assert found.speed == pytest.approx(math.sqrt(2 * fallen * FOOT_POUND / (moving * POUND)), rel=1e-4)
    assert found.end == one.low
    strike = found.strikes[0]
    assert strike.name == "border"
    assert strike.height / FT == pytest.approx(8.0, abs=1e-5)
    assert strike.energy / FOOT_POUND == pytest.approx(fallen, rel=1e-4)  # all of it, before any is lost to the deck
    assert strike.speed == pytest.approx(math.sqrt(2 * fallen * FOOT_POUND / ((114.24 * 2 + 200) * POUND)), rel=1e-4)
    assert found.most_energy == strike.energy
    assert found.moved / POUND == pytest.approx(moving)


def test_without_a_height_it_is_let_go_where_it_is_worst() -> None:
    tall = rigged_set(None, [a_piece(weight="200 lb", height="8 ft")], [hung()])
    assert worst_start(tall, Stack(2)) == tall.high  # batten-heavy, the longest fall
    assert worst_start(_set("100 lb"), Stack(12)) == tall.low  # arbor-heavy by 150 lb, the longest rise


def test_what_strikes_the_deck_and_what_stands_on_it_is_said() -> None:
    found = rigged(a_house(), [a_piece(weight="200 lb", height="8 ft")], [hung()])
    said = "\n".join(told_let_go(found, found.sets[0], Stack(2), 20 * FT))
    assert "moving 429 lb" in said  # 114.24 + 200 on the batten, 114.24 on the arbor, rounded up
    assert "border strikes the deck with the batten at 8' 0\"" in said
    assert "2,400 ft lb" in said
    assert "border standing on the deck" in "\n".join(told_let_go(found, found.sets[0], Stack(5), 4 * FT))


def test_on_its_stop_it_goes_nowhere() -> None:
    one = _set("200 lb")
    found = let_go(one, Stack(2), one.low)
    assert not found.is_arbor_heavy
    assert found.start == found.end
    assert found.speed == 0.0


def test_friction_slows_it_and_enough_of_it_holds_it() -> None:
    one = _set("385.76 lb")
    free, slowed, held = (let_go(one, Stack(22), 4 * FT, friction=share) for share in (0.0, 0.04, 0.3))
    assert slowed.energy / FOOT_POUND == pytest.approx(free.energy / FOOT_POUND - 0.04 * 500 * 54)
    assert held.speed == 0.0
    assert not held.is_stopped


def _told(bricks: int, weight: str = "385.76 lb", **changes: Any) -> str:
    house: Map = a_house(a_set(arbor={"weight": "75 lb"}, high_trim="54 ft"), **changes)
    found = rigged(house, [a_piece(weight=weight)], [hung()])
    return "\n".join(told_let_go(found, found.sets[0], Stack(bricks), 4 * FT))


def test_a_risk_file_reads_plainly() -> None:
    said = _told(22)
    assert "Arbor-heavy 125 lb; moving 1,125 lb." in said
    assert "3.6 ft/s²" in said
    assert "19 ft/s" in said
    assert "6,250 ft lb" in said
    assert "With friction of 2 to 4 %" in said
    assert "safe" not in said.lower()


def test_a_metric_house_reads_metres_and_joules() -> None:
    said = _told(22, units="metric")
    assert "1.1 m/s²" in said  # 3.57 ft/s2
    assert "5.8 m/s" in said  # 18.9 ft/s = 5.76 m/s, rounded up
    assert "8,480 J" in said  # 6,250 x 1.355818 = 8,473.9 J, rounded up


def test_what_is_in_balance_is_driven_by_nothing() -> None:
    house = rigged(a_house())
    assert "In balance" in "\n".join(told_let_go(house, house.sets[0], Stack(2), 4 * FT))
