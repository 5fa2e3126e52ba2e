"""What an inspection found on a part: the part carries less, and where nobody wrote how much, it is never within."""

from __future__ import annotations

from typing import Any

import pytest

from counterpoise.checks import Check, HouseResult, Verdict
from counterpoise.documents.notes import LINKS
from tests.plain_house import LB, Map, a_house, a_piece, a_set, hung, judged

FOUND = {"found": "one broken wire", "who": "an invented inspector", "when": "2026-03-02"}
NOTHING_TO_CHECK = {"sway and shock", "roll", "attachments", "structure"}


def _judged(*conditions: Map, **changes: Any) -> HouseResult:
    one = a_set(condition=[FOUND | condition for condition in conditions], **changes)
    return judged(a_house(one), [a_piece()], [hung()])


def _row(result: HouseResult, link: str, line: int | None = None) -> Check:
    found = result.sets[0].row(link, line)
    assert found is not None
    return found


def test_a_part_as_found_carries_the_least_of_its_rating_and_of_what_was_found() -> None:
    for carries, limit in (("300 lb", 300), ("900 lb", 500), ("200..260 lb", 200), ("~250 lb", 200)):
        row = _row(_judged({"part": "loft block", "line": "2", "carries": carries}), "loft block", 2)
        assert row.limit is not None
        assert row.limit / LB == pytest.approx(limit)


def test_the_other_lines_are_untouched() -> None:
    result = _judged({"part": "loft block", "line": "2", "carries": "10 lb"})
    assert _row(result, "loft block", 2).verdict is Verdict.OVER
    assert {_row(result, "loft block", line).verdict for line in (1, 3, 4, 5)} == {Verdict.WITHIN}
    assert not any("found on" in each.name for each in _row(result, "loft block", 3).inputs)


@pytest.mark.parametrize("line", [{}, {"line": "unknown"}])
def test_what_was_found_on_a_line_nobody_named_holds_for_each(line: Map) -> None:
    result = _judged({"part": "shackle", "carries": "1 lb"} | line)
    assert {_row(result, "shackle", number).verdict for number in range(1, 6)} == {Verdict.OVER}


@pytest.mark.parametrize("part", LINKS)
@pytest.mark.parametrize("carries", [{}, {"carries": "unknown"}])
def test_what_a_part_may_carry_as_found_and_nobody_wrote_is_never_within(part: str, carries: Map) -> None:
    result = _judged({"part": part} | carries)
    assert result.verdict is Verdict.UNKNOWN
    assert any(row.link == part and row.verdict is Verdict.UNKNOWN for row in result.sets[0].rows)
    assert "one broken wire" in " ".join(f"{one.says} {one.mend}" for one in result.findings)


@pytest.mark.parametrize("part", ["top stop", "tension block", "arbor", "lock", "head block", "head beam", "loft beam"])
def test_a_force_that_a_part_may_carry_as_found_is_its_limit(part: str) -> None:
    result = _judged({"part": part, "carries": "1 lb", "line": "1"}, tension_block="400 lb", pipe_weight="1",
                     arbor={"weight": "60 lb"})  # fmt: skip
    row = _row(result, part)
    assert row.limit is not None
    assert row.limit / LB == pytest.approx(1)
    assert row.verdict is (Verdict.OVER if row.value.best > LB else Verdict.WITHIN)


@pytest.mark.parametrize("part", ["batten", "sag", "stack", *sorted(NOTHING_TO_CHECK)])
def test_a_force_is_not_held_against_a_row_that_is_none(part: str) -> None:
    assert _judged({"part": part, "carries": "5,000 lb"}).verdict is Verdict.UNKNOWN


@pytest.mark.parametrize("condition", [
    {"part": "turnbuckle", "carries": "5,000 lb"},  # a part that this set does not say it has
    {"part": "shackle", "line": "9", "carries": "5,000 lb"},  # a line that it has not
])  # fmt: skip
def test_what_was_found_where_nothing_is_computed_is_told_all_the_same(condition: Map) -> None:
    assert _judged(condition).verdict is Verdict.UNKNOWN


def test_what_is_over_stays_over_where_it_was_also_found_bad() -> None:
    result = judged(a_house(a_set(condition=[FOUND | {"part": "batten"}])), [a_piece(weight="5,000 lb")], [hung()])
    assert _row(result, "batten").verdict is Verdict.OVER


def test_two_findings_on_one_part_both_count() -> None:
    result = _judged(
        {"part": "loft block", "carries": "300 lb"}, {"part": "loft block", "line": "2", "carries": "20 lb"}
    )
    limits = [(_row(result, "loft block", line).limit or 0) / LB for line in (1, 2)]
    assert limits == pytest.approx([300, 20])
