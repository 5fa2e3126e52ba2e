"""Laws of plans, judged by a simulator that shares nothing with what it judges: pounds and feet, by hand."""

from dataclasses import dataclass, replace
from random import Random

from hypothesis import assume, given, settings
from hypothesis.strategies import integers

from counterpoise.planning import Act, Plan, Step, load_in, replay, strike
from counterpoise.rigging import RiggedHouse, RiggedPart
from tests.small_house import small_house

FOOT, POUND = 0.3048, 0.45359237
LOCK, STOP, TENSION, LOW, LOFT = 50.0, 500.0, 200.0, 4.0, 62.0
BASE = small_house(pieces=dict.fromkeys("abcdefgh", "100 lb"), stops="{top: 500 lb, bottom: 500 lb}")


@dataclass(frozen=True)
class Load:
    name: str
    light: float  # lb
    heavy: float
    tall: float  # ft
    is_cloth: bool


@dataclass(frozen=True)
class Numbers:
    """One random set in pounds and feet."""

    purchase: int
    high: float
    batten: float
    arbor: float
    pipe: int
    brick: float
    off: float
    thick: float
    line: float  # all lift lines together [lb/ft]
    plate: float
    reach: tuple[float, float]
    loads: tuple[Load, ...]


def numbers(seed: int) -> Numbers:
    chance = Random(seed)
    purchase = chance.choice((1, 1, 2))
    brick = chance.choice((12.5, 20.0, 25.0))
    pipe = chance.randint(2, 9)
    arbor = chance.uniform(50, 90)
    loads = []
    for name in ("a", "b")[: chance.randint(1, 2)]:
        weight = chance.uniform(20, 320)
        doubt = chance.choice((0.0, 0.0, 0.0, 0.1, 0.2))
        cloth = chance.random() < 0.4
        tall = chance.uniform(5, 24) if cloth else chance.choice((2.0, 3.5, 6.0))
        loads.append(Load(name, weight * (1 - doubt), weight * (1 + doubt), tall, cloth))
    line = chance.choice((0.0, 0.3, 0.55))
    return Numbers(
        purchase=purchase, high=40.0 if purchase == 2 else 58.0,
        batten=(arbor + pipe * brick) / purchase - line * (LOFT - LOW) + chance.uniform(-15, 15),
        arbor=arbor, pipe=pipe, brick=brick, off=chance.choice((0.0, 0.1, 0.3)), thick=chance.uniform(0.75, 2.0) / 12,
        line=line, plate=chance.choice((0.0, 4.0)),
        reach=(chance.uniform(30.0, 50.0), chance.uniform(50.5, 57.0)), loads=tuple(loads),
    )  # fmt: skip


def house_of(n: Numbers) -> RiggedHouse:
    one = BASE.sets[0]
    brick = replace(one.brick, mass=n.brick * POUND, spread=n.off * POUND, thickness=n.thick * FOOT,
                    stock={"bridge": 200})  # fmt: skip
    pieces = tuple(
        replace(piece, height=load.tall * FOOT, parts=(RiggedPart(
            mass=(load.light * POUND, (load.light + load.heavy) / 2 * POUND, load.heavy * POUND), joins=0.0,
            clear=load.tall * FOOT, cloth=load.tall * FOOT if load.is_cloth else None),))
        for piece, load in zip(one.pieces, n.loads, strict=False)
    )  # fmt: skip
    weight, length = n.batten * POUND, one.beam.length
    made = replace(one.made, mass=weight, per_length=((0.0, length, max(0.0, weight / length)),))
    rigged = replace(one, purchase=n.purchase, high=n.high * FOOT, line_mass=n.line * POUND / FOOT / len(one.lines),
                     made=made, hardware_mass=0.0, arbor_mass=n.arbor * POUND, brick=brick,
                     pipe_bricks=n.pipe, plate_mass=n.plate * POUND, pieces=pieces, usable_height=8 * FOOT)  # fmt: skip
    bridge = replace(BASE.bridges[0], reach_low=n.reach[0] * FOOT, reach_high=n.reach[1] * FOOT, most=None)
    return replace(BASE, battens=(rigged,), bricks={"full": brick}, bridges=(bridge,))


def plates(n: Numbers, bricks: int) -> int:
    """Whole bricks between plates, laid one by one: a plate goes on before the brick that would pass two feet."""
    count, gap = (1 if bricks else 0), 0.0
    for _ in range(bricks):
        if gap and gap + n.thick > 2.0 + 1e-9:
            count, gap = count + 1, 0.0
        gap += n.thick
    return count


def top_of(n: Numbers, bricks: int, height: float) -> float:
    seat = 50.0 - (height - LOW) / n.purchase
    return seat + bricks * n.thick + plates(n, bricks) * 0.375 / 12


def extremes(n: Numbers, bricks: int, height: float, hung: set[str]) -> tuple[float, float]:
    """The most arbor-heavy and the most batten-heavy it may be [lb]."""
    sum_of = n.arbor + bricks * n.brick + plates(n, bricks) * n.plate + n.line * (height - LOW)
    fixed = n.batten + n.line * (LOFT - height)
    least = most = 0.0
    for load in n.loads:
        if load.name not in hung:
            continue
        if load.is_cloth:
            part = min(1.0, height / load.tall)
            least, most = least + part * load.light, most + part * load.heavy
        elif load.tall > LOW and abs(height - load.tall) < 1e-4:
            least += load.light  # standing, ties taut: lifted before the arbor can fall, landed before the batten can
        elif height < load.tall:
            most += load.heavy  # on the deck, slack or taut
        else:
            least, most = least + load.light, most + load.heavy
    spread = bricks * n.off
    return (sum_of + spread) / n.purchase - fixed - least, most + fixed - (sum_of - spread) / n.purchase


def check_free(n: Numbers, bricks: int, height: float, hung: set[str]) -> None:
    arbor, batten = extremes(n, bricks, height, hung)
    assert arbor <= LOCK + 1e-3, (bricks, height, arbor)
    assert batten <= min(LOCK, TENSION / 2) + 1e-3, (bricks, height, batten)


def check_standing(n: Numbers, bricks: int, height: float, hung: set[str], stop: float = STOP) -> None:
    arbor, batten = extremes(n, bricks, height, hung)
    if abs(height - LOW) < 1e-4:
        assert arbor <= LOCK + 1e-3
        assert batten <= LOCK + 1e-3 or n.purchase * batten <= stop + 1e-3
    else:
        check_free(n, bricks, height, hung)


def simulate(
    n: Numbers, steps: tuple[Step, ...], height: float, bricks: int, hung: set[str], stop: float = STOP
) -> tuple[float, int]:
    """Do the steps by hand and check each instant; gives back the height [ft] and bricks at the end."""
    locked = True
    for step in steps:
        match step.act:
            case Act.LOCK_OPEN:
                check_free(n, bricks, height, hung)
                locked = False
            case Act.LOCK_ON:
                locked = True
            case Act.MOVE:
                assert not locked
                end = step.height / FOOT
                parts = max(1, round(abs(end - height) * 6))
                for part in range(parts + 1):
                    check_free(n, bricks, height + (end - height) * part / parts, hung)
                height = end
            case Act.HANG | Act.STRIKE:
                assert locked
                hung = hung | {step.piece} if step.act is Act.HANG else hung - {step.piece}
                check_standing(n, bricks, height, hung, stop)
            case Act.BRICKS_ON | Act.BRICKS_OFF:
                assert locked
                for _ in range(step.bricks):
                    more = bricks + (1 if step.act is Act.BRICKS_ON else -1)
                    for count in (bricks, more):
                        assert n.reach[0] - 1e-4 <= top_of(n, count, height) <= n.reach[1] + 1e-4
                    bricks = more
                    assert bricks >= n.pipe
                    check_standing(n, bricks, height, hung, stop)
    return height, bricks


def planned(seed: int) -> tuple[Numbers, RiggedHouse, Plan]:
    n = numbers(seed)
    house = house_of(n)
    return n, house, load_in(house, "14")


@settings(max_examples=200)
@given(seed=integers(0, 10**9))
def test_no_step_of_a_plan_breaks_a_limit_at_any_instant(seed: int) -> None:
    n, house, plan = planned(seed)
    assume(plan.refusal is None)
    names = {load.name for load in n.loads}
    height, bricks = simulate(n, plan.steps, LOW, n.pipe, set())
    assert bricks == plan.final.bricks
    back = strike(house, "14")
    assert back.refusal is None
    height, bricks = simulate(n, back.steps, height, bricks, names)
    assert abs(height - LOW) < 1e-9
    assert bricks == n.pipe


@settings(max_examples=50)
@given(seed=integers(0, 10**9))
def test_strike_is_the_reverse_of_load_in_in_bricks_and_pieces(seed: int) -> None:
    _, house, plan = planned(seed)
    assume(plan.refusal is None and sum(step.act is Act.BRICKS_ON for step in plan.steps) <= 1)  # in one go
    back = strike(house, "14")

    def moved(one: Plan, bricks: Act, piece: Act) -> list[tuple[str, int]]:
        return [(step.piece, step.bricks) for step in one.steps if step.act in (bricks, piece)]

    assert moved(back, Act.BRICKS_OFF, Act.STRIKE) == moved(plan, Act.BRICKS_ON, Act.HANG)[::-1]
    end = replay(house, back.steps, back.begin).last
    assert end.sets["14"].hung == ()
    assert end.stock["full"]["bridge"] == 200


def test_of_random_sets_many_have_a_plan_with_bricks_and_many_have_none() -> None:
    plans = [planned(seed)[2] for seed in range(200)]
    with_bricks = [one for one in plans if any(step.act is Act.BRICKS_ON for step in one.steps)]
    refused = [one for one in plans if one.refusal is not None]
    assert len(with_bricks) >= 40
    assert len(refused) >= 20


def lights(seed: int) -> tuple[Numbers, RiggedHouse]:
    """Three to eight lights on a set whose top stop is of a rating that nobody knows: all at once are too many."""
    chance = Random(seed)
    one = numbers(seed)
    loads = tuple(Load(name, weight - doubt, weight + doubt, 2.0, is_cloth=False)
                  for name in "abcdefgh"[: chance.randint(3, 8)]
                  for weight, doubt in ((chance.uniform(15, 60), chance.choice((0.0, 0.0, 1.0))),))  # fmt: skip
    n = replace(one, loads=loads, off=0.0, line=0.0, reach=(44.0, 58.0),
                batten=(one.arbor + one.pipe * one.brick) / one.purchase)  # fmt: skip
    house = house_of(n)
    stops = small_house(stops="{top: unknown, bottom: unknown}").sets[0].written.stops
    bare = replace(house.sets[0], written=replace(house.sets[0].written, stops=stops))
    return n, replace(house, battens=(bare,))


@settings(max_examples=100, deadline=None)
@given(seed=integers(0, 10**9))
def test_lights_hung_a_few_at_a_time_with_bricks_between_break_no_limit_without_a_stop(seed: int) -> None:
    n, house = lights(seed)
    plan = load_in(house, "14")
    assume(plan.refusal is None)
    height, bricks = simulate(n, plan.steps, LOW, n.pipe, set(), stop=0.0)
    assert bricks == plan.final.bricks
    back = strike(house, "14")
    assert back.refusal is None
    height, bricks = simulate(n, back.steps, height, bricks, {load.name for load in n.loads}, stop=0.0)
    assert (height, bricks) == (LOW, n.pipe)


def test_most_electrics_without_a_stop_go_in_by_turns() -> None:
    plans = [load_in(lights(seed)[1], "14") for seed in range(60)]
    turns = [sum(step.act is Act.BRICKS_ON for step in plan.steps) for plan in plans if plan.refusal is None]
    assert len(turns) >= 30
    assert sum(count >= 2 for count in turns) >= 20
