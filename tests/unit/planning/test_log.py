"""What was really done: judged by the replay, refused with its line and a mend, and never guessed at."""

import re
from pathlib import Path

import pytest

from counterpoise.documents import read_hang, read_house, read_log, read_show
from counterpoise.errors import BadDocument
from counterpoise.planning.as_log import as_log
from counterpoise.planning.call import load_in_call
from counterpoise.planning.log import Rehearsed, rehearse
from counterpoise.rigging import RiggedHouse, rig
from tests.plain_house import a_house, a_piece, a_set, documents, hung, rigged, written

# Two sets of 2 bricks pipe weight (50 lb and 64.24 lb of arbor balance 114.24 lb of batten), a piece of 100 lb on each.
BRIDGE = {"bridge": "bridge", "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft", "length": "10 ft",
          "width": "10 ft", "posting": "20 psf", "people": "2"}  # fmt: skip
BRICK = {"brick": "full", "weight": "25 lb", "thickness": "1 in", "stock": {"bridge": "20"}}
RULES = {"person": "200 lb", "lock hold": "50 lb"}
TREE = a_house(a_set("1"), a_set("2", distance="5 ft"), bridges=[BRIDGE], rules=RULES, bricks=[BRICK])
PIECES = [a_piece("leg", "100 lb"), a_piece("border", "100 lb")]
PLACES = [hung("leg", "1"), hung("border", "2")]
LOADED = ["hold on, set: '1'", "hang, set: '1', piece: leg", "collars up, set: '1'",
          "bricks on, set: '1', bricks: 4", "collars down, set: '1'", "count, set: '1', bricks: 6",
          "hold off, set: '1'", "lock open, set: '1'", "feel, set: '1'", "move, set: '1', height: 20 ft",
          "lock on, set: '1'"]  # fmt: skip


def house() -> RiggedHouse:
    return rig(*documents(TREE, PIECES, PLACES))


def text_of(events: list[str], begins: str = "empty") -> str:
    head = (
        f"counterpoise: log 1\nhouse: Plainfield Hall\nshow: Gala\nbegins: {begins}\ndone:{'' if events else ' []'}\n"
    )
    return head + "".join(f"  - {{n: {n}, did: {event}}}\n" for n, event in enumerate(events, start=1))


def judged(events: list[str], begins: str = "empty") -> Rehearsed:
    return read_and_judged(text_of(events, begins))


def read_and_judged(text: str) -> Rehearsed:
    one, show, _ = documents(TREE, PIECES, PLACES)
    return rehearse(house(), read_log(text, one, show))


def problems(text: str) -> list[tuple[int, str, str]]:
    one, show, _ = documents(TREE, PIECES, PLACES)
    with pytest.raises(BadDocument) as caught:
        read_log(text, one, show)
    return [(each.line, f"{each.value} {each.says}", each.mend) for each in caught.value.problems]


def refused(events: list[str], begins: str = "empty") -> tuple[str, str, str]:
    found = judged(events, begins)
    assert found.refusal is not None
    assert found.line == 5 + found.done + 1  # five lines stand before the first thing done
    return found.refusal.code, found.refusal.says, found.refusal.mend


def test_what_was_done_is_what_is_on_the_arbors_now() -> None:
    found = judged(LOADED)
    assert found.refusal is None
    assert (found.done, found.of) == (11, 11)
    one, two = found.standing.state.sets["1"], found.standing.state.sets["2"]
    assert (one.bricks, one.hung, one.locked) == (6, ("leg",), True)
    assert one.height == pytest.approx(20 * 0.3048)
    assert (two.bricks, two.hung) == (2, ())
    assert found.standing.state.stock["full"]["bridge"] == 16


def test_heights_are_read_as_the_documents_read_them() -> None:
    events = [one.replace("20 ft", '"6 m"') for one in LOADED]
    assert judged(events).standing.state.sets["1"].height == pytest.approx(6.0)


def test_the_first_step_that_breaks_a_rule_is_refused_with_its_line_and_the_state_before_is_kept() -> None:
    wrong = [*LOADED[:2], "hold off, set: '1'", "lock open, set: '1'", "feel, set: '1'"]
    found = judged(wrong)
    assert found.refusal is not None
    assert found.refusal.code == "HOLD"
    assert "100 lb" in found.refusal.says
    assert found.refusal.mend
    assert (found.done, found.line) == (3, 9)
    assert found.standing.state.sets["1"].locked
    assert not found.standing.state.sets["1"].held


def test_more_bricks_than_lie_there_is_refused() -> None:
    code, says, _ = refused([*LOADED[:3], "bricks on, set: '1', bricks: 21"])
    assert code == "STOCK"
    assert "20 full" in says


def test_numbers_with_a_gap_and_numbers_that_stand_twice_are_told_with_line_and_mend() -> None:
    text = text_of(LOADED)
    gap = problems(text.replace("{n: 4,", "{n: 6,").replace("{n: 5,", "{n: 7,"))
    assert gap[0][0] == 9
    assert "4 to 5 is missing" in gap[0][1]
    assert any("was there before" in says for _, says, _ in gap)  # 6 follows on 7
    twice = problems(text.replace("{n: 5,", "{n: 4,"))
    assert twice[0] == (10, "4 follows on 4: this number was there before.",
                        "Take the line out if it stands twice, else count on.")  # fmt: skip


def test_unknown_sets_pieces_and_bridges_are_told_all_at_once_with_what_is_known() -> None:
    found = problems(
        text_of(["hold on, set: '9'", "hang, set: '1', piece: lge", "bricks on, set: '1', bricks: 1, bridge: b"])
    )
    assert [line for line, _, _ in found] == [6, 7, 8]
    assert "This house has: 1, 2." in found[0][2]
    assert "Did you mean leg?" in found[1][2]


@pytest.mark.parametrize("count", ["-4", "4.5", "four", "4 lb", "1e3"])
def test_a_count_that_cannot_be_is_refused_where_it_stands(count: str) -> None:
    found = problems(text_of([*LOADED[:3], f"bricks on, set: '1', bricks: {count}"]))
    assert [line for line, _, _ in found] == [9]
    assert found[0][2]


def test_a_count_that_is_unknown_is_refused_as_not_written() -> None:
    code, says, mend = refused([*LOADED[:3], "bricks on, set: '1', bricks: unknown"])
    assert code == "LOG"
    assert "how many" in says
    assert mend


def test_a_log_of_another_house_is_refused() -> None:
    found = problems(text_of(LOADED).replace("Plainfield Hall", "Alder Yard"))
    assert found[0][0] == 2
    assert "this log is of Alder Yard" in found[0][1]


def test_what_is_no_act_is_refused_with_the_near_one() -> None:
    code, _, mend = refused(["hold onn, set: '1'"])
    assert code == "LOG"
    assert mend == "Did you mean hold on?"


LACKING = {"hold on": "set", "hang, set: '1'": "piece", "move, set: '1'": "height", "count, set: '1'": "how many",
           "note": "without words", "close, set: '1'": "nobody", "bring": "how many"}  # fmt: skip


@pytest.mark.parametrize(("event", "lacks"), LACKING.items())
def test_an_event_that_lacks_what_it_needs_is_refused(event: str, lacks: str) -> None:
    assert lacks in refused([event])[1]


def test_a_set_left_off_with_its_arbor_open_waits_until_it_is_counted_and_closed_by_name() -> None:
    left = [*LOADED[:4], "left off, set: '1', note: the fire bell"]
    code, says, mend = refused([*left, "collars down, set: '1'"])
    assert code == "LEFT-OFF"
    assert "at 5: the fire bell" in says
    assert "by name" in mend
    assert refused([*left, "close, set: '1', who: an invented rigger"])[2] == "Count its bricks before it is closed."
    counted = [*left, "count, set: '1', bricks: 6"]
    assert refused([*counted, "close, set: '1'"])[1] == "close: nobody is named."
    found = judged([*counted, "close, set: '1', who: an invented rigger", *LOADED[4:]])
    assert found.refusal is None
    assert found.standing.left_off == {}


def test_a_count_that_does_not_agree_keeps_a_set_that_was_left_off_waiting() -> None:
    left = [*LOADED[:4], "left off, set: '1'", "count, set: '1', bricks: 5"]
    code, _, _ = refused([*left, "close, set: '1', who: an invented rigger"])
    assert code == "BLOCKED"
    found = judged([*left, "count, set: '1', bricks: 5", "close, set: '1', who: an invented rigger"])
    assert found.refusal is None
    assert found.standing.state.sets["1"].bricks == 5


def test_no_weight_moves_on_a_set_while_another_is_open() -> None:
    code, says, mend = refused([*LOADED[:4], "hold on, set: '2'", "hang, set: '2', piece: border"])
    assert code == "OPEN"
    assert says == "Set 1 is still open."
    assert "Close set 1" in mend


def test_a_set_locked_out_is_not_worked_until_it_is_released_by_name() -> None:
    out = ["lock out, set: '1', note: a frayed hand line, who: an invented rigger"]
    code, says, _ = refused([*out, "lock open, set: '1'"])
    assert code == "OUT"
    assert "a frayed hand line (an invented rigger)" in says
    assert refused([*out, "release, set: '1'"])[1] == "release: nobody is named."
    assert judged([*out, "release, set: '1', who: an invented rigger", *LOADED]).refusal is None


@pytest.mark.parametrize(("open_sets", "allowed"), [(None, False), ("1", False), ("2", True)])
def test_how_many_sets_are_open_at_once_is_a_rule_of_the_house(open_sets: str | None, allowed: bool) -> None:
    rules = RULES | ({"open sets": open_sets} if open_sets else {})
    tree = a_house(a_set("1"), a_set("2", distance="5 ft"), bridges=[BRIDGE], rules=rules, bricks=[BRICK])
    one, show, _ = documents(tree, PIECES, PLACES)
    events = ["hold on, set: '1'", "hang, set: '1', piece: leg", "hold on, set: '2'", "hang, set: '2', piece: border"]
    found = rehearse(rigged(tree, PIECES, PLACES), read_log(text_of(events), one, show))
    assert (found.refusal is None) is allowed
    assert found.refusal is None or found.refusal.code == "OPEN"


def test_bricks_are_brought_and_sent_against_what_lies_there_and_what_the_floor_may_carry() -> None:
    assert judged(["bring, bricks: 44", "send, bricks: 64"]).standing.state.stock["full"]["bridge"] == 0
    # 2,000 lb posted less two people of 200 lb are 64 bricks
    assert refused(["bring, bricks: 45"])[0] == "BRIDGE-FLOOR"
    assert refused(["send, bricks: 21"])[0] == "STOCK"


def test_a_log_that_begins_with_the_hang_up_begins_where_its_load_in_ends() -> None:
    found = judged([], "hung").standing.state
    assert {label: (on.bricks, on.hung) for label, on in found.sets.items()} == {
        "1": (6, ("leg",)),
        "2": (6, ("border",)),
    }
    assert found.stock["full"]["bridge"] == 12


def test_the_piece_off_before_its_bricks_is_refused_in_a_log_as_in_a_plan() -> None:
    code, _, mend = refused(["hold on, set: '1'", "strike, set: '1', piece: leg"], "hung")
    assert code == "ARBOR-FIRST"
    assert "bricks off" in mend


def test_every_refusal_of_a_log_cut_off_anywhere_leaves_the_same_state_as_the_log_before_it() -> None:
    for length in range(len(LOADED)):
        cut = judged(LOADED[:length]).standing
        broken = judged([*LOADED[:length], "strike, set: '2', piece: border"])
        assert broken.refusal is not None
        assert broken.standing == cut


def test_the_log_in_documents_md_is_read_and_judged() -> None:
    docs = Path(__file__).resolve().parents[3] / "docs" / "documents.md"
    found = re.search(r"^```yaml log\n(.*?)^```$", docs.read_text("utf-8"), re.MULTILINE | re.DOTALL)
    assert found is not None
    blocks = dict(
        re.findall(r"^```yaml (house|show|hang)\n(.*?)^```$", docs.read_text("utf-8"), re.MULTILINE | re.DOTALL)
    )
    one, show = read_house(blocks["house"]), read_show(blocks["show"])
    log = read_log(found[1], one, show)
    done = rehearse(rig(one, show, read_hang(blocks["hang"], one, show)), log)
    assert done.refusal is None
    assert log.done


def test_a_written_document_is_no_log() -> None:
    one, show, _ = documents(TREE, PIECES, PLACES)
    with pytest.raises(BadDocument, match="log document"):
        read_log(written(TREE), one, show)


WALL = {"piece": "wall", "spread over": "40 ft", "ties": "1 ft", "comes": "in sections", "sections": [
    {"weight": "310 lb", "height": "10 ft", "balance height": "5 ft", **({"joins at": "12 ft"} if below else {})}
    for below in (False, True)]}  # fmt: skip
WINCHED = a_house(a_set(), bridges=[{"bridge": "bridge", "floor": "20 ft", "reach from": "0 ft", "reach to": "34 ft"}],
                  bricks=[{"brick": "full", "weight": "25 lb", "thickness": "1 in", "stock": {"bridge": "60"}}],
                  holds=[{"hold": "winch", "does": "haul", "against": "both", "acts on": "batten", "rating": "400 lb",
                          "anchor rating": "900 lb", "count": "1"}])  # fmt: skip


def test_a_call_that_wants_a_rated_hold_and_bolts_on_sections_can_be_kept_as_a_log() -> None:
    one, show, _ = documents(WINCHED, [WALL], [hung("wall")])
    planned = rigged(WINCHED, [WALL], [hung("wall")])
    call = load_in_call(planned)
    assert call.refusal is None
    text = as_log(call)
    assert 'did: rated hold on, set: "9", hold: "winch"' in text
    assert 'piece: "section 2 of wall"' in text
    found = rehearse(planned, read_log(text, one, show))
    assert found.refusal is None
    assert found.standing.state.sets == call.end.sets


def test_a_rated_hold_that_is_not_named_or_not_the_houses_is_refused() -> None:
    one, show, _ = documents(WINCHED, [WALL], [hung("wall")])
    head = f"counterpoise: log 1\nhouse: {one.name}\nshow: {show.name}\ndone:\n"
    head += '  - {n: 1, did: rated hold on, set: "9"'
    found = rehearse(rigged(WINCHED, [WALL], [hung("wall")]), read_log(head + "}\n", one, show))
    assert found.refusal is not None
    assert "no hold is named" in found.refusal.says
    with pytest.raises(BadDocument, match="winch"):
        read_log(head + ", hold: winsh}\n", one, show)


def test_the_heights_of_a_log_are_written_as_the_house_writes_them() -> None:
    one, show, _ = documents(WINCHED, [WALL], [hung("wall")])
    text = as_log(load_in_call(rigged(WINCHED, [WALL], [hung("wall")])))
    assert "height: 12' 0\"" in text
    first = next(done.height for done in read_log(text, one, show).done if done.height)
    assert first.best == pytest.approx(12 * 0.3048)
