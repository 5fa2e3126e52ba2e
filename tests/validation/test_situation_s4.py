"""Worked situation "electric at three trims", computed independently of this program by hand.

Single purchase, 6 lift lines of 0.110 lb/ft, trims 4, 30 and 58 ft. Lift line crosses sides as the batten rises:
dΔ/dh = (1 + 1/r) n w = 2 x 6 x 0.110 = 1.32 lb/ft, so +34.3 lb at 30 ft and +71.3 lb at 58 ft where it is balanced at
4 ft, past 50 lb from 4 + 50/1.32 = 41.9 ft up; balanced at mid-travel ±36. On a double purchase set the rate is
1.5 x 0.66 = 0.99 lb/ft and 58 ft comes to +53.5 lb.

Four cables of 0.6 lb/ft, 66 ft long. To a box at the grid, 62 ft: each hangs as a bight, of which the batten carries
(h - 62 + 66)/2, so 4, 17 and 31 ft: from 4 ft up 2.4 x (h - 4)/2 more, 31.2 lb at 30 ft and 64.8 lb at 58 ft.
To a box on the deck it lies there, and the batten carries h of it: 2.4 x (h - 4), 62.4 and 129.6 lb.
"""

from typing import Any

import pytest

from counterpoise.balance import Proposals, Stack, out_of_balance, proposals
from counterpoise.checks import Verdict
from counterpoise.rigging import RiggedSet
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, hung, judged, rigged, rigged_set

SIX = {"at": ["20' SR", "12' SR", "4' SR", "4' SL", "12' SL", "20' SL"], "weight": "0.110 lb/ft"}


def _electric(**changes: Any) -> Map:
    return a_set(lines=SIX, **changes)


def _gained(one: Map, height: float) -> float:
    found = rigged_set(one, [a_piece("electric")], [hung("electric")])
    at = [out_of_balance(found, Stack(6), feet * FT).best for feet in (4.0, height)]
    return (at[1] - at[0]) / LB


@pytest.mark.parametrize(("height", "gained"), [(30.0, 34.3), (58.0, 71.3), (41.9, 50.0)])
def test_lift_lines_make_a_set_balanced_at_low_trim_arbor_heavy_above(height: float, gained: float) -> None:
    assert _gained(_electric(), height) == pytest.approx(gained, abs=0.05)


def test_on_a_double_purchase_set_the_lift_lines_alone_gain_three_quarters_of_it() -> None:
    assert _gained(_electric(purchase="double"), 58.0) == pytest.approx(53.5, abs=0.05)


def test_the_proposed_stack_balances_at_mid_travel_within_36_pounds_either_way() -> None:
    house = a_house(_electric(), bricks=[{"brick": "full", "weight": "0.1 lb", "thickness": "0.001 in", "stock": {}}])
    found = judged(house, [a_piece("electric")], [hung("electric")]).set_called("9")
    assert found is not None
    ends = [found.balance[0][1].best / LB, found.balance[-1][1].best / LB]
    assert ends == [pytest.approx(-35.6, abs=0.1), pytest.approx(35.6, abs=0.1)]  # 71.28 / 2; the situation says ±36


# 0.66 lb/ft x 58 ft hang below the blocks at low trim. The arbor takes 114.24 + 100 + 38.28 - 64.24 = 188.28 lb to
# balance there; 188 bricks of a pound leave Δ(58) = +71.28 - 0.28 = +71.0 lb, which the lock may not be asked to hold.
def test_balanced_at_low_trim_it_may_not_be_let_go_at_storage() -> None:
    house = a_house(_electric(), bricks=[{"brick": "full", "weight": "1 lb", "thickness": "0.01 in", "stock": {}}])
    found = judged(house, [a_piece("electric")], [hung("electric")], stated_bricks={"9": "188"}).set_called("9")
    assert found is not None
    lock, stop = found.row("lock"), found.row("bottom stop")
    assert lock is not None
    assert stop is not None
    assert lock.value.best / LB == pytest.approx(71.0, abs=0.05)
    assert lock.verdict is Verdict.OVER
    assert stop.value.best / LB == pytest.approx(71.0, abs=0.05)  # standing on it is judged apart
    assert stop.verdict is Verdict.WITHIN


CABLE = {"count": "4", "length": "66 ft", "weight": "0.6 lb/ft"}
BOXES = {"grid": [CABLE | {"box": "62 ft"}], "deck": [CABLE | {"box": "0 ft"}]}


def _cabled(box: str, **changes: Any) -> RiggedSet:
    return rigged_set(_electric(**changes), [a_piece("electric", cables=BOXES[box])], [hung("electric")])


@pytest.mark.parametrize(("box", "height", "gained"), [
    ("grid", 30.0, 3.1), ("grid", 58.0, 6.5), ("deck", 30.0, -28.1), ("deck", 58.0, -58.3), ("deck", 50.3, -50.0),
])  # fmt: skip
def test_its_cable_takes_some_or_all_of_what_the_lift_lines_give(box: str, height: float, gained: float) -> None:
    found = _cabled(box)
    at = [out_of_balance(found, Stack(6), feet * FT).best for feet in (4.0, height)]
    assert (at[1] - at[0]) / LB == pytest.approx(gained, abs=0.05)


@pytest.mark.parametrize(("box", "carried"), [("grid", (4.0, 17.0, 31.0)), ("deck", (4.0, 30.0, 58.0))])
def test_the_batten_carries_its_end_of_the_bight_or_all_that_is_off_the_floor(
    box: str, carried: tuple[float, float, float]
) -> None:
    (cable,) = _cabled(box).cables
    assert [cable.on_batten(feet * FT) / FT for feet in (4, 30, 58)] == pytest.approx(carried)


# 29 lb more on the arbor: +29 lb at 4 ft and -29 at 58, so that neither end is past 50 lb
def test_with_a_box_on_the_deck_the_proposed_stack_splits_the_difference() -> None:
    house = a_house(_electric(), bricks=[{"brick": "full", "weight": "0.1 lb", "thickness": "0.001 in", "stock": {}}])
    found = judged(house, [a_piece("electric", cables=BOXES["deck"])], [hung("electric")]).set_called("9")
    assert found is not None
    ends = [found.balance[0][1].best / LB, found.balance[-1][1].best / LB]
    assert ends == [pytest.approx(29.2, abs=0.1), pytest.approx(-29.2, abs=0.1)]  # 58.32 / 2
    lock = found.row("lock")
    assert lock is not None
    assert lock.verdict is Verdict.WITHIN


# At low trim the arbor takes 114.24 + 100 + 38.28 + 9.6 - 64.24 = 197.88 lb to balance.
@pytest.mark.parametrize(("box", "largest", "verdict"), [
    ("grid", 6.5, Verdict.WITHIN), ("deck", 58.3, Verdict.OVER),
])  # fmt: skip
def test_balanced_at_low_trim_the_box_decides_whether_the_lock_may_hold_it(
    box: str, largest: float, verdict: Verdict
) -> None:
    house = a_house(_electric(), bricks=[{"brick": "full", "weight": "0.01 lb", "thickness": "0.0001 in", "stock": {}}])
    found = judged(house, [a_piece("electric", cables=BOXES[box])], [hung("electric")],
                   stated_bricks={"9": "19788"}).set_called("9")  # fmt: skip
    assert found is not None
    lock = found.row("lock")
    assert lock is not None
    assert lock.value.best / LB == pytest.approx(largest, abs=0.05)
    assert lock.verdict is verdict


def test_the_lines_carry_the_cable_that_hangs_at_high_trim() -> None:
    """31 ft of 2.4 lb/ft is 74.4 lb, beside a batten of 114.24 lb and an electric of 100 lb; most at high trim."""
    found = judged(a_house(_electric()), [a_piece("electric", cables=BOXES["grid"])], [hung("electric")]).sets[0]
    assert found.forces is not None
    assert sum(found.forces.best.tensions) / LB == pytest.approx(114.24 + 100 + 74.4)


@pytest.mark.parametrize(("length", "box", "taut"), [
    ("66 ft", "62 ft", False), ("57 ft", "62 ft", True),  # 58 ft from low trim up to its box
    ("59 ft", "0 ft", False), ("57 ft", "0 ft", True),  # 58 ft from the deck up to high trim
])  # fmt: skip
@pytest.mark.parametrize("rigged", ["counterweight", "hemp"])
def test_a_cable_that_comes_taut_over_the_travel_leaves_every_load_unknown(
    length: str, box: str, taut: bool, rigged: str
) -> None:
    changes: Map = {} if rigged == "counterweight" else {
        "rigged": "hemp", "purchase": None,
        "bags": {"weight": "180 lb", "pin": "500 lb", "hauls": "300 lb"}}  # fmt: skip
    cable = {"length": length, "weight": "0.5 lb/ft", "box": box}
    pieces = [a_piece("electric", height="20 ft", cables=[cable])]  # tall: it flies well above low trim
    found = judged(a_house(a_set(**changes)), pieces, [hung("electric")]).sets[0]
    assert {row.link for row in found.rows if "taut" in row.lacks} >= ({"lift line", "batten"} if taut else set())
    assert (found.verdict is Verdict.UNKNOWN) is taut
    assert taut or not any("taut" in row.lacks for row in found.rows)


def test_a_neighbour_of_a_set_with_a_taut_cable_does_not_know_what_its_steel_carries() -> None:
    cable = {"length": "57 ft", "weight": "0.5 lb/ft", "box": "62 ft"}
    result = judged(a_house(a_set("8"), a_set("9")), [a_piece("electric", cables=[cable])], [hung("electric")])
    steel = [row.verdict for row in result.sets[0].rows if row.link in ("loft beam", "head beam")]
    assert steel == [Verdict.UNKNOWN] * 6


@pytest.mark.parametrize("field", ["count", "length", "weight", "box", "at"])
def test_a_cable_with_an_unknown_figure_never_weighs_nothing(field: str) -> None:
    pieces = [a_piece("electric", cables=[CABLE | {"box": "62 ft", field: "unknown"}])]
    found = judged(a_house(_electric()), pieces, [hung("electric")]).sets[0]
    assert found.verdict is Verdict.UNKNOWN
    assert "cable" in " ".join(one.says for one in found.findings)


def test_a_doubtful_weight_of_cable_widens_balance_and_pulls() -> None:
    """0.5..0.7 lb/ft four times on 58 ft off the floor: 116 to 162.4 lb at high trim."""
    box = [CABLE | {"box": "0 ft", "weight": "0.5..0.7 lb/ft"}]
    found = judged(a_house(_electric()), [a_piece("electric", cables=box)], [hung("electric")]).sets[0]
    assert found.rigged is not None
    assert found.forces is not None
    span = out_of_balance(found.rigged, Stack(6), 58 * FT)
    assert (span.high - span.low) / LB == pytest.approx(162.4 - 116)
    total = found.forces.span((1.0,) * 6)
    assert total.high / LB == pytest.approx(114.24 + 100 + 162.4)


# A cable of 100 ft to a box at 62 ft lies on the floor up to 38 ft and hangs as a bight above: 2.4 lb/ft up to there,
# 1.2 lb/ft above, against 1.32 lb/ft of lift line. Δ falls 1.08 x 34 = 36.7 lb from 4 to 38 ft, then rises
# 0.12 x 20 = 2.4 lb: the best count puts the middle of +18.4 and -18.4 lb at 4 and at 38 ft.
def test_a_kink_of_the_cable_between_the_trims_is_balanced_too() -> None:
    box = [CABLE | {"box": "62 ft", "length": "100 ft"}]
    house = a_house(_electric(), bricks=[{"brick": "full", "weight": "0.1 lb", "thickness": "0.001 in", "stock": {}}])
    found = judged(house, [a_piece("electric", cables=box)], [hung("electric")]).sets[0]
    lock = found.row("lock")
    assert lock is not None
    assert lock.value.best / LB == pytest.approx(36.72 / 2, abs=0.11)


# Balanced at 4 ft with a box on the deck, Δ is 1.08 lb/ft x (h - 4): 58.3 lb at 58 ft, past 50 lb from 50.3 ft up. Half
# of it, 29.2 lb, on the arbor splits it. A lock that holds 20 lb is past it at both ends whatever lies on the arbor.
def _mended(lock: float) -> Proposals:
    house = a_house(_electric(), bricks=[{"brick": "full", "weight": "0.01 lb", "thickness": "0.0001 in", "stock": {}}])
    found = rigged(house, [a_piece("electric", cables=BOXES["deck"])], [hung("electric")]).sets[0]
    return proposals(found, Stack(19788), lock * LB, lock * LB)


def test_past_the_lock_29_pounds_more_or_a_limit_of_storage_mend_it() -> None:
    found = _mended(50.0)
    assert found.centred / 0.45359237 == pytest.approx(29.2, abs=0.05)
    assert found.stack is not None
    assert (found.stack.bricks - 19788) / 100 == pytest.approx(29.2, abs=0.05)
    assert found.travel is not None
    assert found.travel.low / FT == pytest.approx(4.0)
    assert found.travel.high / FT == pytest.approx(50.3, abs=0.05)
    assert found.hold is None


def test_where_no_count_helps_it_says_what_a_hold_must_haul_and_where() -> None:
    found = _mended(20.0)
    assert found.stack is None
    assert found.hold is not None
    assert found.hold.arbor / LB == pytest.approx(29.2, abs=0.1)
    assert found.hold.batten / LB == pytest.approx(29.2, abs=0.1)
    ends = [end / FT for band in found.hold.bands for end in (band.low, band.high)]
    # within 20 lb either way of the middle at 31 ft: 20/1.08 = 18.5 ft below it and above
    assert ends == pytest.approx([4.0, 12.5, 49.5, 58.0], abs=0.1)


def test_the_finding_of_the_lock_names_what_mends_it() -> None:
    house = a_house(
        _electric(pipe_weight="50"), bricks=[{"brick": "full", "weight": "1 lb", "thickness": "0.01 in", "stock": {}}]
    )
    found = judged(house, [a_piece("electric", cables=BOXES["deck"])], [hung("electric")], stated_bricks={"9": "198"})
    mend = next(one.mend for one in found.findings if one.code == "LOCK-OVER")
    assert "29 lb more on the arbor" in mend
    assert "no higher than 50' 4" in mend  # 198 bricks of a pound are 0.1 lb more than balance it
