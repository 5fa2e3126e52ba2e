"""What the shape of the code promises beyond the layers, which import-linter holds."""

import subprocess
import sys

import pytest

# Each costs a start of the command line 50 to 500 ms; a command that needs one imports it inside itself.
SLOW = ["fastapi", "sqlalchemy", "numpy", "scipy", "typst", "htpy", "pydantic", "starlette", "uvicorn"]


def modules_after(statement: str) -> set[str]:
    """Top-level modules that a fresh Python holds after a statement."""
    show = f"{statement}\nimport sys\nprint(*sorted({{name.partition('.')[0] for name in sys.modules}}))"
    done = subprocess.run([sys.executable, "-c", show], capture_output=True, text=True, check=True, timeout=60)
    return set(done.stdout.split())


@pytest.fixture(scope="module")
def loaded_by_the_command_line() -> set[str]:
    return modules_after("import counterpoise.cli")


@pytest.mark.parametrize("library", SLOW)
def test_the_command_line_starts_without(library: str, loaded_by_the_command_line: set[str]) -> None:
    assert "counterpoise" in loaded_by_the_command_line
    assert library not in loaded_by_the_command_line


def test_the_probe_sees_a_library_that_is_imported() -> None:
    assert "pydantic" in modules_after("import pydantic")
