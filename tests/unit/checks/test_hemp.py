"""A hemp set. Its bags weigh less than what hangs, its crew hauls the rest (common practice, no source)."""

from __future__ import annotations

import pytest

from counterpoise.checks import HouseResult, SetResult, Verdict
from counterpoise.errors import BadDocument
from tests.plain_house import LB, Map, a_house, a_piece, a_set, hung, judged

# batten 114.24 lb and a piece of 100 lb: 214.24 lb hang
BAGS = {"weight": "180 lb", "pin": "500 lb", "hauls": "50 lb"}


def _hemp(bags: Map | None = None, pieces: list[Map] | None = None, **changes: object) -> SetResult:
    plain: Map = {"rigged": "hemp", "purchase": None, "arbor": None, "pipe_weight": None, "stops": None,
                  "tension_block": None, "bags": BAGS | (bags or {})}  # fmt: skip
    one = a_set(**(plain | changes))
    return judged(a_house(one), pieces or [a_piece()], [hung()]).sets[0]


def _said(found: SetResult, link: str) -> Verdict:
    row = found.row(link)
    assert row is not None
    return row.verdict


def test_a_hemp_set_is_judged_without_arbor_and_without_lock() -> None:
    found = _hemp()
    assert found.verdict is Verdict.WITHIN
    assert {row.link for row in found.rows} == {"batten", "sag", "overhang", "trim chain", "shackle", "lift line",
                                                "loft block", "pin", "loft beam", "head block", "head beam",
                                                "bags", "crew"}  # fmt: skip


@pytest.mark.parametrize(("weight", "verdict"), [
    ("214 lb", Verdict.WITHIN), ("215 lb", Verdict.OVER), ("200..230 lb", Verdict.OVER),
    ("190..220 lb", Verdict.UNKNOWN),
    ("~200 lb", Verdict.UNKNOWN), ("~170 lb", Verdict.WITHIN), ("unknown", Verdict.UNKNOWN),
])  # fmt: skip
def test_bags_heavier_than_what_hangs_could_not_be_pulled_in(weight: str, verdict: Verdict) -> None:
    assert _said(_hemp({"weight": weight, "hauls": "200 lb"}), "bags") is verdict


def test_bags_that_are_heavier_than_the_lightest_that_may_hang_are_not_within_and_not_over() -> None:
    found = _hemp({"weight": "200 lb"}, [a_piece(weight="80..120 lb")])  # 194.24 to 234.24 lb hang
    assert _said(found, "bags") is Verdict.UNKNOWN
    assert _said(_hemp({"weight": "194 lb"}, [a_piece(weight="80..120 lb")]), "bags") is Verdict.WITHIN


@pytest.mark.parametrize(("hauls", "verdict"), [
    ("35 lb", Verdict.WITHIN), ("34 lb", Verdict.OVER), ("~40 lb", Verdict.OVER), ("~43 lb", Verdict.WITHIN),
    ("unknown", Verdict.UNKNOWN),
])  # fmt: skip
def test_the_crew_hauls_what_hangs_less_the_bags(hauls: str, verdict: Verdict) -> None:
    """214.24 - 180 = 34.24 lb; of an estimate four fifths are counted on."""
    assert _said(_hemp({"hauls": hauls}), "crew") is verdict


def test_the_crew_hauls_the_heaviest_less_the_lightest_bags() -> None:
    found = _hemp({"weight": "170..190 lb"}, [a_piece(weight="90..110 lb")])
    row = found.row("crew")
    assert row is not None
    assert [end / LB for end in (row.value.low, row.value.best, row.value.high)] == pytest.approx([14.24, 34.24, 54.24])


def test_each_line_is_tied_off_alone_to_its_pin() -> None:
    found = _hemp({"pin": "30 lb"})
    assert found.forces is not None
    over = [row.line for row in found.rows if row.link == "pin" and row.verdict is Verdict.OVER]
    assert over == [line for line, pull in enumerate(found.forces.tensions, start=1) if pull.best / LB > 30]
    assert over
    assert _said(_hemp({"pin": "unknown"}), "pin") is Verdict.UNKNOWN


def test_a_hemp_set_that_names_no_bags_is_never_within() -> None:
    found = _hemp(bags_=None)
    assert found.verdict is Verdict.UNKNOWN
    assert "no bags are written" in found.findings[0].says


def test_an_unknown_rule_for_estimates_leaves_estimated_bags_unknown() -> None:
    one = a_set(rigged="hemp", purchase=None, bags=BAGS | {"weight": "~180 lb"})
    result = judged(a_house(one, rules={"estimate spread": "unknown"}), [a_piece()], [hung()])
    assert result.verdict is Verdict.UNKNOWN
    assert [each.what for each in result.house.missing] == ["the rule `estimate spread`"]


def test_bags_are_held_against_what_hangs_where_cable_weighs_least() -> None:
    """1 lb/ft to a box on the deck: 4 lb at low trim, 58 lb at high trim, beside 214.24 lb."""
    cable = {"length": "70 ft", "weight": "1 lb/ft", "box": "0 ft"}
    for weight, verdict in (("218 lb", Verdict.WITHIN), ("219 lb", Verdict.OVER)):
        found = _hemp({"weight": weight, "hauls": "100 lb"}, [a_piece(cables=[cable])])
        assert _said(found, "bags") is verdict
    crew = _hemp({"weight": "200 lb", "hauls": "100 lb"}, [a_piece(cables=[cable])]).row("crew")
    assert crew is not None
    assert crew.value.best / LB == pytest.approx(214.24 + 58 - 200)


# ------------------------------------------------------------------------------------------------------------ ropes

ROPES: Map = {"weight": "0.167 lb/ft"}  # 3/4 in manila weighs 16.7 lb/100 ft: Cordage Institute table, as printed
RAIL: Map = {"rail": "main", "floor": "20 ft"}


def _with_ropes(**house: object) -> SetResult:
    one = a_set(rigged="hemp", purchase=None, arbor=None, pipe_weight=None, stops=None, tension_block=None, lines=ROPES,
                bags=BAGS | {"hauls": "200 lb"})  # fmt: skip
    return judged(a_house(one, **house), [a_piece()], [hung()]).sets[0]


def test_ropes_hang_on_both_sides_and_what_counts_is_how_far_the_batten_is_below_the_rail() -> None:
    """Equilibrium: 5 × 0.167 lb/ft × (rail − batten): 16 ft below the rail at low trim, 38 ft above it at high."""
    found = _with_ropes(rails=[RAIL])
    crew, bags = found.row("crew"), found.row("bags")
    assert crew is not None
    assert bags is not None
    assert bags.limit is not None
    assert crew.value.best / LB == pytest.approx(214.24 + 5 * 0.167 * 16 - 180)
    assert bags.limit / LB == pytest.approx(214.24 - 5 * 0.167 * 38)


def test_where_no_floor_of_the_rail_is_written_the_row_lists_what_it_is_taken_for_and_how_much_that_widens() -> None:
    """Half of 62 ft is 31 ft of five ropes: 25.9 lb more than with the rail at the deck."""
    row = _with_ropes().row("crew")
    assert row is not None
    assert (row.value.high - row.value.best) / LB == pytest.approx(5 * 0.167 * 31)
    told = next(one for one in row.inputs if one.name == "floor of its rail")
    assert told.is_doubtful
    assert told.widens == pytest.approx(row.value.high - row.value.best)
    assert "at worst at 31' 0\"" in told.words
    known = _with_ropes(rails=[RAIL]).row("crew")
    assert known is not None
    assert known.value.high == pytest.approx(known.value.best)
    assert [one.words for one in known.inputs if one.name == "floor of its rail"] == ["20 ft"]


def test_a_crew_that_waits_for_the_floor_of_its_rail_is_sent_to_write_it() -> None:
    one = a_set(rigged="hemp", purchase=None, arbor=None, pipe_weight=None, stops=None, tension_block=None, lines=ROPES,
                bags=BAGS | {"hauls": "40 lb"})  # fmt: skip
    result = judged(a_house(one, rails=[{"rail": "main", "floor": "unknown"}]), [a_piece()], [hung()])
    row = result.sets[0].row("crew")
    assert row is not None
    assert row.verdict is Verdict.UNKNOWN
    assert [(each.what, each.where) for each in result.unknowns] == [
        ("floor of its rail", "`rails: [{rail: main, floor: …}]` in the house")
    ]


# ------------------------------------------------------------------------------------------------------ stated bags


def _stating(stated: Map, *, bare: bool = False, **changes: object) -> HouseResult:
    plain: Map = {"rigged": "hemp", "purchase": None, "arbor": None, "pipe_weight": None, "stops": None,
                  "tension_block": None, "bags": BAGS}  # fmt: skip
    house = a_house(a_set(**(plain | changes)))
    return judged(house, [a_piece()], [] if bare else [hung()], **({"stated_bags": stated} if stated else {}))


@pytest.mark.parametrize(("stated", "bare", "bags"), [
    ({}, False, Verdict.WITHIN), ({}, True, Verdict.OVER), ({"9": "90 lb"}, True, Verdict.WITHIN),
    ({"9": "0 lb"}, True, Verdict.WITHIN), ({"9": "215 lb"}, False, Verdict.OVER),
    ({"9": "200..220 lb"}, False, Verdict.UNKNOWN), ({"9": "unknown"}, False, Verdict.UNKNOWN),
])  # fmt: skip
def test_the_bags_that_a_hang_states_come_before_those_of_the_house(stated: Map, bare: bool, bags: Verdict) -> None:
    """A bare batten of 114.24 lb with the house's bags of 180 lb on could not be pulled in; with 90 lb it could."""
    assert _said(_stating(stated, bare=bare).sets[0], "bags") is bags


def test_what_the_crew_hauls_and_where_that_figure_stands_are_of_the_hang() -> None:
    row = _stating({"9": "164.24 lb"}).sets[0].row("crew")
    assert row is not None
    assert row.value.best / LB == pytest.approx(50)
    bags = next(one for one in row.inputs if one.name == "bags")
    assert bags.where.endswith(" of the hang")
    assert _stating({"9": "unknown"}).unknowns[0].where.endswith(" of the hang")


def test_an_estimate_of_stated_bags_that_no_rule_widens_is_missing() -> None:
    one = a_set(rigged="hemp", purchase=None, bags=BAGS)
    result = judged(a_house(one, rules={"estimate spread": "unknown"}), [a_piece()], [hung()],
                    stated_bags={"9": "~180 lb"})  # fmt: skip
    assert [each.what for each in result.house.missing] == ["the rule `estimate spread`"]


@pytest.mark.parametrize(("changes", "says"), [
    ({"rigged": "counterweight"}, "set 9 is no hemp set"), ({"bags_": None}, "the house writes no `bags`"),
])  # fmt: skip
def test_bags_are_stated_of_a_hemp_set_whose_pins_and_crew_are_written(changes: Map, says: str) -> None:
    with pytest.raises(BadDocument, match=says):
        _stating({"9": "90 lb"}, **changes)
    with pytest.raises(BadDocument, match="there is no set 19"):
        _stating({"19": "90 lb"})
