"""The engine of coverage-guided fuzzing, or the line that installs it. It is no dependency of the project."""

import sys
from pathlib import Path
from typing import Any

INSTALL = "python3.11 -m venv /tmp/fuzz && /tmp/fuzz/bin/pip install atheris pyyaml && /tmp/fuzz/bin/python "


def engine() -> Any:
    """Atheris, and this tree's `src` in front of what can be imported. Where it is missing, the line to type."""
    sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "src"))
    try:
        import atheris
    except ImportError:
        sys.exit(f"Fuzzing needs atheris (Linux, Python 3.11 to 3.13). Type:\n  {INSTALL}{sys.argv[0]}")
    return atheris
