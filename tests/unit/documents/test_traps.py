"""The traps of the file's own notation, end to end: each is read as it was meant, or refused with what to write.

What YAML would make of a plain word stands in YAML 1.1 (yaml.org, type repository: bool, int, float, null, timestamp,
merge) and in YAML 1.2.2: chapter 5 (characters), 6.8 (directives), 6.9 (tags, anchors), 7 and 8 (scalars).
"""

from __future__ import annotations

import pytest

from counterpoise.documents import read_house, read_show
from counterpoise.documents.known import Known
from counterpoise.errors import BadDocument, Problem
from tests.plain_house import LB, a_house, written

KG_PER_POUND = 0.45359237
SHOW = "counterpoise: show 1\nname: Gala\npieces:\n"
LINES = SHOW + "  - piece: box\n    spread over: 40 ft\n    height: 3 ft\n    weight: {}\n"
BRACES = SHOW + "  - {{piece: box, spread over: 40 ft, height: 3 ft, weight: {}}}\n"
HOUSE = written(a_house())


def weight(written_as: str, form: str = LINES) -> Known:
    return read_show(form.format(written_as)).pieces[0].weight


def problems(text: str) -> tuple[Problem, ...]:
    with pytest.raises(BadDocument) as caught:
        read_show(text)
    assert all(one.mend for one in caught.value.problems)
    return caught.value.problems


def refused(written_as: str, form: str = LINES) -> str:
    return "\n".join(str(one) for one in problems(form.format(written_as)))


def in_house(plain: str, trap: str) -> str:
    """What is said of the plain house with the first `plain` in it written as `trap`."""
    assert plain in HOUSE
    with pytest.raises(BadDocument) as caught:
        read_house(HOUSE.replace(plain, trap, 1))
    assert all(one.mend for one in caught.value.problems)
    return str(caught.value)


# YAML 1.1 reads these as 120.0, 8, 16, 1000, 45000 (base 60), a date, booleans, null and infinity.
@pytest.mark.parametrize(
    ("trap", "mend"),
    [("12E1", "Write all its digits"), ("010", "Leave out the leading zero"), ("0x10", "digits are not plain"),
     ("0o10", "digits are not plain"), ("1_000", "Write 1,000 or 1000"), ("12:30", "Write it like"),
     ("2026-01-01", "is a day"), ("yes", "Write it like"), ("no", "Write it like"), ("on", "Write it like"),
     ("off", "Write it like"), ("y", "Write it like"), ("true", "Write it like"), ("null", "write unknown"),
     ("Null", "write unknown"), ("~", "write unknown"), ("", "write unknown"), (".inf", "Write it like"),
     (".nan", "Write it like"), ("1e3", "Write all its digits"), ("<<", "Write it like"), ("=", "Write it like")],
)  # fmt: skip
@pytest.mark.parametrize("form", [LINES, BRACES])
def test_what_yaml_takes_for_a_number_a_day_or_a_yes_is_no_weight(trap: str, mend: str, form: str) -> None:
    assert mend in refused(trap, form)


@pytest.mark.parametrize("trap", ["12E1", "010", "12:30", "2026-01-01", "no", "~", "null", "?x", "1_000", "tbd"])
def test_the_same_traps_are_refused_in_a_house(trap: str) -> None:
    said = in_house("low trim: 4 ft", f"low trim: {trap}")
    assert "low trim" in said
    assert trap in said


@pytest.mark.parametrize("form", [LINES, BRACES])
def test_a_question_mark_alone_is_told_to_be_unknown(form: str) -> None:
    assert "If it is not known, write unknown" in refused("?", form)
    assert "If it is not known, write unknown" in in_house("low trim: 4 ft", "low trim: ?")


def test_a_tilde_is_an_estimate_where_a_figure_follows_and_nothing_alone() -> None:
    assert weight("~180 lb").form.value == "estimate"
    assert weight("~ 180 lb", BRACES).form.value == "estimate"
    assert "no figure after it" in refused("~")


def test_a_comma_sets_off_thousands_on_a_line_and_ends_a_value_inside_braces() -> None:
    assert weight("1,000 lb").best == pytest.approx(1000 * KG_PER_POUND)
    assert weight('"1,000 lb"', BRACES).best == pytest.approx(1000 * KG_PER_POUND)
    for trap in ("1,000 lb", "1,00 lb", "~1,000 lb", "5 lb, 4 oz"):
        assert "in quotes" in refused(trap, BRACES)
    assert "groups of three" in refused("1,00 lb")
    assert "groups of three" in in_house("7,000 lb", "7,00 lb")


def test_a_foot_mark_before_a_hash_is_kept_or_told() -> None:
    for plain in ("distance: 3 ft", "low trim: 4 ft"):
        name = plain.split(":")[0]
        assert "#3, would be lost as a comment" in in_house(plain, f"{name}: 12' #3")
    assert "put a value that holds : or # in double quotes" in refused("12 lb #3", BRACES)
    assert weight("12#").best == weight("12#", BRACES).best == pytest.approx(12 * KG_PER_POUND)
    assert weight("12 lb # as weighed").best == pytest.approx(12 * KG_PER_POUND)


@pytest.mark.parametrize("mark", ["12''", "12½''", "½ ''", "6''''"])
def test_two_foot_marks_in_single_quotes_are_not_read_as_one(mark: str) -> None:
    """YAML 1.2.2, 7.3.2: inside single quotes '' is one '."""
    assert "double quotes" in in_house("usable height: 66 in", f"usable height: '{mark}'")


def test_inches_are_read_plain_and_in_double_quotes() -> None:
    for said in ("66''", '66"', "\"66''\"", '"66\\""', "66″", "5'-6\"", '"5\'-6\\""'):
        one = read_house(HOUSE.replace("usable height: 66 in", f"usable height: {said}", 1)).sets[0]
        assert one.arbor.usable_height.best == pytest.approx(66 * 0.0254)
    assert "Close the quotes" in in_house("usable height: 66 in", 'usable height: "5\'-6""')
    assert "nothing after a closing quote" in in_house("usable height: 66 in", 'usable height: "5" 6 in')


@pytest.mark.parametrize(
    "over", ["|\n      12 lb\n      13 lb", ">\n      12\n      lb", "12\n      lb", '"12\n      lb"', "'12\n      lb'",
             "1\n      1/2 lb", "~12\n      lb"]
)  # fmt: skip
def test_a_figure_over_two_lines_is_refused(over: str) -> None:
    assert "Write it on one line" in refused(over)


def test_a_block_of_one_line_is_that_line() -> None:
    assert weight("|\n      12 lb").best == weight(">-\n      12 lb").best == pytest.approx(12 * KG_PER_POUND)
    assert "Write it on one line" in refused("|\n      12 lb", BRACES)
    assert "Write it on one line" in refused("> 12 lb")


def test_words_may_run_over_lines() -> None:
    show = read_show(SHOW.replace("pieces:", "about: |\n  8 lines of words\n  8 more of them\npieces:") + "  []\n")
    assert show.about == "8 lines of words\n8 more of them"
    long = (
        "40 ft of pipe was borrowed from the house next door and\n  goes back on Sunday; ask the head flyman about it."
    )
    assert read_show(SHOW.replace("pieces:", f"about: {long}\npieces:") + "  []\n").about.endswith("about it.")


@pytest.mark.parametrize("said", ["12 lb\t", "\t12 lb", "12\tlb", "12 lb", "12\u2009lb", '"12 lb"', "'12 lb'"])
def test_tabs_thin_spaces_and_quotes_around_a_value_change_nothing(said: str) -> None:
    assert weight(said).best == weight(said, BRACES).best == pytest.approx(12 * KG_PER_POUND)


def test_a_tab_for_indentation_is_refused() -> None:
    assert "Indent with spaces" in str(problems(SHOW + "\t- piece: box\n")[0])


@pytest.mark.parametrize("change", ["\ufeff{}", "{}...\n", "---\n{}", "%YAML 1.2\n---\n{}", "# é😀\n{}", "\n\n{}"])
def test_a_byte_order_mark_and_the_marks_of_one_document_are_no_trap(change: str) -> None:
    assert read_show(change.format(LINES.format("12 lb"))).name == "Gala"


def test_line_ends_of_other_systems_are_no_trap() -> None:
    text = LINES.format("12 lb")
    for end in ("\r\n", "\r"):
        assert read_show(text.replace("\n", end)) == read_show(text)


def test_a_colon_without_its_space_is_told() -> None:
    assert "Put a space after each colon" in str(problems("counterpoise:show 1\nname:Gala\n")[0])
    missing = problems(LINES.format("12 lb").replace("height: ", "height:"))[0]
    assert "is its colon missing, or the space after it" in str(missing)
    said = "\n".join(map(str, problems(BRACES.format("12 lb").replace("weight: ", "weight:"))))
    assert "no space after the colon. Write `name: value`." in said
    assert "no space after the colon" in in_house("bridge: '200'", "{bridge:200}")


def test_a_colon_inside_a_value_is_told() -> None:
    assert "in double quotes" in refused("12 lb: as weighed")
    assert "in double quotes" in refused("12: 30", BRACES)


def test_a_field_twice_is_refused_and_not_the_last_taken() -> None:
    assert "stands twice (also line 7)" in refused("12 lb\n    weight: 13 lb")
    assert "stands twice" in refused("12 lb, weight: 13 lb", BRACES)
    assert "stands twice" in in_house("low trim: 4 ft", "low trim: 4 ft\n  low trim: 5 ft")


@pytest.mark.parametrize("said", ["&a 12 lb", "*a", "&12 lb", "*"])
def test_an_anchor_or_an_alias_is_refused(said: str) -> None:
    assert "&" in refused(said)
    assert "&" in refused(said, BRACES)


def test_a_merge_key_is_refused_where_any_name_is_taken_too() -> None:
    assert "merge keys (<<) are not read" in refused("12 lb\n    <<: {height: 4 ft}")
    assert "merge keys (<<) are not read" in in_house("bridge: '200'", "<<: {bridge: 200}")


@pytest.mark.parametrize("tag", ["!!str", "!!int", "!!float", "!x", "!", "!!python/object/apply:os.system", "!12"])
def test_a_tag_is_refused_and_never_obeyed(tag: str) -> None:
    for form in (LINES, BRACES):
        assert "Take the ! and its word out" in refused(f"{tag} 12 lb", form)
    assert "Take the ! and its word out" in str(problems(f"{tag} {{a: b}}\n")[0])
    assert "Take the ! and its word out" in str(problems(SHOW + f"  - {tag} {{piece: box}}\n")[0])


def test_a_second_document_is_refused() -> None:
    text = LINES.format("12 lb")
    assert "more than one document" in str(problems(text + "---\n" + text)[0])
    assert "more than one document" in str(problems(text + "---\n")[0])
    assert "Keep one document" in str(problems(text + "...\nmore: here\n")[0])


@pytest.mark.parametrize(
    ("said", "mend"), [('"12 lb', "Close the quotes"), ("'12 lb", "Close the quotes"), ("@tape", "double quotes"),
                       ("`12 lb`", "double quotes"), ("%12", "double quotes"), ("- 12 lb", "double quotes"),
                       ('"\\q12 lb"', "inch mark"), ('"\\ud800 lb"', "Write the character itself"),
                       ("[12 lb]", "on one line"), ("{12 lb}", "on one line")]
)  # fmt: skip
def test_what_no_value_begins_with_is_told(said: str, mend: str) -> None:
    assert mend in refused(said)


# YAML 1.2.2, 5.1: the characters a text may hold. The parser's own count is in bytes: the place is found anew.
@pytest.mark.parametrize("one", ["\x00", "\x07", "\x1b", "\x7f", "\x9f", "\ud800", "\ufffe", "\uffff"])
def test_a_character_that_no_text_holds_is_told_with_its_place(one: str) -> None:
    (problem,) = problems(f"# é😀\nname: é{one}\n")
    assert (problem.line, problem.column) == (2, 8)
    assert f"U+{ord(one):04X}" in problem.says
    assert problem.mend


@pytest.mark.parametrize(
    ("said", "named"), [("12 \u043a\u0433", "cyrillic small letter ka"), ("20 \u212ag", "kelvin sign"),
                        ("\u0661\u0662 lb", "arabic-indic digit one"), ('"12\\0 lb"', "U+0000"),
                        ("12\u200b lb", "zero width space"), ("12 lb\ufeff", "U+FEFF"), ("12 ㎏", "square kg")]
)  # fmt: skip
def test_a_character_that_only_looks_right_is_named_in_a_document(said: str, named: str) -> None:
    assert named in refused(said)


@pytest.mark.parametrize("sign", ["-", "\u2212", "+"])
def test_a_sign_in_front_of_a_weight_is_refused(sign: str) -> None:
    assert "Write it without a sign" in refused(f"{sign}12 lb")
    assert "both ends" in refused("±12 lb")


@pytest.mark.parametrize(
    "text", ["[" * 10**5, "{" * 10**5, "- " * 10**5, "? " * 10**5, "a: " * 10**4, "&a " * 999, "!" * 9**5, "'" * 9**5,
             "#" * 10**5, "\n" * 10**5, "x: " + "'" * 99_999, "k: |\n" + " x\n" * 10**4, "a:\n" + " " * 9999 + "b: c"]
)  # fmt: skip
def test_what_is_long_is_refused_all_the_same(text: str) -> None:
    assert problems(text)


def test_a_value_that_is_very_long_is_refused() -> None:
    assert "longer than 40 characters" in refused("9" * 100_000)
    assert "longer than 40 characters" in refused("12 lb " + "x" * 100_000)


def test_a_batten_of_no_length_to_speak_of_is_a_bad_document() -> None:
    """Found by fuzzing: its places were asked for before its length was judged."""
    assert "42 ft" in HOUSE
    for said in ("0.7 mm", "0.001 mm", "1/64 in"):
        assert "off the batten" in in_house("length: 42 ft", f"length: {said}")


def test_the_plain_house_itself_is_read() -> None:
    """Else every refusal above could be for another reason."""
    one = read_house(HOUSE).sets[0]
    assert one.lines.breaking_strength.best == pytest.approx(7000 * LB)
    assert weight("12 lb").best == weight("12 lb", BRACES).best == pytest.approx(12 * KG_PER_POUND)
