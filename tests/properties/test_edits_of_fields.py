"""Laws of adding, taking out and renaming: nothing else is read otherwise, and no comment is lost."""

import re
from collections import Counter
from typing import Any

import yaml
from hypothesis import given, strategies as st

from counterpoise.documents import Edit, add, apply_edits, by_name, remove, rename, to_json
from counterpoise.documents.text import Fields, Items, Node, Scalar, parse
from counterpoise.documents.tree import Plain, found, plain

TEXT = """\
# A comment. Invented.
counterpoise: hang 1   # the first line
sources: {}
hung:                                     # where it hangs
  - {set: "4", piece: 'painted ''drop''', centre: 6' SL, trims: {show: 26 ft}}  # flow # twice
  # a line between
  - set: 5          # why 5
    piece:   "header, é😀"
    picks: [12' SR, CL, "12' SL"]
    trims:
      # above
      show: 24 ft   # seen
      deck: 4 ft
  - # behind the dash
    piece: legs
    centre:
stated bricks: {"4": 12,   # counted
  "5": 9 # twice
  , "12": 7}
list:
- a   # one
- b
- [c,
   d   # dee
  ]
about: words that go on
  over two lines
words: |
  kept
  as they are
last: {only: one}"""


def _nodes(node: Node) -> list[Node]:
    if isinstance(node, Scalar):
        return [node]
    inner = node.items if isinstance(node, Items) else tuple(node.fields.values())
    return [node, *(each for one in inner for each in _nodes(one))]


PATHS = [one.path for one in _nodes(parse(TEXT, "f")) if one.path]
MAPS = [one.path for one in _nodes(parse(TEXT, "f")) if isinstance(one, Fields)]
LISTS = [one.path for one in _nodes(parse(TEXT, "f")) if isinstance(one, Items)]
words = st.text(
    st.one_of(st.sampled_from("#:,[]{}&*!|>%@`'\"~?-. ab12'"), st.characters(categories=["L", "N", "P", "S"])),
    min_size=1, max_size=20,
).map(str.strip).filter(lambda said: bool(said) and not re.match(r"[~≈]?\s*[.\d]", said) and said != "<<")  # fmt: skip
# What a program writes: words, and maps and lists of them.
values = st.recursive(
    words, lambda one: st.lists(one, max_size=3) | st.dictionaries(words, one, max_size=3), max_leaves=5
)
breaks = st.sampled_from(["\n", "\r\n"])


def _comments(text: str) -> Counter[str]:
    """As PyYAML's own scanner leaves them: what stands in no token and begins with a #."""
    bare = list(text)
    for token in yaml.scan(text, Loader=yaml.SafeLoader):
        if isinstance(token, yaml.ScalarToken):
            bare[token.start_mark.index : token.end_mark.index] = "." * (token.end_mark.index - token.start_mark.index)
    return Counter(found.strip() for found in re.findall(r"#.*", "".join(bare)))


def _read(text: str) -> Any:
    """A reader that is not ours, every value the words that were written."""
    return yaml.load(text, Loader=yaml.BaseLoader)


def _steps(path: str) -> list[str | int]:
    return [int(step[1:-1]) if step[0] == "[" else step for step in path.replace("[", ".[").split(".")]


def _put(tree: Any, path: str, new: Any) -> Any:
    *way, last = _steps(path)
    for step in way:
        tree = tree[step]
    tree[last] = new
    return tree


@given(path=st.sampled_from(PATHS), end=breaks)
def test_what_is_taken_out_is_gone_with_all_else_and_every_comment_still_there(path: str, end: str) -> None:
    text = TEXT.replace("\n", end)
    wanted = _read(text)
    *way, last = _steps(path)
    holder = wanted
    for step in way:
        holder = holder[step]
    del holder[last]
    changed = remove(text, path)
    assert _read(changed) == wanted
    assert _comments(changed) == _comments(text)


@given(path=st.sampled_from(MAPS), name=words, new=values, end=breaks)
def test_an_added_field_is_read_back_with_all_else_and_every_comment(
    path: str, name: str, new: Plain, end: str
) -> None:
    text = TEXT.replace("\n", end)
    holder = found(parse(text, "f"), path) if path else parse(text, "f")
    assert isinstance(holder, Fields)
    if name in holder.fields or set(name) & set(".[]"):
        return
    changed = add(text, f"{path}.{name}".lstrip("."), new)
    again = found(parse(changed, "f"), path) if path else parse(changed, "f")
    assert isinstance(again, Fields)
    assert plain(again) == {**plain(holder), name: new}  # type: ignore[dict-item]
    assert _comments(changed) == _comments(text)


@given(path=st.sampled_from(LISTS), new=values, end=breaks)
def test_an_added_item_stands_last_in_its_list(path: str, new: Plain, end: str) -> None:
    text = TEXT.replace("\n", end)
    changed = add(text, f"{path}[+]", new)
    holder = found(parse(text, "f"), path)
    assert isinstance(holder, Items)
    wanted = _read(text)
    _put(wanted, path, [*(plain(one) for one in holder.items), new])
    assert plain(parse(changed, "f")) == plain(parse(yaml.safe_dump(wanted, allow_unicode=True), "f"))
    assert _comments(changed) == _comments(text)


@given(path=st.sampled_from([*MAPS, *LISTS]), new=values)
def test_what_was_added_and_taken_out_again_leaves_the_document_it_was(path: str, new: Plain) -> None:
    node = found(parse(TEXT, "f"), path) if path else parse(TEXT, "f")
    inner = f"{path}[{len(node.items)}]" if isinstance(node, Items) else f"{path}.new name".lstrip(".")
    there = remove(add(TEXT, inner, new), inner)
    assert _read(there) == _read(TEXT)
    assert _comments(there) == _comments(TEXT)


@given(path=st.sampled_from([path for path in PATHS if not path.endswith("]")]), new=words)
def test_a_renamed_field_keeps_its_place_its_value_and_all_else(path: str, new: str) -> None:
    before = parse(TEXT, "f")
    holder = found(before, path.rpartition(".")[0]) if "." in path else before
    if not isinstance(holder, Fields) or new in holder.fields:
        return
    changed = rename(TEXT, path, new)
    old = path.rpartition(".")[2]
    again = found(parse(changed, "f"), path.rpartition(".")[0]) if "." in path else parse(changed, "f")
    assert isinstance(again, Fields)
    assert [(name, plain(one)) for name, one in again.fields.items()] == [
        (new if name == old else name, plain(one)) for name, one in holder.fields.items()]  # fmt: skip
    assert _comments(changed) == _comments(TEXT)


SETS = "counterpoise: house 1\nsets:\n" + "".join(
    f"  - {{set: \"{n}\", distance: {n} ft, note: here}}   # {n}\n" for n in range(1, 6)
)  # fmt: skip


@given(
    mine=st.sampled_from("123"), theirs=st.sampled_from("45"), ours=words, others=words, gone=st.booleans(),
    as_json=st.booleans(),
)  # fmt: skip
def test_changes_of_two_people_to_two_sets_land_in_either_order(
    mine: str, theirs: str, ours: str, others: str, gone: bool, as_json: bool
) -> None:
    text = to_json(SETS) if as_json else SETS
    first = Edit(path=by_name(text, f"sets[{int(mine) - 1}].note"), old="here", new=None if gone else ours)
    second = Edit(path=f"sets[set={theirs}].batten.note", new=others)
    one, other = apply_edits(text, [first, second]), apply_edits(text, [second, first])
    assert plain(parse(one, "f")) == plain(parse(other, "f"))
    assert found(parse(one, "f"), f"sets[set={theirs}].batten.note") is not None
    assert as_json or _comments(one) == _comments(text)
