"""The one way in, on any machine that has Python: `python3 dev.py demo`, `test`, `lint`, `check` or `setup`.

`schemas` makes the JSON Schemas of the documents anew. Needs nothing but the standard library. What runs afterwards
runs in `.venv`, made from hashed lists; a stamp makes the next run instant. Words after the task go on to it:
`python3 dev.py test -k balance`.
"""

import hashlib
import importlib.util
import json
import os
import shutil
import subprocess
import sys
import venv
from collections.abc import Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
EXE = ".exe" if os.name == "nt" else ""
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "msedge")
BROWSER_PLACES = (
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "C:/Program Files/Google/Chrome/Application/chrome.exe",
    "C:/Program Files (x86)/Microsoft/Edge/Application/msedge.exe",
)
STATIC = (
    ("ruff", "format", "--check"),
    ("ruff", "check"),
    ("mypy",),
    ("lint-imports", "--no-logo", "--cache-dir", "build/cache/imports"),
)


def main(words: Sequence[str]) -> int:
    """Do the task that the first word names."""
    tasks = {"demo": demo, "test": test, "lint": lint, "check": check, "schemas": schemas, "setup": setup}
    if not words or words[0] not in tasks:
        print(f"{__doc__}\nTasks: {', '.join(tasks)}.")
        return 2
    if not (3, 11) <= sys.version_info[:2] < (3, 15):
        return stop(f"This is Python {sys.version.split()[0]}; counterpoise needs 3.11 to 3.14. Use one of those.")
    return tasks[words[0]](words[1:])


def demo(more: Sequence[str]) -> int:
    """Write an invented house to build/demo, show what is found there, and serve it."""
    ensure("app")
    return become("counterpoise", "tour", str(Path("build", "demo")), *more)


def test(more: Sequence[str]) -> int:
    """Run the tests, two at a time; journeys in the browser need a Chromium."""
    ensure("dev")
    if not ensure_browser():
        return stop("No Chromium found, and CI leaves nothing out. Install it, or set CHROMIUM to its path.")
    return become("pytest", "-n", str(min(2, os.cpu_count() or 1)), *more)


def lint(_more: Sequence[str]) -> int:
    """Format, lint, types and layers, all of them even where the first fails."""
    ensure("dev")
    failed = [words for words in STATIC if subprocess.call(command(*words), cwd=ROOT, env=environment())]
    return stop(f"Failed: {', '.join(' '.join(words) for words in failed)}.") if failed else 0


def check(more: Sequence[str]) -> int:
    """The developers' one word: lint, then the tests."""
    return lint(()) or test(more)


def schemas(_more: Sequence[str]) -> int:
    """Make the JSON Schemas of house, show and hang anew, from the fields that are declared."""
    ensure("dev")
    for kind in ("house", "show", "hang"):
        path = ROOT / "src" / "counterpoise" / "documents" / "schemas" / f"{kind}.schema.json"
        path.write_bytes(subprocess.check_output(command("counterpoise", "schema", kind), cwd=ROOT, env=environment()))
    return 0


def setup(_more: Sequence[str]) -> int:
    """Make .venv with all that development needs, and run nothing."""
    ensure("dev")
    return 0


def ensure(kind: str) -> None:
    """Bring .venv to what requirements/<kind>.txt says; `dev` holds all of `app`."""
    if any(stamp(each).is_file() and stamp(each).read_text() == wanted(each) for each in {kind, "dev"}):
        return
    if importlib.util.find_spec("ensurepip") is None:
        package = f"python3.{sys.version_info.minor}-venv"
        sys.exit(stop(f"This Python cannot make a virtual environment. Type:  apt-get install -y {package}"))
    home = VENV / "made-in"  # a moved folder has scripts that point to the old place
    if not (home.is_file() and home.read_text() == str(ROOT)):
        print("Making .venv; this takes a minute, once.", flush=True)
        venv.create(VENV, clear=True, with_pip=True)
        home.write_text(str(ROOT))
    pip = [str(BIN / f"python{EXE}"), "-m", "pip", "-qq", "--disable-pip-version-check", "install", "--no-deps"]
    listed = ["--require-hashes", "--only-binary", ":all:", "-r", f"requirements/{kind}.txt"]
    for words in (listed, ["--no-build-isolation", "-e", "."]):
        if subprocess.call([*pip, *words], cwd=ROOT, env=environment()):
            sys.exit(stop(f"pip could not install {' '.join(words)}; its own words stand above."))
    stamp(kind).write_text(wanted(kind))


def stamp(kind: str) -> Path:
    """Where it is noted what .venv was made from."""
    return VENV / f"made-from-{kind}"


def wanted(kind: str) -> str:
    """What .venv should be made from: place, list, and the parts of pyproject.toml that an installation copies."""
    import tomllib  # not at the top: an older Python must still get as far as the line that says so

    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    copied = json.dumps([str(ROOT), project["project"], project["build-system"]])
    return hashlib.sha256((ROOT / "requirements" / f"{kind}.txt").read_bytes() + copied.encode()).hexdigest()


def chromium() -> str | None:
    """Path of an installed Chromium, or of a browser built on it."""
    named = os.environ.get("CHROMIUM")
    if named:
        return shutil.which(named)
    found = (shutil.which(name) for name in (*BROWSERS, *BROWSER_PLACES))
    return next((path for path in found if path), None)


def ensure_browser() -> bool:
    """Look for a Chromium, install it where that is one plain step; False if the tests must not go on without."""
    debian_root = sys.platform == "linux" and os.geteuid() == 0 and shutil.which("apt-get")
    if debian_root and not chromium() and "CHROMIUM" not in os.environ:
        print("No Chromium found: installing Debian's for the browser journeys.", flush=True)
        quiet = {**environment(), "DEBIAN_FRONTEND": "noninteractive"}
        for words in (["update"], ["install", "-y", "--no-install-recommends", "chromium"]):
            subprocess.call(["apt-get", "-qq", *words], env=quiet, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
    if chromium() or os.environ.get("CI") == "true":
        return chromium() is not None
    print("No Chromium found: the browser journeys are left out. Set CHROMIUM to its path to run them.", flush=True)
    return True


def environment() -> dict[str, str]:
    """This process's variables, without another Python's, and with a home where there is none."""
    kept = {name: value for name, value in os.environ.items() if name not in {"PYTHONPATH", "PYTHONHOME"}}
    if os.name != "nt" and not os.access(kept.get("HOME") or "/nowhere", os.W_OK):
        (ROOT / "build" / "home").mkdir(parents=True, exist_ok=True)
        kept["HOME"] = str(ROOT / "build" / "home")
    return kept


def command(name: str, *words: str) -> list[str]:
    """A tool of .venv with its words."""
    return [str(BIN / f"{name}{EXE}"), *words]


def become(name: str, *words: str) -> int:
    """Hand this process over to a tool, so that its signals, its last line and its exit code are the tool's."""
    os.chdir(ROOT)
    sys.stdout.flush()
    if os.name == "posix":  # on Windows exec returns to the prompt at once
        os.execve(BIN / name, command(name, *words), environment())
    return subprocess.call(command(name, *words), env=environment())


def stop(says: str) -> int:
    """Say why it ends here."""
    print(says, file=sys.stderr)
    return 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
