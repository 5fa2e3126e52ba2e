"""`bricks`: the stock shared among all sets of a hang."""

import json
from importlib.resources import files
from pathlib import Path

import pytest
from jsonschema import validate

from counterpoise.cli import main

S3 = Path(__file__).parents[2] / "validation" / "situations" / "s3"


def _files(at: Path, stock: str) -> list[str]:
    for name in ("house", "show", "balanced"):
        text = (S3 / f"{name}.yaml").read_text("utf-8")
        (at / f"{name}.yaml").write_text(text.replace("{gallery: 60}", stock), "utf-8")
    return [str(at / f"{name}.yaml") for name in ("house", "show", "balanced")]


def test_a_shortage_is_named_with_what_to_ask_for(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """36 of 20 lb are wanted and 24 are there; 8 of 10 lb stand in for four of the 12 that are missing."""
    assert main(["bricks", *_files(tmp_path, "{gallery: 20, cellar: 4}")]) == 1
    said = capsys.readouterr().out
    assert "short by 12 full bricks" in said
    assert "20 full from gallery, 4 full from cellar, 8 half from gallery" in said
    assert "proven" in said
    assert "43 and 1 small would balance it best." in said


def test_the_data_is_to_its_schema(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main(["bricks", *_files(tmp_path, "{gallery: 20, cellar: 4}"), "--json"])
    data = json.loads(capsys.readouterr().out)
    validate(data, json.loads(files("counterpoise.cli").joinpath("schemas", "bricks-1.json").read_text("utf-8")))
    assert data["short"] == {"full": 12}
    # 12 x 20 lb less 8 x 10 lb are missing, half of it at the batten of a double purchase: 80 lb batten-heavy
    assert data["sets"][0]["out_of_balance"][0]["best"] == pytest.approx(-80 * 4.4482216152605)


def test_stock_that_is_not_known_leaves_the_answer_unknown(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["bricks", *_files(tmp_path, "{gallery: 60, cellar: unknown}")]) == 2
    assert "Not known: how many full bricks are at cellar" in capsys.readouterr().out


def test_check_says_whether_the_stock_is_enough(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main(["check", *_files(tmp_path, "{gallery: 24}")])
    assert "Bricks, full: 36 asked beside pipe weight, 24 in stock: short by 12" in capsys.readouterr().out
