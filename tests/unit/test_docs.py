"""The docs against the code: examples are read, fields, rules and formulas are all there, and links lead somewhere."""

import dataclasses
import re
import tomllib
from dataclasses import MISSING
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest

from counterpoise.checks import Verdict, check
from counterpoise.checks.explain import FORMULAS
from counterpoise.cli.say import CAUTION
from counterpoise.documents import (
    Hang,
    House,
    How,
    Show,
    fields as f,
    hang,
    house,
    kinds,
    line_set,
    log,
    notes,
    parts,
    show,
)
from counterpoise.documents.notes import LINKS
from counterpoise.documents.reading import read_hang, read_house, read_show
from counterpoise.documents.speech import UK
from counterpoise.rigging import rig
from counterpoise.rigging.rules import DEFAULTS
from counterpoise.units import Kind

ROOT = Path(__file__).resolve().parents[2]
DOCS = ROOT / "docs"
PAGES = sorted([ROOT / "README.md", ROOT / "CONTRIBUTING.md", *DOCS.rglob("*.md")])
RECORDS = [
    shape
    for module in (house, line_set, parts, show, hang, log, notes)
    for shape in vars(module).values()
    if dataclasses.is_dataclass(shape) and isinstance(shape, type) and shape.__module__ == module.__name__
]
COMPUTING = ("rigging", "balance", "loadpath", "checks", "planning")
_COMPLETE = re.compile(r"^```yaml (house|show|hang)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_FENCED = re.compile(r"^```.*?^```$", re.MULTILINE | re.DOTALL)
_LINK = re.compile(r"\]\(([^)\s]+)\)")
_CELLS = re.compile(r"(?<!\\)\|")


def page(name: str) -> str:
    return (DOCS / name).read_text("utf-8")


def examples() -> list[tuple[str, str]]:
    """The complete documents of documents.md: kind and text."""
    return _COMPLETE.findall(page("documents.md"))


def headings(text: str) -> list[str]:
    return [found.strip() for found in re.findall(r"^#+ (.+)$", _FENCED.sub("", text), re.MULTILINE)]


def anchors(text: str) -> set[str]:
    """Headings as the pages of a code host link to them."""
    return {re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-") for heading in headings(text)}


def id_of(path: Path) -> str:
    return str(path.relative_to(ROOT))


def read_examples() -> tuple[House, Show, Hang]:
    texts = dict(examples())  # the last of each kind
    house, show = read_house(texts["house"]), read_show(texts["show"])
    return house, show, read_hang(texts["hang"], house, show)


# --- documents.md ------------------------------------------------------------------------------------------------


def heading_of(shape: type[Any]) -> str:
    """LineSet is told under the heading "Line set"."""
    return re.sub(r"(?<=[a-z])([A-Z])", r" \1", shape.__name__).capitalize()


def link_to(shape: type[Any]) -> str:
    heading = heading_of(shape)
    return f"[{heading}](#{heading.lower().replace(' ', '-')})"


def written_as(reader: Any) -> str:
    """What a field is written as, in the words of the second column."""
    reads = getattr(reader, "reads", {})
    if reader is f.day:
        return "day"
    if "kind" in reads:
        return ", ".join([reads["kind"].value, *(["*range*"] if reads["ranges"] else []),
                          *(["signed"] if reads["signed"] else [])])  # fmt: skip
    if "along" in reads:
        return "place"
    if "choice" in reads:
        return ", ".join(f"`{word}`" for word in reads["choice"])
    if "items" in reads:
        return f"list of {written_as(reads['items'])}"
    if "named" in reads:
        return f"map to {written_as(reads['named'])}"
    if "record" in reads:
        return (f"`{reads['word']}` or " if "word" in reads else "") + link_to(reads["record"])
    return "words"


def left_out(one: dataclasses.Field[Any]) -> str:
    """What it means that a field is left out, in the words of the third column."""
    if "blank" in one.metadata:
        unknown = "unknown" if isinstance(one.metadata["blank"], Kind) else "all unknown"
        return f"{unknown}; or `none`" if "none" in one.metadata else unknown
    if one.default is MISSING and one.default_factory is MISSING:
        return "refused"
    return f"`{one.default}`" if isinstance(one.default, str) and one.default else "–"


def declared(shape: type[Any]) -> list[tuple[str, str, str]]:
    return [
        (f"`{f.word_of(one.name)}`", written_as(one.metadata["reader"]), left_out(one))
        for one in dataclasses.fields(shape)
        if "reader" in one.metadata
    ]


def table_under(heading: str) -> list[list[str]]:
    """The rows of the first table under a heading of documents.md, without those of its head."""
    section = re.split(r"^#+ ", page("documents.md").split(f"# {heading}\n", 1)[1], maxsplit=1, flags=re.MULTILINE)[0]
    table = re.search(r"(?:^\|.*\n)+", section, re.MULTILINE)
    assert table is not None
    return [[cell.strip() for cell in _CELLS.split(row)[1:-1]] for row in table[0].splitlines()[2:]]


def test_every_record_that_the_three_files_hold_is_found() -> None:
    assert {House, Show, Hang, notes.NotChecked, parts.Batten, line_set.LineSet} < set(RECORDS)


@pytest.mark.parametrize("shape", RECORDS, ids=lambda shape: shape.__name__)
def test_the_table_of_a_record_has_its_fields_and_no_other_and_how_each_is_written(shape: type[Any]) -> None:
    rows = table_under(heading_of(shape))
    assert [tuple(row[:3]) for row in rows] == declared(shape)
    assert all(len(row) == 4 and row[3] for row in rows)


def test_what_is_told_as_not_computed_yet_is_used_by_nothing_that_computes() -> None:
    """A field is looked for by its name, so only those whose name no other field has can be told apart."""
    names = [one.name for shape in RECORDS for one in dataclasses.fields(shape) if "reader" in one.metadata]
    told = {row[0].strip("`").replace(" ", "_") for shape in RECORDS for row in table_under(heading_of(shape))
            if "*Read, not computed yet.*" in row[3]}  # fmt: skip
    alone = {name for name in told if names.count(name) == 1}
    code = [line for package in COMPUTING for path in (ROOT / "src" / "counterpoise" / package).glob("*.py")
            for line in path.read_text("utf-8").splitlines() if not line.startswith("from ")]  # fmt: skip
    assert alone
    assert {name for name in alone for line in code if re.search(rf"\.{name}\b(?!\()", line)} == set()


def test_documents_md_names_every_word_that_names_a_row_of_the_catalogue_and_what_it_fills() -> None:
    told = {(row[0], row[1]): row[2] for row in table_under("Rows of the catalogue")}
    places = [("`batten`", kinds.PIPE_ROWS), ("`lengths`", kinds.PIPE_ROWS), ("`ladder`", kinds.LADDER_ROWS),
              ("`lines`", kinds.LINE_ROWS), ("`at`", kinds.LINE_AT_ROWS), ("`takeoff`", kinds.TAKEOFF_ROWS),
              ("`cables`", kinds.CABLE_ROWS)]  # fmt: skip
    held = {(f"{place}", f"`{word}`"): ", ".join(f"`{ours}`" for ours in figures.values())
            for place, names in places for word, (_, figures) in names.items()}  # fmt: skip
    assert told == held


def test_documents_md_names_every_thing_that_may_be_left_unchecked() -> None:
    what = next(row for row in table_under("Not checked") if row[0] == "`what`")
    assert tuple(re.findall(r"`([^`]+)`", what[1])) == LINKS


def test_there_is_a_complete_example_of_each_document_and_a_house_of_what_a_schedule_tells() -> None:
    assert [kind for kind, _ in examples()] == ["house", "house", "show", "hang"]


def test_the_least_house_is_read_and_lacks_what_it_does_not_say() -> None:
    least = read_house(examples()[0][1])
    assert [one.purchase for one in least.sets] == ["single", "double"]
    result = check(rig(least, Show(counterpoise="show 1", name="none", pieces=()),
                       Hang(counterpoise="hang 1", house=least.name, show="none", hung=())))  # fmt: skip
    assert result.verdict is Verdict.UNKNOWN
    assert result.unknowns


def test_the_examples_are_read_and_every_set_in_them_can_be_computed() -> None:
    result = check(rig(*read_examples()))
    assert result.house.missing == ()
    assert all(one.forces is not None for one in result.sets)


def test_the_example_takes_a_part_off_a_kind_with_none_and_lays_another_over_it() -> None:
    house, _, _ = read_examples()
    first, second, _ = house.sets
    assert first.stops.bottom is not None
    assert second.stops.bottom is None
    assert not first.loft_block.rating.is_unknown
    assert second.loft_block.rating.is_unknown
    assert first.loft_block.rating_of == second.loft_block.rating_of == "line pull"


def test_what_the_example_lists_as_not_checked_leaves_the_verdict_of_that_set_only() -> None:
    result = check(rig(*read_examples()))
    first, second, _ = result.sets
    assert first.row("loft block") is not None
    assert second.row("loft block") is None
    assert first.verdict is Verdict.WITHIN


# --- the other pages ---------------------------------------------------------------------------------------------


def test_the_glossary_has_every_word_that_a_house_in_uk_words_is_told_in() -> None:
    rows = [_CELLS.split(row) for row in page("glossary.md").splitlines() if row.startswith("| ")]
    ours = {word.strip(): row[3] for row in rows if len(row) > 4 for word in row[1].split(",")}
    for word, theirs in UK.items():
        name = word.replace("pipe-weight", "pipe weight")
        assert theirs.replace("bar-weight", "bar weight") in ours[name], name


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


def test_every_page_is_reached_from_the_readme() -> None:
    found, todo = set(), [ROOT / "README.md"]
    while todo:
        path = todo.pop()
        if path in found or path.suffix != ".md" or not path.is_file():
            continue
        found.add(path)
        links = (unquote(link).partition("#")[0] for link in _LINK.findall(path.read_text("utf-8")))
        todo += [(path.parent / name).resolve() for name in links if name and not re.match(r"[a-z]+:", name)]
    assert set(PAGES) <= found


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
