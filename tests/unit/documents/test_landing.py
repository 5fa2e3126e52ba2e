"""Where a piece lands: no lower than it reaches down from its batten, which is geometry."""

import pytest

from counterpoise.documents import read_show
from counterpoise.errors import BadDocument
from tests.plain_house import Map, a_piece, written

PART = {"weight": "100 lb", "height": "6 ft", "balance height": "3 ft"}


def show(piece: Map) -> str:
    return written({"counterpoise": "show 1", "name": "Gala", "pieces": [piece]})


@pytest.mark.parametrize("piece", [
    a_piece(height="8 ft", lands="5 ft"), a_piece(height="8 ft", ties="1 ft", lands="8 ft 11 in"),
    {**a_piece(lands="11 ft", comes="in sections", sections=[PART, PART]), "weight": None, "height": None},
])  # fmt: skip
def test_a_landing_lower_than_the_piece_reaches_is_refused_with_a_mend(piece: Map) -> None:
    with pytest.raises(BadDocument) as caught:
        read_show(show({name: value for name, value in piece.items() if value is not None}))
    (problem,) = caught.value.problems
    assert problem.path == "pieces[0].lands"
    assert "is lower than it reaches" in problem.says
    assert "Leave `lands` out" in problem.mend


@pytest.mark.parametrize("lands", ["8 ft", "16 ft", "unknown"])
def test_a_landing_at_its_own_height_or_higher_or_unknown_is_read(lands: str) -> None:
    assert read_show(show(a_piece(height="8 ft", lands=lands))).pieces[0].lands
    assert read_show(show(a_piece(height="unknown", lands="1 ft"))).pieces[0].lands
