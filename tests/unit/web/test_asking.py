"""What a form asks for is what the documents declare: words where words stand, an example where a figure does."""

import pytest

from counterpoise.app import Texts, judge
from counterpoise.checks import Unknown
from counterpoise.documents import read_house
from counterpoise.units import Kind, read
from counterpoise.web.asking import LIKE, asked_as, for_which
from tests.eight_sets import eight_sets

HOUSE = read_house(eight_sets().house)


@pytest.mark.parametrize(("path", "words"), [
    ("kinds.usual.hand line", ("with the batten", "with the arbor")),
    ("sets[3].purchase", ("single", "double")),
    ("sets[3].loft block.rating of", ("line pull", "resultant")),
    ("steel[0].impact", ("included", "add 25 %")),
])  # fmt: skip
def test_where_a_few_words_are_taken_they_are_offered(path: str, words: tuple[str, ...]) -> None:
    assert asked_as(path, HOUSE).choices == words


@pytest.mark.parametrize(("path", "said"), [
    ("kinds.usual.lines.shackle", "a force, as in 500 lb"),
    ("sets[0].batten.length", "a length"),
    ("pieces[2].weight", "a weight, as in 25 lb"),
    ("sets[0].lines.at", "20' SR"),
    ("sets[0].batten.pipe", "a size, as in"),
])  # fmt: skip
def test_where_a_figure_is_taken_an_example_says_its_unit(path: str, said: str) -> None:
    asked = asked_as(path, HOUSE)
    assert said in asked.like
    assert not asked.choices


@pytest.mark.parametrize("kind", LIKE)
def test_every_example_is_one_that_is_read(kind: Kind) -> None:
    for said in LIKE[kind]:
        for one in said.split(" or "):
            assert read(one, kind).best is not None


def test_a_place_that_no_set_has_asks_for_nothing() -> None:
    assert asked_as("cellar.depth", HOUSE).like == ""
    assert asked_as("kinds.usual.nothing.there", HOUSE).choices == ()


def test_a_figure_of_a_kind_is_said_to_be_of_all_its_sets_however_few_wait_for_it() -> None:
    sets = judge(Texts(house=eight_sets().house)).house.house.sets
    home = sets[0].home
    count = sum(1 for one in sets if one.home == home)
    assert count > 1
    one = Unknown(what="shackle rating", path=f"{home}.lines.shackle", where="", sets=(sets[0].label,),
                  paths=(f"{home}.lines.shackle",))  # fmt: skip
    assert f"written once for all {count} sets" in for_which(one, sets)
    own = Unknown(what="low trim", path="sets[0].low trim", where="", sets=("1",), paths=("sets[0].low trim",))
    assert for_which(own, sets) == "for set 1"
