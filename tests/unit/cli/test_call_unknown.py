"""What stands above the steps of a set of which a check does not know enough, turn by turn."""

from counterpoise.app.calls import from_hang_to_hang
from counterpoise.checks import HouseResult
from counterpoise.cli.call_unknown import Open, open_of
from tests.plain_house import Map, a_house, a_piece, a_set, hung, judged

BRIDGE = {"bridge": "bridge", "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft"}
BRICK = {"brick": "full", "weight": "25 lb", "thickness": "1 in", "stock": {"bridge": "200"}}
ARBOR: Map = a_set()["arbor"]


def _judged(*places: Map, arbor: Map | None = None, weight: str = "100 lb") -> HouseResult:
    """Sets 1 and 2; what the arbor of set 1 may carry is not known unless it is given."""
    waits = a_set("1", arbor=arbor or {**ARBOR, "rating": "unknown"})
    tree = a_house(waits, a_set("2", distance="6 ft"), bricks=[BRICK], bridges=[BRIDGE], rules={"lock hold": "50 lb"})
    return judged(tree, [a_piece("leg", weight), a_piece("sky", "100 lb")], list(places))


def _opens(old: HouseResult, new: HouseResult) -> dict[tuple[str, str], Open]:
    call = from_hang_to_hang(old, new, seconds=0.1)
    assert call.refusal is None
    return {(turn.set, turn.what): open_of(turn, (old, new)) for turn in call.turns}


def test_of_a_changeover_the_set_that_waits_is_held_at_its_load_in_and_not_at_its_strike() -> None:
    on, off = _judged(hung("leg", "1"), hung("sky", "2")), _judged(hung("sky", "2"))
    (load,) = _opens(off, on).values()
    assert load.hold == "unknown"
    assert "put nothing on" in load.says
    assert "arbor: carries" in load.says
    (strike,) = _opens(on, off).values()
    assert strike.hold == ""
    assert strike.says.startswith("Unknown as it hangs, nothing is promised of its strike: arbor: carries")


def test_a_set_that_changes_its_piece_may_be_struck_and_not_loaded() -> None:
    found = _opens(_judged(hung("leg", "1")), _judged(hung("sky", "1")))
    one = found["1", "change"]
    assert one.hold == "unknown"
    assert one.says.startswith("HOLD, unknown: strike it, put nothing on.")
    assert "Unknown as it hangs" in one.says


def test_a_set_of_which_all_is_known_has_no_line_above_its_steps() -> None:
    found = _opens(_judged(), _judged(hung("sky", "2")))
    assert found["2", "load-in"] == Open(hold="", says="")
