"""What a piece weighs by its takeoff. Areas and lengths by hand; a cloth of 54 in makes 1.5 yd2 of a running yard."""

from __future__ import annotations

from typing import Any

import pytest

from counterpoise.checks import HouseResult, Verdict
from counterpoise.documents import How
from counterpoise.errors import BadDocument
from counterpoise.rigging import RiggedPiece
from counterpoise.units.constants import KG_PER_POUND
from tests.plain_house import Map, a_house, a_piece, hung, judged, rigged, rigged_set


def _made(*lines: Map) -> Map:
    return {name: value for name, value in a_piece("drape", takeoff=list(lines)).items() if name != "weight"}


def _judged(*lines: Map, **house: Any) -> HouseResult:
    return judged(a_house(**house), [_made(*lines)], [hung("drape")])


def _piece(*lines: Map) -> RiggedPiece:
    return rigged_set(None, [_made(*lines)], [hung("drape")]).pieces[0]


def _pounds(*lines: Map) -> list[float]:
    return [mass / KG_PER_POUND for mass in _piece(*lines).mass]


VELOUR = "velour, 16 oz per running yard of 54 in"  # 16 oz / 1.5 = 10.667 oz/yd2; the row prints 10.7


@pytest.mark.parametrize(("line", "pounds"), [
    # 40 ft x 18 ft = 80 yd2 flat; half as much again for 50 % fullness: 120 yd2 x 10.7 oz = 1,284 oz
    ({"cloth": VELOUR, "width": "40 ft", "height": "18 ft"}, 80 * 10.7 / 16),
    ({"cloth": VELOUR, "width": "40 ft", "height": "18 ft", "fullness": "50 %"}, 80.25),
    ({"cloth": VELOUR, "width": "40 ft", "height": "18 ft", "fullness": "0 %"}, 53.5),
    ({"cloth": VELOUR, "width": "40 ft", "height": "18 ft", "fullness": "50 %", "count": "2"}, 160.5),
    # APA, from its own table: 1/2 in softwood plywood 1.5 lb/ft2; a sheet 4 ft x 8 ft is 48 lb
    ({"board": "1/2 in softwood plywood", "width": "4 ft", "height": "8 ft", "count": "3"}, 144),
    # ASME B36.10M: 1-1/2 in schedule 40, 2.72 lb/ft
    ({"pipe": "1-1/2 in schedule 40", "length": "20 ft"}, 54.4),
    ({"what": "chain", "per length": "2 lb/ft", "length": "30 ft"}, 60),
    ({"what": "vinyl", "per area": "0.5 lb/ft2", "width": "10 ft", "height": "10 ft"}, 50),
    ({"what": "lamp", "each": "12 lb", "count": "5"}, 60),
    ({"what": "motor", "each": "12 lb"}, 12),
    ({"what": "lamp", "each": "12 lb", "count": "0"}, 0),
])  # fmt: skip
def test_a_line_weighs_its_size_times_the_weight_of_a_unit(line: Map, pounds: float) -> None:
    other = {"what": "batten", "each": "1 lb"}
    assert _pounds(line, other) == pytest.approx([pounds + 1] * 3)


def test_a_figure_of_ones_own_goes_before_that_of_the_row() -> None:
    own = {"cloth": VELOUR, "per area": "1 lb/ft2", "width": "10 ft", "height": "10 ft"}
    assert _pounds(own)[1] == pytest.approx(100)


def test_a_range_of_one_line_is_a_range_of_the_sum() -> None:
    assert _pounds({"what": "lamp", "each": "10..14 lb", "count": "5"}, {"what": "bar", "each": "40 lb"}) == (
        pytest.approx([90, 100, 110])
    )


@pytest.mark.parametrize(("line", "pounds"), [
    ({"what": "lamp", "each": "~10 lb", "count": "5"}, [40, 50, 60]),
    ({"what": "lamp", "each": "10 lb", "count": "~5"}, [40, 50, 60]),  # how many is the doubt here
    ({"what": "skin", "per area": "1 lb/ft2", "width": "~5 ft", "height": "10 ft"}, [40, 50, 60]),
    # practice, from memory: 1x4 pine 0.51 lb/ft; what nobody looked up is no better than an estimate
    ({"lumber": "1x4 pine", "length": "100 ft"}, [40.8, 51, 61.2]),
    ({"fixture": "profile spot", "count": "2"}, [30, 35, 40]),  # a remembered range says itself how far it goes
])  # fmt: skip
def test_what_is_an_estimate_or_from_memory_widens_by_the_rule(line: Map, pounds: list[float]) -> None:
    assert _pounds(line) == pytest.approx(pounds)


@pytest.mark.parametrize("line", [
    {"what": "lamp", "each": "unknown", "count": "5"},
    {"what": "lamp", "each": "10 lb", "count": "unknown"},
    {"cloth": VELOUR, "width": "unknown", "height": "18 ft"},
    {"cloth": VELOUR, "width": "40 ft", "height": "unknown"},
    {"cloth": VELOUR, "width": "40 ft", "height": "18 ft", "fullness": "unknown"},
    {"cloth": VELOUR, "width": "40 ft", "height": "18 ft", "count": "unknown"},
    {"pipe": "1-1/2 in schedule 40", "length": "unknown"},
])  # fmt: skip
def test_one_unknown_figure_makes_the_whole_weight_unknown(line: Map) -> None:
    result = _judged({"what": "bar", "each": "20 lb"}, line)
    assert result.verdict is Verdict.UNKNOWN
    assert [one.what for one in result.house.missing] == ["weight of drape"]
    assert result.house.missing[0].path.startswith("pieces[0].takeoff[1].")


def test_an_unknown_rule_for_estimates_makes_an_estimated_takeoff_unknown() -> None:
    for line in ({"what": "lamp", "each": "~10 lb"}, {"lumber": "1x4 pine", "length": "10 ft"}):
        result = _judged(line, rules={"estimate spread": "unknown"})
        assert result.verdict is Verdict.UNKNOWN
        assert "the rule `estimate spread`" in [one.what for one in result.house.missing]


@pytest.mark.parametrize(("line", "said"), [
    ({"what": "lamp", "count": "5"}, "no weight"),
    ({"what": "lamp", "each": "5 lb", "per length": "1 lb/ft"}, "per length and each"),
    ({"cloth": VELOUR, "width": "40 ft"}, "height is missing"),
    ({"pipe": "1-1/2 in schedule 40"}, "length is missing"),
    ({"cloth": "velour 16 oz", "width": "40 ft", "height": "18 ft"}, "no cloth of that name"),
])  # fmt: skip
def test_a_line_that_can_not_be_weighed_is_refused(line: Map, said: str) -> None:
    with pytest.raises(BadDocument, match=said):
        rigged(a_house(), [_made(line)], [hung("drape")])


def test_a_sum_is_as_well_known_as_the_worst_of_its_figures_and_names_their_sources() -> None:
    known = _piece({"pipe": "1-1/2 in schedule 40", "length": "20 ft"}, {"what": "lamp", "each": "5 lb"}).weight
    assert known.how is How.ASSUMED  # a bare figure
    known = _piece({"pipe": "1-1/2 in schedule 40", "length": "~20 ft"}).weight
    assert known.how is How.ESTIMATE
    known = _piece({"lumber": "1x4 pine", "length": "10 ft"}, {"what": "lamp", "each": "5 lb"}).weight
    assert known.how is How.DEFAULT
    assert "from memory" in str(known.source)
    known = _piece({"pipe": "1-1/2 in schedule 40", "length": "20 ft"}).weight
    assert known.how is How.ASSUMED  # the row is documented, the length is bare


def test_a_piece_with_a_weight_and_a_takeoff_is_refused() -> None:
    with pytest.raises(BadDocument, match="twice"):
        rigged(a_house(), [a_piece(takeoff=[{"what": "lamp", "each": "5 lb"}])])


def test_sections_weigh_together_what_each_of_them_does() -> None:
    parts = [{"weight": weight, "height": "5 ft", "balance height": "2 ft"} for weight in ("50 lb", "60..80 lb")]
    wall = {"piece": "wall", "spread over": "40 ft", "comes": "in sections", "sections": parts}
    piece = rigged_set(None, [wall], [hung("wall")]).pieces[0]
    assert [mass / KG_PER_POUND for mass in piece.mass] == pytest.approx([110, 120, 130])
    assert [end and end / KG_PER_POUND for end in (piece.weight.low, piece.weight.best, piece.weight.high)] == (
        pytest.approx([110, 120, 130])
    )
