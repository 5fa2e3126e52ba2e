"""The docs against the code: examples are read, fields, rules and formulas are all there, and links lead somewhere."""

import dataclasses
import re
import tomllib
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest

from counterpoise.checks import Verdict, check
from counterpoise.checks.explain import FORMULAS
from counterpoise.cli.say import CAUTION
from counterpoise.documents import (
    Arbor,
    Batten,
    Bay,
    Block,
    Brick,
    Bridge,
    Hang,
    House,
    How,
    Hung,
    LineSet,
    NotChecked,
    Piece,
    Rules,
    Show,
    read_hang,
    read_house,
    read_show,
)
from counterpoise.documents.house import LiftLines, SourceNote, Stage, Stops
from counterpoise.documents.notes import LINKS
from counterpoise.rigging import rig
from counterpoise.rigging.rules import DEFAULTS

ROOT = Path(__file__).resolve().parents[2]
DOCS = ROOT / "docs"
PAGES = sorted([ROOT / "README.md", *DOCS.rglob("*.md")])
RECORDS = [
    Arbor, Batten, Bay, Block, Brick, Bridge, Hang, House, Hung, LiftLines, LineSet, NotChecked, Piece, Rules, Show,
    SourceNote, Stage, Stops,
]  # fmt: skip
_COMPLETE = re.compile(r"^```yaml (house|show|hang)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_FENCED = re.compile(r"^```.*?^```$", re.MULTILINE | re.DOTALL)
_LINK = re.compile(r"\]\(([^)\s]+)\)")


def page(name: str) -> str:
    return (DOCS / name).read_text("utf-8")


def examples() -> dict[str, str]:
    """The complete documents of documents.md, by kind."""
    return dict(_COMPLETE.findall(page("documents.md")))


def headings(text: str) -> list[str]:
    return [found.strip() for found in re.findall(r"^#+ (.+)$", _FENCED.sub("", text), re.MULTILINE)]


def anchors(text: str) -> set[str]:
    """Headings as the pages of a code host link to them."""
    return {re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-") for heading in headings(text)}


def id_of(path: Path) -> str:
    return str(path.relative_to(ROOT))


def read_examples() -> tuple[House, Show, Hang]:
    texts = examples()
    house, show = read_house(texts["house"]), read_show(texts["show"])
    return house, show, read_hang(texts["hang"], house, show)


def test_there_is_one_complete_example_of_each_document() -> None:
    assert [kind for kind, _ in _COMPLETE.findall(page("documents.md"))] == ["house", "show", "hang"]


def test_the_examples_are_read_and_every_set_in_them_can_be_computed() -> None:
    result = check(rig(*read_examples()))
    assert result.house.missing == ()
    assert all(one.forces is not None for one in result.sets)


def test_the_example_takes_a_part_off_a_kind_with_none_and_lays_another_over_it() -> None:
    house, _, _ = read_examples()
    first, second = house.sets
    assert first.stops.bottom is not None
    assert second.stops.bottom is None
    assert not first.loft_block.rating.is_unknown
    assert second.loft_block.rating.is_unknown
    assert first.loft_block.rating_of == second.loft_block.rating_of == "line pull"


def test_what_the_example_lists_as_not_checked_leaves_the_verdict_of_that_set_only() -> None:
    result = check(rig(*read_examples()))
    first, second = result.sets
    assert first.row("loft block") is not None
    assert second.row("loft block") is None
    assert first.verdict is Verdict.WITHIN


@pytest.mark.parametrize("shape", RECORDS, ids=lambda shape: shape.__name__)
def test_every_field_of_a_record_stands_in_documents_md(shape: type[Any]) -> None:
    told = set(re.findall(r"`([^`\n]+)`", page("documents.md")))
    words = {one.name.rstrip("_").replace("_", " ") for one in dataclasses.fields(shape) if "reader" in one.metadata}
    assert words
    assert words - told == set()


def test_documents_md_names_every_thing_that_may_be_left_unchecked() -> None:
    row = next(line for line in page("documents.md").splitlines() if line.startswith("| `what` | one of"))
    assert tuple(re.findall(r"`([^`]+)`", row))[1:] == LINKS


def test_limits_md_lists_every_default_rule_with_its_figure() -> None:
    rows = dict(re.findall(r"^\| ([a-z ]+) \| ([^|]+) \| [^|]+ \|$", page("limits.md"), re.MULTILINE))
    for name, (_, words) in DEFAULTS.items():
        assert rows[name].strip() == words.split(", ")[0]


def test_limits_md_prints_the_caution_as_the_command_line_does() -> None:
    quoted = " ".join(line.removeprefix("> ") for line in page("limits.md").splitlines() if line.startswith("> "))
    assert quoted == CAUTION


def test_conventions_md_ranks_how_well_known_as_the_code_does() -> None:
    ranked = re.search(r"From best to worst: ([^.]+)\.", page("conventions.md"))
    assert ranked is not None
    told = [word.strip() for word in re.sub(r"\(not adopted\)", "", ranked[1]).split(",")]
    assert told == [how.value.split(",")[0] for how in How]


def test_architecture_md_draws_the_layers_that_are_held() -> None:
    held = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["importlinter"]["contracts"][0]["layers"]
    drawn = re.search(r"^```text\n(cli\n.*?)^```$", page("architecture.md"), re.MULTILINE | re.DOTALL)
    assert drawn is not None
    assert drawn[1].split("\n")[:-1] == held


@pytest.mark.parametrize("formula", FORMULAS)
def test_the_theory_of_a_formula_is_a_page_with_its_name_as_a_heading(formula: str) -> None:
    theory = ROOT / FORMULAS[formula][1]
    assert theory.is_file()
    assert formula in [heading.lower() for heading in headings(theory.read_text("utf-8"))]


@pytest.mark.parametrize("path", PAGES, ids=id_of)
def test_every_relative_link_of_a_page_leads_to_a_file_and_its_heading(path: Path) -> None:
    broken = [link for link in _LINK.findall(_FENCED.sub("", path.read_text("utf-8"))) if not _leads(path, link)]
    assert broken == []


def _leads(path: Path, link: str) -> bool:
    if re.match(r"[a-z]+:", link):
        return True  # another host: no test asks the network
    name, _, anchor = unquote(link).partition("#")
    target = (path.parent / name).resolve() if name else path
    if not target.exists():
        return False
    return not anchor or anchor in anchors(target.read_text("utf-8"))


@pytest.mark.parametrize("path", PAGES, ids=id_of)
def test_no_page_promises_more_than_was_checked(path: Path) -> None:
    assert re.search(r"\bsafe(ly|ty)?\b", path.read_text("utf-8"), re.IGNORECASE) is None
