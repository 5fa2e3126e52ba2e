"""Edits as a person meets them; the laws stand in tests/properties/test_edits_of_fields.py."""

from __future__ import annotations

import pytest

from counterpoise.documents import Edit, add, apply_edits, by_name, remove, rename
from counterpoise.errors import BadDocument, Refused

TEXT = """\
counterpoise: house 1
rules:
  lock hold: 50 lb   # adopted
kinds:
  single:
    batten: {wall: 0.145 in, length: 42 ft}   # pipe
sets:
  - {set: "1", distance: 3 ft}
  - set: "2"
    distance: 4 ft
    lines:
      at: [6' SR, 6' SL]
"""


def test_a_field_is_added_where_its_neighbours_stand_and_as_they_do() -> None:
    assert add(TEXT, "rules.sag", "1/180") == TEXT.replace("# adopted\n", "# adopted\n  sag: 1/180\n")
    assert add(TEXT, "kinds.single.batten.weight", "2 lb/ft") == TEXT.replace("42 ft}", "42 ft, weight: 2 lb/ft}")
    assert add(TEXT, "sets[0].note", "a, b") == TEXT.replace("3 ft}", "3 ft, note: 'a, b'}")
    assert add(TEXT, "sets[1].note", "new") == TEXT.replace("6' SL]\n", "6' SL]\n    note: new\n")
    assert add(TEXT, "sets[set=2].stops.top", "5 kN") == TEXT.replace("6' SL]\n", "6' SL]\n    stops: {top: 5 kN}\n")


def test_an_item_is_added_last() -> None:
    assert add(TEXT, "sets[1].lines.at[+]", "9' SL") == TEXT.replace("6' SL]", "6' SL, 9' SL]")
    assert add(TEXT, "sets[+]", {"set": "3"}) == TEXT + "  - {set: 3}\n"
    assert add(TEXT, "sets[2]", {"set": "3"}) == TEXT + "  - {set: 3}\n"
    assert add(TEXT, "steel[+]", {"bay": "A"}) == TEXT + "steel: [{bay: A}]\n"


def test_what_is_taken_out_takes_its_comma_or_its_line_and_leaves_the_comment() -> None:
    assert remove(TEXT, "kinds.single.batten.wall") == TEXT.replace("wall: 0.145 in, ", "")
    assert remove(TEXT, "kinds.single.batten.length") == TEXT.replace(", length: 42 ft", "")
    assert remove(TEXT, "sets[0]") == TEXT.replace('  - {set: "1", distance: 3 ft}\n', "")
    assert remove(TEXT, "sets[1].set") == TEXT.replace('set: "2"\n    distance', "distance")
    assert remove(TEXT, "sets[1].distance") == TEXT.replace("    distance: 4 ft\n", "")
    assert remove(TEXT, "rules.lock hold") == TEXT.replace("lock hold: 50 lb   # adopted", "{}   # adopted")
    assert remove(TEXT, "kinds") == TEXT.replace(
        "kinds:\n  single:\n    batten: {wall: 0.145 in, length: 42 ft}   # pipe", "# pipe"
    )


def test_a_field_is_renamed_and_not_onto_another() -> None:
    assert rename(TEXT, "kinds.single", "12 ft") == TEXT.replace("single:", "12 ft:")
    with pytest.raises(BadDocument, match="already"):
        rename(TEXT, "sets[0].distance", "set")


@pytest.mark.parametrize("path", ["sets[7].note", "sets.note", "rules.lock hold", "name.x[2]", "", "rules.lock hold.x"])
def test_there_is_no_place_to_add(path: str) -> None:
    with pytest.raises(BadDocument, match="no place"):
        add(TEXT, path, "x")


@pytest.mark.parametrize("path", ["sets[7]", "rules.sag", "", "rules.lock"])
def test_there_is_nothing_to_take_out(path: str) -> None:
    with pytest.raises(BadDocument, match="nothing here"):
        remove(TEXT, path)


def test_a_typed_change_is_refused_when_another_person_was_there_first() -> None:
    mine = Edit(path="sets[0].distance", old="3 ft", new="3 ft 6 in")
    assert apply_edits(TEXT, [mine]) == TEXT.replace("3 ft}", "3 ft 6 in}")
    theirs = apply_edits(TEXT, [Edit(path="sets[0].distance", old="3 ft", new="2 ft")])
    with pytest.raises(Refused, match="2 ft stands there now, 3 ft was seen"):
        apply_edits(theirs, [mine])
    with pytest.raises(Refused, match="nothing stands there now"):
        apply_edits(remove(TEXT, "sets[0].distance"), [mine])
    with pytest.raises(Refused, match="nothing was seen"):
        apply_edits(TEXT, [Edit(path="sets[0].distance", new="1 ft")])


def test_of_several_changes_all_are_made_or_none() -> None:
    edits = [Edit(path="rules.sag", new="1/180"), Edit(path="rules.lock hold", old="40 lb", new="30 lb")]
    with pytest.raises(Refused):
        apply_edits(TEXT, edits)


def test_a_path_by_name_finds_its_set_when_another_person_took_one_out() -> None:
    path = by_name(TEXT, "sets[1].distance")
    assert path == "sets[set=2].distance"
    assert by_name(TEXT, "kinds.single.batten.wall") == "kinds.single.batten.wall"
    assert by_name(TEXT, "sets[1].lines.at[0]") == "sets[set=2].lines.at[0]"
    without = remove(TEXT, "sets[0]")
    edit = Edit(path=path, old="4 ft", new="5 ft")
    assert apply_edits(without, [edit]) == without.replace("4 ft", "5 ft")


def test_names_with_dots_and_brackets_are_found() -> None:
    text = 'stock: {"St. Mary [old]": 3, a.b: 1}\n'
    assert rename(text, "stock.St. Mary [old]", "x") == 'stock: {"x": 3, a.b: 1}\n'
    assert remove(text, "stock.a.b") == 'stock: {"St. Mary [old]": 3}\n'
