"""`call`, `changeover` and `rehearse` from files: words, exit codes, data that keep to their schema."""

import json
import re
from datetime import date
from importlib.resources import files
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from counterpoise.app import judge
from counterpoise.app.files import read_texts
from counterpoise.checks import Verdict
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


# --- sets of which a check does not know enough ----------------------------------------------------------------------


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> list[str]:
    """The files of the invented house; its sets 7, 18 and 44 wait for a rating or for steel, set 3 for a weighing."""
    at = tmp_path_factory.mktemp("demo") / "d"
    main(["demo", str(at)])
    return [str(at / f"{name}.yaml") for name in ("house", "show", "hang")]


def test_a_set_that_waits_for_a_figure_is_marked_above_its_own_steps_and_says_why(
    demo: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    assert main(["call", *demo]) == 1
    lines = capsys.readouterr().out.splitlines()
    above = {label: lines[lines.index(f"Set {label}, load-in") + 1].strip() for label in ("7", "18", "44", "3", "1")}
    for label in ("7", "18", "44"):
        assert above[label].startswith("HOLD, unknown: put nothing on.")
    assert "loft block, lines 1, 2, 3, 4 and 5: carries up to 68 lb; its limit is not known." in above["7"]
    assert "arbor: carries 385 lb; its limit is not known." in above["18"]
    assert above["3"].startswith("Unknown, a first count only, then the rail feels: lock: may come to 73 of 50 lb")
    assert above["1"].startswith("1. rail: ")
    assert "Put nothing on sets 7, 18, 44 until that is found out" in "\n".join(lines)


def test_the_sets_marked_in_the_data_are_those_that_the_sheet_holds(
    demo: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    main(["call", *demo, "--json"])
    turns = held_to_its_schema(capsys.readouterr().out, "call")["turns"]
    result = judge(read_texts(*demo), date(2026, 11, 25))
    assert {one["set"] for one in turns if one["hold"]} == {
        one.label for one in result.sets if one.hold == "unknown" and one.label in {each["set"] for each in turns}
    }
    assert all(one["why"] for one in turns if one["hold"])


def test_a_strike_puts_nothing_on_and_says_only_that_nothing_is_promised(
    demo: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    main(["call", *demo, "--strike"])
    said = capsys.readouterr().out
    assert "Set 18, strike\n     Unknown as it hangs, nothing is promised of its strike: arbor:" in said
    assert "HOLD" not in said


# --- sets of which two things are over -------------------------------------------------------------------------------


@pytest.mark.parametrize(("label", "weighs"), [("21", "cloud, weight: 360 lb"), ("29", "weight: 720 lb")])
def test_the_weight_that_is_told_first_of_a_set_that_is_over_twice_clears_all_of_it(
    demo: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str], label: str, weighs: str
) -> None:
    """Whatever figure comes first is written into the show, and the set is judged anew with it."""
    capsys.readouterr()
    main(["call", *demo])
    main(["check", *demo])
    main(["steps", *demo, label])
    called, checked = capsys.readouterr().out.split("\nover: 3 sets over", 1)
    held = next(line for line in called.splitlines() if line.startswith(f"Hold set {label}: "))
    # in `check`, and in `steps` after it, the mend stands on the line below what is over
    first = [line for line in checked.splitlines() if line.startswith(f"over: set {label}")]
    below = checked.splitlines()[checked.splitlines().index(first[0]) + 1]
    for told in (held, below):
        found = re.search(r"may weigh at most (\d+) lb", told)
        assert found is not None, told
        show = tmp_path / "show.yaml"
        old = Path(demo[1]).read_text("utf-8")
        new = old.replace(weighs, re.sub(r"\d+ lb$", f"{found[1]} lb", weighs))
        assert new != old
        show.write_text(new, "utf-8")
        result = judge(read_texts(demo[0], str(show), demo[2]), date(2026, 11, 25)).set_called(label)
        assert result is not None
        assert result.verdict is not Verdict.OVER, told


def test_what_a_finding_above_said_is_not_said_again_by_steps(
    demo: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    main(["steps", *demo, "29"])
    assert "Refused: Set 29 would end over, as said above." in capsys.readouterr().out
