"""The row of the guides: there where anything of them is written, never within where a figure of it is not known."""

import re
from typing import Any

import pytest

from counterpoise.checks import Check, HouseResult, Verdict, explain
from counterpoise.checks.working import COMES_TO, workings_of
from tests.plain_house import LB, Map, a_house, a_piece, a_set, hung, judged

GUIDES: Map = {"rating": "100 lb", "shoes apart": "4 ft", "load aside": "1/2 in", "hand line aside": "3 in"}
FOUND: Map = {"part": "guides", "found": "a shoe worn through", "who": "an invented rigger", "when": "2026-05-02"}


def _judged(guides: Map | None, bricks: str = "8", house: Map | None = None, **changes: Any) -> HouseResult:
    """A set with 100 lb on it and, but for another count, 50 lb arbor-heavy: 264.24 lb on the arbor."""
    one = a_set(guides=guides, **changes)
    return judged(a_house(one, **(house or {})), [a_piece()], [hung()], stated_bricks={"9": bricks})


def _row(guides: Map | None, bricks: str = "8", **changes: Any) -> Check:
    row = _judged(guides, bricks, **changes).sets[0].row("guides")
    assert row is not None
    return row


# 64.24 lb of arbor, n bricks of 25 lb, half an inch aside; what is out of balance 3 in aside; shoes 48 in apart.
@pytest.mark.parametrize(("bricks", "force"), [
    ("6", 214.24 * 0.5 / 48), ("8", (264.24 * 0.5 + 50 * 3) / 48), ("4", (164.24 * 0.5 + 50 * 3) / 48),
])  # fmt: skip
def test_a_shoe_bears_the_couple_of_load_and_hand_line(bricks: str, force: float) -> None:
    row = _row(GUIDES, bricks)
    assert [each / LB for each in (row.value.low, row.value.best, row.value.high)] == pytest.approx([force] * 3)
    assert (row.limit or 0.0) / LB == pytest.approx(100)
    assert row.verdict is Verdict.WITHIN


# 178.48 lb of arbor and 6 bricks are 328.48 lb; -25 lb at the batten are 50 lb on the arbor.
def test_on_a_double_purchase_set_the_hand_line_pulls_twice_on_the_arbor() -> None:
    row = _row(GUIDES, "7", purchase="double", hand_line="with the arbor", arbor={"weight": "203.48 lb"})
    assert row.value.best / LB == pytest.approx((378.48 * 0.5 + 50 * 3) / 48)


# 5.8775 lb: (264.24 x 0.5 + 50 x 3) / 48
@pytest.mark.parametrize(("rating", "verdict"), [
    ("6 lb", Verdict.WITHIN), ("5.8 lb", Verdict.OVER), ("~6 lb", Verdict.OVER), ("~8 lb", Verdict.WITHIN),
    ("5..9 lb", Verdict.OVER), ("unknown", Verdict.UNKNOWN),
])  # fmt: skip
def test_it_is_held_against_what_may_be_counted_on_of_its_rating(rating: str, verdict: Verdict) -> None:
    assert _row(GUIDES | {"rating": rating}).verdict is verdict


# A range counts by its ends, an estimate is 20 % out either way by the rule.
@pytest.mark.parametrize(("change", "low", "high"), [
    ({"load aside": "0..1 in"}, 150 / 48, (264.24 + 150) / 48),
    ({"load aside": "~1/2 in"}, (264.24 * 0.4 + 150) / 48, (264.24 * 0.6 + 150) / 48),
    ({"hand line aside": "2..4 in"}, (132.12 + 100) / 48, (132.12 + 200) / 48),
    ({"shoes apart": "~4 ft"}, 282.12 / 57.6, 282.12 / 38.4),
])  # fmt: skip
def test_what_is_known_of_places_within_a_range_widens_it(change: Map, low: float, high: float) -> None:
    row = _row(GUIDES | change)
    assert [each / LB for each in (row.value.low, row.value.high)] == pytest.approx([low, high])
    assert row.value.best / LB == pytest.approx(282.12 / 48)


# 260..270 lb on the arbor, 45.76..55.76 lb arbor-heavy.
def test_what_is_not_known_exactly_of_the_weights_widens_it() -> None:
    row = _row(GUIDES, arbor={"weight": "60..70 lb"})
    assert [each / LB for each in (row.value.low, row.value.high)] == pytest.approx(
        [(260 * 0.5 + 45.76 * 3) / 48, (270 * 0.5 + 55.76 * 3) / 48]
    )


@pytest.mark.parametrize("name", ["shoes apart", "load aside", "hand line aside"])
@pytest.mark.parametrize("written", ["unknown", None])
def test_a_place_that_is_not_known_leaves_it_unknown_and_is_asked_for(name: str, written: str | None) -> None:
    guides = {word: it for word, it in (GUIDES | {name: written}).items() if it}
    result = _judged(guides)
    row = result.sets[0].row("guides")
    assert row is not None
    assert row.verdict is Verdict.UNKNOWN
    assert "is not known" in row.lacks
    told = next(one for one in result.findings if one.code == "GUIDES-UNKNOWN")
    assert "Find it out" in told.mend
    assert "line " in told.mend
    assert result.unknowns[0].path.endswith(f"guides.{name}")
    assert result.unknowns[0].settles == ("9",)


def test_guides_of_which_nothing_is_written_but_that_they_are_there_are_unknown() -> None:
    assert _row({"rating": "100 lb"}).verdict is Verdict.UNKNOWN


# 50 lb at 3 in over 48 in are 3.125 lb, whatever the load adds.
def test_what_is_over_by_the_hand_line_alone_is_over_wherever_the_load_lies() -> None:
    assert _row(GUIDES | {"load aside": "unknown", "rating": "3 lb"}).verdict is Verdict.OVER
    assert _row(GUIDES | {"load aside": "unknown", "rating": "4 lb"}).verdict is Verdict.UNKNOWN


@pytest.mark.parametrize("name", ["shoes apart", "load aside", "hand line aside", "rating"])
def test_an_estimate_is_unknown_where_the_house_does_not_know_how_far_it_may_be_out(name: str) -> None:
    guides = GUIDES | {name: f"~{GUIDES[name]}"}
    result = _judged(guides, house={"rules": {"estimate spread": "unknown"}})
    assert result.sets[0].row("guides").verdict is Verdict.UNKNOWN  # type: ignore[union-attr]


def test_of_what_is_not_written_there_is_no_row_and_it_is_said() -> None:
    result = _judged(None)
    assert result.sets[0].row("guides") is None
    assert "guides (no figures of them are written)" in result.left_out
    written = _judged(GUIDES)
    assert not [one for one in written.left_out if one.startswith("guides")]
    assert [one for one in written.left_out if "tilt of arbors" in one]


def test_it_is_said_of_the_sets_that_write_none() -> None:
    sets = [a_set("9"), a_set("10", guides=GUIDES), a_set("11"), a_set("12", guides=GUIDES, pipe_weight="unknown")]
    assert "guides of sets 9, 11 (no figures of them are written)" in judged(a_house(*sets)).left_out


def test_a_house_may_list_its_guides_as_not_checked() -> None:
    listed = [{"what": "guides", "why": "the maker gives no figure", "who": "an invented head rigger"}]
    result = _judged(None, house={"not checked here": listed})
    assert not [one for one in result.left_out if one.startswith("guides")]
    unknown = _judged(GUIDES | {"rating": "unknown"}, house={"not checked here": listed})
    assert unknown.verdict is Verdict.WITHIN
    assert [one.what for one in unknown.not_checked] == ["guides"]


def test_none_says_in_one_set_that_nothing_of_the_guides_of_its_kind_holds() -> None:
    one = a_set()
    house = a_house(one) | {"kinds": {"bar": {"guides": GUIDES}}}
    for written, rows in ((None, 1), ("none", 0)):
        house["sets"] = [one | {"kind": "bar"} | ({"guides": written} if written else {})]
        found = judged(house, [a_piece()], [hung()]).sets[0]
        assert sum(row.link == "guides" for row in found.rows) == rows


@pytest.mark.parametrize(("carries", "verdict"), [
    ("5 lb", Verdict.OVER), ("50 lb", Verdict.WITHIN), (None, Verdict.UNKNOWN),
])  # fmt: skip
def test_what_an_inspection_found_on_guides_takes_their_row_back(carries: str | None, verdict: Verdict) -> None:
    row = _row(GUIDES, condition=[FOUND | ({"carries": carries} if carries else {})])
    assert row.verdict is verdict
    assert "worn through" in row.inputs[0].name


def test_what_an_inspection_found_on_guides_of_which_nothing_is_written_is_unknown() -> None:
    result = _judged(None, condition=[FOUND])
    assert result.sets[0].row("guides").verdict is Verdict.UNKNOWN  # type: ignore[union-attr]


def test_it_can_be_explained_and_its_steps_come_out() -> None:
    result = _judged(GUIDES | {"load aside": "0..1 in"})
    story = explain(result, "9/guides")
    assert story is not None
    assert "e_h" in story.formula
    names = [one.name for one in story.inputs]
    assert names[:2] == ["guide rating", "the height between its upper and lower guide shoes"]
    assert {"brick weight", "arbor weight", "weight of border"} <= set(names)
    (found,) = (one for one in workings_of(result, "9/guides") if one.says == COMES_TO)
    assert [(one.sign, one.figure) for one in found.steps] == [
        ("", "264.2 lb"), ("×", "0.01042"), ("+", "3.1 lb"), ("+", "2.8 lb"),  # half an inch more: 132.12 / 48
    ]  # fmt: skip
    assert found.figure == "8.6 lb"  # (264.24 x 1 + 150) / 48
    assert workings_of(_judged(GUIDES | {"load aside": "unknown"}), "9/guides") == ()


# 5 lb of 48 in at half an inch are 480 lb on the arbor: 64.24 and 16 bricks. A 17th is asked for beyond 350 + 12.5 lb.
# Just where the 15th comes, at 312.5 lb, the hand line pulls 12.5 lb: 3 in aside, (439.24 x 0.5 + 37.5) / 48 is 5.4 lb.
@pytest.mark.parametrize(("tied", "words", "verdict"), [
    ("0 in", "may weigh at most 362 lb", Verdict.WITHIN), ("3 in", "(judge any other weight anew)", Verdict.OVER),
])  # fmt: skip
def test_what_mends_it_is_a_lighter_piece_and_whether_all_that_is_lighter_is_within(
    tied: str, words: str, verdict: Verdict
) -> None:
    house = a_house(a_set(guides=GUIDES | {"rating": "5 lb", "hand line aside": tied}))
    told = next(one for one in judged(house, [a_piece(weight="400 lb")], [hung()]).findings if "GUIDES" in one.code)
    assert words in told.mend
    promised = re.search(r"may weigh (?:at most )?(\d+) lb", told.mend)
    assert promised
    for weight, expected in ((promised[1], Verdict.WITHIN), ("312.6", verdict)):
        found = judged(house, [a_piece(weight=f"{weight} lb")], [hung()]).sets[0].row("guides")
        assert found is not None
        assert found.verdict is expected


def test_of_two_counts_the_one_is_named_that_the_guides_may_bear() -> None:
    told = next(one for one in _judged(GUIDES | {"rating": "5 lb"}).findings if one.code == "GUIDES-OVER")
    assert told.mend.startswith("6 bricks, 50 lb less on the arbor")
