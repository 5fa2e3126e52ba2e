"""The house's own words."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from counterpoise.documents import House, read_house
from counterpoise.documents.speech import UK, Speech


def house(words: str, *, name: str = "Alder Yard", bridge: str = "fly floor bridge") -> House:
    return read_house(
        f"counterpoise: house 1\nname: {name}\nunits: metric\nwords: {words}\n"
        f"bridges: [{{bridge: {bridge}, floor: 10 m, reach from: 0 m, reach to: 2 m}}]\n"
        'sets: [{set: "1", distance: 1 m, purchase: single, use: brick wall}]\n'
    )


@pytest.mark.parametrize(("said", "becomes"), [
    ("Bridge, set 1: add 3 bricks on the arbor.", "Gallery, set 1: add 3 weights on the cradle."),
    ("batten-heavy 21 lb, held by the lock", "bar-heavy 21 lb, held by the lock"),
    ("Arbor first, then batten.", "Cradle first, then bar."),
    ("low trim is not known", "low dead is not known"),
    ("trim chain, shackle", "trim chain, shackle"),
])  # fmt: skip
def test_a_british_house_hears_its_own_words(said: str, becomes: str) -> None:
    assert Speech(house("uk"))(said) == becomes


def test_names_that_people_gave_stay_as_they_are() -> None:
    said = Speech(house("uk"))("Hang brick wall from fly floor bridge, 3 bricks.")
    assert said == "Hang brick wall from fly floor bridge, 3 weights."


def test_what_is_to_be_typed_stays_as_it_is() -> None:
    said = "Write `pipe weight: 3` for the arbor. Key: 3/arbor"
    assert Speech(house("uk"))(said) == "Write `pipe weight: 3` for the cradle. Key: 3/arbor"


def test_a_word_inside_another_word_is_not_touched() -> None:
    assert Speech(house("uk"))("bricklayer, abridged, harbor") == "bricklayer, abridged, harbor"


@given(st.text(max_size=60))
def test_a_house_in_us_words_hears_every_sentence_as_it_was_made(said: str) -> None:
    assert Speech(house("us"))(said) == said


@given(st.lists(st.sampled_from([*UK, "3", "lock", "and"]), max_size=8).map(" ".join))
def test_no_us_word_is_left_in_a_british_sentence(said: str) -> None:
    heard = Speech(house("uk"))(said)
    assert not any(word in heard.split() for word in ("batten", "arbor", "brick", "bridge"))
