"""What the command line does with what nobody foresaw."""

import re

import pytest

from counterpoise.cli import commands, main


def broken(asked: object) -> None:
    raise ZeroDivisionError("division by zero")


def test_a_fault_of_the_program_is_one_plain_line(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(commands, "check", broken)
    monkeypatch.delenv("COUNTERPOISE_TRACE", raising=False)
    assert main(["check", "a", "b", "c"]) == 70
    said = capsys.readouterr()
    assert said.out == ""
    assert "a fault of this program" in said.err
    assert "Traceback" not in said.err
    assert said.err.count("\n") == 1


def test_a_fault_is_traced_for_one_who_asks(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(commands, "check", broken)
    monkeypatch.setenv("COUNTERPOISE_TRACE", "1")
    assert main(["check", "a", "b", "c"]) == 70
    assert "Traceback" in capsys.readouterr().err


def test_help_ends_with_0_and_lists_the_exit_codes(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--help"]) == 0
    assert "66 a file" in " ".join(capsys.readouterr().out.split())


def test_the_version_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--version"]) == 0
    assert re.fullmatch(r"counterpoise \d+\.\d+\.\d+\S*\n", capsys.readouterr().out)
