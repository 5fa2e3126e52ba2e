"""`call`, `changeover` and `rehearse` from files: words, exit codes, data that keep to their schema."""

import json
from importlib.resources import files
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from counterpoise.cli import main

S8 = Path(__file__).resolve().parents[2] / "validation" / "situations" / "s8"
NIGHTS = [str(S8 / f"{name}.yaml") for name in ("show-a", "hang-a", "show-b", "hang-b")]


@pytest.fixture
def house(tmp_path: Path) -> str:
    """The house of the worked changeover with as many bricks as its bridge may carry at the start of a load-in."""
    path = tmp_path / "house.yaml"
    path.write_text((S8 / "house.yaml").read_text("utf-8").replace("bridge: 240", "bridge: 206"), "utf-8")
    return str(path)


def held_to_its_schema(text: str, name: str) -> Any:
    data = json.loads(text)
    schema = json.loads(files("counterpoise.cli").joinpath("schemas", f"{name}-1.json").read_text("utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema).validate(data)
    return data


def test_a_call_says_each_line_with_its_reply_and_the_total_when_a_set_is_closed(
    house: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["call", house, *NIGHTS[:2]]) == 0
    said = capsys.readouterr().out
    assert said.startswith("Load-in, Night A, Ostler Opera House: 10 sets, 205 lifts, 5,125 lb.\n")
    assert "Before the first step: bridge 206 full, 5,750 lb of 5,760 lb." in said
    assert "bridge: Set 3: add 12 bricks. 18 on after." in said
    assert 'reply "Set 3: 18 on, collars down, clear."' in said
    assert "Set 30 is closed. Now bridge 1 full" in said
    assert "the house states no rate" in said


def test_the_strike_of_a_call_takes_all_of_it_down_again(house: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["call", house, *NIGHTS[:2], "--strike"]) == 0
    assert "Set 30 is closed. Now bridge 206 full" in capsys.readouterr().out


def test_a_call_as_data_keeps_to_its_schema(house: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["call", house, *NIGHTS[:2], "--json"]) == 0
    data = held_to_its_schema(capsys.readouterr().out, "call")
    assert [turn["stock"]["full"]["bridge"] for turn in data["turns"]][-1] == 1
    assert sum(len(turn["lines"]) for turn in data["turns"]) == data["turns"][-1]["lines"][-1]["number"]


def test_a_changeover_that_is_refused_says_what_to_ask_for_and_no_step(capsys: pytest.CaptureFixture[str]) -> None:
    asked = ["changeover", str(S8 / "house.yaml"), *NIGHTS, "--strip-first", "--json"]
    assert main(asked) == 1
    data = held_to_its_schema(capsys.readouterr().out, "call")
    assert data["turns"] == []
    assert data["refusal"]["code"] == "BRIDGE-FLOOR"
    assert {ask["place"] for ask in data["asks"]} == {"bridge"}


def test_an_order_that_is_asked_for_is_judged(capsys: pytest.CaptureFixture[str]) -> None:
    # 35 + 15 - 45 leaves 5; + 20 - 35 is 10 short, + 12 - 18 is 16, and from there on it rises
    assert main(["changeover", str(S8 / "house.yaml"), *NIGHTS, "--order", "23,14"]) == 1
    assert "Short by 16 full bricks in this order: bridge runs out at set 14." in capsys.readouterr().out


@pytest.mark.parametrize("words", [["--order", "99"], ["--budget", "0"], ["--budget", "soon"], ["--budget", "nan"]])
def test_a_wrong_word_is_misuse(words: list[str], house: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["call", house, *NIGHTS[:2], *words]) == 64
    assert capsys.readouterr().err


def test_a_call_is_written_as_a_log_and_the_log_is_allowed_whole(
    house: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    log = tmp_path / "log.yaml"
    assert main(["call", house, *NIGHTS[:2], "--log", str(log)]) == 0
    assert main(["call", house, *NIGHTS[:2], "--log", str(log)]) == 73  # never over one that is there
    capsys.readouterr()
    assert main(["rehearse", house, *NIGHTS[:2], str(log)]) == 0
    said = capsys.readouterr().out
    assert said.startswith("100 of 100 lines are allowed.")
    assert "Set 23: 21 on, at 4' 0\", A23." in said
    assert "Loose: 1 full at bridge." in said
    assert main(["rehearse", house, *NIGHTS[:2], str(log), "--json"]) == 0
    data = held_to_its_schema(capsys.readouterr().out, "rehearse")
    assert {one["set"]: one["bricks"] for one in data["sets"]}["17"] == 34


def test_a_log_that_is_refused_says_file_line_why_and_mend(
    house: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    log = tmp_path / "log.yaml"
    main(["call", house, *NIGHTS[:2], "--log", str(log)])
    log.write_text(log.read_text("utf-8").replace('set: "3", bricks: 12', 'set: "3", bricks: 15'), "utf-8")
    capsys.readouterr()
    assert main(["rehearse", house, *NIGHTS[:2], str(log)]) == 1
    said = capsys.readouterr().out
    assert f"{log}:9: refused: " in said
    assert "arbor-heavy" in said
    assert "Set 3: 6 on, at 4' 0\", A3; second hold on, collars up." in said
    assert main(["rehearse", house, *NIGHTS[:2], str(log), "--json"]) == 1
    assert held_to_its_schema(capsys.readouterr().out, "rehearse")["refusal"]["line"] == 9


def test_a_log_that_cannot_be_read_is_bad_input_and_one_that_is_not_there_cannot_be_read(
    house: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    log = tmp_path / "log.yaml"
    assert main(["rehearse", house, *NIGHTS[:2], str(log)]) == 66
    log.write_text(
        "counterpoise: log 1\nhouse: Ostler Opera House\nshow: Night A\ndone:\n  - {n: 2, did: feel}\n", "utf-8"
    )
    assert main(["rehearse", house, *NIGHTS[:2], str(log)]) == 65
    said = capsys.readouterr().out
    assert "1 is missing" in said
    assert "What follows is how all stood before that line." in said


@pytest.mark.parametrize("name", ["call", "rehearse"])
def test_the_schema_of_what_is_printed_can_be_asked_for(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["schema", name]) == 0
    assert json.loads(capsys.readouterr().out)["properties"]["schema"]["const"] == f"counterpoise {name} 1"
