"""A plan says what guides add to friction, where it is written how their shoes slide."""

import pytest

from counterpoise.planning.tell import friction_beside
from tests.plain_house import Map, a_house, a_piece, a_set, hung, rigged

GUIDES: Map = {"rating": "900 lb", "shoes apart": "4 ft", "load aside": "8 in", "hand line aside": "0 in"}


# 214.24 lb hang: blocks take 4 % of it, 8.6 lb; guides 2 x 25 % x 8 / 48, 17.9 lb more.
@pytest.mark.parametrize(("more", "told"), [
    ({}, "9 lb of friction (2 % a quarter turn, from memory (default, not adopted))"),
    ({"friction": "unknown"}, "9 lb of friction (2 % a quarter turn, from memory (default, not adopted))"),
    ({"friction": "25 %"}, "27 lb of friction (2 % a quarter turn, from memory (default, not adopted); guides 25 %)"),
])  # fmt: skip
def test_what_the_rail_feels_may_be_off_by_blocks_and_guides(more: Map, told: str) -> None:
    found = rigged(a_house(a_set(guides=GUIDES | more)), [a_piece()], [hung()])
    assert f"may be off by {told}; it is not counted on." in friction_beside(found, found.sets[0])
