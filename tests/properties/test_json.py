"""YAML and JSON of a document hold the same words, whatever the words, and other readers read the same ones."""

import json
from dataclasses import fields, is_dataclass
from importlib.resources import files
from typing import Any

import yaml
from hypothesis import given, strategies as st

from counterpoise.documents import from_json, read_hang, read_house, read_show, to_json
from counterpoise.documents.text import parse
from counterpoise.documents.tree import plain
from tests.plain_house import a_house, a_piece, a_set, written

any_words = st.text(
    st.one_of(
        st.sampled_from("#:,[]{}&*!|>%@`'\"~?-.\\/ ab12'½\u2028\x85\t\n"), st.characters(exclude_categories=["Cs"])
    ),
    max_size=20,
).map(str.strip)
names = any_words.filter(bool)
trees = st.dictionaries(
    names,
    st.recursive(
        any_words, lambda one: st.lists(one, max_size=4) | st.dictionaries(names, one, max_size=4), max_leaves=12
    ),
    min_size=1,
    max_size=5,
)


@given(tree=trees, indent=st.sampled_from([None, 1, "\t"]), ascii_only=st.booleans())
def test_any_json_of_words_is_read_as_another_reader_reads_it(tree: Any, indent: Any, ascii_only: bool) -> None:
    text = json.dumps(tree, indent=indent, ensure_ascii=ascii_only)
    assert plain(parse(text, "f")) == tree


@given(tree=trees)
def test_json_turned_to_yaml_is_read_by_us_and_by_another_reader_as_the_same_words(tree: Any) -> None:
    text = from_json(json.dumps(tree))
    assert yaml.load(text, Loader=yaml.BaseLoader) == tree
    assert json.loads(to_json(text)) == tree


# Figures as people write them, with marks that need quotes in one notation or the other.
figures = st.sampled_from(["12 ft", "12'-6\"", "1,500 mm", "4.2 m", "~3 ft", "10' 1-1/2\"", "unknown", "3½ ft @tape"])


@given(
    distance=figures,
    trim=st.sampled_from(["4 ft", "4'", "~1,300 mm @tape", '51"']),
    label=st.sampled_from(["9", "12A", "010", "no", "é😀"]),
)
def test_a_house_in_json_and_back_in_yaml_is_the_same_model(distance: str, trim: str, label: str) -> None:
    tree = a_house(a_set(label, distance=distance, low_trim=trim)) | {
        "sources": {"tape": {"how": "measured", "what": "tape"}}
    }
    text = written(tree)
    there = to_json(text)
    models = [unplaced(read_house(one)) for one in (text, there, from_json(there))]
    assert models[0] == models[1] == models[2]


def test_the_demo_in_json_is_the_same_model() -> None:
    texts = [
        files("counterpoise.app").joinpath("demo_files", f"{kind}.yaml").read_text("utf-8")
        for kind in ("house", "show", "hang")
    ]
    for turned in (to_json, lambda text: from_json(to_json(text))):
        house, show = read_house(texts[0]), read_show(texts[1])
        assert unplaced(read_house(turned(texts[0]))) == unplaced(house)
        assert unplaced(read_show(turned(texts[1]))) == unplaced(show)
        assert unplaced(read_hang(turned(texts[2]), house, show)) == unplaced(read_hang(texts[2], house, show))


def unplaced(one: Any) -> Any:
    """A model without its lines, which alone may differ."""
    if is_dataclass(one) and not isinstance(one, type):
        return {
            field.name: unplaced(getattr(one, field.name))
            for field in fields(one)
            if field.name not in ("line", "line_of")
        }
    if isinstance(one, dict):
        return {name: unplaced(each) for name, each in one.items()}
    return [unplaced(each) for each in one] if isinstance(one, tuple | list) else one


def test_a_piece_of_a_show_in_json_keeps_its_words() -> None:
    text = written({"counterpoise": "show 1", "name": "Gala", "pieces": [a_piece(picks=["6' SR", "6'-1\" SL"])]})
    assert read_show(to_json(text)).pieces[0].picks[1].text == "6'-1\" SL"
