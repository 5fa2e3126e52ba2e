from hypothesis import given, strategies as st

from counterpoise.documents import edit_scalar
from counterpoise.documents.text import Fields, Items, Node, Scalar, parse

TEXT = """\
# A comment. Invented.
counterpoise: hang 1   # the first line
hung:
  - {set: "4", piece: 'painted ''drop''', centre: 6' SL, trims: {show: 26 ft, deck:  4 ft}}  # flow # twice
  - set: 5
    piece:   "header, é😀"
    centre: CL	# a tab before it
    picks: [12' SR, CL, "12' SL"]
about: words that go on
  over two lines
last: end"""

PATHS = ["hung[0].set", "hung[0].piece", "hung[0].centre", "hung[0].trims.show", "hung[0].trims.deck", "hung[1].set",
         "hung[1].piece", "hung[1].centre", "hung[1].picks[0]", "hung[1].picks[2]", "about", "last"]  # fmt: skip

# Any printable text on one line; the tab and the marks that YAML gives a meaning are among it.
words = st.text(
    st.one_of(st.sampled_from("#:,[]{}&*!|>%@`'\"~?-. \tab12'"), st.characters(categories=["L", "N", "P", "S"])),
    max_size=30,
).map(str.strip)


def _values(node: Node) -> dict[str, str]:
    if isinstance(node, Scalar):
        return {node.path: node.text}
    inner = node.items if isinstance(node, Items) else tuple(node.fields.values())
    return {path: text for one in inner for path, text in _values(one).items()}


@given(
    path=st.sampled_from(PATHS), new=words, start=st.sampled_from(["", "\ufeff"]), end=st.sampled_from(["\n", "\r\n"])
)
def test_an_edit_is_read_back_and_keeps_every_other_character(path: str, new: str, start: str, end: str) -> None:
    text = start + TEXT.replace("\n", end)
    before = parse(text, "f")
    changed = edit_scalar(text, path, new)
    assert _values(parse(changed, "f")) == {**_values(before), path: new}
    node: Node = before
    for step in path.replace("[", ".[").split("."):
        node = node.fields[step] if isinstance(node, Fields) else node.items[int(step[1:-1])]  # type: ignore[union-attr]
    assert isinstance(node, Scalar)
    assert changed.startswith(text[: node.start])
    assert changed.endswith(text[node.end :])


@given(path=st.sampled_from(PATHS), new=words)
def test_an_edit_made_twice_is_an_edit_made_once(path: str, new: str) -> None:
    once = edit_scalar(TEXT, path, new)
    assert edit_scalar(once, path, new) == once
