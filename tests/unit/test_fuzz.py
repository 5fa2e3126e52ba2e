"""The fuzzing scripts start where their engine is installed, and name the line to type where it is not."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

FUZZ = Path(__file__).parents[2] / "fuzz"


@pytest.mark.parametrize("script", ["units.py", "documents.py"])
def test_a_fuzzing_script_runs_or_says_what_to_install(script: str, tmp_path: Path) -> None:
    ran = subprocess.run(
        [sys.executable, str(FUZZ / script), "-runs=10"], capture_output=True, text=True, cwd=tmp_path, check=False
    )
    if "No module named" in ran.stderr or ran.returncode:
        assert "pip install atheris" in ran.stderr
        assert f"fuzz/bin/python {FUZZ / script}" in ran.stderr
