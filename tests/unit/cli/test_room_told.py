"""Room left on asking: listed among the keys, told as a short table, and what is not in it said."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from counterpoise.cli import main
from tests.plain_house import a_house, a_piece, a_set, hung, texts_of


def _said(tmp_path: Path, capsys: pytest.CaptureFixture[str], *words: str, **changes: Any) -> str:
    texts = texts_of(a_house(a_set(**changes)), [a_piece()], [hung()])
    files = []
    for name in ("house", "show", "hang"):
        path = tmp_path / f"{name}.yaml"
        path.write_text(getattr(texts, name), encoding="utf-8")
        files.append(str(path))
    assert main(["explain", *files, *words]) == 0
    return capsys.readouterr().out


def test_room_is_listed_among_the_keys(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "9/room" in _said(tmp_path, capsys).splitlines()


def test_room_is_told_at_the_lines_and_between_with_the_limit_met_first(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    posted = [{"load": "310 lb", "counts": "what is hung", "by": "a maker"}]
    said = _said(tmp_path, capsys, "9/room", posted=posted)
    rows = [line.split() for line in said.splitlines() if line.startswith("    ")]
    assert rows[0] == ["place", "room", "met", "first"]
    assert [row[-3:] for row in rows if row[0] == "CL"] == [["lb", "posted", "capacity"]]
    assert [row[1] for row in rows if row[0] == "CL"] == ["210"]  # 310 lb less 100 lb that hang
    assert len(rows) == 1 + 5 + 4 + 2  # five lines, four middles, two ends
    assert "bottom stop are met by the count of bricks" in said
    assert "Static figures" in said


def test_where_a_figure_is_missing_it_is_not_known(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = _said(tmp_path, capsys, "9/room", loft_block={"rating": "unknown"})
    assert said.startswith("room left on set 9: not known: loft block has no figure")
