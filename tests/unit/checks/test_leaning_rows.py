"""Rows of a set whose lines lean: what they come to, what stays open, and that their arithmetic comes out."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from counterpoise.balance import friction, out_of_balance, stated_stack
from counterpoise.checks import Check, HouseResult, Measure, SetResult, Verdict
from counterpoise.checks.working import COMES_TO, workings_of
from counterpoise.loadpath import Forces, forces_of
from counterpoise.statics import Beam
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, hung, judged, rigged_set
from tests.workings import done

KICKED = ["20' SR", "10' SR", {"at": "CL", "block at": "10 in SL"}, "10' SL", "20' SL"]
CABLE = {"length": "90 ft", "weight": "0.4..0.5 lb/ft", "box": "50 ft"}


def _judged(one: Map, piece: Map | None = None, **hang: Any) -> HouseResult:
    return judged(a_house(one), [piece or a_piece(weight="300 lb")], [hung()], **hang)


def _row(found: SetResult, link: str, line: int | None = None) -> Check:
    row = found.row(link, line)
    assert row is not None
    return row


# ----------------------------------------------------------------------------------------------------------- balance


# Two lines with half each, blocks 2 ft farther apart: both lean by 1 ft over 12 ft at high trim, so their ropes pull
# sqrt(1 + 1/144) of the 114.24 + 100 lb that hang. Widest possible is 2 ft / (2 x 0.95 x 12 ft).
TWO = {"at": ["10' SR", {"at": "10' SL", "block at": "12' SL"}]}


def test_the_arbor_is_held_against_what_the_ropes_pull() -> None:
    one = rigged_set(a_set(lines=TWO, high_trim="50 ft"), [a_piece()], [hung()], stated_bricks={"9": "6"})
    stack = stated_stack(one)
    assert stack is not None
    arbor = 64.24 + 6 * 25
    span = out_of_balance(one, stack, one.high)
    assert span.high / LB == pytest.approx(arbor - 214.24, abs=1e-9)
    assert span.best / LB == pytest.approx(arbor - 214.24 * math.sqrt(1 + 1 / 144))
    assert span.low / LB == pytest.approx(arbor - 214.24 * math.sqrt(1 + 1 / (0.95 * 12) ** 2))


def test_a_lock_is_within_only_where_it_holds_all_that_leaning_ropes_may_pull_more() -> None:
    """6 bricks balance 214.24 lb; at 50 ft the ropes pull 0.74 lb more, and 0.82 lb at most."""
    low, within, over = (_row(_judged(a_set(lines=TWO, high_trim="50 ft", lock={"hold": f"{hold} lb"}),
                                      a_piece(), stated_bricks={"9": "6"}).sets[0], "lock").verdict
                         for hold in (0.78, 0.9, 0.7))  # fmt: skip
    assert (low, within, over) == (Verdict.UNKNOWN, Verdict.WITHIN, Verdict.OVER)


def test_what_a_rope_leans_it_pulls_its_block_aside_as_well() -> None:
    """Half of 214.24 lb each; at high trim both lean by 1 ft over 12: sin = 1/sqrt(145), and 1 on the level part.

    The head block stands beyond stage left; the rope of line 1 comes to its block from there, that of line 2 from the
    other side. At low trim, 58 ft below, they hardly lean.
    """
    house = a_house(a_set(lines=TWO, high_trim="50 ft"))
    house["steel"][0]["loft beam sideways"] = "1,500 lb"
    found = judged(house, [a_piece()], [hung()]).sets[0]
    pull, sine = 107.12 * math.sqrt(1 + 1 / 144), 1 / math.sqrt(145)
    assert _row(found, "loft beam sideways", 1).value.best / LB == pytest.approx(pull * (1 + sine), rel=1e-3)
    # most at low trim, where it leans least against the level part
    assert _row(found, "loft beam sideways", 2).value.best / LB == pytest.approx(107.12 * (1 - 1 / 58), rel=5e-3)


def test_a_set_whose_line_is_kicked_by_10_in_is_within_and_nothing_of_it_is_open() -> None:
    found = _judged(a_set(lines={"at": KICKED})).sets[0]
    assert found.verdict is Verdict.WITHIN
    assert not any(row.lacks for row in found.rows)


def test_friction_is_that_of_what_the_ropes_pull_at_most() -> None:
    lean, plumb = (rigged_set(a_set(lines=lines, high_trim="50 ft"), [a_piece()], [hung()])
                   for lines in (TWO, {"at": ["10' SR", "10' SL"]}))  # fmt: skip
    grown = math.sqrt(1 + 1 / (0.95 * 12) ** 2)
    assert friction(lean, lean.high, 0.02) == pytest.approx(grown * friction(plumb, plumb.high, 0.02))


def test_the_crew_of_a_hemp_set_hauls_what_leaning_ropes_pull_more() -> None:
    bags = {"weight": "210 lb", "pin": "500 lb", "hauls": "50 lb"}
    one = a_set(rigged="hemp", purchase=None, arbor=None, pipe_weight=None, stops=None, tension_block=None, bags=bags,
                lines=TWO, high_trim="50 ft")  # fmt: skip
    row = _row(_judged(one, a_piece()).sets[0], "crew")
    assert row.value.high / LB == pytest.approx(214.24 * math.sqrt(1 + 1 / (0.95 * 12) ** 2) - 210)


# ---------------------------------------------------------------------------------------------------------- workings


SPLICED = {"splices": [{"at": "5' SR", "strength": "80 %"}]}
HANGS = {
    "certain": (a_set(lines={"at": KICKED, "weight": "0.11 lb/ft"}, batten=SPLICED), a_piece(weight="300 lb")),
    "a range and a cable": (a_set(lines={"at": KICKED, "weight": "0.11 lb/ft"}),
                            a_piece(weight="250..300 lb", cables=[CABLE])),
    "a resultant": (a_set(lines=TWO, high_trim="50 ft",
                          loft_block={"rating": "500 lb", "rating of": "resultant", "shaft": "400 lb"},
                          head_block={"rating": "2,000 lb", "rating of": "unknown"}), a_piece()),
    "over": (a_set(lines={"at": ["10' SR", {"at": "10' SL", "block at": "8' SL"}]}, high_trim="50 ft",
                   loft_block={"rating": "300 lb", "rating of": "resultant"}), a_piece(weight="900 lb")),
}  # fmt: skip


@pytest.mark.parametrize("which", HANGS)
def test_each_step_done_in_turn_gives_what_a_row_of_leaning_lines_carries(which: str) -> None:
    result = _judged(*HANGS[which])
    seen = set()
    for row in result.sets[0].rows:
        for each in workings_of(result, row.key):
            most = row.value.best if row.verdict is Verdict.OVER else row.value.high
            assert done(each) == pytest.approx(most if each.says == COMES_TO else row.limit, rel=1e-6, abs=1e-9)
            seen |= {row.link} if each.says == COMES_TO else set()
    assert seen >= {"batten", "lift line", "loft block", "loft beam", "head block", "head beam", "lock", "sag"}


def test_a_working_tells_drift_depth_and_axial_force() -> None:
    result = _judged(*HANGS["certain"])
    (batten,) = [one for one in workings_of(result, "9/batten") if one.says == COMES_TO]
    assert "has drifted" in batten.note
    assert "less deep than a plumb line" in batten.note
    assert [step.sign for step in batten.steps] == ["", "+", "÷", "+"]
    assert "a push of" in batten.steps[-1].says or "a pull of" in batten.steps[-1].says
    (lock,) = [one for one in workings_of(result, "9/lock") if one.says == COMES_TO]
    assert "their ropes pull up to" in lock.note


def test_of_a_set_whose_lines_hang_plumb_no_working_says_that_they_lean() -> None:
    result = _judged(a_set())
    assert not any("lean" in one.note for row in result.sets[0].rows for one in workings_of(result, row.key))


# ---------------------------------------------------------------------------------------------------------- left open


def test_what_leaning_lines_do_besides_is_told_as_not_computed() -> None:
    lean, plumb = _judged(a_set(lines={"at": KICKED})), _judged(a_set())
    assert [one for one in lean.left_out if "buckling" in one and "of set 9" in one]
    assert not [one for one in plumb.left_out if "buckling" in one]


def test_the_stress_of_a_ladder_whose_lines_lean_is_unknown_and_its_pulls_are_told() -> None:
    made = {"ladder": {"depth": "12 in", "every": "6 ft", "spacer diameter": "1 in", "spacer wall": "0.1 in"}}
    found = _judged(a_set(lines={"at": KICKED}, batten=made)).sets[0]
    row = _row(found, "batten")
    assert row.measure is Measure.STRESS
    assert row.verdict is Verdict.UNKNOWN
    assert "along a ladder is not computed" in row.lacks
    assert not _row(found, "trim chain", 3).lacks


def test_a_batten_that_drifts_says_so_by_how_far() -> None:
    """Of two lines one is kicked 2 ft and each carries half: it hangs 1 ft from where all was plumb."""
    result = _judged(a_set(lines=TWO, high_trim="50 ft"), a_piece())
    (found,) = [one for one in workings_of(result, "9/trim chain/2") if one.says == COMES_TO]
    assert "has drifted 12.0 in toward stage left" in found.note
    assert result.sets[0].forces is not None
    along = result.sets[0].forces.best.along
    assert along is not None
    assert along.drift == pytest.approx(FT)


def test_what_a_line_that_leans_too_far_puts_on_steel_is_known_to_no_neighbour() -> None:
    at: list[Any] = ["20' SR", "10' SR", {"at": "CL", "block at": "3 ft SL"}, "10' SL", "20' SL"]
    result = judged(a_house(a_set("9"), a_set("10", lines={"at": at})), [a_piece()], [hung()])
    (beam,) = [one for one in result.findings if one.label == "9" and one.code == "LOFT-BEAM-UNKNOWN"]
    assert "set 10 puts on it (its lines lean)" in beam.says


# --------------------------------------------------------------------------------------------- where the worst may hide


def _all_along(one: Any, i: int) -> float:
    """The most that hangs on line i at any of sixty heights, each looked at as if it were high trim [N]."""
    found = []
    for n in range(61):
        there = forces_of(replace(one, high=one.clear + (one.high - one.clear) * n / 60))
        assert isinstance(there, Forces)
        found.append(there.best.tensions[i])
    return max(found)


@pytest.mark.parametrize("at", [KICKED, ["20' SR", {"at": "10' SR", "block at": "9' SR"}, "CL", "10' SL", "20' SL"]])
def test_with_cable_the_worst_between_both_ends_of_the_travel_is_found(at: list[Any]) -> None:
    """What hangs of a cable grows on the way up, and a leaning neighbour takes load away most near the top."""
    cable = {"length": "60 ft", "weight": "3 lb/ft", "box": "30 ft", "at": "5' SR"}
    one = rigged_set(a_set(lines={"at": at}), [a_piece(weight="300 lb", cables=[cable])], [hung()])
    told = forces_of(one)
    assert isinstance(told, Forces)
    for i, span in enumerate(told.tensions):
        assert span.high >= _all_along(one, i) * (1 - 2e-3)


def test_where_nothing_is_in_doubt_and_a_line_goes_slack_on_the_way_no_bounds_are_told_but_figures() -> None:
    """Line 3 is 1-1/2 in too long at low trim, and slack; its lean draws it short further up."""
    at = ["20' SR", "10' SR", {"at": "CL", "block at": "14 in SL", "trim error": "1-1/2 in"}, "10' SL", "20' SL"]
    one = rigged_set(a_set(lines={"at": at}), [a_piece(weight="100 lb")], [hung()])
    told = forces_of(one)
    assert isinstance(told, Forces)
    assert len({each.carrying for each in told.corners}) > 1
    assert not told.sought
    for i, span in enumerate(told.tensions):
        assert span.high == pytest.approx(_all_along(one, i), rel=5e-3)


def test_a_mule_block_may_send_a_leaning_line_off_either_way() -> None:
    """1 ft aside over 12 ft at high trim: toward the mule block 2 (1 + sin) under the root, else 2 (1 - sin)."""
    mule = {"at": "15' SR", "turn": "30 deg", "rating": "900 lb", "rating of": "resultant"}
    rows = []
    for mules in ([], [mule]):
        at = ["10' SR", {"at": "10' SL", "block at": "12' SL", "mule blocks": mules}]
        one = a_set(lines={"at": at}, high_trim="50 ft", loft_block={"rating of": "resultant"})
        rows.append(_row(_judged(one, a_piece()).sets[0], "loft block", 2).value.high / LB)
    sine, pull = 1 / math.sqrt(145), 107.12 * math.sqrt(1 + 1 / 144)
    assert rows[0] < pull * math.sqrt(2)  # it leans against where it leaves to
    assert rows[1] == pytest.approx(pull * math.sqrt(2 * (1 + sine)), rel=1e-3)


def test_a_dead_hung_set_that_leans_pulls_its_loft_steel_aside() -> None:
    """Half of 214.24 lb each, 1 ft aside over 12 ft: V w / D along the steel, 8.93 lb."""
    dead: Map = {"rigged": "dead-hung", "low_trim": "50 ft", "lines": TWO} | dict.fromkeys(
        ("purchase", "arbor", "pipe_weight", "stops", "tension_block", "hand_line", "brick", "high_trim"))  # fmt: skip
    house = a_house(a_set("9", **dead))
    house["steel"][0]["loft beam sideways"] = "1,500 lb"
    found = judged(house, [a_piece()], [hung()]).sets[0]
    for number in (1, 2):
        assert _row(found, "loft beam sideways", number).value.best / LB == pytest.approx(107.12 / 12, rel=1e-3)


def test_a_push_bends_a_batten_also_where_it_would_not_bend_without_it() -> None:
    """Blocks set narrower press the batten; a splice stands where the moment passes zero."""
    at = [{"at": "20' SR", "block at": "18' SR"}, "10' SR", "CL", "10' SL", {"at": "20' SL", "block at": "18' SL"}]
    found = _judged(a_set(lines={"at": at}, high_trim="50 ft")).sets[0]
    assert found.forces is not None
    hangs = found.forces.best
    assert hangs.along is not None
    assert hangs.along.pressed is not None
    places = [hangs.made.beam.length * n / 4000 for n in range(1000, 2000)]
    flat = min(places, key=lambda x: abs(hangs.answer.moment(x)))  # type: ignore[union-attr]
    more = hangs.stress_at_when_pressed(flat) - hangs.stress_at(flat)
    most = (hangs.along.pressed.factor - 1) * hangs.largest_moment / hangs.made.stretches[0].modulus
    assert more == pytest.approx(most)
    assert most > 0.0


def test_a_tip_that_the_span_lifts_is_lifted_less_where_the_batten_is_pulled_along() -> None:
    """Blocks set wider pull the batten. Two lines, a span of 38 ft, tips of 2 ft.

    Of a bar pulled along under an even load the turn at its ends is 3 (u - tanh u) / u3 of what it is without, u =
    L/2 sqrt(N / EI) (S. P. Timoshenko and J. M. Gere, Theory of Elastic Stability, 2nd ed., chapter 1, tie rods).
    """
    at = [{"at": "19' SR", "block at": "20' SR"}, {"at": "19' SL", "block at": "20' SL"}]
    found = _judged(a_set(lines={"at": at}, high_trim="54 ft"), a_piece(weight="40 lb", spread_over="36 ft")).sets[0]
    assert found.forces is not None
    hangs = found.forces.best
    assert hangs.along is not None
    pull = hangs.along.axial.at(hangs.made.beam.length / 2)
    assert pull > 0.0
    assert isinstance(hangs.made.beam, Beam)
    stiff, span = hangs.made.beam.segments[0].stiffness, 38 * FT
    share, u = pull * span**2 / (math.pi**2 * stiff), span / 2 * math.sqrt(pull / stiff)
    for (reach, drop), (same, most) in zip(hangs.tips, hangs.tips_when_stretched, strict=True):
        assert reach == same == pytest.approx(2 * FT)
        lift = (most - drop) * (1 + share) / share
        exact = lift * (1 - 3 * (u - math.tanh(u)) / u**3)
        assert exact <= most - drop <= 1.1 * exact
    assert found.forces.tip is not None
    assert found.forces.tip[1].high >= max(0.0, *(most / reach for reach, most in hangs.tips_when_stretched))


def test_with_two_cables_a_plumb_line_may_pull_most_where_one_of_them_comes_off_the_floor() -> None:
    """Lines 10 ft off centre, cables 15 ft off: line 1 bears 5/4 of the near one and less by 1/4 of the far one.

    The near one, 1/2 lb/ft, gains that on each foot up to 30 ft, and half of it above, where it hangs to its box; the
    far one, 2 lb/ft, lies on the floor all the way: 5/8 - 1/2 lb a foot up to 30 ft, then 5/16 - 1/2.
    """
    near = {"length": "60 ft", "weight": "0.5 lb/ft", "box": "30 ft", "at": "15' SR"}
    far = {"length": "90 ft", "weight": "2 lb/ft", "box": "20 ft", "at": "15' SL"}
    piece = a_piece(weight="200 lb", cables=[near, far])
    one = rigged_set(a_set(lines={"at": ["10' SR", "10' SL"]}), [piece], [hung()])
    told = forces_of(one)
    assert isinstance(told, Forces)
    assert told.tensions[0].best / LB == pytest.approx(57.12 + 100 + 1.25 * 15 - 0.25 * 60)
    assert told.tensions[0].high == told.tensions[0].best
    assert told.best.tensions[0] < told.tensions[0].best
