"""What a standing or leaning piece would be, were it not held as it is while bricks go on. Sums by hand.

Each batten is balanced by its arbor and two bricks of 25 lb; the lock holds 50 lb.
"""

from __future__ import annotations

from typing import Any

from counterpoise.planning import load_in
from tests.plain_house import a_house, a_piece, a_set, hung, rigged

BRIDGE = {"bridge": "bridge", "floor": "41 ft", "reach from": "0 in", "reach to": "16 ft"}


def notes(weight: str, **piece: Any) -> list[str]:
    one = a_house(a_set(), bridges=[BRIDGE], rules={"lock hold": "50 lb"})
    plan = load_in(rigged(one, [a_piece("wall", weight, **piece)], [hung("wall")]), "9")
    assert plan.refusal is None, plan.refusal
    return [note for note in plan.notes if "before each brick" in note]


def test_a_piece_that_stands_on_the_deck_holds_what_bricks_ask_only_while_its_ties_are_taut() -> None:
    assert notes("200 lb", height="8 ft") == [
        "Ties taut before each brick: with the ties of wall slack it would be arbor-heavy 200 lb, not held by the lock."
    ]


def test_where_the_lock_would_hold_it_with_slack_ties_nothing_is_said() -> None:
    assert notes("50 lb", height="8 ft") == []


def test_a_wall_just_upright_leans_on_the_deck_an_inch_lower() -> None:
    """Of 160 lb tipped up at its half the batten carries 80 while it leans; six bricks for all of it are 150."""
    (note,) = notes("160 lb", height="8 ft", comes="tipped up", balance_height="4 ft")
    assert note == ("Upright before each brick: with wall an inch lower, leaning on the deck, it would be arbor-heavy "
                    "70 lb, not held by the lock.")  # fmt: skip
