"""What is written once and holds for many: kinds of set, rows of the catalogue, rows of the house's own."""

from __future__ import annotations

from typing import Any

import pytest

from counterpoise.checks import Verdict, check
from counterpoise.documents import House, How, read_hang, read_house, read_show
from counterpoise.errors import BadDocument
from counterpoise.rigging import rig
from tests.plain_house import Map, a_house, a_piece, a_set, hung, judged, rigged, written


def _kind(**changes: Any) -> Map:
    kind = a_set(**changes)
    del kind["set"]
    return kind


def _tree(kind: Map, *sets: Map, **house: Any) -> Map:
    labels = [one["set"] for one in sets]
    return a_house(a_set(), **house) | {"kinds": {"usual": kind}, "sets": [{"kind": "usual"} | one for one in sets],
                                        "steel": [{"bay": "A", "sets": labels, "loft beam": "5,000 lb",
                                                   "head beam": "20,000 lb", "impact": "included"}]}  # fmt: skip


def _house(kind: Map, *sets: Map, **house: Any) -> House:
    return read_house(written(_tree(kind, *sets, **house)))


def _problems(tree: Map) -> list[str]:
    with pytest.raises(BadDocument) as refused:
        read_house(written(tree))
    return [f"{one.path}: {one.says} {one.mend}" for one in refused.value.problems]


# ---------------------------------------------------------------------------------------------------------- kinds


@pytest.mark.parametrize(("own", "changed"), [
    ({"batten": {"hardware": "7 lb"}}, "batten"), ({"lines": {"shackle": "700 lb"}}, "lines"),
    ({"loft block": {"rating": "1 lb"}}, "loft_block"), ({"arbor": {"weight": "70 lb"}}, "arbor"),
    ({"stops": "none"}, "stops"), ({"tension block": "none"}, "tension_block"), ({"low trim": "5 ft"}, "low_trim"),
    ({"lines": {"at": ["10' SR", "10' SL"]}}, "lines"), ({"batten": {"pipe": "2 in schedule 40"}}, "batten"),
])  # fmt: skip
def test_what_one_set_writes_over_its_kind_changes_no_neighbour(own: Map, changed: str) -> None:
    plain = _house(_kind(), {"set": "8"}, {"set": "9"}, {"set": "10"})
    mixed = _house(_kind(), {"set": "8"}, {"set": "9"} | own, {"set": "10"})
    for before, after in zip(plain.sets, mixed.sets, strict=True):
        for part in ("batten", "lines", "loft_block", "head_block", "arbor", "stops", "tension_block", "low_trim"):
            same = _figures(getattr(before, part)) == _figures(getattr(after, part))
            assert same is (after.label != "9" or part != changed)


def _figures(part: object) -> str:
    """The words in it, without where they stand."""
    found: list[str] = []

    def walk(one: object) -> None:
        if hasattr(one, "text") and hasattr(one, "form"):
            found.append(str(one.text))
        elif isinstance(one, tuple):
            for each in one:
                walk(each)
        elif hasattr(one, "__slots__"):
            for name in one.__slots__:
                walk(getattr(one, name))
        else:
            found.append(str(one))

    walk(part)
    return "|".join(found)


def test_a_set_that_writes_one_figure_keeps_all_others_of_its_kind() -> None:
    house = _house(_kind(), {"set": "8"}, {"set": "9", "batten": {"hardware": "7 lb"}})
    plain, own = house.sets
    assert own.batten.hardware.text == "7 lb"
    assert (own.batten.weight.text, own.batten.length.text) == (plain.batten.weight.text, plain.batten.length.text)
    assert _figures(own.lines) == _figures(plain.lines)


def test_what_a_kind_lacks_is_told_at_the_kind_and_once() -> None:
    kind = _kind(batten={"modulus": None}, lines={"breaking strength": None})
    tree = _tree(kind, *({"set": str(n)} for n in range(1, 6)))
    found = rigged(tree)
    assert {one.path for one in found.missing} == {"kinds.usual.batten.modulus"}
    assert len({one.line for one in found.missing}) == 1
    at = written(tree).splitlines()[found.missing[0].line - 1]
    assert at.strip().startswith("batten:") or "length" in at
    assert read_house(written(tree)).sets[2].lines.breaking_strength.path == "kinds.usual.lines.breaking strength"


def test_what_a_set_lacks_that_has_a_map_of_its_own_is_told_at_the_kind_all_the_same() -> None:
    kind = _kind(batten={"modulus": None})
    house = _house(kind, {"set": "8", "batten": {"hardware": "7 lb"}})
    assert house.sets[0].batten.modulus.path == "kinds.usual.batten.modulus"
    own = _house(_kind(batten=None), {"set": "8", "batten": {"hardware": "7 lb"}}).sets[0].batten.modulus
    assert own.path.startswith("sets[0].batten.")


def test_a_slip_in_a_kind_is_told_once_for_all_its_sets() -> None:
    for slip in ({"batten": {"wall": "-1 in"}}, {"batten": {"wal": "1 in"}}, {"lines": {"at": ["90' SR", "CL"]}},
                 {"batten": {"wall": "0.135 in", "design wall": "0.145 in"}}):  # fmt: skip
        kind = _kind(**slip)
        assert len(_problems(_tree(kind, *({"set": str(n)} for n in range(1, 8))))) == 1


def test_a_slip_in_one_set_is_told_at_that_set_and_leaves_its_neighbours() -> None:
    tree = _tree(_kind(), {"set": "8"}, {"set": "9", "batten": {"hardware": "seven"}}, {"set": "10"})
    (problem,) = _problems(tree)
    assert problem.startswith("sets[1].batten.hardware")


# ------------------------------------------------------------------------------------------------ rows of the catalogue


def _batten(**own: str) -> Map:
    return dict.fromkeys(("outside diameter", "wall", "design wall", "weight", "modulus")) | {
        name.replace("_", " "): said for name, said in own.items()}  # fmt: skip


def test_a_pipe_of_the_catalogue_gives_what_the_batten_does_not_write() -> None:
    """ASME B36.10M and AISC table 1-14: 1-1/2 in schedule 40 is 1.900 in x 0.145 in, design 0.135 in, 2.72 lb/ft."""
    batten = read_house(written(a_house(a_set(batten=_batten(pipe="1-1/2 in schedule 40"))))).sets[0].batten
    assert [known.text for known in (batten.outside_diameter, batten.wall, batten.weight)] == [
        "1.900 in", "0.145 in", "2.72 lb/ft"]  # fmt: skip
    assert batten.design_wall is not None
    assert batten.design_wall.text == "0.135 in"
    assert batten.weight.how is How.DOCUMENTED
    assert batten.weight.path.startswith("catalogue")


def test_a_batten_of_the_catalogue_is_judged_as_one_with_the_same_figures_of_its_own() -> None:
    verdicts = []
    for batten in (_batten(pipe="1-1/2 in schedule 40"), {}):
        result = judged(a_house(a_set(batten=batten)), [a_piece()], [hung()])
        verdicts.append([(row.key, round(row.value.high, 6), row.limit) for row in result.sets[0].rows])
    assert verdicts[0] == verdicts[1]


def test_an_own_figure_goes_before_the_row_whichever_is_in_the_kind() -> None:
    own = _house(_kind(batten=_batten(weight="3 lb/ft")), {"set": "9", "batten": {"pipe": "1-1/2 in schedule 40"}})
    row = _house(_kind(batten=_batten(pipe="1-1/2 in schedule 40")), {"set": "9", "batten": {"weight": "3 lb/ft"}})
    assert [one.sets[0].batten.weight.text for one in (own, row)] == ["3 lb/ft"] * 2
    assert [one.sets[0].batten.wall.text for one in (own, row)] == ["0.145 in"] * 2


def test_a_thinner_wall_of_ones_own_is_not_judged_by_the_design_wall_of_the_row() -> None:
    """A rusted pipe: the row's design wall of 0.135 in would make it as strong as new."""
    batten = _batten(pipe="1-1/2 in schedule 40", wall="0.100 in")
    (problem,) = _problems(a_house(a_set(batten=batten)))
    assert "design wall" in problem
    read_house(written(a_house(a_set(batten=batten | {"design wall": "0.093 in"}))))


def test_one_pipe_named_in_two_kinds_is_the_same_row_and_problems_of_each_are_told() -> None:
    tree = _tree(_kind(batten=_batten(pipe="1-1/2 in schedul 40")), {"set": "8"}, {"set": "9"})
    (problem,) = _problems(tree)
    assert "the catalogue has no pipe or tube of that name" in problem
    assert "Did you mean 1-1/2 in schedule 40?" in problem


@pytest.mark.parametrize(("lines", "said"), [
    ({"chain": "1/4 in grde 30"}, "1/4 in grade 30"), ({"shackle size": "1/4 in screw pin anchr"}, "screw pin anchor"),
    ({"rope": "1/4 in 7x18 galvanized"}, "1/4 in 7x19 galvanized"), ({"ends": "spelter sockets"}, "spelter socket"),
])  # fmt: skip
def test_a_row_nobody_knows_is_refused_with_a_near_name(lines: Map, said: str) -> None:
    (problem,) = _problems(a_house(a_set(lines=lines)))
    assert "has no" in problem
    assert said in problem


def test_a_row_of_the_house_is_offered_only_where_it_is_near() -> None:
    rows: Map = {"chain": {"house chain": {"rating": "900 lb"}}}
    for said, near in (("hose chain", "house chain"), ("1/4 in grde 30", "1/4 in grade 30")):
        (problem,) = _problems(a_house(a_set(lines={"chain": said}), catalogue=rows))
        assert f"Did you mean {near}?" in problem


@pytest.mark.parametrize("pipe", ["none", "unknown"])
def test_a_pipe_that_is_not_known_gives_nothing(pipe: str) -> None:
    result = judged(a_house(a_set(batten=_batten(pipe=pipe))), [a_piece()], [hung()])
    assert result.verdict is Verdict.UNKNOWN


def test_a_row_of_the_house_goes_before_the_published_one_and_serves_lines_too() -> None:
    rows: Map = {"pipe": {"house pipe": {"outside diameter": "2.000 in", "wall": "0.25 in", "weight": "4.67 lb/ft",
                                         "modulus": "29,000 ksi"},
                          "1-1/2 in schedule 40": {"weight": "2.75 lb/ft"}},
                 "chain": {"house chain": {"rating": "900 lb"}},
                 "wire rope": {"house rope": {"breaking strength": "6,000 lb", "stiffness": "300,000 lb"}}}  # fmt: skip
    at = ["20' SR", {"at": "10' SR", "rope": "house rope"}, "CL", "10' SL", "20' SL"]
    one = a_set(batten=_batten(pipe="house pipe"), lines={"trim chain": None, "chain": "house chain", "at": at})
    found = read_house(written(a_house(one, catalogue=rows))).sets[0]
    assert found.batten.wall.text == "0.25 in"
    assert found.lines.trim_chain is not None
    assert found.lines.trim_chain.text == "900 lb"
    own = found.lines.at[1]
    assert own.stiffness is not None
    assert own.stiffness.text == "300,000 lb"
    one = a_set(batten=_batten(pipe="1-1/2 in schedule 40"))
    found = read_house(written(a_house(one, catalogue=rows))).sets[0]
    assert found.batten.weight.text == "2.75 lb/ft"
    assert found.batten.wall.is_unknown  # a row is taken whole: figures of two sheets are not mixed


@pytest.mark.parametrize(("rows", "said"), [
    ({"pipes": {"x": {"wall": "1 in"}}}, "family"), ({"pipe": {"x": "thick"}}, "figures of one row"),
    ([], "map of families"),
])  # fmt: skip
def test_a_catalogue_that_can_not_be_read_is_refused(rows: Any, said: str) -> None:
    assert said in " ".join(_problems(a_house() | {"catalogue": rows}))


def test_a_row_from_memory_makes_a_batten_no_better_known_than_an_estimate() -> None:
    found = rigged(a_house(a_set(batten=_batten(pipe="48.3 x 4.0 aluminium"))))
    batten = found.battens[0]
    assert batten.written.batten.weight.how is How.DEFAULT
    assert batten.batten_doubt == pytest.approx(0.20 * batten.batten_mass)


def test_a_show_may_have_rows_of_its_own() -> None:
    show = read_show(written({"counterpoise": "show 1", "name": "Gala",
                              "catalogue": {"fixture": {"old lamp": {"weight": "9 lb"}}},
                              "pieces": [{"piece": "border", "height": "3 ft", "spread over": "40 ft",
                                          "takeoff": [{"fixture": "old lamp", "count": "4"}]}]}))  # fmt: skip
    house = read_house(written(a_house()))
    hang = read_hang(
        written({"counterpoise": "hang 1", "house": house.name, "show": "Gala", "hung": [hung()]}), house, show
    )
    assert check(rig(house, show, hang)).sets[0].batten is not None
    assert rig(house, show, hang).sets[0].pieces[0].mass[1] / 0.45359237 == pytest.approx(36)


# ------------------------------------------------------------------------------------------------- slips in a set


def test_a_pipe_that_weighs_nothing_is_refused_and_not_divided_by() -> None:
    for one in (a_set(batten={"weight": "0 lb/ft"}), a_set(batten={"weight": "0"})):
        (problem,) = _problems(a_house(one))
        assert "weighs more than the 0" in problem


def test_a_dead_hung_batten_at_or_above_its_loft_blocks_is_refused() -> None:
    for height in ("62 ft", "70 ft"):
        (problem,) = _problems(a_house(a_set(rigged="dead-hung", purchase=None, high_trim=None, low_trim=height)))
        assert f"low trim {height} is not below the loft blocks" in problem


OTHER: Map = {"from": "5 ft SR", "to": "5 ft SL", "outside diameter": "2.375 in", "wall": "0.154 in",
              "weight": "3.66 lb/ft", "modulus": "29,000 ksi"}  # fmt: skip
LADDER: Map = {"depth": "18 in", "spacers": ["0 ft", "20 ft", "42 ft"], "spacer diameter": "1.9 in",
               "spacer wall": "0.145 in"}  # fmt: skip


@pytest.mark.parametrize(("batten", "said"), [
    ({"lengths": [OTHER | {"wall": "1.5 in"}]}, "does not go into a pipe"),
    ({"lengths": [OTHER | {"design wall": "0.2 in"}]}, "thicker than its wall"),
    ({"lengths": [OTHER | {"weight": "36.6 lb/ft"}]}, "is not what was meant"),
    ({"lengths": [OTHER | {"from": "5 ft SL", "to": "5 ft SR"}]}, "runs backwards"),
    ({"lengths": [OTHER, OTHER | {"from": "CL", "to": "8 ft SL"}]}, "lies over the length before it"),
    ({"lengths": [OTHER | {"to": "30 ft SL"}]}, "off the batten"),
    ({"ladder": LADDER | {"spacer wall": "1 in"}}, "does not go into a pipe"),
    ({"ladder": LADDER | {"depth": "1.5 in"}}, "are not 1.5 in apart"),
    ({"ladder": LADDER | {"spacers": ["20 ft", "0 ft", "42 ft"]}}, "not in order"),
    ({"ladder": LADDER | {"spacers": ["0 ft", "50 ft"]}}, "off the batten"),
    ({"attachments": [{"attachment": "track", "weight": "9 lb", "centre": "22 ft SL"}]}, "reaches past the end"),
    ({"attachments": [{"attachment": "track", "weight": "9 lb", "centre": "15 ft SL", "spread over": "14 ft"}]},
     "reaches past the end"),
])  # fmt: skip
def test_a_batten_that_can_not_be_made_so_is_refused_with_its_document(batten: Map, said: str) -> None:
    (problem,) = _problems(a_house(a_set(batten=batten)))
    assert said in problem


def test_cable_that_leaves_the_batten_beyond_its_end_is_refused() -> None:
    cable = {"length": "66 ft", "weight": "0.3 lb/ft", "box": "62 ft", "at": "22 ft SL"}
    with pytest.raises(BadDocument, match="reaches past the end"):
        rigged(a_house(), [a_piece(spread_over="10 ft", cables=[cable])], [hung()])
