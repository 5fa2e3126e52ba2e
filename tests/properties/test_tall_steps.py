"""Laws of the steps of tall pieces: each instant done by hand in pounds and feet, with and without a rated hold."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

from hypothesis import assume, given, settings
from hypothesis.strategies import integers

from counterpoise.documents import Hold, read_house
from counterpoise.planning import Act, Plan, Step, load_in, strike
from tests.properties.test_tall_plans import (
    FOOT,
    HAIR,
    LOCK,
    LOW,
    Numbers,
    balance,
    between,
    house_of,
    numbers,
    within_reach,
)
from tests.small_house import HOUSE

RATING = 180.0  # lb: enough for about half of those that need one


@cache
def _winch(does: str = "haul", against: str = "both") -> Hold:
    text = HOUSE.replace("POSTING", "75 psf").replace("LISTED", "").replace("SERVICE", "")
    text = text.replace("STOPS", "{top: 1500 lb, bottom: 1500 lb}")
    told = f"holds:\n  - {{hold: winch, does: {does}, against: {against}, acts on: batten, rating: {RATING} lb, "
    return read_house(text.replace("rules:\n", f"{told}anchor rating: 900 lb}}\nrules:\n", 1)).holds[0]


@cache
def _planned(seed: int, does: str = "haul", against: str = "both") -> tuple[Numbers, Plan, Plan]:
    n = numbers(seed)
    house, _ = house_of(n)
    house = replace(house, house=replace(house.house, holds=(_winch(does, against),)))
    return n, load_in(house, "14"), strike(house, "14")


@dataclass
class ByHand:
    """A set worked by hand; each step, each inch and each brick within it is looked at."""

    n: Numbers
    height: float
    bricks: int
    joined: int
    hauls: bool = True
    ways: str = "both"
    locked: bool = True
    held: bool = False
    rated: bool = False

    def do(self, steps: tuple[Step, ...]) -> tuple[float, int, int]:
        for step in steps:
            self.one(step)
        assert (self.locked, self.held, self.rated) == (True, False, False)
        return round(self.height, 3), self.bricks, self.joined

    def one(self, step: Step) -> None:
        match step.act:
            case Act.HOLD_ON | Act.HOLD_OFF:
                self.held = step.act is Act.HOLD_ON
            case Act.RIG | Act.CLEAR:
                assert self.locked
                self.rated = step.act is Act.RIG
                self.look(self.height, moves=False)
            case Act.LOCK_OPEN | Act.LOCK_ON:
                self.locked = step.act is Act.LOCK_ON
                assert self.locked or not self.held
                self.look(self.height, moves=not self.locked)
            case Act.MOVE:
                assert not self.locked
                for at in between(self.n, self.height, step.height / FOOT):
                    self.look(at, moves=True)
                self.height = round(step.height / FOOT, 6)
            case Act.HANG | Act.STRIKE:
                self.hang(step)
            case Act.BRICKS_ON | Act.BRICKS_OFF:
                self.load(step)

    def hang(self, step: Step) -> None:
        assert self.locked
        assert self.held
        at = self.n.sections[self.joined - (step.act is Act.STRIKE)].joins
        self.joined += 1 if step.act is Act.HANG else -1
        assert abs(self.height - max(at, LOW)) <= HAIR
        self.look(self.height, moves=False)

    def load(self, step: Step) -> None:
        assert self.locked
        assert self.held
        more = 1 if step.act is Act.BRICKS_ON else -1
        for _ in range(step.bricks):
            assert within_reach(self.n, int(step.bridge[-1]), min(self.bricks, self.bricks + more), self.height)
            self.bricks += more
            assert self.bricks >= self.n.pipe
            self.look(self.height, moves=False)

    def look(self, height: float, *, moves: bool) -> None:
        out = balance(self.n, self.bricks, height, self.joined)
        if abs(out) <= LOCK + 1e-3 or (not moves and out < 0 and abs(height - LOW) < HAIR):
            return
        assert self.rated, (height, self.bricks, out)
        assert self.hauls or not moves
        assert abs(out) <= RATING + 1e-3
        assert self.ways in ("both", "batten rising" if out > 0 else "batten falling")


@settings(max_examples=80, deadline=None)
@given(seed=integers(0, 10**9))
def test_no_step_breaks_a_limit_at_any_instant_and_the_strike_leaves_pipe_weight(seed: int) -> None:
    n, plan, back = _planned(seed)
    assume(plan.refusal is None)
    height, bricks, joined = ByHand(n, LOW, n.pipe, 0).do(plan.steps)
    assert joined == len(n.sections)
    assert bricks == plan.final.bricks
    assert back.refusal is None
    assert ByHand(n, height, bricks, joined).do(back.steps) == (LOW, n.pipe, 0)


@settings(max_examples=40, deadline=None)
@given(seed=integers(0, 10**9))
def test_a_park_hold_covers_no_move_and_a_one_way_hold_one_way_only(seed: int) -> None:
    for does, against in (("park", "both"), ("haul", "batten rising"), ("haul", "batten falling")):
        n, plan, _ = _planned(seed, does, against)
        if plan.refusal is None:
            ByHand(n, LOW, n.pipe, 0, hauls=does == "haul", ways=against).do(plan.steps)


@settings(max_examples=40, deadline=None)
@given(seed=integers(0, 10**9))
def test_the_strike_is_the_exact_reverse(seed: int) -> None:
    _, plan, back = _planned(seed)
    assume(plan.refusal is None)

    def moved(one: Plan, *acts: Act) -> list[tuple[str, int, str]]:
        return [(step.piece, step.bricks, step.bridge) for step in one.steps if step.act in acts]

    out = moved(plan, Act.BRICKS_ON, Act.BRICKS_OFF, Act.HANG)
    assert moved(back, Act.BRICKS_ON, Act.BRICKS_OFF, Act.STRIKE) == out[::-1]


def test_of_random_walls_some_go_with_the_winch_some_without_and_some_not_at_all() -> None:
    plans = [_planned(seed)[1] for seed in range(60)]
    with_winch = [one for one in plans if any(step.act is Act.RIG for step in one.steps)]
    refused = [one for one in plans if one.refusal is not None]
    assert len(with_winch) >= 5
    assert len(refused) >= 5
    assert len(plans) - len(with_winch) - len(refused) >= 5
