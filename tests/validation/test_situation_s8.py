"""A worked case, computed by hand: a repertory changeover, its bricks and its bridge.

Show A has 12, 30, 16, 24, 20, 28, 18, 15, 22 and 20 bricks on ten sets (205), show B 18, 22, 16, 0, 35, 40, 10, 45, 30
and 20 (236). 420 bricks of 25 lb less 180 of pipe weight are 240, so 35 lie on the bridge while A hangs and 4 while B
does. 48 x 3 ft posted 40 psf carry 5,760 lb, less three loaders of 200 lb 5,160 lb: 206 bricks. All 240 and the loaders
weigh 6,600 lb. 205 + 236 = 441 lifts, 11,025 lb. The running stock is 35 + 12 - 18 = 29, + 30 - 22 = 37, and so on.
"""

from functools import cache
from pathlib import Path

import pytest

from counterpoise.cli import main
from counterpoise.documents import read_hang, read_house, read_show
from counterpoise.planning.call import Call, load_in_call, strike_call
from counterpoise.planning.changeover import changeover
from counterpoise.planning.state import Act
from counterpoise.rigging import RiggedHouse, rig

HERE = Path(__file__).parent / "situations" / "s8"
SETS = ["3", "5", "8", "11", "14", "17", "20", "23", "27", "30"]
A = [12, 30, 16, 24, 20, 28, 18, 15, 22, 20]
B = [18, 22, 16, 0, 35, 40, 10, 45, 30, 20]
POUND = 0.45359237  # [kg], exact by definition


def text(name: str) -> str:
    return (HERE / f"{name}.yaml").read_text("utf-8")


@cache
def night(name: str, loose: int = 240) -> RiggedHouse:
    house = read_house(text("house").replace("bridge: 240", f"bridge: {loose}"))
    show = read_show(text(f"show-{name}"))
    return rig(house, show, read_hang(text(f"hang-{name}"), house, show))


@cache
def to_night_b() -> Call:
    return changeover(night("a"), night("b"))


def loose_after_each(call: Call) -> list[int]:
    return [one.stock["full"]["bridge"] for one in call.closed]


def test_thirty_five_bricks_lie_on_the_bridge_while_a_hangs() -> None:
    assert to_night_b().begin.stock["full"]["bridge"] == 420 - 180 - sum(A) == 35


def test_set_by_set_in_number_order_leaves_what_was_computed_by_hand() -> None:
    call = to_night_b()
    assert call.refusal is None
    assert [turn.set for turn in call.turns] == SETS
    assert loose_after_each(call) == [29, 37, 37, 61, 46, 34, 42, 12, 4, 4]
    assert max(loose_after_each(call)) == 61
    assert call.order.is_proven


def test_the_most_that_lies_there_at_any_moment_is_81() -> None:
    call = to_night_b()
    loose, found = call.begin.stock["full"]["bridge"], []
    for turn in call.turns:
        for leg in turn.legs:
            for step in leg.plan.steps:
                loose += step.bricks * ((step.act is Act.BRICKS_OFF) - (step.act is Act.BRICKS_ON))
                found.append(loose)
    assert max(found) == 81
    assert min(found) >= 0


def test_441_bricks_are_lifted_and_weigh_11025_pounds() -> None:
    call = to_night_b()
    assert call.lifts == sum(A) + sum(B) == 441
    assert call.lifted / POUND == pytest.approx(11_025)


def test_every_set_changes_its_piece_and_is_stripped_to_pipe_weight_before_the_old_one_leaves() -> None:
    call = to_night_b()
    assert call.kept == ()
    for turn, before, after in zip(call.turns, A, B, strict=True):
        steps = [step for leg in turn.legs for step in leg.plan.steps]
        acts = [step.act for step in steps]
        off = sum(step.bricks for step in steps[: acts.index(Act.STRIKE)] if step.act is Act.BRICKS_OFF)
        assert off == before
        assert acts.index(Act.HANG) > acts.index(Act.STRIKE)
        assert sum(step.bricks for step in steps[acts.index(Act.HANG) :] if step.act is Act.BRICKS_ON) == after


def test_all_stripped_first_240_bricks_are_6600_pounds_on_a_5760_pound_bridge() -> None:
    call = changeover(night("a"), night("b"), strip_first=True)
    assert call.refusal is not None
    assert call.refusal.code == "BRIDGE-FLOOR"
    assert "6,600 lb" in call.refusal.says
    assert "5,760 lb" in call.refusal.says
    assert call.lines == ()
    assert -sum(ask.count for ask in call.asks if ask.count < 0) == 240 - 206


def test_with_five_bricks_fewer_it_is_short_by_one_in_any_order_and_fails_first_at_set_27_in_number_order() -> None:
    call = changeover(night("a", 235), night("b", 235))
    assert call.begin.stock["full"]["bridge"] == 30
    assert call.refusal is not None
    assert call.refusal.code == "STOCK"
    assert "Short by 1 full brick in any order" in call.refusal.says
    assert "runs out at set 27" in call.refusal.says
    assert [(ask.kind, ask.place, ask.count, ask.before) for ask in call.asks] == [("full", "bridge", 1, "")]
    assert call.lines == ()  # said before the strike starts: not one step is told


def test_with_the_brick_that_was_asked_for_it_goes() -> None:
    assert changeover(night("a", 236), night("b", 236)).refusal is None


def test_the_way_back_is_planned_as_well() -> None:
    call = changeover(night("b"), night("a"))
    assert call.refusal is None
    assert call.begin.stock["full"]["bridge"] == 4
    assert loose_after_each(call)[-1] == 35
    assert call.lifts == 441


def test_a_hang_that_stays_is_left_alone() -> None:
    call = changeover(night("a"), night("a"))
    assert list(call.kept) == SETS
    assert call.turns == ()
    assert call.refusal is None


def test_206_bricks_is_what_the_bridge_may_hold_at_the_start_of_a_load_in_and_207_is_too_many() -> None:
    assert load_in_call(night("a", 206)).refusal is None
    over = load_in_call(night("a", 207))
    assert over.refusal is not None
    assert over.refusal.code == "BRIDGE-FLOOR"
    assert [ask.count for ask in over.asks] == [-1]


def test_a_strike_that_ends_with_207_on_the_bridge_is_refused_before_it_begins() -> None:
    assert strike_call(night("a", 206)).refusal is None
    over = strike_call(night("a", 207))
    assert over.refusal is not None
    assert "in any order" in over.refusal.says
    assert [ask.count for ask in over.asks] == [-1]


FILES = [str(HERE / f"{name}.yaml") for name in ("house", "show-a", "hang-a", "show-b", "hang-b")]


def test_the_command_line_says_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["changeover", *FILES]) == 0
    said = capsys.readouterr().out
    assert "441 lifts, 11,025 lb" in said
    assert "Set 23 is closed. Now bridge 12 full" in said
    assert main(["changeover", *FILES, "--strip-first"]) == 1
    assert "6,600 lb" in capsys.readouterr().out
