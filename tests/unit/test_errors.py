import copy
import math
import pickle

import pytest

from counterpoise.errors import (
    BadDocument,
    CounterpoiseError,
    Fault,
    Misuse,
    OutOfRange,
    Problem,
    Refused,
    Unreadable,
    within,
)

MEND = "Give the pull as a positive force."


def problem(**changed: object) -> Problem:
    said: dict[str, object] = {
        "file": "house.yaml",
        "line": 14,
        "column": 9,
        "path": "sets 14 › batten › length",
        "value": "12x ft",
        "says": "cannot be read as a length",
        "mend": "Write it like 42 ft 6 in.",
    }
    return Problem(**(said | changed))  # type: ignore[arg-type]


def test_a_number_out_of_range_is_named_with_its_value_its_limits_and_the_mend() -> None:
    with pytest.raises(OutOfRange) as caught:
        within("tension", -3.0, low=0.0, high=100.0, unit="N", mend=MEND)
    assert str(caught.value) == f"tension is -3 N; it must be from 0 to 100 N. {MEND}"
    assert (caught.value.name, caught.value.value, caught.value.low, caught.value.high) == ("tension", -3.0, 0.0, 100.0)


@pytest.mark.parametrize(
    ("low", "high", "says"),
    [
        (0.0, math.inf, "it must be 0 N or more."),
        (-math.inf, 5.0, "it must be 5 N or less."),
        (-math.inf, math.inf, "it must be a number."),
    ],
)
def test_an_open_end_is_not_called_infinity(low: float, high: float, says: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        within("tension", math.nan, low=low, high=high, unit="N", mend=MEND)
    assert says in str(caught.value)
    assert "inf" not in str(caught.value)


def test_both_ends_of_a_range_are_within_it() -> None:
    within("tension", 0.0, low=0.0, high=1.0, mend=MEND)
    within("tension", 1.0, low=0.0, high=1.0, mend=MEND)


def test_a_number_just_past_its_limit_is_not_printed_as_the_limit() -> None:
    with pytest.raises(OutOfRange, match=r"share is 1\.000000001; it must be from 0 to 1\."):
        within("share", 1.000000001, low=0.0, high=1.0, mend=MEND)


def test_an_unreadable_text_is_quoted_with_the_reason_and_the_mend() -> None:
    error = Unreadable("12x ft", "cannot be read as a length", "Write it like 42 ft 6 in.")
    assert str(error) == '"12x ft" cannot be read as a length. Write it like 42 ft 6 in.'


def test_a_problem_says_where_it_stands_what_is_wrong_and_how_to_mend_it() -> None:
    assert str(problem()) == (
        'house.yaml:14:9  sets 14 › batten › length: "12x ft" cannot be read as a length. Write it like 42 ft 6 in.'
    )


def test_a_problem_without_place_or_value_leaves_them_out() -> None:
    assert str(problem(line=0, column=0, path="", value=None, says="This file is empty.", mend="")) == (
        "house.yaml  This file is empty."
    )


def test_a_bad_document_tells_all_its_problems_one_a_line() -> None:
    error = BadDocument([problem(), problem(line=20)])
    assert [line.split("  ")[0] for line in str(error).splitlines()] == ["house.yaml:14:9", "house.yaml:20:9"]
    assert error.problems == (problem(), problem(line=20))


def test_a_refusal_and_a_misuse_end_in_their_mend() -> None:
    assert str(Refused("Set 14 is locked out", "Release it first.")) == "Set 14 is locked out. Release it first."
    assert str(Misuse("There is no task hagn", "Did you mean hang?")) == "There is no task hagn. Did you mean hang?"


@pytest.mark.parametrize(
    "error",
    [
        OutOfRange("tension", -3.0, low=0.0, high=1.0, unit="N", mend=MEND),
        Unreadable("x", "is no length", "Write 1 ft."),
        BadDocument([problem()]),
        Refused("No", "Ask."),
        Misuse("No"),
        Fault("No"),
    ],
)
def test_every_error_has_the_one_root_and_outlives_a_copy_and_a_trip_between_processes(
    error: CounterpoiseError,
) -> None:
    assert isinstance(error, CounterpoiseError)
    for twin in (copy.copy(error), pickle.loads(pickle.dumps(error))):
        assert type(twin) is type(error)
        assert str(twin) == str(error)
        assert vars(twin) == vars(error)
