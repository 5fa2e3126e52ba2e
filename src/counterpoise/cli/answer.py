"""What a command is given and hands back: its files, the words to print and the exit code. Only `run` prints."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from enum import IntEnum

from counterpoise.errors import Misuse


def today() -> date:
    """The day where the program runs: what is not checked until an earlier one is asked for again."""
    return datetime.now().astimezone().date()


class Exit(IntEnum):
    """Exit codes. 0 to 2 speak of the hang; 64 and above of the call, the files or this program (BSD sysexits)."""

    WITHIN = 0
    OVER = 1
    UNKNOWN = 2
    MISUSE = 64
    BAD_INPUT = 65
    CANNOT_READ = 66
    FAULT = 70
    CANNOT_WRITE = 73
    STOPPED = 130


@dataclass(frozen=True, slots=True)
class Answer:
    """Words for the reader, and the exit code."""

    words: str
    code: Exit = Exit.WITHIN


def needs_one_or_three(files: Sequence[str], command: str) -> None:
    """Raises Misuse where it is not a house, or a house with its show and its hang."""
    if len(files) not in (1, 3):
        raise Misuse(f"{len(files)} files are named.", f"counterpoise {command} HOUSE, or {command} HOUSE SHOW HANG")
