"""Plans of sets whose lines lean: what their ropes may pull more counts at each step. Sums by hand."""

from __future__ import annotations

import math
from typing import Any

import pytest

from counterpoise.balance import Stack
from counterpoise.planning import load_in, replay
from counterpoise.planning.doubt import is_felt_where_loaded
from counterpoise.planning.holds import pull
from counterpoise.planning.let_go import let_go
from counterpoise.units.constants import STANDARD_GRAVITY as GRAVITY
from tests.plain_house import LB, Map, a_house, a_piece, a_set, hung, rigged

# Two lines with half each, blocks 2 ft farther apart; drops of 58 and 12 ft, of which 0.95 is counted on.
TWO = {"at": ["10' SR", {"at": "10' SL", "block at": "12' SL"}]}
HIGH, LOW = (math.sqrt(1 + 1 / (0.95 * drop) ** 2) for drop in (12, 58))


def _set(**changes: Any) -> Map:
    return a_set(lines=TWO, high_trim="50 ft", **changes)


def test_a_move_is_judged_by_all_that_the_ropes_may_pull_more() -> None:
    """6 bricks and an arbor of 64.24 lb against 214.24 lb."""
    one = rigged(a_house(_set()), [a_piece()], [hung()]).sets[0]
    felt = pull(one, Stack(6), one.high, one.pieces)
    assert felt.batten / LB == pytest.approx(214.24 * (HIGH - 1))
    assert felt.arbor == pytest.approx(0.0, abs=1e-9)


# Felt at high trim half a brick of 25 lb may be left. From there to low trim ropes pull 214.24 (HIGH - LOW) less; what
# they pulled more where it was felt may have been nothing or all of 214.24 (HIGH - 1): 12.5 + 0.79 + 0.82 lb.
@pytest.mark.parametrize(("more", "is_felt"), [(-0.05, False), (0.05, True)])
def test_what_was_felt_higher_up_is_trusted_less_where_lines_lean(more: float, is_felt: bool) -> None:
    most = 12.5 + 214.24 * (HIGH - LOW) + 214.24 * (HIGH - 1) + more
    house = rigged(a_house(_set(lock={"hold": f"{most:.6f} lb"})), [a_piece()], [hung()])
    one = house.sets[0]
    assert is_felt_where_loaded(house, one, Stack(6), one.high, one.low) is is_felt


def test_a_set_with_a_kicked_line_is_planned_and_each_step_stands_the_replay() -> None:
    at = ["20' SR", "10' SR", {"at": "CL", "block at": "10 in SL"}, "10' SL", "20' SL"]
    bridge = {"bridge": "bridge", "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft"}
    house = rigged(a_house(a_set(lines={"at": at}), bridges=[bridge]), [a_piece(weight="300 lb")], [hung(show="30 ft")])
    plan = load_in(house, "9")
    assert plan.refusal is None
    assert replay(house, plan.steps).refusal is None


def test_a_set_let_go_is_drawn_by_what_its_ropes_most_likely_pull() -> None:
    """Both lean by 1 ft over 12 ft at high trim; with 2 bricks on, 214.24 sqrt(1 + 1/144) against 114.24 lb."""
    one = rigged(a_house(_set()), [a_piece()], [hung()]).sets[0]
    found = let_go(one, Stack(2), one.high)
    assert found.balance / LB == pytest.approx(114.24 - 214.24 * math.sqrt(1 + 1 / 144))
    assert found.moved * GRAVITY / LB == pytest.approx(114.24 + 214.24)
