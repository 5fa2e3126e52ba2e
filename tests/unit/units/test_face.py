import subprocess
import sys

import counterpoise.units as face


def test_the_face_shows_what_it_names_and_nothing_else() -> None:
    shown = {name for name, value in vars(face).items() if not name.startswith("_") and not hasattr(value, "__path__")}
    modules = {"constants", "figures", "kinds", "notation", "numerals", "places", "printing", "reading", "refusals"}
    assert shown - modules == set(face.__all__)


def test_the_units_need_nothing_but_the_standard_library() -> None:
    asks = "import sys, counterpoise.units; print(*{name.partition('.')[0] for name in sys.modules})"
    ran = subprocess.run([sys.executable, "-c", asks], capture_output=True, text=True, check=True)
    assert {"pydantic", "numpy", "yaml", "sqlalchemy"}.isdisjoint(ran.stdout.split())
