"""A rule that is written as an estimate counts to its strict side, as any estimate does."""

from __future__ import annotations

import pytest

from tests.plain_house import LB, Map, a_house, a_piece, a_set, hung, judged, rigged


# 20 % is the default of how far an estimate may be out.
@pytest.mark.parametrize(("name", "written", "value"), [
    ("lock hold", "~35 lb", 28.0 * LB), ("lift line factor", "~8", 9.6), ("sag", "~1/200", 0.8 / 200),
    ("batten stress", "~20,000 psi", 16_000 * 6894.757293), ("person", "~200 lb", 240 * 0.45359237),
    ("plate every", "~20 in", 16 * 0.0254), ("fleet angle", "~1.5 deg", 1.2 * 3.14159265358979 / 180),
    ("lock hold", "35 lb", 35.0 * LB), ("lock hold", "30..40 lb", 30.0 * LB),
])  # fmt: skip
def test_an_estimate_counts_to_the_strict_side_and_what_is_known_does_not_move(
    name: str, written: str, value: float
) -> None:
    assert rigged(a_house(rules={name: written})).rules[name].value == pytest.approx(value)


def test_how_far_estimates_may_be_out_is_as_strict_for_itself() -> None:
    rules: Map = {"estimate spread": "~10 %", "lock hold": "~50 lb"}
    assert rigged(a_house(rules=rules)).rules["lock hold"].value == pytest.approx(50 * (1 - 0.11) * LB)


# 20 % more on ~25 % of impact are 30 %: 1,000 lb of shackle count as 1,000 / 1.3
def test_an_estimated_impact_counts_as_more() -> None:
    result = judged(a_house(a_set(), rules={"impact": "~25 %"}), [a_piece()], [hung()])
    row = result.sets[0].row("shackle")
    assert row is not None
    assert row.limit is not None
    assert row.limit / LB == pytest.approx(1000 / 1.3)


def test_an_estimated_trim_error_is_as_wide_as_it_may_be() -> None:
    one = rigged(a_house(rules={"trim error": "~0.25 in"})).battens[0]
    assert one.trim_doubts == pytest.approx([0.3 * 0.0254] * 5)


def test_an_estimate_of_trim_waits_where_nobody_knows_how_far_estimates_are_out() -> None:
    house = rigged(a_house(rules={"trim error": "~0.25 in", "estimate spread": "unknown"}))
    assert "the rule `estimate spread`" in [one.what for one in house.missing_of("9")]
