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
    assert "43 and 1 small would balance it best: the stock does not reach." in said
    assert "for every set to have the best count that its arbor takes" in said


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


def test_a_set_that_its_lock_does_not_hold_is_marked_with_both_figures_and_counted_below(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """By hand as above: 80 lb batten-heavy at every height, for the lines weigh nothing; the rule lets the lock 50."""
    assert main(["bricks", *_files(tmp_path, "{gallery: 20, cellar: 4}")]) == 1
    said = capsys.readouterr().out
    assert "  OVER: lock 80 of 50 lb, the most over its flying range; friction is not counted on\n" in said
    assert "With this stock 1 set can not be held by its lock: 9.\n" in said
    assert "With the bricks that balance it best it is within what its lock may hold." in said


def test_a_set_that_its_lock_holds_is_not_marked_though_the_stock_is_short(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """By hand: 36 of 20 lb are wanted, 31 are there, and 8 of 10 lb stand in for four. One is missing, 10 lb at the
    batten of a double purchase: within the lock's 50."""
    assert main(["bricks", *_files(tmp_path, "{gallery: 31}")]) == 1
    said = capsys.readouterr().out
    assert "−10 lb" in said
    assert "OVER" not in said
    assert "can not be held" not in said


def test_a_stated_count_past_the_lock_is_over_with_bricks_enough(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """By hand: 43 and 1 balance it; 37 and 1 are six of 20 lb too few, 60 lb at the batten of a double purchase."""
    three = _files(tmp_path, "{gallery: 60}")
    with Path(three[2]).open("a", encoding="utf-8") as hang:
        hang.write('stated bricks: {"9": 37}\n')
    assert main(["bricks", *three]) == 1
    said = capsys.readouterr().out
    assert "OVER: lock 60 of 50 lb" in said
    assert "\n1 set can not be held by its lock: 9.\n" in said
    assert "Stock: enough" in said


def test_the_figures_of_the_lock_are_those_of_the_check(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The count that is shared out, stated in the hang, has the same figures against the same limits in `check`."""
    three = _files(tmp_path, "{gallery: 20, cellar: 4}")
    main(["bricks", *three, "--json"])
    data = json.loads(capsys.readouterr().out)
    (one,) = data["sets"]
    assert data["over"] == ["9"]
    with Path(three[2]).open("a", encoding="utf-8") as hang:
        hang.write(f'stated bricks: {{"9": {one["stack"]["bricks"]}}}\n')
        hang.write(f'stated small bricks: {{"9": {one["stack"]["small"]}}}\n')
    main(["check", *three, "--json"])
    (checked,) = json.loads(capsys.readouterr().out)["sets"]
    rows = {row["link"]: row for row in checked["rows"]}
    assert [each["link"] for each in one["not_held"]] == ["lock"]
    for each in one["not_held"]:
        row = rows[each["link"]]
        assert {"low": each["low"], "best": each["best"], "high": each["high"]} == row["value"]
        assert (each["limit"], each["verdict"]) == (row["limit"], row["verdict"])


def _edited(at: Path, stock: str, was: str, now: str) -> list[str]:
    paths = _files(at, stock)
    for path in paths:
        text = Path(path).read_text("utf-8")
        Path(path).write_text(text.replace(was, now), "utf-8")
    return paths


def test_a_kind_of_which_nothing_is_known_is_not_told_as_short_for_sure(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["bricks", *_files(tmp_path, "{gallery: unknown}")]) != 0
    said = capsys.readouterr().out
    assert "by what is known to be there short by 36 full bricks" in said
    assert "Not known: how many full bricks are at gallery; none are taken there." in said


def test_a_stack_that_is_higher_than_its_arbor_takes_is_over(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    three = _files(tmp_path, "{gallery: 200}")
    with Path(three[2]).open("a", encoding="utf-8") as hang:
        hang.write('stated bricks: {"9": 150}\n')
    assert main(["bricks", *three]) == 1
    said = capsys.readouterr().out
    assert "OVER: the stack is higher than its arbor takes." in said
    assert "The hang states this count; 43 and 1 small would balance it best." in said
    assert "balances it best, beside what the hang states." in said


def test_a_set_out_of_service_is_named_and_gets_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    three = _edited(tmp_path, "{gallery: 60}", "purchase: double", "purchase: double\n    out of service: rope worn")
    assert main(["bricks", *three]) == 2
    assert "Not counted: set 9, out of service." in capsys.readouterr().out
