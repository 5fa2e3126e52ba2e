"""Room left is a promise: hung for real, that load is within the rows that room is looked at for."""

from __future__ import annotations

import pytest

from counterpoise.app.room import room_of
from counterpoise.checks import SetResult, Verdict
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, hung, judged

OF_HANGING = ("batten", "sag", "trim chain", "shackle", "lift line", "loft block", "head block", "loft beam")


def _with(weight: str, extra: float = 0.0, at: float = 0.0) -> SetResult:
    """A piece of that weight 4 ft SL, and 99.9 % of a load [lb] so many feet stage left."""
    pieces, places = [a_piece(weight=weight, spread_over="13 ft")], [hung(centre="4' SL")]
    if extra:
        pieces.append(a_piece("lamp", f"{0.999 * extra:.6f} lb", picks=["CL"], height="1 ft"))
        places.append(hung("lamp", centre=f"{abs(at):.6f}' {'SL' if at > 0 else 'SR'}"))
    return judged(a_house(a_set()), pieces, places).sets[0]


# A load beside it in the next span relieves the sag of the span where room is asked for: with the piece at its heaviest
# alone, the room told there was past the sag with the piece as it most likely is.
@pytest.mark.parametrize("weight", ["200 lb", "~200 lb", "100..300 lb"])
def test_the_room_left_beside_a_weight_in_doubt_is_within_when_it_is_hung(weight: str) -> None:
    one = _with(weight)
    assert one.batten is not None
    curve = room_of(judged(a_house(a_set())).house, one)
    assert curve.points
    for x, force in list(curve.points)[3::10]:
        found = _with(weight, force / LB, x / FT - 21.0)
        bad: Map = {row.place: row.use for row in found.rows if row.link in OF_HANGING}
        assert all(row.verdict is Verdict.WITHIN for row in found.rows if row.link in OF_HANGING), (x / FT - 21.0, bad)


def test_with_too_much_in_doubt_to_look_at_every_end_room_left_is_unknown() -> None:
    pieces = [a_piece(f"p{n}", "~20 lb", spread_over="3 ft") for n in range(7)]  # 128 corners
    result = judged(a_house(a_set()), pieces, [hung(one["piece"]) for one in pieces])
    curve = room_of(result.house, result.sets[0])
    assert curve.is_unknown
    assert curve.points == ()
