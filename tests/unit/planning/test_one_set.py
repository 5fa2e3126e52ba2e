from dataclasses import replace

from counterpoise.planning import Act, Step, load_in, replay, strike
from tests.plain_house import a_house, a_piece, a_set, hung, rigged
from tests.small_house import small_house

BRIDGE = {"bridge": "bridge", "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft"}

HOUSE = small_house()


def test_a_simple_load_in_is_five_lines_with_the_count_in_the_bridges_reply() -> None:
    plan = load_in(HOUSE, "14")
    assert [line.to for line in plan.lines] == ["rail", "deck", "deck", "bridge", "rail"]
    bridge = plan.lines[3]
    # 290 lb and 25 lb bricks: 12 of them leave +10, 11 leave -15
    assert bridge.says == "Set 14: add 12 bricks. 18 on after. 2 plates, one on top, collars down."
    assert bridge.reply == "Set 14: 18 on, collars down, clear."
    assert plan.lines[2].after == "batten-heavy 290 lb, held by the top stop"


def test_lines_stand_for_all_the_steps() -> None:
    for plan in (load_in(HOUSE, "14"), strike(HOUSE, "14")):
        assert sum(line.steps for line in plan.lines) == len(plan.steps)
        assert [line.number for line in plan.lines] == list(range(1, len(plan.lines) + 1))


def test_no_line_says_that_word_and_no_sentence_is_long() -> None:
    for line in (*load_in(HOUSE, "14").lines, *strike(HOUSE, "14").lines):
        assert "safe" not in f"{line.says} {line.reply} {line.after}".lower()
        assert all(len(sentence.split()) <= 14 for sentence in line.says.split(". "))


def test_clear_is_called_before_weight_moves() -> None:
    for plan in (load_in(HOUSE, "14"), strike(HOUSE, "14")):
        clear = next(at for at, line in enumerate(plan.lines) if "Nobody below" in line.says)
        first = next(at for at, line in enumerate(plan.lines) if line.to == "bridge" or "Hang" in line.says)
        assert clear < first


def test_cloth_that_comes_off_the_floor_gets_its_bricks_as_it_rises() -> None:
    # 150 lb over 20 ft: 30 lb at 4 ft, so 3 bricks (+45) at most there and 6 at the end (1 brick: 25 lb); the seat at
    # 50 ft is in reach of a bridge that works from 34 ft up
    house = small_house(pieces={"drop": "150 lb"}, height="20 ft", comes="off the floor")
    deep = replace(house, bridges=(replace(house.bridges[0], reach_low=34 * 0.3048),))
    plan = load_in(deep, "14")
    assert plan.refusal is None
    assert plan.final.bricks == 12
    assert len([one for one in plan.steps if one.act is Act.BRICKS_ON]) > 1


def test_a_wall_that_no_order_keeps_within_the_lock_is_refused_with_the_hold_it_needs() -> None:
    # 400 lb of cloth over 20 ft, arbor in reach only near low trim. It must end within the lock, so 14 bricks or more
    # (-50), and all that is too much on the way is arbor-heavy
    plan = load_in(small_house(pieces={"drop": "400 lb"}, height="20 ft", comes="off the floor"), "14")
    assert plan.refusal is not None
    assert plan.refusal.code == "HOLD"
    assert "can haul" in plan.refusal.mend
    assert "against the batten rising" in plan.refusal.mend
    assert plan.steps == ()


def test_an_estimate_is_loaded_to_where_even_the_lightest_is_within_the_lock_then_felt() -> None:
    plan = load_in(small_house(pieces={"lamps": "~100 lb"}), "14")  # 80 to 120 lb: 4 bricks leave +20 to -20
    assert plan.refusal is None
    assert plan.final.bricks == 10
    branches = [(line.to, line.says, line.reply) for line in plan.lines if line.is_branch]
    assert branches[:4] == [
        ("rail", "Set 14: if half a brick batten-heavy, 13 lb, felt both ways: lock on, second hold on.",
         "Set 14: batten-heavy, locked, held."),
        ("deck", "Set 14: clear under bridge, arbor and batten. Nobody below.", "Set 14: clear below."),
        ("bridge", "Set 14: add 1 brick. 11 on after. One plate on top, collars down.",
         "Set 14: 11 on, collars down, clear."),
        ("rail", "Set 14: second hold off. Two on the rope. Feel it, crack the lock. Feel both ways, lock on.",
         "Set 14: felt, locked."),
    ]  # fmt: skip
    assert [says.rpartition(": ")[2] for to, says, _ in branches[4:] if to == "bridge"] == [
        "take off 1 brick. 9 on after. One plate on top, collars down."
    ]
    last = next(at for at, line in enumerate(plan.lines) if line.is_branch)
    assert "feel, back in" in plan.lines[last - 1].says  # it is felt where its bricks are in reach
    assert not any(line.to == "bridge" and not line.is_branch for line in plan.lines[last:])
    assert plan.lines[-1].says.endswith("lock on.")


def test_an_estimate_too_wide_for_the_lock_is_to_be_weighed() -> None:
    plan = load_in(small_house(pieces={"lamps": "~500 lb"}), "14")  # 400 to 600 lb against 50 lb either way
    assert plan.refusal is not None
    assert plan.refusal.code == "WEIGH"


def test_a_piece_taller_than_low_trim_is_tied_on_where_it_stands_on_the_deck() -> None:
    house = small_house(pieces={"flat": "200 lb"}, height="5 ft")
    plan = load_in(house, "14")
    assert plan.refusal is None
    move = next(one for one in plan.steps if one.act is Act.MOVE)
    assert abs(move.height - 5 * 0.3048) < 1e-9
    done = replay(house, plan.steps)
    # and it is not brought below where it lands: 200 lb would be on the lock
    down = [Step(act=Act.LOCK_OPEN, set="14"), Step(act=Act.FEEL, set="14"), Step(act=Act.MOVE, set="14", height=1.25)]
    refusal = replay(house, down, done.last).refusal
    assert refusal is not None
    assert refusal.code == "HOLD"


def test_a_set_out_of_service_has_no_plan() -> None:
    plan = load_in(small_house(service="rope lock slips"), "14")
    assert plan.refusal is not None
    assert plan.refusal.code == "SERVICE"


def test_a_stack_too_tall_for_the_arbor_is_said_so() -> None:
    # 66 in take 32 bricks of 2 in with 3 plates of 3/8 in; 800 lb ask for 32 more than 6
    plan = load_in(small_house(pieces={"wall": "800 lb"}), "14")
    assert plan.refusal is not None
    assert plan.refusal.code == "STACK"


def test_before_a_batten_comes_in_the_deck_is_called_and_answers() -> None:
    house = rigged(a_house(a_set(), bridges=[BRIDGE]), [a_piece("drop")], [hung("drop", show="20 ft")])
    plan = strike(house, "9")
    flights = [at for at, line in enumerate(plan.lines) if "Slowly" in line.says]
    assert flights
    for at in flights:
        calls = [line for line in plan.lines[:at] if line.to == "deck" and line.reply.endswith("clear below.")]
        assert calls
    assert plan.lines[flights[0] - 1].says == "Set 9: batten comes in. Clear below."


def test_nothing_below_and_no_stop_above_asks_for_a_hold_that_parks_or_says_what_is_missing() -> None:
    """In balance no flight is out of balance; standing, there is no stop for the arbor to be pressed into."""
    one = a_set(stops={"top": "none", "bottom": "1500 lb"}, pipe_weight="2")
    plan = load_in(rigged(a_house(one, bridges=[BRIDGE]), [a_piece(weight="100 lb")], [hung()]), "9")
    assert plan.refusal is not None
    assert plan.refusal.code == "HOLD"
    assert "a rated one that parks. Strength: at least 100 lb against the batten falling" in plan.refusal.mend


def test_too_few_bricks_are_told_as_such_where_no_hold_would_help() -> None:
    one = a_set(stops={"top": "none", "bottom": "1500 lb"})
    few = [{"brick": "full", "weight": "25 lb", "thickness": "1 in", "stock": {"bridge": "2"}}]
    pieces = [a_piece(name, "45 lb") for name in ("a", "b", "c")]
    house = rigged(a_house(one, bricks=few, bridges=[BRIDGE]), pieces, [hung(name) for name in ("a", "b", "c")])
    plan = load_in(house, "9")
    assert plan.refusal is not None
    assert plan.refusal.code == "STOCK"
    assert "bridge has 2 full" in plan.refusal.says


def test_with_no_bridge_and_no_rail_that_reaches_it_is_said_that_bricks_cannot_be_brought() -> None:
    plan = load_in(rigged(a_house(a_set()), [a_piece(weight="200 lb")], [hung()]), "9")
    assert plan.refusal is not None
    assert plan.refusal.code == "REACH"
    assert "no bridge, and no rail with a reach" in plan.refusal.says


def test_six_bricks_on_the_upper_bridge_and_the_rest_on_a_lower_one_are_enough() -> None:
    """200 lb want 8 bricks: 6 at the arbor's low-trim bridge leave 50 lb batten-heavy, the others go on lower down."""
    bridges = [{"bridge": "upper", "floor": "50 ft", "reach from": "-3 ft", "reach to": "4 ft"},
               {"bridge": "lower", "floor": "40 ft", "reach from": "-3 ft", "reach to": "7 ft"}]  # fmt: skip
    stock = [{"brick": "full", "weight": "25 lb", "thickness": "2 in", "stock": {"upper": "6", "lower": "40"}}]
    one = a_house(a_set(), bridges=bridges, bricks=stock, rules={"lock hold": "50 lb"})
    places = [hung("wall", show="20 ft"), hung("sign", show="20 ft")]
    house = rigged(one, [a_piece("wall", "180 lb"), a_piece("sign", "20 lb")], places)
    plan = load_in(house, "9")
    assert plan.refusal is None
    taken = {name: sum(step.bricks for step in plan.steps if step.act is Act.BRICKS_ON and step.bridge == name)
             for name in ("upper", "lower")}  # fmt: skip
    assert taken["upper"] <= 6
    assert sum(taken.values()) == 8
    assert replay(house, plan.steps).refusal is None
