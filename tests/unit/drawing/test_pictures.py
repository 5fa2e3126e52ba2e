import itertools
import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from counterpoise.app import Texts, demo_texts, judge
from counterpoise.balance import out_of_balance
from counterpoise.checks import HouseResult, Verdict, surprise_of
from counterpoise.drawing import (
    CAUTION,
    along_picture,
    beyond_lock_at_low_trim,
    caption_of,
    chain_picture,
    felt,
    house_picture,
    judged_heights,
    keyed,
    of_text,
    sentence_of,
    surprise_picture,
    svg,
    told_of,
    travel_picture,
)
from counterpoise.drawing.frame import frame_of
from counterpoise.drawing.widths import width_of
from counterpoise.planning import load_in
from counterpoise.units import METRES_PER_FOOT, Style
from tests.eight_sets import eight_sets, two_sizes
from tests.plain_house import a_house, a_piece, a_set, hung, judged

US = Style("us")


@pytest.fixture(scope="module")
def result() -> HouseResult:
    return judge(eight_sets())


def test_every_set_has_a_lane_of_24_or_more_and_48_on_a_phone(result: HouseResult) -> None:
    for narrow, least in ((False, 24.0), (True, 48.0)):
        lanes = list(frame_of(result, narrow=narrow).lanes.values())
        assert len(lanes) == len(result.sets)
        assert min(b - a for a, b in itertools.pairwise(lanes)) >= least


def test_heights_share_one_scale_above_and_below(result: HouseResult) -> None:
    frame = frame_of(result, narrow=False)
    assert frame.y(0.0) - frame.y(1.0) == pytest.approx(frame.wall_y(0.0) - frame.wall_y(1.0))


def test_the_stated_stretch_is_that_of_the_drawn_distances(result: HouseResult) -> None:
    frame = frame_of(result, narrow=False)
    assert frame.stretch is not None
    apart = (frame.lanes["2"] - frame.lanes["1"]) / (1.0 * METRES_PER_FOOT)  # 1 ft apart in the demo house
    assert apart / frame.scale == pytest.approx(frame.stretch)


@pytest.mark.parametrize("narrow", [False, True])
def test_the_house_is_well_formed_and_says_the_word_of_each_status(result: HouseResult, narrow: bool) -> None:
    drawn = ElementTree.fromstring(svg(house_picture(result, narrow=narrow, mark="2", told=("a", "b", "c"))))
    said = [one.text for one in drawn.iter() if one.text]
    assert {"over", "unknown", "out"} <= set(said)


@pytest.mark.parametrize("label", ["1", "2", "3", "4", "5", "6", "7", "8"])
def test_every_set_can_be_drawn_either_way(result: HouseResult, label: str) -> None:
    one = result.set_called(label)
    assert one is not None
    for narrow in (False, True):
        for picture in (
            along_picture(one, US, narrow=narrow),
            chain_picture(one, US, narrow=narrow),
            travel_picture(one, US),
        ):
            ElementTree.fromstring(svg(picture))


def test_what_is_over_is_hatched_and_what_is_unknown_dotted(result: HouseResult) -> None:
    over, unknown = result.set_called("2"), result.set_called("7")
    assert over is not None
    assert unknown is not None
    assert keyed(along_picture(over, US))["bar-3"]["fill"].startswith("url(#hatch")
    assert "unknown" in keyed(along_picture(unknown, US))["bar-0"]["class"]


def test_a_line_that_leans_is_drawn_up_to_its_block_and_called_so() -> None:
    """Two lines with half each, the second block 2 ft aside: the batten drifts 1 ft, and each leans by that."""
    lines = {"at": ["10' SR", {"at": "10' SL", "block at": "12' SL"}]}
    one = judged(a_house(a_set(lines=lines, high_trim="50 ft")), [a_piece()], [hung()]).sets[0]
    picture = along_picture(one, US)
    drawn = keyed(picture)
    for number, side in ((0, -1.0), (1, 1.0)):
        line = drawn[f"line-{number}"]
        foot = float(picture.data["per-metre"]) * METRES_PER_FOOT
        assert float(line["x1"]) - float(line["x2"]) == pytest.approx(side * foot, abs=0.1)
        assert drawn[f"force-word-{number}"]["text"] == f"line {number + 1} leans"
        on_phone = keyed(along_picture(one, US, narrow=True))
        assert on_phone[f"force-word-{number}"]["text"] == f"line {number + 1}"  # the words of five would run together


def test_a_set_without_figures_is_drawn_as_unknown() -> None:
    demo = eight_sets()
    house = demo.house.replace("low trim: 4 ft @survey", "low trim: unknown", 1)
    result = judge(Texts(house=house, show=demo.show, hang=demo.hang))
    one = result.set_called("1")
    assert one is not None
    assert one.rigged is None
    assert "cannot be drawn" in svg(along_picture(one, US))
    assert "is-unknown" in svg(house_picture(result))


def test_what_is_said_of_a_set_stands_on_clear_paper_above_the_grid(result: HouseResult) -> None:
    """Beside its batten it would stand across its neighbours' lines."""
    told = ("set 2 · header", "loft block, line 3: 560 of 500 lb", "Hang it on lines 2 and 4.")
    drawn = ElementTree.fromstring(svg(house_picture(result, mark="2", told=told)))
    grid = frame_of(result, narrow=False, rows=len(told)).grid
    group = next(one for one in drawn.iter() if one.get("data-part") == "told")
    feet = [float(one.get("y") or "nan") for one in group]
    assert len(feet) == 3
    assert min(feet) >= 14  # its letters are not cut off above
    assert max(feet) < grid - 30  # nor do they reach what is felt, between them and the grid


def test_numbers_side_by_side_do_not_run_together_in_a_house_of_48_sets() -> None:
    """A digit or capital of the face set bold is at most 0.68 of its size wide: measured in a browser with the font."""
    drawn = ElementTree.fromstring(svg(house_picture(judge(demo_texts()))))
    for name, size in (("number", 22.0), ("bricks", 17.0)):
        found = [one for one in drawn.iter() if name in (one.get("class") or "").split() and one.text]
        for one, other in itertools.combinations(found, 2):
            if one.get("y") != other.get("y"):
                continue
            apart = abs(float(one.get("x") or "nan") - float(other.get("x") or "nan"))
            assert apart >= 0.68 * size * (len(one.text or "") + len(other.text or "")) / 2, (one.text, other.text)


@pytest.mark.parametrize("share", [0.9, 1.0, 1.02, 1.1])
def test_a_tick_never_goes_through_a_figure_of_the_small_picture(result: HouseResult, share: float) -> None:
    one = result.set_called("2")
    assert one is not None
    blocks = [row for row in one.rows if row.link == "loft block"]
    drawn = ElementTree.fromstring(svg(surprise_picture(one, share * blocks[0].value.best, US)))
    figures = [one for one in drawn.iter() if "small" in (one.get("class") or "") and one.text]
    tick = next(one for one in drawn.iter() if one.get("class") == "share")
    y = float((tick.get("d") or "").split("L")[0].split()[1])
    for each in figures:
        foot = float(each.get("y") or "nan")
        assert not foot - 9 < y < foot + 1.5


def test_a_batten_that_bends_far_is_drawn_less_enlarged_and_runs_into_no_figure() -> None:
    result = judge(demo_texts())
    one = result.set_called("21")
    assert one is not None
    points = keyed(along_picture(one, US))["pipe"]["d"].removeprefix("M").split("L")
    assert all(148 - 85 <= float(point.split()[1]) <= 148 + 85 for point in points)


def test_an_unknown_that_may_come_over_is_said_as_up_to(result: HouseResult) -> None:
    three = result.set_called("3")
    assert three is not None
    row = next(row for row in three.rows if row.link == "lock")
    assert row.verdict is Verdict.UNKNOWN
    assert of_text(row, US).startswith("up to ")


@pytest.mark.parametrize("rating_of", ["line pull", "resultant", "unknown"])
def test_the_bars_beside_the_first_sentence_print_the_figures_that_it_says(rating_of: str) -> None:
    """Where the rating may be of the resultant a row reaches from T to 1.41 T: both tell the same end of it."""
    demo = eight_sets()
    assert "rating of: line pull" in demo.house
    house = demo.house.replace("rating of: line pull", f"rating of: {rating_of}")
    result = judge(Texts(house=house, show=demo.show, hang=demo.hang))
    surprise = surprise_of(result)
    assert surprise is not None
    one = result.set_called(surprise.label)
    assert one is not None
    told = re.search(r"(?:carr(?:y|ies)|on (?:its|their) blocks?) ([\d, and]+) lb", sentence_of(surprise, one))
    assert told is not None
    drawn = ElementTree.fromstring(svg(surprise_picture(one, surprise.equal, US)))
    printed = {each.text for each in drawn.iter() if "small" in (each.get("class") or "")}
    assert set(told[1].split(" and ")) <= printed
    assert ("block" in told[0]) == (rating_of == "resultant")  # else it is the pull in a line that is told


def test_the_first_sentence_says_where_the_piece_hangs_and_how_wide() -> None:
    result = judge(demo_texts())
    surprise = surprise_of(result)
    assert surprise is not None
    one = result.set_called(surprise.label)
    assert one is not None
    assert ", spread evenly over 40 ft at CL of a 42 ft batten. Equal shares" in sentence_of(surprise, one)


def test_the_callout_gives_the_mend_of_its_own_figure_and_of_no_other() -> None:
    result = judge(demo_texts())
    told = told_of(result, US)
    one = result.set_called(told[0].split()[1])
    assert one is not None
    link = told[1].split(",")[0].split(":")[0]
    (mend,) = told[2:]
    assert mend in {each.mend for each in one.findings if f"/{link}" in each.key}


def test_a_bar_says_its_figure_before_its_limit(result: HouseResult) -> None:
    one = result.set_called("2")
    assert one is not None
    assert re.fullmatch(r"[\d,]+ of [\d,]+ lb", keyed(along_picture(one, US))["bound-0"]["text"])
    narrow = keyed(along_picture(one, US, narrow=True))
    assert narrow["pull-0"]["text"] == keyed(along_picture(one, US))["bound-0"]["text"].split(" ")[0]


def test_the_lock_is_shaded_only_where_it_is_judged_and_the_heights_are_told() -> None:
    """A wall that stands on the deck at low trim: its lock row begins where it hangs free (the house's own figures)."""
    result = judge(demo_texts())
    one = result.set_called("19")
    assert one is not None
    assert one.rigged is not None
    judged = judged_heights(one)
    assert judged == (one.rigged.clear, one.rigged.high)
    assert judged[0] > one.rigged.low
    drawn = svg(travel_picture(one, US))
    assert "judged 16&#x27; 0&quot;" in drawn or "judged 16' 0" in drawn
    band = next(each for each in ElementTree.fromstring(drawn).iter() if each.get("class") == "band")
    assert float(band.get("y") or "nan") + float(band.get("height") or "nan") < 392 - 1
    beyond = beyond_lock_at_low_trim(one)
    assert beyond is not None
    assert beyond.best == out_of_balance(one.rigged, one.stack, one.rigged.low).best  # type: ignore[arg-type]


def test_the_stack_that_will_be_on_is_drawn_first_and_the_other_is_named_beside_it() -> None:
    result = judge(demo_texts())
    one = result.set_called("27")
    assert one is not None
    final = load_in(result.house, "27").final
    assert final != one.stack
    said = [each.text for each in ElementTree.fromstring(svg(travel_picture(one, US, final=final))).iter() if each.text]
    assert said[said.index("planned") - 1] == final.said
    assert f"balanced best by {one.bricks}" in said


@pytest.mark.parametrize("name", ["half", "an old half from the small house"])
def test_both_counts_of_two_sizes_of_brick_stand_within_the_picture_and_the_second_is_named(name: str) -> None:
    texts = two_sizes()
    result = judge(replace(texts, house=texts.house.replace("half", name)))
    seen = 0
    for one in result.sets:
        if one.stack is None or not one.stack.small:
            continue
        seen += 1
        picture = travel_picture(one, US)
        said = {each.words: each for each in picture.shapes if each.tag == "text"}
        count = next(each for each in said.values() if "count" in str(each.attrs["class"]))
        assert re.findall(r"\d+", count.words) == [str(one.stack.bricks), str(one.stack.small)]
        assert any(words.startswith(f"{one.stack.small} {name[:6]}") for words in said)
        for each in said.values():
            if "end" not in str(each.attrs["class"]).split():
                wide = width_of(each.words, str(each.attrs["class"]))
                assert float(each.attrs["x"]) + wide <= picture.width, each.words
    assert seen >= 3


def test_the_ends_of_the_travel_are_called_what_they_are(result: HouseResult) -> None:
    one = result.set_called("5")
    assert one is not None
    said = " ".join(each.words for each in travel_picture(one, US).shapes)
    assert "high trim" in said
    assert "low trim" in said
    assert "storage" not in said  # a word of trims, and nobody wrote one


def test_a_clear_path_of_the_fire_curtain_is_told_without_a_share_of_nothing() -> None:
    result = judge(demo_texts())
    rows = [row for one in result.sets for row in one.rows if row.link == "fire curtain"]
    assert rows
    assert {of_text(row, US) for row in rows if row.verdict is Verdict.WITHIN} <= {"clear of it"}


def test_an_empty_batten_leaves_no_gap_where_a_load_would_be_drawn(result: HouseResult) -> None:
    empty, full = result.set_called("8"), result.set_called("4")
    assert empty is not None
    assert full is not None
    assert not empty.hung
    assert along_picture(full, US).height - along_picture(empty, US).height == pytest.approx(60.0)


@pytest.mark.parametrize("side", ["SR", "SL"])
def test_the_card_of_a_load_at_the_end_of_its_batten_stays_on_the_sheet(side: str) -> None:
    demo = eight_sets()
    show = demo.show.replace("picks: [15' SR, 5' SR, 5' SL, 15' SL]", "picks: [CL]")
    hang = demo.hang.replace("piece: header, centre: 1' SL", f"piece: header, centre: 20' {side}")
    one = judge(Texts(house=demo.house, show=show, hang=hang)).set_called("5")
    assert one is not None
    for narrow in (False, True):
        picture = along_picture(one, US, narrow=narrow)
        found = keyed(picture)
        at, aside = (float(found[key]["transform"][10:].split()[0]) for key in ("load-0", "card-0"))
        half = 75  # of a card, which is 150 wide
        assert at + aside - half >= 0
        assert at + aside + half <= picture.width


@pytest.mark.parametrize("label", ["2", "21", "3", "5"])
def test_the_batten_is_drawn_as_one_curve_without_a_corner(label: str) -> None:
    one = judge(demo_texts()).set_called(label)
    assert one is not None
    d = keyed(along_picture(one, US))["pipe"]["d"]
    points = [tuple(map(float, pair.split())) for pair in d.removeprefix("M").split("L")]
    slopes = [(b[1] - a[1]) / (b[0] - a[0]) for a, b in itertools.pairwise(points)]
    turns = [abs(b - a) for a, b in itertools.pairwise(slopes)]
    # a beam bends everywhere and has corners nowhere: from point to point its slope turns little by little
    assert max(turns) < 0.06 + 0.35 * max(map(abs, slopes))


@pytest.mark.parametrize("delta", [-400.0, 400.0])
def test_what_is_felt_has_one_sign_and_that_is_its_word(delta: float) -> None:
    said = felt(delta, US)
    assert re.match(r"\d+ lb (arbor|batten)-heavy here$", said)
    assert ("arbor" in said) == (delta > 0)


def test_the_file_of_a_set_says_the_house_the_verdict_what_was_not_checked_and_the_caution() -> None:
    result = judge(demo_texts())
    for label, verdict in (("2", "over"), ("7", "unknown"), ("5", "within"), ("6", "out of service")):
        one = result.set_called(label)
        assert one is not None
        said = " ".join(caption_of(result, one))
        for wanted in (f"Set {label}", result.house.name, verdict, "Not checked here: sway and shock", CAUTION):
            assert wanted in said
    assert f"{result.house.name}, {result.house.show}" in caption_of(result)[0]


def test_a_long_label_is_shortened_in_its_lane_and_read_aloud_whole() -> None:
    demo, label = eight_sets(), "Downstage-Electric-No-5"
    result = judge(Texts(house=demo.house.replace('"5"', f'"{label}"'), show=demo.show,
                         hang=demo.hang.replace('set: "5"', f'set: "{label}"')))  # fmt: skip
    drawn = svg(house_picture(result))
    assert f"set {label}, header" in drawn
    assert f">{label}<" not in drawn
    assert ">Do" in drawn


def test_a_name_too_long_for_its_card_ends_with_dots() -> None:
    demo, name = eight_sets(), "Headerwithoutanyspaceinitsnameatall"
    one = judge(Texts(house=demo.house, show=demo.show.replace("piece: header", f"piece: {name}"),
                      hang=demo.hang.replace("piece: header", f"piece: {name}"))).set_called("5")  # fmt: skip
    assert one is not None
    drawn = svg(along_picture(one, US))
    assert f">{name[:23]}…<" in drawn
    assert f"{name}, where its centre hangs" in drawn  # read aloud whole
