"""What clears an over, held against the whole hang judged from changed texts."""

from __future__ import annotations

from counterpoise.app import Texts, judge
from counterpoise.checks import Verdict
from counterpoise.planning import mends_of
from tests.plain_house import a_house, a_piece, a_set, hung, texts_of

# 42 ft of 1-1/2 in pipe on five lines; blocks that take 300 lb each
POINT = "560 lb"


def _texts(centre: str = "5' SR", picks: tuple[str, ...] = ("CL",), on: str = "9", weight: str = POINT) -> Texts:
    house = a_house(a_set(), a_set("10", distance="9 ft"))
    return texts_of(house, [a_piece(weight=weight, picks=list(picks), height="3 ft")], [hung(on=on, centre=centre)])


def test_nothing_is_told_of_a_set_that_is_not_over() -> None:
    texts = texts_of(a_house(), [a_piece(weight="20 lb")], [hung()])
    assert mends_of(judge(texts), "9") == ()
    assert mends_of(judge(texts), "no such set") == ()


def test_every_change_that_is_told_clears_the_set_when_it_is_written_into_the_hang() -> None:
    result = judge(_texts())
    assert result.set_called("9").verdict is Verdict.OVER  # type: ignore[union-attr]
    mends = mends_of(result, "9")
    assert mends
    for one in mends:
        changed = _written(one.kind, one.says)
        found = judge(changed)
        worst = [each.verdict for each in found.sets]
        assert Verdict.OVER not in worst, one.says


def _written(kind: str, says: str) -> Texts:
    """The texts with the change that its words tell made in them."""
    if kind == "other set":
        return _texts(on=says.rpartition("set ")[2].partition(" ")[0])
    if kind == "less weight":
        return _texts(weight=says.rpartition("at most ")[2].rstrip("."))
    start, end = (" by two picks ", " apart") if kind == "two picks" else ("border ", " to ")
    feet, inches = says.partition(start)[2].partition(end)[0].split()
    by = int(feet.rstrip("'")) + int(inches.rstrip('"')) / 12
    if kind == "two picks":
        return _texts(picks=(f"{by / 2} ft SR", f"{by / 2} ft SL"))
    at = -5.0 + (by if "stage left" in says else -by)
    return _texts(centre=f"{abs(at)} ft {'SL' if at > 0 else 'SR'}" if at else "CL")


def test_a_smaller_move_than_the_one_that_is_told_does_not_clear_it() -> None:
    result = judge(_texts())
    told = next(one for one in mends_of(result, "9") if one.kind == "move")
    by = told.says.partition("border ")[2].partition(" to ")[0].split()
    feet = int(by[0].rstrip("'")) + int(by[1].rstrip('"')) / 12
    for step in range(1, round(feet * 2)):
        for sign in (1, -1):
            at = -5.0 + sign * step / 2
            if abs(at) > 21:
                continue
            place = f"{abs(at)} ft {'SL' if at > 0 else 'SR'}" if at else "CL"
            assert judge(_texts(centre=place)).set_called("9").verdict is Verdict.OVER  # type: ignore[union-attr]


def test_a_pound_more_than_the_weight_that_is_told_does_not_clear_it() -> None:
    told = next(one for one in mends_of(judge(_texts()), "9") if one.kind == "less weight")
    most = int(told.says.rpartition("at most ")[2].removesuffix(" lb."))
    assert judge(_texts(weight=f"{most + 1} lb")).set_called("9").verdict is Verdict.OVER  # type: ignore[union-attr]


def test_where_nothing_clears_it_nothing_is_told() -> None:
    jaws = {"fit to": "1.660 in"}  # the pipe is 1.900 in, on every set of the house
    texts = texts_of(a_house(), [a_piece(picks=["CL"], clamps=jaws)], [hung()])
    result = judge(texts)
    assert result.set_called("9").verdict is Verdict.OVER  # type: ignore[union-attr]
    assert mends_of(result, "9") == ()
