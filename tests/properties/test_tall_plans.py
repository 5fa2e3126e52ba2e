"""Laws of plans for tall pieces, judged by a simulator that shares nothing with them: pounds and feet, by hand."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from random import Random

from hypothesis import given, settings
from hypothesis.strategies import integers

from counterpoise.planning.needed import Need, need_of
from counterpoise.planning.tall import TallWay, find_tall_way
from counterpoise.rigging import RiggedBridge, RiggedHouse, RiggedPart, RiggedSet
from tests.small_house import small_house

FOOT, POUND = 0.3048, 0.45359237
FORCE = POUND * 9.80665
LOCK, LOW, LOFT, SEAT = 50.0, 4.0, 62.0, 56.0
BASE = small_house(pieces={"wall": "100 lb"})
HAIR = 1e-4  # [ft]: just below a height, far less than a section needs to leave the deck


@dataclass(frozen=True)
class Section:
    weight: float  # lb
    joins: float  # ft; at or below low trim: hung with the first
    clear: float  # ft
    tipped: float  # share on the batten until it is clear


@dataclass(frozen=True)
class Numbers:
    """One random wall on one random set, in pounds and feet."""

    purchase: int
    high: float
    arbor: float
    batten: float
    pipe: int
    brick: float
    thick: float
    line: float  # all lift lines together [lb/ft]
    sections: tuple[Section, ...]
    reaches: tuple[tuple[float, float], ...]
    stock: int


def numbers(seed: int, *, small: bool = False) -> Numbers:
    chance = Random(seed)
    purchase = chance.choice((1, 1, 1, 2))
    brick = chance.choice((20.0, 25.0, 50.0)) if not small else 50.0
    pipe, arbor = chance.randint(1, 4), chance.uniform(50, 90)
    line = 0.0 if small else chance.choice((0.0, 0.0, 0.4))
    sections, top = [], 1.0
    for number in range(chance.randint(1, 2 if small else 3)):
        tall = chance.choice((4.0, 6.0, 8.0, 10.0))
        joins = 0.0 if number == 0 else top + chance.choice((0.0, 0.5, 1.0, 2.0))
        sections.append(Section(chance.uniform(40, 150 if small else 330), joins, top + tall, chance.uniform(0.3, 0.6)))
        top += tall
    reaches = []
    for place in range(chance.randint(1, 3)):
        low = SEAT - chance.uniform(-1, 54 / purchase) if place else SEAT - chance.uniform(0, 4)
        reaches.append((low, low + chance.uniform(2.0, 9.0)))
    return Numbers(
        purchase=purchase, high=40.0 if purchase == 2 else 58.0, arbor=arbor,
        batten=(arbor + pipe * brick) / purchase - line * (LOFT - LOW) + chance.uniform(-12, 12), pipe=pipe,
        brick=brick, thick=chance.uniform(0.5, 2.0) / 12, line=line, sections=tuple(sections), reaches=tuple(reaches),
        stock=chance.choice((200, 200, 6)),
    )  # fmt: skip


def house_of(n: Numbers) -> tuple[RiggedHouse, RiggedSet]:
    one = BASE.sets[0]
    stock = {f"place {at}": n.stock for at in range(len(n.reaches))}
    brick = replace(one.brick, mass=n.brick * POUND, spread=0.0, thickness=n.thick * FOOT, stock=stock)
    parts = tuple(RiggedPart(mass=(each.weight * POUND,) * 3, joins=each.joins * FOOT, clear=each.clear * FOOT,
                             tipped=each.tipped) for each in n.sections)  # fmt: skip
    wall = replace(one.pieces[0], parts=parts, height=n.sections[-1].clear * FOOT)
    rigged = replace(one, purchase=n.purchase, high=n.high * FOOT, line_mass=n.line * POUND / FOOT / len(one.lines),
                     made=replace(one.made, mass=n.batten * POUND), hardware_mass=0.0, arbor_mass=n.arbor * POUND,
                     brick=brick, pipe_bricks=n.pipe, plate_mass=0.0, plate_thickness=0.0, pieces=(wall,),
                     seat_low=SEAT * FOOT, usable_height=10 * FOOT)  # fmt: skip
    bridges = tuple(RiggedBridge(name=f"place {at}", floor=low * FOOT, reach_low=low * FOOT, reach_high=high * FOOT,
                                 most=None, people=0) for at, (low, high) in enumerate(n.reaches))  # fmt: skip
    return replace(BASE, battens=(rigged,), bricks={"full": brick}, bridges=bridges), rigged


# --- the simulator: its own arithmetic -------------------------------------------------------------------------------


def hangs(n: Numbers, height: float, joined: int) -> float:
    """What of the wall is on the batten [lb], with this many sections on."""
    return sum(each.weight * (1.0 if height >= each.clear - 1e-6 else each.tipped) for each in n.sections[:joined])


def balance(n: Numbers, bricks: int, height: float, joined: int) -> float:
    """Arbor less batten [lb], as felt at the batten."""
    arbor = n.arbor + bricks * n.brick + n.line * (height - LOW)
    return arbor / n.purchase - n.batten - n.line * (LOFT - height) - hangs(n, height, joined)


def within_reach(n: Numbers, place: int, bricks: int, height: float) -> bool:
    low, high = n.reaches[place]
    seat = SEAT - (height - LOW) / n.purchase
    tops = (seat + bricks * n.thick, seat + (bricks + 1) * n.thick)
    return low - 1e-5 <= min(tops) and max(tops) <= high + 1e-5


def instants(n: Numbers, way: TallWay) -> Iterator[tuple[float, int, int, bool]]:
    """Height, bricks, sections on, and whether it moves, at every instant of a way done by hand in steps of an inch."""
    height, bricks, joined = LOW, n.pipe, 0
    for k, here in enumerate(way.stations):
        to = here.height / FOOT
        if joined and abs(to - height) > 1e-3:
            for at in between(n, height, to):
                yield at, bricks, joined, True
        height = round(to, 4)
        if here.is_event:
            joined = sum(each.joins <= height + HAIR for each in n.sections)
            assert height <= LOW + HAIR or any(abs(each.joins - height) <= HAIR for each in n.sections)
            yield height, bricks, joined, False
        for change in (one for one in way.changes if one.station == k):
            assert change.before == bricks
            assert joined  # batten first
            while bricks != change.after:
                more = 1 if change.after > bricks else -1
                assert within_reach(n, int(change.place[-1]), min(bricks, bricks + more), to)
                bricks += more
                yield height, bricks, joined, False
    assert joined == len(n.sections)
    for at in between(n, height, way.goal / FOOT):
        yield at, bricks, joined, True
    assert bricks == way.bricks


def between(n: Numbers, start: float, end: float) -> Iterator[float]:
    parts = max(1, round(abs(end - start) * 12))
    passed = [
        at for each in n.sections for at in (each.clear - HAIR, each.clear) if min(start, end) < at < max(start, end)
    ]
    yield from sorted([*passed, *(start + (end - start) * part / parts for part in range(parts + 1))])


def check_way(n: Numbers, way: TallWay, need: Need | None) -> None:
    done = list(instants(n, way))
    found = [balance(n, bricks, height, joined) for height, bricks, joined, _ in done]
    beyond = [at for at, ((height, _, _, moves), out) in enumerate(zip(done, found, strict=True))
              if abs(out) > LOCK + 1e-3 and (moves or height > LOW + HAIR or out > 0)]  # fmt: skip
    assert abs(found[-1]) <= LOCK + 1e-3
    if need is None:
        assert beyond == []
        return
    assert beyond
    worst = max(abs(found[at]) for at in beyond)
    assert abs(worst - way.peak / FORCE) < 0.02
    sides = {side.against: side for side in need.sides}
    for at in beyond:
        side = sides["batten rising" if found[at] > 0 else "batten falling"]
        assert abs(found[at]) <= side.force / FORCE + 0.02
        assert side.does == "haul" or not done[at][3]
        assert need.low / FOOT - 0.1 <= done[at][0] <= need.high / FOOT + 0.1
    assert done[beyond[0]][1] == need.start.bricks


@cache
def planned(seed: int, *, small: bool = False) -> tuple[Numbers, TallWay | None, Need | None]:
    n = numbers(seed, small=small)
    house, rigged = house_of(n)
    way = find_tall_way(house, rigged)
    return n, way, need_of(house, rigged, way) if way else None


@settings(max_examples=150, deadline=None)
@given(seed=integers(0, 10**9))
def test_no_instant_of_a_way_is_worse_than_it_says(seed: int) -> None:
    n, way, need = planned(seed)
    if way is not None:
        check_way(n, way, need)


def test_of_random_walls_many_stay_within_many_need_a_hold_and_many_have_no_way() -> None:
    found = [planned(seed) for seed in range(100)]
    assert sum(way is None for _, way, _ in found) >= 10
    assert sum(need is not None for _, _, need in found) >= 10
    assert sum(way is not None and need is None for _, way, need in found) >= 10


# --- exhaustive ------------------------------------------------------------------------------------------------------


def stops(n: Numbers) -> list[tuple[float, int]]:
    """Every half foot, and before and after each event: height and sections on."""
    joins = sorted(each.joins for each in n.sections[1:])
    heights = {LOW + half / 2 for half in range(int((n.high - LOW) * 2) + 1)}
    heights |= {at for each in n.sections for at in (each.clear, each.clear - HAIR) if LOW <= at <= n.high}
    found = {(at, 1 + sum(each <= at for each in joins)) for at in heights - set(joins)}
    for each in joins:
        found |= {(each, 1 + joins.index(each)), (each, 1 + sum(one <= each for one in joins))}
    return sorted(found)


def least_peak(n: Numbers, most: int) -> float | None:
    """The least largest out of balance beyond the lock of all ways over those stops, None where there is none.

    Every stop, every count, every change that some crew reaches: a closure over all paths, nothing left out.
    """

    def beyond(bricks: int, height: float, joined: int, *, moves: bool) -> float:
        out = balance(n, bricks, height, joined)
        return 0.0 if abs(out) <= LOCK + 1e-6 or (not moves and out < 0 and height <= LOW + HAIR) else abs(out)

    goal = min(n.high, max(LOW, n.sections[-1].clear))
    every = stops(n)
    if any(each.joins > n.high for each in n.sections):
        return None
    best, found = {n.pipe: beyond(n.pipe, LOW, 1, moves=False)}, None
    for before, here in itertools.pairwise([every[0], *every]):
        if here != before:
            moves = here[0] != before[0]
            best = {bricks: max(peak, beyond(bricks, *before, moves=moves), beyond(bricks, *here, moves=moves))
                    for bricks, peak in best.items()}  # fmt: skip
        can = [bricks for bricks in range(n.pipe, most)
               if any(within_reach(n, place, bricks, here[0]) for place in range(len(n.reaches)))]  # fmt: skip
        changed = bool(can)
        while changed:
            changed = False
            for a, b in (
                (a, b) for bricks in can for a, b in ((bricks, bricks + 1), (bricks + 1, bricks)) if a in best
            ):
                peak = max(best[a], beyond(b, *here, moves=False))
                changed |= peak < best.get(b, 1e9)
                best[b] = min(best.get(b, 1e9), peak)
        if here[1] == len(n.sections) and here[0] >= goal - 1e-9:
            back = [each for each in every if goal - 1e-9 <= each[0] <= here[0] and each[1] == here[1]]
            ends = [max(best[bricks], *(beyond(bricks, *each, moves=True) for each in back)) for bricks in best
                    if abs(balance(n, bricks, goal, here[1])) <= LOCK + 1e-6]  # fmt: skip
            found = min([*ends, *([] if found is None else [found])], default=None)
    return found


def most_bricks(n: Numbers) -> int:
    """No more than the arbor takes, than there are, and than four past what balances it."""
    want = (
        n.purchase * (n.batten + n.line * (LOFT - LOW) + sum(each.weight for each in n.sections)) - n.arbor
    ) / n.brick
    fits = int(10 / n.thick + 1e-9)
    return max(n.pipe, min(fits, n.pipe + n.stock * len(n.reaches), round(want) + 3))


@settings(max_examples=120, deadline=None)
@given(seed=integers(0, 10**9))
def test_no_other_way_of_a_small_case_has_a_smaller_peak_and_none_is_refused_that_can_be_done(seed: int) -> None:
    n, way, _ = planned(seed, small=True)
    least = least_peak(n, most_bricks(n))
    if way is None:
        assert least is None
    elif least is not None:
        assert way.peak / FORCE <= least + 0.01


def test_of_small_cases_many_have_a_way_and_many_of_those_need_a_hold() -> None:
    found = [planned(seed, small=True) for seed in range(150)]
    assert sum(way is not None for _, way, _ in found) >= 40
    assert sum(need is not None for _, _, need in found) >= 15


def every_way(n: Numbers, most: int) -> Iterator[tuple[list[float], int, int, int]]:
    """Each way there is over whole feet and the events, one after the other: legs beyond the lock, changes, bricks.

    No way is left out for being worse than another: nothing is compared here. Gives legs worst first, then how far the
    last count is from what balances it, changes and bricks handled.
    """
    goal, joins = min(n.high, max(LOW, n.sections[-1].clear)), [each.joins for each in n.sections[1:]]
    every = [each for each in stops(n) if each[0] <= goal and (each[0] == int(each[0]) or each[0] in (*joins, goal))]
    fine = [each for each in stops(n) if each[0] <= goal + HAIR]
    want = best_count(n)

    def leg(bricks: int, start: tuple[float, int], end: tuple[float, int]) -> list[float]:
        passed = [each for each in fine if start <= each <= end]
        out = max((abs(balance(n, bricks, *each)) for each in passed), default=0.0)
        return [round(out, 2)] if out > LOCK + 1e-6 and start != end else []

    def go(at: int, since: int, bricks: int, legs: list[float], changes: int, handled: int) -> Iterator[
        tuple[list[float], int, int, int]
    ]:  # fmt: skip
        if at == len(every) - 1 and abs(balance(n, bricks, goal, len(n.sections))) <= LOCK + 1e-6:
            whole = legs + leg(bricks, every[since], every[at])
            yield sorted(whole, reverse=True), abs(bricks - want), changes, handled
        if at + 1 < len(every):
            yield from go(at + 1, since, bricks, legs, changes, handled)
        for place in range(len(n.reaches)) if changes < 3 and (at != since or not changes) else ():
            for after in range(n.pipe, most + 1):
                counts = range(min(bricks, after), max(bricks, after))
                if counts and all(within_reach(n, place, count, every[at][0]) for count in counts):
                    more = leg(bricks, every[since], every[at])
                    if at + 1 < len(every):
                        yield from go(at + 1, at, after, legs + more, changes + 1, handled + len(counts))
                    elif abs(balance(n, after, goal, len(n.sections))) <= LOCK + 1e-6:
                        yield sorted(legs + more, reverse=True), abs(after - want), changes + 1, handled + len(counts)

    yield from go(0, 0, n.pipe, [], 0, 0)


def best_count(n: Numbers) -> int:
    """What balances it once all hangs; no lift-line weight here, so the same at every height."""
    outs = {count: abs(balance(n, count, n.high, len(n.sections))) for count in range(n.pipe, n.pipe + 40)}
    return min(outs, key=lambda count: (round(outs[count], 6), count))


def test_every_way_of_tiny_cases_written_out_none_is_better_by_any_of_what_is_compared() -> None:
    seen = 0
    for seed in range(400):
        n = replace(numbers(seed, small=True), thick=0.04)
        n = replace(n, sections=n.sections[:1], reaches=n.reaches[:2])
        goal = min(n.high, n.sections[-1].clear)
        if goal > 9 or best_count(n) - n.pipe > 3:
            continue
        house, rigged = house_of(n)
        way = find_tall_way(house, rigged)
        best = min(every_way(n, best_count(n) + 2), default=None)
        if way is None:
            assert best is None
            continue
        seen += 1
        beyond = [max(one.arbor.arbor, one.batten.batten) / FORCE for one in way.legs if not one.is_within]
        legs = sorted((round(peak, 2) for peak in beyond), reverse=True)
        handled = sum(abs(one.after - one.before) for one in way.changes)
        found = legs, abs(way.bricks - best_count(n)), len(way.changes), handled
        assert best is None or found <= best, (seed, found, best)
    assert seen >= 20
