"""How the weight of a piece comes on as its batten rises. Levers and lengths by hand; no source is needed."""

from __future__ import annotations

from typing import Any

import pytest

from counterpoise.checks import Verdict
from counterpoise.errors import BadDocument
from counterpoise.rigging import RiggedPiece
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, hung, judged, rigged, rigged_set


def _hangs(piece: RiggedPiece, height: float) -> list[float]:
    """Least, best and most of it on the batten [lb]."""
    return [mass * 9.80665 / LB for mass in piece.hanging(height * FT)]


def _one(**changes: Any) -> RiggedPiece:
    return rigged_set(None, [a_piece("wall", "100 lb", **changes)], [hung("wall")]).pieces[0]


def test_ties_lift_the_height_at_which_a_piece_hangs_free() -> None:
    wall = _one(height="10 ft", ties="2 ft")
    assert wall.clear / FT == pytest.approx(12)
    assert _hangs(wall, 11.99) == pytest.approx([0, 100, 100])  # it stands, and its ties may carry anything
    assert _hangs(wall, 12.0) == pytest.approx([100, 100, 100])


def test_cloth_below_its_ties_lies_on_the_deck_and_above_hangs_by_its_length() -> None:
    cloth = _one(height="10 ft", ties="2 ft", comes="off the floor")
    assert [_hangs(cloth, height)[1] for height in (1, 2, 7, 12, 20)] == pytest.approx([0, 0, 50, 100, 100])
    assert [at / FT for at in cloth.changes] == pytest.approx([2, 12])


def test_a_piece_tipped_up_from_its_foot_pulls_by_the_lever_of_its_centre_of_gravity() -> None:
    wall = _one(height="20 ft", balance_height="8 ft", comes="tipped up")
    assert [_hangs(wall, height) for height in (5, 19.99)] == [pytest.approx([40, 40, 40])] * 2  # 100 x 8 / 20
    assert _hangs(wall, 20) == pytest.approx([100, 100, 100])


def test_a_range_of_weight_stays_a_range_however_it_comes() -> None:
    wall = rigged_set(None, [a_piece("wall", "80..120 lb", height="20 ft", balance_height="8 ft", comes="tipped up")],
                      [hung("wall")]).pieces[0]  # fmt: skip
    assert _hangs(wall, 10) == pytest.approx([32, 40, 48])
    part = {"weight": "80..120 lb", "height": "10 ft", "balance height": "5 ft"}
    sections = {"piece": "wall", "spread over": "40 ft", "comes": "in sections", "sections": [part, part]}
    wall = rigged_set(None, [sections], [hung("wall")]).pieces[0]
    assert _hangs(wall, 9) == pytest.approx([40, 50, 60])
    assert _hangs(wall, 10) == pytest.approx([120, 150, 180])
    assert _hangs(wall, 20) == pytest.approx([160, 200, 240])
    assert not wall.is_certain


def test_an_estimate_of_a_section_is_widened_by_the_rule() -> None:
    part = {"weight": "~100 lb", "height": "10 ft", "balance height": "5 ft"}
    one = rigged_set(None, [{"piece": "wall", "spread over": "40 ft", "comes": "in sections", "sections": [part]}],
                     [hung("wall")])  # fmt: skip
    assert _hangs(one.pieces[0], 30) == pytest.approx([80, 100, 120])


def test_a_piece_that_lands_on_another_stands_below_its_landing_height() -> None:
    header = _one(height="3 ft", lands="16 ft")
    assert _hangs(header, 15.99) == pytest.approx([0, 100, 100])
    assert _hangs(header, 16.0) == pytest.approx([100, 100, 100])
    assert [at / FT for at in header.changes] == pytest.approx([16])


def test_a_trim_at_which_a_piece_has_landed_is_not_within() -> None:
    """Landed, its 100 lb may all be off: Δ = +100 lb, twice what the lock holds by the default of 50 lb."""
    for trim, verdict in (("15 ft", Verdict.UNKNOWN), ("16 ft", Verdict.WITHIN)):
        result = judged(a_house(), [a_piece("wall", lands="16 ft")], [hung("wall", play=trim)],
                        stated_bricks={"9": "6"})  # fmt: skip
        lock = result.sets[0].row("lock")
        assert lock is not None
        assert lock.verdict is verdict
        assert result.verdict is verdict


def test_two_pieces_stand_each_up_to_its_own_height() -> None:
    pieces = [a_piece("low", "50 lb", height="6 ft"), a_piece("tall", "200 lb", height="20 ft")]
    one = rigged_set(None, pieces, [hung("low"), hung("tall")])
    assert one.clear / FT == pytest.approx(20)


def test_a_piece_taller_than_the_travel_never_hangs_free_and_is_never_within_by_it() -> None:
    result = judged(a_house(), [a_piece("wall", height="60 ft")], [hung("wall")])
    lock = result.sets[0].row("lock")
    assert lock is not None
    assert lock.value.high / LB == pytest.approx(100)  # all of it may stand
    assert lock.verdict is Verdict.UNKNOWN


@pytest.mark.parametrize(("change", "what"), [
    ({"ties": "unknown"}, "ties of wall"),
    ({"lands": "unknown"}, "landing height of wall"),
    ({"height": "unknown"}, "height of wall"),
    ({"comes": "tipped up"}, "height of the centre of gravity of wall"),
    ({"comes": "tipped up", "balance_height": "unknown"}, "height of the centre of gravity of wall"),
])  # fmt: skip
def test_a_figure_of_how_it_comes_that_is_not_known_is_missing(change: Map, what: str) -> None:
    found = rigged(a_house(), [a_piece("wall", **change)], [hung("wall")])
    assert what in [one.what for one in found.missing]


@pytest.mark.parametrize("field", ["height", "balance height", "joins at", "weight"])
def test_a_section_with_an_unknown_figure_is_missing(field: str) -> None:
    part = {"part": "top", "weight": "100 lb", "height": "10 ft", "balance height": "5 ft", "joins at": "5 ft"}
    wall = {"piece": "wall", "spread over": "40 ft", "comes": "in sections", "sections": [part | {field: "unknown"}]}
    result = judged(a_house(), [wall], [hung("wall")])
    assert result.verdict is Verdict.UNKNOWN
    assert [one.code for one in result.sets[0].findings] == ["MISSING"]


def test_a_centre_of_gravity_above_the_top_is_refused() -> None:
    """Else the lever would put more than its whole weight on the batten."""
    with pytest.raises(BadDocument, match="above the top"):
        rigged(a_house(), [a_piece(comes="tipped up", height="10 ft", balance_height="12 ft")], [hung()])
    part = {"weight": "100 lb", "height": "10 ft", "balance height": "12 ft"}
    with pytest.raises(BadDocument, match="above the top"):
        rigged(a_house(), [{"piece": "wall", "spread over": "40 ft", "comes": "in sections", "sections": [part]}])


def test_two_picks_share_by_the_lever_of_a_centre_of_gravity_off_the_middle() -> None:
    """10 ft SR and 10 ft SL, centre of gravity 5 ft SL: (5 + 10) / 20 = three quarters on the second."""
    piece = _one(picks=["10 ft SR", "10 ft SL"], centre_of_gravity="5 ft SL")
    assert [figure for point in piece.points for figure in point] == pytest.approx([11 * FT, 0.25, 31 * FT, 0.75])


@pytest.mark.parametrize("how", [
    {"picks": ["10 ft SR", "CL", "10 ft SL"], "centre_of_gravity": "2 ft SL"},
    {"centre_of_gravity": "2 ft SL"},
    {"picks": ["10 ft SR", "10 ft SL"], "centre_of_gravity": "unknown"},
])  # fmt: skip
def test_a_centre_of_gravity_that_no_rule_of_sharing_gives_is_never_within(how: Map) -> None:
    result = judged(a_house(), [a_piece(**how)], [hung()])
    assert result.verdict is Verdict.UNKNOWN
    assert any("centre of gravity" in one.what for one in result.house.missing)


def test_a_centre_of_gravity_in_the_middle_changes_nothing() -> None:
    assert _one(centre_of_gravity="CL").spread == _one().spread
    assert _one(picks=["10 ft SR", "CL", "10 ft SL"], centre_of_gravity="CL").points[1][1] == pytest.approx(1 / 3)


def test_low_trim_of_a_dead_hung_batten_is_where_its_pieces_hang() -> None:
    one = a_set(rigged="dead-hung", purchase=None, high_trim=None, low_trim="20 ft")
    found = judged(a_house(one), [a_piece(comes="off the floor", height="10 ft")], [hung()]).set_called("9")
    assert found is not None
    assert found.forces is not None
    assert sum(pull.best for pull in found.forces.tensions) / LB == pytest.approx(214.24)
