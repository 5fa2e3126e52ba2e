"""What the README shows is what happens: its commands, its Python, its sentence, its figures, its pictures."""

from __future__ import annotations

import csv
import re
import shlex
from collections.abc import Callable
from pathlib import Path

import openpyxl  # type: ignore[import-untyped]
import pytest
import yaml

from counterpoise.app import Texts, judge
from counterpoise.app.demo import demo_texts
from counterpoise.checks import surprise_of
from counterpoise.cli.run import main
from counterpoise.drawing import house_picture, svg
from tests.plain_house import Map

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text("utf-8")


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```", README, re.MULTILINE | re.DOTALL)


def commands() -> list[list[str]]:
    lines = [line for block in blocks("sh") for line in block.splitlines() if line.startswith("counterpoise ")]
    return [shlex.split(line, comments=True)[1:] for line in lines]


@pytest.fixture
def mine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Path:
    """The demo's files where the README has them, an older house, and a schedule as a spreadsheet."""
    monkeypatch.chdir(tmp_path)
    assert main(["demo", "mine"]) == 0
    mine = tmp_path / "mine"
    monkeypatch.chdir(mine)
    (mine / "old.yaml").write_text((mine / "house.yaml").read_text("utf-8").replace("1,600 lb", "1,500 lb"), "utf-8")
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    for row in csv.reader((mine / "schedule.csv").read_text("utf-8").splitlines()):
        sheet.append(row)
    book.save(mine / "lines.xlsx")
    capsys.readouterr()
    return mine


def test_every_command_that_is_shown_does_its_work(mine: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for words in commands():
        if words[0] == "serve":  # the journeys of the pages serve
            continue
        if words[0] in ("start", "schedule"):
            words = ["of-one-s-own.yaml" if word == "house.yaml" else word for word in words]
        if words[0] == "demo":
            words = ["demo", "again"]
        (mine / "of-one-s-own.yaml").unlink(missing_ok=True)
        code = main(words)
        shown = capsys.readouterr()
        assert code in (0, 1, 2), (words, shown.err)
        assert shown.out.strip(), words


def test_every_command_there_is_is_shown(capsys: pytest.CaptureFixture[str]) -> None:
    """But for those that the pages behind it tell of."""
    assert main(["--help"]) == 0
    there = set(re.findall(r"^ {4}(\w+)\b", capsys.readouterr().out, re.MULTILINE)) - {"COMMAND"}
    shown = {words[0] for words in commands()} | set(re.findall(r"`counterpoise (\w+)`", README))
    assert there - shown == {"json", "yaml", "schema", "tour"}  # editing.md; `make demo`


def test_its_python_runs_and_says_what_is_over(mine: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (block,) = blocks("python")
    exec(compile(block, "README", "exec"), {})
    said = capsys.readouterr().out.splitlines()
    assert said[0] == "over"
    assert len(said) == 1 + len(judge(demo_texts()).findings)


def test_the_sentence_it_quotes_is_what_the_demo_says_first() -> None:
    quoted = " ".join(line.removeprefix("> ") for line in README.splitlines() if line.startswith("> "))
    found = surprise_of(judge(demo_texts()))
    assert found is not None
    assert found.sentence in quoted


def test_its_pictures_are_there() -> None:
    pictures = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", README)
    assert pictures
    assert all((ROOT / one).stat().st_size > 10_000 for one in pictures)


# ------------------------------------------------------------------------------------------------ nine figures more


NINE: tuple[tuple[str, Callable[[Map, Map], object]], ...] = (
    ("loft blocks", lambda house, one: house.pop("stage")),
    ("low trim", lambda house, one: one.pop("low trim")),
    ("high trim", lambda house, one: one.pop("high trim")),
    ("length", lambda house, one: one["batten"].pop("length")),
    ("pipe", lambda house, one: one["batten"].pop("pipe")),
    ("hardware", lambda house, one: one["batten"].pop("hardware")),
    ("lines", lambda house, one: one["lines"].pop("at")),
    ("rope", lambda house, one: one["lines"].pop("rope")),
    ("head block", lambda house, one: one["lines"].pop("head block from end")),
)


def nine() -> tuple[Map, Map]:
    one: Map = {"set": "1", "distance": "3 ft", "purchase": "single", "low trim": "4 ft", "high trim": "58 ft",
                "batten": {"length": "42 ft", "pipe": "1-1/2 in schedule 40", "hardware": "20 lb"},
                "lines": {"at": ["20' SR", "10' SR", "CL", "10' SL", "20' SL"], "rope": "1/4 in 7x19",
                          "head block from end": "4 ft"}}  # fmt: skip
    house: Map = {"counterpoise": "house 1", "name": "Least Hall", "units": "us", "stage": {"loft blocks": "62 ft"},
                  "sets": [one]}  # fmt: skip
    return house, one


def pulls(house: Map) -> bool:
    result = judge(Texts(house=yaml.safe_dump(house, sort_keys=False)))
    return result.sets[0].forces is not None


def test_nine_figures_more_and_the_pull_in_every_line_is_computed() -> None:
    house, _ = nine()
    assert len(NINE) == 9
    assert pulls(house)


@pytest.mark.parametrize(("name", "leave_out"), NINE)
def test_each_of_the_nine_is_needed(name: str, leave_out: Callable[[Map, Map], object]) -> None:
    house, one = nine()
    leave_out(house, one)
    assert not pulls(house), name
    assert judge(Texts(house=yaml.safe_dump(house, sort_keys=False))).unknowns


def test_a_set_is_drawn_from_its_label_its_distance_and_its_purchase() -> None:
    house, one = nine()
    for word in ("low trim", "high trim", "batten", "lines"):
        one.pop(word)
    picture = svg(house_picture(judge(Texts(house=yaml.safe_dump(house, sort_keys=False)))))
    assert re.search(r">\s*1\s*<", picture)
