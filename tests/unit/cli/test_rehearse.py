"""`rehearse` from files: what is printed, and the exit code, where a log is refused, over, or leaves bricks adrift."""

import json
from importlib.resources import files
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from counterpoise.cli import main
from tests.plain_house import Map, a_house, a_piece, a_set, hung, written

BRIDGE = {"bridge": "bridge", "floor": "49 ft", "reach from": "0 in", "reach to": "7 ft"}
BRICK = {"brick": "full", "weight": "25 lb", "thickness": "1 in", "stock": {"bridge": "20"}}
SET_2 = a_set("2", distance="5 ft")
HUNG = ["hold on, set: '1'", "hang, set: '1', piece: leg"]


def house_of(*sets: Map) -> Map:
    return a_house(*sets, bridges=[BRIDGE], bricks=[BRICK], rules={"lock hold": "50 lb"})


def named(folder: Path, events: list[str], tail: str = "", house: Map | None = None) -> list[str]:
    """The four files in a folder."""
    one = house or house_of(a_set("1"), SET_2)
    show = {"counterpoise": "show 1", "name": "Gala", "pieces": [a_piece("leg", "100 lb")]}
    hang = {"counterpoise": "hang 1", "house": one["name"], "show": "Gala", "hung": [hung("leg", "1")]}
    log = f"counterpoise: log 1\nhouse: {one['name']}\nshow: Gala\ndone:\n"
    log += "".join(f"  - {{n: {n}, did: {event}}}\n" for n, event in enumerate(events, start=1)) + tail
    texts = {"house": written(one), "show": written(show), "hang": written(hang), "log": log}
    for name, text in texts.items():
        (folder / f"{name}.yaml").write_text(text, "utf-8")
    return [str(folder / f"{name}.yaml") for name in texts]


def data_of(words: list[str], code: int, capsys: pytest.CaptureFixture[str]) -> Any:
    assert main(["rehearse", *words, "--json"]) == code
    data = json.loads(capsys.readouterr().out)
    schema = json.loads(files("counterpoise.cli").joinpath("schemas", "rehearse-1.json").read_text("utf-8"))
    jsonschema.Draft202012Validator(schema).validate(data)
    return data


def test_a_half_written_line_is_refused_with_the_state_before_it_in_words_and_as_data(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = named(tmp_path, HUNG, "  - {n: 3, did: collars u")
    assert main(["rehearse", *words]) == 65
    said = capsys.readouterr().out
    assert said.startswith("2 of 3 lines are allowed.")
    assert f"{words[3]}:7: refused: this is not YAML" in said
    assert "Set 1: 2 on, at 4' 0\", leg; second hold on." in said
    data = data_of(words, 65, capsys)
    assert (data["done"], data["of"], data["refusal"]["line"]) == (2, 3, 7)
    assert data["sets"][0]["hung"] == ["leg"]
    assert len(data["problems"]) == 1


def test_a_number_that_stands_twice_and_a_set_that_is_not_there_are_told_both_with_the_state_before(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = named(tmp_path, HUNG, "  - {n: 2, did: collars up, set: '1'}\n  - {n: 3, did: lock on, set: '7'}\n")
    assert main(["rehearse", *words]) == 65
    said = capsys.readouterr().out
    assert 'log.yaml:7: refused: done[2].n: "2" follows on 2: this number was there before.' in said
    assert 'log.yaml:8:31  done[3].set: "7" there is no set 7.' in said
    assert len(data_of(words, 65, capsys)["problems"]) == 2
    assert main(["steps", *words[:3], "1", "--log", words[3]]) == 65  # no step is said from it


def test_a_set_that_is_counted_over_its_lock_is_over_and_bricks_that_are_not_found_are_unknown(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = named(tmp_path, ["count, set: '2', bricks: 8"] * 2)
    assert main(["rehearse", *words]) == 1
    said = capsys.readouterr().out
    assert said.startswith("2 of 2 lines are allowed.\nOver: Set 2 is arbor-heavy 150 lb; the lock may hold 50 lb.\n")
    assert "Its counts found 6 full more than the log moved." in said
    data = data_of(words, 1, capsys)
    assert data["over"]["2"]
    assert data["found"] == {"full": 6}
    fewer = named(tmp_path, ["count, set: '2', bricks: 1"] * 2)
    assert data_of(fewer, 2, capsys)["found"] == {"full": -1}
    main(["steps", *fewer[:3], "1", "--log", fewer[3]])
    assert "By all counts 1 full fewer than there were" in capsys.readouterr().out


@pytest.mark.parametrize("event", ["hold on, set: '1'", "lock out, set: '1', who: an invented rigger"])
def test_of_sets_with_married_hand_lines_it_is_said_what_they_are_called_together(
    event: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    twin = SET_2 | {"twin of": "1", "married": "yes"}
    words = named(tmp_path, [event], house=house_of(a_set("1", married="yes"), twin))
    assert main(["rehearse", *words]) == 1
    said = capsys.readouterr().out
    assert "Set 1 is worked as one with the set that its hand line is married to. Write 1+2;" in said
    assert "no set 1" not in said
