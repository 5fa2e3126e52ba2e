import pytest

from counterpoise.documents.text import DEEPEST, Fields, Items, Scalar, examine, parse
from counterpoise.errors import BadDocument


def _refused(text: str) -> BadDocument:
    with pytest.raises(BadDocument) as caught:
        parse(text, "house.yaml")
    return caught.value


def _word(tree: Fields, name: str) -> str:
    node = tree.fields[name]
    assert isinstance(node, Scalar)
    return node.text


# The YAML 1.1 specification turns these into a boolean, an octal number, a float, a base-60 number and a date.
@pytest.mark.parametrize("word", ["no", "off", "y", "010", "12E1", "1:30", "2026-03-14", "null", "~", "0x1F", "1_000"])
def test_words_that_yaml_would_interpret_stay_the_words_that_were_written(word: str) -> None:
    assert _word(parse(f"label: {word}\n", "f"), "label") == word


def test_a_comma_inside_braces_is_refused_where_it_cuts_a_number_in_two() -> None:
    for text in ("stops: {top: 1,500 lb}\n", "a: {height: 1,500mm, b: 2 m}\n", "stock: {bridge: 1,500}\n"):
        problem = _refused(text).problems[0]
        assert "cut in two" in problem.says
        assert "in quotes" in problem.mend


def test_a_quoted_figure_inside_braces_keeps_its_comma() -> None:
    stops = parse('stops: {top: "1,500 lb", bottom: 900 lb}\n', "f").fields["stops"]
    assert isinstance(stops, Fields)
    assert (_word(stops, "top"), _word(stops, "bottom")) == ("1,500 lb", "900 lb")


@pytest.mark.parametrize(
    "text", ["distance: 12' #3\n", "note: #3\n", "at: [6' SR, 6' SL #2\n  ]\n", "a: {b: 12 lb #x\n}\n"]
)
def test_a_value_that_loses_its_tail_to_a_comment_is_refused_with_a_mend(text: str) -> None:
    problem = _refused(text).problems[0]
    assert "lost as a comment" in problem.says
    assert "quotes" in problem.mend


def test_a_comment_with_a_space_after_its_mark_is_a_comment() -> None:
    assert _word(parse("distance: 12' # 3rd try\nnote: ''\n", "f"), "distance") == "12'"
    assert _word(parse('distance: "12\' #3"\n', "f"), "distance") == "12' #3"
    assert _word(parse("distance: 12'#3\n", "f"), "distance") == "12'#3"


def test_a_field_written_twice_is_refused_with_both_lines() -> None:
    problem = _refused("a: 1\nb:\n  c: 2\n  d: 3\n  c: 4\n").problems[0]
    assert (problem.line, problem.path) == (5, "b.c")
    assert "also line 3" in problem.says


def test_all_that_is_wrong_in_the_text_is_told_at_once() -> None:
    lines = [one.line for one in _refused("a: 12' #3\nb: 1\nb: 2\nc: {d: 1,500 lb}\n").problems]
    assert lines == [1, 3, 4]


@pytest.mark.parametrize("text", ["a: &x 1\nb: *x\n", "a: &x {b: 1}\n", "a: [*x]\n"])
def test_anchors_and_aliases_are_refused(text: str) -> None:
    assert "anchors and aliases" in str(_refused(text))


def test_what_is_nested_too_deep_is_refused() -> None:
    assert f"deeper than {DEEPEST}" in str(_refused("a: " + "[" * 60 + "]" * 60))
    assert f"deeper than {DEEPEST}" in str(_refused("a: " + "{b: " * 60 + "}" * 60))


@pytest.mark.parametrize("opened", ["[", "{b: ", "- "])
def test_a_nested_bomb_is_a_bad_document_and_not_an_end_of_the_stack(opened: str) -> None:
    assert len(_refused("a:\n  " + opened * 100_000).problems) == 1


@pytest.mark.parametrize(
    "text",
    ["", "- a\n- b\n", "just words\n", "a: 1\n---\nb: 2\n", "a: [1\n", "a:\n\t- b\n", "a: \x00\n", "? [a]\n: b\n"],
)
def test_what_is_no_map_of_fields_is_refused_in_plain_words(text: str) -> None:
    error = _refused(text)
    assert len(error.problems) == 1
    assert error.problems[0].mend


# ISO/IEC 10646: U+FEFF at the start of a text is a mark of its encoding, no part of it; U+1F600 is one character.
@pytest.mark.parametrize("text", ["\ufeffa: b c # d\n", "# é😀\r\na: b c\r\n", "x: '😀'\na: b c"])
def test_offsets_point_at_the_value_whatever_stands_before_it(text: str) -> None:
    node = parse(text, "f").fields["a"]
    assert isinstance(node, Scalar)
    assert text[node.start : node.end] == "b c"


def test_every_value_knows_the_source_of_its_own_block() -> None:
    tree, _ = examine("a: 1\nb: {source: tape, c: 2, d: {e: [3]}, f: {source: plate, g: 4}}\n", "f")
    b = tree.fields["b"]
    assert isinstance(b, Fields)
    d, f = b.fields["d"], b.fields["f"]
    assert isinstance(d, Fields)
    assert isinstance(f, Fields)
    e = d.fields["e"]
    assert isinstance(e, Items)
    blocks = [
        one.block for one in (tree.fields["a"], b.fields["c"], e.items[0], f.fields["g"]) if isinstance(one, Scalar)
    ]
    assert blocks == ["", "tape", "tape", "plate"]


def test_a_field_whose_name_begins_with_a_question_mark_is_read() -> None:
    tree = parse("a:\n  - ?0: b\n", "f")
    items = tree.fields["a"]
    assert isinstance(items, Items)
    first = items.items[0]
    assert isinstance(first, Fields)
    assert _word(first, "?0") == "b"
    assert "a ? on its own" in _refused("a:\n  - ? b\n    : c\n").problems[0].says
