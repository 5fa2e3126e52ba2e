"""How labels of sets are listed: nobody should have to know the order of the sheet to tell which sets are meant."""

import pytest

from counterpoise.checks.together import listed

SHEET = ["1", "2", "3", "4", "23", "9A", "9", "10", "12A", "13", "14"]


@pytest.mark.parametrize(
    ("labels", "says"),
    [(["1", "2", "3", "4"], "1 to 4"), (["1", "2"], "1, 2"), (["23", "9A", "9", "10", "12A"], "23, 9A, 9, 10, 12A"),
     (["3", "4", "23", "13", "14"], "3, 4, 23, 13, 14"), (["2", "3", "4", "12A", "1"], "1 to 4, 12A")],
)  # fmt: skip
def test_only_numbers_that_follow_each_other_are_told_by_their_ends(labels: list[str], says: str) -> None:
    assert listed(labels, {label: i for i, label in enumerate(SHEET)}) == says
