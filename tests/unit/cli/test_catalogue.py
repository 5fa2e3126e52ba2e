"""The catalogue on the command line."""

import json
from importlib.resources import files

import jsonschema
import pytest

from counterpoise.catalogue import families, rows
from counterpoise.cli import main

SCHEMA = json.loads(files("counterpoise.cli").joinpath("schemas", "catalogue-1.json").read_text("utf-8"))


def said(capsys: pytest.CaptureFixture[str], *words: str, code: int = 0) -> str:
    assert main(["catalogue", *words]) == code
    told = capsys.readouterr()
    return told.err if code else told.out


def test_without_a_family_all_of_them_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    told = said(capsys)
    assert all(f"{name} " in told for name in families())


def test_a_family_prints_each_row_with_the_source_of_each_figure(capsys: pytest.CaptureFixture[str]) -> None:
    told = said(capsys, "turnbuckle").splitlines()
    assert [one for one in told if one in {row.name for row in rows("turnbuckle")}] == [
        row.name for row in rows("turnbuckle")
    ]
    first = told.index("3/8 in jaw or eye")
    assert told[first + 1].startswith("    rating: 1,040 lb; working load limit")
    assert "documented: FF-T-791b" in told[first + 1]
    assert told[first + 2].startswith("        other: 1,200 lb;")
    assert "default, not adopted" in told[first + 2]


def test_one_row_is_told_in_full_with_si_and_its_other_names(capsys: pytest.CaptureFixture[str]) -> None:
    told = said(capsys, "pipe", '1.5" sch 40')
    assert told.startswith("1-1/2 in schedule 40\n    also written: 1-1/2 in std;")
    assert "1.900 in (0.04826 m)" in told
    assert "2 in schedule 40" not in told.replace("1-1/2 in schedule 40", "")


def test_a_name_that_is_not_there_is_answered_with_the_near_ones(capsys: pytest.CaptureFixture[str]) -> None:
    assert "Did you mean 1-1/2 in schedule 40" in said(capsys, "pipe", "1-1/2 in schedule 41", code=64)
    assert 'counterpoise catalogue "tube"' in said(capsys, "tube", "\N{SNOWMAN}", code=64)
    assert "Did you mean pipe?" in said(capsys, "pips", code=64)


@pytest.mark.parametrize("words", [(), *((one,) for one in families()), ("chain", "1/4 in G80")])
def test_its_data_keeps_to_its_schema(words: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    jsonschema.validate(json.loads(said(capsys, *words, "--json")), SCHEMA)


def test_its_schema_is_printed_and_refuses_a_figure_without_a_source(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["schema", "catalogue"]) == 0
    assert json.loads(capsys.readouterr().out) == SCHEMA
    data = json.loads(said(capsys, "pipe", "2 in schedule 80", "--json"))
    del data["rows"][0]["values"]["wall"]["source"]
    with pytest.raises(jsonschema.ValidationError, match="source"):
        jsonschema.validate(data, SCHEMA)
