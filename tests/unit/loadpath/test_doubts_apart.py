"""What is in doubt each for itself is light or heavy each for itself. Levers by hand on two lines."""

from __future__ import annotations

import pytest

from counterpoise.loadpath import Forces, SteelPulls, forces_of, links_of, steel_pulls
from tests.plain_house import LB, Map, a_house, a_piece, a_set, hung, rigged, rigged_set

TWO: Map = {"at": ["10' SR", "10' SL"]}


def _pulls(found: object) -> list[tuple[float, float, float]]:
    assert isinstance(found, Forces)
    return [(one.low / LB, one.best / LB, one.high / LB) for one in found.tensions]


# The pick is 5 ft SR: three quarters of it on line 1. The cable is 15 ft SL, past line 2: it takes a quarter of itself
# off line 1. It hangs (58 - 62 + 66)/2 = 31 ft at high trim and (4 - 62 + 66)/2 = 4 ft at low trim.
def test_a_piece_may_be_heavy_while_its_cable_is_light() -> None:
    cable = {"length": "66 ft", "weight": "0.5..1.5 lb/ft", "box": "62 ft", "at": "15 ft SL"}
    piece = a_piece(weight="80..120 lb", picks=["5' SR"], cables=[cable])
    low, best, high = _pulls(forces_of(rigged_set(a_set(lines=TWO), [piece], [hung()])))[0]
    assert best == pytest.approx(57.12 + 75 - 4 / 4)  # at low trim, where it is most
    assert low == pytest.approx(57.12 + 60 - 1.5 * 31 / 4)
    assert high == pytest.approx(57.12 + 90 - 0.5 * 4 / 4)


# 10 ft of another pipe from 10 to 20 ft SL, its middle 5 ft past line 2: 5/4 of what it weighs more is on line 2.
def test_only_the_length_of_pipe_that_is_in_doubt_widens_the_pulls() -> None:
    other = {"from": "10' SL", "to": "20' SL", "outside diameter": "1.900 in", "wall": "0.145 in",
             "weight": "2.04..3.4 lb/ft", "modulus": "29,000 ksi"}  # fmt: skip
    low, best, high = _pulls(forces_of(rigged_set(a_set(lines=TWO, batten={"lengths": [other]}))))[1]
    assert (low, best, high) == pytest.approx((57.12 - 1.25 * 6.8, 57.12, 57.12 + 1.25 * 6.8))


# Set 2 leans: its second line meets the batten 10 ft SL, and its block stands over the centre line, as line 2 of set 1.
# 114.24 lb on lines 20 ft SR and 10 ft SL: two thirds on the second.
def test_a_line_loads_the_beam_its_block_stands_on_wherever_it_meets_the_batten() -> None:
    leaning = {"at": ["20' SR", {"at": "10' SL", "block at": "CL"}]}
    house = rigged(a_house(a_set("1", lines={"at": ["20' SR", "CL", "20' SL"]}),
                           a_set("2", lines=leaning, high_trim="20 ft")))  # fmt: skip
    pulls: dict[str, SteelPulls | None] = {}
    for each in house.sets:
        found = forces_of(each)
        assert isinstance(found, Forces)
        pulls[each.label] = steel_pulls(each, found)
    one = house.set_called("1")
    assert one is not None
    own = forces_of(one)
    assert isinstance(own, Forces)
    beams = [link for link in links_of(one, house.house.steel[0], {"2": pulls["2"]}, own) if link.name == "loft beam"]
    assert [link.constant.best / LB for link in beams] == pytest.approx([114.24 / 3, 114.24 * 2 / 3, 0.0])
