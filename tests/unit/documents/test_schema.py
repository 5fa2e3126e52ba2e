"""The shipped schemas are made from the declared fields; jsonschema, a general validator, holds documents to them."""

from __future__ import annotations

import dataclasses
import json
import re
from importlib.resources import files
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml

from counterpoise.documents import read_house, read_show, schema_of
from counterpoise.documents.house import House
from counterpoise.errors import BadDocument, Misuse
from tests.plain_house import a_house, a_piece, a_set, written

ROOT = Path(__file__).resolve().parents[3]
KINDS = ("house", "show", "hang")
_FENCED = re.compile(r"^```yaml (house|show|hang)\n(.*?)^```$", re.MULTILINE | re.DOTALL)


def errors(kind: str, text: str) -> list[str]:
    """What jsonschema finds in a document as a YAML reader gives it that turns every value into words."""
    tree = yaml.load(text, Loader=yaml.BaseLoader)
    return [
        f"{one.json_path}: {one.message}" for one in jsonschema.Draft202012Validator(schema_of(kind)).iter_errors(tree)
    ]


def documents() -> list[tuple[str, str, str]]:
    """Every complete document of the repository: the demo, those of the docs, those of the situations."""
    found = [(kind, f"demo {kind}", files("counterpoise.app").joinpath("demo_files", f"{kind}.yaml").read_text("utf-8"))
             for kind in KINDS]  # fmt: skip
    found += [(kind, f"docs {kind}", text) for kind, text in
              _FENCED.findall((ROOT / "docs" / "documents.md").read_text("utf-8"))]  # fmt: skip
    for path in sorted((ROOT / "tests").rglob("*.yaml")):
        text = path.read_text("utf-8")
        said = re.search(r"^counterpoise: (house|show|hang) 1", text, re.MULTILINE)
        found += [(said[1], path.name, text)] if said else []
    return found


@pytest.mark.parametrize("kind", KINDS)
def test_the_shipped_schema_is_the_one_that_is_made(kind: str) -> None:
    shipped = files("counterpoise.documents").joinpath("schemas", f"{kind}.schema.json").read_text("utf-8")
    assert json.loads(shipped) == schema_of(kind), "python3 dev.py schemas makes them anew"


@pytest.mark.parametrize("kind", KINDS)
def test_a_schema_keeps_to_the_standard_it_names(kind: str) -> None:
    schema = schema_of(kind)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    jsonschema.Draft202012Validator.check_schema(schema)


def test_there_is_no_schema_of_what_is_no_document() -> None:
    with pytest.raises(Misuse, match="house, show, hang"):
        schema_of("set")


@pytest.mark.parametrize(("kind", "text"), [pytest.param(kind, text, id=name) for kind, name, text in documents()])
def test_every_document_of_the_repository_is_valid(kind: str, text: str) -> None:
    assert errors(kind, text) == []


def test_numbers_that_an_editors_yaml_makes_of_counts_ratios_and_labels_are_valid() -> None:
    house = a_house(a_set(pipe_weight=2), rules={"lift line factor": 8, "sag": "1/180"}) | {"name": 12}
    house["sets"][0]["set"] = 9
    jsonschema.validate(house, schema_of("house"))


def _set(**changes: Any) -> str:
    return written(a_house(a_set(**changes)))


BROKEN = {
    "no unit": _set(low_trim="4"),
    "no figure": _set(low_trim="low"),
    "a weight for a length": _set(distance="12 lb"),
    "a range where one figure is read": _set(low_trim="4..5 ft"),
    "a minus where there is none": _set(low_trim="-4 ft"),
    "a purchase of a third sort": _set(purchase="triple"),
    "an unknown field": _set(colour="red"),
    "an unknown field of a part": _set(lines={"brekaing strength": "7,000 lb"}),
    "a list for a figure": _set(distance=["1 ft"]),
    "a word for a list": _set(lines={"at": "CL"}),
    "none where there is always one": _set(low_trim="none"),
    "a place that is none": written(
        a_house(a_set(batten={"attachments": [{"attachment": "track", "centre": "4 ft"}]}))
    ),
    "another document": written({**a_house(), "counterpoise": "show 1"}),
    "no name": written({name: one for name, one in a_house().items() if name != "name"}),
    "no sets": written({name: one for name, one in a_house().items() if name != "sets"}),
    "a set without a label": written({**a_house(), "sets": [{"distance": "1 ft"}]}),
    "a count that is none": _set(pipe_weight="two"),
    "a source known in a fourth way": written({**a_house(), "sources": {"tape": {"how": "guessed", "what": "tape"}}}),
    "a slip in a kind": written({**a_house(), "kinds": {"single": {"purchse": "single"}}, "sets": []}),
    "a family that is none": written({**a_house(), "catalogue": {"pipes": {}}}),
    "what is not checked, with no day": written(
        a_house(not_checked_here=[{"what": "sag", "why": "seen", "who": "an invented rigger", "until": "soon"}])
    ),
}


@pytest.mark.parametrize("text", BROKEN.values(), ids=BROKEN)
def test_a_broken_house_is_invalid_and_is_refused_by_the_reader_too(text: str) -> None:
    assert errors("house", text) != []
    with pytest.raises(BadDocument):
        read_house(text)


def test_a_broken_show_and_a_broken_hang_are_invalid() -> None:
    broken = written({"counterpoise": "show 1", "name": "Gala", "pieces": [a_piece(comes="slowly")]})
    assert errors("show", broken) != []
    with pytest.raises(BadDocument):
        read_show(broken)
    hang = {"counterpoise": "hang 1", "house": "A", "show": "B", "hung": [{"piece": "a", "set": "1", "centre": "6 ft"}]}
    assert errors("hang", written(hang)) != []


# Figures of docs/conventions.md and of tables as they are printed: what the reader takes must be valid.
@pytest.mark.parametrize(
    "said",
    ["42 ft 6 in", "12'-6\"", "1-1/2 in", "3.8 m", "450 mm", "0", "0 in", "~4 ft", "unknown", "4 ft @tape", "½ in",
     "4′ 6″", "about 4 ft"],
)  # fmt: skip
def test_a_length_that_is_read_is_valid(said: str) -> None:
    text = written({**a_house(a_set(batten={"hardware": "~3 lb"}, low_trim=said)),
                    "sources": {"tape": {"how": "measured", "what": "tape"}}})  # fmt: skip
    read_house(text)
    assert errors("house", text) == []


def test_every_declared_field_stands_in_the_schema_with_a_description() -> None:
    properties = schema_of("house")["properties"]
    words = {one.name.replace("_", " ") for one in dataclasses.fields(House) if "reader" in one.metadata}
    assert words - set(properties) == set()
    batten = schema_of("house")["$defs"]["Batten"]["properties"]
    assert batten["wall"]["description"].startswith("Length, like 42 ft 6 in")
    assert schema_of("house")["$defs"]["LineSet"]["properties"]["purchase"]["enum"][:2] == ["single", "double"]
