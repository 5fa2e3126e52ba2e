"""What is over stays over, whoever signs, and whatever else is not known."""

from __future__ import annotations

from datetime import date

from counterpoise.app.workspace import Workspace
from counterpoise.checks import Verdict, check
from counterpoise.store import Store
from tests.eight_sets import eight_sets
from tests.plain_house import a_house, a_piece, a_set, hung, rigged

WHO = {"why": "an invented reason", "who": "an invented rigger"}


def test_steel_that_is_over_already_is_not_signed_away_because_a_neighbour_is_unknown() -> None:
    """A neighbour can only add: 1,000 lb evenly on five lines puts some 270 lb on the second beam, of 200."""
    house = a_house(a_set(), a_set("10", pipe_weight="unknown"))
    house["steel"][0]["loft beam"] = "200 lb"
    house["not checked here"] = [{"what": "loft beam", **WHO}, {"what": "head beam", **WHO}]
    one = check(rigged(house, [a_piece(weight="1,000 lb")], [hung()])).set_called("9")
    assert one is not None
    assert one.verdict is Verdict.OVER


def test_a_lapsed_note_is_asked_for_again_by_pages_that_were_never_restarted() -> None:
    days = [date(2027, 1, 31)]
    texts = eight_sets()
    open_ = '  - {what: loft block, why: painted over, who: an invented rigger, until: 2027-02-01, sets: ["7"]}\n'
    house = texts.house.replace("not checked here:\n", "not checked here:\n" + open_)
    workspace = Workspace(Store("sqlite://"), today=lambda: days[-1])
    workspace.begin(type(texts)(house=house, show=texts.show, hang=texts.hang), at="2027-01-31T12:00:00")
    before = workspace.now().result.set_called("7")
    days.append(date(2027, 2, 2))
    after = workspace.now().result.set_called("7")
    assert before is not None
    assert after is not None
    assert (before.verdict, after.verdict) == (Verdict.WITHIN, Verdict.UNKNOWN)
