"""Each mend that is told, and each weight and count that a finding promises, written into the documents and judged."""

from __future__ import annotations

import copy
import re
from typing import Any

import pytest

from counterpoise.checks import HouseResult, Verdict
from counterpoise.planning import mends_of
from tests.plain_house import Map, a_house, a_piece, a_set, hung, judged
from tests.random_houses import Drawn, drawn, place

SEEDS = range(18)
WORST = (Verdict.WITHIN, Verdict.UNKNOWN, Verdict.OVER)


def _over(result: HouseResult) -> set[str]:
    return {row.key for one in result.sets for row in one.rows if row.verdict is Verdict.OVER}


def _feet(words: str) -> float:
    found = re.match(r"(?:(\d+)' ?)?(?:(\d+)\")?", words)
    assert found is not None
    return int(found[1] or 0) + int(found[2] or 0) / 12


def _centre(words: str) -> float:
    return 0.0 if words == "CL" else float(words.split(maxsplit=1)[0]) * (1 if words.endswith("SL") else -1)


def _weighing(pieces: list[Map], name: str, weight: str) -> None:
    for one in pieces:
        if one["piece"] == name:
            one["weight"] = weight


def _with(documents: Drawn, label: str, kind: str, says: str) -> tuple[HouseResult, set[str]]:
    """The hang judged with a mend written into it, and the sets it is made on."""
    house, pieces, places, said = copy.deepcopy(documents)
    touched = {label}
    stated: dict[str, Any] = said.setdefault("stated_bricks", {})
    if (found := re.search(r"Have (\d+) bricks|with (\d+) bricks on set", says)) is not None:
        stated[label] = found[1] or found[2]
    name = next(one["piece"] for one in pieces if re.search(rf"\b{one['piece']}\b", says) or kind == "bricks")
    at = next(one for one in places if one["piece"] == name)
    if kind == "less weight":
        _weighing(pieces, name, f"{says.partition('weigh ')[2].removeprefix('at most ').split(' lb')[0]} lb")
    elif kind == "move":
        by = _feet(says.partition(f"{name} ")[2])
        at["centre"] = place(_centre(at["centre"]) + (by if "stage left" in says else -by))
    elif kind == "two picks":
        half = _feet(says.partition("two picks ")[2]) / 2
        next(one for one in pieces if one["piece"] == name)["picks"] = [place(-half), place(half)]
    elif kind == "other set":
        at["set"] = says.partition(" on set ")[2][0]
        touched.add(at["set"])
    return judged(house, pieces, places, **said), touched


@pytest.mark.parametrize("seed", SEEDS)
def test_a_mend_written_into_the_documents_leaves_nothing_over_and_the_verdict_that_was_told(seed: int) -> None:
    documents = drawn(seed)
    house, pieces, places, said = documents
    result = judged(house, pieces, places, **said)
    for one in (one for one in result.sets if one.verdict is Verdict.OVER):
        for mend in mends_of(result, one.label):
            found, touched = _with(documents, one.label, mend.kind, mend.says)
            assert not _over(found) - _over(result), (one.label, mend)
            verdicts = [each.verdict for each in found.sets if each.label in touched]
            assert max(verdicts, key=WORST.index) is mend.verdict, (one.label, mend)
            assert mend.verdict is not Verdict.OVER


@pytest.mark.parametrize("seed", SEEDS)
def test_a_weight_that_is_promised_holds_when_it_is_hung_and_so_does_less(seed: int) -> None:
    house, pieces, places, said = drawn(seed)
    result = judged(house, pieces, places, **said)
    for finding in result.findings:
        found = re.match(r"(For this alone|Where it hangs now|For all of it) (P\d) may weigh at most ([\d,]+) lb",
                         finding.mend)  # fmt: skip
        if found is None:
            continue
        scope, name, weight = found[1], found[2], int(found[3].replace(",", ""))
        for share in (1.0, 0.8, 0.55, 0.3):
            lighter = copy.deepcopy(pieces)
            _weighing(lighter, name, f"{max(1, round(share * weight))} lb")
            one = judged(house, lighter, places, **said).set_called(finding.label)
            assert one is not None
            rows = [row for row in one.rows if scope != "For this alone" or row.key == finding.key]
            assert all(row.verdict is Verdict.WITHIN for row in rows), (finding.label, finding.mend, share)


@pytest.mark.parametrize("seed", SEEDS)
def test_what_is_told_to_be_taken_off_clears_its_row_and_a_count_that_is_told_all_that_rests_on_it(seed: int) -> None:
    house, pieces, places, said = drawn(seed)
    result = judged(house, pieces, places, **said)
    for finding in result.findings:
        if (off := re.match(r"Take (P\d) off this set", finding.mend)) is not None:
            left = [one for one in places if one["piece"] != off[1]]
            one = judged(house, pieces, left, **said).set_called(finding.label)
            assert one is not None
            assert all(row.verdict is Verdict.WITHIN for row in one.rows if row.key == finding.key), finding.mend
        if (count := re.match(r"(\d+) bricks, .*keep (it|this)", finding.mend)) is not None:
            stated = {**said.get("stated_bricks", {}), finding.label: count[1]}
            one = judged(house, pieces, places, stated_bricks=stated).set_called(finding.label)
            assert one is not None
            links = ("arbor", "stack", "lock", "hand line", "tension block", "top stop", "bottom stop", "head block")
            assert all(row.verdict is Verdict.WITHIN for row in one.rows if row.link in links), finding.mend


# One pick at CL puts far more than 100 lb on its block; 114.24 lb of batten and 300 lb less 64.24 lb of arbor are 14
# bricks of 25 lb, and without the piece 2.
def test_with_a_count_stated_the_mend_says_the_count_that_balances_what_is_left() -> None:
    house = a_house(a_set("1", distance="1 ft"), a_set("2", distance="2 ft", loft_block={"rating": "100 lb"}))
    result = judged(house, [a_piece("P", "300 lb", picks=["CL"])], [hung("P", "2")], stated_bricks={"2": "14"})
    mends = {one.kind: one for one in mends_of(result, "2")}
    assert mends["other set"].says == "Hang P on set 1 instead, with 2 bricks on set 2."
    assert mends["other set"].verdict is Verdict.WITHIN


def test_of_a_set_out_of_service_nothing_is_moved_along_its_batten() -> None:
    house = a_house(a_set("1", distance="1 ft"), a_set("2", distance="2 ft", out_of_service="a rope is worn"))
    mends = mends_of(judged(house, [a_piece("P")], [hung("P", "2")]), "2")
    assert [one.says for one in mends] == ["Hang P on set 1 instead."]


def test_another_count_is_a_mend_of_a_count_that_is_stated_too_high() -> None:
    result = judged(a_house(a_set()), [a_piece()], [hung()], stated_bricks={"9": "20"})
    (mend,) = mends_of(result, "9")
    assert (mend.kind, mend.verdict) == ("bricks", Verdict.WITHIN)
    assert mend.says.startswith("Have 6 bricks on")  # 114.24 + 100 lb less an arbor of 64.24 lb: six of 25 lb


def test_a_piece_in_sections_may_be_made_lighter() -> None:
    part = {"weight": "150 lb", "height": "6 ft", "balance height": "3 ft"}
    wall: Map = {"piece": "wall", "comes": "in sections", "picks": ["10' SR", "10' SL"],
                 "sections": [{"part": "low", **part}, {"part": "high", **part}]}  # fmt: skip
    house = a_house(a_set(loft_block={"rating": "120 lb"}))
    mends = {one.kind: one for one in mends_of(judged(house, [wall], [hung("wall")]), "9")}
    most = int(mends["less weight"].says.rpartition("at most ")[2].removesuffix(" lb."))
    half = {**part, "weight": f"{most / 2} lb"}
    wall["sections"] = [{"part": "low", **half}, {"part": "high", **half}]
    assert judged(house, [wall], [hung("wall")]).sets[0].verdict is not Verdict.OVER


TWIN = {"loft_block": {"rating": "300 lb"}}


def _twins(centre: str, rating: str) -> HouseResult:
    """A piece on set 1 whose twin, set 2, has blocks of another rating."""
    house = a_house(a_set("1", distance="1 ft", **TWIN),
                    a_set("2", distance="2 ft", twin_of="1", loft_block={"rating": rating}))  # fmt: skip
    return judged(house, [a_piece("P", "600 lb", picks=["CL"])], [hung("P", "1", centre)])


def test_a_mend_on_one_of_two_twins_never_puts_the_other_over_and_is_never_told_as_within() -> None:
    result = _twins("CL", "302 lb")
    assert result.set_called("1").verdict is Verdict.OVER  # type: ignore[union-attr]
    told = mends_of(result, "1")
    assert told
    for one in told:
        assert one.verdict is Verdict.UNKNOWN, one  # how twins share their balance no figure settles
        if one.kind == "move":
            by = _feet(one.says.partition("P ")[2]) * (1 if "stage left" in one.says else -1)
            assert not _over(_twins(place(by), "302 lb")) - _over(result)


def test_a_set_that_shares_with_its_twin_is_not_told_to_write_what_is_written() -> None:
    missing = [one for one in _twins("CL", "500 lb").findings if one.code == "MISSING"]
    assert missing
    assert not any("twin of" in one.mend for one in missing)
    assert not any("how it shares" in one.what for one in _twins("CL", "500 lb").unknowns)
