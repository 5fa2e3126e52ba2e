"""What lies on the deck at a trim of the show is told, and what a check does not judge of the way up is named.

The cloth of the first test: 18 ft high and hung at 10 ft, 8 ft of it lie and 10/18 of its weight hang. Geometry.
"""

from __future__ import annotations

from typing import Any

import pytest

from counterpoise.checks import Finding, HouseResult, Verdict
from tests.plain_house import Map, a_house, a_piece, a_set, hung, judged

CLOTH: Map = {"name": "black", "weight": "90 lb", "height": "18 ft", "comes": "off the floor"}
WALL: Map = {"name": "wall", "weight": "90 lb", "height": "14 ft", "comes": "tipped up", "balance_height": "7 ft",
             "picks": ["5' SR", "5' SL"]}  # fmt: skip


def _judged(piece: Map, trims: dict[str, str], **hang: Any) -> HouseResult:
    return judged(a_house(), [a_piece(**piece)], [hung(piece["name"], **trims)], **hang)


def _notes(result: HouseResult) -> list[Finding]:
    return [one for one in result.findings if one.code == "ON-DECK"]


def test_of_a_cloth_hung_lower_than_it_is_high_it_is_told_how_much_lies_and_what_still_hangs() -> None:
    result = _judged(CLOTH, {"show": "10 ft"})
    note = _notes(result)[0]
    assert note.place == "set 9, trim show"
    assert note.says == ("with the batten at 10' 0\", 8' 0\" of black lie on the deck, and the batten carries 50 lb of "
                         "its 90 lb.")  # fmt: skip
    assert note.mend.startswith("Raise the trim to 18' 0\" or more")
    assert "`lands: 18' 0\"` of black" in note.mend


def test_it_is_a_note_that_changes_no_verdict() -> None:
    low, clear = _judged(CLOTH, {"show": "10 ft"}), _judged(CLOTH, {"show": "19 ft"})
    assert low.verdict is clear.verdict is Verdict.WITHIN
    assert low.sets[0].verdict is Verdict.WITHIN
    assert [one.verdict for one in _notes(low)] == [Verdict.WITHIN]
    assert not _notes(clear)


@pytest.mark.parametrize(("trims", "hang", "told"), [
    ({"show": "18 ft"}, {}, []), ({"show": "17 ft"}, {}, ["show"]), ({"show": "17..20 ft"}, {}, ["show"]),
    ({"show": "20 ft", "in": "10 ft"}, {}, []), ({"storage": "5 ft"}, {}, []),
    ({"show": "20 ft", "in": "10 ft"}, {"preset": {"9": "in"}}, ["in"]),
    ({"show": "20 ft", "in": "10 ft"}, {"cues": [{"cue": "1", "moves": [{"set": "9", "to": "in"}]}]}, ["in"]),
])  # fmt: skip
def test_it_is_told_of_trims_that_the_show_is_played_at(trims: dict[str, str], hang: Map, told: list[str]) -> None:
    found = _notes(_judged(CLOTH, trims, **hang))
    assert [one.place.removeprefix("set 9, trim ") for one in found] == told


def test_a_piece_of_which_it_is_written_where_it_lands_is_meant_to() -> None:
    assert not _notes(_judged(CLOTH | {"lands": "18' 0\""}, {"show": "10 ft"}))


def test_a_wall_leans_and_a_stiff_piece_stands() -> None:
    """A wall tipped up from its foot puts weight × 7/14 on the batten at every angle; of a free piece ties decide."""
    assert "wall stands on the deck, and the batten carries 45 lb of its 90 lb" in (
        _notes(_judged(WALL, {"show": "10 ft"}))[0].says
    )
    stiff = WALL | {"comes": "free", "balance_height": None}
    stiff.pop("balance_height")
    assert "its ties decide how much of its 90 lb" in _notes(_judged(stiff, {"show": "10 ft"}))[0].says


def test_where_high_trim_is_too_low_for_it_no_trim_is_told() -> None:
    result = judged(a_house(a_set(high_trim="16 ft")), [a_piece(**CLOTH)], [hung("black", show="15 ft")])
    assert "above high trim (16' 0\")" in _notes(result)[0].mend
    assert "Raise" not in _notes(result)[0].mend


# -------------------------------------------------------------------------------------------------------- the way up


def _way_up(result: HouseResult) -> list[str]:
    return [one for one in result.left_out if "way up" in one]


def test_a_check_names_the_sets_of_which_it_does_not_judge_the_way_up() -> None:
    house = a_house(*(a_set(label) for label in ("9", "10", "11", "12")))
    pieces = [a_piece(**CLOTH), a_piece(**WALL), a_piece("lamps")]
    result = judged(house, pieces, [hung("black", "9"), hung("wall", "10"), hung("lamps", "11")])
    assert _way_up(result) == ["the way up of sets 9, 10 until all hangs free (the steps judge it)"]


def test_where_all_hangs_free_at_low_trim_there_is_no_way_up_to_judge() -> None:
    assert not _way_up(judged(a_house(), [a_piece("lamps")], [hung("lamps")]))
    dead = a_set(rigged="dead-hung", purchase=None, arbor=None, pipe_weight=None, stops=None, tension_block=None,
                 low_trim="10 ft")  # fmt: skip
    assert not _way_up(judged(a_house(dead), [a_piece(**CLOTH)], [hung("black")]))
