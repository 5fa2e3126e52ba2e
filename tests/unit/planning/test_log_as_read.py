"""A log with a line that cannot be read, does not follow, or says what does not belong there: what stood is kept."""

import pytest

from counterpoise.documents import read_log, read_log_so_far
from counterpoise.documents.log_fields import BELONGS
from counterpoise.errors import BadDocument
from counterpoise.planning import Act
from counterpoise.planning.log import Rehearsed, rehearse, rehearse_so_far
from counterpoise.planning.log_events import OWN
from counterpoise.rigging import rig
from tests.plain_house import a_house, a_piece, a_set, documents, hung

BRIDGE = {"bridge": "bridge", "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft"}
BRICK = {"brick": "full", "weight": "25 lb", "thickness": "1 in", "stock": {"bridge": "20"}}
TREE = a_house(a_set("1"), a_set("2", distance="5 ft"), bridges=[BRIDGE], bricks=[BRICK], rules={"lock hold": "50 lb"})
PIECES, PLACES = [a_piece("leg", "100 lb")], [hung("leg", "1")]
LOADED = ["hold on, set: '1'", "hang, set: '1', piece: leg", "collars up, set: '1'", "bricks on, set: '1', bricks: 4",
          "collars down, set: '1'", "count, set: '1', bricks: 6", "hold off, set: '1'"]  # fmt: skip
HEAD = 4  # lines before the first thing done


def text_of(events: list[str]) -> str:
    head = "counterpoise: log 1\nhouse: Plainfield Hall\nshow: Gala\ndone:\n"
    return head + "".join(f"  - {{n: {n}, did: {event}}}\n" for n, event in enumerate(events, start=1))


def judged(text: str) -> Rehearsed:
    one, show, hang = documents(TREE, PIECES, PLACES)
    return rehearse_so_far(rig(one, show, hang), read_log_so_far(text, one, show))


def refused(event: str) -> tuple[str, str]:
    """What is said of one thing done after the set is held and its piece hangs, and the mend."""
    found = judged(text_of([*LOADED[:2], event, *LOADED[2:]]))
    assert found.refusal is not None
    assert (found.done, found.of, found.line) == (2, 8, HEAD + 3)
    assert found.standing == judged(text_of(LOADED[:2])).standing
    return found.refusal.says, found.refusal.mend


def test_of_each_thing_that_can_be_done_it_is_known_which_fields_belong_to_it() -> None:
    assert set(BELONGS) == {one.value for one in Act} | set(OWN)


@pytest.mark.parametrize(("event", "field"), [
    ("hang, set: '1', piece: leg, bricks: 4", "bricks"), ("move, set: '1', height: 30 ft, piece: leg", "piece"),
    ("collars up, set: '1', bridge: bridge", "bridge"), ("bricks on, set: '1', bricks: 4, height: 3 ft", "height"),
    ("bricks on, set: '1', bricks: 4, piece: leg", "piece"), ("lock open, set: '1', who: me, small: 1", "small"),
    ("bring, bricks: 4, set: '1'", "set"), ("count, set: '1', bricks: 2, brick: full", "brick"),
    ("count, bridge: bridge, bricks: 4, small: 1", "small"), ("left off, set: '1', bricks: 3", "bricks"),
])  # fmt: skip
def test_a_field_that_does_not_belong_to_what_was_done_is_refused_where_it_stands(event: str, field: str) -> None:
    says, mend = refused(event)
    assert f'"{field}" does not belong to {event.partition(",")[0]}' in says
    assert mend


@pytest.mark.parametrize("event", ["bricks on, set: '1', bricks: 0", "bricks off, set: '1', bricks: 0, small: 0",
                                   "bring, bricks: 0", "send, bricks: 0"])  # fmt: skip
def test_no_brick_moved_is_refused_as_such(event: str) -> None:
    says, mend = refused(event)
    assert "moves no brick" in says
    assert mend == "Write how many, or take the line out."


@pytest.mark.parametrize("count", ["10001", "1000000000"])
def test_more_bricks_than_any_arbor_or_bridge_holds_are_refused_with_a_mend(count: str) -> None:
    says, mend = refused(f"bricks on, set: '1', bricks: {count}")
    assert f'"{count}" can hardly be meant' in says
    assert "10,000" in mend


def test_a_gap_is_refused_at_its_line_and_all_that_is_wrong_is_told_with_the_state_before_it() -> None:
    found = judged(text_of(LOADED).replace("{n: 4,", "{n: 6,").replace("piece: leg", "piece: lge"))
    assert [one.line for one in found.problems] == [HEAD + 2, HEAD + 4, HEAD + 5]
    assert found.refusal is not None
    assert (found.done, found.of, found.line) == (1, 7, HEAD + 2)
    assert "Did you mean leg?" in found.refusal.mend


def test_a_line_that_is_not_allowed_comes_before_a_later_one_that_cannot_be_read() -> None:
    found = judged(text_of(["hold on, set: '1'", "strike, set: '1', piece: leg", *LOADED]).replace("{n: 5,", "{n: 7,"))
    assert found.refusal is not None
    assert (found.refusal.code, found.line, found.of) == ("ORDER", HEAD + 2, 9)
    assert found.problems


def test_a_log_cut_off_anywhere_keeps_what_was_written_whole_before() -> None:
    one, show, hang = documents(TREE, PIECES, PLACES)
    house, whole = rig(one, show, hang), text_of(LOADED)
    full = read_log(whole, one, show).done
    states = {count: rehearse(house, read_log(text_of(LOADED[:count]), one, show)).standing for count in range(1, 8)}
    kept = set()
    for end in range(whole.index("done:") + 5, len(whole)):
        text = whole[:end]
        lines = text.count("}")
        try:
            so_far = read_log_so_far(text, one, show)
        except BadDocument:
            assert lines == 0  # not even a first line was begun
            continue
        assert [done.did for done in so_far.log.done] == [done.did for done in full[:lines]]
        if lines not in kept and lines:
            assert rehearse_so_far(house, so_far).standing == states[lines]
        kept.add(lines)
    assert kept == set(range(8))


def test_a_log_whose_head_is_wrong_or_that_is_empty_keeps_nothing_and_says_how_one_begins() -> None:
    one, show, _ = documents(TREE, PIECES, PLACES)
    with pytest.raises(BadDocument, match="this log is of Alder Yard"):
        read_log_so_far(text_of(LOADED).replace("Plainfield Hall", "Alder Yard"), one, show)
    with pytest.raises(BadDocument, match="this field stands twice"):
        read_log_so_far(text_of(LOADED) * 2, one, show)
    with pytest.raises(BadDocument, match="Begin with `counterpoise: log 1`"):
        read_log_so_far("", one, show)


@pytest.mark.parametrize("done", [
    "done: [{n: 1, did: hold on, set: '1'}, {n: 3, did: feel, set: '1'}]\n",
    "done:\n- n: 1\n  did: hold on\n  set: '1'\n- n: 2\n  did: feel\n  set: '1'\n  small: 2\n",
    "done:\n- n: 1\n  did: hold on\n  set: '1'\n- n: 2\n  did: count\n  set: '1'\n  bricks: 2\n  small: {\n",
])  # fmt: skip
def test_what_was_written_whole_is_kept_however_a_log_is_laid_out(done: str) -> None:
    found = judged(f"counterpoise: log 1\nhouse: Plainfield Hall\nshow: Gala\n{done}")
    assert (found.done, found.of) == (1, 2)
    assert found.refusal is not None
    assert found.refusal.code == "READ"
    assert found.standing.state.sets["1"].held
