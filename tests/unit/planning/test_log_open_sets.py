"""One set open at a time, by the rule of the house, and what counts as open. Common practice, no source."""

import pytest

from counterpoise.documents import read_log
from counterpoise.planning.log import Rehearsed, rehearse
from counterpoise.planning.state import Refusal
from counterpoise.rigging import rig
from tests.plain_house import a_house, a_piece, a_set, documents, hung

BRIDGE = {"bridge": "bridge", "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft"}
BRICK = {"brick": "full", "weight": "25 lb", "thickness": "1 in", "stock": {"bridge": "20"}}
PIECES = [a_piece("leg", "100 lb"), a_piece("border", "100 lb")]
PLACES = [hung("leg", "1"), hung("border", "2")]
OPEN = ["hold on, set: '1'", "hang, set: '1', piece: leg", "collars up, set: '1'", "bricks on, set: '1', bricks: 4"]
LEFT = [*OPEN, "left off, set: '1', note: the fire bell"]
COUNTED = [*LEFT, "count, set: '1', bricks: 6", "close, set: '1', who: an invented rigger"]
SECOND = ["hold on, set: '2'", "hang, set: '2', piece: border"]


def judged(events: list[str], open_sets: str = "") -> Rehearsed:
    rules = {"lock hold": "50 lb"} | ({"open sets": open_sets} if open_sets else {})
    tree = a_house(a_set("1"), a_set("2", distance="5 ft"), bridges=[BRIDGE], bricks=[BRICK], rules=rules)
    one, show, hang = documents(tree, PIECES, PLACES)
    text = f"counterpoise: log 1\nhouse: {one.name}\nshow: {show.name}\ndone:\n"
    text += "".join(f"  - {{n: {n}, did: {event}}}\n" for n, event in enumerate(events, start=1))
    return rehearse(rig(one, show, hang), read_log(text, one, show))


def refused(events: list[str]) -> Refusal:
    found = judged(events)
    assert found.refusal is not None
    assert found.done == len(events) - 1
    return found.refusal


def test_a_set_that_was_left_off_with_its_arbor_open_is_still_open() -> None:
    found = refused([*LEFT, *SECOND])
    assert (found.code, found.says) == ("OPEN", "Set 1 is still open.")
    assert found.mend == "It was left off: count its bricks, close it by name, then collars down, hold off, lock on."
    assert refused([*COUNTED, *SECOND]).code == "OPEN"  # closed by name, its collars are up all the same
    assert judged([*LEFT, *SECOND], "2").refusal is None


def test_a_set_that_was_left_off_is_no_longer_open_once_it_is_closed_or_parked_by_name() -> None:
    down = [*COUNTED, "collars down, set: '1'"]
    assert refused([*down, *SECOND]).code == "OPEN"
    assert judged([*down, "hold off, set: '1'", *SECOND]).refusal is None
    assert judged([*down, "lock out, set: '1', who: an invented rigger", *SECOND]).refusal is None


def test_a_set_that_is_locked_out_with_its_arbor_open_is_still_open() -> None:
    assert refused([*OPEN, "lock out, set: '1', who: an invented rigger", *SECOND]).code == "OPEN"


def test_a_lock_that_is_open_is_an_open_set_so_that_no_second_one_moves() -> None:
    flying = ["lock open, set: '1'", "feel, set: '1'", "move, set: '1', height: 20 ft"]
    found = refused([*flying, "lock open, set: '2'"])
    assert (found.code, found.says) == ("OPEN", "Set 1 is still open.")
    assert refused([*flying[:2], "hold on, set: '2'", flying[2]]).code == "OPEN"
    assert judged([*flying, "lock on, set: '1'", "lock open, set: '2'"]).refusal is None
    second = [event.replace("'1'", "'2'") for event in flying]
    assert judged([*flying, *second], "2").refusal is None


def test_no_second_arbor_is_opened_while_one_is() -> None:
    assert refused([*OPEN, "hold on, set: '2'", "collars up, set: '2'"]).code == "OPEN"


@pytest.mark.parametrize("event", ["hold on", "lock on", "count", "hold off", "collars down", "feel"])
def test_what_holds_or_closes_a_set_is_never_in_the_way_of_another(event: str) -> None:
    bricks = ", bricks: 2" if event == "count" else ""
    assert judged([*OPEN, f"{event}, set: '2'{bricks}"]).refusal is None


@pytest.mark.parametrize("who", ["unknown", "Nobody", "?", "n/a", "TBA", "-", "somebody"])
def test_a_set_that_was_left_off_is_closed_by_a_name_and_by_nothing_else(who: str) -> None:
    left = [*LEFT, "count, set: '1', bricks: 6"]
    found = refused([*left, f"close, set: '1', who: '{who}'"])
    assert found.says == f'close: "{who}" is nobody.'
    assert "the name of who takes it on" in found.mend
