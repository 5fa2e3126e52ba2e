"""Whatever stands in a file is a document, or a BadDocument whose every problem has a place and a mend."""

from __future__ import annotations

from collections.abc import Callable

from hypothesis import example, given
from hypothesis.strategies import characters, integers, lists, sampled_from, text

from counterpoise.documents import read_house, read_show
from counterpoise.documents.text import Scalar, examine
from counterpoise.errors import BadDocument
from tests.plain_house import a_house, written

HEAD = (
    "counterpoise: show 1\nname: Gala\npieces:\n  - piece: box\n    spread over: 40 ft\n    height: 3 ft\n    weight: "
)
HOUSE = written(a_house())
NASTY = [
    *"0123456789.,/-+~?@%'\" \t\n\r:#&*!|>{}[]<=`\\½′″\u00a0\u0000\u0085\u2028\ufeff\ud800\x9f",
    *("12 lb", "kg", "unknown", "none", "null", "<<: ", ": ", " #3", "- ", "---\n", "...\n", "!!str ", "&a ", "*a"),
    "\n      ",
]  # fmt: skip
nasty = lists(sampled_from(NASTY), max_size=12).map("".join)
anything = text(characters(codec=None), max_size=80)


def read_or_told(read: Callable[[], object]) -> None:
    """A document, or a refusal with a place and a mend; whatever else is raised goes through."""
    try:
        read()
    except BadDocument as bad:
        found = bad.problems
    else:
        return
    assert found
    assert all(one.says and one.mend and one.line >= 1 and one.column >= 1 for one in found)


@given(said=nasty)
@example(said="\ud800")
@example(said="\x9f\x9fé")
@example(said="!12 lb")
@example(said="12\n      lb")
def test_a_value_made_of_traps_is_read_or_told(said: str) -> None:
    read_or_told(lambda: read_show(f"{HEAD}{said}\n"))
    read_or_told(lambda: read_show(f"{HEAD.replace('weight: ', '{weight: ')}{said}}}\n"))


@given(said=anything)
def test_any_text_at_all_is_a_document_or_told(said: str) -> None:
    read_or_told(lambda: read_show(said))
    read_or_told(lambda: read_house(said))
    read_or_told(lambda: read_show(HEAD + said))


@given(said=nasty, at=integers(0, len(HOUSE)), over=integers(0, 30))
def test_a_house_with_a_piece_written_over_is_read_or_told(said: str, at: int, over: int) -> None:
    read_or_told(lambda: read_house(HOUSE[:at] + said + HOUSE[at + over :]))


@given(said=text(characters(min_codepoint=32, max_codepoint=126), min_size=1, max_size=30))
def test_a_plain_word_that_is_read_is_the_word_that_was_written(said: str) -> None:
    try:
        tree, problems = examine(f"label: {said}\n", "f")
    except BadDocument:
        return
    node = tree.fields.get("label")
    if not problems and isinstance(node, Scalar) and said.strip()[:1] not in ("'", '"', "|", ">"):
        words = "" if said.lstrip()[:1] == "#" else said.strip().split(" #")[0].strip()
        assert node.text == words
