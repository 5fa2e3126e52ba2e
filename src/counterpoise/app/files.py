"""Files of a user: read behind guards, written whole or not at all, and never over somebody else's words."""

from __future__ import annotations

import os
import stat
import tempfile
from pathlib import Path

from counterpoise.app.demo import NAMES, OTHERS, demo_text
from counterpoise.app.judge import Texts
from counterpoise.errors import BadDocument, CounterpoiseError, Problem, Refused

LARGEST = 20_000_000  # bytes; a house of ten thousand sets is about 4 million


class CannotRead(CounterpoiseError):
    """A file that is not there, is no plain file, is too large, or may not be read. Nothing was read."""

    def __init__(self, name: str, says: str, mend: str) -> None:
        super().__init__(f"{name}: {says} {mend}")
        self.name, self.says, self.mend = name, says, mend


class CannotWrite(CounterpoiseError):
    """A file that could not be written. Nothing half-written is left."""

    def __init__(self, name: str, says: str, mend: str) -> None:
        super().__init__(f"{name}: {says} {mend}")
        self.name, self.says, self.mend = name, says, mend


def read_text(path: Path | str) -> str:
    """The text of a file.

    Raises:
        CannotRead: missing, a folder, a device or pipe, larger than 20 MB (judged before a byte is read), forbidden.
        BadDocument: the bytes are not UTF-8; says at which line.
    """
    name = str(path)
    data = _bytes(Path(path), name)
    try:
        return data.decode("utf-8-sig")  # editors on Windows put a mark in front
    except UnicodeDecodeError as error:
        before = data[: error.start]
        line = before.count(b"\n") + 1
        column = error.start - (before.rfind(b"\n") + 1) + 1
        says = f"this is not UTF-8 text: byte {error.start + 1:,} is {data[error.start]:#04x}."
        raise BadDocument((Problem(file=name, line=line, column=column, path="", value=None, says=says,
                                   mend="Save the file as plain text in UTF-8."),)) from None  # fmt: skip


def read_bytes(path: Path | str) -> bytes:
    """The bytes of a file that is no text. Raises CannotRead as `read_text` does."""
    return _bytes(Path(path), str(path))


def read_texts(house: Path | str, show: Path | str | None = None, hang: Path | str | None = None) -> Texts:
    """The three documents of a hang, or a house alone. Raises as `read_text` does."""
    if show is None or hang is None:
        return Texts(house=read_text(house), house_name=str(house))
    return Texts(house=read_text(house), show=read_text(show), hang=read_text(hang), house_name=str(house),
                 show_name=str(show), hang_name=str(hang))  # fmt: skip


def write_whole(path: Path, data: bytes) -> None:
    """Write a file so that it is there whole or as it was before. Raises CannotWrite."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, beside = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    except OSError as error:
        raise _cannot_write(path, error) from None
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        Path(beside).chmod(0o644)  # a temporary file is for its owner alone; a sheet is for the crew
        Path(beside).replace(path)
    except OSError as error:
        Path(beside).unlink(missing_ok=True)
        raise _cannot_write(path, error) from None


def write_demo(directory: Path) -> tuple[Path, ...]:
    """Write the demo's three documents; a file that is there and says the same is left.

    Returns:
        Their paths, house, show and hang.

    Raises:
        Refused: one of them is there and says something else. Nothing was written.
        CannotWrite: the folder or a file could not be written.
    """
    wanted = {directory / name: demo_text(name) for name in (*NAMES, *OTHERS)}
    there = [path for path in wanted if os.path.lexists(path)]
    differing = [path for path in there if _differs(path, wanted[path])]
    if differing:
        names = ", ".join(str(path) for path in differing)
        raise Refused(f"{names}: already there and not the demo's. Nothing was written",
                      "Name an empty or a new folder.")  # fmt: skip
    for path, text in wanted.items():
        if path not in there:
            write_whole(path, text.encode("utf-8"))
    return tuple(wanted)[: len(NAMES)]


def write_new(path: Path, text: str) -> None:
    """Write a text where there is nothing yet. Raises Refused where something is, CannotWrite where it cannot be."""
    if os.path.lexists(path):
        raise Refused(f"{path}: already there. Nothing was written", "Name another file.")
    write_whole(path, text.encode("utf-8"))


def demo_there(directory: Path) -> tuple[Path, ...]:
    """The three documents of a folder, as their owner may have edited them; none where one is missing."""
    paths = tuple(directory / name for name in NAMES)
    return paths if all(os.path.lexists(path) for path in paths) else ()


def _bytes(path: Path, name: str) -> bytes:
    try:
        found = path.stat()  # asked first: to open a pipe would wait for its writer
        if stat.S_ISDIR(found.st_mode):
            raise CannotRead(name, "this is a folder, not a file.", "Name the house, show or hang file in it.")
        if not stat.S_ISREG(found.st_mode):
            raise CannotRead(name, "this is a device or a pipe, not a file.", "Save the text to a file and name that.")
        if found.st_size > LARGEST:
            raise _too_large(name, f"{found.st_size:,}")
        with path.open("rb") as file:
            data = file.read(LARGEST + 1)
    except FileNotFoundError:
        raise CannotRead(name, "there is no such file.", "Check the name and the folder.") from None
    except PermissionError:
        raise CannotRead(name, "you may not read this file.", "Ask its owner, or read a copy.") from None
    except (OSError, ValueError) as error:  # ValueError: a name with a null byte
        raise CannotRead(name, f"it cannot be read: {_reason(error)}.", "Check the name and the disk.") from None
    if len(data) > LARGEST:
        raise _too_large(name, f"more than {LARGEST:,}")
    return data


def _too_large(name: str, size: str) -> CannotRead:
    return CannotRead(name, f"it has {size} bytes; the most is {LARGEST:,}.",
                      "Name the house, show or hang file itself.")  # fmt: skip


def _cannot_write(path: Path, error: OSError) -> CannotWrite:
    return CannotWrite(str(path), f"it cannot be written: {_reason(error)}.", "Check the folder and the disk.")


def _reason(error: OSError | ValueError) -> str:
    return (getattr(error, "strerror", None) or str(error)).lower()


def _differs(path: Path, text: str) -> bool:
    try:
        return read_text(path).splitlines() != text.splitlines()
    except CounterpoiseError:
        return True
