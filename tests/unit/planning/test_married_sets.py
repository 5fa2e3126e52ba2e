"""Twin sets that carry a piece together: refused by name, as either may take all of it and no split is known."""

from counterpoise.planning import Goal, load_in, plan_from, start, strike
from counterpoise.planning.call import load_in_call
from counterpoise.rigging import RiggedHouse
from tests.plain_house import a_house, a_piece, a_set, hung, rigged

PIECES = [a_piece("ceiling", "400 lb"), a_piece("leg", "50 lb")]
BRIDGE = {"bridge": "bridge", "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft"}


def _house() -> RiggedHouse:
    sets = [a_set("1"), a_set("2", distance="5 ft", twin_of="1"), a_set("3", distance="7 ft")]
    return rigged(a_house(*sets, bridges=[BRIDGE]), PIECES, [hung("ceiling", "1"), hung("leg", "3")])


def test_no_count_is_planned_for_either_and_both_are_named() -> None:
    house = _house()
    for label, other in (("1", "2"), ("2", "1")):
        for plan in (load_in(house, label), strike(house, label),
                     plan_from(house, start(house), label, Goal(what="load-in"))):  # fmt: skip
            assert plan.steps == ()
            assert plan.refusal is not None
            assert plan.refusal.code == "TWINS"
            assert f"Set {label} carries ceiling together with its twin, set {other}" in plan.refusal.says
            assert "either may take all of it" in plan.refusal.says
            assert "both hand lines married, one voice" in plan.refusal.mend


def test_a_call_holds_them_and_works_the_others() -> None:
    call = load_in_call(_house())
    assert call.refusal is None
    assert [(one.set, one.refusal.code) for one in call.held] == [("1", "TWINS")]
    assert [turn.set for turn in call.turns] == ["3"]
