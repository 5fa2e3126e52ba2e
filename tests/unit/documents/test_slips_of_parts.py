"""Slips in words and figures of documents that would pass for something else: each is refused with what to write."""

from __future__ import annotations

from typing import Any

import pytest

from counterpoise.documents import diff, read_hang, read_house, read_show
from counterpoise.errors import BadDocument, Problem
from tests.plain_house import Map, a_house, a_piece, a_set, hung, written


def problems_of(text: str, house: str = "", show: str = "") -> tuple[Problem, ...]:
    with pytest.raises(BadDocument) as caught:
        _read(text, house, show)
    return tuple(caught.value.problems)


def _read(text: str, house: str, show: str) -> object:
    if house:
        return read_hang(text, read_house(house), read_show(show))
    return read_show(text) if "\npieces:" in text else read_house(text)


def says(text: str) -> str:
    return "\n".join(map(str, problems_of(text)))


def of_house(*sets: Map, **changes: Any) -> str:
    return says(written(a_house(*sets, **changes)))


def a_show(*pieces: Map, **changes: Any) -> str:
    return written({"counterpoise": "show 1", "name": "Gala", "pieces": list(pieces), **changes})


@pytest.mark.parametrize(("word", "mend"), [("no", "Take the line out"), ("N", "Take the line out"),
                                            ("yes", "Write why"), ("false", "Take the line out")])  # fmt: skip
def test_a_bare_yes_or_no_takes_no_set_out_of_service(word: str, mend: str) -> None:
    said = of_house(a_set(out_of_service=word))
    assert "does not say why" in said
    assert mend in said


@pytest.mark.parametrize("word", ["~", "null", "NULL"])
def test_yamls_words_for_nothing_are_no_label(word: str) -> None:
    (problem,) = problems_of(f"counterpoise: house 1\nname: A\nunits: us\nsets:\n  - set: {word}\n")
    assert (problem.path, problem.says) == ("sets[0].set", "says nothing that can be read.")
    quoted = read_house(f'counterpoise: house 1\nname: A\nunits: us\nsets:\n  - set: "{word}"\n')
    assert quoted.sets[0].label == word  # as with a ? in quotes


def test_a_word_that_only_begins_alike_is_not_suggested() -> None:
    hold = {"hold": "capstan", "does": "pull", "against": "both", "acts on": "batten", "rating": "500 lb"}
    said = of_house(holds=[hold])
    assert "must be one of: park, haul" in said
    assert "Did you mean" not in said


def test_a_number_cut_in_two_by_a_comma_is_told_once() -> None:
    text = "counterpoise: house 1\nname: A\nunits: us\nsets:\n  - {set: 1, batten: {modulus: 29,000 ksi}}\n"
    (problem,) = problems_of(text)
    assert (problem.path, problem.value) == ("sets[0].batten.modulus", "29,000 ksi")


def test_a_source_that_no_figure_can_point_at_is_refused_and_one_of_two_words_is_read() -> None:
    source = {"how": "measured", "what": "a tape"}
    assert "A name begins with a letter" in of_house(sources={"tape (new)": source})
    house = read_house(written(a_house(a_set(distance="3 ft @my tape"), sources={"my tape": source})))
    assert house.sets[0].distance.source is not None
    assert house.sets[0].distance.source.name == "my tape"
    assert "Did you mean @my tape?" in of_house(a_set(distance="3 ft @my tapes"), sources={"my tape": source})


@pytest.mark.parametrize(
    ("taken", "says_so"),
    [({"each": "20 lb", "length": "4 ft"}, "length does not go with `each`"),
     ({"each": "20 lb", "fullness": "50 %"}, "fullness does not go with `each`"),
     ({"per length": "2 lb/ft", "length": "4 ft", "width": "2 ft"}, "width does not go with `per length`"),
     ({"per area": "16 oz/yd2", "width": "4 ft", "height": "4 ft", "length": "2 ft"}, "give the weight `per length`"),
     ({"per area": "16 oz/yd2", "width": "4 ft", "height": "4 ft", "fullness": "50"}, "like 50 %")],
)  # fmt: skip
def test_a_takeoff_keeps_no_figure_that_changes_nothing(taken: Map, says_so: str) -> None:
    assert says_so in says(a_show({"piece": "legs", "takeoff": [taken]}))


def test_fullness_of_one_and_a_half_is_two_and_a_half_times_the_width() -> None:
    taken = {"per area": "16 oz/yd2", "width": "4 ft", "height": "4 ft", "fullness": "1.5"}
    (line,) = read_show(a_show({"piece": "legs", "takeoff": [taken]})).pieces[0].takeoff
    assert line.fullness is not None
    assert line.fullness.best == 1.5  # 150 % added


BRIDGE = {"bridge": "loading bridge", "floor": "48 ft", "reach from": "0 ft", "reach to": "7 ft"}
BRICK = {"brick": "full", "weight": "25 lb", "thickness": "1 in"}


@pytest.mark.parametrize(
    ("house", "says_so"),
    [(a_house(bridges=[BRIDGE | {"reach from": "7 ft", "reach to": "0 ft"}]), "nothing can be reached"),
     (a_house(rails=[{"rail": "deck", "floor": "0 ft", "reach from": "7 ft", "reach to": "0 ft"}]), "smaller figure"),
     (a_house(bridges=[BRIDGE], bricks=[BRICK | {"stock": {"loadin bridge": "6"}}]), "Did you mean loading bridge?"),
     (a_house(stage={"loft blocks": "62 ft", "fire curtain": {"from": "2 ft", "to": "1 ft"}}), "ends before it begins"),
     (a_house(rules={"person": "1000 kg"}), "like 200 lb or 90 kg"),
     (a_house(a_set(lines={"stiffness": "1 lb"})), "like 446,000 lb"),
     (a_house(a_set(arbor={"bricks in a layer": "0"})), "must be more than zero")],
)  # fmt: skip
def test_what_can_not_be_of_a_house_is_refused(house: Map, says_so: str) -> None:
    assert says_so in says(written(house))


def test_the_smallest_pipe_of_a_clamp_is_no_larger_than_its_largest() -> None:
    assert "larger than the largest" in says(a_show(a_piece(clamps={"fit from": "2 in", "fit to": "1 in"})))


@pytest.mark.parametrize("at", ["8' SL", "7' SR"])
def test_a_centre_of_gravity_outside_both_picks_tips_the_piece(at: str) -> None:
    piece = {"piece": "box", "weight": "50 lb", "height": "3 ft", "picks": ["6' SR", "6' SL"]}
    assert "would tip on the nearer one" in says(a_show(piece | {"centre of gravity": at}))
    assert read_show(a_show(piece | {"centre of gravity": "6' SL"})).pieces


HEMP = {"rigged": "hemp", "set": "H1", "kind": "s"}


def test_the_mend_of_a_hemp_set_with_the_purchase_of_its_kind_can_be_followed() -> None:
    house = a_house(a_set("1"), kinds={"s": {"purchase": "single"}}, sets=[HEMP], steel=[])
    assert "Write `purchase: none` in the set" in says(written(house))
    mended = a_house(kinds={"s": {"purchase": "single"}}, sets=[HEMP | {"purchase": "none"}], steel=[])
    assert read_house(written(mended)).sets[0].purchase == "unknown"


# Cues


def in_hang(**changes: Any) -> str:
    house = written(a_house(a_set("1"), a_set("2")))
    hang = {"counterpoise": "hang 1", "house": "Plainfield Hall", "show": "Gala",
            "hung": [hung(on="1", show="20 ft", out="50 ft"), hung(on="2", show="30 ft")], **changes}  # fmt: skip
    return "\n".join(map(str, problems_of(written(hang), house, a_show(a_piece()))))


@pytest.mark.parametrize(
    ("changes", "says_so"),
    [({"preset": {"77": "show"}}, "there is no set 77"),
     ({"preset": {"1": "flying"}}, "there is no trim flying"),
     ({"preset": {"1": "shwo"}}, "Did you mean show?"),
     ({"cues": [{"cue": "1", "moves": [{"set": "77", "to": "out"}]}]}, "there is no set 77"),
     ({"cues": [{"cue": "1", "moves": [{"set": "2", "to": "out"}]}]}, "Trims of what hangs on set 2: show."),
     ({"cues": [{"cue": "1", "moves": [{"set": "1", "to": "out"}]}] * 2}, "cue 1 stands twice"),
     ({"cues": [{"cue": "1", "moves": [{"set": "1", "to": "out"}, {"set": "1", "to": "show"}]}]}, "moves set 1 twice")],
)  # fmt: skip
def test_cues_and_preset_name_sets_and_trims_that_are_there(changes: Map, says_so: str) -> None:
    assert says_so in in_hang(**changes)


# What nothing names yet


def spare(**changes: Any) -> Map:
    kinds = {"spare": {"purchase": "single", "low trim": "4 ft", "high trim": "58 ft"} | changes}
    return a_house(a_set("1"), kinds=kinds)


@pytest.mark.parametrize(
    ("changes", "says_so"),
    [({"low trimm": "4 ft"}, "Did you mean `low trim`?"), ({"low trim": "4 kg"}, "read as a length"),
     ({"high trim": "3 ft"}, "is not above low trim"),
     ({"batten": {"pipe": "1-1/2 in schedule 41"}}, "no pipe or tube"),
     ({"brick": "none such"}, "there is no brick"), ({"set": "3"}, "a kind has no label")],
)  # fmt: skip
def test_a_kind_that_no_set_is_of_is_read_as_well(changes: Map, says_so: str) -> None:
    (problem,) = problems_of(written(spare(**changes)))
    assert says_so in str(problem)
    assert problem.path.startswith("kinds.spare.")


def test_a_field_of_a_kind_that_is_not_known_is_told_once_where_it_stands() -> None:
    sets = [{"set": str(n), "kind": "s"} for n in range(1, 9)]
    (problem,) = problems_of(written(a_house(sets=sets, steel=[], kinds={"s": {"low trimm": "4 ft"}})))
    assert (problem.path, problem.mend) == ("kinds.s.low trimm", "Did you mean `low trim`?")


def rows(**figures: str) -> Map:
    return {"catalogue": {"wire rope": {"lift line of 2019": figures}}}


@pytest.mark.parametrize(
    ("figures", "says_so"),
    [({"wieght": "0.1 lb/ft"}, "Did you mean `weight`?"), ({"weight": "0.1 lb"}, "read as a weight per length"),
     ({"source": "nobody", "weight": "0.1 lb/ft"}, "no source is called nobody")],
)  # fmt: skip
def test_a_row_of_the_own_catalogue_that_nothing_names_is_read_as_well(figures: dict[str, str], says_so: str) -> None:
    assert says_so in of_house(**rows(**figures))
    assert says_so in says(a_show(a_piece(), **rows(**figures)))


def test_a_difference_in_what_nothing_names_is_told() -> None:
    was, now = (read_house(written(spare(**{"low trim": low}) | rows(weight=weight)))
                for low, weight in (("4 ft", "0.1 lb/ft"), ("5 ft", "0.2 lb/ft")))  # fmt: skip
    assert [one.says for one in diff(was, now)] == [
        "catalogue, wire rope, lift line of 2019: weight 0.1 lb/ft → 0.2 lb/ft", "kind spare: low trim 4 ft → 5 ft",
    ]  # fmt: skip
    none = read_house(written(a_house(a_set("1"))))
    assert [one.says for one in diff(none, now)] == [
        "catalogue, wire rope, lift line of 2019 added", "kind spare added"]  # fmt: skip
    assert [one.says for one in diff(now, none)][-1] == "kind spare removed"


def test_a_difference_in_a_row_that_is_named_is_told_once() -> None:
    sets = [{"set": "1", "lines": {"rope": "lift line of 2019"}}]
    was, now = (
        read_house(written(a_house(sets=sets, steel=[], **rows(weight=one)))) for one in ("0.1 lb/ft", "0.2 lb/ft")
    )
    assert [one.says for one in diff(was, now)] == ["set 1: lines weight 0.1 lb/ft → 0.2 lb/ft"]
