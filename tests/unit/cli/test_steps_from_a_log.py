"""`counterpoise steps --log`: from how a log leaves the house, on the files of the strike in the wrong order.

Figures: single purchase, 25 lb bricks, pipe weight 6, lock 50 lb; 290 lb hang, 12 show bricks balance them to +10.
"""

import json
from importlib.resources import files
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from counterpoise.cli import main

S5 = Path(__file__).resolve().parents[2] / "validation" / "situations" / "s5"
THREE = [str(S5 / f"{name}.yaml") for name in ("house", "show", "hang")]
HEADER = ["hold on, set: '14'", "hang, set: '14', piece: header"]
REST = [f"hang, set: '14', piece: {name}" for name in ("leg SR", "leg SL", "speaker")]
TWELVE = ["collars up, set: '14'", "bricks on, set: '14', bricks: 12", "collars down, set: '14'",
          "count, set: '14', bricks: 18"]  # fmt: skip


@pytest.fixture
def told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Any:
    """The exit code and all that is printed of `steps` from a log of these events."""

    def run(events: list[str], *words: str) -> tuple[int, str]:
        path = tmp_path / "log.yaml"
        lines = "".join(f"  - {{n: {n}, did: {event}}}\n" for n, event in enumerate(events, start=1))
        head = "counterpoise: log 1\nhouse: Marrowby Centre\nshow: Gala\nbegins: empty\ndone:"
        path.write_text(f"{head}\n{lines}" if events else f"{head} []\n", "utf-8")
        code = main(["steps", *THREE, "14", "--log", str(path), *words])
        out = capsys.readouterr()
        return code, out.out + out.err

    return run


def test_half_loaded_it_goes_on_where_it_was_left(told: Any) -> None:
    code, said = told(HEADER)
    assert code in (0, 2)
    assert "Hang leg SR, leg SL and speaker" in said
    assert "Hang header" not in said
    assert "add 12 bricks. 18 on after." in said
    assert "From how it stands: header on, 6 bricks" in said


def test_from_loaded_the_strike_takes_the_bricks_first(told: Any) -> None:
    code, said = told([*HEADER, *REST, *TWELVE], "--strike")
    assert code in (0, 2)
    assert said.index("take off 12 bricks") < said.index("Strike ")


def test_the_header_struck_first_is_refused_at_its_line(told: Any) -> None:
    code, said = told([*HEADER, *REST, *TWELVE, "strike, set: '14', piece: header"], "--strike")
    assert code == 1
    assert "log.yaml:15:" in said
    assert "arbor-heavy 150 lb" in said
    assert "Arbor first, then batten" in said
    assert "  1." not in said


def test_three_counted_where_six_are_expected_waits_for_a_recount(told: Any) -> None:
    code, said = told(["count, set: '14', bricks: 3"])
    assert code == 1
    assert "recount before it moves" in said
    assert "Count the bricks on the arbor again." in said


def test_a_set_that_was_left_off_waits_until_it_is_closed_by_name(told: Any) -> None:
    code, said = told([*HEADER, "left off, set: '14', note: fire alarm"])
    assert code == 1
    assert "left off at 3: fire alarm" in said
    assert "closes it by name" in said


def test_a_set_that_is_locked_out_waits(told: Any) -> None:
    code, said = told(["lock out, set: '14', who: an invented rigger, note: frayed line"])
    assert code == 1
    assert "locked out: frayed line" in said


def test_re_weighed_to_a_count(told: Any) -> None:
    code, said = told([*HEADER, *REST, *TWELVE], "--reweigh", "17")
    assert code in (0, 2)
    assert "take off 1 brick. 17 on after." in said


def test_re_weighed_to_what_balances_what_hangs_now(told: Any) -> None:
    """Header alone: 140 lb; 6 bricks leave +10 lb, 5 leave -15 lb."""
    code, said = told([*HEADER, "collars up, set: '14'", "bricks on, set: '14', bricks: 4"], "--reweigh")
    assert code in (0, 2)
    assert "add 2 bricks. 12 on after." in said


def test_as_data_it_keeps_to_its_schema(told: Any) -> None:
    _, said = told([*HEADER, *REST, *TWELVE], "--reweigh", "17", "--json")
    data = json.loads(said)
    schema = json.loads(files("counterpoise.cli").joinpath("schemas", "steps-1.json").read_text("utf-8"))
    jsonschema.Draft202012Validator(schema).validate(data)
    assert (data["what"], data["final_bricks"]) == ("re-weigh", 17)


@pytest.mark.parametrize("words", [["--reweigh", "17"], ["--small", "1"], ["--reweigh", "many"]])
def test_a_re_weigh_that_cannot_be_asked_is_misuse(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["steps", *THREE, "14", *words]) == 64
    assert capsys.readouterr().out == ""
