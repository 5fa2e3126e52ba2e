"""All faults of a document are told together, each once and where it stands, in words of the trade."""

from __future__ import annotations

import pytest

from counterpoise.documents import read_house
from counterpoise.errors import BadDocument, Problem

HEAD = "counterpoise: house 1\nname: Plainfield Hall\nunits: us\n"


def problems(body: str) -> tuple[Problem, ...]:
    with pytest.raises(BadDocument) as caught:
        read_house(HEAD + body)
    assert all(one.mend for one in caught.value.problems)
    return caught.value.problems


def told(body: str) -> str:
    return "\n".join(str(one) for one in problems(body))


# ------------------------------------------------------------------------------------------------- the text itself


@pytest.mark.parametrize(
    "body",
    [
        "sets:\n  - set: 1\n    low trim: ?\n    high trim: 4\n",
        "sets:\n  - set: 1\n    low trim: ?   # ask the flyman\n    high trim: 4\n",
        "sets:\n  - {set: 1, low trim: ?, high trim: 4}\n",
        "sets:\n  - {set: 1, high trim: 4, low trim: ?}\n",
        "sets:\n  - {set: 1, high trim: 4, lines: {at: [?, 5' SL]}}\n",
        "sets:\n  - set: 1\n    high trim: 4\n    lines:\n      at:\n        - ?\n        - 5' SL\n",
    ],
)
def test_a_question_mark_for_a_value_is_told_and_so_is_all_else(body: str) -> None:
    """YAML 1.2.2, 8.2.2: a ? followed by a space begins a key, so the file would not be read at all."""
    mark, other = sorted(problems(body), key=lambda one: one.value != "?")
    assert (mark.value, mark.line) == ("?", next(i for i, one in enumerate((HEAD + body).split("\n"), 1) if "?" in one))
    assert "write unknown" in mark.mend
    assert "YAML" not in str(mark)
    assert "without a unit" in other.says


def test_a_question_mark_in_words_stays_where_a_value_is_one() -> None:
    found = problems("about: what, ?\nsets:\n  - set: 1\n    use: legs, ?\n    low trim: ?\n")
    assert [one.path for one in found] == ["sets[0].low trim"]
    assert read_house(HEAD + "about: what, ?\nsets:\n  - {set: 1, use: 'legs?'}\n").about == "what, ?"


def test_a_question_mark_is_told_beside_a_brace_that_is_not_closed() -> None:
    mark, brace = problems("sets:\n  - set: 1\n    low trim: ?\n  - {set: 2\n")
    assert "write unknown" in mark.mend
    assert "Close the { }" in brace.mend


def test_a_hash_behind_a_space_is_a_comment_and_one_that_says_nothing_is_told() -> None:
    """YAML 1.2.2, 6.6: a # after a space begins a comment."""
    (lost,) = problems("bricks:\n  - brick: full\n    weight: 25 #\nsets: [{set: 1}]\n")
    assert "begins a comment" in lost.says
    assert "write 25# or 25 lb" in lost.mend
    house = read_house(HEAD + "bricks:\n  - brick: full  #\n    weight: 25#  # as weighed\nsets: [{set: 1}]\n")
    assert house.bricks[0].weight.best == pytest.approx(25 * 0.45359237)  # kg in a pound, NIST SP 811


# --------------------------------------------------------------------------------------------- faults of a house

KIND = """kinds:
  usual:
    purchase: DP
    low trim: 48'
    high trim: 4'
    brick: fulll
    lines: {at: [20' SR, 10' L, CL]}
    batten: {length: 42', attachments: [{attachment: raceway, weight: 30#, centre: 25' SL}]}
bricks: [{brick: full}]
sets:
  - {set: 1, kind: usual}
  - {set: 2, kind: usual, distance: 12}
  - {set: 2, kind: usual, low trim: 2'}
"""


def test_what_stands_in_a_kind_is_told_once_there_with_its_sets_and_beside_all_else() -> None:
    found = [(one.line, one.path) for one in problems(KIND)]
    assert found == [
        (6, "kinds.usual.purchase"),
        (8, "kinds.usual.high trim (sets 1, 2)"),  # set 2 as it stands second says another low trim
        (9, "kinds.usual.brick (sets 1, 2)"),
        (10, "kinds.usual.lines.at[1]"),
        (11, "kinds.usual.batten.attachments[0].centre (sets 1, 2)"),
        (15, "sets[1].distance"),
        (16, "sets[2]"),
    ]


def test_lines_that_are_not_all_read_are_not_counted() -> None:
    found = problems("sets: [{set: 1, lines: {count: 4, at: [20' SR, 10' L, C, 20' SL]}}]\n")
    assert [one.path for one in found] == ["sets[0].lines.at[1]", "sets[0].lines.at[2]"]


def test_places_are_read_and_their_order_seen_before_the_batten_has_a_length() -> None:
    assert "20 SR" in told("sets: [{set: 1, lines: {at: [20 SR, 10' SL]}}]\n")
    assert "not in order" in told("sets: [{set: 1, lines: {at: [CL, 10' SR]}}]\n")
    assert len(read_house(HEAD + "sets: [{set: 1, lines: {at: [3 ft from SR end, CL]}}]\n").sets[0].lines.at) == 2


def test_a_set_that_is_not_read_is_no_set_that_is_missing() -> None:
    found = problems("sets: [{set: 1, low trim: 5}]\nsteel: [{bay: A, sets: ['1', '8'], loft beam: 500#}]\n")
    assert [one.says.split(".")[0] for one in found] == ["is a length without a unit", "there is no set 8"]


# ------------------------------------------------------------------------------------------- what to write instead


@pytest.mark.parametrize(
    ("field", "mend"),
    [
        ("lines: {ends: nico}", "All rows: counterpoise catalogue termination."),
        ("lines: {rope: purple}", 'counterpoise catalogue "wire rope", or "fibre rope".'),
        ('lines: {trim chain: 1/4"}', "write `chain: 1/4 in grade 30`"),
        ("lines: {shackle: 3/8 screw pin}", "write `shackle size: 3/8 in screw pin anchor`;"),
        ("lines: {trim chain: 500}", "Write 500 lb or 500 kg."),
        ('batten: {pipe: 2" black iron}', "Did you mean 2 in schedule 40? Near too: 2 in schedule 80."),
        ('distance: 3" DS', 'downstage is minus: write -3".'),
        ("distance: 3' U/S", "write 3'."),
        ("purchase: DP", "Did you mean double?"),
    ],
)
def test_what_riggers_write_is_answered_with_what_to_write(field: str, mend: str) -> None:
    (one,) = problems(f"sets:\n  - set: 1\n    {field}\n")
    assert mend in one.mend


@pytest.mark.parametrize(
    ("field", "says"),
    [
        ("bags: heavy", "the fields of the bags of a hemp set."),
        ("lines: four", "the fields of the lift lines of a set."),
        ("arbor: old", "the fields of an arbor."),
        ("batten: long", "the fields of a batten."),
        ("stops: soft", "the fields of the stops of a set."),
    ],
)
def test_a_part_is_called_by_its_own_words(field: str, says: str) -> None:
    assert says in told(f"sets:\n  - set: 1\n    {field}\n")
