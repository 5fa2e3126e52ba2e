"""The commands about documents, from their words to files and exit codes."""

from __future__ import annotations

import json
from importlib.resources import files
from pathlib import Path

import jsonschema
import pytest

from counterpoise.cli import main
from counterpoise.documents import read_house, schema_of
from tests.plain_house import a_house, a_set, hung, written

HOUSE = "# kept\n" + written(a_house(a_set("1"), a_set("2")))
HANG = written({"counterpoise": "hang 1", "house": "Plainfield Hall", "show": "Gala", "hung": [hung(on="1")]})


@pytest.fixture
def there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a house and a hang, and the process in it."""
    (tmp_path / "house.yaml").write_text(HOUSE, "utf-8")
    (tmp_path / "hang.yaml").write_text(HANG, "utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def said(capsys: pytest.CaptureFixture[str], *words: str, code: int = 0) -> str:
    assert main(words) == code
    out, err = capsys.readouterr()
    return err if code else out


def test_a_house_goes_to_json_and_back(there: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (there / "house.json").write_text(said(capsys, "json", "house.yaml"), "utf-8")
    assert json.loads((there / "house.json").read_text("utf-8"))["sets"][1]["set"] == "2"
    assert "no difference" in said(capsys, "diff", "house.yaml", "house.json")
    (there / "again.yaml").write_text(said(capsys, "yaml", "house.json"), "utf-8")
    assert "no difference" in said(capsys, "diff", "house.yaml", "again.yaml")


def test_a_turned_document_is_written_where_nothing_stands(there: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (there / "half.yaml").write_text(HOUSE.replace("thickness: 1 in", "thickness: 1½ in"), "utf-8")
    assert said(capsys, "json", "half.yaml", "--out", "half.json") == "Written: half.json\n"
    assert said(capsys, "yaml", "half.json", "--out", "again.yaml") == "Written: again.yaml\n"
    assert "no difference" in said(capsys, "diff", "half.yaml", "again.yaml")
    assert said(capsys, "json", "half.yaml").isascii()
    assert "there already" in said(capsys, "json", "half.yaml", "--out", "house.yaml", code=73)
    assert (there / "house.yaml").read_text("utf-8") == HOUSE


def test_json_with_a_null_ends_with_65_and_a_mend(there: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (there / "bad.json").write_text('{"counterpoise": "house 1", "name": null}', "utf-8")
    assert 'bad.json:1:37  name: "null"' in said(capsys, "yaml", "bad.json", code=65)


def test_a_difference_is_told_in_words_and_as_data_that_keeps_to_its_schema(
    there: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (there / "new.yaml").write_text(written(a_house(a_set("1", distance="4 ft"), a_set("2"))), "utf-8")
    assert said(capsys, "diff", "house.yaml", "new.yaml") == "set 1: distance 3 ft → 4 ft\n"
    data = json.loads(said(capsys, "diff", "house.yaml", "new.yaml", "--json"))
    schema = json.loads(said(capsys, "schema", "diff"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(data, schema)
    assert (data["document"], data["differences"][0]["sets"]) == ("house", ["1"])
    data["differences"][0]["form"] = "altered"
    with pytest.raises(jsonschema.ValidationError, match="altered"):
        jsonschema.validate(data, schema)


def test_documents_of_two_kinds_have_no_difference_to_tell(there: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "house.yaml is a house, hang.yaml a hang" in said(capsys, "diff", "house.yaml", "hang.yaml", code=64)


def test_a_renumbering_is_shown_first_and_written_when_it_is_asked_for(
    there: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ("renumber", "house.yaml", "hang.yaml", "1=2", "2=1")
    shown = said(capsys, *words)
    assert "hang.yaml:6  hung, border: 1 becomes 2" in shown
    assert "Nothing is written yet" in shown
    assert (there / "house.yaml").read_text("utf-8") == HOUSE
    assert "Written: hang.yaml, house.yaml" in said(capsys, *words, "--write")
    house = (there / "house.yaml").read_text("utf-8")
    assert house.startswith("# kept\n")
    assert [(one.label, one.permanent) for one in read_house(house).sets] == [("2", "1"), ("1", "2")]
    assert "set: '2'" in (there / "hang.yaml").read_text("utf-8")


@pytest.mark.parametrize(
    ("words", "code"),
    [(("house.yaml",), 64), (("1=2",), 64), (("house.yaml", "1=2", "1=3"), 64),
     (("house.yaml", "house.yaml", "1=3"), 64), (("house.yaml", "9=10"), 64),
     (("house.yaml", "1=2"), 64), (("nowhere.yaml", "1=3"), 66)],
)  # fmt: skip
def test_a_renumbering_that_cannot_be_done_says_why_and_writes_nothing(
    words: tuple[str, ...], code: int, there: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert said(capsys, "renumber", *words, "--write", code=code).strip()
    assert (there / "house.yaml").read_text("utf-8") == HOUSE


@pytest.mark.parametrize("kind", ["house", "show", "hang"])
def test_the_schema_of_a_document_is_printed(kind: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert json.loads(said(capsys, "schema", kind)) == schema_of(kind)


def test_the_schema_of_check_is_printed_where_none_is_named(capsys: pytest.CaptureFixture[str]) -> None:
    shipped = files("counterpoise.cli").joinpath("schemas", "check-1.json").read_text("utf-8")
    assert json.loads(said(capsys, "schema")) == json.loads(shipped)
