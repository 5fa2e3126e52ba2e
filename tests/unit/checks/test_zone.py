"""The path of the fire curtain. By hand: half a thickness either side of the batten."""

from __future__ import annotations

import pytest

from counterpoise.checks import Verdict
from counterpoise.units import METRES_PER_INCH
from tests.plain_house import a_house, a_piece, a_set, hung, judged


def _row(distance: str, thickness: str | None, zone: tuple[str, str] = ("6 in", "18 in")):  # type: ignore[no-untyped-def]
    house = a_house(a_set(distance=distance))
    house["stage"]["fire curtain"] = {"from": zone[0], "to": zone[1]}
    piece = a_piece() if thickness is None else a_piece(thickness=thickness)
    return judged(house, [piece], [hung()]).sets[0].row("fire curtain")


@pytest.mark.parametrize(("distance", "thickness", "reaches"), [
    ("24 in", "10 in", 0.0),   # 19 to 29 in
    ("24 in", "16 in", 2.0),   # 16 to 32 in: 16 to 18
    ("12 in", "4 in", 6.0),    # in the path itself: at least to its nearer edge
    ("0 in", "16 in", 2.0),    # -8 to 8 in
    ("12 in", "40 in", 12.0),  # all of the path
])  # fmt: skip
def test_a_piece_reaches_into_the_path_as_far_as_its_thickness_does(
    distance: str, thickness: str, reaches: float
) -> None:
    row = _row(distance, thickness)
    assert row.value.best == pytest.approx(reaches * METRES_PER_INCH, abs=1e-9)
    assert row.verdict is (Verdict.OVER if reaches else Verdict.WITHIN)


def test_a_piece_of_unknown_thickness_is_asked_about_only_beside_the_path() -> None:
    assert _row("24 in", None).verdict is Verdict.UNKNOWN
    assert _row("12 ft", None).verdict is Verdict.WITHIN
    assert _row("12 in", None).verdict is Verdict.OVER


def test_a_path_nobody_measured_is_unknown_and_a_house_without_a_fire_curtain_has_no_row() -> None:
    assert _row("24 in", "4 in", ("6 in", "unknown")).verdict is Verdict.UNKNOWN
    assert judged(a_house(), [a_piece()], [hung()]).sets[0].row("fire curtain") is None


def test_an_empty_batten_in_the_path_is_over_and_one_beside_it_has_no_row() -> None:
    for distance, told in (("12 in", Verdict.OVER), ("24 in", None)):
        house = a_house(a_set(distance=distance))
        house["stage"]["fire curtain"] = {"from": "6 in", "to": "18 in"}
        row = judged(house).sets[0].row("fire curtain")
        assert (row and row.verdict) is told
