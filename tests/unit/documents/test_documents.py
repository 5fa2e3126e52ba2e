import pytest

from counterpoise.documents import House, How, Known, edit_scalar, read_hang, read_house, read_show
from counterpoise.errors import BadDocument, Problem
from tests.plain_house import FT, LB, Map, a_house, a_piece, a_set, documents, hung, written


def _problems(text: str) -> tuple[Problem, ...]:
    with pytest.raises(BadDocument) as caught:
        read_house(text)
    return caught.value.problems


def _line_of(text: str, words: str) -> int:
    return next(n for n, line in enumerate(text.splitlines(), 1) if words in line)


def _kinds(**own: object) -> House:
    kind: Map = a_set()
    del kind["set"]
    return read_house(written({**a_house(), "kinds": {"usual": kind}, "sets": [{"set": "9", "kind": "usual", **own}]}))


def test_a_set_is_its_kind_with_maps_merged() -> None:
    one = _kinds(**{"loft block": {"rating": "300 lb"}}).sets[0]
    assert one.loft_block.rating.number == pytest.approx(300 * LB)
    assert one.loft_block.rating_of == "line pull"


def test_a_list_in_a_set_replaces_the_list_of_its_kind() -> None:
    lines = _kinds(lines={"at": ["10' SR", "10' SL"]}).sets[0].lines
    assert [line.at for line in lines.at] == ["10' SR", "10' SL"]


def test_none_takes_a_part_of_the_kind_away() -> None:
    one = _kinds(**{"tension block": "none", "lines": {"shackle": "none"}, "stops": {"top": "none"}}).sets[0]
    assert (one.tension_block, one.lines.shackle, one.stops.top) == (None, None, None)
    assert one.stops.bottom is not None
    assert _kinds(stops="none").sets[0].stops.bottom is None


# Common practice, no source: a rating that is blank is unknown; only `none` says there is no such part.
def test_a_part_nobody_wrote_about_is_unknown_and_not_absent() -> None:
    one = read_house(written(a_house(a_set(stops=None, tension_block=None, lines={"shackle": None})))).sets[0]
    for part in (one.stops.top, one.stops.bottom, one.tension_block, one.lines.shackle):
        assert isinstance(part, Known)
        assert part.is_unknown


def test_a_set_that_names_no_kind_of_the_house_is_told_the_near_one() -> None:
    tree = {**a_house(), "kinds": {"usual": a_set()}, "sets": [{"set": "9", "kind": "usaul"}]}
    assert any("Did you mean usual?" in one.mend for one in _problems(written(tree)))


def test_a_mistake_in_a_kind_is_told_once_and_not_for_each_of_its_sets() -> None:
    kind: Map = a_set(pipe_weight="two")
    del kind["set"]
    sets = [{"set": label, "kind": "usual"} for label in "123"]
    assert len(_problems(written({**a_house(), "kinds": {"usual": kind}, "sets": sets, "steel": []}))) == 1


def test_an_unknown_field_is_refused_with_the_near_name() -> None:
    problem = _problems(written(a_house(a_set(lines={"brekaing strength": "7,000 lb"}))))[0]
    assert "Did you mean `breaking strength`?" in problem.mend


def test_a_comma_that_ends_a_value_between_braces_is_told() -> None:
    text = written(a_house()).replace("name: Plainfield Hall", "name: Plainfield Hall\nsources:\n  plates: "
                                      "{what: makers' plates, invented}")  # fmt: skip
    problem = next(one for one in _problems(text) if "`invented`" in one.says)
    assert "in { } a comma ends a value, so put it all in quotes" in problem.mend


def test_a_figure_that_is_left_out_is_unknown_at_the_place_where_it_would_stand() -> None:
    rating = read_house(written(a_house(a_set(arbor={"rating": None})))).sets[0].arbor.rating
    assert rating.is_unknown
    assert rating.path == "sets[0].arbor.rating"


def test_a_figure_that_its_kind_leaves_out_is_to_be_written_there_once_for_all_its_sets() -> None:
    kind: Map = a_set(lines={"weight": None})
    del kind["set"]
    text = written({**a_house(), "kinds": {"usual": kind}, "sets": [{"set": "9", "kind": "usual"}]})
    weight = read_house(text).sets[0].lines.weight
    assert weight.is_unknown
    assert weight.path == "kinds.usual.lines.weight"
    assert (
        weight.line
        == _line_of(text, "usual:")
        + next(n for n, line in enumerate(text[text.index("usual:") :].splitlines()) if "lines:" in line)
        + 1
    )


def test_every_problem_is_told_at_once_each_at_its_own_line() -> None:
    sets = [a_set("1", distance="three"), a_set("2", brick="halff"), a_set("3", low_trim="60 ft", key="x"), a_set("2")]
    text = written(a_house(*sets, units="imperial") | {"colour": "red"})
    found = {(one.line, one.path) for one in _problems(text)}
    starts = [n for n, line in enumerate(text.splitlines(), 1) if line.startswith("- set:")]
    assert (_line_of(text, "units: imperial"), "units") in found
    assert (_line_of(text, "colour: red"), "colour") in found
    assert (_line_of(text, "distance: three"), "sets[0].distance") in found
    text = written(a_house(*sets))  # with the top readable, what stands in the sets is held against the rest too
    starts = [n for n, line in enumerate(text.splitlines(), 1) if line.startswith("- set:")]
    told = {(one.line, one.says) for one in _problems(text)}
    assert (_line_of(text, "brick: halff"), "there is no brick halff.") in told
    before, after = text.split("low trim: 60 ft")
    line = before.count("\n") + _line_of(after, "high trim")
    assert (line, "high trim 58 ft is not above low trim 60 ft.") in told
    assert (starts[3], "set 2 stands twice.") in told


def test_two_sets_may_not_share_a_label_or_a_key_nor_stand_in_two_bays() -> None:
    assert "set 9 stands twice" in str(_problems(written(a_house(a_set(), a_set())))[0])
    assert "key 9 stands twice" in str(_problems(written(a_house(a_set(), a_set("10", key="9")))))
    bay: Map = a_house()["steel"][0]
    assert "stands twice" in str(_problems(written(a_house(steel=[bay, {**bay, "bay": "B"}]))))


def test_two_bricks_of_one_name_are_refused() -> None:
    brick: Map = a_house()["bricks"][0]
    assert "brick full stands twice" in str(_problems(written(a_house(bricks=[brick, {**brick, "weight": "9 lb"}]))))


@pytest.mark.parametrize("said", ["1..2 ft", "3..4 ft @tape"])
def test_a_range_is_refused_where_only_its_middle_would_be_used(said: str) -> None:
    tree = {**a_house(a_set(low_trim=said)), "sources": {"tape": {"how": "measured", "what": "tape"}}}
    assert "a range is not carried through" in _problems(written(tree))[0].says


def test_a_high_trim_above_the_loft_blocks_is_refused() -> None:
    assert "not below the loft blocks" in str(_problems(written(a_house(a_set(high_trim="62 ft"))))[0])


def test_lines_that_are_out_of_order_or_off_the_batten_are_refused() -> None:
    assert "order" in str(_problems(written(a_house(a_set(lines={"at": ["CL", "10' SR"]})))))
    assert "off the batten" in str(_problems(written(a_house(a_set(lines={"at": ["22' SR", "CL"]})))))
    assert "two lines or more" in str(_problems(written(a_house(a_set(lines={"at": ["CL"]})))))


def test_what_is_not_checked_ends_on_a_day_and_names_sets_of_the_house() -> None:
    note = {"what": "sag", "why": "seen", "who": "an invented rigger"}
    assert "not a day" in str(_problems(written(a_house(not_checked_here=[{**note, "until": "next year"}]))))
    assert "no set 99" in str(_problems(written(a_house(not_checked_here=[{**note, "sets": ["99"]}]))))


def _sourced(batten: Map, own: Map | None = None) -> House:
    kind: Map = a_set(batten=batten)
    del kind["set"]
    sources = {"pipes": {"how": "documented", "what": "table"}, "tape": {"how": "measured", "what": "tape survey"}}
    return read_house(written({**a_house(), "sources": sources, "kinds": {"usual": kind},
                               "sets": [{"set": "9", "kind": "usual", **(own or {})}]}))  # fmt: skip


def test_a_figure_is_known_as_well_as_its_own_source_else_its_blocks_else_assumed() -> None:
    batten = _sourced({"source": "pipes", "length": "42 ft @tape", "hardware": "~3 lb @tape"}).sets[0].batten
    hows = (batten.length.how, batten.wall.how, batten.hardware.how)
    assert hows == (How.MEASURED, How.DOCUMENTED, How.ESTIMATE)
    assert _sourced({}).sets[0].batten.wall.how is How.ASSUMED


def test_what_a_set_writes_over_its_kind_is_not_vouched_for_by_the_kinds_source() -> None:
    batten = _sourced({"source": "pipes"}, {"batten": {"weight": "3 lb/ft"}}).sets[0].batten
    assert (batten.weight.how, batten.wall.how) == (How.ASSUMED, How.DOCUMENTED)


def test_a_source_nobody_named_is_refused_with_the_near_one() -> None:
    with pytest.raises(BadDocument, match="Did you mean @tape"):
        _sourced({"length": "42 ft @tapes"})
    with pytest.raises(BadDocument, match="no source is called plans"):
        _sourced({"source": "plans"})


def test_a_piece_has_picks_or_a_spread_and_not_both() -> None:
    with pytest.raises(BadDocument, match="either picks or a length"):
        documents(a_house(), [a_piece(picks=["CL"], spread_over="3 ft")], [])


@pytest.mark.parametrize(("place", "says"), [
    (hung("bordre"), "Did you mean border?"),
    (hung(on="99"), "there is no set 99"),
    (hung(centre="2' SL"), "reaches past the end"),
    (hung(show="80 ft"), "outside the travel of set 9"),
    (hung(deck="2 ft"), "outside the travel of set 9"),
    (hung(centre="6 ft"), "not a distance from the centre line"),
])  # fmt: skip
def test_a_hang_is_held_against_its_house_and_show(place: Map, says: str) -> None:
    with pytest.raises(BadDocument, match=says.replace("?", r"\?")):
        documents(a_house(), [a_piece()], [place])


def test_problems_of_a_hang_stand_at_their_own_lines_when_one_before_them_can_not_be_read() -> None:
    places = [hung(centre="half way"), hung(), hung("bordre")]
    with pytest.raises(BadDocument) as caught:
        documents(a_house(), [a_piece()], places)
    assert [one.path for one in caught.value.problems] == ["hung[0].centre", "hung[1]", "hung[2].piece"]


def test_a_hang_for_another_house_is_refused() -> None:
    house = read_house(written(a_house()))
    show = read_show(written({"counterpoise": "show 1", "name": "Gala", "pieces": []}))
    with pytest.raises(BadDocument, match="the hang is for Elsewhere"):
        read_hang("counterpoise: hang 1\nhouse: Elsewhere\nshow: Gala\nhung: []\n", house, show)
    with pytest.raises(BadDocument, match="in this order: HOUSE SHOW HANG"):
        read_hang("counterpoise: show 1\n", house, show)


def test_places_are_read_from_the_centre_line_in_either_case_and_may_be_unknown() -> None:
    _, _, hang = documents(
        a_house(),
        [a_piece(picks=["1' sr", "1' sl"]), a_piece(piece="other", picks=["1' sr", "1' sl"])],
        [hung(centre="6 ft sl"), hung(piece="other", centre="unknown")],
    )
    assert hang.hung[0].centre.number == pytest.approx(6 * FT)
    assert hang.hung[1].centre.is_unknown


TEXT = """# kept
hung:
  - {piece: border, set: "4", centre: 6' SL, trims: {show: 26 ft}}   # why
  - piece: 'the old one'
    centre: CL      # here
    note:
"""


def test_an_edit_changes_one_value_and_no_other_character() -> None:
    assert edit_scalar(TEXT, "hung[0].centre", "7' 6\" SR") == TEXT.replace("6' SL", "7' 6\" SR")
    assert edit_scalar(TEXT, "hung[1].centre", "1' SL") == TEXT.replace("CL  ", "1' SL  ")
    assert edit_scalar(TEXT, "hung[0].trims.show", "1,000 mm") == TEXT.replace("26 ft", "'1,000 mm'")
    assert edit_scalar(TEXT, "hung[1].note", "new") == TEXT.replace("note:", "note: new")
    assert edit_scalar(TEXT, "hung[1].piece", "a: b #c") == TEXT.replace("'the old one'", "'a: b #c'")


@pytest.mark.parametrize("path", ["hung[0].nothing", "hung[9].centre", "hung", "hung[-1].centre", "hung[x].centre", ""])
def test_an_edit_of_what_is_not_there_is_refused(path: str) -> None:
    with pytest.raises(BadDocument, match="no single value"):
        edit_scalar(TEXT, path, "CL")


def test_an_edit_that_would_not_be_read_back_is_refused() -> None:
    with pytest.raises(BadDocument, match="can not be written"):
        edit_scalar(TEXT, "hung[0].centre", "two\nlines")


def test_a_height_that_can_not_be_in_a_kind_is_told_once_at_its_own_line() -> None:
    kind: Map = a_set(low_trim="70 ft")
    del kind["set"]
    sets = [{"set": label, "kind": "usual"} for label in "123"]
    text = written({**a_house(), "kinds": {"usual": kind}, "sets": sets})
    found = [one for one in _problems(text) if "trim" in one.says]
    assert len({one.says for one in found}) == len(found)
    assert {one.line for one in found} <= {_line_of(text, "low trim: 70 ft"), _line_of(text, "high trim")}


def test_no_wrong_set_is_named_as_the_near_one() -> None:
    with pytest.raises(BadDocument) as caught:
        documents(a_house(), [a_piece()], [hung(on="99")])
    assert "Did you mean 9?" not in str(caught.value)


def test_files_in_another_order_are_not_told_to_be_rewritten() -> None:
    with pytest.raises(BadDocument, match="Name the files in this order"):
        read_house("counterpoise: show 1\nname: Gala\npieces: []\n")
