"""Laws of whole calls, judged by a count by hand: bricks, floors and pieces in whole numbers, step after step.

The simulator shares no code with planner or replay: it reads the steps and counts.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from random import Random
from typing import Any

from hypothesis import assume, given, settings
from hypothesis.strategies import integers

from counterpoise.documents import read_log
from counterpoise.planning import Act, Step
from counterpoise.planning.as_log import as_log
from counterpoise.planning.call import Call, load_in_call, strike_call
from counterpoise.planning.changeover import changeover
from counterpoise.planning.log import rehearse
from counterpoise.rigging import RiggedHouse
from tests.plain_house import a_house, a_piece, a_set, documents, hung, rigged

PIPE, PERSON, PEOPLE = 2, 200, 2
POUNDS = {"full": 25, "half": 10}


@dataclass(frozen=True)
class Numbers:
    """A random house in whole numbers, and what hangs on each set on two nights: piece and its bricks."""

    kinds: Mapping[str, str]  # set -> brick
    loose: Mapping[tuple[str, str], int]  # brick, bridge -> count
    posting: int  # lb in all, people included
    bridges: tuple[str, ...]
    nights: tuple[Mapping[str, tuple[str, int]], Mapping[str, tuple[str, int]]]


def numbers(seed: int, sets: int = 4) -> Numbers:
    chance = Random(seed)
    kinds = {str(at): chance.choice(("full", "full", "half")) for at in range(1, sets + 1)}
    nights: list[dict[str, tuple[str, int]]] = [{}, {}]
    for label in kinds:
        for night in nights:
            if chance.random() < 0.8:
                night[label] = (f"piece {label} {'A' if night is nights[0] else 'B'}", chance.randint(1, 12))
        if chance.random() < 0.25 and label in nights[0]:
            nights[1][label] = nights[0][label]  # stays
    if chance.random() < 0.3 and {"1", "2"} <= set(nights[0]) and kinds["1"] == kinds["2"]:
        nights[1]["1"], nights[1]["2"] = nights[0]["2"], nights[0]["1"]  # two pieces change places
    bridges = ("upper", "lower") if chance.random() < 0.4 else ("upper",)
    loose = {(kind, bridge): chance.randint(5, 60 // len(bridges)) for kind in POUNDS for bridge in bridges}
    return Numbers(kinds, loose, chance.choice((900, 1200, 1500, 5000)), bridges, (nights[0], nights[1]))


def tree_of(n: Numbers) -> dict[str, Any]:
    made = [a_set(label, brick=kind, distance=f"{label} ft", pipe_weight=str(PIPE),
                  batten={"hardware": f"{64.24 + PIPE * POUNDS[kind] - 114.24:.2f} lb"} if kind == "full" else {},
                  arbor={"weight": "64.24 lb"} if kind == "full" else {"weight": f"{114.24 - 2 * POUNDS[kind]:.2f} lb"})
            for label, kind in n.kinds.items()]  # fmt: skip
    bricks = [{"brick": kind, "weight": f"{pounds} lb", "thickness": "1 in",
               "stock": {bridge: str(n.loose[kind, bridge]) for bridge in n.bridges}}
              for kind, pounds in POUNDS.items()]  # fmt: skip
    bridges = [{"bridge": bridge, "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft", "length": "10 ft",
                "width": "10 ft", "posting": f"{n.posting / 100:g} psf", "people": str(PEOPLE)}
               for bridge in n.bridges]  # fmt: skip
    return a_house(*made, bricks=bricks, bridges=bridges, rules={"person": f"{PERSON} lb", "lock hold": "50 lb"})


def show_of(n: Numbers, night: int) -> tuple[list[dict[str, Any]], list[dict[str, Any]]]:
    on = n.nights[night]
    pieces = [a_piece(name, f"{count * POUNDS[n.kinds[label]]} lb") for label, (name, count) in on.items()]
    return pieces, [hung(name, label) for label, (name, _) in on.items()]


def house_of(n: Numbers, night: int) -> RiggedHouse:
    pieces, places = show_of(n, night)
    return rigged(tree_of(n), pieces, places)


@dataclass
class Count:
    """What is where, in whole numbers."""

    numbers: Numbers
    loose: dict[tuple[str, str], int]
    on: dict[str, int]
    pieces: dict[str, str] = field(default_factory=dict)  # piece -> set
    open: str = ""
    locked: dict[str, bool] = field(default_factory=dict)
    held: dict[str, bool] = field(default_factory=dict)
    collars: dict[str, bool] = field(default_factory=dict)

    def do(self, step: Step) -> None:
        label = step.set
        assert self.open in ("", label), f"set {self.open} is not closed"
        match step.act:
            case Act.HOLD_ON | Act.HOLD_OFF:
                self.held[label] = step.act is Act.HOLD_ON
            case Act.COLLARS_UP | Act.COLLARS_DOWN:
                self.collars[label] = step.act is Act.COLLARS_UP
            case Act.LOCK_OPEN | Act.LOCK_ON:
                self.locked[label] = step.act is Act.LOCK_ON
            case Act.HANG:
                assert step.piece not in self.pieces, "it hangs somewhere else"
                assert label not in self.pieces.values(), "the old piece is not gone"
                self.pieces[step.piece] = label
            case Act.STRIKE:
                assert self.on[label] == PIPE, "arbor first"
                assert self.pieces.pop(step.piece) == label
            case Act.BRICKS_ON | Act.BRICKS_OFF:
                self.move(step, -1 if step.act is Act.BRICKS_ON else 1)
            case Act.COUNT:
                assert step.bricks == self.on[label]
        shut = self.locked.get(label, True) and not self.held.get(label) and not self.collars.get(label)
        self.open = "" if shut else label

    def move(self, step: Step, sign: int) -> None:
        stuff = (self.numbers.kinds[step.set], step.bridge)
        for _ in range(step.bricks):
            self.loose[stuff] += sign
            self.on[step.set] -= sign
            assert self.loose[stuff] >= 0, "bricks ran out"
            assert self.on[step.set] >= PIPE
            if sign > 0:
                assert self.carried(step.bridge) <= self.numbers.posting, "the floor carries too much"

    def carried(self, bridge: str) -> int:
        bricks = sum(count * POUNDS[kind] for (kind, at), count in self.loose.items() if at == bridge)
        return bricks + PEOPLE * PERSON


def count_of(n: Numbers, call: Call, night: int | None) -> Count:
    """As it begins: nothing hung, or all of a night, with the bricks off the floors as the call says."""
    count = Count(n, dict(n.loose), dict.fromkeys(n.kinds, PIPE))
    if night is not None:
        for label, (piece, bricks) in n.nights[night].items():
            count.on[label] += bricks
            count.pieces[piece] = label
        for kind in POUNDS:
            used = sum(bricks for label, (_, bricks) in n.nights[night].items() if n.kinds[label] == kind)
            assert sum(n.loose[kind, one] - call.begin.stock[kind][one] for one in n.bridges) == used
            count.loose |= {(kind, one): call.begin.stock[kind][one] for one in n.bridges}
    return count


def done(count: Count, steps: Iterable[Step]) -> Count:
    for step in steps:
        count.do(step)
    assert count.open == ""
    return count


def steps_of(call: Call) -> list[Step]:
    return [step for turn in call.turns for leg in turn.legs for step in leg.plan.steps]


def hangs(night: Mapping[str, tuple[str, int]]) -> dict[str, str]:
    return {piece: label for label, (piece, _) in night.items()}


def ends(count: Count, n: Numbers, night: Mapping[str, tuple[str, int]]) -> None:
    assert count.pieces == hangs(night)
    assert count.on == {label: PIPE + night.get(label, ("", 0))[1] for label in n.kinds}


@settings(max_examples=150)
@given(seed=integers(0, 10**9))
def test_a_load_in_ends_with_all_hung_and_at_no_step_are_bricks_short(seed: int) -> None:
    n = numbers(seed)
    call = load_in_call(house_of(n, 0))
    assert call.held == ()
    assume(call.refusal is None)
    count = done(count_of(n, call, None), steps_of(call))
    ends(count, n, n.nights[0])
    assert count.loose == {(kind, one): call.end.stock[kind][one] for kind in POUNDS for one in n.bridges}
    assert call.lifts == sum(bricks for _, bricks in n.nights[0].values())


@settings(max_examples=150)
@given(seed=integers(0, 10**9))
def test_a_load_in_is_refused_just_where_a_kind_is_short_or_a_floor_is_over_before_the_first_step(seed: int) -> None:
    n = numbers(seed)
    call = load_in_call(house_of(n, 0))
    over = any(Count(n, dict(n.loose), {}).carried(one) > n.posting for one in n.bridges)
    short = any(sum(bricks for label, (_, bricks) in n.nights[0].items() if n.kinds[label] == kind)
                > sum(n.loose[kind, one] for one in n.bridges) for kind in POUNDS)  # fmt: skip
    if over or short:
        assert call.refusal is not None
    elif len(n.bridges) == 1:
        assert call.refusal is None


@settings(max_examples=100)
@given(seed=integers(0, 10**9))
def test_a_strike_ends_in_pipe_weight_and_no_floor_carries_more_than_its_posting(seed: int) -> None:
    n = numbers(seed)
    call = strike_call(house_of(n, 0))
    assume(call.refusal is None and min(call.begin.stock[kind][one] for kind in POUNDS for one in n.bridges) >= 0)
    ends(done(count_of(n, call, 0), steps_of(call)), n, {})


@settings(max_examples=120)
@given(seed=integers(0, 10**9))
def test_a_changeover_ends_with_the_other_night_and_breaks_no_limit_on_the_way(seed: int) -> None:
    n = numbers(seed)
    call = changeover(house_of(n, 0), house_of(n, 1))
    assert call.held == ()
    assert set(call.kept) == {label for label in n.nights[0] if n.nights[0][label] == n.nights[1].get(label)}
    assert not set(call.kept) & {turn.set for turn in call.turns}
    assume(call.refusal is None)
    ends(done(count_of(n, call, 0), steps_of(call)), n, n.nights[1])


@settings(max_examples=60)
@given(seed=integers(0, 10**9))
def test_a_call_written_as_a_log_is_allowed_and_ends_as_the_call_does(seed: int) -> None:
    n = numbers(seed)
    pieces, places = show_of(n, 0)
    house, show, _ = documents(tree_of(n), pieces, places)
    rig = house_of(n, 0)
    for call in (load_in_call(rig), strike_call(rig)):
        if call.refusal is None:
            found = rehearse(rig, read_log(as_log(call), house, show))
            assert found.refusal is None
            assert found.standing.state.sets == call.end.sets
            assert found.standing.state.stock == call.end.stock


@settings(max_examples=80)
@given(seed=integers(0, 10**9))
def test_a_changeover_written_as_a_log_is_allowed_and_ends_as_the_changeover_does(seed: int) -> None:
    n = numbers(seed)
    house, show, _ = documents(tree_of(n), *show_of(n, 0))
    coming = documents(tree_of(n), *show_of(n, 1))[1]
    old, new = house_of(n, 0), house_of(n, 1)
    call = changeover(old, new)
    assume(call.refusal is None)
    log = read_log(as_log(call, leaves=show.name), house, show, coming=coming)
    found = rehearse(old, log, new)
    assert found.refusal is None
    assert found.standing.state.sets == call.end.sets
    assert found.standing.state.stock == call.end.stock


def test_the_random_houses_hold_calls_that_go_and_calls_that_are_refused() -> None:
    calls = [changeover(house_of(n, 0), house_of(n, 1)) for n in map(numbers, range(80))]
    codes = [call.refusal.code if call.refusal else "" for call in calls]
    assert codes.count("") >= 20
    assert codes.count("STOCK") >= 8
    assert codes.count("BRIDGE-FLOOR") >= 8
    in_two = [call for call in calls if len({turn.set for turn in call.turns}) < len(call.turns)]
    assert len(in_two) >= 2
