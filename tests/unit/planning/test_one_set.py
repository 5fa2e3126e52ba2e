from dataclasses import replace

from counterpoise.planning import Act, Step, load_in, replay, strike
from tests.small_house import small_house

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
    assert plan.arbor_peak is not None
    assert plan.batten_peak is not None


def test_an_estimate_is_loaded_to_where_even_the_lightest_is_within_the_lock_then_felt() -> None:
    plan = load_in(small_house(pieces={"lamps": "~100 lb"}), "14")  # 80 to 120 lb: 4 bricks leave +20 to -20
    assert plan.refusal is None
    assert plan.final.bricks == 10
    branches = [line.says for line in plan.lines if line.is_branch]
    assert branches == [
        "Set 14: if half a brick batten-heavy: locked, held. Add 1, feel again. 1 at most.",
        "Set 14: if half a brick arbor-heavy: locked, held. Take off 1, feel again. 1 at most.",
    ]


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
