"""What changed is told in trade words. Each text below is one edit of a house, and the sentence a rigger would say."""

from __future__ import annotations

from typing import Any

import pytest

from counterpoise.documents import House, diff, read_hang_alone, read_house, read_show
from counterpoise.documents.difference import Form, labels_said
from counterpoise.errors import Misuse
from tests.plain_house import Map, a_house, a_piece, a_set, hung, written

SOURCES = {"scale": {"how": "measured", "what": "scale"}, "tape": {"how": "measured", "what": "tape survey"}}


def house(*sets: Map, **changes: Any) -> House:
    return read_house(written({**a_house(*sets, **changes), "sources": SOURCES}))


def said(before: Any, after: Any) -> list[str]:
    return [one.says for one in diff(before, after)]


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"loft_block": {"rating": "450 lb"}}, "set 14: loft block rating 500 lb → 450 lb"),
        ({"purchase": "double"}, "set 14: now double purchase (was single)"),
        ({"distance": "36 in"}, "set 14: distance only rewritten: 3 ft → 36 in"),
        ({"distance": "~3 ft"}, "set 14: distance 3 ft → ~3 ft"),
        ({"distance": "3 ft @tape"}, "set 14: distance 3 ft → 3 ft @tape"),
        ({"distance": "unknown"}, "set 14: distance 3 ft → unknown"),
        ({"distance": None}, "set 14: distance 3 ft → not written"),
        ({"tension_block": "none"}, "set 14: tension block 400 lb → none"),
        ({"brick": None}, "set 14: brick full → not written"),
        ({"out_of_service": "lock slips"}, "set 14: out of service not written → lock slips"),
        ({"lines": {"at": ["20' SR", "10' SR", "1' SL", "10' SL", "20' SL"]}}, "set 14: lines at 3 at CL → 1' SL"),
        ({"lines": {"at": ["20' SR", "20' SL"]}},
         "set 14: lines at 20' SR, 10' SR, CL, 10' SL, 20' SL → 20' SR, 20' SL"),
        ({"batten": {"attachments": [{"attachment": "track", "weight": "3 lb", "centre": "CL"}]}},
         "set 14: attachment track added"),
        ({"set": "14A", "key": "14"}, "set 14 renumbered 14A"),
    ],
)  # fmt: skip
def test_one_change_of_a_set_is_one_sentence(change: Map, sentence: str) -> None:
    new = {"set": "14", **change}.pop("set")
    changes = {name: one for name, one in change.items() if name != "set"}
    assert said(house(a_set("14")), house(a_set(new, **changes))) == [sentence]


def test_nothing_is_told_of_a_house_that_reads_as_before() -> None:
    text = written(a_house(a_set("1"), a_set("2")))
    assert diff(read_house(text), read_house("# moved by a comment\n\n" + text)) == ()


def test_sets_that_came_and_went_are_matched_by_their_permanent_key() -> None:
    before = house(a_set("1"), a_set("2"), a_set("3"))
    after = house(a_set("2"), a_set("4"), a_set("1A", key="1"))
    assert said(before, after) == [
        "bay A: sets 1A, 2, 3 → 2, 4, 1A",
        "set 4 added",
        "set 1 renumbered 1A",
        "set 3 removed",
    ]


OTHER = "kind other: batten wall 0.145 in → 0.154 in"  # no set is of it


def kinded(wall: str, count: int, *, own: Map | None = None, name: str = "usual") -> House:
    kind: Map = a_set(batten={"wall": wall})
    del kind["set"]
    sets: list[Map] = [{"set": str(n), "kind": name} for n in range(1, count + 1)]
    sets[-1] |= own or {}
    return read_house(written({**a_house(), "kinds": {"usual": kind, "other": kind}, "sets": sets, "steel": []}))


def test_what_a_kind_changes_is_told_once_with_the_sets_it_touches() -> None:
    found = diff(kinded("0.145 in", 8), kinded("0.154 in", 8))
    assert [one.says for one in found] == ["kind usual (sets 1-8): batten wall 0.145 in → 0.154 in", OTHER]
    assert (found[0].kind, found[0].sets) == ("usual", tuple("12345678"))


def test_a_set_that_writes_its_own_figure_is_not_among_those_its_kind_touches() -> None:
    own: Map = {"batten": {"wall": "0.145 in"}}
    found = diff(kinded("0.145 in", 4, own=own), kinded("0.154 in", 4, own=own))
    assert [one.says for one in found] == ["kind usual (sets 1-3): batten wall 0.145 in → 0.154 in", OTHER]


def test_what_sets_of_a_kind_write_themselves_is_told_of_them_and_not_of_the_kind() -> None:
    kind: Map = a_set()
    del kind["set"]

    def with_own(**own: Any) -> House:
        sets = [{"set": str(n), "kind": "usual", **(own if n in (2, 3, 4) else {})} for n in range(1, 6)]
        return read_house(written({**a_house(), "kinds": {"usual": kind}, "sets": sets, "steel": []}))

    found = diff(with_own(), with_own(brick="full", distance="4 ft", **{"out of service": "lock slips"}))
    assert [one.says for one in found] == [
        "sets 2-4: distance 3 ft → 4 ft", "sets 2-4: out of service not written → lock slips"]  # fmt: skip
    assert [one.kind for one in found] == ["", ""]


def test_a_thing_within_sets_of_a_kind_keeps_its_name_when_it_is_told_once() -> None:
    def tracked(weight: str) -> House:
        kind: Map = a_set(batten={"attachments": [{"attachment": "track", "weight": weight, "centre": "CL"}]})
        del kind["set"]
        sets = [{"set": str(n), "kind": "usual"} for n in range(1, 4)]
        return read_house(written({**a_house(), "kinds": {"usual": kind}, "sets": sets, "steel": []}))

    assert said(tracked("3 lb"), tracked("4 lb")) == ["kind usual (sets 1-3): attachment track: weight 3 lb → 4 lb"]


def test_a_set_that_takes_another_kind_is_told_so() -> None:
    assert said(kinded("0.145 in", 1), kinded("0.145 in", 1, name="other")) == ["set 1: kind usual → other"]


def test_labels_are_told_in_the_order_of_the_house_as_runs() -> None:
    order = ["1", "1A", "2", "3", "4", "9"]
    assert labels_said(["4", "1", "1A", "2"], order) == "sets 1-2, 4"
    assert labels_said(["9"], order) == "set 9"
    assert labels_said(["1", "1A", "3"], order) == "sets 1, 1A, 3"


def test_rules_bricks_bridges_and_sources_are_told_by_their_names() -> None:
    before = house(rules={"lock hold": "50 lb @scale", "adopted by": "an invented head rigger"})
    brick = {**a_house()["bricks"][0], "weight": "25.2 lb", "stock": {"bridge": "180", "deck": "20"}}
    changed = {**a_house(rules={"lock hold": "40 lb @scale"}, bricks=[brick, {**brick, "brick": "half"}]),
               "sources": {**SOURCES, "scale": {"how": "assumed", "what": "scale"}}}  # fmt: skip
    assert said(before, read_house(written(changed))) == [
        "source scale: how measured → assumed", "brick full: weight 25 lb → 25.2 lb",
        "brick full: stock, bridge 200 → 180", "brick full: stock, deck not written → 20", "brick half added",
        "rules adopted by an invented head rigger → not written", "rules lock hold 50 lb @scale → 40 lb @scale",
    ]  # fmt: skip


def test_a_figure_whose_block_has_another_source_is_known_otherwise() -> None:
    before, after = (house(a_set(batten={"source": name})) for name in ("tape", "scale"))
    assert "set 9: batten length 42 ft, source tape → scale" in said(before, after)


def show(*pieces: Map) -> Any:
    return read_show(written({"counterpoise": "show 1", "name": "Gala", "pieces": list(pieces), "sources": SOURCES}))


def test_pieces_are_told_by_name_and_matched_by_key() -> None:
    before = show(a_piece("header", "360 lb", key="h"), a_piece("legs"), a_piece("drop"))
    after = show(a_piece("header", "345 lb @scale", key="h"), a_piece("drop"), a_piece("border"))
    assert said(before, after) == [
        "piece header: weight 360 lb → 345 lb @scale",
        "piece border added",
        "piece legs removed",
    ]


def hang(*places: Map, **more: Any) -> Any:
    tree = {"counterpoise": "hang 1", "house": "A", "show": "B", "hung": list(places)}
    return read_hang_alone(written(tree | {name.replace("_", " "): one for name, one in more.items()}))


def test_a_piece_on_another_set_has_moved() -> None:
    before = hang(hung("header", "5", show="24 ft"), hung("legs", "1"), hung("legs", "2"))
    after = hang(hung("header", "6", show="25 ft"), hung("legs", "1"), hung("legs", "3"), hung("drop", "5"))
    assert said(before, after) == [
        "hung: header moved from set 5 to set 6", "hung: header on set 6: trims, show 24 ft → 25 ft",
        "hung: legs moved from set 2 to set 3", "hung: drop on set 5 added: CL",
    ]  # fmt: skip


def test_stated_bricks_and_cues_are_told_by_set_and_cue() -> None:
    cue = {"cue": "12", "moves": [{"set": "5", "to": "show"}]}
    before = hang(stated_bricks={"5": "4"}, cues=[cue])
    after = hang(
        stated_bricks={"5": "6", "7": "2"}, cues=[{**cue, "moves": [{"set": "5", "to": "out"}]}, {**cue, "cue": "13"}]
    )
    assert said(before, after) == [
        "stated bricks, 5 4 → 6", "stated bricks, 7 not written → 2", "cue 12: set 5: to show → out", "cue 13 added",
    ]  # fmt: skip


def test_every_difference_knows_its_form() -> None:
    found = diff(house(a_set("1"), a_set("2")), house(a_set("1A", key="1", distance="36 in"), a_set("3")))
    told = {one.says: one.form for one in found}
    assert told == {
        "bay A: sets 1A, 2 → 1A, 3": Form.CHANGED, "set 1 renumbered 1A": Form.RENUMBERED, "set 3 added": Form.ADDED,
        "set 1A: distance only rewritten: 3 ft → 36 in": Form.REWRITTEN, "set 2 removed": Form.REMOVED,
    }  # fmt: skip


def test_documents_of_two_kinds_are_not_held_against_each_other() -> None:
    with pytest.raises(Misuse, match="two kinds"):
        diff(house(), show())
