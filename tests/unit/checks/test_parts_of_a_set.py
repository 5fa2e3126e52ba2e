"""Attachments, splices, posted capacities, clamps, blocks, steel and locks of a set. Sums and levers by hand."""

from __future__ import annotations

import math
from typing import Any

import pytest

from counterpoise.balance import Stack, out_of_balance
from counterpoise.checks import Check, SetResult, Verdict
from tests.plain_house import LB, Map, a_house, a_piece, a_set, hung, judged, rigged, rigged_set

TWO = {"at": ["10' SR", "10' SL"]}
DEAD: Map = {"rigged": "dead-hung", "low_trim": "20 ft"} | dict.fromkeys(
    ("purchase", "arbor", "pipe_weight", "stops", "tension_block", "hand_line", "brick", "high_trim"))  # fmt: skip


def _judged(one: Map | None = None, house: Map | None = None, **piece: Any) -> SetResult:
    return judged(a_house(one or a_set(), **(house or {})), [a_piece(**piece)], [hung()]).sets[0]


def _row(found: SetResult, link: str, line: int | None = None) -> Check:
    row = found.row(link, line)
    assert row is not None
    return row


def _pulls(found: SetResult) -> list[float]:
    assert found.forces is not None
    return [one.best / LB for one in found.forces.tensions]


# ------------------------------------------------------------------------------------------ permanent attachments


def test_an_attachment_at_a_point_pulls_by_its_lever() -> None:
    """60 lb at 5 ft SL of lines 10 ft off centre: a quarter on the first, three quarters on the second."""
    track = {"attachment": "track", "weight": "60 lb", "centre": "5 ft SL"}
    bare, fixed = (_pulls(_judged(a_set(lines=TWO, batten=change))) for change in ({}, {"attachments": [track]}))
    assert [after - before for before, after in zip(bare, fixed, strict=True)] == pytest.approx([15, 45])


def test_an_attachment_spread_evenly_pulls_as_at_its_middle() -> None:
    track = {"attachment": "track", "weight": "60 lb", "centre": "5 ft SL", "spread over": "8 ft"}
    bare, fixed = (_pulls(_judged(a_set(lines=TWO, batten=change))) for change in ({}, {"attachments": [track]}))
    assert [after - before for before, after in zip(bare, fixed, strict=True)] == pytest.approx([15, 45])


def test_an_attachment_counts_in_the_balance_with_its_range() -> None:
    track = {"attachment": "track", "weight": "50..70 lb", "centre": "CL", "spread over": "20 ft"}
    bare, fixed = rigged_set(), rigged_set(a_set(batten={"attachments": [track]}))
    at = [out_of_balance(one, Stack(2), one.low) for one in (bare, fixed)]
    fell = [(getattr(at[0], end) - getattr(at[1], end)) / LB for end in ("high", "best", "low")]
    assert fell == pytest.approx([50, 60, 70])
    pulls = _judged(a_set(batten={"attachments": [track]})).forces
    assert pulls is not None
    span = pulls.span((1.0,) * 5)
    assert [end / LB for end in (span.low, span.best, span.high)] == pytest.approx([264.24, 274.24, 284.24])


def test_an_attachment_on_a_batten_that_weighs_nothing_itself_keeps_its_range() -> None:
    track = {"attachment": "track", "weight": "50..70 lb", "centre": "CL"}
    found = _judged(a_set(batten={"attachments": [track], "weight": "0 lb/ft", "outside diameter": "1.9 in",
                                  "modulus": "10,000 ksi"}))  # fmt: skip
    assert found.forces is not None
    assert found.forces.span((1.0,) * 5).high / LB == pytest.approx(170)


@pytest.mark.parametrize("field", ["weight", "centre", "spread over"])
def test_an_attachment_with_an_unknown_figure_never_weighs_nothing(field: str) -> None:
    track = {"attachment": "track", "weight": "60 lb", "centre": "5 ft SL", "spread over": "8 ft"} | {field: "unknown"}
    assert _judged(a_set(batten={"attachments": [track]})).verdict is Verdict.UNKNOWN


# -------------------------------------------------------------------------------------------------------- splices


def test_a_splice_may_bend_by_the_share_of_strength_that_is_left() -> None:
    """Two lines 20 ft apart, 100 lb at the middle: 100 x 20 / 4 = 500 lb ft there, and a quarter of it 5 ft nearer."""
    one = a_set(
        lines=TWO,
        batten={
            "weight": "0.001 lb/ft",
            "modulus": "10,000 ksi",
            "splices": [{"at": "CL", "strength": "50 %"}, {"at": "5' SL", "strength": "50 %"}],
        },
    )
    found = _judged(one, picks=["CL"])
    whole, middle = _row(found, "batten"), next(row for row in found.rows if row.key == "9/splice/1")
    beside = next(row for row in found.rows if row.key == "9/splice/2")
    assert middle.limit == pytest.approx((whole.limit or 0) / 2)
    assert middle.value.best == pytest.approx(whole.value.best, rel=1e-3)
    assert beside.value.best == pytest.approx(whole.value.best / 2, rel=1e-3)


@pytest.mark.parametrize("splice", [{"at": "unknown", "strength": "50 %"}, {"at": "CL", "strength": "unknown"}])
def test_a_splice_that_is_not_known_is_never_within(splice: Map) -> None:
    assert _judged(a_set(batten={"splices": [splice]})).verdict is Verdict.UNKNOWN


def test_a_splice_of_an_estimated_strength_counts_on_less() -> None:
    row = _row(_judged(a_set(batten={"splices": [{"at": "CL", "strength": "~50 %"}]})), "splice")
    whole = _row(_judged(), "batten")
    assert row.limit == pytest.approx((whole.limit or 0) * 0.4)


# ----------------------------------------------------------------------------------------------- posted capacities


@pytest.mark.parametrize(("counts", "load", "verdict"), [
    # 100 lb hung on a batten of 114.24 lb
    ("what is hung", "100 lb", Verdict.WITHIN), ("what is hung", "99 lb", Verdict.OVER),
    ("batten and all", "215 lb", Verdict.WITHIN), ("batten and all", "214 lb", Verdict.OVER),
    ("unknown", "215 lb", Verdict.WITHIN), ("unknown", "150 lb", Verdict.UNKNOWN), ("unknown", "99 lb", Verdict.OVER),
    ("what is hung", "unknown", Verdict.UNKNOWN), ("what is hung", "80..120 lb", Verdict.OVER),
])  # fmt: skip
def test_a_posted_capacity_is_held_against_what_it_is_one_of(counts: str, load: str, verdict: Verdict) -> None:
    found = _judged(a_set(posted=[{"load": load, "counts": counts, "by": "an invented engineer"}]))
    assert found.verdict is verdict
    assert _row(found, "posted capacity").verdict is verdict


def test_a_capacity_that_does_not_say_of_what_it_is_one_is_looked_at_both_ways() -> None:
    assert _judged(a_set(posted=[{"load": "150 lb"}])).verdict is Verdict.UNKNOWN


def test_whether_an_attachment_is_hung_is_not_written_and_both_are_looked_at() -> None:
    track = {"attachment": "track", "weight": "60 lb", "centre": "CL", "spread over": "30 ft"}
    for load, verdict in (("160 lb", Verdict.WITHIN), ("120 lb", Verdict.UNKNOWN), ("99 lb", Verdict.OVER)):
        one = a_set(batten={"attachments": [track]}, pipe_weight="2", posted=[{"load": load, "counts": "what is hung"}])
        assert _row(_judged(one), "posted capacity").verdict is verdict


def test_a_range_of_weight_is_held_against_a_posted_capacity_at_its_heavy_end() -> None:
    one = a_set(posted=[{"load": "110 lb", "counts": "what is hung"}])
    assert _row(_judged(one, weight="80..120 lb"), "posted capacity").verdict is Verdict.UNKNOWN


def test_of_two_posted_capacities_each_has_its_row() -> None:
    one = a_set(posted=[{"load": load, "counts": "what is hung"} for load in ("300 lb", "90 lb")])
    rows = [row for row in _judged(one).rows if row.link == "posted capacity"]
    assert [row.verdict for row in rows] == [Verdict.WITHIN, Verdict.OVER]
    assert len({row.key for row in rows}) == 2


# --------------------------------------------------------------------------------------------------------- clamps


@pytest.mark.parametrize(("clamps", "verdict"), [
    ({"fit from": "1-1/2 in", "fit to": "2 in"}, Verdict.WITHIN),
    ({"fit from": "1.900 in", "fit to": "1.900 in"}, Verdict.WITHIN),
    ({"fit to": "1.66 in"}, Verdict.OVER), ({"fit from": "2 in"}, Verdict.OVER),
    ({"fit to": "unknown"}, Verdict.UNKNOWN), ({"fit from": "unknown"}, Verdict.UNKNOWN),
])  # fmt: skip
def test_clamps_go_on_the_pipe_or_do_not(clamps: Map, verdict: Verdict) -> None:
    """ASME B36.10M: 1-1/2 in schedule 40 is 1.900 in outside."""
    assert _judged(clamps=clamps).verdict is verdict


# ------------------------------------------------------------------------------------- limits of a set of its own


def test_the_allowed_stress_of_a_batten_goes_before_the_rule_of_the_house() -> None:
    rule, own = _row(_judged(), "batten"), _row(_judged(a_set(batten={"allowed stress": "10,500 psi"})), "batten")
    assert own.limit == pytest.approx((rule.limit or 0) / 2)  # of 21,000 psi
    assert _judged(a_set(batten={"allowed stress": "unknown"})).verdict is Verdict.UNKNOWN


@pytest.mark.parametrize(("hold", "limit"), [("30 lb", 30), ("~30 lb", 24), ("20..40 lb", 20)])
def test_the_lock_of_a_set_holds_what_is_written_of_it(hold: str, limit: float) -> None:
    assert (_row(_judged(a_set(lock={"hold": hold})), "lock").limit or 0) / LB == pytest.approx(limit)


def test_a_lock_of_unknown_hold_is_never_within() -> None:
    assert _judged(a_set(lock={"hold": "unknown"})).verdict is Verdict.UNKNOWN


@pytest.mark.parametrize(
    ("rating", "verdict"), [("75 lb", Verdict.WITHIN), ("60 lb", Verdict.UNKNOWN), ("50 lb", Verdict.OVER)]
)
def test_a_block_that_does_not_say_of_what_its_rating_is_is_looked_at_both_ways(rating: str, verdict: Verdict) -> None:
    """Two lines share a batten of 4.24 lb and 100 lb: 52.12 lb of line pull, a resultant of 73.7 lb.

    Arbor and pipe weight balance them, so that the hand line pulls on no head block.
    """
    one = a_set(lines=TWO, batten={"weight": "0.101 lb/ft", "modulus": "10,000 ksi"}, arbor={"weight": "54.24 lb"})
    one["loft block"] = {"rating": rating}
    assert _row(_judged(one, picks=["CL"]), "loft block").verdict is verdict
    one["head block"] = {"rating": f"{2 * float(rating.split(maxsplit=1)[0])} lb", "rating of": "unknown"}
    assert _row(_judged(one, picks=["CL"]), "head block").verdict is verdict


def test_an_allowance_net_of_the_lift_lines_is_held_against_the_load_without_them() -> None:
    """Five lines of 1 lb/ft hang 58 ft at low trim: 58 lb on each loft beam and 290 lb on the head beam."""
    at = []
    for lines in ("counted", "not counted"):
        house = a_house(a_set(lines={"weight": "1 lb/ft"}))
        house["steel"][0]["lift lines"] = lines
        found = judged(house, [a_piece()], [hung()]).sets[0]
        at.append([_row(found, "loft beam", 1).value.best / LB, _row(found, "head beam").value.best / LB])
    assert [with_ - without for with_, without in zip(*at, strict=True)] == pytest.approx([58, 290])


# ---------------------------------------------------------------------------------- sets that are not wholly known


@pytest.mark.parametrize("change", [
    {"arbor": {"usable height": "unknown"}}, {"arbor": {"plate weight": None}}, {"pipe_weight": "unknown"},
    {"arbor": {"seat at low trim": "unknown"}}, {"arbor": {"plate thickness": "unknown"}},
])  # fmt: skip
def test_a_set_whose_balance_is_unknown_has_its_lines_judged_and_is_never_within(change: Map) -> None:
    found = _judged(a_set(**change))
    assert found.verdict is Verdict.UNKNOWN
    assert found.rigged is None
    assert {_row(found, link).verdict for link in ("batten", "lift line", "loft beam", "head beam")} == {Verdict.WITHIN}
    assert [one.code for one in found.findings] == ["MISSING"]
    over = judged(a_house(a_set(**change)), [a_piece(weight="3,000 lb")], [hung()]).sets[0]
    assert over.verdict is Verdict.OVER


def test_the_neighbours_of_a_set_whose_balance_is_unknown_are_judged_all_the_same() -> None:
    sets = a_set("8", pipe_weight="unknown"), a_set("9")
    result = judged(a_house(*sets), [a_piece()], [hung()])
    assert [one.verdict for one in result.sets] == [Verdict.UNKNOWN, Verdict.WITHIN]


@pytest.mark.parametrize("purchase", [None, "unknown"])
def test_a_set_of_unknown_purchase_is_never_within(purchase: str | None) -> None:
    found = _judged(a_set(purchase=purchase))
    assert found.verdict is Verdict.UNKNOWN
    assert [one.what for one in rigged(a_house(a_set(purchase=purchase))).missing] == ["purchase"]


def test_an_arbor_that_nobody_weighed_is_found_by_its_pipe_weight_within_half_a_brick() -> None:
    """114.24 lb of batten less two bricks of 25 lb: 64.24 lb, give or take 12.5 lb."""
    one = rigged_set(a_set(arbor={"weight": "unknown"}))
    span = out_of_balance(one, Stack(2), one.low)
    assert [end / LB for end in (span.low, span.best, span.high)] == pytest.approx([-12.5, 0, 12.5], abs=1e-6)
    row = _row(_judged(a_set(arbor={"weight": "unknown"})), "lock")
    assert any(each.name.startswith("arbor weight, from its pipe weight") for each in row.inputs)


def test_a_dead_hung_batten_has_no_arbor_no_block_and_no_lock() -> None:
    one = a_set(rigged="dead-hung", purchase=None, high_trim=None, low_trim="20 ft", head_block=None, arbor=None,
                pipe_weight=None, stops=None, tension_block=None, lines={"head block from end": None})  # fmt: skip
    found = _judged(one)
    assert found.verdict is Verdict.WITHIN
    assert {row.link for row in found.rows} == {"batten", "sag", "overhang", "trim chain", "shackle", "lift line",
                                                "loft beam"}  # fmt: skip


@pytest.mark.parametrize("change", [
    {"low_trim": "unknown"}, {"lines": {"breaking strength": "unknown"}}, {"lines": {"shackle": "unknown"}},
])  # fmt: skip
def test_a_dead_hung_batten_with_an_unknown_figure_is_never_within(change: Map) -> None:
    one = a_set(rigged="dead-hung", purchase=None, high_trim=None, **({"low_trim": "20 ft"} | change))
    assert _judged(one).verdict is Verdict.UNKNOWN


# --------------------------------------------------------------------------------- ratings that are seldom written


@pytest.mark.parametrize(("purchase", "travels", "times"), [
    ("single", "with the batten", 1), ("double", "with the batten", 1), ("double", "with the arbor", 2),
])  # fmt: skip
def test_the_hand_line_carries_what_the_lock_holds(purchase: str, travels: str, times: int) -> None:
    """Two bricks of 25 lb too many: Δ = 50 lb at the batten on single, 25 lb on double purchase."""
    arbor = {"single": "64.24 lb", "double": "178.48 lb"}[purchase]  # 2 x 114.24 - 50
    one = a_set(purchase=purchase, hand_line={"travels": travels, "rating": "60 lb"}, arbor={"weight": arbor})
    found = judged(a_house(one), [], [], stated_bricks={"9": "4"}).sets[0]
    assert _row(found, "hand line").value.best / LB == pytest.approx(times * (50 if purchase == "single" else 25))
    assert _row(found, "hand line").value == _row(found, "lock").value
    for rating, verdict in (("20 lb", Verdict.OVER), ("unknown", Verdict.UNKNOWN)):
        one["hand line"]["rating"] = rating
        assert _row(judged(a_house(one), [], [], stated_bricks={"9": "4"}).sets[0], "hand line").verdict is verdict


@pytest.mark.parametrize(("rating", "verdict"), [
    ("75 lb", Verdict.WITHIN), ("74 lb", Verdict.OVER), ("~80 lb", Verdict.OVER), ("unknown", Verdict.UNKNOWN),
])  # fmt: skip
def test_a_clamp_carries_the_share_of_its_pick(rating: str, verdict: Verdict) -> None:
    """100 lb on two picks 10 ft off the centre, centre of gravity 5 ft SL: 75 lb on one of them."""
    found = _judged(picks=["10 ft SR", "10 ft SL"], centre_of_gravity="5 ft SL", clamps={"rating": rating})
    assert _row(found, "clamp").verdict is verdict


@pytest.mark.parametrize(("hitch", "verdict"), [
    ("straight", Verdict.WITHIN), ("doubled", Verdict.WITHIN), ("choked", Verdict.UNKNOWN),
    ("unknown", Verdict.UNKNOWN),
])  # fmt: skip
def test_a_chain_that_is_choked_is_not_within_by_its_rating_of_a_straight_pull(hitch: str, verdict: Verdict) -> None:
    found = _judged(a_set(lines={"hitch": hitch}))
    assert found.verdict is verdict
    assert _row(found, "trim chain").verdict is verdict


@pytest.mark.parametrize(
    ("purchase", "lines"), [("single", "counted"), ("double", "counted"), ("single", "not counted")]
)
def test_lines_that_come_level_pull_the_head_beam_toward_the_stage_as_much_as_they_weigh(
    purchase: str, lines: str
) -> None:
    """Two sets: battens 114.24 lb each, 100 lb on one, five lines of 1 lb/ft over 58 ft each where they count.

    A line turned by a right angle pulls its block by T each way; the dead ends of a double purchase pull down only.
    """
    sets = a_set("8", purchase=purchase, lines={"weight": "1 lb/ft"}), a_set("9", lines={"weight": "1 lb/ft"})
    house = a_house(*sets)
    house["steel"][0] |= {"head beam sideways": "900 lb", "lift lines": lines}
    result = judged(house, [a_piece()], [hung()])
    own = 290 if lines == "counted" else 0
    for found in result.sets:
        assert _row(found, "head beam sideways").value.best / LB == pytest.approx(2 * 114.24 + 100 + 2 * own)
        times = 2 if purchase == "double" else 1
        assert _row(found, "head beam").value.best / LB == pytest.approx(times * (114.24 + own) + 214.24 + own)
    for allowance, verdict in (("200 lb", Verdict.OVER), ("unknown", Verdict.UNKNOWN)):
        house["steel"][0]["head beam sideways"] = allowance
        assert _row(judged(house, [a_piece()], [hung()]).sets[0], "head beam sideways").verdict is verdict


def test_a_line_turned_level_pulls_its_loft_beam_toward_the_head_block_by_what_it_pulls_down() -> None:
    """Two sets on the same beams, lines of 1 lb/ft over 58 ft: two equal pulls at a right angle.

    Source: any text on statics.
    """
    sets = a_set("8", lines={"weight": "1 lb/ft"}), a_set("9", lines={"weight": "1 lb/ft"})
    house = a_house(*sets, a_set("10", **DEAD))
    assert not [row for row in judged(house, [a_piece()], [hung()]).sets[0].rows if row.link == "loft beam sideways"]
    house["steel"][0]["loft beam sideways"] = "1,500 lb"
    result = judged(house, [a_piece()], [hung()])
    dead = result.sets[2]
    assert not [row for row in dead.rows if row.link == "loft beam sideways"]  # its lines turn over no block
    total = 0.0
    for number in range(1, 6):
        along = _row(result.sets[1], "loft beam sideways", number)
        down = _row(result.sets[1], "loft beam", number).value.best
        hangs = dead.forces.tensions[number - 1].best if dead.forces is not None else math.nan
        assert along.value.best == pytest.approx(down - hangs)
        assert along.verdict is Verdict.WITHIN
        total += along.value.best
    assert total / LB == pytest.approx(2 * 114.24 + 100 + 2 * 290)
    for allowance, verdict in (("100 lb", Verdict.OVER), ("unknown", Verdict.UNKNOWN)):
        house["steel"][0]["loft beam sideways"] = allowance
        found = judged(house, [a_piece()], [hung()]).sets[1]
        assert _row(found, "loft beam sideways", 3).verdict is verdict


# ------------------------------------------------------------------------------------------- what is in doubt apart


def _spans(one: Map) -> list[tuple[float, float]]:
    found = judged(a_house(one), [a_piece()], [hung()]).sets[0]
    assert found.forces is not None
    return [(pull.low / LB, pull.high / LB) for pull in found.forces.tensions]


def test_doubt_about_the_hardware_is_at_the_lines_and_not_along_the_pipe() -> None:
    """40 lb more of hardware on five lines puts 8 lb more on each, whatever the batten's stiffness."""
    for low, high in _spans(a_set(batten={"hardware": "60..100 lb"})):
        assert high - low == pytest.approx(8)


def test_of_two_attachments_one_may_be_light_and_the_other_heavy() -> None:
    """On two lines 20 ft apart: 20 lb at 5 ft beyond one of them relieves the other of 5 lb, loads its own by 25 lb."""
    tracks = [{"attachment": name, "weight": "10..30 lb", "centre": at} for name, at in
              (("left", "15 ft SL"), ("right", "15 ft SR"))]  # fmt: skip
    for low, high in _spans(a_set(lines=TWO, batten={"attachments": tracks})):
        assert high - low == pytest.approx(25 + 5)


def test_a_length_of_another_pipe_is_in_doubt_by_its_own_weight() -> None:
    """10 ft of it at 5 to 7 lb/ft: 20 lb between light and heavy, and none of the rest."""
    other = {"from": "5 ft SR", "to": "5 ft SL", "outside diameter": "2.375 in", "wall": "0.154 in",
             "weight": "5..7 lb/ft", "modulus": "29,000 ksi"}  # fmt: skip
    found = judged(a_house(a_set(batten={"lengths": [other]})), [a_piece()], [hung()]).sets[0]
    assert found.forces is not None
    total = found.forces.span((1.0,) * 5)
    weights = [100 + 32 * 2.72 + 10 * each for each in (5, 6, 7)]
    assert [total.low / LB, total.best / LB, total.high / LB] == pytest.approx(weights)
    other["weight"] = "~6 lb/ft"
    result = judged(a_house(a_set(batten={"lengths": [other]}), rules={"estimate spread": "unknown"}))
    assert result.verdict is Verdict.UNKNOWN


@pytest.mark.parametrize("field", ["outside diameter", "wall", "design wall", "weight", "modulus", "from", "to"])
def test_a_length_of_another_pipe_with_an_unknown_figure_is_never_within(field: str) -> None:
    other = {"from": "5 ft SR", "to": "5 ft SL", "outside diameter": "2.375 in", "wall": "0.154 in",
             "design wall": "0.143 in", "weight": "3.66 lb/ft", "modulus": "29,000 ksi"}  # fmt: skip
    assert _judged(a_set(batten={"lengths": [other]})).verdict is Verdict.WITHIN
    assert _judged(a_set(batten={"lengths": [other | {field: "unknown"}]})).verdict is Verdict.UNKNOWN


def test_a_trim_that_the_house_does_not_know_is_never_within() -> None:
    for rule, verdict in (("1/16 in", Verdict.WITHIN), ("unknown", Verdict.UNKNOWN)):
        assert judged(a_house(rules={"trim error": rule}), [a_piece()], [hung()]).verdict is verdict
