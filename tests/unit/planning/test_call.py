"""Whole calls: what is held, what is kept, who goes before whom, and what is told as not checked."""

from dataclasses import replace
from typing import Any

from counterpoise.planning import Act, Refusal, Step, replay
from counterpoise.planning.call import Call, load_in_call, steps_of, strike_call
from counterpoise.planning.changeover import changeover
from counterpoise.planning.turns import Wanted
from counterpoise.rigging import RiggedHouse
from tests.plain_house import FT, Map, a_house, a_piece, a_set, hung, rigged

STOCK = {"brick": "full", "weight": "25 lb", "thickness": "1 in"}


def bridge(name: str = "bridge", **changes: Any) -> Map:
    return {"bridge": name, "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft"} | changes


def house(*sets: Map, stock: Map | None = None, bridges: list[Map] | None = None) -> Map:
    return a_house(*sets, bricks=[STOCK | {"stock": stock or {"bridge": "200"}}], bridges=bridges or [bridge()],
                   rules={"lock hold": "50 lb"})  # fmt: skip


def three(**changes: Any) -> Map:
    return house(*(a_set(label, distance=f"{label} ft") for label in "123"), **changes)


def hang(tree: Map, **on: str) -> RiggedHouse:
    """`_1="leg 100 lb"`: a piece and its weight on set 1."""
    said = {label[1:]: words.split(" ", 1) for label, words in on.items()}
    pieces = {name: a_piece(name, weight) for name, weight in said.values()}
    return rigged(tree, list(pieces.values()), [hung(name, label) for label, (name, _) in said.items()])


def order(call: Call) -> list[str]:
    return [turn.set for turn in call.turns]


def test_a_load_in_goes_through_the_sets_in_the_order_of_the_house_and_leaves_empty_ones_alone() -> None:
    call = load_in_call(hang(three(), _3="leg 100 lb", _1="border 50 lb"))
    assert order(call) == ["1", "3"]
    assert [line.number for line in call.lines] == list(range(1, len(call.lines) + 1))
    assert call.end.sets["2"] == call.begin.sets["2"]


def test_a_set_that_cannot_be_loaded_is_held_and_the_others_are_worked() -> None:
    tree = house(a_set("1", stops={"top": "60 lb", "bottom": "60 lb"}), a_set("2", distance="5 ft"))
    call = load_in_call(hang(tree, _1="wall 300 lb", _2="leg 100 lb"))
    assert order(call) == ["2"]
    assert [one.set for one in call.held] == ["1"]
    assert call.held[0].refusal.mend


NO_ARBOR: Map = {"purchase": None, "arbor": None, "pipe_weight": None, "stops": None, "tension_block": None,
                 "hand_line": None, "brick": None}  # fmt: skip
HEMP = a_set("2", distance="5 ft", rigged="hemp", **NO_ARBOR,
             bags={"weight": "230 lb", "pin": "300 lb", "hauls": "50 lb"})  # fmt: skip


def test_a_set_out_of_service_and_a_dead_hung_one_are_held() -> None:
    dead = a_set("2", distance="5 ft", rigged="dead-hung", **NO_ARBOR)
    call = load_in_call(hang(house(a_set("1", out_of_service="a bent shaft"), dead), _1="leg 100 lb", _2="sky 50 lb"))
    assert [(one.set, one.refusal.code) for one in call.held] == [("1", "SERVICE"), ("2", "NO-ARBOR")]
    assert call.turns == ()


def test_a_hemp_set_has_its_turn_in_a_call_with_bags_and_without_bricks() -> None:
    one = hang(house(a_set("1"), HEMP), _1="leg 100 lb", _2="sky 150 lb")
    for call in (load_in_call(one), strike_call(one)):
        assert (call.held, call.refusal, order(call)) == ((), None, ["1", "2"])
        assert any(line.set == "2" and "bags" in line.says for line in call.lines)
        assert {step.set for step in steps_of(call)} == {"1"}
    stays = changeover(one, hang(house(a_set("1"), HEMP), _1="border 50 lb", _2="sky 150 lb"))
    assert (stays.kept, order(stays)) == (("2",), ["1"])
    goes = changeover(one, hang(house(a_set("1"), HEMP), _1="leg 100 lb", _2="cloud 150 lb"))
    assert (goes.kept, order(goes), goes.held) == (("1",), ["2"], ())


def test_a_set_that_a_check_holds_is_held_at_the_load_in_and_not_at_the_strike() -> None:
    over = Wanted(held={"1": Refusal(code="OVER", says="Set 1 would end over.", mend="Hang less.")})
    one = hang(three(), _1="leg 100 lb", _2="border 50 lb")
    assert order(load_in_call(one, over)) == ["2"]
    assert order(strike_call(one, over)) == ["1", "2"]


def test_a_call_from_where_some_sets_hang_already_leaves_them_out() -> None:
    first = load_in_call(hang(three(), _1="leg 100 lb"))
    call = load_in_call(hang(three(), _1="leg 100 lb", _2="border 50 lb"), begin=first.end)
    assert order(call) == ["2"]
    assert call.refusal is None
    assert call.end.stock["full"]["bridge"] == 200 - 4 - 2


# --- more than one bridge ------------------------------------------------------------------------------------------


def test_where_one_bridge_runs_short_sets_are_worked_from_another_that_reaches_too() -> None:
    tree = three(stock={"upper": "8", "lower": "8"}, bridges=[bridge("upper"), bridge("lower")])
    call = load_in_call(hang(tree, _1="leg 100 lb", _2="border 100 lb", _3="sky 100 lb"))
    assert call.refusal is None
    assert call.end.stock["full"] in ({"upper": 0, "lower": 4}, {"upper": 4, "lower": 0})


def test_where_all_bridges_together_are_short_it_is_said_how_many_to_bring_and_where() -> None:
    tree = three(stock={"upper": "4", "lower": "4"}, bridges=[bridge("upper"), bridge("lower")])
    call = load_in_call(hang(tree, _1="leg 100 lb", _2="border 100 lb", _3="sky 100 lb"))
    assert call.refusal is not None
    assert "Short by 4 full bricks in any order" in call.refusal.says
    assert sum(ask.count for ask in call.asks) == 4


def test_a_floor_whose_posting_is_not_known_is_told_as_not_checked() -> None:
    call = load_in_call(hang(three(), _1="leg 100 lb"))
    assert any(note.startswith("Not checked: the floor of bridge") for note in call.notes)


# --- neighbours ----------------------------------------------------------------------------------------------------


def thick(tree: Map, trims: dict[str, str], **feet: str) -> RiggedHouse:
    pieces = [a_piece(f"p{label[1:]}", "100 lb", thickness=much, height="3 ft") for label, much in feet.items()]
    places = [hung(f"p{label[1:]}", label[1:], **({"show": trims[label]} if label in trims else {})) for label in feet]
    return rigged(tree, pieces, places)


def test_a_piece_that_flies_past_a_thick_neighbour_is_loaded_before_it_and_struck_after_it() -> None:
    # sets 1 ft apart, pieces 2 ft thick: they overlap. Set 2 goes out to 50 ft, past set 1 at 20 ft.
    one = thick(three(), {"_1": "20 ft", "_2": "50 ft"}, _1="2 ft", _2="2 ft")
    assert order(load_in_call(one)) == ["2", "1"]
    assert order(strike_call(one)) == ["1", "2"]


def test_thin_neighbours_keep_the_order_of_the_house() -> None:
    one = thick(three(), {"_1": "20 ft", "_2": "50 ft"}, _1="6 in", _2="6 in")
    assert order(load_in_call(one)) == ["1", "2"]
    assert not any("foul" in note and "Not checked" not in note for note in load_in_call(one).notes)


def test_of_neighbours_that_foul_whichever_goes_first_one_is_held() -> None:
    one = thick(three(), {"_1": "20 ft", "_2": "21 ft"}, _1="2 ft", _2="2 ft", _3="6 in")
    call = load_in_call(one)
    assert (call.refusal, order(call)) == (None, ["1", "3"])
    assert [(each.set, each.refusal.code) for each in call.held] == [("2", "FOULS")]
    assert "Set 2 and set 1 foul each other" in call.held[0].refusal.says


def test_pieces_that_lie_beside_each_other_along_their_battens_pass() -> None:
    pieces = [a_piece(name, "100 lb", thickness="2 ft", spread_over="6 ft") for name in ("right", "left")]
    places = [hung("right", "1", centre="10' SR", show="20 ft"), hung("left", "2", centre="10' SL", show="21 ft")]
    call = load_in_call(rigged(three(), pieces, places))
    assert (call.refusal, call.held, order(call)) == (None, (), ["1", "2"])


def test_a_move_through_what_hangs_on_another_set_is_refused_and_hanging_clear_of_it_is_not() -> None:
    one = thick(three(), {"_1": "20 ft", "_2": "50 ft"}, _1="2 ft", _2="2 ft")
    out = load_in_call(one)
    assert out.refusal is None
    again = [Step(act=Act.LOCK_OPEN, set="2"), Step(act=Act.FEEL, set="2"), Step(act=Act.MOVE, set="2", height=4 * FT)]
    refusal = replay(one, again, out.end).refusal
    assert refusal is not None
    assert (refusal.code, refusal.step) == ("FOULS", again[-1])
    assert "p1 on set 1" in refusal.says
    thin = thick(three(), {"_1": "20 ft", "_2": "50 ft"}, _1="6 in", _2="6 in")
    assert replay(thin, again, load_in_call(thin).end).refusal is None


def test_a_piece_that_hangs_in_the_path_of_the_fire_curtain_is_not_hung() -> None:
    tree = three()
    tree["stage"]["fire curtain"] = {"from": "1 ft 6 in", "to": "2 ft 6 in"}
    call = load_in_call(hang(tree, _1="leg 100 lb", _2="border 50 lb"))
    assert order(call) == ["1"]
    assert [(each.set, each.refusal.code) for each in call.held] == [("2", "CURTAIN")]


def test_a_thickness_that_is_not_written_is_told_as_not_checked() -> None:
    call = load_in_call(hang(three(), _1="leg 100 lb"))
    assert any("a neighbour is fouled by set 1" in note for note in call.notes)


def test_an_order_asked_for_that_would_foul_is_refused() -> None:
    one = thick(three(), {"_1": "20 ft", "_2": "50 ft"}, _1="2 ft", _2="2 ft")
    call = load_in_call(one, Wanted(order=("1", "2")))
    assert call.refusal is not None
    assert call.refusal.code == "ORDER"
    assert call.lines == ()


# --- changeover ----------------------------------------------------------------------------------------------------


def test_a_piece_that_goes_to_another_set_is_struck_there_before_it_is_hung_here() -> None:
    call = changeover(hang(three(), _3="leg 100 lb"), hang(three(), _1="leg 100 lb"))
    assert [(turn.set, turn.what) for turn in call.turns] == [("3", "strike"), ("1", "load-in")]


def test_two_pieces_that_change_places_are_both_struck_before_either_is_hung() -> None:
    old = hang(three(), _1="leg 100 lb", _2="sky 50 lb", _3="border 25 lb")
    call = changeover(old, hang(three(), _1="sky 50 lb", _2="leg 100 lb", _3="cloth 25 lb"))
    assert [(turn.set, turn.what) for turn in call.turns] == [
        ("1", "strike"), ("2", "strike"), ("1", "load-in"), ("2", "load-in"), ("3", "change")]  # fmt: skip
    assert any("In two turns" in note for note in call.notes)


def test_the_same_piece_in_another_place_is_no_piece_that_stays() -> None:
    piece = [a_piece("leg", "100 lb", spread_over="10 ft")]
    old = rigged(three(), piece, [hung("leg", "1", "2' SL")])
    assert changeover(old, rigged(three(), piece, [hung("leg", "1", "2' SL")])).kept == ("1",)
    assert changeover(old, rigged(three(), piece, [hung("leg", "1", "2' SR")])).kept == ()


def test_the_same_piece_with_other_bricks_is_no_piece_that_stays() -> None:
    piece, place = [a_piece("leg", "100 lb")], [hung("leg", "1")]
    old = rigged(three(), piece, place)
    assert changeover(old, rigged(three(), piece, place, stated_bricks={"1": "7"})).kept == ()


def test_a_set_that_hangs_and_cannot_be_planned_stays_and_its_bricks_are_not_loose() -> None:
    weak = house(a_set("1", stops={"top": "60 lb", "bottom": "60 lb"}), a_set("2", distance="5 ft"))
    old, new = hang(weak, _1="wall 300 lb", _2="leg 100 lb"), hang(weak, _2="sky 50 lb")
    call = changeover(old, new)
    assert [one.set for one in call.held] == ["1"]
    assert call.begin.stock["full"]["bridge"] == 200 - 12 - 4
    assert any(note.startswith("Taken as not loose: the bricks on set 1") for note in call.notes)


def test_a_set_whose_new_piece_stays_on_a_set_that_is_held_is_held_too() -> None:
    weak = house(a_set("1", stops={"top": "60 lb", "bottom": "60 lb"}), a_set("2", distance="5 ft"))
    call = changeover(hang(weak, _1="wall 300 lb"), hang(weak, _2="wall 300 lb"))
    assert [one.set for one in call.held] == ["1", "2"]
    assert call.held[1].refusal.code == "PIECE"
    assert call.turns == ()


def test_bricks_that_lie_where_no_bridge_is_are_named_where_they_are_wanted() -> None:
    call = load_in_call(hang(three(stock={"bridge": "3", "trap room": "9"}), _1="leg 100 lb"))
    assert call.refusal is not None
    assert call.refusal.mend == (
        "Bring 1 full brick to bridge before the first step. Of full bricks there are 9 at trap room."
    )


def test_a_changeover_strikes_by_the_old_hang_and_loads_by_the_new() -> None:
    call = changeover(hang(three(), _1="leg 100 lb"), hang(three(), _1="sky 250 lb"))
    steps = [step for leg in call.turns[0].legs for step in leg.plan.steps]
    moved = [(step.act, step.bricks) for step in steps if step.act in (Act.BRICKS_OFF, Act.BRICKS_ON)]
    assert moved == [(Act.BRICKS_OFF, 4), (Act.BRICKS_ON, 10)]
    assert call.end.sets["1"].hung == ("sky",)


def test_every_set_is_closed_before_the_next_is_begun() -> None:
    call = load_in_call(hang(three(), _1="leg 100 lb", _2="border 50 lb", _3="sky 75 lb"))
    for turn in call.turns:
        on = call.end.sets[turn.set]
        assert (on.locked, on.held, on.collars_down) == (True, False, True)
    labels = [line.set for line in call.lines]
    assert labels == sorted(labels)


def test_a_call_of_nothing_is_no_refusal() -> None:
    call = load_in_call(rigged(three()))
    assert (call.turns, call.lines, call.refusal, call.lifts) == ((), (), None, 0)


def test_a_small_budget_gives_the_same_call_where_the_order_of_the_house_goes() -> None:
    one = hang(three(), _1="leg 100 lb", _2="border 50 lb")
    assert replace(load_in_call(one, Wanted(budget=1)), notes=()).lines == load_in_call(one).lines


# --- bricks for what hangs already: by hand, 100 lb are 4 of 25 lb beside pipe weight, 300 lb 12 ---------------------


def test_a_changeover_from_a_hang_with_more_bricks_than_there_are_is_refused_before_its_first_step() -> None:
    few = {"stock": {"bridge": "5"}}
    old, new = hang(three(**few), _1="leg 100 lb", _2="sky 100 lb"), hang(three(**few), _1="leg 100 lb")
    call = changeover(old, new)
    assert call.refusal is not None
    assert call.refusal.code == "STOCK"
    assert call.refusal.says.startswith(
        "What hangs now takes 8 full beside pipe weight, and the house has 5: 3 full short. "
    )
    assert "set 1 has 4, set 2 has 4" in call.refusal.says
    assert (call.lines, call.asks) == ((), ())
    assert all(count >= 0 for places in call.begin.stock.values() for count in places.values())


def test_a_set_that_is_not_planned_counts_with_what_balances_it_best() -> None:
    weak = house(a_set("1", stops={"top": "60 lb", "bottom": "60 lb"}), a_set("2", distance="5 ft"),
                 stock={"bridge": "15"})  # fmt: skip
    old, new = hang(weak, _1="wall 300 lb", _2="leg 100 lb"), hang(weak, _1="wall 300 lb")
    call = changeover(old, new)
    assert call.refusal is not None
    assert "takes 16 full beside pipe weight, and the house has 15: 1 full short" in call.refusal.says
    assert "set 1 has 12 (not planned: as stated, or as it balances best)" in call.refusal.says


def test_a_strike_of_more_bricks_than_there_are_is_refused_and_of_as_many_it_is_not() -> None:
    assert strike_call(hang(three(stock={"bridge": "4"}), _1="leg 100 lb")).refusal is None
    short = strike_call(hang(three(stock={"bridge": "3"}), _1="leg 100 lb")).refusal
    assert short is not None
    assert "1 full short" in short.says


def test_bricks_that_one_bridge_did_not_have_came_from_the_other() -> None:
    two = [bridge(), bridge("high bridge")]
    call = strike_call(hang(three(stock={"bridge": "3", "high bridge": "9"}, bridges=two), _1="leg 100 lb"))
    assert call.refusal is None
    assert call.begin.stock["full"] == {"bridge": 0, "high bridge": 8}
    assert sum(call.end.stock["full"].values()) == 12
