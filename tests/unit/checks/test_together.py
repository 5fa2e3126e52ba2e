"""How labels of sets are listed: nobody should have to know the order of the sheet to tell which sets are meant."""

import pytest

from counterpoise.checks.together import listed, together
from tests.plain_house import a_house, a_set, judged

SHEET = ["1", "2", "3", "4", "23", "9A", "9", "10", "12A", "13", "14"]


@pytest.mark.parametrize(
    ("labels", "says"),
    [(["1", "2", "3", "4"], "1 to 4"), (["1", "2"], "1, 2"), (["23", "9A", "9", "10", "12A"], "23, 9A, 9, 10, 12A"),
     (["3", "4", "23", "13", "14"], "3, 4, 23, 13, 14"), (["2", "3", "4", "12A", "1"], "1 to 4, 12A")],
)  # fmt: skip
def test_only_numbers_that_follow_each_other_are_told_by_their_ends(labels: list[str], says: str) -> None:
    assert listed(labels, {label: i for i, label in enumerate(SHEET)}) == says


@pytest.mark.parametrize("labels", [("9",), ("9", "10", "11")])
def test_where_a_rope_has_no_stiffness_it_is_told_how_to_measure_one(labels: tuple[str, ...]) -> None:
    """EA = F L / ΔL, Hooke's law: 100 lb on 20 ft that stretch by 2 in are 12,000 lb."""
    house = a_house(*(a_set(label, lines={"stiffness": "unknown"}) for label in labels))
    told = together(judged(house).findings, labels)
    (one,) = [one for one in told if one.finding.code == "MISSING"]
    assert one.labels == labels
    assert "load × length / stretch" in one.finding.mend
    assert "100 × 240 / 2 = 12,000 lb" in one.finding.mend
    other = judged(a_house(a_set(batten={"hardware": "unknown"})))
    assert "stretch" not in " ".join(each.mend for each in other.findings)
