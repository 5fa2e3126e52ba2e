"""A word or a figure that is written as unknown is named with where it is written, and what it settles."""

from __future__ import annotations

import pytest

from tests.plain_house import Map, a_house, a_piece, a_set, hung, judged

SPLICED = {"splices": [{"at": "unknown", "strength": "60 %"}]}
ACROSS = {"loft_block": {"upstage": "unknown"}}


@pytest.mark.parametrize(("changes", "says"), [
    ({"lines": {"hitch": "unknown"}}, "how the chain is hitched round the batten"),
    ({"lines": {"shackle load": "unknown"}}, "whether the shackle is loaded in line or from the side"),
    ({"batten": SPLICED}, "where the splice stands"),
    (ACROSS, "how far upstage a block stands"),
])  # fmt: skip
def test_what_is_unknown_of_a_set_is_asked_for_first_and_settles_it(changes: Map, says: str) -> None:
    result = judged(a_house(a_set(**changes)), [a_piece()], [hung()])
    first = result.unknowns[0]
    assert first.what == says
    assert first.settles == ("9",)
    finding = next(one for one in result.findings)
    assert says in finding.mend


def test_the_end_of_the_path_of_a_fire_curtain_is_called_by_its_name_and_settles_every_set() -> None:
    curtain = {"fire curtain": {"from": "-2 ft", "to": "unknown"}}
    result = judged(a_house(a_set("1", distance="1 ft"), stage=curtain), [a_piece()], [hung(on="1")])
    assert result.unknowns[0].what == "where the fire curtain runs to"
    assert result.unknowns[0].settles == ("1",)


def test_a_thickness_that_the_path_of_the_curtain_waits_for_settles_it() -> None:
    curtain = {"fire curtain": {"from": "0 ft", "to": "1 ft"}}
    result = judged(a_house(a_set("1", distance="1.5 ft"), stage=curtain), [a_piece()], [hung(on="1")])
    assert (result.unknowns[0].what, result.unknowns[0].settles) == ("thickness of border", ("1",))


@pytest.mark.parametrize("beside", ["unknown", None])
def test_a_place_beside_the_pipe_that_the_roll_waits_for_settles_it(beside: str | None) -> None:
    told: Map = {"beside": "1 in", "below": "6 in"}
    other: Map = {"below": "6 in"} | ({} if beside is None else {"beside": beside})
    pieces = [a_piece("told", **told), a_piece("other", "20 lb", **other)]
    result = judged(a_house(rules={"roll": "20 deg"}), pieces, [hung("told"), hung("other")])
    assert result.unknowns[0].what == "how far other hangs beside the pipe"
    assert result.unknowns[0].settles == ("9",)
