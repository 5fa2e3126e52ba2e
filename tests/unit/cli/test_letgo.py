"""`counterpoise letgo` on the files of the worked wall."""

from __future__ import annotations

import json
from importlib.resources import files
from pathlib import Path

import jsonschema
import pytest

from counterpoise.cli import main

FILES = Path(__file__).parents[2] / "validation" / "situations" / "s1"
THREE = [str(FILES / f"{name}.yaml") for name in ("house", "show", "hang")]


def _told(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    code = main(["letgo", *THREE, "9", *words])
    told = capsys.readouterr()
    return code, told.out + told.err


def test_all_bricks_with_the_wall_still_on_the_deck_are_told_plainly(capsys: pytest.CaptureFixture[str]) -> None:
    # 37 show bricks of 25 lb against half a section of 310 lb: 925 - 155 = 770 lb
    code, said = _told(capsys, "--bricks", "39", "--from", "8 ft")
    assert code == 0
    assert "Set 9, let go at 8' 0\" with 39 on and wall hung." in said
    assert "Arbor-heavy 770 lb" in said
    assert "Nobody stops it by hand." in said
    assert "safe" not in said.lower()


def test_struck_it_runs_with_all_its_bricks(capsys: pytest.CaptureFixture[str]) -> None:
    # 925 lb out over 54 ft: 49,950 ft lb
    code, said = _told(capsys, "--bricks", "39", "--struck")
    assert code == 0
    assert "49,950 ft lb" in said


@pytest.mark.parametrize(("words", "why"), [
    (["--from", "90 ft"], "outside the travel"), (["--bricks", "-1"], "0 or more"), (["--from", "high"], "high"),
])  # fmt: skip
def test_what_cannot_be_is_refused(capsys: pytest.CaptureFixture[str], words: list[str], why: str) -> None:
    code, said = _told(capsys, *words)
    assert code in (64, 65)
    assert why in said


def test_a_set_that_is_not_there_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["letgo", *THREE, "77"]) == 64
    assert "77" in capsys.readouterr().err


def test_steps_tells_the_hold_that_the_wall_needs(capsys: pytest.CaptureFixture[str]) -> None:
    code = main(["steps", *THREE, "9"])
    said = capsys.readouterr().out
    assert code == 1
    assert "12 at high bridge" in said
    assert "165 lb against the batten falling" in said
    # pipe weight is 2: the 9th beside it is the 11th in all
    assert "\n     Hold: a rated one that can haul, both ways.\n     Strength: at least " in said
    assert "\n     Put on: before the count beside pipe weight comes to 9 (11 in all) at high bridge, " in said
    assert "\n     Take off: " in said
    assert "\n     In the house: no hold is written." in said
    assert "show brick" not in said


def test_as_data_it_keeps_to_its_schema_and_says_the_same_in_si(capsys: pytest.CaptureFixture[str]) -> None:
    # 925 lb out over 54 ft: 49,950 ft lb, 1 ft lb = 1.3558179483 J (NIST SP 811, B.8)
    code, said = _told(capsys, "--bricks", "39", "--struck", "--json")
    assert code == 0
    data = json.loads(said)
    schema = json.loads(files("counterpoise.cli").joinpath("schemas", "letgo-1.json").read_text("utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema).validate(data)
    free, *slowed = data["runs"]
    assert free["friction"] == 0.0
    assert free["energy"] == pytest.approx(49_950 * 1.3558179483, rel=1e-4)
    assert all(one["energy"] < free["energy"] for one in slowed)
    assert data["hung"] == []
