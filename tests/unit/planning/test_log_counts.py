"""What is counted is what is there: what cannot be is refused, what is over is told and holds up all else.

Worked by hand: a batten of 114.24 lb is balanced by an arbor of 64.24 lb and 2 bricks of 25 lb. With n bricks on an
empty set Δ = 25 (n - 2) lb, with a leg of 100 lb on it Δ = 25 (n - 6) lb; the lock may hold 50 lb.
"""

from counterpoise.documents import read_log
from counterpoise.planning import Act, Step, judge, start
from counterpoise.planning.log import Rehearsed, bricks_adrift, rehearse
from counterpoise.planning.state import Refusal
from counterpoise.rigging import RiggedHouse, rig
from tests.plain_house import Map, a_house, a_piece, a_set, documents, hung

BRIDGE = {"bridge": "bridge", "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft", "length": "10 ft",
          "width": "10 ft", "posting": "20 psf", "people": "2"}  # fmt: skip
PIECES = [a_piece("leg", "100 lb"), a_piece("border", "100 lb")]
PLACES = [hung("leg", "1"), hung("border", "2")]
HUNG = ["hold on, set: '1'", "hang, set: '1', piece: leg", "collars up, set: '1'", "bricks on, set: '1', bricks: 4",
        "collars down, set: '1'"]  # fmt: skip


def tree(stock: str = "20") -> Map:
    brick = {"brick": "full", "weight": "25 lb", "thickness": "1 in", "stock": {"bridge": stock}}
    sets = a_set("1"), a_set("2", distance="5 ft")
    return a_house(*sets, bridges=[BRIDGE], bricks=[brick], rules={"person": "200 lb", "lock hold": "50 lb"})


def judged(events: list[str], stock: str = "20") -> Rehearsed:
    one, show, hang = documents(tree(stock), PIECES, PLACES)
    text = f"counterpoise: log 1\nhouse: {one.name}\nshow: {show.name}\ndone:{'' if events else ' []'}\n"
    text += "".join(f"  - {{n: {n}, did: {event}}}\n" for n, event in enumerate(events, start=1))
    return rehearse(rig(one, show, hang), read_log(text, one, show))


def refused(events: list[str], stock: str = "20") -> Refusal:
    """Why the last of them is refused; all before it are allowed."""
    found = judged(events, stock)
    assert found.refusal is not None
    assert found.done == len(events) - 1
    return found.refusal


def counted(label: str, bricks: int) -> list[str]:
    return [f"count, set: '{label}', bricks: {bricks}"] * 2


def test_a_count_that_no_such_arbor_can_hold_is_refused_and_the_state_before_is_kept() -> None:
    events = [*HUNG, "count, set: '1', bricks: 67"]  # 67 in of bricks, and the arbor takes 66 in
    found = refused(events, "200")
    assert found.code == "COUNT"
    assert found.says == "Set 1: 67 bricks with plates stand 5' 7\"; the arbor takes 5' 6\"."
    assert found.mend == "Count the bricks on the arbor again."
    assert judged(events, "200").standing == judged(HUNG, "200").standing


def test_a_count_of_more_bricks_than_the_house_has_is_refused() -> None:
    found = refused([*HUNG, "count, set: '1', bricks: 25"])  # 20 lay loose, and 2 are on each of two arbors
    assert found.code == "COUNT"
    assert found.says == "25 full bricks counted on set 1; the house has 24 in all."
    assert "what was brought" in found.mend
    assert judged([*HUNG, "bring, bricks: 1", "count, set: '1', bricks: 25"]).refusal is None


def test_where_it_is_not_known_what_lies_somewhere_the_house_bounds_no_count() -> None:
    assert judged(["count, set: '1', bricks: 25"], "unknown").refusal is None


def test_a_set_that_is_counted_beyond_its_lock_is_over_and_its_hold_stays_on() -> None:
    over = [*HUNG, *counted("1", 12)]
    assert judged(over).over == {"1": "Set 1 is arbor-heavy 150 lb; the lock may hold 50 lb."}
    found = refused([*over, "hold off, set: '1'"])
    assert found.code == "HOLD"
    assert "arbor-heavy 150 lb; the lock may hold 50 lb" in found.says
    assert found.mend


def test_what_makes_a_set_that_is_over_less_is_allowed_and_what_makes_it_more_is_not() -> None:
    over = [*HUNG, *counted("1", 12), "collars up, set: '1'"]
    assert refused([*over, "bricks on, set: '1', bricks: 1"]).code == "HOLD"
    assert refused([*over, "strike, set: '1', piece: leg"]).code == "ARBOR-FIRST"
    mended = judged([*over, "bricks off, set: '1', bricks: 4", "collars down, set: '1'", "hold off, set: '1'"])
    assert mended.refusal is None
    assert mended.over == {}
    assert mended.standing.state.sets["1"].bricks == 8


def test_while_a_set_is_over_its_lock_stays_on_and_no_other_is_worked() -> None:
    over = counted("2", 8)
    assert refused([*over, "lock open, set: '2'"]).code == "HOLD"
    held = [*over, "hold on, set: '1'"]
    for event in ("hang, set: '1', piece: leg", "collars up, set: '1'"):
        found = refused([*held, event])
        assert (found.code, found.says) == ("OVER", "Set 2 is arbor-heavy 150 lb; the lock may hold 50 lb.")
        assert "Set 2 comes first" in found.mend
    assert refused([*over, "lock open, set: '1'"]).code == "OVER"


def test_of_two_sets_that_are_over_either_may_be_made_less() -> None:
    over = [*counted("1", 8), *counted("2", 8), "hold on, set: '1'", "hold on, set: '2'"]
    for label in ("1", "2"):
        found = judged([*over, f"collars up, set: '{label}'", f"bricks off, set: '{label}', bricks: 6"])
        assert found.refusal is None
        assert list(found.over) == [other for other in ("1", "2") if other != label]


def test_bricks_that_a_count_does_not_find_are_kept_until_they_are_found_where_they_lie() -> None:
    fewer = [*HUNG, *counted("1", 5)]  # 6 were expected
    found = judged(fewer)
    assert found.refusal is None
    assert found.standing.found == {"1": {"full": -1}}
    (said,) = bricks_adrift(found.standing)
    assert said.startswith("By all counts 1 full fewer than there were: where they are is not known.")
    assert found.standing.state.stock["full"]["bridge"] == 16
    settled = judged([*fewer, "count, bridge: bridge, bricks: 17"])
    assert settled.standing.state.stock["full"]["bridge"] == 17
    assert settled.standing.adrift == {}


def test_a_count_of_loose_bricks_that_agrees_changes_nothing_and_one_beyond_the_house_is_refused() -> None:
    assert judged(["count, bridge: bridge, bricks: 20"]).standing == judged([]).standing
    found = refused(["count, bridge: bridge, bricks: 25"])
    assert (found.code, found.says) == ("COUNT", "25 full bricks counted at bridge; the house has 24 in all.")


def test_a_floor_that_is_counted_beyond_its_posting_is_over() -> None:
    # 66 bricks of 25 lb and two people of 200 lb are 2,050 lb; 20 psf on 100 ft2 are 2,000 lb
    found = judged(["bring, bricks: 44", "count, bridge: bridge, bricks: 66"])
    assert found.refusal is None
    assert found.over == {"bridge": "bridge carries 2,050 lb; its posting allows 2,000 lb in all."}


def test_a_count_below_pipe_weight_stands_on_the_top_stop_and_may_be_made_up() -> None:
    fewer = ["hold on, set: '2'", *counted("2", 1)]
    assert judged(fewer).over == {}
    up = [*fewer, "collars up, set: '2'", "bricks on, set: '2', bricks: 1"]
    assert judged(up).refusal is None
    assert refused([*up, "bricks on, set: '2', bricks: 1"]).code == "BATTEN-FIRST"


def test_a_number_of_bricks_beyond_all_sense_is_refused_at_once() -> None:
    house: RiggedHouse = rig(*documents(tree(), PIECES, PLACES))
    state = start(house)
    for act in (Act.HOLD_ON, Act.COLLARS_UP):
        after = judge(house, state, Step(act=act, set="1"))
        assert not isinstance(after, Refusal)
        state = after
    pieces = judge(house, state, Step(act=Act.HANG, set="1", piece="leg"))
    assert not isinstance(pieces, Refusal)
    huge = 10**15  # one by one, or as a list, these would never end
    on = judge(house, pieces, Step(act=Act.BRICKS_ON, set="1", bricks=huge, bridge="bridge"))
    off = judge(house, pieces, Step(act=Act.BRICKS_OFF, set="1", bricks=huge, bridge="bridge"))
    assert isinstance(on, Refusal)
    assert isinstance(off, Refusal)
    assert (on.code, off.code) == ("STOCK", "PIPE-WEIGHT")
