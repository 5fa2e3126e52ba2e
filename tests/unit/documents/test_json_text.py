"""JSON is read as RFC 8259 has it, with the words and places of a document."""

import json

import pytest

from counterpoise.documents import Edit, add, apply_edits, edit_scalar, from_json, read_house, remove, to_json
from counterpoise.documents.text import DEEPEST, Scalar, examine, parse
from counterpoise.documents.tree import found, plain
from counterpoise.errors import BadDocument
from tests.plain_house import a_house, a_set, written


def refused(text: str) -> BadDocument:
    with pytest.raises(BadDocument) as caught:
        parse(text, "house.json")
    return caught.value


# RFC 8259, section 7: any character may be escaped; one outside the basic plane as a pair of surrogates.
@pytest.mark.parametrize(
    ("written_as", "words"),
    [(r"\ud83d\ude00", "😀"), (r"a\/b", "a/b"), (r"12'-6\"", "12'-6\""), (r"6''", "6''"), (r"1,500 lb", "1,500 lb"),
     (r"a # b", "a # b"), (r"12' #3", "12' #3"), ("a\u2028b", "a\u2028b"), (r"\u00e9", "é"), (r"a\tb", "a\tb"),
     ("null", "null"), ("*x", "*x"), ("a: b", "a: b")],
)  # fmt: skip
def test_a_string_is_read_as_the_standard_has_it(written_as: str, words: str) -> None:
    assert plain(parse(f'{{"a": "{written_as}"}}', "f")) == {"a": words}


def test_a_number_stays_the_characters_that_were_written() -> None:
    text = '{"a": 12, "b": 0.10, "c": [1e400, -0], "d": 123456789012345678901234567890}'
    read = {"a": "12", "b": "0.10", "c": ["1e400", "-0"], "d": "123456789012345678901234567890"}
    assert plain(parse(text, "f")) == read


def test_a_count_may_be_a_json_number_and_a_length_may_not() -> None:
    tree = a_house(a_set(pipe_weight=2))
    assert read_house(json.dumps(tree)).sets[0].pipe_weight.best == 2
    with pytest.raises(BadDocument, match="length without a unit"):
        read_house(json.dumps(a_house(a_set(low_trim=4))))


@pytest.mark.parametrize("word", ["null", "true", "false"])
def test_a_word_that_is_none_of_a_document_is_refused_with_a_mend(word: str) -> None:
    problem = refused(f'{{"a": 1,\n "b": {word}}}').problems[0]
    assert (problem.line, problem.column, problem.path, problem.value) == (2, 7, "b", word)
    assert problem.mend


def test_all_such_words_and_double_fields_are_told_at_once() -> None:
    _, problems = examine('{"a": null,\n"b": {"c": 1,\n"c": 2}, "d": [true]}', "f")
    assert [(one.line, one.path) for one in problems] == [(1, "a"), (3, "b.c"), (3, "d[0]")]
    assert "also line 2" in problems[1].says


@pytest.mark.parametrize(
    "text",
    ['{"a": 1', '{"a" 1}', '{"a": }', '{"a": 1,}', '{"a": 1 "b": 2}', '{"a": [1,]}', '{"a": "x}', '{"a": 012}',
     '{"a": NaN}', '{"a": Infinity}', '{"a": .5}', '{"a": "x\ny"}', '{"a": 1} x', '{"a": 1}{"b": 2}',
     '{"a": "\\x"}', '{"a": "\\ud800"}', "{\"a\": 'x'}", '{"a": +1}', '{"a": 1, b: 2}'],
)  # fmt: skip
def test_what_is_not_json_is_refused_in_plain_words_with_its_place(text: str) -> None:
    error = refused(text)
    assert len(error.problems) == 1
    assert error.problems[0].mend
    assert error.problems[0].line == 1 or "\n" in text


def test_a_nested_bomb_in_json_is_a_bad_document() -> None:
    assert f"deeper than {DEEPEST}" in str(refused('{"a": ' + "[" * 100_000))
    assert f"deeper than {DEEPEST}" in str(refused('{"a": ' * 100_000))


def test_a_problem_of_a_figure_in_json_stands_at_its_own_line() -> None:
    text = json.dumps(a_house(a_set(distance="three")), indent=1)
    with pytest.raises(BadDocument) as caught:
        read_house(text, "house.json")
    problem = caught.value.problems[0]
    assert (problem.path, text.splitlines()[problem.line - 1].strip()) == ("sets[0].distance", '"distance": "three",')


def test_offsets_of_json_point_at_the_value_whatever_stands_before_it() -> None:
    text = '\ufeff{"é😀": "x",\r\n\t"a": "b c"}'
    node = found(parse(text, "f"), "a")
    assert isinstance(node, Scalar)
    assert text[node.start : node.end] == '"b c"'
    assert (node.line, node.column) == (2, 7)


def test_a_yaml_document_in_braces_is_still_yaml() -> None:
    assert plain(parse("{a: {b: 1, c: null}}", "f")) == {"a": {"b": "1", "c": "null"}}


def test_an_edit_of_json_leaves_json() -> None:
    text = to_json(written(a_house(a_set(), a_set("10"))))
    changed = edit_scalar(text, "sets[0].distance", "4' 6\"")
    changed = add(changed, "sets[1].batten.note", "a, b: c")
    changed = add(changed, "rules.lock hold", "50 lb")
    changed = remove(changed, "sets[0].stops")
    changed = apply_edits(changed, [Edit(path="sets[set=10].brick", old="full", new=None)])
    tree = json.loads(changed)
    assert tree["sets"][0]["distance"] == "4' 6\""
    assert tree["sets"][1]["batten"]["note"] == "a, b: c"
    assert tree["rules"] == {"lock hold": "50 lb"}
    assert "stops" not in tree["sets"][0]
    assert "brick" not in tree["sets"][1]


def test_yaml_made_of_json_quotes_what_another_reader_would_bend() -> None:
    told = from_json('{"a": "no", "b": "010", "c": "2026-03-14", "d": "1,500 lb", "e": {"f": "1,500 lb"}, "g": "12"}')
    assert told == 'a: "no"\nb: "010"\nc: "2026-03-14"\nd: 1,500 lb\ne: {f: \'1,500 lb\'}\ng: 12\n'
