"""Files are read behind guards and written whole or not at all."""

import os
from pathlib import Path

import pytest

from counterpoise.app.files import CannotRead, CannotWrite, read_text, write_whole
from counterpoise.errors import BadDocument


def test_a_mark_that_editors_put_in_front_is_not_part_of_the_text(tmp_path: Path) -> None:
    (tmp_path / "house.yaml").write_bytes(b"\xef\xbb\xbfname: x")  # RFC 3629, section 6: the UTF-8 signature
    assert read_text(tmp_path / "house.yaml") == "name: x"


def test_a_byte_that_is_not_utf_8_is_told_by_line_and_column(tmp_path: Path) -> None:
    (tmp_path / "house.yaml").write_bytes(b"one\ntwo \xe9\n")
    with pytest.raises(BadDocument) as caught:
        read_text(tmp_path / "house.yaml")
    problem = caught.value.problems[0]
    assert (problem.line, problem.column) == (2, 5)


def test_a_name_with_a_null_in_it_is_told() -> None:
    with pytest.raises(CannotRead):
        read_text("a\0b")


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no devices in the file system here")
def test_a_device_without_end_is_not_read() -> None:
    with pytest.raises(CannotRead, match="device"):
        read_text("/dev/zero")


def test_a_write_that_fails_leaves_the_old_file_and_nothing_beside_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "bridge.pdf"
    path.write_bytes(b"old")

    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(CannotWrite, match="no space left"):
        write_whole(path, b"new")
    assert [(each.name, each.read_bytes()) for each in tmp_path.iterdir()] == [("bridge.pdf", b"old")]
