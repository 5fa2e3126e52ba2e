"""No mend puts a pick where no clamp goes on: at the very end of the pipe, or on a splice.

A pipe clamp is two to three inches wide (common practice, no source): three inches are kept.
"""

from __future__ import annotations

import re

import pytest

from counterpoise.planning import Mend, mends_of
from counterpoise.planning.pick_room import has_room
from tests.plain_house import FT, Map, a_house, a_piece, a_set, hung, judged, rigged_set

HEMP: Map = {"rigged": "hemp", "purchase": None, "arbor": None, "pipe_weight": None, "stops": None,
             "tension_block": None, "bags": {"weight": "140 lb", "pin": "300 lb", "hauls": "80 lb"}}  # fmt: skip
IN = FT / 12


def _feet(says: str) -> float:
    found = re.search(r"(\d+)' (\d+)\"", says)
    assert found is not None
    return int(found[1]) + int(found[2]) / 12


def _mend(kind: str, result_of: Map, piece: Map, centre: str) -> Mend | None:
    result = judged(a_house(result_of), [piece], [hung(piece["piece"], centre=centre)])
    return next((one for one in mends_of(result, "9") if one.kind == kind), None)


def test_no_move_ends_with_a_pick_on_the_end_of_the_pipe_and_the_mend_says_what_kept_it_off() -> None:
    """A sign on a hemp set of three lines: 13 ft to stage left would clear it with a pick on the pipe's end, 21' SL."""
    one = a_set(**HEMP, lines={"at": ["20' SR", "CL", "20' SL"], "stiffness": "14,000 lb"}, high_trim="46 ft",
                batten={"hardware": "5 lb"})  # fmt: skip
    sign = a_piece("sign", "90 lb", picks=["3' SR", "3' SL"], height="4 ft")
    told = _mend("move", one, sign, "5' SL")
    assert told is not None
    centre = 5.0 + (_feet(told.says) if "stage left" in told.says else -_feet(told.says))
    assert all(abs(centre + pick) <= 21 - 0.25 for pick in (-3, 3))
    assert ', its picks 3" or more from the ends and splices of the pipe' in told.says


def test_a_move_that_no_end_and_no_splice_limits_says_nothing_of_them() -> None:
    told = _mend("move", a_set(), a_piece(weight="560 lb", picks=["CL"]), "5' SR")
    assert told is not None
    assert "splices" not in told.says


def test_picks_keep_off_a_splice_too() -> None:
    one = a_set(batten={"splices": [{"at": "10' SL", "strength": "100 %"}]})
    batten = rigged_set(one)
    piece = judged(a_house(one), [a_piece(picks=["CL"])], [hung()]).sets[0].batten.pieces[0].written  # type: ignore[union-attr]
    for centre, fits in ((10, False), (10 - 2 / 12, False), (10 + 2.9 / 12, False), (9.75, True), (10.25, True),
                         (20.75, True), (20.8, False), (-21, False), (0, True)):  # fmt: skip
        assert has_room(piece, centre * FT, batten) is fits, centre


def test_a_spread_piece_is_tied_and_may_reach_to_the_end() -> None:
    batten = rigged_set()
    piece = judged(a_house(), [a_piece(spread_over="42 ft")], [hung()]).sets[0].batten.pieces[0].written  # type: ignore[union-attr]
    assert has_room(piece, 0.0, batten)


@pytest.mark.parametrize(("splice", "to"), [("5' SR", "11"), ("4' SR", "10")])
def test_a_piece_is_not_sent_to_a_set_whose_pipe_is_spliced_under_its_clamp(splice: str, to: str) -> None:
    """Its picks lie at 5' SR and 1' SL. The blocks of its own set are weak; set 10 is nearer than set 11."""
    spliced = a_set("10", distance="4 ft", batten={"splices": [{"at": splice, "strength": "100 %"}]})
    house = a_house(a_set(loft_block={"rating": "60 lb"}), spliced, a_set("11", distance="9 ft"))
    result = judged(house, [a_piece(weight="160 lb", picks=["3' SR", "3' SL"])], [hung(centre="2' SR")])
    told = [one.says for one in mends_of(result, "9") if one.kind == "other set"]
    assert told == [f"Hang border on set {to} instead."]
