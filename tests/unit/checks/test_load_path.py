"""Sheaves, shafts, side-loaded shackles, hand lines on head blocks, dead ends, angles, tips. Sums by hand."""

from __future__ import annotations

import math
from typing import Any

import pytest

from counterpoise.checks import Check, HouseResult, SetResult, Verdict
from counterpoise.units import Style
from tests.plain_house import LB, Map, a_house, a_piece, a_set, hung, judged

INCH = 0.0254  # [m]
TWO = {"at": ["10' SR", "10' SL"]}
BATTEN = 114.24  # [lb]


def _judged(one: Map | None = None, house: Map | None = None, **piece: Any) -> SetResult:
    return judged(a_house(one or a_set(), **(house or {})), [a_piece(**piece)], [hung()]).sets[0]


def _row(found: SetResult, link: str, line: int | None = None) -> Check:
    row = found.row(link, line)
    assert row is not None
    return row


def _limit(found: SetResult, link: str) -> float:
    return (_row(found, link).limit or 0.0) / LB


# --------------------------------------------------------------------------------------------------- ropes and sheaves

SHEAVE: Map = {"loft_block": {"diameter": "8 in"}, "lines": {"diameter": "1/4 in"}}


# D/d = 32: between 91 % at 20 and 95 % at 40 (common table), 93.4 %: 7,000 x 0.934 / 8; clips 80 %: 7,000 x 0.80 / 8.
def test_a_rope_is_held_at_its_sheave_and_at_its_end_and_both_are_shown() -> None:
    found = _judged(a_set(**SHEAVE))
    assert _limit(found, "sheave") == pytest.approx(817.25)
    assert _limit(found, "lift line") == pytest.approx(700)
    assert [row.line for row in found.rows if row.link == "sheave"] == [1, 2, 3, 4, 5]
    assert _row(found, "sheave", 2).value == _row(found, "lift line", 2).value


def test_a_socket_leaves_the_rope_weakest_at_its_sheave() -> None:
    found = _judged(a_set(**(SHEAVE | {"lines": {"diameter": "1/4 in", "termination": "100 %"}})))
    assert _limit(found, "sheave") < _limit(found, "lift line")


# 7,000 x 0.86 / 8 over a head block of 2.5 in.
def test_the_smallest_sheave_of_a_line_counts() -> None:
    assert _limit(_judged(a_set(**SHEAVE, head_block={"diameter": "2.5 in"})), "sheave") == pytest.approx(752.5)


# 8 in less 20 % over 1/4 in and 20 %: 6.4 / 0.3 = 21.33, 91 % + 1.33 x 0.2 %.
def test_estimated_diameters_count_where_they_bend_the_rope_most() -> None:
    found = _judged(a_set(loft_block={"diameter": "~8 in"}, lines={"diameter": "~1/4 in"}))
    assert _limit(found, "sheave") == pytest.approx(875 * (0.91 + 0.04 * (6.4 / 0.3 - 20) / 20))


@pytest.mark.parametrize("change", [
    {}, {"loft_block": {"diameter": "8 in"}}, {"lines": {"diameter": "1/4 in"}},
    SHEAVE | {"lines": {"diameter": "1/4 in", "at": [{"at": "20' SR", "breaking strength": "4,000 lb"}, "20' SL"]}},
])  # fmt: skip
def test_without_both_diameters_a_bend_is_said_not_to_be_computed(change: Map) -> None:
    result = judged(a_house(a_set(**change)))
    assert any("bent over their sheaves" in one for one in result.left_out)
    assert result.sets[0].row("sheave", 1) is None


def test_an_unknown_diameter_leaves_the_bend_unknown() -> None:
    assert _row(_judged(a_set(**(SHEAVE | {"loft_block": {"diameter": "unknown"}}))), "sheave").verdict is (
        Verdict.UNKNOWN
    )


# Makers' tables that ASME B30.26 refers to: side load at 45 degrees 70 %, at 90 degrees 50 %.
@pytest.mark.parametrize(("load", "limit"), [
    ("in line", 1000), ("side to 45 degrees", 700), ("side to 90 degrees", 500), (None, 1000),
])  # fmt: skip
def test_a_shackle_loaded_from_the_side_carries_less(load: str | None, limit: float) -> None:
    assert _limit(_judged(a_set(lines={"shackle load": load})), "shackle") == pytest.approx(limit)


def test_a_shackle_of_which_it_is_not_known_how_it_is_loaded_is_never_within() -> None:
    row = _row(_judged(a_set(lines={"shackle load": "unknown"})), "shackle")
    assert row.verdict is Verdict.UNKNOWN
    assert "in line or from the side" in row.lacks


# 1,000 / 1.25, 500 / 1.25; a rope has its factor.
def test_a_rule_of_impact_takes_from_every_rating_that_has_none_in_it() -> None:
    found = _judged(house={"rules": {"impact": "25 %"}})
    assert _limit(found, "shackle") == pytest.approx(800)
    assert _limit(found, "loft block") == pytest.approx(400)
    assert _limit(found, "lift line") == pytest.approx(700)
    assert _limit(found, "loft beam") == pytest.approx(1500)


def test_a_rating_with_impact_in_it_stands_as_it_is() -> None:
    found = _judged(a_set(loft_block={"impact": "included"}), {"rules": {"impact": "25 %"}})
    assert _limit(found, "loft block") == pytest.approx(500)
    assert _limit(_judged(a_set(loft_block={"impact": "not included"})), "loft block") == pytest.approx(500)


def test_an_unknown_rule_of_impact_leaves_ratings_unknown() -> None:
    assert _row(_judged(house={"rules": {"impact": "unknown"}}), "shackle").verdict is Verdict.UNKNOWN


# --------------------------------------------------------------------------------------------------- shafts and bolts


# A right angle: √2 of 107.12 lb a line, √2 of 214.24 lb over the head; 6 bricks and the arbor weigh as much.
def test_shafts_and_bolts_carry_the_resultant_whatever_the_rating_is_of() -> None:
    blocks: Map = {
        "loft_block": {"shaft": "400 lb", "base": "300 lb"},
        "head_block": {"shaft": "900 lb", "base": "800 lb"},
    }
    found = _judged(a_set(lines=TWO, pipe_weight="6", **blocks))
    for part, limit in (("shaft", 400), ("base", 300)):
        row = _row(found, f"loft block {part}", 1)
        assert row.value.best / LB == pytest.approx(math.sqrt(2) * 107.12)
        assert (row.limit or 0) / LB == pytest.approx(limit)
        assert _row(found, f"head block {part}").value.best / LB == pytest.approx(math.sqrt(2) * 214.24)


def test_a_shaft_of_unknown_strength_is_never_within() -> None:
    assert _judged(a_set(head_block={"shaft": "unknown"})).verdict is Verdict.UNKNOWN


# A block 3 ft farther from the rail than its line, the other straight above: with half on each the batten drifts 1 1/2
# ft, and both lean by that over 11.2 ft of drop: 15-112-113, P = 113/112 V. Legs of 113: down and toward the head
# (15, -112), and level toward it (113, 0): (128, -112) for each 112 of weight.
def test_a_raked_line_loads_the_bolts_of_its_block_by_its_two_real_directions() -> None:
    lines = {"at": [{"at": "10' SR", "block at": "13' SR"}, "10' SL"]}
    found = _judged(a_set(lines=lines, loft_block={"base": "300 lb"}, high_trim="50.8 ft"))
    assert _row(found, "loft block base", 1).value.high / LB == pytest.approx(107.12 * math.hypot(128, 112) / 112)
    assert _row(found, "loft block base", 2).value.high / LB == pytest.approx(math.sqrt(2) * 107.12, rel=0.03)


# ------------------------------------------------------------------------------- head block: hand line and dead ends


# 84.24 + 50 lb on the arbor, 114.24 on the batten: 20 lb arbor-heavy pull on the lock. One more line, or both its legs.
@pytest.mark.parametrize(("of", "low", "high"), [
    ("line pull", BATTEN + 20, BATTEN + 20),
    ("resultant", math.sqrt(2) * BATTEN + 40, math.sqrt(2) * BATTEN + 40),
    ("unknown", BATTEN + 20, math.sqrt(2) * BATTEN + 40),
])  # fmt: skip
def test_an_arbor_heavy_hand_line_pulls_on_the_head_block(of: str, low: float, high: float) -> None:
    one = a_set(arbor={"weight": "84.24 lb"}, head_block={"rating of": of})
    row = _row(judged(a_house(one)).sets[0], "head block")
    assert (row.value.low / LB, row.value.high / LB) == pytest.approx((low, high))


def test_a_batten_heavy_hand_line_adds_nothing_there() -> None:
    row = _row(judged(a_house(a_set(arbor={"weight": "44.24 lb"}))).sets[0], "head block")
    assert row.value.high / LB == pytest.approx(BATTEN)


def test_with_the_balance_not_known_the_hand_line_may_pull_what_a_lock_may_hold() -> None:
    row = _row(judged(a_house(a_set(arbor={"seat at low trim": "unknown"}))).sets[0], "head block")
    assert (row.value.best / LB, row.value.high / LB) == pytest.approx((BATTEN, BATTEN + 50))


def _double(**bay: str) -> HouseResult:
    one = a_set("9", purchase="double", hand_line="with the batten", pipe_weight="8", arbor={"weight": "28.48 lb"})
    house = a_house(one, a_set("10"))
    house["steel"][0] |= {name.replace("_", " "): value for name, value in bay.items()}
    return judged(house)


# The dead ends pull once more what the lines pull: on the head beam, or on steel of their own.
def test_dead_ends_are_on_the_head_beam_unless_they_have_steel_of_their_own() -> None:
    both = _double()
    assert _row(both.sets[0], "head beam").value.best / LB == pytest.approx(3 * BATTEN)
    apart = _double(dead_ends="200 lb")
    assert _row(apart.sets[0], "head beam").value.best / LB == pytest.approx(2 * BATTEN)
    assert _row(apart.sets[1], "head beam").value.best / LB == pytest.approx(2 * BATTEN)
    assert _row(apart.sets[0], "dead ends").value.best / LB == pytest.approx(BATTEN)
    assert _limit(apart.sets[0], "dead ends") == pytest.approx(200)
    assert apart.sets[1].row("dead ends") is None


def test_dead_ends_load_neither_the_head_block_nor_its_shaft() -> None:
    found = _double().sets[0]
    assert _row(found, "head block").value.best / LB == pytest.approx(BATTEN)


# ------------------------------------------------------------------------------------------------------------- tips


# A beam on two supports with equal overhangs, evenly loaded: tip = w a (6 a² L + 3 a³ − L³) / 24 E I, as AISC's figure
# for one overhang and the far moment w a²/2 through M L / 6 E I. w 2.72 lb/ft, a 11 ft, L 20 ft, I of 1.900 x 0.145 in;
# ropes that do not stretch.
def test_a_tip_drops_as_the_handbook_says_and_is_held_against_the_rule_for_twice_its_length() -> None:
    w, a, length = 2.72 / 12, 132.0, 240.0
    inertia = math.pi / 64 * (1.9**4 - 1.61**4)
    drop = w * a * (6 * a**2 * length + 3 * a**3 - length**3) / (24 * 29e6 * inertia)
    rigid = TWO | {"stiffness": "100,000,000 lb"}
    row = _row(judged(a_house(a_set(lines=rigid))).sets[0], "overhang")
    assert row.value.best / INCH == pytest.approx(drop, rel=1e-3)
    # building codes take a cantilever as twice its length: notes to table 1604.3 of the international one, from memory
    assert (row.limit or 0.0) / INCH == pytest.approx(2 * a / 180)
    assert row.verdict is Verdict.OVER


def test_a_tip_that_rises_drops_nothing() -> None:
    found = judged(a_house(a_set(lines={"at": ["20' SR", "20' SL"]}))).sets[0]
    assert _row(found, "overhang").value.high == 0.0


def test_a_batten_with_lines_at_its_ends_has_no_tips() -> None:
    assert judged(a_house(a_set(lines={"at": ["21' SR", "21' SL"]}))).sets[0].row("overhang") is None


# ------------------------------------------------------------------------------------------------------------- roll

RULE = {"rules": {"roll": "30 deg"}}


def _roll(*pieces: Map, rule: str = "30 deg") -> Check:
    house = a_house(rules={"roll": rule})
    return _row(judged(house, list(pieces), [hung(one["piece"]) for one in pieces]).sets[0], "roll")


# tan θ = W e / W d = 6 in / 12 in: 26.57 degrees whatever it weighs.
def test_one_load_rolls_the_pipe_until_it_hangs_below_it() -> None:
    row = _roll(a_piece(weight="80..120 lb", beside="6 in", below="12 in"))
    for end in (row.value.low, row.value.best, row.value.high):
        assert math.degrees(end) == pytest.approx(26.565, abs=0.001)
    assert row.verdict is Verdict.WITHIN
    assert row.printed(Style("us")) == ("26.6", "30.0 deg")


# (100 x 6 - 50 x 4) / (100 x 12 + 50 x 8) = 400 / 1,600.
def test_loads_on_both_sides_of_the_pipe_take_from_each_other() -> None:
    row = _roll(a_piece("a", "100 lb", beside="6 in", below="12 in"),
                a_piece("b", "50 lb", beside="-4 in", below="8 in"))  # fmt: skip
    assert math.tan(row.value.best) == pytest.approx(0.25)


def test_the_worst_of_doubtful_weights_is_a_corner() -> None:
    """(60 x 6 - 40 x 4) / (60 x 12 + 40 x 8) at heavy a and light b."""
    row = _roll(a_piece("a", "40..60 lb", beside="6 in", below="12 in"),
                a_piece("b", "40..60 lb", beside="-4 in", below="8 in"))  # fmt: skip
    assert math.tan(row.value.high) == pytest.approx(200 / 1040)
    assert math.tan(row.value.low) == pytest.approx(0.0, abs=1e-9)


def test_nothing_written_below_brings_nothing_back() -> None:
    row = _roll(a_piece(beside="1 in"))  # Σ W d = 0
    assert math.degrees(row.value.best) == pytest.approx(90)
    assert row.verdict is Verdict.OVER


def test_a_piece_that_does_not_say_how_far_beside_it_hangs_leaves_the_roll_unknown() -> None:
    row = _roll(a_piece("a", beside="1 in", below="4 ft"), a_piece("b"))
    assert row.verdict is Verdict.UNKNOWN
    assert "how far b hangs" in row.lacks


@pytest.mark.parametrize(("house", "piece", "why"), [
    ({}, {"beside": "6 in"}, "the house has no rule"), (RULE, {}, "how far it hangs beside is not written"),
])  # fmt: skip
def test_a_roll_that_is_not_computed_is_said_not_to_be(house: Map, piece: Map, why: str) -> None:
    result = judged(a_house(**house), [a_piece(**piece)], [hung()])
    assert result.sets[0].row("roll") is None
    assert [one for one in result.left_out if one.startswith("roll") and why in one]


# ----------------------------------------------------------------------------------------------------- fleet angles


# 6 in across in the 4 ft of drop at high trim.
def test_a_block_off_the_plane_of_its_batten_turns_the_line_out_of_its_sheave() -> None:
    row = _row(_judged(a_set(loft_block={"upstage": "6 in"}, head_block={"upstage": "6 in"})), "fleet angle", 3)
    assert math.tan(row.value.best) == pytest.approx(6 / 48)
    assert row.verdict is Verdict.OVER
    assert row.printed(Style("metric")) == ("7.2", "1.5 deg")


# 6 in across on the way to a head block 4 ft beyond the end: 45 ft from line 1, 5 ft from line 5.
def test_a_head_block_off_the_plane_counts_most_for_the_nearest_line() -> None:
    found = _judged(a_set(head_block={"upstage": "6 in"}))
    angles = [math.tan(_row(found, "fleet angle", line).value.best) for line in (1, 5)]
    assert angles == pytest.approx([6 / 540, 6 / 60])
    assert _row(found, "fleet angle", 1).verdict is Verdict.WITHIN
    assert _row(found, "fleet angle", 5).verdict is Verdict.OVER
    assert next(one.mend for one in found.findings if one.code == "FLEET-ANGLE-OVER").startswith("Move the block")


@pytest.mark.parametrize("change", [
    {"loft_block": {"upstage": "unknown"}},
    {"loft_block": {"upstage": "0 in"},
     "lines": {"at": [{"at": "CL", "mule blocks": [{"at": "CL", "turn": "90 deg", "rating": "500 lb"}]}, "20' SL"]}},
])  # fmt: skip
def test_a_fleet_angle_that_is_not_known_is_never_within(change: Map) -> None:
    row = _row(_judged(a_set(**change)), "fleet angle", 1)
    assert row.verdict is Verdict.UNKNOWN
    assert row.lacks


# ---------------------------------------------------------------------------------------------- what is not computed


def test_what_no_row_looks_at_is_said_with_every_result() -> None:
    left = "; ".join(judged(a_house(), [a_piece()], [hung()]).left_out)
    for thing in ("sway and shock", "roll", "ropes bent over their sheaves", "fleet angles", "shafts and bolts",
                  "tilt of arbors", "hand lines", "attachments"):  # fmt: skip
        assert thing in left


def test_it_is_said_of_the_sets_that_lack_a_figure() -> None:
    left = judged(a_house(a_set("9"), a_set("10", **SHEAVE), a_set("11"))).left_out
    assert "ropes bent over their sheaves of sets 9, 11 (diameters are not written)" in left


def test_what_a_person_lists_for_the_whole_house_is_not_said_twice() -> None:
    listed = [{"what": what, "why": "by rule", "who": "an invented head rigger"} for what in ("sway and shock", "roll")]
    left = judged(a_house(not_checked_here=listed), [a_piece()], [hung()]).left_out
    assert not [one for one in left if one.startswith(("sway", "roll"))]


# ---------------------------------------------------------------------------------------------------- floor of a bridge


def _bridge(**changes: str) -> HouseResult:
    plain = {"bridge": "bridge", "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft", "length": "30 ft",
             "width": "3 ft", "posting": "75 psf", "people": "2"}  # fmt: skip
    return judged(a_house(bridges=[plain | {name.replace("_", " "): it for name, it in changes.items()}]))


# 200 bricks of 25 lb and two people of 200 lb: 5,400 lb on 90 sq ft.
@pytest.mark.parametrize(("posting", "limit", "verdict"), [
    ("75 psf", 6750, Verdict.WITHIN), ("50 psf", 4500, Verdict.OVER), ("unknown", None, Verdict.UNKNOWN),
])  # fmt: skip
def test_the_floor_of_a_bridge_is_held_against_its_posting(posting: str, limit: float | None, verdict: Verdict) -> None:
    result = _bridge(posting=posting)
    (row,) = result.bridges
    assert row.value.best / LB == pytest.approx(5400)
    assert row.limit == (None if limit is None else pytest.approx(limit * LB))
    assert row.verdict is result.verdict is verdict
    assert [one.code for one in result.findings] == ([] if verdict is Verdict.WITHIN else
                                                     [f"BRIDGE-FLOOR-{verdict.value.upper()}"])  # fmt: skip
    assert "heaps on a bridge" in result.left_out


@pytest.mark.parametrize("change", [{"people": "unknown"}, {"length": "unknown"}])
def test_a_floor_of_which_a_figure_is_not_known_is_never_within(change: dict[str, str]) -> None:
    assert _bridge(**change).verdict is Verdict.UNKNOWN


def test_a_floor_may_be_listed_as_not_checked_but_not_when_it_is_over() -> None:
    listed = [{"what": "bridge floor", "why": "posting lost", "who": "an invented head rigger"}]
    plain = {"bridge": "bridge", "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft", "length": "30 ft",
             "width": "3 ft", "people": "2"}  # fmt: skip
    found = [judged(a_house(bridges=[plain | {"posting": posting}], not_checked_here=listed)).verdict
             for posting in ("unknown", "50 psf")]  # fmt: skip
    assert found == [Verdict.WITHIN, Verdict.OVER]


def test_a_bridge_without_a_posting_is_said_not_to_be_computed() -> None:
    plain = {"bridge": "bridge", "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft"}
    result = judged(a_house(bridges=[plain]))
    assert result.bridges == ()
    assert "the floor of bridge (no posting is written)" in result.left_out


# --------------------------------------------------------------------------------------- posted beside what is computed


# 100 lb hung: of 110 lb posted 0.91 is used, of 5,000 lb a fiftieth; five loft blocks of 500 lb carry 214 lb, 0.086 on
# the average.
@pytest.mark.parametrize(("load", "first"), [("110 lb", True), ("5,000 lb", False)])
def test_of_a_posted_capacity_and_what_is_computed_the_nearer_governs_and_the_other_is_told(
    load: str, first: bool
) -> None:
    found = _judged(a_set(posted=[{"load": load, "counts": "what is hung", "by": "an invented engineer"}]))
    assert found.posted is not None
    governs, beside = found.posted
    assert governs.use > beside.use
    assert "posted capacity" in {governs.link, beside.link}
    assert (governs.link == "posted capacity") is first


def test_without_a_posted_capacity_nothing_stands_beside_what_is_computed() -> None:
    assert _judged().posted is None
    assert _judged(a_set(posted=[{"load": "unknown"}])).posted is None
