"""Renumbering as one change: a swap, a chain, what is refused, and every place that names a set."""

from __future__ import annotations

import pytest

from counterpoise.documents import diff, read_hang, read_house, read_log, read_show, renumber, to_json
from counterpoise.errors import BadDocument, Refused
from tests.plain_house import a_house, a_piece, a_set, hung, written

HOUSE = """\
# A house. Invented.
counterpoise: house 1
name: Alder Yard
units: metric
steel:
  - bay: A       # the first
    sets: ["1", "2", 3]
sets:
  - {set: "1", distance: 0.4 m}   # one
  - set: '2'      # two
    distance: 0.7 m
    twin of: "1"
  - {set: 3, key: old three, distance: 1 m}
not checked here:
  - {what: roll, why: seen, who: an invented rigger, sets: ["2", "3"]}
"""
HANG = """\
counterpoise: hang 1
house: Alder Yard
show: Gala
hung:
  - {piece: legs, set: "1", centre: CL, note: "1"}   # stays 1
  - {piece: "2", set: "2", centre: CL}
stated bricks: {"1": 4, "2": 5}
preset: {"1": show}
cues:
  - cue: "1"
    moves: [{set: "1", to: show}, {set: "2", to: "2"}]
not checked here:
  - {what: sag, why: seen, who: an invented rigger, sets: ["1"]}
"""


def test_two_sets_change_places_in_every_place_that_names_them() -> None:
    done = renumber(HOUSE, [HANG], {"1": "2", "2": "1"})
    assert done.house == (
        HOUSE.replace('["1", "2", 3]', '["2", "1", 3]').replace("Alder Yard\n", "Alder Yard\nnumbering: 2\n")
        .replace('{set: "1", distance', '{set: "2", key: "1", distance')
        .replace("- set: '2'      # two\n", "- set: '1'      # two\n    key: '2'\n")
        .replace('twin of: "1"', 'twin of: "2"')
        .replace('sets: ["2", "3"]', 'sets: ["1", "3"]')
    )  # fmt: skip
    assert done.hangs == (
        HANG.replace("Alder Yard\n", "Alder Yard\nnumbering: 2\n")
        .replace('legs, set: "1"', 'legs, set: "2"').replace('"2", set: "2"', '"2", set: "1"')
        .replace('{"1": 4, "2": 5}', '{"2": 4, "1": 5}').replace('{"1": show}', '{"2": show}')
        .replace('{set: "1", to: show}, {set: "2", to: "2"}', '{set: "2", to: show}, {set: "1", to: "2"}')
        .replace('sets: ["1"]', 'sets: ["2"]'),
    )  # fmt: skip


def test_stated_bags_go_with_their_set() -> None:
    hang = HANG.replace('stated bricks: {"1": 4, "2": 5}', 'stated bags: {"1": 90 lb}')
    assert 'stated bags: {"2": 90 lb}' in renumber(HOUSE, [hang], {"1": "2", "2": "1"}).hangs[0]


def test_a_chain_is_one_change_and_a_key_that_is_written_stays() -> None:
    done = renumber(HOUSE, [], {"1": "2", "2": "3", "3": "4A"})
    sets = read_house(done.house).sets
    assert [(one.label, one.permanent) for one in sets] == [("2", "1"), ("3", "2"), ("4A", "old three")]
    assert [one.says for one in diff(read_house(HOUSE), read_house(done.house))] == [
        "set 1 renumbered 2", "set 2 renumbered 3", "set 3 renumbered 4A"]  # fmt: skip


def test_every_place_is_told_with_its_file_and_line() -> None:
    told = [str(one) for one in renumber(HOUSE, [HANG], {"1": "1A"}, file="h.yaml", files=["g.yaml"]).touched]
    assert told == [
        "h.yaml:9  sets: 1 becomes 1A", "h.yaml:12  sets, 2: 1 becomes 1A", "h.yaml:7  steel, A: 1 becomes 1A",
        "h.yaml:9  sets: the permanent key 1 is written, so that its history stays",
        "g.yaml:5  hung, legs: 1 becomes 1A", "g.yaml:7  stated bricks: 1 becomes 1A", "g.yaml:8  preset: 1 becomes 1A",
        "g.yaml:11  cues, 1: 1 becomes 1A", "g.yaml:13  not checked here, sag: 1 becomes 1A",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("labels", "says"),
    [({"9": "1"}, 'no set "9"'), ({"1": "2"}, "called 2"), ({"1": "4", "2": "4"}, "called 4"), ({"1": ""}, "no label"),
     ({"1": "x" * 25}, "no label"), ({"1": "a\nb"}, "no label"), ({"1": " 4"}, "no label")],
)  # fmt: skip
def test_what_would_not_be_a_numbering_is_refused(labels: dict[str, str], says: str) -> None:
    with pytest.raises(Refused, match=says):
        renumber(HOUSE, [HANG], labels)


def test_a_hang_of_another_house_is_refused() -> None:
    with pytest.raises(Refused, match="is for Elsewhere, not for Alder Yard"):
        renumber(HOUSE, [HANG.replace("Alder Yard", "Elsewhere")], {"1": "4"})


def test_a_text_that_is_no_document_is_refused() -> None:
    with pytest.raises(BadDocument):
        renumber("", [], {"1": "2"})


def test_labels_that_yaml_gives_a_meaning_are_written_so_that_they_are_read_back() -> None:
    new = {"1": "no: 1, [a]", "2": "12' #3", "3": "~"}
    done = renumber(HOUSE, [HANG], new)
    assert [one.label for one in read_house(done.house).sets] == list(new.values())


def test_a_hang_that_was_read_is_read_after_it_in_yaml_and_in_json() -> None:
    house = written(a_house(a_set("1"), a_set("2")))
    show = read_show(written({"counterpoise": "show 1", "name": "Gala", "pieces": [a_piece()]}))
    hang = written({"counterpoise": "hang 1", "house": "Plainfield Hall", "show": "Gala", "hung": [hung(on="1")],
                    "stated bricks": {"1": "4"}})  # fmt: skip
    for before, place in ((house, hang), (to_json(house), to_json(hang))):
        done = renumber(before, [place], {"1": "2", "2": "1"})
        after = read_house(done.house)
        read = read_hang(done.hangs[0], after, show)
        assert (read.hung[0].label, list(read.stated_bricks)) == ("2", ["2"])
        assert after.set_called("2") is not None
        assert [one.permanent for one in after.sets] == ["1", "2"]


LOG = """\
counterpoise: log 1
house: Alder Yard
show: Gala
done:
  - {n: 1, did: lock open, set: "1"}   # one
  - {n: 2, did: hang, set: 2, piece: "2"}
  - {n: 3, did: lock on, set: "1"}
"""
SHOW = "counterpoise: show 1\nname: Gala\npieces:\n  - {piece: legs}\n  - {piece: '2'}\n"


def test_a_log_goes_along_and_is_read_after_it() -> None:
    done = renumber(HOUSE, [HANG, LOG], {"1": "1A", "2": "1"}, files=["hang.yaml", "log.yaml"])
    (log,) = done.hangs[1:]
    assert log == (
        LOG.replace('set: "1"', 'set: "1A"').replace("set: 2,", "set: 1,")
        .replace("Alder Yard\n", "Alder Yard\nnumbering: 2\n")
    )  # fmt: skip
    assert [one.label for one in read_log(log, read_house(done.house), read_show(SHOW)).done] == ["1A", "1", "1A"]
    assert "log.yaml:5  done, 1: 1 becomes 1A" in [str(one) for one in done.touched]


def test_a_log_left_behind_is_told_once_for_each_set_with_its_new_label() -> None:
    done = renumber(HOUSE, [], {"1": "1A"})
    with pytest.raises(BadDocument) as caught:
        read_log(LOG, read_house(done.house), read_show(SHOW), "log.yaml")
    (problem,) = caught.value.problems
    assert (problem.line, problem.says) == (5, "set 1 is called 1A now (2 lines name it).")
    assert "counterpoise renumber HOUSE log.yaml 1=1A --write" in problem.mend
    after = renumber(done.house, [LOG], {"1": "1A"})  # what is told to be said
    assert after.house == done.house
    assert [one.label for one in read_log(after.hangs[0], read_house(done.house), read_show(SHOW)).done] == [
        "1A", "2", "1A",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("labels", "says"),
    [({"2": "3"}, "Set 2 would be called 3, and set 3 has that label already."),
     ({"1": "9", "2": "9"}, "Sets 1, 2 would be called 9.")],
)  # fmt: skip
def test_the_sets_that_would_be_called_alike_are_named(labels: dict[str, str], says: str) -> None:
    with pytest.raises(Refused, match=says):
        renumber(HOUSE, [], labels)


# A label that another set had before

SWAP = {"1": "2", "2": "1"}
KEYED = """\
counterpoise: house 1
name: Alder Yard   # of this year
units: metric
sets:
  - set: "1"
    key: front
  - {set: "2", key: back, formerly: ["0"]}
  - {set: "3"}
"""
PIECES = "counterpoise: show 1\nname: Gala\npieces:\n  - {piece: legs}\n"
OLD = """\
counterpoise: hang 1
house: Alder Yard
show: Gala
hung:
  - {piece: legs, set: "1", centre: CL}
"""


def read_in(hang: str, house: str) -> str:
    """The set that the piece hangs on, or what is said against reading it."""
    try:
        return read_hang(hang, read_house(house), read_show(PIECES), "old.yaml").hung[0].label
    except BadDocument as bad:
        return str(bad)


@pytest.mark.parametrize("as_json", [False, True])
def test_a_hang_left_behind_by_a_swap_never_moves_to_another_set_in_silence(as_json: bool) -> None:
    house, old = (to_json(KEYED), to_json(OLD)) if as_json else (KEYED, OLD)
    done = renumber(house, [], SWAP)
    said = read_in(old, done.house)
    assert "what was set 1 is called 2 now, and another set is called 1" in said
    assert "counterpoise renumber HOUSE old.yaml 1=2 --write" in said
    assert "write `numbering: 2`" in said
    after = renumber(done.house, [old], {"1": "2"})  # what is told to be said
    assert after.house == done.house
    assert read_in(after.hangs[0], done.house) == "2"


def test_a_hang_that_goes_along_is_marked_and_read_and_one_written_after_it_says_so() -> None:
    done = renumber(KEYED, [OLD], SWAP)
    assert read_in(done.hangs[0], done.house) == "2"
    assert read_in(OLD.replace("Yard\n", "Yard\nnumbering: 2\n"), done.house) == "1"
    assert read_in(OLD.replace('"1"', '"3"'), done.house) == "3"  # no other set was ever called 3


def test_former_labels_are_kept_where_a_key_was_chosen_and_stay_through_later_renumberings() -> None:
    done = renumber(KEYED, [], SWAP)
    assert "name: Alder Yard   # of this year\nnumbering: 2\n" in done.house
    assert [one.formerly for one in read_house(done.house).sets] == [("1",), ("0", "2"), ()]
    later = renumber(done.house, [], {"2": "5", "1": "6"})
    assert [one.former for one in read_house(later.house).sets] == [("front", "1", "2"), ("back", "0", "2", "1"), ()]
    reused = renumber(later.house, [], {"3": "2"})  # two renumberings after it was set 2
    assert "is called 5 or 6 now, and another set is called 2" in read_in(OLD.replace('"1"', '"2"'), reused.house)
    assert {one.form.value for one in diff(read_house(KEYED), read_house(reused.house))} == {"renumbered"}


def test_a_house_renumbered_by_hand_asks_of_each_hang_which_labels_it_means() -> None:
    by_hand = KEYED.replace("key: front", "key: '2'").replace("key: back", "key: '1'").replace(', formerly: ["0"]', "")
    assert "write `numbering: 1`" in read_in(OLD, by_hand)
    assert read_in(OLD.replace("Yard\n", "Yard\nnumbering: 1\n"), by_hand) == "1"


def test_a_hang_of_an_earlier_numbering_is_not_renumbered_again_in_silence() -> None:
    done = renumber(KEYED, [], SWAP)
    with pytest.raises(Refused, match=r"does not say which sets it means.*name these too: 1=2"):
        renumber(done.house, [OLD], {"3": "4"})
    both = OLD + '  - {piece: legs, set: "2", centre: CL}\n'
    with pytest.raises(Refused, match="name these too: 2=1"):
        renumber(done.house, [both], {"1": "2"})


def test_a_swap_said_again_of_a_hang_that_goes_along_is_the_way_back() -> None:
    there = renumber(KEYED, [OLD], SWAP)
    back = renumber(there.house, there.hangs, SWAP)
    assert [one.label for one in read_house(back.house).sets] == ["1", "2", "3"]
    assert read_in(back.hangs[0], back.house) == "1"
    assert "numbering: 3" in back.hangs[0]


def test_a_log_of_married_sets_gets_both_labels_and_one_left_behind_is_told() -> None:
    log = "counterpoise: log 1\nhouse: Alder Yard\nshow: Gala\ndone:\n  - {n: 1, did: lock open, set: 1+2}\n"
    house = KEYED.replace("key: back", "key: back, twin of: '1', married: yes")
    done = renumber(house, [log], {"1": "2", "2": "3", "3": "1"})
    assert "set: 2+3" in done.hangs[0]
    with pytest.raises(BadDocument, match="this log does not say"):
        read_log(log, read_house(done.house), read_show(PIECES))
