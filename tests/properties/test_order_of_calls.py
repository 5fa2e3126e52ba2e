"""Laws of the order of a call, held against every order there is on small cases and against a count by hand.

Nothing here shares code with what it judges: bricks are counted one after another in whole numbers.
"""

from collections.abc import Sequence
from itertools import permutations
from random import Random

from hypothesis import given, settings
from hypothesis.strategies import integers

from counterpoise.planning.bridges import choose_bridges
from counterpoise.planning.floors import Floors, Moved, Task
from counterpoise.planning.order import find_order, in_this_order

BRIDGE = ("full", "bridge")
Pairs = Sequence[tuple[int, int]]  # of each set the bricks that come off it, then those that go on


def tasks_of(pairs: Pairs) -> list[Task]:
    return [
        Task(name=str(at), moved=(Moved(*BRIDGE, off), Moved(*BRIDGE, -on)) if off else (Moved(*BRIDGE, -on),))
        for at, (off, on) in enumerate(pairs)
    ]


def floors_of(stock: int, most: int) -> Floors:
    return Floors(stock={BRIDGE: stock}, mass={"full": 10.0}, most={"bridge": 10.0 * most})


def goes(pairs: Pairs, stock: int, most: int) -> bool:
    """True where one after another can be done with what lies there."""
    for off, on in pairs:
        stock += off
        if off and stock > most:
            return False
        stock -= on
        if stock < 0:
            return False
    return True


def help_taken(pairs: Pairs, stock: int, most: int) -> tuple[int, int] | None:
    """Bricks that are not there, and bricks carried, if each is carried at the last moment; None: no room at all."""
    debt = short = carried = 0
    for off, on in pairs:
        sent = max(0, stock + off - most) if off else 0
        if sent > stock:
            return None
        brought = max(0, on - (stock - sent + off))
        if brought and off and stock - sent + brought + off > most:
            return None
        stock += brought - sent + off - on
        debt += brought - sent
        carried += brought + sent
        short = max(short, debt)
    return short, carried


def case(seed: int, sets: int) -> tuple[list[tuple[int, int]], int, int]:
    chance = Random(seed)
    kind = chance.choice(("change", "change", "on", "off"))
    pairs = [(0 if kind == "on" else chance.randint(0, 9), 0 if kind == "off" else chance.randint(0, 9))
             for _ in range(sets)]  # fmt: skip
    return pairs, chance.randint(0, 12), chance.randint(9, 24)


@settings(max_examples=400)
@given(seed=integers(0, 10**9))
def test_an_order_without_help_is_found_just_where_one_of_all_orders_goes(seed: int) -> None:
    pairs, stock, most = case(seed, 6)
    found = find_order(tasks_of(pairs), floors_of(stock, most))
    works = any(goes(order, stock, most) for order in permutations(pairs))
    assert found.needs_help != works
    if works:
        assert goes([pairs[at] for at in found.sequence], stock, most)


@settings(max_examples=200)
@given(seed=integers(0, 10**9))
def test_no_order_of_all_takes_less_help_and_what_is_told_is_what_it_takes(seed: int) -> None:
    pairs, stock, most = case(seed, 5)
    found = find_order(tasks_of(pairs), floors_of(stock, most))
    every = [cost for order in permutations(pairs) if (cost := help_taken(order, stock, most)) is not None]
    if found.stuck:
        assert every == []
        return
    assert help_taken([pairs[at] for at in found.sequence], stock, most) == (found.short, found.carried)
    assert (found.short, found.carried) == min(every)
    assert found.is_proven
    assert found.least <= min(every)


@settings(max_examples=100)
@given(seed=integers(0, 10**9))
def test_what_is_asked_for_is_enough(seed: int) -> None:
    pairs, stock, most = case(seed, 7)
    found = find_order(tasks_of(pairs), floors_of(stock, most))
    if found.stuck:
        return
    for at, task in enumerate(found.sequence):
        stock += sum(one.count for one in found.freight if one.at == at)
        assert stock >= 0
        assert goes([pairs[task]], stock, most)
        stock += pairs[task][0] - pairs[task][1]


@settings(max_examples=60)
@given(seed=integers(0, 10**9), budget=integers(1, 60))
def test_a_budget_that_is_too_small_still_gives_an_order_and_claims_no_more_than_is_so(seed: int, budget: int) -> None:
    pairs, stock, most = case(seed, 6)
    small = find_order(tasks_of(pairs), floors_of(stock, most), budget)
    assert sorted(small.sequence) == list(range(len(pairs)))
    every = [cost for order in permutations(pairs) if (cost := help_taken(order, stock, most)) is not None]
    if every:
        assert small.least <= min(every)
    if not small.stuck and every:
        assert (small.short, small.carried) >= min(every)


def test_of_orders_that_go_the_one_nearest_the_houses_own_is_taken() -> None:
    pairs = [(5, 9), (9, 5), (4, 4)]  # with 2 bricks the first set waits for the second
    assert find_order(tasks_of(pairs), floors_of(2, 40)).sequence == (1, 0, 2)
    assert find_order(tasks_of(pairs), floors_of(4, 40)).sequence == (0, 1, 2)


def test_what_must_come_before_comes_before() -> None:
    first = Task(name="a", moved=(Moved(*BRIDGE, -1),), after=frozenset({1}))
    second = Task(name="b", moved=(Moved(*BRIDGE, -1),))
    assert find_order([first, second], floors_of(5, 40)).sequence == (1, 0)


def test_the_random_cases_hold_some_that_go_in_the_given_order_some_in_another_and_some_in_none() -> None:
    cases = [case(seed, 6) for seed in range(300)]
    plain = [goes(*one) for one in cases]
    some = [any(goes(order, stock, most) for order in permutations(pairs)) for pairs, stock, most in cases]
    assert sum(plain) > 30
    assert sum(works and not so for works, so in zip(some, plain, strict=True)) > 15
    assert some.count(False) > 60


# --- from which bridge ---------------------------------------------------------------------------------------------


@settings(max_examples=150)
@given(seed=integers(0, 10**9))
def test_no_choice_of_bridges_is_short_by_less(seed: int) -> None:
    chance = Random(seed)
    counts = [chance.randint(1, 9) for _ in range(7)]
    both = [chance.random() < 0.8 for _ in counts]
    stock = {("full", "upper"): chance.randint(5, 25), ("full", "lower"): chance.randint(5, 25)}
    ways = [[Task(name=str(at), moved=(Moved("full", place, -count),))
             for place in (("upper", "lower") if two else ("upper",))]
            for at, (count, two) in enumerate(zip(counts, both, strict=True))]  # fmt: skip
    floors = Floors(stock=stock, mass={"full": 10.0}, most={})
    chosen = choose_bridges(ways, floors)

    def short(lower: int) -> int:
        on_lower = sum(count for at, count in enumerate(counts) if lower >> at & 1)
        return (max(0, on_lower - stock["full", "lower"])
                + max(0, sum(counts) - on_lower - stock["full", "upper"]))  # fmt: skip

    allowed = [lower for lower in range(1 << 7) if all(both[at] or not lower >> at & 1 for at in range(7))]
    assert short(sum(way << at for at, way in enumerate(chosen))) == min(map(short, allowed))


def test_an_order_that_is_asked_for_is_told_what_it_takes() -> None:
    found = in_this_order(tasks_of([(5, 9), (9, 5)]), floors_of(2, 40), (0, 1))
    assert (found.short, found.carried) == (2, 2)
    assert [(one.at, one.count) for one in found.freight] == [(0, 2)]
