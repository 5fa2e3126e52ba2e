"""The command line as a process: what it prints, how it ends, and that no bad file brings it down."""

import json
import os
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from importlib.resources import files
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from tests.eight_sets import eight_sets

NAMES = ("house.yaml", "show.yaml", "hang.yaml")


def run(*words: str | Path, **changed: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "counterpoise", *map(str, words)],
        check=False, capture_output=True, text=True, encoding="utf-8", errors="replace", timeout=60,
        env={**os.environ, "PYTHONIOENCODING": "utf-8", **changed}, stdin=subprocess.DEVNULL,
    )  # fmt: skip


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    """The small house of the tests, whose figures they know by heart."""
    for name, text in zip(NAMES, (eight_sets().house, eight_sets().show, eight_sets().hang), strict=True):
        (tmp_path / name).write_text(text, "utf-8")
    return tmp_path


def three(folder: Path) -> list[Path]:
    return [folder / name for name in NAMES]


def edit(path: Path, old: str, new: str) -> int:
    """Replace words that must be there; the number of the first line that changed."""
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), "utf-8")
    return text[: text.index(old)].count("\n") + 1


def hang_only(folder: Path, *sets: str) -> None:
    """Leave on the demo's hang only what hangs on these sets."""
    path = folder / "hang.yaml"
    lines = path.read_text("utf-8").splitlines()
    kept = [one for one in lines if "{set:" not in one or any(f'set: "{label}"' in one for label in sets)]
    path.write_text("\n".join(kept) + "\n", "utf-8")


# --- the verdict is the exit code (design: 0 within, 1 over, 2 unknown only) -------------------------------------


def test_a_hang_with_a_set_over_ends_with_1_and_says_so_first(demo: Path) -> None:
    done = run("check", *three(demo))
    assert done.returncode == 1
    assert done.stdout.startswith("over: 1 set over, 2 unknown")
    assert done.stderr == ""


def test_a_hang_with_nothing_over_but_something_unknown_ends_with_2(demo: Path) -> None:
    hang_only(demo, "3", "4")
    done = run("check", *three(demo))
    assert (done.returncode, done.stdout.split(":")[0]) == (2, "unknown")


def test_a_hang_within_every_limit_ends_with_0(demo: Path) -> None:
    hang_only(demo, "4")
    edit(demo / "house.yaml", "loft block: {rating: unknown}", "loft block: {rating: 250 lb @plates}")
    done = run("check", *three(demo))
    assert (done.returncode, done.stdout.split(":")[0]) == (0, "within")


def test_every_set_what_was_not_checked_and_the_caution_are_printed(demo: Path) -> None:
    said = run("check", *three(demo)).stdout
    rows = [line.split()[0] for line in said.split("set  piece")[1].splitlines()[1:9]]
    assert rows == ["1", "2", "3", "4", "5", "6", "7", "8"]
    assert "309 of 250 lb" in said
    assert "out of service: rope lock slips" in said
    assert "Not checked: sway and shock" in said
    assert "a licensed engineer" in said
    assert "not for flying people" in said


def test_rules_nobody_adopted_are_one_notice(demo: Path) -> None:
    edit(demo / "house.yaml", "  lock hold: 50 lb ", "  # ")
    edit(demo / "house.yaml", "  sag: 1/180 ", "  # ")
    said = run("check", *three(demo)).stdout
    notices = [line for line in said.splitlines() if line.startswith("Rules that nobody has adopted")]
    assert len(notices) == 1
    assert "lock hold 50 lb" in notices[0]
    assert "sag 1/180" in notices[0]


@pytest.mark.parametrize("command", ["check", "steps", "tour"])
def test_no_command_ever_calls_a_thing_safe(demo: Path, command: str) -> None:
    more: dict[str, list[str | Path]] = {"check": [], "steps": ["4"], "tour": ["--no-serve"]}
    documents: list[Path] = [demo] if command == "tour" else three(demo)
    done = run(command, *documents, *more[command])
    assert done.stdout
    assert "safe" not in (done.stdout + done.stderr).casefold()


# --- data --------------------------------------------------------------------------------------------------------


def test_the_data_of_check_keeps_to_its_schema_and_agrees_with_the_words(demo: Path) -> None:
    done = run("check", *three(demo), "--json")
    schema = json.loads(run("schema", "check").stdout)
    jsonschema.Draft202012Validator.check_schema(schema)
    data = json.loads(done.stdout, parse_constant=pytest.fail)  # NaN and Infinity are no JSON (RFC 8259, section 6)
    jsonschema.validate(data, schema)
    assert done.returncode == 1
    assert data["counts"] == {"within": 4, "over": 1, "unknown": 2, "out_of_service": 1}
    row = next(row for one in data["sets"] for row in one["rows"] if row["key"] == "2/loft block/4")
    assert row["verdict"] == "over"
    assert row["printed"] == {"value": "309", "limit": "250 lb"}
    assert row["limit"] == pytest.approx(250 * 4.4482216152605)  # NIST SP 811, appendix B: one pound-force


def test_the_data_of_steps_keeps_to_its_schema_in_words_and_in_refusal(demo: Path) -> None:
    schema = json.loads(run("schema", "steps").stdout)
    jsonschema.Draft202012Validator.check_schema(schema)
    for label, code in (("4", 0), ("2", 1)):
        done = run("steps", *three(demo), label, "--json")
        data = json.loads(done.stdout)
        jsonschema.validate(data, schema)
        assert done.returncode == code
        assert (data["refusal"] is None) == (code == 0)
        assert bool(data["lines"]) == (code == 0)


def test_a_schema_refuses_a_figure_without_a_verdict(demo: Path) -> None:
    data: dict[str, Any] = json.loads(run("check", *three(demo), "--json").stdout)
    del data["sets"][0]["rows"][0]["verdict"]
    schema = json.loads(files("counterpoise.cli").joinpath("schemas", "check-1.json").read_text("utf-8"))
    with pytest.raises(jsonschema.ValidationError, match="verdict"):
        jsonschema.validate(data, schema)


# --- explain and steps -------------------------------------------------------------------------------------------


def test_every_key_that_is_listed_can_be_explained(demo: Path) -> None:
    keys = run("explain", *three(demo)).stdout.splitlines()
    assert "2/loft block/4" in keys
    said = run("explain", *three(demo), "2/loft block/4").stdout
    assert "309 of 250 lb" in said
    assert "980 lb @tour" in said
    assert "line 12 of the show" in said


def test_an_unknown_key_is_refused_with_the_near_one(demo: Path) -> None:
    done = run("explain", *three(demo), "2/loft blok/4")
    assert done.returncode == 64
    assert "Did you mean 2/loft block/4?" in done.stderr


def test_steps_are_spoken_to_deck_bridge_and_rail_in_order(demo: Path) -> None:
    done = run("steps", *three(demo), "4")
    assert done.returncode == 0
    numbered = [line.split() for line in done.stdout.splitlines() if line[:3].strip().isdigit()]
    assert [words[0] for words in numbered] == [f"{count}." for count in range(1, len(numbered) + 1)]
    assert {words[1] for words in numbered} == {"deck:", "bridge:", "rail:"}


def test_no_load_in_is_spoken_for_a_set_that_is_over(demo: Path) -> None:
    done = run("steps", *three(demo), "2")
    assert done.returncode == 1
    assert "Refused:" in done.stdout
    assert "add " not in done.stdout


def test_steps_for_a_set_the_house_has_not_are_misuse(demo: Path) -> None:
    done = run("steps", *three(demo), "12")
    assert done.returncode == 64
    assert 'no set "12"' in done.stderr


# --- files that cannot be used -----------------------------------------------------------------------------------

BOMB = "a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n"
BAD = {  # name: (file, old words or None for all of it, new words, what is said, what mends it)
    "not YAML": ("show.yaml", None, 'counterpoise: show 1\nname: "open\n', "this is not YAML", "quotes"),
    "empty": ("house.yaml", None, "", "the file is empty", "counterpoise: house 1"),
    "an unknown field": ("show.yaml", "weight: 110 lb", "wieght: 110 lb", "wieght", "weight"),
    "a set that is not there": ("hang.yaml", 'set: "5"', 'set: "55"', "55", "5"),
    "off the pipe": ("hang.yaml", "centre: 1' SL", "centre: 30' SL", "header", "batten"),
    "NaN": ("show.yaml", "weight: 110 lb @float", "weight: nan lb", "nan lb", "lb"),
    "a negative weight": ("show.yaml", "weight: 110 lb @float", "weight: -110 lb", "-110 lb", "weight"),
    "a nested bomb": ("hang.yaml", None, "a: " + "[" * 100_000, "nest", "Close the bra"),
    "an alias bomb": ("hang.yaml", None, BOMB, "aliases", "kinds"),
}


@pytest.mark.parametrize("name", BAD)
def test_a_bad_document_is_told_with_its_place_and_the_mend(demo: Path, name: str) -> None:
    file, old, new, says, mend = BAD[name]
    path, line = demo / file, 0
    if old is None:
        path.write_text(new, "utf-8")
    else:
        line = edit(path, old, new)
    done = run("check", *three(demo))
    assert done.returncode == 65
    assert f"{path}:{line or ''}" in done.stderr
    assert says in done.stderr
    assert mend in done.stderr
    assert "Traceback" not in done.stderr
    assert done.stdout == ""


@pytest.mark.parametrize("data", [b"counterpoise: hang 1\nname: \xff\xfe\n", bytes(range(256)) * 40])
def test_a_binary_file_is_told_with_the_line_that_is_no_text(demo: Path, data: bytes) -> None:
    (demo / "hang.yaml").write_bytes(data)
    done = run("check", *three(demo))
    assert done.returncode == 65
    assert f"{demo / 'hang.yaml'}:2:" in done.stderr  # both have one line feed before the first byte that is not UTF-8
    assert "UTF-8" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_folder_in_place_of_a_file_cannot_be_read(demo: Path) -> None:
    done = run("check", demo, *three(demo)[1:])
    assert done.returncode == 66
    assert done.stderr.startswith(f"{demo}: this is a folder")


def test_a_file_that_is_not_there_cannot_be_read(demo: Path) -> None:
    done = run("check", demo / "huose.yaml", *three(demo)[1:])
    assert done.returncode == 66
    assert "no such file" in done.stderr


def test_a_file_of_100_megabytes_is_refused_by_its_size(demo: Path) -> None:
    with (demo / "house.yaml").open("wb") as file:
        file.truncate(100_000_000)
    done = run("check", *three(demo))
    assert done.returncode == 66
    assert "100,000,000 bytes; the most is 20,000,000" in done.stderr


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes in the file system here")
def test_a_pipe_is_refused_and_not_waited_for(demo: Path) -> None:
    (demo / "house.yaml").unlink()
    os.mkfifo(demo / "house.yaml")
    done = run("check", *three(demo))
    assert done.returncode == 66
    assert "device or a pipe" in done.stderr


# --- misuse, faults and consoles ---------------------------------------------------------------------------------


@pytest.mark.parametrize("words", [(), ("chek",), ("check", "one", "two"), ("check", "a", "b", "c", "--jsn"),
                                   ("serve", "--port", "99999"), ("serve", "one", "two"),
                                   ("schema", "hung")])  # fmt: skip
def test_a_wrong_command_line_ends_with_64_and_no_traceback(words: tuple[str, ...]) -> None:
    done = run(*words)
    assert done.returncode == 64
    assert done.stderr.strip()
    assert "Traceback" not in done.stderr


def test_a_misspelt_command_is_told_its_near_name() -> None:
    assert "Did you mean check?" in run("chek").stderr


def test_a_console_that_lacks_signs_still_gets_its_answer(demo: Path) -> None:
    edit(demo / "show.yaml", "piece: painted drop", "piece: décor 幕")
    edit(demo / "hang.yaml", "piece: painted drop", "piece: décor 幕")
    done = run("check", *three(demo), PYTHONIOENCODING="cp437:strict")
    assert done.returncode == 1
    assert "cor ?" in done.stdout
    assert "Not checked:" in done.stdout


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="pipes end otherwise here")
def test_a_reader_that_leaves_early_changes_no_verdict(demo: Path) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    done = subprocess.run([sys.executable, "-m", "counterpoise", "check", *three(demo)], check=False,
                          stdout=writing, stderr=subprocess.PIPE, timeout=60)  # fmt: skip
    os.close(writing)
    assert (done.returncode, done.stderr) == (1, b"")


# --- demo, tour and sheets ---------------------------------------------------------------------------------------


def test_the_demo_is_written_twice_alike_and_never_over_other_words(tmp_path: Path) -> None:
    demo = tmp_path
    assert run("demo", demo).returncode == 0
    assert run("demo", demo).returncode == 0
    edit(demo / "show.yaml", "110 lb", "115 lb")
    (demo / "hang.yaml").unlink()
    before = (demo / "show.yaml").read_bytes()
    done = run("demo", demo)
    assert done.returncode == 73
    assert str(demo / "show.yaml") in done.stderr
    assert (demo / "show.yaml").read_bytes() == before
    assert not (demo / "hang.yaml").exists()


def test_the_tour_tells_the_surprise_in_at_most_a_dozen_lines(tmp_path: Path) -> None:
    done = run("tour", tmp_path / "new", "--no-serve")
    lines = done.stdout.splitlines()
    assert done.returncode == 0
    assert len(lines) <= 11  # and one more that says where it is served
    assert "Equal shares would put" in lines[0]
    assert any("bridge: " in line for line in lines)


def test_a_tour_again_tells_of_the_files_as_they_were_edited(demo: Path) -> None:
    hang_only(demo, "4")
    done = run("tour", demo, "--no-serve")
    assert done.returncode == 0
    assert "1 set over" not in done.stdout


def test_the_pages_are_served_where_it_says(demo: Path) -> None:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    words = [sys.executable, "-m", "counterpoise", "serve", *map(str, three(demo)), "--port", str(port)]
    with subprocess.Popen(words, stdout=subprocess.PIPE, text=True, cwd=demo) as server:
        try:
            assert server.stdout is not None
            address = server.stdout.readline().split()[0]
            assert address == f"http://127.0.0.1:{port}/"
            assert "Larkspur Hall" in fetched(address)
        finally:
            server.terminate()


def fetched(address: str) -> str:
    for _ in range(200):  # the server needs a moment
        try:
            with urllib.request.urlopen(address, timeout=10) as answer:
                return str(answer.read().decode("utf-8"))
        except urllib.error.URLError:
            time.sleep(0.1)
    pytest.fail(f"nothing answers at {address}")


def test_a_port_that_is_taken_is_told(demo: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        done = run("serve", *three(demo), "--port", str(taken.getsockname()[1]))
    assert done.returncode == 64
    assert "--port" in done.stderr


def test_a_sheet_is_written_where_it_was_asked_for(demo: Path) -> None:
    done = run("sheets", *three(demo), "--out", demo / "paper")
    assert done.returncode == 0
    assert (demo / "paper" / "bridge.pdf").read_bytes().startswith(b"%PDF-")
    assert "2" in done.stdout.split("No count to load is printed for")[1]


def test_a_folder_that_cannot_be_made_is_told(demo: Path) -> None:
    done = run("sheets", *three(demo), "--out", demo / "house.yaml")
    assert done.returncode == 73
    assert "cannot be written" in done.stderr
