"""Room left where the guides are met first: hung for real, that load and all that is less are within."""

import pytest

from counterpoise.app.room import room_at
from counterpoise.checks import SetResult, Verdict
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, hung, judged

STRONG: Map = {"loft_block": {"rating": "5,000 lb"}, "head_block": {"rating": "20,000 lb"}}


def _with(guides: Map, extra: float = 0.0, lines: str = "0 lb/ft") -> SetResult:
    pieces, places = [a_piece()], [hung()]
    if extra:
        pieces.append(a_piece("lamp", f"{extra:.6f} lb", picks=["CL"], height="1 ft"))
        places.append(hung("lamp"))
    one = a_set(guides={"shoes apart": "4 ft"} | guides, lines={"weight": lines}, **STRONG)
    return judged(a_house(one), pieces, places).sets[0]


def _room(guides: Map, lines: str) -> tuple[float, str]:
    one = a_set(guides={"shoes apart": "4 ft"} | guides, lines={"weight": lines}, **STRONG)
    result = judged(a_house(one), [a_piece()], [hung()])
    (room,) = room_at(result.house, result.sets[0], [21.0 * FT]).at
    return room.force / LB, room.link


# 100 lb hang. 300 lb on the arbor at 1/2 in, and 12.5 lb at 3 in just where the count changes, are 187.5 lb in over
# 48 in. The 10th brick would be 314.24 lb, so it is asked for no load: 64.24 + 9 x 25 less 114.24 + 100, and half one.
@pytest.mark.parametrize(("guides", "room"), [
    ({"rating": "3.9 lb", "load aside": "1/2 in", "hand line aside": "3 in"}, 87.5),
    ({"rating": "3.1 lb", "load aside": "1/2 in", "hand line aside": "0 in"}, 87.5),
])  # fmt: skip
def test_room_is_what_the_guides_let_hang_with_the_hand_line_at_its_most(guides: Map, room: float) -> None:
    found, link = _room(guides, "0 lb/ft")
    assert link == "guides"
    assert found == pytest.approx(room, abs=0.5)


@pytest.mark.parametrize("lines", ["0 lb/ft", "0.11 lb/ft"])
@pytest.mark.parametrize(("aside", "tied", "rating"), [("1/2 in", "3 in", "5 lb"), ("3/4 in", "6 in", "11 lb"),
                                                       ("0..1/2 in", "~6 in", "8 lb")])  # fmt: skip
def test_all_that_is_less_than_the_room_is_within_and_past_a_brick_more_it_is_not(
    aside: str, tied: str, rating: str, lines: str
) -> None:
    guides = {"rating": rating, "load aside": aside, "hand line aside": tied}
    room, link = _room(guides, lines)
    assert link == "guides"
    for step in range(1, 41):
        row = _with(guides, room * step / 40, lines).row("guides")
        assert row is not None
        assert row.verdict is Verdict.WITHIN, (room, step)
    past = [_with(guides, room + 1.3 * share, lines).row("guides") for share in range(1, 41)]  # two bricks on
    assert any(row is None or row.verdict is not Verdict.WITHIN for row in past)


def test_guides_that_bear_nothing_more_leave_none() -> None:
    # 214.24 lb and pipe weight balance: half a brick more is asked for at once
    found, link = _room({"rating": "2.3 lb", "load aside": "1/2 in", "hand line aside": "3 in"}, "0 lb/ft")
    assert link == "guides"
    assert found < 1.0


def test_guides_of_which_a_figure_is_not_known_leave_it_unknown() -> None:
    one = a_set(guides={"rating": "100 lb"}, **STRONG)
    result = judged(a_house(one), [a_piece()], [hung()])
    assert room_at(result.house, result.sets[0], [21.0 * FT]).says == "not known: guides has no figure"
