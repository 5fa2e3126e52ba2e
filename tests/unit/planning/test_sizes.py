"""Load-in, strike and replay of a set that takes a smaller brick for the trim; the stock shared among sets."""

from dataclasses import replace

import pytest

from counterpoise.balance import Stack
from counterpoise.planning import Act, Step, judge, load_in, replay, start, strike
from counterpoise.planning.phrases import bricks, stack_said
from counterpoise.planning.state import Refusal, State
from counterpoise.planning.stock import share_stock
from counterpoise.rigging import BrickKind, RiggedHouse
from tests.plain_house import Map, a_house, a_piece, a_set, hung, rigged
from tests.small_house import small_house

KG = 0.45359237
HALF = BrickKind(name="half", mass=12.5 * KG, spread=0.0, thickness=0.0254, stock={"bridge": 9})


def _house(weight: str = "112.5 lb", pipe: int = 0) -> RiggedHouse:
    """Set 14 of the small house with half-bricks: 25 lb and 12.5 lb; 112.5 lb ask for 4 and one half."""
    house = small_house(pieces={"header": weight})
    one = replace(house.sets[0], small=HALF, small_pipe_bricks=pipe)
    return replace(house, battens=(one,), bricks={**house.bricks, "half": HALF})


def test_the_small_brick_goes_on_last_and_is_said() -> None:
    plan = load_in(_house(), "14")
    assert plan.refusal is None
    assert plan.final == Stack(10, 1)
    (on,) = [step for step in plan.steps if step.act is Act.BRICKS_ON]
    assert (on.bricks, on.small) == (4, 1)
    said = " ".join(line.says for line in plan.lines)
    assert "add 4 bricks, then 1 small. 10 and 1 small on after." in said


def test_the_strike_takes_the_small_brick_off_first_and_brings_every_brick_back() -> None:
    house = _house()
    plan = strike(house, "14")
    assert plan.refusal is None
    (off,) = [step for step in plan.steps if step.act is Act.BRICKS_OFF]
    assert (off.bricks, off.small) == (4, 1)
    assert "take off 1 small, then 4 bricks." in " ".join(line.says for line in plan.lines)
    done = replay(house, plan.steps, plan.begin)
    assert done.last.sets["14"].stack == Stack(6)
    assert (done.last.stock["half"]["bridge"], done.last.stock["full"]["bridge"]) == (9, 60)


def _at_the_arbor(house: RiggedHouse) -> State:
    steps = [Step(act=Act.HOLD_ON, set="14"), Step(act=Act.HANG, set="14", piece="header"),
             Step(act=Act.COLLARS_UP, set="14"),
             Step(act=Act.BRICKS_ON, set="14", small=1, bridge="bridge")]  # fmt: skip
    done = replay(house, steps, start(house))
    assert done.refusal is None
    return done.last


@pytest.mark.parametrize(("step", "code"), [
    (Step(act=Act.BRICKS_ON, set="14", bricks=1, bridge="bridge"), "ORDER"),  # under the small one that lies there
    (Step(act=Act.BRICKS_OFF, set="14", small=2, bridge="bridge"), "PIPE-WEIGHT"),
    (Step(act=Act.BRICKS_ON, set="14", small=9, bridge="bridge"), "STOCK"),  # eight are left
])  # fmt: skip
def test_small_bricks_are_judged_like_large_ones(step: Step, code: str) -> None:
    house = _house()
    found = judge(house, _at_the_arbor(house), step)
    assert isinstance(found, Refusal)
    assert found.code == code


def test_a_set_without_small_bricks_takes_none() -> None:
    house = small_house(pieces={"header": "100 lb"})
    steps = [Step(act=Act.HOLD_ON, set="14"), Step(act=Act.HANG, set="14", piece="header"),
             Step(act=Act.COLLARS_UP, set="14")]  # fmt: skip
    found = judge(house, replay(house, steps).last, Step(act=Act.BRICKS_ON, set="14", small=1, bridge="bridge"))
    assert isinstance(found, Refusal)
    assert found.code == "ORDER"


# --- the stock of the house ----------------------------------------------------------------------------------------

FULL = {"brick": "full", "weight": "25 lb", "thickness": "1 in"}
SMALL = {"brick": "half", "weight": "12.5 lb", "thickness": "0.5 in"}


def _shared(full: Map, half: Map, *weights: str) -> RiggedHouse:
    sets = [a_set(str(at), small_brick="half") for at in range(1, len(weights) + 1)]
    pieces = [a_piece(f"border {at}", weight=weight) for at, weight in enumerate(weights, 1)]
    places = [hung(f"border {at}", on=str(at)) for at in range(1, len(weights) + 1)]
    return rigged(a_house(*sets, bricks=[FULL | {"stock": full}, SMALL | {"stock": half}]), pieces, places)


def test_enough_bricks_are_taken_from_the_places_that_have_them() -> None:
    found = share_stock(_shared({"bridge": "5", "cellar": "10"}, {"bridge": "3"}, "112.5 lb", "100 lb"))
    assert [share.stack for share in found.shares] == [Stack(6, 1), Stack(6)]  # pipe weight is 2
    assert not found.short
    assert sum(one.count for share in found.shares for one in share.taken if one.kind == "full") == 8
    assert sum(sum(places.values()) for places in found.left.values()) == 15 + 3 - 9


def test_a_shortage_is_shared_out_and_told_by_kind() -> None:
    """Three sets of 100 lb want 12 of 25 lb; 10 are there and no small ones: two sets go one short, none two."""
    found = share_stock(_shared({"bridge": "10"}, {"bridge": "0"}, "100 lb", "100 lb", "100 lb"))
    assert found.short == {"full": 2}
    assert sorted(share.stack.bricks for share in found.shares) == [5, 5, 6]
    assert found.allocation is not None
    assert found.allocation.is_best


def test_stated_counts_are_kept_and_counted() -> None:
    house = _shared({"bridge": "10"}, {"bridge": "0"}, "100 lb", "100 lb")
    first = replace(house.sets[0], stated_bricks=9)
    found = share_stock(replace(house, battens=(first, *house.battens[1:])))
    assert found.shares[0].stack == Stack(9)
    assert found.shares[1].stack == Stack(5)  # three of ten are left of the four it wants
    assert found.short == {"full": 1}


def test_stated_counts_that_can_not_be_had_share_nothing_out() -> None:
    house = _shared({"bridge": "3"}, {"bridge": "0"}, "100 lb")
    found = share_stock(replace(house, battens=(replace(house.sets[0], stated_bricks=9),)))
    assert found.shares == ()
    assert found.short == {"full": 4}


def test_a_place_whose_count_is_not_known_gives_nothing_and_is_named() -> None:
    found = share_stock(_shared({"bridge": "10", "cellar": "unknown"}, {"bridge": "0"}, "100 lb"))
    assert found.unknown == (("full", "cellar"),)


def test_a_plan_says_what_friction_may_hide_and_counts_on_none_of_it() -> None:
    """212 lb of batten and 112.5 lb of header at 2 % in each of two quarter turns: 13 lb."""
    plan = load_in(_house(), "14")
    assert any("may be off by 13 lb of friction (2 % a quarter turn" in note for note in plan.notes)


def test_one_brick_is_said_as_one_and_a_stack_by_all_that_is_in_it() -> None:
    """Plain English: the noun follows the whole count."""
    assert [stack_said(Stack(*counts)) for counts in ((0,), (1,), (2,), (0, 1), (1, 1))] == [
        "0 bricks", "1 brick", "2 bricks", "0 and 1 small brick", "1 and 1 small bricks"]  # fmt: skip
    assert [bricks(count, kind) for count, kind in ((1, ""), (1, "full"), (3, "half"))] == [
        "1 brick", "1 full brick", "3 half bricks"]  # fmt: skip
