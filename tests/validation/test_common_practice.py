"""Facts of the trade, all common practice without a source, held against whole houses judged as written.


Sizes of pipe: ASME B36.10M and AISC table 1-14, by the catalogue.
"""

from __future__ import annotations

import pytest

from counterpoise.checks import HouseResult, Verdict, check
from counterpoise.documents import read_hang, read_house, read_show
from counterpoise.rigging import rig
from tests.plain_house import Map, written

EVEN_15 = 15.0 * 42  # [lb] 15 lb/ft all along 42 ft


def _house(pipe: str, places: list[str], **own: object) -> Map:
    kind: Map = {
        "set": "1", "distance": "2 ft", "purchase": "single", "low trim": "4 ft", "high trim": "58 ft",
        "hand line": "with the batten",
        "batten": {"length": "42 ft", "pipe": pipe, "hardware": "10 lb"},
        "lines": {"at": places, "rope": "1/4 in 7x19", "ends": "mechanical sleeve, steel core",
                  "head block from end": "4 ft", "trim chain": "none", "shackle": "none"},
        "loft block": {"rating": "2000 lb", "rating of": "line pull"},
        "head block": {"rating": "9000 lb", "rating of": "line pull"},
        "arbor": {"weight": "60 lb", "rating": "3000 lb", "usable height": "99 in", "seat at low trim": "50 ft",
                  "plate weight": "4 lb", "plate thickness": "3/8 in"},
        "pipe weight": "3", "stops": "none", "tension block": "none",
    } | own  # fmt: skip
    return {
        "counterpoise": "house 1", "name": "Yard", "units": "us", "stage": {"loft blocks": "62 ft"},
        "bricks": [{"brick": "full", "weight": "25 lb", "thickness": "1 in", "stock": {"bridge": "200"}}],
        "steel": [{"bay": "A", "sets": ["1"], "loft beam": "9000 lb", "head beam": "30000 lb", "impact": "included"}],
        "sets": [kind],
    }  # fmt: skip


def _judged(house: Map, piece: Map) -> HouseResult:
    one = read_house(written(house))
    show = read_show(written({"counterpoise": "show 1", "name": "S", "pieces": [piece]}))
    hang: Map = {"counterpoise": "hang 1", "house": "Yard", "show": "S",
                 "hung": [{"set": "1", "piece": piece["piece"], "centre": "CL"}]}  # fmt: skip
    return check(rig(one, show, read_hang(written(hang), one, show)))


def _verdicts(pipe: str, places: list[str]) -> set[Verdict]:
    piece: Map = {"piece": "drape", "weight": f"{EVEN_15:.0f} lb", "spread over": "42 ft", "height": "3 ft"}
    found = _judged(_house(pipe, places), piece).sets[0]
    rows = [found.row("batten"), found.row("sag")]
    return {row.verdict for row in rows if row is not None}


USUAL = ["20' SR", "10' SR", "CL", "10' SL", "20' SL"]
WIDE = ["20' SR", "CL", "20' SL"]


def test_the_usual_batten_of_inch_and_a_half_pipe_carries_15_lb_a_foot_on_lines_10_ft_apart() -> None:
    assert _verdicts("1-1/2 in schedule 40", USUAL) == {Verdict.WITHIN}


def test_it_does_not_on_lines_20_ft_apart() -> None:
    assert Verdict.OVER in _verdicts("1-1/2 in schedule 40", WIDE)


# Common practice, no source: 1-1/2 in pipe serves at the usual spacing and not over wide spans, where 2 in does.
@pytest.mark.parametrize(("pipe", "places", "verdict"), [
    ("1-1/2 in schedule 40", USUAL, Verdict.WITHIN),
    ("1-1/2 in schedule 40", WIDE, Verdict.OVER),
    ("2 in schedule 40", WIDE, Verdict.WITHIN),
])  # fmt: skip
def test_a_piece_of_420_pounds_passes_on_inch_and_a_half_pipe_at_usual_spacing_and_over_wide_spans_on_two_inch(
    pipe: str, places: list[str], verdict: Verdict
) -> None:
    piece: Map = {"piece": "drape", "weight": "420 lb", "spread over": "42 ft", "height": "3 ft"}
    found = _judged(_house(pipe, places), piece).sets[0]
    rows = [found.row(link) for link in ("batten", "sag")]
    verdicts = {row.verdict for row in rows if row is not None}
    assert verdicts == {verdict}


def test_two_inch_pipe_bends_less_there_and_a_ladder_passes() -> None:
    light = {"piece": "border", "weight": "150 lb", "spread over": "42 ft", "height": "3 ft"}
    sags = []
    for pipe in ("1-1/2 in schedule 40", "2 in schedule 40"):
        row = _judged(_house(pipe, WIDE), light).sets[0].row("sag")
        assert row is not None
        sags.append(row.use)
    assert sags[0] > sags[1]
    ladder = _house("1-1/2 in schedule 40", WIDE)
    ladder["sets"][0]["batten"] |= {
        "hardware": "60 lb",
        "ladder": {"depth": "12 in", "every": "4 ft", "strap width": "2 in", "strap thickness": "3/8 in"},
    }
    drape: Map = {"piece": "drape", "weight": f"{EVEN_15:.0f} lb", "spread over": "42 ft", "height": "3 ft"}
    found = _judged(ladder, drape).sets[0]
    assert {row.verdict for row in found.rows if row.link in ("batten", "sag")} == {Verdict.WITHIN}


@pytest.mark.parametrize(("pipe", "fits"), [("1-1/2 in schedule 40", True), ("2 in schedule 40", False)])
def test_two_inch_pipe_is_too_fat_for_clamps_made_for_inch_and_a_half(pipe: str, fits: bool) -> None:
    lamps: Map = {"piece": "lamps", "weight": "60 lb", "picks": ["5' SR", "5' SL"], "height": "2 ft",
                  "clamps": {"fit to": "2 in"}}  # fmt: skip
    row = _judged(_house(pipe, USUAL), lamps).sets[0].row("clamp size")
    assert row is not None
    assert (row.verdict is Verdict.WITHIN) is fits


def test_double_purchase_needs_twice_the_bricks_for_the_same_piece() -> None:
    flat: Map = {"piece": "flat", "weight": "300 lb", "picks": ["10' SR", "10' SL"], "height": "3 ft"}
    counts = []
    for purchase, own in (("single", "3"), ("double", "9")):
        kind: dict[str, object] = {"purchase": purchase, "pipe weight": own}
        found = _judged(_house("1-1/2 in schedule 40", USUAL, **kind), flat).sets[0]
        assert found.stack is not None
        counts.append(found.stack.bricks - int(own))
    single, double = counts
    assert double == pytest.approx(2 * single, abs=2)  # plates and the empty batten take up to a brick either way


def test_an_arbor_on_double_purchase_travels_half_as_far() -> None:
    one = _judged(_house("1-1/2 in schedule 40", USUAL, purchase="double"),
                  {"piece": "flat", "weight": "100 lb", "picks": ["CL"], "height": "3 ft"}).sets[0].rigged  # fmt: skip
    assert one is not None
    assert one.seat(one.low) - one.seat(one.high) == pytest.approx((one.high - one.low) / 2)
