from __future__ import annotations

from datetime import date

import pytest

from counterpoise.checks import Check, HouseResult, SetResult, Verdict, check, explain, surprise_of
from counterpoise.units import Style
from tests.plain_house import LB, Map, a_house, a_piece, a_set, hung, judged, rigged

ALL = ("within", "over", "unknown")
RULED = {"lock hold": "lock", "lift line factor": "lift line", "batten stress": "batten", "sag": "sag"}


def _nine(result: HouseResult) -> SetResult:
    found = result.set_called("9")
    assert found is not None
    return found


def _row(result: HouseResult, link: str, line: int | None = None) -> Check:
    row = _nine(result).row(link, line)
    assert row is not None
    return row


def _unknown(result: HouseResult) -> set[str]:
    return {row.link for row in _nine(result).rows if row.verdict is Verdict.UNKNOWN}


def test_a_plain_house_is_within_on_every_check_made() -> None:
    result = judged(a_house(), [a_piece()], [hung()])
    assert _unknown(result) == set()
    assert result.verdict is Verdict.WITHIN
    assert result.findings == ()
    assert {row.link for row in _nine(result).rows} == {
        "batten", "sag", "overhang", "trim chain", "shackle", "lift line", "loft block", "loft beam", "head block",
        "head beam", "arbor", "stack", "lock", "tension block", "top stop", "bottom stop",
    }  # fmt: skip


@pytest.mark.parametrize(("change", "link"), [
    ({"lines": {"shackle": "unknown"}}, "shackle"), ({"lines": {"shackle": None}}, "shackle"),
    ({"lines": {"trim chain": None}}, "trim chain"), ({"lines": {"breaking strength": "unknown"}}, "lift line"),
    ({"lines": {"termination": "unknown"}}, "lift line"), ({"loft_block": {"rating": "unknown"}}, "loft block"),
    ({"head_block": {"rating": "unknown"}}, "head block"), ({"arbor": {"rating": "unknown"}}, "arbor"),
    ({"stops": {"top": "unknown"}}, "top stop"), ({"stops": {"bottom": None}}, "bottom stop"),
    ({"tension_block": "unknown"}, "tension block"), ({"tension_block": None}, "tension block"),
    ({"batten": {"design wall": "unknown"}}, "batten"),
])  # fmt: skip
def test_an_unknown_or_unwritten_rating_is_never_within(change: Map, link: str) -> None:
    result = judged(a_house(a_set(**change)), *_loading(link))
    assert _unknown(result) == {link}
    assert result.verdict is Verdict.UNKNOWN
    assert [one.place.removeprefix("set 9, ").split(",")[0] for one in result.findings] == [link]


# The empty set balances to the pound. Four bricks of 25 lb balance 90 lb arbor-heavy by 10, 110 lb batten-heavy by 10.
def _loading(link: str) -> tuple[list[Map], list[Map]]:
    weight = {"top stop": "100 lb", "bottom stop": "90 lb", "tension block": "110 lb"}.get(link)
    return ([], []) if weight is None else ([a_piece(weight=weight)], [hung()])


@pytest.mark.parametrize(
    "change", [{"stops": {"top": "unknown"}}, {"tension_block": "unknown"}, {"tension_block": None}]
)
def test_a_part_without_a_rating_that_carries_nothing_is_no_row_and_asks_for_nothing(change: Map) -> None:
    result = judged(a_house(a_set(**change)))
    assert result.verdict is Verdict.WITHIN
    assert result.findings == ()
    assert result.unknowns == ()


def test_a_set_of_which_every_row_is_listed_as_not_checked_is_unknown_and_says_so() -> None:
    links = {row.link for row in _nine(judged(a_house())).rows}
    listed = [{"what": link, "sets": ["9"], "why": "a test", "who": "an invented rigger"} for link in sorted(links)]
    result = judged(a_house(**{"not checked here": listed}))
    assert _nine(result).rows == ()
    assert result.verdict is Verdict.UNKNOWN
    assert [one.code for one in result.findings] == ["NOTHING-CHECKED"]


def test_a_part_that_a_set_does_not_have_is_written_none_and_asks_for_nothing() -> None:
    one = a_set(stops="none", tension_block="none", lines={"shackle": "none", "trim chain": "none"})
    result = judged(a_house(one))
    assert result.verdict is Verdict.WITHIN
    assert not {"shackle", "trim chain", "top stop", "bottom stop", "tension block"} & {
        row.link for row in _nine(result).rows
    }


@pytest.mark.parametrize("rule", list(RULED))
def test_a_rule_written_as_unknown_leaves_its_rows_unknown_and_does_not_take_the_default(rule: str) -> None:
    result = judged(a_house(rules={rule: "unknown"}))
    assert _unknown(result) == ({"sag", "overhang"} if rule == "sag" else {RULED[rule]})
    assert [(one.what, one.path) for one in result.unknowns] == [(rule, f"rules.{rule}")]


@pytest.mark.parametrize(("allowance", "unknown"), [("loft beam", "loft beam"), ("head beam", "head beam")])
def test_an_unknown_allowance_of_the_steel_is_never_within(allowance: str, unknown: str) -> None:
    bay = {**a_house()["steel"][0], allowance: "unknown"}
    assert _unknown(judged(a_house(steel=[bay]))) == {unknown}


def test_steel_whose_impact_is_not_known_is_unknown_and_is_listed_to_be_found_out() -> None:
    result = judged(a_house(steel=[{**a_house()["steel"][0], "impact": "unknown"}]))
    assert _unknown(result) == {"loft beam", "head beam"}
    assert [(one.path, one.settles) for one in result.unknowns] == [("steel[0].impact", ("9",))]


# A US city building code asks for 25 % impact on loft- and head-block beams: 1,500 lb static leaves 1,200 lb.
def test_steel_rated_without_impact_may_carry_a_fifth_less() -> None:
    bay = {**a_house()["steel"][0], "impact": "add 25 %"}
    assert _row(judged(a_house(steel=[bay])), "loft beam").limit == pytest.approx(1_200 * LB)


def test_a_set_in_no_bay_has_unknown_loft_and_head_beams() -> None:
    assert _unknown(judged(a_house(steel=[]))) == {"loft beam", "head beam"}


def test_a_neighbour_whose_batten_is_not_known_makes_the_shared_steel_unknown() -> None:
    result = judged(a_house(a_set(), a_set("10", batten={"weight": "unknown"})))
    assert _unknown(result) == {"loft beam", "head beam"}
    assert "set 10 on the same steel is not known" in _row(result, "head beam").lacks
    other = result.set_called("10")
    assert other is not None
    assert other.verdict is Verdict.UNKNOWN
    assert [one.says for one in other.findings] == ["batten weight is not known."]


@pytest.mark.parametrize(("rating", "limit"), [("400..600 lb", 400), ("~500 lb", 400), ("500 lb", 500)])
def test_of_a_doubtful_rating_only_the_low_end_is_counted_on(rating: str, limit: float) -> None:
    result = judged(a_house(a_set(loft_block={"rating": rating})))
    assert _row(result, "loft block").limit == pytest.approx(limit * LB)
    bay = {**a_house()["steel"][0], "loft beam": rating}
    assert _row(judged(a_house(steel=[bay])), "loft beam").limit == pytest.approx(limit * LB)


# 7,000 x 80 % / 8 = 700 lb; with strength 6,000..7,000 and efficiency 75..80 %: 6,000 x 0.75 / 8 = 562.5 lb.
def test_the_limit_of_a_line_is_strength_times_termination_over_factor() -> None:
    assert _row(judged(a_house()), "lift line").limit == pytest.approx(700 * LB)
    doubtful = a_set(lines={"breaking strength": "6,000..7,000 lb", "termination": "75..80 %"})
    assert _row(judged(a_house(doubtful)), "lift line").limit == pytest.approx(562.5 * LB)


# Shackle of 100 lb; one pick over line 3 of W and 22.2 % of 114.24 lb = 25.4 lb: W = 70 is within at best (95.4 lb) and
# comes to 109.4 lb if 20 % heavier.
def test_an_estimate_that_is_within_at_best_and_over_at_worst_is_unknown() -> None:
    one = a_set(lines={"shackle": "100 lb"})
    verdicts = [_row(judged(a_house(one), [a_piece(weight=weight, picks=["CL"])], [hung()]), "shackle", 3).verdict.value
                for weight in ("60 lb", "~70 lb", "~90 lb")]  # fmt: skip
    assert verdicts == ["within", "unknown", "over"]


def test_a_weight_to_find_out_is_listed_with_the_sets_that_wait_for_it() -> None:
    one = a_set(lines={"shackle": "100 lb"})
    result = judged(a_house(one), [a_piece(weight="~70 lb", picks=["CL"])], [hung()])
    assert ("weight of border", ("9",)) in [(each.what, each.sets) for each in result.unknowns]
    assert any("Weigh it" in each.mend for each in result.findings)


def test_a_load_of_just_the_limit_is_within() -> None:
    one = a_set(batten={"hardware": "35.76 lb"}, head_block={"rating": "150 lb"}, arbor={"weight": "100 lb"})
    assert _row(judged(a_house(one)), "head block").verdict is Verdict.WITHIN


def test_a_piece_on_a_set_that_is_out_of_service_is_refused_even_if_the_set_can_not_be_computed() -> None:
    for change in ({}, {"batten": {"weight": "unknown"}}, {"lines": {"at": ["10' SR", "5' SR"]}}):
        result = judged(a_house(a_set(out_of_service="lock slips", **change)), [a_piece()], [hung()])
        assert _nine(result).verdict is Verdict.OVER
        assert "OUT-OF-SERVICE" in {one.code for one in result.findings}
        assert _nine(result).out_of_service == "lock slips"


def test_an_empty_set_that_is_out_of_service_is_no_finding() -> None:
    result = judged(a_house(a_set(out_of_service="lock slips")))
    assert result.findings == ()
    assert result.counted() == (0, 0, 0, 1)


def test_a_load_outside_the_lines_is_told_as_tipping_and_leaves_its_neighbours_unknown() -> None:
    two = a_set(lines={"at": ["10' SR", "10' SL"]})
    house = a_house(two, a_set("10", lines={"at": ["10' SR", "10' SL"]}))
    result = judged(house, [a_piece(weight="1,000 lb", picks=["CL"])], [hung(centre="20' SL")])
    assert _nine(result).verdict is Verdict.OVER
    assert [one.code for one in _nine(result).findings] == ["TIPS"]
    other = result.set_called("10")
    assert other is not None
    assert {row.link for row in other.rows if row.verdict is Verdict.UNKNOWN} == {"loft beam", "head beam"}


def test_a_load_that_may_tip_the_batten_is_unknown() -> None:
    two = a_set(lines={"at": ["10' SR", "10' SL"]})
    result = judged(a_house(two), [a_piece(weight="20..200 lb", picks=["CL"])], [hung(centre="20' SL")])
    assert _nine(result).verdict is Verdict.UNKNOWN
    assert "may tip" in result.findings[0].says


NOTE = {"what": "shackle", "why": "no marks", "who": "an invented rigger"}


def _listed(set_: Map, on: date | None = None, **note: object) -> HouseResult:
    return check(rigged(a_house(set_, not_checked_here=[{**NOTE, **note}])), on)


def test_an_unknown_part_that_a_person_lists_as_not_checked_is_left_out_and_the_list_is_kept() -> None:
    result = _listed(a_set(lines={"shackle": "unknown"}))
    assert result.verdict is Verdict.WITHIN
    assert [one.what for one in result.not_checked] == ["shackle"]
    assert _nine(result).row("shackle") is None


def test_a_list_for_other_sets_covers_nothing_here() -> None:
    house = a_house(a_set(lines={"shackle": "unknown"}), a_set("10"), not_checked_here=[{**NOTE, "sets": ["10"]}])
    assert _nine(check(rigged(house))).verdict is Verdict.UNKNOWN


@pytest.mark.parametrize(("on", "verdict"), [
    (None, "within"), (date(2027, 1, 31), "within"), (date(2027, 2, 1), "within"), (date(2027, 2, 2), "unknown"),
])  # fmt: skip
def test_a_list_holds_to_the_end_of_its_last_day(on: date | None, verdict: str) -> None:
    result = _listed(a_set(lines={"shackle": "unknown"}), on, until="2027-02-01")
    assert result.verdict.value == verdict
    assert len(result.not_checked) == (1 if verdict == "within" else 0)


def test_what_is_found_to_be_over_can_not_be_signed_away() -> None:
    assert _listed(a_set(lines={"shackle": "20 lb"})).verdict is Verdict.OVER


def test_every_row_explains_itself_with_inputs_and_their_words() -> None:
    result = judged(a_house(), [a_piece()], [hung()])
    for row in _nine(result).rows:
        told = explain(result, row.key)
        assert told is not None
        assert told.inputs
        assert told.formula
        assert told.verdict in ALL
        assert all(text for text in row.printed(Style("us")))
    assert explain(result, "9/nothing") is None


# Rigid, evenly loaded: line 2 takes 27 % of 114.24 + 900 lb = 274 lb where an equal share is 203 lb.
def test_the_surprise_is_a_load_that_equal_shares_would_pass() -> None:
    one = a_set(loft_block={"rating": "250 lb"}, lines={"stiffness": "100,000,000 lb"})
    told = surprise_of(judged(a_house(one), [a_piece(weight="900 lb", spread_over="42 ft")], [hung()]))
    assert told is not None
    assert told.row is not None
    assert told.row.verdict is Verdict.OVER
    assert told.equal / LB == pytest.approx(1014.24 / 5)
    assert told.row.value.best / LB == pytest.approx(0.27007 * 1014.24, rel=1e-3)
    assert "lines 2 and 4" in told.sentence
    assert surprise_of(judged(a_house())) is None


# By hand, rigid lines: one pick on line 3 puts all its weight there; equal shares would put a fifth on each.
def test_the_surprise_is_told_of_a_house_whose_blocks_nobody_has_rated() -> None:
    one = a_set(loft_block={"rating": "unknown"}, lines={"stiffness": "100,000,000 lb"})
    told = surprise_of(judged(a_house(one), [a_piece(weight="500 lb", picks=["CL"])], [hung()]))
    assert told is not None
    assert told.row is None
    assert told.equal / LB == pytest.approx((114.24 + 500) / 5, rel=1e-6)
    assert "line 3 really carries" in told.sentence
    assert "is not known" in told.sentence
    assert float(told.sentence.partition("carries ")[2].partition(" lb")[0]) >= 500


@pytest.mark.parametrize("purchase", ["single", "double"])
def test_the_most_a_piece_may_weigh_is_within_and_a_pound_more_is_not(purchase: str) -> None:
    one = a_set(loft_block={"rating": "250 lb"}, purchase=purchase)
    refused = next(each for each in judged(a_house(one), [a_piece(weight="1,200 lb")], [hung()]).findings
                   if each.code == "LOFT-BLOCK-OVER")  # fmt: skip
    most = float(refused.mend.split("at most ")[1].split(" lb")[0].replace(",", ""))
    for pounds, verdict in ((most, Verdict.WITHIN), (most + 1.5, Verdict.OVER)):
        result = judged(a_house(one), [a_piece(weight=f"{pounds} lb")], [hung()])
        assert _row(result, "loft block").verdict is verdict


# By hand: 16 bricks of 25 lb and more, each up to 4 lb off, may be 128 lb apart; hardware 8..12 lb only 4 lb.
def test_the_figure_that_widens_an_unknown_most_is_the_one_to_find_out() -> None:
    wild = {"brick": "full", "weight": "25 lb", "spread": "4 lb", "thickness": "1 in", "stock": {"bridge": "200"}}
    one = a_set(batten={"hardware": "8..12 lb"}, pipe_weight="2")
    result = judged(a_house(one, bricks=[wild]), [a_piece(weight="400 lb")], [hung()])
    lock = next(each for each in result.findings if each.code == "LOCK-UNKNOWN")
    assert "brick weight" in lock.mend
    assert "hardware" not in lock.mend
