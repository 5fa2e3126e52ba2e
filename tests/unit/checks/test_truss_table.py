"""A maker's truss judged by the table that its maker prints for two supports. The table is invented.

Moments and shears of a simple span by hand: w l²/8 and w l/2, P l/4 and P/2, P l/3 and P (any handbook table of beams,
such as that of a steel construction manual: simple beam, uniform load; load at centre; two equal loads at the thirds).
"""

from __future__ import annotations

from typing import Any

import pytest

from counterpoise.app.room import room_of
from counterpoise.checks import Check, SetResult, Verdict
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, hung, judged

ROWS = [
    {"span": "10 ft", "evenly": "4,000 lb", "at centre": "1,800 lb"},
    {"span": "20 ft", "evenly": "2,000 lb", "at centre": "1,000 lb", "at thirds": "1,500 lb"},
    {"span": "30 ft", "evenly": "1,000 lb"},
]
BARE = {"second moment": "10 in4"}
ENDS = {"at": ["10' SR", "10' SL"]}
EVENLY: Map = {"spread over": "20 ft"}
THREE = {"at": ["10' SR", "CL", "10' SL"]}


def _set(truss: Map, lines: Map = ENDS, **batten: str) -> Map:
    one = a_set(lines=lines, pipe_weight="0", arbor={"weight": "0.02 lb"})
    made = {"length": "20 ft", "weight": "0.001 lb/ft", "hardware": "0 lb", "modulus": "29,000 ksi", "truss": truss}
    return one | {"batten": made | batten}


def _judged(one: Map, weight: str = "100 lb", **piece: Any) -> SetResult:
    return judged(a_house(one), [a_piece(weight=weight, **(piece or EVENLY))], [hung()]).sets[0]


def _rows(found: SetResult) -> tuple[Check, Check]:
    by_key = {row.key.rpartition("/")[2]: row for row in found.rows if row.link == "batten"}
    return by_key["batten"], by_key["batten shear"]


def test_on_its_two_ends_it_may_bend_as_much_as_a_load_of_the_table_bends_it() -> None:
    moment, shear = _rows(_judged(_set(BARE | {"table": ROWS}), picks=["CL"]))
    # of the rows of 20 ft and longer: 2,000 x 20/8 = 5,000; 1,000 x 20/4 = 5,000; 750 x 20/3 = 5,000 ft lb;
    # 1,000 x 30/8 = 3,750. Shears 1,000; 500; 750; 500 lb.
    assert moment.limit == pytest.approx(5000 * FT * LB)
    assert shear.limit == pytest.approx(1000 * LB)
    assert moment.value.best == pytest.approx(100 * 20 / 4 * FT * LB, rel=1e-3)
    assert shear.value.best == pytest.approx(50 * LB, rel=1e-3)
    assert moment.verdict is shear.verdict is Verdict.WITHIN


@pytest.mark.parametrize(("weight", "verdict"), [("990 lb", Verdict.WITHIN), ("1,010 lb", Verdict.OVER)])
def test_a_load_that_is_printed_is_the_most_it_may_carry(weight: str, verdict: Verdict) -> None:
    moment, _ = _rows(_judged(_set(BARE | {"table": ROWS}), weight, picks=["CL"]))
    assert moment.verdict is verdict


def test_between_two_spans_only_the_longer_ones_count() -> None:
    lines = {"at": ["9' SR", "9' SL"]}
    moment, _ = _rows(_judged(_set(BARE | {"table": ROWS, "both ways": "yes"}, lines), picks=["CL"]))
    assert moment.limit == pytest.approx(5000 * FT * LB)  # of 20 ft, not the 5,000 of 10 ft that happen to be as much
    short = [ROWS[0] | {"evenly": "9,000 lb"}, *ROWS[1:]]
    moment, _ = _rows(_judged(_set(BARE | {"table": short, "both ways": "yes"}, lines), picks=["CL"]))
    assert moment.limit == pytest.approx(5000 * FT * LB)


def test_beyond_the_longest_span_of_the_table_nothing_is_known() -> None:
    found = _judged(_set(BARE | {"table": ROWS[:1]}), picks=["CL"])
    row = found.row("batten")
    assert row is not None
    assert row.verdict is Verdict.UNKNOWN
    assert "no figure for so long a span" in row.lacks


@pytest.mark.parametrize("lines", [THREE, {"at": ["8' SR", "8' SL"]}])
def test_over_a_line_it_bends_upward_of_which_a_table_for_two_supports_says_nothing(lines: Map) -> None:
    for row in _rows(_judged(_set(BARE | {"table": ROWS}, lines))):
        assert row.verdict is Verdict.UNKNOWN
        assert "bent upward" in row.lacks
    for row in _rows(_judged(_set(BARE | {"table": ROWS, "both ways": "yes"}, lines))):
        assert row.verdict is Verdict.WITHIN


def test_a_moment_that_is_allowed_counts_before_any_table() -> None:
    moment = _judged(_set(BARE | {"table": ROWS, "allowed moment": "700 ft lb"}), picks=["CL"]).row("batten")
    assert moment is not None
    assert moment.limit == pytest.approx(700 * FT * LB)
    assert moment.formula == "truss"


@pytest.mark.parametrize(("figure", "most"), [("~1,000 lb", 0.8), ("900..1,000 lb", 0.9), ("unknown", None)])
def test_of_a_printed_figure_what_may_be_counted_on(figure: str, most: float | None) -> None:
    """An estimate less the 20 % that estimates may be out; the low end of a range; of an unknown, nothing."""
    one = _set(BARE | {"table": [{"span": "20 ft", "evenly": "unknown", "at centre": figure}]})
    row = next(row for row in _judged(one, picks=["CL"]).rows if row.key.endswith("/batten"))
    if most is None:
        assert row.verdict is Verdict.UNKNOWN
    else:
        assert row.limit == pytest.approx(most * 5000 * FT * LB)


def test_room_left_ends_where_the_shear_of_a_truss_does() -> None:
    one = _set(BARE | {"allowed moment": "90,000 ft lb", "allowed shear": "300 lb"})
    house = judged(a_house(one), [a_piece(weight="200 lb", **EVENLY)], [hung()])
    room = room_of(house.house, house.sets[0])
    # 200 lb evenly on 20 ft shear it by 100 lb at each end; P at the middle adds P/2 there, near an end nearly P
    by_place = {round(x / FT, 3): force / LB for x, force in room.points}
    assert by_place[10.0] == pytest.approx(400, abs=1)
    assert by_place[5.0] == pytest.approx(200 / 0.75, abs=1)
