import ast
import subprocess
import sys
from pathlib import Path

import pytest

import counterpoise.statics as statics

ALLOWED = {
    "abc",
    "bisect",
    "collections",
    "counterpoise",
    "dataclasses",
    "functools",
    "heapq",
    "importlib",
    "itertools",
    "math",
    "operator",
    "struct",
    "typing",
}


def test_the_face_offers_these_names() -> None:
    assert len(set(statics.__all__)) == len(statics.__all__)  # their order is the linter's
    assert {"hang", "follow", "room_left", "response", "pipe", "Unproven"} <= set(statics.__all__)
    assert all(hasattr(statics, name) for name in statics.__all__)


def test_the_statics_need_nothing_but_the_standard_library() -> None:
    for path in Path(statics.__file__).parent.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = [node.module or ""] if isinstance(node, ast.ImportFrom) else []
            if isinstance(node, ast.Import):
                names = [alias.name for alias in node.names]
            by_array = path.name.startswith(("many", "chances"))  # not imported with the face; see test_many.py
            for name in names:
                assert name.partition(".")[0] in ALLOWED | ({"numpy"} if by_array else set()), (path.name, name)
                assert not name.startswith("counterpoise.") or name.split(".")[1] in {"errors", "statics"}


def test_a_name_that_is_not_offered_is_missed() -> None:
    with pytest.raises(AttributeError, match="no attribute 'nothing'"):
        getattr(statics, "nothing")  # noqa: B009 - the type checker knows too


def test_plain_battens_start_without_the_trusses() -> None:
    code = "import sys, counterpoise.statics; print([m for m in sys.modules if 'ladder' in m or 'axial' in m])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
